"""What takes the place of a part that has run out: found by search, offered only if no check gets worse."""

from collections import Counter
from dataclasses import replace
from typing import Iterator, Mapping, NamedTuple

from guidegen.errors import CannotBuild
from guidegen.joint.body import body_of
from guidegen.joint.box import Box
from guidegen.joint.evaluate import evaluate
from guidegen.joint.records import STATES, Joint, Result
from guidegen.joint.spending import bought
from guidegen.kit.records import BallBearing, Course, Kit, Part, ShoulderScrew, SleeveBushing, Spacer

SAME = 1e-3  # mm; sizes nearer than this are one size
FAR = 1000.0  # mm; bearings so far apart never overlap


class Offer(NamedTuple):
    """A joint without the part that ran out: what goes in instead, what is spared, what comes of it."""

    instead: Mapping[str, int]  # part ids, and how many more of each
    spared: Mapping[str, int]  # and fewer
    result: Result


def offers(lacking: str, result: Result, course: Course) -> Iterator[Offer]:
    """Joints that do without a part of this one, the likest first, with no check in a worse state.

    A screw gives way to one of the same shoulder and thread, a bearing to one of its kind that fits the same
    hole; for anything else the stack is searched again in the kit without it.
    """
    if result.stack is None or all(part.id != lacking for part in bought(result.joint, result.stack, course)):
        return
    for joint in _joints(lacking, result, course):
        try:
            other = evaluate(joint, course)
        except CannotBuild:
            continue
        if other.stack is not None and not worse(result, other):
            yield _offer(result, other, course)


def worse(before: Result, after: Result) -> list[str]:
    """What the checks are about that are in a worse state after a change; one that is new must hold."""
    was, now = _worst(before), _worst(after)
    return [about for about, state in now.items() if state > was.get(about, 0)]


def _worst(result) -> dict[str, int]:
    """Rank of the worst state by what a check is about."""
    return {v.about: STATES.index(v.state) for v in reversed(result.verdicts)}


def _offer(result, other, course) -> Offer:
    before, after = (
        Counter({part.id: n for part, n in bought(one.joint, one.stack, course).items()})
        for one in (result, other)
    )
    return Offer(after - before, before - after, other)


def _joints(lacking, result, course) -> Iterator[Joint]:
    """The joint with each part that may take the place of the one lacking."""
    joint = replace(result.joint, stack_ids=None)
    if joint.shaft.id == lacking:
        for screw in _screws(joint, course):
            yield _on(screw, joint, course)
    elif part := next((bearing for bearing in joint.bearings if bearing.id == lacking), None):
        for other in _bearings(part, joint, course):
            yield _with(part, other, joint)
    else:
        yield _without(lacking, joint, result, course)


def _screws(joint, course) -> list[ShoulderScrew]:
    """Screws with the same shoulder and thread: of the kit first, then by how little longer or shorter."""
    mine = joint.shaft
    found = [
        part
        for part in course.parts.values()
        if isinstance(part, ShoulderScrew)
        and part.id != mine.id
        and part.thread == mine.thread
        and abs(part.nominal - mine.nominal) < SAME
    ]

    def unlike(part):
        return abs(part.shoulder_length.typical - mine.shoulder_length.typical)

    return sorted(found, key=lambda part: (not _in_kit(part, joint), unlike(part), part.id))


def _bearings(part, joint, course) -> list[Part]:
    """Bearings of the same kind on the same shaft that fit the same hole: of the kit first."""
    found = [other for other in course.parts.values() if other.id != part.id and _fits_as(other, part)]

    def unlike(other):
        return abs(_length(other) - _length(part))

    return sorted(found, key=lambda other: (not _in_kit(other, joint), unlike(other), other.id))


def _fits_as(other, part) -> bool:
    if type(other) is not type(part) or abs(other.nominal - part.nominal) >= SAME:
        return False
    if abs(other.outside_diameter.typical - part.outside_diameter.typical) >= SAME:
        return False
    if isinstance(part, Spacer):
        return other.bush == "yes"
    return isinstance(part, SleeveBushing) or abs(_length(other) - _length(part)) < SAME


def _length(part):
    return part.width.typical if isinstance(part, BallBearing) else part.length.typical


def _in_kit(part, joint):
    return joint.kit is not None and part.id in joint.kit.parts


def _on(screw, joint, course) -> Joint:
    """The joint on another screw of the same shoulder."""
    material = course.materials[screw.material]
    kept = {name: size for name, size in joint.measured.items() if name != "shaft"}
    return replace(
        joint,
        shaft=screw,
        youngs_modulus=material.youngs_modulus,
        yield_stress=material.yield_stress,
        measured=kept,
    )


def _with(part, other, joint) -> Joint:
    """The joint with another bearing wherever the part was: plates and standoffs, or the block, stay."""
    numbers = [n for n, bearing in enumerate(joint.bearings, 1) if bearing.id == part.id]
    kept = {
        name: size
        for name, size in joint.measured.items()
        if not name.endswith(tuple(f"_{n}" for n in numbers))
    }
    bearings = tuple(other if bearing.id == part.id else bearing for bearing in joint.bearings)
    apart = joint.separation
    before, after = (_fixed(replace(joint, bearings=of)) for of in (joint.bearings, bearings))
    if apart is not None:
        apart += before.apart - after.apart
    overhang = joint.overhang
    if overhang is not None:
        overhang += after.beyond - before.beyond
    return replace(joint, bearings=bearings, separation=apart, overhang=overhang, measured=kept)


class _Fixed(NamedTuple):
    """What plates or block fix of bearings in them, were those far apart: mm."""

    apart: float  # between the plates; of a block its length
    beyond: float  # from the middle of the last bearing to the inner face of its plate, or the block's end


def _fixed(joint) -> _Fixed:
    far = joint if joint.single else replace(joint, separation=FAR)
    body, middle = body_of(far), 0.0 if joint.single else FAR
    first, last = body.plates[0], body.plates[-1]
    if joint.single:
        return _Fixed(0.0, first[0])
    if joint.body == "block":
        return _Fixed(body.high - body.low, body.high - middle)
    return _Fixed(last[0] - first[1], last[0] - middle)


def _without(lacking, joint, result, course) -> Joint:
    """The joint from a kit without a part; where it was a filler that sets the load's place, this is kept."""
    counts = joint.kit.parts if joint.kit else Box(course.parts, None, joint.shaft).left
    kit = joint.kit or Kit(id="catalogue", title="Catalogue", units=course.units_first, parts=counts)
    kit = kit.model_copy(update={"parts": {id: n for id, n in counts.items() if id != lacking}})
    joint = replace(joint, kit=kit)
    if lacking not in (joint.after_parts or ()):
        return joint
    stack = result.stack
    return replace(joint, after_parts=None, overhang=stack.z_load - stack.z_bearings[-1])
