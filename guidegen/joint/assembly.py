"""Whether the parts go on the screw, and what touches what."""

from guidegen.errors import CannotBuild
from guidegen.joint.findings import Findings
from guidegen.joint.records import Stack
from guidegen.joint.stack import resolve
from guidegen.joint.verdicts import Yes

TIPS = "one ball bearing alone carries no couple: it tips under this load"


def assembled(found: Findings) -> Stack | None:
    """The stack on the screw; None, and the reason as an answer, where nothing can be built."""
    joint = found.joint
    try:
        stack = resolve(joint, found.course.parts)
    except CannotBuild as refused:
        found.answers["buildable"] = Yes(False, False, refused.why)
        return None
    found.arm = stack.arm
    tips = (
        joint.single
        and found.seats[0].ball
        and bool(joint.axial * joint.arm or joint.radial * (stack.z_load - stack.z_bearings[0]))
    )
    found.answers["buildable"] = Yes(not tips, not tips, TIPS if tips else "")
    sound = not stack.faults
    found.answers["faces"] = Yes(sound, sound, "; ".join(dict.fromkeys(stack.faults)))
    if joint.layout == "C":
        found.answers["arm_room"] = _arm_room(stack)
    if joint.stack_ids:
        found.answers["listed"] = _listed(stack)
    return stack


def _arm_room(stack: Stack) -> Yes:
    """A straight arm on the hub reaches a load between the cheeks of its fork only."""
    first, last = (row for row in stack.placed if row.kind == "cheek")
    beyond = max(first.z_to - stack.z_load, stack.z_load - last.z_from)
    why = (
        f"the load lies {beyond:.1f} mm beyond the inner face of a cheek: the arm must be cranked round the "
        "cheek through its whole travel, or the load must come between the cheeks"
    )
    straight = beyond <= 1e-6
    return Yes(True, straight, "" if straight else why)


def _listed(stack: Stack) -> Yes:
    """A stack that the joint file lists is judged as it lies there, at typical sizes."""
    (low, high), play = stack.window, stack.at_typical
    fits = low - 1e-9 <= play <= high + 1e-9
    why = f"the listed parts leave {play:.2f} mm of end play; wanted: {low:.2f} to {high:.2f} mm"
    return Yes(fits, fits, "" if fits else why)
