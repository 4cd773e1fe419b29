"""The joint under its load: forces on the bearings, the bent shaft, how it leans in them."""

from dataclasses import dataclass

from guidegen.joint.findings import Findings
from guidegen.joint.loads import Bent, Carried, bent, carried
from guidegen.joint.play import Play, settled
from guidegen.joint.records import Stack
from guidegen.joint.rows import first
from guidegen.theory import freeplay
from guidegen.theory import stack as theory

PERMISSIBLE = 0.003  # rad, slope of the shaft in a ball bearing; Shigley 9th ed. Table 7-2, upper end


@dataclass(frozen=True)
class Loaded:
    """What the bearings carry and how the shaft bends; `bent` is None where its supports are not known."""

    carried: Carried
    bent: Bent | None


def loaded(found: Findings, stack: Stack | None, overhang: float, play: Play) -> Loaded:
    """Loads, moment, stress, deflection, slopes, and the lean of the loaded shaft in its bearings."""
    joint, work = found.joint, found.work
    if stack is not None and joint.layout == "A" and joint.plate_on_thread:
        thick = joint.on_thread.stock.thickness.typical
        work(theory.arm_overhang, "overhang", z_f=stack.z_face, z_2=stack.z_bearings[-1], t_p=thick)
    load = carried(work, joint, overhang)
    for n, (reaction, worst) in enumerate(zip(load.reactions, load.loads), 1):
        found.put_number(f"reaction_{n}", reaction, "N")
        found.put_number(f"bearing_load_{n}", worst, "N")
    if not joint.single:
        found.put_number("couple_force", load.couple_force, "N")
    found.put_number("thrust", load.thrust, "N")
    shaft = bent(work, joint, stack, overhang, load.couple, first(found.rows.columns["shaft_diameter"]))
    if shaft is not None:
        _bend(found, shaft)
        if not joint.single:
            _lean(found, shaft, play)
    return Loaded(load, shaft)


def _bend(found, shaft: Bent):
    found.put_number("shaft_moment", shaft.moment, "N·mm")
    found.put_number("bending_stress", shaft.stress, "MPa")
    found.put_number("deflection", shaft.deflection, "mm")
    for n, slope in enumerate(shaft.slopes, 1):
        found.put_number(f"slope_{n}", slope, "rad")


def _lean(found, shaft: Bent, play: Play):
    """Slope of the shaft and the tilt into which the load has settled it, against what a bearing takes."""
    rest = settled(found.work, play, found.joint.separation, found.joint.straddle)
    for n, (slope, one, seat) in enumerate(zip(shaft.slopes, play.guided, found.seats), 1):
        found.put_number(f"lean_under_load_{n}", slope + rest, "rad")
        found.limits[f"lean_limit_{n}"] = _lean_limit(found, n, seat, one)


def _lean_limit(found, n, seat, one) -> float:
    if not seat.ball:
        return freeplay.bush_tilt(first(one.clearance), first(one.length))
    if found.joint.clamped:
        return PERMISSIBLE
    columns = found.rows.columns
    bore, shaft = first(columns[f"bore_{n}"]), first(columns["shaft_diameter"])
    return found.work(
        freeplay.ring_lean, f"lean_limit_{n}", theta_p=PERMISSIBLE, d_b=bore, d_s=shaft, w=seat.width
    )
