"""How hard a nut may be tightened on a screw, whatever joint it is in: by neck, thread, and the plate."""

from math import inf
from typing import NamedTuple

from guidegen.joint.clamping import EDGE_BREAK, PROOF, REUSED, TO_SPARE
from guidegen.kit.lookup import clearance_hole, nut_factor, thread
from guidegen.kit.records import Course, Nut, ShoulderScrew, Stock
from guidegen.theory import clamp


class Tight(NamedTuple):
    """Torque to set on the nut, N·mm, the clamp force it gives, N, and what sets both."""

    torque: float
    force: float
    weakest: str  # neck, thread or plate


def tightened(screw: ShoulderScrew, nut: Nut, course: Course, plate: Stock | None = None) -> Tight:
    """The torque that the weaker of neck and thread bears, and a plate on the shoulder's end too.

    As in a joint: a share of the proof load, with the scatter of the nut factor and a little to spare.
    """
    of = thread(screw.thread)
    proof = PROOF * course.materials[screw.material].yield_stress
    neck = screw.neck_diameter.least
    screw_bears = float(clamp.clamp_limit(REUSED, proof, neck, proof, of.stress_area))
    weakest = "neck" if screw_bears < REUSED * proof * of.stress_area else "thread"
    plate_bears = inf
    if plate is not None:
        outer = screw.shoulder_diameter.typical - 2 * EDGE_BREAK
        plate_bears = clamp.pressed_limit(plate.seat_limit, outer, clearance_hole(screw.thread).fine)
    if plate_bears < screw_bears:
        weakest = "plate"
    factor = nut_factor(nut.finish)
    force = float(clamp.clamp_to_set(TO_SPARE, factor.least, factor.typical, screw_bears, plate_bears))
    return Tight(clamp.tightening_torque(factor.typical, of.diameter, force), force, weakest)
