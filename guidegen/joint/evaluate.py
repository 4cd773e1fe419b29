"""What happens in a joint: quantities with bands, shares of causes, verdicts, worked steps."""

from guidegen.joint.assembly import assembled
from guidegen.joint.axial import along
from guidegen.joint.creep import creeping
from guidegen.joint.findings import Findings
from guidegen.joint.given import given
from guidegen.joint.holing import holed
from guidegen.joint.keeping import keeping
from guidegen.joint.loaded import loaded
from guidegen.joint.pressing import pressing
from guidegen.joint.records import Joint, Result
from guidegen.joint.rolling import rolling
from guidegen.joint.sliding import sliding
from guidegen.joint.spending import spent
from guidegen.joint.stack import ENGAGED
from guidegen.joint.strength import strong
from guidegen.joint.turning import turning
from guidegen.joint.verdicts import verdicts
from guidegen.joint.warming import warming
from guidegen.joint.wear import wearing
from guidegen.joint.wobble import holes, loose, passing, seen, shares
from guidegen.kit.records import Course


def evaluate(joint: Joint, course: Course) -> Result:
    """Everything about one joint. What cannot be built becomes a verdict with the reason."""
    found = Findings(joint, course)
    found.limits |= {
        "target_tilt": course.target_travel / (2 * course.target_arm),
        "start_force_wanted": course.target_start_force * course.target_arm / joint.arm,
        "pitch": joint.thread.pitch,
        "nut_grip": ENGAGED * joint.thread.diameter,
    }
    stack = assembled(found)
    overhang = joint.overhang if stack is None else stack.z_load - stack.z_bearings[-1]
    holes(found)
    play = loose(found, overhang)
    causes = shares(found, play)
    if stack is not None:
        along(found, stack)
        spent(found, stack)
    if overhang is not None:
        _under_load(found, stack, overhang, play)
    holed(found, play)
    pressing(found)
    warming(found, stack)
    keeping(found, stack)
    passing(found)
    seen(found, play, () if stack is None else stack.cheeks)
    return Result(
        joint,
        stack,
        given(found, stack, overhang, play),
        found.quantities,
        causes,
        verdicts(found.quantities, found.answers, found.limits),
        tuple(found.work.steps),
    )


def _under_load(found, stack, overhang, play):
    """What the load does to bearings and screw, how long they last, and what it takes to turn them."""
    under = loaded(found, stack, overhang, play)
    bushes, balls = sliding(found, under.carried), rolling(found, under.carried)
    wearing(found, play, bushes)
    creeping(found, play)
    turning(found, stack, under.carried, bushes, balls)
    if under.bent is not None:
        strong(found, stack, overhang, under.carried, under.bent)
