"""Which ring of a ball bearing goes round under the load, and whether it is held against creeping."""

from guidegen.joint.findings import Findings
from guidegen.joint.play import Play
from guidegen.joint.records import Joint
from guidegen.joint.rows import first
from guidegen.joint.verdicts import Yes
from guidegen.joint.wear import HALF_TURN


def creeping(found: Findings, play: Play):
    """The ring that turns relative to the load walks round on its seat unless it is tight or clamped."""
    joint = found.joint
    loose = []
    for n, (seat, one) in enumerate(zip(found.seats, play.guided), 1):
        if not seat.ball:
            continue
        inner = inner_ring_goes_round(joint)
        if inner is None:
            held = True
        elif inner:
            held = joint.clamped or first(one.fit) < 0
        else:
            held = seat.bonded or first(one.interference) > 0
        if not held:
            loose.append(n)
    if not any(seat.ball for seat in found.seats):
        return
    ring, seat_of = ("inner", "shoulder") if inner_ring_goes_round(joint) else ("outer", "housing")
    at = " and ".join(map(str, loose))
    why = (
        f"the {ring} ring of bearing {at} goes round under the load and sits loose: it creeps and wears the "
        f"{seat_of}; clamp or bond it" if loose else ""
    )
    found.answers["ring_creep"] = Yes(True, not loose, why)


def inner_ring_goes_round(joint: Joint) -> bool | None:
    """Whether the load goes round the inner ring, or else the outer; None where it goes round neither."""
    motion = joint.motion
    if motion.kind == "hand" or motion.kind == "swing" and motion.angle < HALF_TURN:
        return None
    return joint.direction == ("fixed" if joint.layout == "A" else "turning")
