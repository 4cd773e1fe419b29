"""What a person can type wrong in grid.yaml: each told with its line, what was found and what is allowed."""
import shutil
from pathlib import Path

import pytest

from guidegen.errors import BadInput
from guidegen.joint import expand
from guidegen.kit.reader import read_course

PLAIN_COURSE = Path(__file__).parent / "plain_course"
GRID = """\
arm: 100 mm
axial: 2 N
shock: 1.5
gap_tolerance: 0.1 mm
series:
  - kit: kit-1
    loads: [20 N]
    edge: 18 mm
    screws: [screw]
    standoffs: [10 mm]
    housings:
      ply: {stock: ply-6, process: laser}
    pairs:
      - {bearings: [bush, bush], rings: [loose], fits: {ply: bonded}}
    layouts:
      a: {plate: {stock: ply-6, process: laser}, after: [[]], between: [0.5]}
      b: {plate: {stock: ply-6, process: laser}, overhangs: [10 mm]}
"""
SECOND = """\
  - kit: kit-1
    loads: [40 N]
    edge: 18 mm
    screws: [screw]
    housings:
      wood: {stock: ply-6, process: laser}
    pairs:
      - {bearings: [bush], fits: {wood: bonded}}
    layouts:
      b: {plate: {stock: ply-6, process: laser}, overhangs: [10 mm]}
"""
# by name: old, new, line, part of what was found, part of what is allowed
SPOILED = {
    "motion of no kind": ("shock", "motion: {kind: wave}\nshock", 3, 'kind of motion "wave"', "swing or turn or hand"),
    "swing without rate": ("shock", "motion: {kind: swing, angle: 70 deg}\nshock", 3, "no rate", "rate: …"),
    "turn by a swing's rate": ("    loads", "    motion: {kind: turn, speed: 9 rpm, rate: 6 /min}\n    loads",
                               7, 'unknown key "rate"', "speed"),
    "swing in millimetres": ("shock", "motion: {kind: swing, angle: 7 mm, rate: 6 /min}\nshock", 3,
                             "another kind (mm)", "70 deg"),
    "load that goes nowhere": ("    loads", "    direction: up\n    loads", 7, '"up"', "fixed or turning"),
    "no arm": ("arm: 100 mm\n", "", 1, "no arm", "arm: …"),
    "arm without unit": ("100 mm", "100", 1, '"100", no unit', "8 mm"),
    "shock with a unit": ("1.5", "1.5 N", 3, "a unit (N)", "1.5"),
    "unknown key at the top": ("shock", "shok: 1\nshock", 3, 'unknown key "shok"', "shock"),
    "series that is no list": ("series:\n  - kit", "series:\n    kit", 5, '"{', "a list"),
    "no screws": ("    screws: [screw]\n", "", 6, "no screws", "screws: …"),
    "no standoffs for a pair": ("    standoffs: [10 mm]\n", "", 6, "no standoffs", "standoffs: …"),
    "unknown key of a series": ("    loads", "    lods: [5 N]\n    loads", 7, 'unknown key "lods"', "loads"),
    "unknown kit": ("kit: kit-1", "kit: kit-9", 6, '"kit-9"', "kits.yaml"),
    "one load": ("[20 N]", "20 N", 7, '"20 N" under loads', "a list"),
    "load of another kind": ("20 N", "20 kg", 7, "another kind (kg)", "30 N"),
    "edge without unit": ("18 mm", "18", 8, "no unit", "8 mm"),
    "unknown screw": ("[screw]", "[scrow]", 9, '"scrow"', "parts/"),
    "a bush for a screw": ("[screw]", "[bush]", 9, "which is no shoulder screw", "shoulder screw"),
    "a screw that the kit has not": ("bush, bush]", "ball, bush]", 14, "not in the kit kit-1", "part of the kit"),
    "standoff with decimal comma": ("[10 mm]\n    housings", '["10,5 mm"]\n    housings', 10, "decimal comma", "8 mm"),
    "capital in a housing's name": ("ply: {stock: ply-6, process: laser}\n    pairs:\n      - {bearings: [bush, bush], "
                                    "rings: [loose], fits: {ply", "Ply: {stock: ply-6, process: laser}\n    pairs:\n"
                                    "      - {bearings: [bush, bush], rings: [loose], fits: {Ply", 12, '"Ply"', "a-z"),
    "unknown stock": ("ply: {stock: ply-6", "ply: {stock: ply-9", 12, '"ply-9"', "stock.csv"),
    "process for another stock": ("process: laser}\n    pairs", "process: ream}\n    pairs", 12, "ream in wood", "for wood"),
    "three bearings": ("[bush, bush]", "[bush, bush, bush]", 14, "3 bearings", "one or two"),
    "rings of no kind": ("[loose]", "[tight]", 14, '"tight"', "loose or clamped"),
    "fit of no kind": ("{ply: bonded}", "{ply: glued}", 14, '"glued"', "press or slip or bonded"),
    "fit in no housing": ("{ply: bonded}", "{ply: bonded, plyy: bonded}", 14, '"plyy"', "ply"),
    "unknown layout": ("      b:", "      d:", 17, '"d"', "a, b, c"),
    "no plate": ("{plate: {stock: ply-6, process: laser}, overhangs", "{overhangs", 17, "no plate", "plate: …"),
    "no place of the load": (", overhangs: [10 mm]}", "}", 17, "no place of the load", "overhangs"),
    "between in layout b": ("overhangs: [10 mm]", "overhangs: [10 mm], between: [0.5]", 17, '"between"', "overhangs"),
    "a share above one": ("between: [0.5]", "between: [1.5]", 16, '"1.5" of the separation', "between 0 and 1"),
    "a nut as filler": ("after: [[]]", "after: [[nut]]", 16, "which is no spacer or washer", "spacer or washer"),
    "an arm pressed on": ("process: laser}, after", "process: laser, fit: press}, after", 16, '"press"', "slip or bonded"),
    "body of no kind": ("    edge", "    body: tube\n    edge", 8, '"tube"', "plates or block"),
}


@pytest.fixture
def folder(tmp_path):
    return shutil.copytree(PLAIN_COURSE, tmp_path / "course")


def mistakes_of(folder, grid):
    (folder / "data/grid.yaml").write_text(grid, encoding="utf-8")
    with pytest.raises(BadInput) as told:
        read_course(folder)
    return told.value.mistakes


def test_a_good_grid_reads(folder):
    """The grid that the cases below spoil has no mistake, alone or with a second series of single bearings."""
    for grid in (GRID, GRID + SECOND.replace("wood", "ply")):
        (folder / "data/grid.yaml").write_text(grid, encoding="utf-8")
        expand(read_course(folder))


@pytest.mark.parametrize("case", SPOILED.values(), ids=SPOILED)
def test_a_wrong_line_of_the_grid_is_told(folder, case):
    """One wrong word gives one mistake: the line, what stands there, what may."""
    old, new, line, found, allowed = case
    assert GRID.count(old) >= 1
    (told,) = mistakes_of(folder, GRID.replace(old, new, 1))
    assert (told.file, told.place) == ("data/grid.yaml", f"line {line}"), told
    assert found in told.found and allowed in told.allowed, told


def test_a_housing_has_one_name_in_a_kit(folder):
    """Its name is in the address of a joint: one housing with two names, or one name for two, is told."""
    (told,) = mistakes_of(folder, GRID + SECOND)
    assert told.place == "line 23" and "ply-6 by laser is called ply" in told.found
    (folder / "data/stock.csv").write_text((folder / "data/stock.csv").read_text() + (
        (folder / "data/stock.csv").read_text().splitlines()[2].replace("ply-6", "ply-9") + "\n"))
    (told,) = mistakes_of(folder, GRID + SECOND.replace("wood", "ply").replace("ply: {stock: ply-6", "ply: {stock: ply-9"))
    assert "in another series ply is ply-6 by laser" in told.found


def test_every_mistake_of_a_grid_is_told_at_once(folder):
    """Three in three lines; names are not doubted while the file that defines them cannot be read."""
    spoiled = GRID.replace("20 N", "20").replace("[screw]", "[scrow]").replace("{ply: bonded}", "{ply: glued}")
    assert [told.place for told in mistakes_of(folder, spoiled)] == ["line 7", "line 9", "line 14"]
    (folder / "data/parts/nuts.csv").write_text("")
    places = [(told.file, told.place) for told in mistakes_of(folder, spoiled)]
    assert places == [("data/parts/nuts.csv", "file"), ("data/grid.yaml", "line 7"), ("data/grid.yaml", "line 14")]
