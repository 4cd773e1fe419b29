"""The one reader of a course folder, of joint files, of the shared words and of the package's symbols."""

from collections.abc import Mapping
from functools import cache
from importlib.resources import as_file
from pathlib import Path

from guidegen.errors import BadInput, Mistake
from guidegen.kit.lookup import OutsideTable, clearance_group
from guidegen.kit.metals import finishes
from guidegen.kit.outline import Outline, kits_of, settings_of, sources_of
from guidegen.kit.own_holes import as_measured
from guidegen.kit.records import (
    NO_METAL,
    BallBearing,
    Course,
    Material,
    Nut,
    Process,
    RawFile,
    ShoulderScrew,
    SleeveBushing,
    SlidingMaterial,
    Source,
    Spacer,
    Stock,
    Surroundings,
    Washer,
    Words,
)
from guidegen.kit.rows import Ids, in_order, is_id, read_records
from guidegen.kit.series import Names, check_series
from guidegen.kit.spreadsheet import nearest
from guidegen.kit.tables import FOLDER, read_table
from guidegen.kit.words import words_of
from guidegen.kit.yamlfile import read_yaml, read_yaml_alone
from guidegen.units import Symbol, read_quantity

GRID = "data/grid.yaml"
SLIDING = "data/sliding.csv"
PART_FILES = {
    "shoulder_screws": ShoulderScrew,
    "sleeve_bushings": SleeveBushing,
    "ball_bearings": BallBearing,
    "spacers": Spacer,
    "washers": Washer,
    "nuts": Nut,
}


def read_course(folder: Path) -> Course:
    """The course in a folder; raises BadInput with every mistake of every file.

    File names in mistakes are relative to the folder. The order of rows makes no difference.
    """
    folder, mistakes = Path(folder), []
    sources, source_keys = _sources(folder, mistakes)
    known = {"source": source_keys}
    materials, material_ids = _records(folder, "materials", Material, known, mistakes)
    of_materials = known | {"id": material_ids}
    sliding, sliding_ids = _records(folder, "sliding", SlidingMaterial, of_materials, mistakes)
    stocks, _ = _records(folder, "stock", Stock, known, mistakes)
    processes, _ = _records(folder, "processes", Process, known, mistakes)
    processes = as_measured(folder, processes, known, mistakes)
    places, place_ids = _records(folder, "surroundings", Surroundings, known, mistakes)
    parts, part_ids = _parts(folder, known | {"material": material_ids}, mistakes)
    _check_bushes(parts, sliding_ids, mistakes)
    _check_finishes(parts, part_ids, materials, mistakes)
    kits = _yaml(folder, "data/kits.yaml", lambda outline: kits_of(outline, part_ids), mistakes)
    settings = _yaml(folder, "data/course.yaml", lambda outline: settings_of(outline, place_ids), mistakes)
    names = None if mistakes else Names(kits, parts, stocks, processes)
    grid = _grid(folder, names, mistakes)
    joints = _joints(folder, mistakes)
    if mistakes:
        raise BadInput(mistakes)
    return Course(
        **settings,
        parts=in_order(parts),
        materials=in_order(materials),
        sliding=in_order(sliding),
        stocks=in_order(stocks),
        processes=in_order(processes),
        places=in_order(places),
        kits=in_order(kits),
        sources=in_order(sources),
        grid=grid,
        joints=in_order(joints),
    )


def read_joint_file(path: Path) -> RawFile:
    """A joint file anywhere, as written; raises BadInput."""
    return read_yaml_alone(Path(path))


def read_words(folder: Path) -> Words:
    """Cautions and glossary in a folder of shared words; raises BadInput."""
    return words_of(Path(folder), package_sources())


@cache
def read_symbols() -> dict[str, Symbol]:
    """Every symbol that a printed formula may use, by its name in the formula."""
    rows = read_table("symbols").rows
    return {row["name"]: Symbol(*(row[field] for field in Symbol._fields)) for row in rows}


@cache
def package_sources() -> dict[str, Source]:
    """The sources of the package's tables and formulas, by key."""
    mistakes: list[Mistake] = []
    with as_file(FOLDER.joinpath("sources.yaml")) as path:
        raw = read_yaml(path, "tables/sources.yaml", mistakes)
    found = sources_of(Outline(raw, mistakes), {}) if raw else {}
    if mistakes:
        raise BadInput(mistakes)
    return found


def _sources(folder, mistakes):
    """Sources of package and course, and all keys that may be named; no keys when the file cannot be read."""
    name = "data/sources.yaml"
    raw = read_yaml(folder / name, name, mistakes)
    if raw is None:
        return {}, {}
    package = package_sources()
    return package | sources_of(Outline(raw, mistakes), package), package | raw.data


def _yaml(folder, name, take, mistakes):
    raw = read_yaml(folder / name, name, mistakes)
    return take(Outline(raw, mistakes)) if raw else {}


def _grid(folder, names, mistakes):
    grid = read_yaml(folder / GRID, GRID, mistakes)
    if grid:
        check_series(Outline(grid, mistakes), names)
    return grid


def _records(folder, stem, record, known, mistakes):
    name, taken = f"data/{stem}.csv", Ids()
    return read_records(folder / name, name, record, taken, known, mistakes), taken


def _parts(folder, known, mistakes):
    parts, taken = {}, Ids()
    for stem, record in PART_FILES.items():
        name = f"data/parts/{stem}.csv"
        complete = _with_group_clearance if record is BallBearing else dict
        parts |= read_records(folder / name, name, record, taken, known, mistakes, complete)
    for path in sorted((folder / "data" / "parts").glob("*.csv")):
        if path.stem not in PART_FILES:
            mistakes.append(
                Mistake(
                    f"data/parts/{path.name}",
                    "file",
                    "a file of an unknown name",
                    ", ".join(f"{stem}.csv" for stem in PART_FILES),
                )
            )
    return parts, taken


def _check_bushes(parts, sliding, mistakes):
    """Refuses bushes of a material of which nobody says how it slides, unless that file is wrong itself."""
    if any(mistake.file == SLIDING for mistake in mistakes):
        return
    bushes = {}
    for part in parts.values():
        if isinstance(part, SleeveBushing) or isinstance(part, Spacer) and part.bush == "yes":
            bushes.setdefault(part.material, part.id)
    for material, part in bushes.items():
        if material not in sliding:
            mistakes.append(
                Mistake(
                    SLIDING,
                    "file",
                    f"no row {material}, of which {part} is made",
                    "a row for each material of a bush",
                )
            )


def _check_finishes(parts, taken, materials, mistakes):
    """Refuses a finish that the table of rust does not know on the metal of the part."""
    for part in parts.values():
        metal = materials[part.material].metal if part.material in materials else NO_METAL
        if part.finish not in finishes().get(metal, (part.finish,)):
            file, row, _ = taken[part.id].split(", ")
            allowed = "one of " + ", ".join(finishes()[metal])
            found = f'{metal} with the finish "{part.finish[:60]}"'
            near = nearest(part.finish, finishes()[metal])
            mistakes.append(Mistake(file, f"{row}, column finish", found, allowed, near))


def _with_group_clearance(cells: Mapping) -> dict:
    """Cells of a ball bearing, its internal clearance taken from its group where the cell is empty."""
    cells = dict(cells)
    if cells.get("internal_clearance") in ("", "-"):
        try:
            band = clearance_group(read_quantity(cells["nominal"], "length", "mm"), cells["clearance_group"])
        except (OutsideTable, ValueError, KeyError):
            return cells  # the group or the bore is wrong, which is told on its own
        cells["internal_clearance"] = f"{band.least:g} mm to {band.most:g} mm"
    return cells


def _joints(folder, mistakes):
    joints = {}
    for path in sorted((folder / "data" / "joints").glob("*.y*ml")):
        name = f"data/joints/{path.name}"
        if not is_id(path.stem):
            mistakes.append(
                Mistake(
                    name,
                    "file name",
                    f'"{path.stem[:60]}"',
                    "a-z, 0-9 and hyphens, at most 24 characters, then .yaml",
                )
            )
        raw = read_yaml(path, name, mistakes)
        if raw:
            joints[path.stem] = raw
    return joints
