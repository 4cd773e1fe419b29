"""The worked joints of a course: every combination of grid.yaml that its kits can really build."""

from collections import Counter
from dataclasses import replace
from itertools import product

from guidegen.errors import CannotBuild
from guidegen.joint.box import thickness
from guidegen.joint.records import Joint
from guidegen.joint.specify import make_joint
from guidegen.joint.stack import resolve
from guidegen.joint.words import title_of
from guidegen.kit.records import Course, RawFile
from guidegen.units import MM_PER_INCH, read_quantity

LAYOUTS = {
    "a": {"turns": "shaft"},
    "b": {"turns": "housing", "held": "thread"},
    "c": {"turns": "housing", "held": "fork"},
}
MOST_ALIKE = 12  # pages that share pair, rings, screw, housing and layout


def expand(course: Course) -> tuple[list[Joint], Counter]:
    """(joints that can be built, by id; refused combinations counted by reason)."""
    found, refused, alike = {}, Counter(), Counter()
    for series in course.grid.data["series"]:
        for joint in _combinations(course, series):
            try:
                joint = _resolved(joint, course)
            except CannotBuild as why:
                refused[why.reason] += 1
                continue
            id = _id(joint, course)
            group = id.rsplit("-s", 1)[0]
            if id in found or alike[group] == MOST_ALIKE:
                refused["more than twelve alike" if id not in found else "same as another"] += 1
                continue
            alike[group] += 1
            found[id] = replace(joint, id=id, title=title_of(joint))
    return [found[id] for id in sorted(found)], refused


def _combinations(course, series):
    """Joints as asked for by one series; separation follows from the standoff and the bearings."""
    for pair, screw, layout, housing in product(
        series["pairs"], series["screws"], series["layouts"], series["housings"]
    ):
        if housing not in pair["fits"]:
            continue
        single = len(pair["bearings"]) == 1
        plan = series["layouts"][layout]
        if single and not plan.get("single", True):
            continue
        for rings, load in product(pair.get("rings", ["loose"]), series["loads"]):
            for standoff in [None] if single else series["standoffs"]:
                raw = _raw(course, series, pair, screw, layout, housing, rings, load)
                yield from _positions(_separated(make_joint(course, raw, ""), standoff), plan)


def _raw(course, series, pair, screw, layout, housing, rings, load):
    """The same mapping a joint file would hold; its distances are put in afterwards."""
    grid, plan = course.grid.data, series["layouts"][layout]
    where = {
        **series["housings"][housing],
        "fit": pair["fits"][housing],
        "edge": series["edge"],
        "proud": "head",
    }
    plate = {key: plan["plate"][key] for key in ("stock", "process", "fit") if key in plan["plate"]}
    data = {
        "title": "worked joint",
        "shaft": screw,
        "bearings": pair["bearings"],
        "rings": rings,
        "arm": grid["arm"],
        "load": {"radial": load, "axial": grid["axial"], "shock": grid["shock"]},
        "overhang": "0 mm",
        "housing_1": where,
        "housing_2": {**where, "proud": "thread"},
        **LAYOUTS[layout],
        "cheeks" if layout == "c" else "on_thread": plate,
    }
    if len(pair["bearings"]) == 2:
        data["separation"] = "1 mm"
    else:
        del data["housing_2"]
        data["housing_1"]["proud"] = "thread"
    return RawFile(course.grid.path, data, course.grid.lines)


def _separated(joint: Joint, standoff: str | None):
    """The joint with its bearings as far apart as the plates and the standoff between them put them."""
    if standoff is None:
        return joint
    length = read_quantity(standoff, "length")
    reach = 0.0
    for bearing, housing in zip(joint.bearings, joint.housings):
        width, plate = thickness(bearing).typical, housing.stock.thickness.typical
        reach += width / 2 if width >= plate else plate - width / 2
    return replace(joint, separation=round(length + reach, 6))


def _positions(joint: Joint, plan):
    """One joint for each place of the load that the layout asks for."""
    for after in plan.get("after", []):
        yield replace(joint, overhang=None, after_parts=tuple(after))
    for text in plan.get("overhangs", []):
        yield replace(joint, overhang=read_quantity(text, "length"), after_parts=())
    for share in plan.get("between", []):
        if not joint.single and not joint.clamped:
            yield replace(joint, overhang=-round(joint.separation * share, 1), after_parts=())


def _resolved(joint: Joint, course: Course) -> Joint:
    """The joint with the overhang that its stack gives; CannotBuild when the kit cannot build it."""
    stack = resolve(joint, course.parts)
    return replace(joint, overhang=round(stack.z_load - stack.z_bearings[-1], 6))


def _id(joint: Joint, course: Course) -> str:
    """The address of a worked joint; lengths in tenths of a millimetre, in inch kits in thousandths."""
    per = 10 if joint.kit.units == "mm" else 1000 / MM_PER_INCH
    second = joint.bearings[1].id if len(joint.bearings) == 2 else "one"
    layout = joint.layout.lower() + ("k" if joint.clamped else "")
    place = f"{'o' if joint.overhang >= 0 else 'i'}{abs(round(joint.overhang * per))}"
    housing = next(
        name
        for series in course.grid.data["series"]
        if series["kit"] == joint.kit.id
        for name, where in series["housings"].items()
        if (where["stock"], where["process"]) == (joint.housings[0].stock.id, joint.housings[0].process.id)
    )
    return (
        f"{joint.kit.id}-{joint.shaft.id}-{joint.bearings[0].id}-{second}-{layout}-{housing}"
        f"-s{round((joint.separation or 0) * per)}-{place}-f{round(joint.radial)}"
    )
