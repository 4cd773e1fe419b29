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
    tips = (
        joint.single
        and found.seats[0].ball
        and bool(joint.axial * joint.arm or joint.radial * (stack.z_load - stack.z_bearings[0]))
    )
    found.answers["buildable"] = Yes(not tips, not tips, TIPS if tips else "")
    sound = not stack.faults
    found.answers["faces"] = Yes(sound, sound, "; ".join(dict.fromkeys(stack.faults)))
    if joint.stack_ids:
        found.answers["listed"] = _listed(stack)
    return stack


def _listed(stack: Stack) -> Yes:
    """A stack that the joint file lists is judged as it lies there, at typical sizes."""
    (low, high), play = stack.window, stack.end_play.typical
    fits = low - 1e-9 <= play <= high + 1e-9
    why = f"the listed parts leave {play:.2f} mm of end play; wanted: {low:.2f} to {high:.2f} mm"
    return Yes(fits, fits, "" if fits else why)
