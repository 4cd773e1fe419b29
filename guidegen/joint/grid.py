"""The worked joints of a course: every combination of grid.yaml that its kits can really build."""

from collections import Counter
from dataclasses import replace
from itertools import product
from typing import Iterator

from guidegen.errors import BadInput, CannotBuild, Mistake
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
MOST_MOVES = 5  # of an arm between the bearings until its stack stays as it is


def expand(course: Course) -> tuple[list[Joint], Counter]:
    """(joints that can be built, by id; refused combinations counted by reason).

    Neither depends on the order of series, nor of anything in the data. Raises BadInput when two joints that
    differ would have one id: their addresses tell nothing of plates, edges and fits.
    """
    found, refused, mistakes = {}, Counter(), {}
    for number, series in enumerate(course.grid.data["series"]):
        for housing, joint in _combinations(course, series):
            try:
                joint = _resolved(joint, course)
            except CannotBuild as why:
                refused[why.reason] += 1
                continue
            address, joint = _id(joint, housing), _settled(joint, course)
            joint = replace(joint, id=address, title=title_of(joint))
            if found.setdefault(joint.id, joint) != joint:
                mistakes[joint.id] = _clash(course, number, joint, found[joint.id])
            elif found[joint.id] is not joint:
                refused["same as another"] += 1
    if mistakes:
        raise BadInput(mistakes.values())
    kept = sorted(_few_alike(found.values()), key=lambda joint: joint.id)
    if len(kept) < len(found):
        refused["more than twelve alike"] += len(found) - len(kept)
    return kept, refused


def _few_alike(joints) -> Iterator[Joint]:
    """At most twelve of those alike but for load, separation and overhang: the least first, in this order."""
    alike: dict[tuple, list[Joint]] = {}
    for joint in joints:
        pair = tuple(bearing.id for bearing in joint.bearings)
        design = joint.kit.id, pair, joint.rings, joint.shaft.id, joint.body, joint.housings, joint.layout
        alike.setdefault(design, []).append(joint)
    for group in alike.values():
        group.sort(key=lambda joint: (joint.radial, joint.separation or 0.0, joint.overhang, joint.id))
        yield from group[:MOST_ALIKE]


def _clash(course, number, joint, other) -> Mistake:
    """What two joints of one id differ in."""
    fields = ("on_thread", "cheeks", "arm_plate", "housings", "axial", "shock", "arm")
    differ = [field for field in fields if getattr(joint, field) != getattr(other, field)]
    return Mistake(
        course.grid.path,
        course.grid.place("series", number),
        f"a second {joint.id}, which differs in {', '.join(differ) or 'what its stack is made of'}",
        "one joint an id",
        "Change the load, a distance or a name of a housing, or take it out of one series.",
    )


def _combinations(course, series):
    """Names of housings and joints as one series asks for; separation follows from standoff and bearings."""
    for pair, screw, layout, housing in product(
        series["pairs"], series["screws"], series["layouts"], series["housings"]
    ):
        if housing not in pair["fits"]:
            continue
        single, plan = len(pair["bearings"]) == 1, series["layouts"][layout]
        for rings, load in product(pair.get("rings", ["loose"]), series["loads"]):
            for standoff in [None] if single else series["standoffs"]:
                raw = _raw(course, series, pair, screw, layout, housing, rings, load)
                joints = _positions(_separated(make_joint(course, raw, ""), standoff), plan)
                yield from ((housing, joint) for joint in joints)


def _raw(course, series, pair, screw, layout, housing, rings, load):
    """The same mapping a joint file would hold; its distances are put in afterwards."""
    grid, plan, single = course.grid.data, series["layouts"][layout], len(pair["bearings"]) == 1
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
        "load": {
            "radial": load,
            "axial": grid["axial"],
            "shock": grid["shock"],
            "direction": series.get("direction", grid.get("direction", "fixed")),
        },
        "motion": series.get("motion", grid.get("motion", {"kind": "hand"})),
        "overhang": "0 mm",
        "housing_1": where,
        "housing_2": {**where, "proud": "thread"},
        **LAYOUTS[layout],
        "cheeks" if layout == "c" else "on_thread": plate,
    }
    if single:
        del data["housing_2"]
        data["housing_1"]["proud"] = "thread"
    else:
        data |= {"separation": "1 mm", "body": series.get("body", "plates")}
    return RawFile(course.grid.path, data, course.grid.lines)


def _separated(joint: Joint, standoff: str | None):
    """The joint with its bearings as far apart as the plates and the standoff between them put them.

    In one block the standoff is the wall between the seats, each as deep as its bearing is wide.
    """
    if standoff is None:
        return joint
    length = read_quantity(standoff, "length")
    reach = 0.0
    for bearing, housing in zip(joint.bearings, joint.housings):
        width, plate = thickness(bearing).typical, housing.stock.thickness.typical
        flush = joint.body == "block" or width >= plate
        reach += width / 2 if flush else plate - width / 2
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


def _settled(joint: Joint, course: Course) -> Joint:
    """The joint with the overhang at which its stack stays; asked anew, an arm between may find a nearer one.

    Its address keeps the place found first.
    """
    for _ in range(MOST_MOVES if joint.arm_between else 0):
        there = _resolved(joint, course)
        if there.overhang == joint.overhang:
            break
        joint = there
    return joint


def _id(joint: Joint, housing: str) -> str:
    """The address of a worked joint; lengths in tenths of a millimetre, in inch kits in thousandths.

    The letter of the layout has k after it when rings are clamped, g when the arm is glued to the shoulder.
    """
    per = 10 if joint.kit.units == "mm" else 1000 / MM_PER_INCH
    second = joint.bearings[1].id if len(joint.bearings) == 2 else "one"
    layout = joint.layout.lower() + "k" * joint.clamped + "g" * joint.arm_bonded
    place = f"{'o' if joint.overhang >= 0 else 'i'}{abs(round(joint.overhang * per))}"
    return (
        f"{joint.kit.id}-{joint.shaft.id}-{joint.bearings[0].id}-{second}-{layout}-{housing}"
        f"-s{round((joint.separation or 0) * per)}-{place}-f{round(joint.radial)}"
    )
