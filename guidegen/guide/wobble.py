"""What a reader sees of the play: at the tip of the arm, all causes together, and with one bearing alone."""

from guidegen.joint.records import Quantity, Result
from guidegen.kit.records import BallBearing
from guidegen.theory import freeplay
from guidegen.units import Band


def seen_travel(result: Result) -> Band:
    """Total travel at the arm radius, mm: the bearings' play and that of cheeks or arm."""
    arm, tilt = result.joint.arm, result.quantities["seen_tilt"].band
    return Band(*(freeplay.arm_travel(arm, theta) for theta in (tilt.least, tilt.typical, tilt.most)))


def wanted_travel(course, joint) -> float:
    """The wobble the course allows at this joint's arm, mm, total."""
    return course.target_travel * joint.arm / course.target_arm


def alone_travel(result: Result) -> float:
    """Travel at the arm, mm, with bearing 1 alone at its typical clearance."""
    tilt = (
        result.quantities["free_tilt_1"].typical
        if isinstance(result.joint.bearings[0], BallBearing)
        else freeplay.bush_tilt(result.quantities["clearance_1"].typical, result.inputs["length_1"].typical)
    )
    return freeplay.arm_travel(result.joint.arm, tilt)


def clearances_alike(result: Result) -> bool:
    """Whether both bearings leave the shaft the same room."""
    pair = [result.quantities.get(f"clearance_{n}") for n in (1, 2)]
    return None not in pair and pair[0].band == pair[1].band


def band_of(quantity: Quantity) -> Band:
    """Limits of a quantity; those of a plain number are the number itself."""
    return quantity.band or Band.exactly(quantity.value)


def overhang_of(result: Result) -> float | None:
    """From the middle of the last bearing to the load plane, mm, as asked for or as the stack gives it."""
    found = result.inputs.get("overhang")
    return None if found is None else found.value
