"""Which ring of a ball bearing goes round under the load, and whether it is held against creeping."""

from guidegen.joint.findings import Findings
from guidegen.joint.play import Play
from guidegen.joint.records import Joint
from guidegen.joint.verdicts import Yes
from guidegen.joint.wear import HALF_TURN


STILL = {
    "hand": "moved by hand, no ring goes round long enough to creep",
    "swing": "a swing below half a turn takes the load round neither ring: both may sit loose",
}


def creeping(found: Findings, play: Play):
    """The ring that turns relative to the load walks round on its seat unless it is tight or clamped.

    Over the sizes within their limits: a press fit may be loose where the hole is large and the ring small.
    """
    joint = found.joint
    balls = [(n, *of) for n, of in enumerate(zip(found.seats, play.guided), 1) if of[0].ball]
    if not balls:
        return
    inner = inner_ring_goes_round(joint)
    if inner is None:
        found.answers["ring_creep"] = Yes(True, True, STILL[joint.motion.kind])
        return
    tight = {n: _tight(found, seat, one, inner) for n, seat, one in balls}
    loose = [n for n, ends in tight.items() if not ends.typical]
    may_be = [n for n, ends in tight.items() if ends.typical and not ends.always]
    why = _creeps(inner, loose or may_be, loose)
    found.answers["ring_creep"] = Yes(not loose, not loose and not may_be, why)


def _tight(found, seat, one, inner) -> Yes:
    """Whether a ring is held on its seat: clamped or bonded, or tight at typical sizes and at all others."""
    if found.joint.clamped if inner else seat.bonded:
        return Yes(True, True)
    tight = found.rows.band(-one.fit if inner else one.interference)
    return Yes(tight.typical > 0, tight.least > 0)


def _creeps(inner, numbers, loose) -> str:
    if not numbers:
        return ""
    ring, seat = ("inner", "shoulder") if inner else ("outer", "housing")
    at = " and ".join(map(str, numbers))
    sits = "sits loose" if loose else "may sit loose, at the worst sizes within their limits"
    then = "it creeps and wears" if loose else "it would creep and wear"
    do = "clamp" if inner else "bond"
    return f"the {ring} ring of bearing {at} goes round under the load and {sits}: {then} the {seat}; {do} it"


def inner_ring_goes_round(joint: Joint) -> bool | None:
    """Whether the load goes round the inner ring, or else the outer; None where it goes round neither."""
    motion = joint.motion
    if motion.kind == "hand" or motion.kind == "swing" and motion.angle < HALF_TURN:
        return None
    return joint.direction == ("fixed" if joint.layout == "A" else "turning")
