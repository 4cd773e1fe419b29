"""What touches what in a joint: on the screw, face to face, between the bearings, and in the housings."""

from typing import Iterator, Literal, NamedTuple

from guidegen.joint.records import Joint, Placed, Stack
from guidegen.kit.records import BallBearing

TOUCHES_WITHIN = 1e-6  # mm, by which faces that lie flush may differ in the reckoning


class Contact(NamedTuple):
    """Two that touch, by the ids of part or stock: a bore on the screw, face to face, or in a hole."""

    one: str
    other: str
    how: Literal["on", "face", "seat"]


def contacts(joint: Joint, stack: Stack | None) -> tuple[Contact, ...]:
    """Every pair that touches, each once. A gap of end play closes in use and counts as touching.

    Of a joint that cannot be built: its bearings on the screw and in their holes.
    """
    found = [*_seated(joint)]
    if stack is None:
        found += (Contact(bearing.id, joint.shaft.id, "on") for bearing in joint.bearings)
    else:
        found += (Contact(row.part, joint.shaft.id, "on") for row in stack.placed if row.kind != "body")
        found += _face_to_face(joint, stack)
        found += _between(stack)
    return tuple(dict.fromkeys(found))


def _seated(joint: Joint) -> Iterator[Contact]:
    """Bearings in their holes; a film of glue parts the two."""
    for bearing, housing in zip(joint.bearings, joint.housings):
        if housing.fit != "bonded":
            yield Contact(bearing.id, housing.stock.id, "seat")


def _face_to_face(joint: Joint, stack: Stack) -> Iterator[Contact]:
    """From the screw's head to the nut, each with what lies before it; the body shows both its ends."""
    before = [joint.shaft.id]
    for row in stack.placed:
        if row.within:
            continue
        here = _shown(joint, stack, row, "z_from") if row.kind == "body" else [row.part]
        yield from (Contact(one, other, "face") for other in before for one in here)
        before = _shown(joint, stack, row, "z_to") if row.kind == "body" else [row.part]
    small = next((row.part for row in stack.placed if row.on == "thread"), None)
    if joint.layout == "C" and small:
        yield Contact(small, joint.shaft.id, "face")  # it stands on the shoulder's end


def _shown(joint: Joint, stack: Stack, body: Placed, end: str) -> list[str]:
    """What a body shows at one end: the bearing that ends there, beside a bush also its plate."""
    first = end == "z_from"
    bearing = joint.bearings[0 if first else -1]
    rows = [row for row in stack.placed if row.kind == "bearing"]
    flush = getattr(body, end)

    def ends(of) -> bool:
        return abs(getattr(of, end) - flush) < TOUCHES_WITHIN

    shown = [bearing.id] if ends(rows[0 if first else -1]) else []
    if not isinstance(bearing, BallBearing):  # ring spacers keep everything else off a plate
        shown += [plate.stock for plate in stack.plates if ends(plate)]
    return shown


def _between(stack: Stack) -> Iterator[Contact]:
    """What stands between the bearings, with its neighbours."""
    rows = [row for row in stack.placed if row.within]
    if any(row.kind != "bearing" for row in rows):
        yield from (Contact(one.part, other.part, "face") for other, one in zip(rows, rows[1:]))
