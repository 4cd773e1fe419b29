"""Bushes under their load: pressure, sliding speed, their product, and what an edge takes."""

from dataclasses import dataclass

from guidegen.joint.findings import Findings
from guidegen.joint.loads import Carried
from guidegen.joint.records import Motion, Quantity
from guidegen.joint.rows import first
from guidegen.joint.verdicts import Yes
from guidegen.kit.records import SlidingMaterial
from guidegen.numbers import written
from guidegen.theory import sliding as theory
from guidegen.theory import statics

WHOLE_LENGTH = theory.edge_factor(1 / 6)  # up to here the whole bush bears
BOTH_ENDS = theory.edge_factor(0.4)  # from here on the shaft bears on both ends, on opposite sides
ENDS = "the load lies so far off the bush that the shaft bears on both its ends only, on opposite sides"


@dataclass(frozen=True)
class Slid:
    """A bush as its load finds it, at typical sizes: steady radial load, mean pressure, its material."""

    radial: float  # N, of the worse sense of the couple
    pressure: float  # MPa
    moment: float  # steady, N·mm; of a bush that is alone
    material: SlidingMaterial


def sliding(found: Findings, load: Carried) -> dict[int, Slid]:
    """Pressure, speed and pressure times speed of each bush, against its material's limits; by its number."""
    bushes, d_s = {}, first(found.rows.columns["shaft_diameter"])
    speed = _speed(found, d_s)
    for n, seat in enumerate(found.seats, 1):
        if seat.ball:
            continue
        material = found.course.sliding[seat.bearing.material]
        bushes[n] = _bush(found, n, load, seat.length.typical, d_s, material)
        _limits(found, n, material)
        if speed:
            running = _running_pressure(found, n, bushes[n], seat.length.typical, d_s)
            product = found.work(theory.pressure_speed, f"pv_{n}", p_b=running, v=speed)
            found.put_number(f"pv_{n}", product / 1000, "MPa·m/s")
    if bushes and speed:
        found.put_number("sliding_speed", speed / 1000, "m/s")
    return bushes


def _speed(found, d_s) -> float:
    """Sliding speed in mm/s; 0 by hand."""
    motion: Motion = found.joint.motion
    if motion.kind == "hand" or all(seat.ball for seat in found.seats):
        return 0.0
    if motion.kind == "turn":
        return found.work(theory.turning_speed, "sliding_speed", d_s=d_s, n=motion.rate)
    return found.work(theory.swing_speed, "sliding_speed", phi_pp=motion.angle, d_s=d_s, f_s=motion.rate)


def _bush(found, n, load, length, d_s, material) -> Slid:
    work, joint = found.work, found.joint
    worst = load.loads[n - 1]
    radial = work(statics.steady_load, f"steady_load_{n}", R_w=worst, k_s=joint.shock)
    mean = work(theory.bush_pressure, f"mean_pressure_{n}", F_r=radial, d_s=d_s, L=length)
    if joint.single and load.moment:
        pressure = _off_middle(found, n, load.moment, worst, mean, d_s, length)
    else:
        pressure = work(theory.shock_pressure, f"pressure_{n}", k_s=joint.shock, p_b=mean)
    found.put_number(f"pressure_{n}", pressure, "MPa")
    return Slid(radial, mean, load.moment / joint.shock, material)


def bears_on_both_ends(radial, moment, length) -> bool:
    """Whether the load lies so far off a bush that the shaft bears on both its ends, on opposite sides."""
    return moment > 0.4 * radial * length


def pressed_on(work, n, radial, moment, length) -> float:
    """All that a bush presses on the shaft: its load, or what both its ends press, on opposite sides."""
    if not bears_on_both_ends(radial, moment, length):
        return radial
    near = work(theory.near_end_force, f"near_end_force_{n}", M_b=moment, R_w=radial, L=length)
    far = work(theory.far_end_force, f"far_end_force_{n}", M_b=moment, R_w=radial, L=length)
    return work(theory.both_ends_force, f"both_ends_force_{n}", R_n=near, R_f=far)


def _running_pressure(found, n, bush, length, d_s) -> float:
    """Mean pressure without shock where the bush bears: all its length, or a third of it at the worse end."""
    if not bears_on_both_ends(bush.radial, bush.moment, length):
        return bush.pressure
    near = found.work(
        theory.near_end_force, f"near_end_force_{n}", M_b=bush.moment, R_w=bush.radial, L=length
    )
    return found.work(theory.end_mean_pressure, f"end_pressure_{n}", R_n=near, d_s=d_s, L=length)


def _off_middle(found, n, moment, worst, mean, d_s, length) -> float:
    """Pressure at the edge of a bush that is alone and carries a moment, with shock."""
    work = found.work
    if worst > 0:
        offset = work(theory.edge_offset, f"edge_offset_{n}", M_b=moment, R_w=worst, L=length)
        factor = work(theory.edge_factor, f"edge_factor_{n}", epsilon=offset)
        found.put_number(f"edge_factor_{n}", factor, "-")
        found.answers["edge"] = _edge(factor)
        with_shock = work(theory.shock_pressure, f"shock_pressure_{n}", k_s=found.joint.shock, p_b=mean)
        found.put_number(f"shock_pressure_{n}", with_shock, "MPa")
        return work(theory.edge_pressure, f"pressure_{n}", k_o=factor, p_k=with_shock)
    found.answers["edge"] = Yes(True, False, ENDS)
    force = work(theory.near_end_force, f"struck_end_force_{n}", M_b=moment, R_w=worst, L=length)
    return work(theory.end_pressure, f"pressure_{n}", R_n=force, d_s=d_s, L=length)


def _edge(factor) -> Yes:
    if factor >= BOTH_ENDS:
        return Yes(True, False, ENDS)
    part = f"only a part of the bush bears, its edge {written(factor, '-')} times the mean; two share better"
    return Yes(True, factor <= WHOLE_LENGTH, "" if factor <= WHOLE_LENGTH else part)


def _limits(found, n, material):
    limits = {
        "pressure": (material.pressure_design, material.pressure_ceiling, "MPa", 1),
        "sliding_speed": (material.speed_design, material.speed_ceiling, "m/s", 1000),
        "pv": (material.pv_design, material.pv_ceiling, "MPa·m/s", 1000),
    }
    for name, (design, ceiling, unit, per) in limits.items():
        for kind, value in (("design", design), ("ceiling", ceiling)):
            key = f"{name}_{kind}" if name == "sliding_speed" else f"{name}_{kind}_{n}"
            found.limits[key] = min(value / per, found.limits.get(key, value / per))
            found.given[f"{name}_{kind}_{n}"] = Quantity(unit, value / per)
