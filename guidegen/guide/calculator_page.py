"""The page that works out the joint between: a worked joint with numbers of the reader's own."""

from pathlib import Path

from guidegen.guide.edition import Edition
from guidegen.guide.finder_page import JOINTS, TYPED
from guidegen.guide.measures import INCH_UNITS
from guidegen.guide.names import quantity_words
from guidegen.guide.page import Heading, Page
from guidegen.guide.reckon_data import TOLD, TOLD_OF_EACH, can_start, grounds_file, script_of_data
from guidegen.guide.templates import fill, upper_first
from guidegen.joint import specify
from guidegen.notation.script import formula_script

ASSETS = Path(__file__).parent / "assets"
FORMULAS, GROUNDS, ROWS = "assets/formulas.js", "assets/grounds.js", "assets/told.js"
RECKON, VIEW, CALCULATOR = "assets/reckon.js", "assets/section.js", "assets/calculator.js"
SCRIPTS = (JOINTS, TYPED, FORMULAS, GROUNDS, ROWS, RECKON, VIEW, CALCULATOR)
OWN = (RECKON, VIEW, CALCULATOR)  # those that are files of their own
GROUPS = {  # what is told, by chapter; bearings' own with their number
    "Room to move": (
        "seen_tilt arm_play tilt cheek_tilt arm_tilt load_play clearance fit free_tilt preload_margin "
        "end_play"
    ),
    "Load": "reaction bearing_load couple_force thrust",
    "Screw": "shaft_moment bending_stress deflection slope lean_under_load endurance_factor",
    "Bushings": (
        "pressure edge_factor sliding_speed pv cycles_wanted wear_cycles arm_play_1e3 arm_play_1e4 "
        "arm_play_1e5 arm_play_1e6 arm_play_1e7"
    ),
    "Ball bearings": "static_factor rating_life life_hours",
    "To turn it": "start_force start_torque run_torque",
    "Holes": "drawn_hole interference press_pressure hub_stress closure push_force holding_torque",
}
SIZES = (  # of the parts, as a caliper finds them; of a ball bearing the bore, of a bush both bores
    ("shaft", "shoulder of the screw"),
    *(
        (f"{size}_{n}", f"{words}, bearing {n}")
        for n in (1, 2)
        for size, words in (
            ("free_bore", "bore before it is pressed in"),
            ("bore", "bore as it sits"),
            ("outside_diameter", "outside diameter"),
            ("hole", "hole in the stock"),
        )
    ),
)


def calculator_page(edition: Edition) -> Page:
    """The form, the drawing, and where the numbers come out; without a script, where else to work it out."""
    starts = {result.id: result.joint.title for result in edition.results if can_start(result)}
    named = {id: title for id, title in starts.items() if id in edition.course.joints}
    body = fill(
        "calculator",
        root="",
        course=edition.course,
        measures=edition.measures,
        count=len(starts),
        named=named or dict(list(starts.items())[:6]),
        sizes=SIZES,
        bounds=specify,
        scope=edition.cautions("every sheet"),
    )
    return Page(
        "calculator.html",
        "Compute your own joint",
        body,
        (
            Heading(2, "own", "Your numbers"),
            Heading(2, "comes-out", "What comes out"),
            Heading(2, "backwards", "Backwards: from what you measured"),
            Heading(2, "joint-file", "Joint file"),
            Heading(2, "left-out", "What is not computed here"),
        ),
        in_search=True,
        description="A worked joint with numbers of your own: what comes out, and its joint file.",
        scripts=SCRIPTS,
    )


def calculator_files(edition: Edition) -> dict[str, bytes]:
    """The scripts that the page loads: formulas as declared, joints to start from, names of numbers."""
    ours = {path: (ASSETS / Path(path).name).read_bytes() for path in OWN}
    formulas = formula_script(*(script.decode() for script in ours.values()))
    return {
        **ours,
        FORMULAS: formulas.encode(),
        GROUNDS: grounds_file(edition),
        ROWS: script_of_data("guideTold", _told(edition)),
    }


def _told(edition: Edition) -> dict:
    """Chapters of results, [[title, [[name, words, unit], ...]], ...], and the inch units."""
    units = {}
    for result in edition.results:
        for name, quantity in result.quantities.items():
            units.setdefault(name, quantity.unit)
    names = {*TOLD, *(f"{name}_{n}" for name in TOLD_OF_EACH for n in (1, 2))}
    chapters = []
    for title, stems in GROUPS.items():
        rows = [
            [name, upper_first(quantity_words(name)), units[name]]
            for stem in stems.split()
            for name in (stem, f"{stem}_1", f"{stem}_2")
            if name in names and name in units
        ]
        chapters.append([title, rows])
    sizes = {name for result in edition.results for name in result.inputs}
    return {
        "sizes": {name: quantity_words(name) for name in sorted(sizes)},
        "chapters": chapters,
        "inch": {unit: list(other) for unit, other in INCH_UNITS.items()},
    }
