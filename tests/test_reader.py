"""What a person can type wrong in a course folder, and how each is told: file, place, found, allowed."""
import os
import random
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from guidegen.errors import BadInput
from guidegen.kit.cells import read_size
from guidegen.kit.reader import read_course, read_joint_file, read_words
from guidegen.kit.records import source_marks
from guidegen.units import Band

PLAIN_COURSE = Path(__file__).parent / "plain_course"  # one or two things of each kind, no mistake
COURSE = {path.relative_to(PLAIN_COURSE).as_posix(): path.read_text(encoding="utf-8")
          for path in sorted(PLAIN_COURSE.rglob("*")) if path.is_file()}
BUSHES, BALLS, SCREWS = (f"data/parts/{name}.csv" for name in ("sleeve_bushings", "ball_bearings", "shoulder_screws"))
SPACERS, WASHERS, NUTS = (f"data/parts/{name}.csv" for name in ("spacers", "washers", "nuts"))
STOCK, PROCESSES, MATERIALS, KITS = "data/stock.csv", "data/processes.csv", "data/materials.csv", "data/kits.yaml"
SETTINGS, SOURCES, CRANK = "data/course.yaml", "data/sources.yaml", "data/joints/crank.yaml"


@pytest.fixture
def folder(tmp_path):
    """A copy of the plain course, to be spoiled."""
    return shutil.copytree(PLAIN_COURSE, tmp_path / "course")


def mistakes_of(folder):
    with pytest.raises(BadInput) as told:
        read_course(folder)
    return told.value.mistakes


def spoil(folder, name, old, new):
    text = (folder / name).read_text(encoding="utf-8")
    assert old in text, f"{name} does not hold {old!r}"
    (folder / name).write_text(text.replace(old, new, 1), encoding="utf-8")


def the_mistake(folder, name, old, new):
    spoil(folder, name, old, new)
    told = mistakes_of(folder)
    assert len(told) == 1, "\n".join(map(str, told))
    assert told[0].file == name
    return told[0]


def test_a_good_course_reads(folder):
    """Every form of cell of the small course becomes the value a person means, in mm and MPa."""
    course = read_course(folder)
    screw, bush = course.parts["screw"], course.parts["bush"]
    assert (screw.shoulder_diameter.least, screw.shoulder_diameter.most) == pytest.approx((7.978, 8))
    assert screw.shoulder_length == Band(40, 40.125, 40.25)
    assert (bush.free_bore.least, bush.free_bore.most) == pytest.approx((8.013, 8.028))
    assert bush.name == "bush, 8 mm"
    assert course.parts["bush-2"].source_of("price") == "memory-l"
    assert course.parts["bush-2"].source_of("length") == "invented"
    assert course.parts["ball"].internal_clearance == Band(0.002, 0.0075, 0.013)
    assert course.materials["steel"].youngs_modulus == 207_000
    assert course.processes["laser"].grade == "" and course.processes["ream"].grade == "H7"
    assert dict(course.kits["kit-1"].parts) == {"bush": 4, "nut": 2, "screw": 2}
    assert course.target_travel == 1 and course.temperature_most == 40 and course.site_address == ""
    assert {"invented", "iso286", "memory-l"} <= set(course.sources)


def test_a_joint_file_keeps_its_lines(folder):
    """Joint files come as written, each key with its line, here and by themselves."""
    crank = read_course(folder).joints["crank"]
    assert crank.data["housing_1"] == {"stock": "ply-6"} and crank.data["bearings"] == ["bush", "bush"]
    assert crank.lines["housing_1", "stock"] == 4 and crank.lines["bearings", 1] == 5
    assert crank.place("housing_1", "process") == "line 3" and crank.place("load") == "line 1"
    alone = read_joint_file(folder / CRANK)
    assert (alone.data, alone.lines) == (crank.data, crank.lines)


@pytest.mark.parametrize("text, unit, least, most", [
    ("8 h8", "mm", 7.978, 8), ("8h8", "mm", 7.978, 8), ("8 mm h8", "in", 7.978, 8), ("0.375 in H7", "mm", 9.525, 9.54),
    ("7.978 to 8.000", "mm", 7.978, 8), ("0.371 to 0.373 in", "mm", 9.4234, 9.4742),
    ("0.371 in to 0.373 in", "mm", 9.4234, 9.4742), ("6 ± 0.4", "mm", 5.6, 6.4), ("6 +- 0.4", "mm", 5.6, 6.4),
    ("6 +/- 0.4 mm", "in", 5.6, 6.4), ("1/16 in ± 0.004 in", "mm", 1.4859, 1.6891), ("7 +0/-0.12", "mm", 6.88, 7),
    ("7 + 0 / - 0.12", "mm", 6.88, 7), ("7 +0/−0.12", "mm", 6.88, 7), ("8 +0.25/+0.05", "mm", 8.05, 8.25),
    ("9/32 +0/-0.005 in", "mm", 7.01675, 7.14375), ("1 1/4 in ± 0.005", "mm", 31.623, 31.877)])
def test_the_forms_of_a_size(text, unit, least, most):
    """Each documented form, with a unit in the cell or from the column; typical is the middle."""
    band = read_size(text, unit)
    assert (band.least, band.most) == pytest.approx((least, most), abs=1e-6)
    assert band.typical == pytest.approx((least + most) / 2, abs=1e-6)


# by name: file, old, new, place as "row column", part of what was found, part of what is allowed
CELLS = {
    "decimal comma": (BUSHES, "8.013 to 8.028", '"8,013 to 8,028"', "4 free_bore", "decimal comma", "8 h8"),
    "decimal comma unquoted": (BUSHES, "8.013 to 8.028", "8,013 to 8,028", "4", "13 cells", "11 cells"),
    "decimal comma in a price": (BUSHES, "0.5,invented\n", '"0,5",invented\n', "3 price", "decimal comma", "1.5"),
    "no limits": (BUSHES, "12 r6", "12", "3 outside_diameter", '"12", without limits', "12 r6|7.978 to 8.000"),
    "wrong unit": (BUSHES, "12 r6", "12 kg r6", "3 outside_diameter", "another kind (kg)", "limits"),
    "unknown unit": (BUSHES, "0.3,bronze", "0.3 parsek,bronze", "3 chamfer", "unknown unit (parsek)", "5/16 in"),
    "swapped limits": (BUSHES, "8.013 to 8.028", "8.028 to 8.013", "4 free_bore", "limits swapped", "limits"),
    "swapped deviations": (BUSHES, "8 +0.1/-0.1", "8 -0.1/+0.1", "4 length", "deviations swapped", "limits"),
    "negative tolerance": (BUSHES, "12 ± 0.02", "12 ± -0.02", "4 outside_diameter", "negative", "limits"),
    "outside the table": (BUSHES, "12 r6", "12 q6", "3 outside_diameter", "letter q", "limits"),
    "not a class": (BUSHES, "12 r6", "12 r66", "3 outside_diameter", "IT66", "limits"),
    "negative size": (WASHERS, "1.4 to 1.8", "-1.6 ± 0.1", "3 thickness", '"-1.6 ± 0.1"', "above 0 mm"),
    "zero thickness": (STOCK, "6 ± 0.4", "0 ± 0", "3 thickness", '"0 ± 0"', "above 0 mm"),
    "huge size": (STOCK, "6 ± 0.4", "6 ± 0.4 km", "3 thickness", "km", "above 0 mm"),
    "not a number": (BUSHES, "0.3,bronze", "nan,bronze", "3 chamfer", "not a finite number", "length"),
    "infinite": (MATERIALS, "0.29", "inf", "3 poisson", "not a finite number", "plain number"),
    "infinite by digits": (MATERIALS, "0.29", "1e999", "3 poisson", "not a finite number", "plain number"),
    "not a number in a size": (BUSHES, "12 ± 0.02", "nan ± 0.02", "4 outside_diameter", "finite", "limits"),
    "words for a number": (BUSHES, "0.3,bronze", "small,bronze", "3 chamfer", "not a number", "5/16 in"),
    "empty cell": (BUSHES, "12 r6", "", "3 outside_diameter", "an empty cell", "limits"),
    "formula": (BUSHES, "bush,8,8.013", "=1+2,8,8.013", "4 name", 'formula ("=1+2")', "its value"),
    "formula for a number": (BUSHES, "0.3,bronze", "=SUM(A1),bronze", "3 chamfer", "formula", "its value"),
    "formula with plus": (BUSHES, "bush,8,8.013", "+cmd,8,8.013", "4 name", 'formula ("+cmd")', "its value"),
    "formula with minus": (BUSHES, "bush,8,8.013", "-2+3,8,8.013", "4 name", "formula", "its value"),
    "formula with at": (BUSHES, "oiled", "@SUM(1)", "3 finish", 'formula ("@SUM(1)")', "its value"),
    "row too long": (WASHERS, "0.04,invented", "0.04,invented,more", "3", "11 cells", "10 cells"),
    "row too short": (WASHERS, ",0.04,invented", "", "3", "8 cells", "10 cells"),
    "unclosed quote": (WASHERS, "washer,washer", 'washer,"washer', "3", "cannot be taken apart", "between commas"),
    "unknown column": (WASHERS, "finish", "finnish", "1 finnish", "unknown column", "finish"),
    "unknown unit of a column": (WASHERS, "-,-,-,mm", "-,-,-,parsek", "2 hole", "parsek", "length"),
    "wrong unit of a column": (MATERIALS, "GPa", "mm", "2 youngs_modulus", "another kind (mm)", "GPa"),
    "unit over words": (WASHERS, "-,-,-,mm", "-,mm,-,mm", "2 name", 'the unit "mm"', "-"),
    "no unit": (WASHERS, "-,-,-,mm", "-,-,-,-", "3 hole", "no unit", "limits"),
    "capital id": (WASHERS, "washer,washer", "Washer,washer", "3 id", '"Washer"', "a-z"),
    "empty id": (WASHERS, "washer,washer", ",washer", "3 id", '""', "a-z"),
    "path as id": (WASHERS, "washer,washer", "../x,washer", "3 id", '"../x"', "a-z"),
    "long id": (WASHERS, "washer,washer", "w" * 25 + ",washer", "3 id", "w" * 25, "at most 24"),
    "unknown choice": (WASHERS, "large", "huge", "3 kind", '"huge"', "large, small"),
    "unknown material": (WASHERS, "steel", "steal", "3 material", '"steal"', "bronze"),
    "unknown source": (WASHERS, "invented", "invnted", "3 source", '"invnted"', "sources.yaml"),
    "unknown source of a column": (
        WASHERS, "invented", "invented; price=gossip", "3 source", '"gossip"', "sources.yaml"),
    "source of an unknown column": (WASHERS, "invented", "invented; prise=memory-l", "3 source", "prise", "price"),
    "no source for the row": (WASHERS, "invented", "price=memory-l", "3 source", "no source for the row", "first"),
    "fraction of a ball": (BALLS, ",7,3.969", ",7.5,3.969", "3 balls", '"7.5"', "whole number"),
    "ratio out of bounds": (MATERIALS, "0.29", "0.7", "3 poisson", '"0.7"', "at most 0.5"),
    "stiffer than anything": (STOCK, ",7200,", ",1e90,", "3 modulus_across", '"1e90"', "at most 1e+06 MPa"),
    "bias off by a decimal": (PROCESSES, ",-,0,0.04", ",-,20,0.04", "3 bias", '"20"', "at most 2 mm"),
    "control character": (WASHERS, "washer,washer", "washer,wash\x07er", "3 name", "not plain", "printable"),
}
CONTRADICTIONS = {
    "screw and its nominal": (
        SCREWS, "screw,screw,8,", "screw,screw,8.5,", "3 shoulder_diameter", "7.989 mm", "nominal 8.5"),
    "neck wider than the shoulder": (SCREWS, "4.4 to 4.58", "8.4 to 8.58", "3 neck_diameter", "8.58", "M6"),
    "neck wider than the thread": (SCREWS, "4.4 to 4.58", "6.4 to 6.58", "3 neck_diameter", "6.58", "M6"),
    "thread wider than the shoulder": (SCREWS, "M6", "M10", "3 thread", "10 mm", "smaller than the shoulder"),
    "unknown thread": (SCREWS, "M6", "M7", "3 thread", '"M7"', "M6, M8"),
    "head smaller than the shoulder": (SCREWS, "12.7 to 13", "7 to 7.5", "3 head_diameter", "7 mm", "shoulder"),
    "neck longer than the thread": (SCREWS, ",2.6,", ",12,", "3 neck_width", "12 mm", "11 mm"),
    "socket larger than the head": (SCREWS, ",4,steel", ",14,steel", "3 socket", "14 mm", "head"),
    "bore larger than the bush": (BUSHES, "12 r6", "8 r6", "3 free_bore", "8.028", "outside diameter"),
    "bore of another size": (BUSHES, "8 F7", "8.5 F7", "3 free_bore", "8.5", "nominal 8"),
    "chamfer wider than the wall": (BUSHES, "0.3,bronze", "2.5,bronze", "3 chamfer", "2.5 mm", "wall"),
    "ball too large": (BALLS, "3.969", "7.5", "3 ball_diameter", "7.5 mm", "7"),
    "balls beyond the ring": (BALLS, ",15,12.2", ",19,12.2", "3 pitch_diameter", "19 mm", "stay between"),
    "too many balls": (BALLS, ",7,3.969", ",12,3.969", "3 balls", "12 of 3.969", "side by side"),
    "inner land beyond the balls": (BALLS, "12.2", "15.5", "3 inner_land", "15.5 mm", "pitch circle"),
    "outer land inside": (BALLS, "17.8", "14", "3 outer_land", "14 mm", "pitch circle"),
    "unknown group": (BALLS, "CN,", "C9,0.002 to 0.013", "3 clearance_group", "C9", "CN"),
    "clearance outside its group": (
        BALLS, "CN,", "CN,0.005 to 0.02", "3 internal_clearance", "0.005 to 0.02", "0.002 to 0.013"),
    "bearing of another bore": (BALLS, "8 +0/-0.008", "9 +0/-0.008", "3 bore", "8.996", "nominal 8"),
    "hole larger than the ring": (SPACERS, "8.05 to 8.1", "8.05 to 10.3", "3 hole", "10.3", "outside diameter"),
    "hole of another size": (SPACERS, "ring,ring,ring,8,", "ring,ring,ring,6,", "3 hole", "8.075", "nominal 6"),
    "hole larger than the washer": (WASHERS, "8.4 to 8.62", "16.4 to 16.6", "3 hole", "16.6", "outside diameter"),
    "nut smaller than its thread": (NUTS, "9.78 to 10", "5 to 5.5", "3 across_flats", "5 mm", "6 mm"),
    "yields after it breaks": (MATERIALS, "600,800", "900,800", "3 yield_stress", "900 MPa", "800 MPa"),
    "stronger for long": (STOCK, "30,18", "18,30", "3 hoop_limit_long", "30 MPa", "18 MPa"),
    "unknown kind of stock": (PROCESSES, "plastic wood", "plastic glass", "3 stocks", '"glass"', "print"),
    "shaft class for a hole": (PROCESSES, "H7", "h7", "4 grade", "shaft class", "H7"),
    "no such class": (PROCESSES, "H7", "Q7", "4 grade", "letter Q", "H7"),
    "class and bias": (PROCESSES, "H7,0,", "H7,0.1,", "4 grade", "bias", "no grade"),
}


def check(folder, case):
    name, old, new, place, found, allowed = case
    told = the_mistake(folder, name, old, new)
    row, *column = place.split()
    assert told.place == ", column ".join([f"row {row}", *column])
    assert found in told.found
    assert any(word in told.allowed for word in allowed.split("|")), told.allowed


@pytest.mark.parametrize("case", CELLS.values(), ids=CELLS)
def test_a_wrong_cell_is_told(folder, case):
    """One wrong cell gives one mistake: the file, the row as a spreadsheet counts, the column, the cell."""
    check(folder, case)


@pytest.mark.parametrize("case", CONTRADICTIONS.values(), ids=CONTRADICTIONS)
def test_a_part_that_contradicts_itself_is_told(folder, case):
    """Cells that are each right but cannot be together, or contradict their standard."""
    check(folder, case)


def test_ids_are_taken_once_over_all_part_files(folder):
    """The second row with an id is told, with the place of the first, in one file or over two."""
    told = the_mistake(folder, BUSHES, "bush-2,", "bush,")
    assert told.place == "row 4, column id" and f"{BUSHES}, row 3" in told.found
    told = the_mistake_again(folder, WASHERS, "washer,washer", "bush,washer")
    assert told.file == WASHERS and BUSHES in told.found


def the_mistake_again(folder, name, old, new):
    spoil(folder, BUSHES, "\nbush,bush,", "\nbush-2,bush,")
    return the_mistake(folder, name, old, new)


def test_a_missing_column_is_told_once(folder):
    """A file without a needed column: that alone is told, its rows and the kits that use them are not blamed."""
    name = "data/parts/nuts.csv"
    text = COURSE[name].replace(",price", "").replace("-,-,-\n", "-,-\n").replace(",0.04", "")
    (folder / name).write_text(text)
    (told,) = mistakes_of(folder)
    assert (told.file, told.place, told.found) == (name, "row 1, column price", "no such column")


def test_a_column_twice_is_told(folder):
    """Which of the two counts is anybody's guess."""
    name = "data/parts/nuts.csv"
    head, units, row = COURSE[name].splitlines()
    (folder / name).write_text(f"{head},name\n{units},-\n{row},nut\n")
    (told,) = mistakes_of(folder)
    assert (told.place, told.found, told.allowed) == ("row 1, column name", "this column twice", "each column once")


def test_no_row_of_units_is_told(folder):
    """A spreadsheet that goes on with parts where units belong."""
    told = the_mistake(folder, WASHERS, "-,-,-,mm,mm,mm,-,-,-,-\n", "")
    assert (told.place, told.found) == ("row 2", "no row of units")
    assert "-" in told.remedy


def test_semicolons_are_told(folder):
    """A spreadsheet saved with semicolons and decimal commas."""
    (folder / WASHERS).write_text(COURSE[WASHERS].replace(",", ";"))
    (told,) = mistakes_of(folder)
    assert (told.place, told.found, told.allowed) == (
        "row 1", "semicolons between the columns", "commas between the columns")


@pytest.mark.parametrize("name", COURSE)
def test_an_empty_and_a_missing_file_are_told(folder, name):
    """Any file of the course, empty or gone: that file, and nothing else is blamed for it."""
    (folder / name).write_text("\n\n")
    (told,) = mistakes_of(folder)
    assert (told.file, told.place, told.found) == (name, "file", "an empty file")
    (folder / name).unlink()
    if name == CRANK:
        assert read_course(folder).joints == {}
    else:
        (told,) = mistakes_of(folder)
        assert (told.file, told.place, told.found) == (name, "file", "no such file")


@pytest.mark.parametrize("name", [WASHERS, KITS, CRANK])
def test_a_file_that_is_not_utf_8_is_told(folder, name):
    """Text in another encoding, with the line of the first wrong byte; a byte order mark is no mistake."""
    text = COURSE[name]
    (folder / name).write_bytes(b"\xef\xbb\xbf" + text.encode())
    read_course(folder)
    lines = text.splitlines(keepends=True)
    (folder / name).write_bytes("".join(lines[:2]).encode() + "# Grün\n".encode("latin-1"))
    (told,) = mistakes_of(folder)
    assert (told.file, told.place) == (name, "line 3") and "0xfc" in told.found and "UTF-8" in told.allowed
    (folder / name).write_bytes(text.encode("utf-16"))
    assert "UTF-8" in mistakes_of(folder)[0].allowed


def test_a_spreadsheet_s_own_file_is_told(folder):
    """A binary file, a folder and a far too large one under the name of a table."""
    (folder / WASHERS).write_bytes(b"PK\x03\x04\x00\x00")
    (told,) = mistakes_of(folder)
    assert told.found == "a zero byte"
    (folder / WASHERS).write_text("x" * 2_000_001)
    (told,) = mistakes_of(folder)
    assert told.found == "2000001 bytes" and "2000000" in told.allowed
    (folder / WASHERS).unlink()
    (folder / WASHERS).mkdir()
    assert mistakes_of(folder)[0].found == "no such file"


def test_a_file_of_an_unknown_name_is_told(folder):
    """A parts file that nobody would read."""
    shutil.copy(folder / WASHERS, folder / "data/parts/washer.csv")
    (told,) = mistakes_of(folder)
    assert told.file == "data/parts/washer.csv" and "washers.csv" in told.allowed


# by name: file, old, new, place, part of what was found, part of what is allowed
OUTLINES = {
    "repeated key": (
        KITS, "    nut: 2\n", "    nut: 2\n    screw: 3\n", "line 8", "screw again; it stands on line 5", "once"),
    "tab": (KITS, "    nut", "\tnut", "line 7", "a tab", "spaces"),
    "anchor": (KITS, "parts:", "parts: &all", "line 4", "an anchor (&all)", "written out"),
    "tag": (KITS, "title: Kit", "title: !!python/object:os.system Kit", "line 2", "a tag", "plain words"),
    "two documents": (KITS, "kit-1:", "a: 1\n---\nkit-1:", "line 2", "second document", "one document"),
    "not YAML": (KITS, "title: Kit", "title: Kit: big", "line 2", "not YAML", "key: value"),
    "unclosed": (KITS, "title: Kit", "title: [Kit", "line 3", "not YAML", "key: value"),
    "a key that is a list": (CRANK, "title: Crank", "? [a, b]\n: Crank", "line 1", "not a word", "before the colon"),
    "an empty key": (CRANK, "title: Crank", "\"\": Crank", "line 1", "not a word", "before the colon"),
    "control character": (CRANK, "Crank", "Cr\x07ank", "line 1", "0x7", "printable"),
    "unknown part": (KITS, "bush: 4", "bosh: 4", "line 6", '"bosh"', "data/parts"),
    "negative count": (KITS, "bush: 4", "bush: -4", "line 6", '"-4" of bush', "whole number above 0"),
    "no count": (KITS, "bush: 4", "bush:", "line 6", "nothing of bush", "whole number above 0"),
    "zero count": (KITS, "bush: 4", "bush: 0", "line 6", '"0" of bush', "whole number above 0"),
    "fractional count": (KITS, "bush: 4", "bush: 2.5", "line 6", '"2.5" of bush', "whole number above 0"),
    "count in words": (KITS, "bush: 4", "bush: four", "line 6", '"four" of bush', "whole number above 0"),
    "true for a count": (KITS, "bush: 4", "bush: true", "line 6", '"True" of bush', "whole number above 0"),
    "kit id": (KITS, "kit-1:", "Kit 1:", "line 1", '"Kit 1"', "a-z"),
    "unknown key of a kit": (KITS, "title: Kit", "titel: Kit\n  title: Kit", "line 2", '"titel"', "title"),
    "units of a kit": (KITS, "units: mm", "units: cm", "line 3", '"cm"', "mm, in"),
    "unknown setting": (SETTINGS, "teams: 4", "teams: 4\nteam: 4", "line 5", '"team"', "teams"),
    "missing setting": (SETTINGS, "teams: 4\n", "", "line 1", "no teams", "teams:"),
    "setting without unit": (SETTINGS, "1 mm", "1", "line 10", "no unit for target_travel", "length"),
    "setting of another kind": (SETTINGS, "1 mm", "1 kg", "line 10", "another kind (kg)", "length"),
    "setting with decimal comma": (SETTINGS, "1 mm", "1,5 mm", "line 10", "decimal comma", "length"),
    "settings swapped": (SETTINGS, "5 degC", "50 degC", "line 8", "above temperature_most", "lower"),
    "choice of a setting": (SETTINGS, "A4", "A5", "line 6", '"A5"', "A4, Letter"),
    "list for a setting": (
        SETTINGS, "title: A course", "title: [A, course]", "line 1", "a list under title", "one value"),
    "kind of a source": (SOURCES, "kind: invented", "kind: rumour", "line 3", '"rumour"', "memory"),
    "source key": (SOURCES, "invented:", "Invented!:", "line 1", "Invented!", "a-z"),
    "source that is no mapping": (
        SOURCES, "  title: Invented\n  kind: invented", "  just a name", "line 1", '"just a name"', "key: value"),
}


@pytest.mark.parametrize("case", OUTLINES.values(), ids=OUTLINES)
def test_a_wrong_line_is_told(folder, case):
    """One wrong line of a YAML file: the file, the line, what stands there, what may."""
    name, old, new, place, found, allowed = case
    spoil(folder, name, old, new)
    told = [mistake for mistake in mistakes_of(folder) if mistake.file == name]
    assert len(told) == 1, "\n".join(map(str, told))
    assert told[0].place == place and found in told[0].found and allowed in told[0].allowed


def test_a_course_does_not_change_the_package_s_sources(folder):
    """iso286 comes with the program."""
    spoil(folder, SOURCES, "invented:", "iso286:\n  title: Mine\n  kind: book\ninvented:")
    (told,) = mistakes_of(folder)
    assert told.place == "line 1" and "comes with the program" in told.found and "your own" in told.allowed


def test_an_explosion_is_refused_before_it_goes_off(folder):
    """Aliases that would unfold to a thousand million words, levels without end, and files without end."""
    bomb = ["a0: &a0 [x, x, x, x, x, x, x, x, x, x]"]
    bomb += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]" for n in range(1, 9)]
    (folder / CRANK).write_text("\n".join(bomb))
    told = mistakes_of(folder)
    assert {m.place for m in told} == {f"line {n}" for n in range(1, 10)}
    assert any("an alias (*a0)" in m.found for m in told) and all(m.allowed == "everything written out" for m in told)
    (folder / CRANK).write_text("a: " + "[" * 5000 + "]" * 5000)
    (deep,) = mistakes_of(folder)
    assert deep.place == "line 1" and "levels" in deep.found and "8 levels" in deep.allowed
    (folder / CRANK).write_text("a: " + "x" * 200_001)
    (large,) = mistakes_of(folder)
    assert "200000 bytes" in large.allowed


def test_words_of_yaml_stay_words(folder):
    """yes, no, dates, times and long digits are text; only plain decimal numbers become numbers."""
    meant = {"no": "no", "12:30": "12:30", "2024-01-01": "2024-01-01", "12": 12, "1.5": 1.5, ".nan": ".nan",
             "007": "007", "'12'": "12", "1e3": 1000, "0x10": "0x10", "~": None, "9" * 5000: "9" * 5000}
    (folder / CRANK).write_text("".join(f"k{n}: {written}\n" for n, written in enumerate(meant)))
    assert list(read_course(folder).joints["crank"].data.values()) == list(meant.values())


def test_every_mistake_of_every_file_is_told_at_once(folder):
    """Four files, six mistakes, one run; each is one sentence with its remedy where there is one."""
    spoil(folder, BUSHES, "8 F7", "8")
    spoil(folder, BUSHES, "12 ± 0.02", "12 ± 0,02")
    spoil(folder, WASHERS, "steel,plain,0.04", "=steel,plain,cheap")
    spoil(folder, KITS, "bush: 4", "bosh: 4")
    spoil(folder, SETTINGS, "A4", "A5")
    told = mistakes_of(folder)
    assert [(m.file, m.place) for m in told] == [
        (BUSHES, "row 3, column free_bore"), (BUSHES, "row 4"), (WASHERS, "row 3, column material"),
        (WASHERS, "row 3, column price"), (KITS, "line 6"), (SETTINGS, "line 6")]
    assert "Perhaps you mean bush." in str(told[4])
    assert all(str(m).startswith(f"{m.file}, {m.place}: found ") and m.allowed for m in told)


def test_the_order_of_rows_makes_no_difference(folder):
    """Shuffled rows, in every table, give the same course with its parts in the same order."""
    before = read_course(folder)
    shuffle = random.Random(4).shuffle
    for path in sorted((folder / "data").rglob("*.csv")):
        head, units, *rows = path.read_text().splitlines()
        shuffle(rows)
        path.write_text("\n".join([head, units, *reversed(rows)]) + "\n")
    after = read_course(folder)
    assert after == before and list(after.parts) == list(before.parts)


def test_blank_rows_and_padding_are_no_mistake(folder):
    """What spreadsheets leave behind: empty rows, cells with nothing in them, fixed spaces in numbers, line ends."""
    text = COURSE[WASHERS].replace("invented\n", "invented,,\n,,,\n").replace("1.4 to 1.8", "1.4\u00a0to 1.8\u00a0mm")
    (folder / WASHERS).write_bytes((text + ",,,,,,,,,\n").replace("\n", "\r\n").encode())
    assert read_course(folder).parts["washer"].thickness.most == 1.8


def test_rows_are_counted_as_a_spreadsheet_counts(folder):
    """A blank row, and a cell of two lines, above the mistake."""
    spoil(folder, BUSHES, '"bush, 8 mm"', '"bush,\n8 mm"')
    spoil(folder, BUSHES, "bush-2,", ",,,\nbush-2,")
    spoil(folder, BUSHES, "12 ± 0.02", "12")
    assert [m.place for m in mistakes_of(folder)] == ["row 3, column name", "row 5, column outside_diameter"]


def test_a_row_with_a_mistake_still_counts_as_there(folder):
    """A kit is not blamed for naming a part whose row, or whole file, cannot be read."""
    spoil(folder, BUSHES, "8 F7", "8 F")
    assert [m.file for m in mistakes_of(folder)] == [BUSHES]
    (folder / BUSHES).write_text("")
    assert [m.file for m in mistakes_of(folder)] == [BUSHES]


def test_marks_of_a_source_cell():
    """A default for the row, then single columns."""
    assert source_marks("iso7379; price=invented ;thread = memory-h") == (
        "iso7379", {"price": "invented", "thread": "memory-h"})
    assert source_marks("price=invented") == ("", {"price": "invented"})


def test_shared_words_are_checked(tmp_path):
    """Cautions and glossary: unknown place, unknown source, a word twice, a term without meaning."""
    (tmp_path / "cautions.yaml").write_text(
        "one:\n  title: T\n  text: X\n  where: [the moon]\n  source: hearsay\n"
        "two:\n  title: T\n  text: X\n  source: iso286\n")
    (tmp_path / "glossary.yaml").write_text(
        "Bush:\n  meaning: M\n  also_called: [sleeve]\nSleeve:\n  meaning: M\nPin: {}\n")
    with pytest.raises(BadInput) as told:
        read_words(tmp_path)
    assert [(m.file.split("/")[-1], m.place) for m in told.value.mistakes] == [
        ("cautions.yaml", "line 4"), ("cautions.yaml", "line 5"), ("cautions.yaml", "line 6"),
        ("glossary.yaml", "line 4"), ("glossary.yaml", "line 6")]
    assert "press fit" in told.value.mistakes[0].allowed


def test_a_joint_file_by_itself_is_told_under_its_own_name(tmp_path):
    """Missing, or not YAML: one mistake, no traceback."""
    with pytest.raises(BadInput) as told:
        read_joint_file(tmp_path / "none.yaml")
    assert told.value.mistakes[0].found == "no such file" and told.value.mistakes[0].file.endswith("none.yaml")


def test_whatever_is_typed_there_is_no_traceback(folder):
    """400 files with signs of every kind put anywhere: read, or told in the one form."""
    dice, names = random.Random(286), sorted(COURSE)
    signs = ["=", '"', ",", "\n", "\t", "-", "±", " to ", "/", "1e9", "nan", "é", "\0", "\u2028", "&a ", "*a", "!t ",
             "{", "}", "[", "]", ": ", "- ", "|", ">", "%", "`", "h8", "in", "\ufeff", "1/0", "#", "()", "**", "^", "٣", "🙂"]
    for _ in range(400):
        name = dice.choice(names)
        text = COURSE[name]
        for _ in range(dice.choice([1, 1, 2, 5])):
            at = dice.randrange(len(text))
            text = text[:at] + dice.choice(signs) + text[at + dice.choice([0, 1, 3]):]
        (folder / name).write_text(text, encoding="utf-8")
        try:
            read_course(folder)
        except BadInput as told:
            assert told.mistakes and all(m.file and m.place and m.found and m.allowed for m in told.mistakes)
        (folder / name).write_text(COURSE[name], encoding="utf-8")


def test_reading_takes_well_under_a_second():
    """The demo course, in a process of its own, all imports included: under 1 s of processor time (best of three)."""
    code = "from guidegen.kit.reader import read_course; read_course('.')"
    root = Path(__file__).parent.parent

    def seconds():
        before = os.times()
        subprocess.run([sys.executable, "-c", code], cwd=root, check=True)
        after = os.times()
        return after.children_user + after.children_system - before.children_user - before.children_system

    assert min(seconds() for _ in range(3)) < 1
