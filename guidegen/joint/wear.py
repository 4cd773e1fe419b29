"""How bushes wear: cycles until a bush is worn, and the wobble after many cycles."""

from dataclasses import replace
from functools import reduce

import numpy as np

from guidegen.joint.findings import Findings
from guidegen.joint.play import Play, tilt_of
from guidegen.joint.records import Joint, Quantity
from guidegen.joint.rows import Rows, first
from guidegen.joint.sliding import Slid
from guidegen.theory import freeplay
from guidegen.theory import sliding as theory
from guidegen.units import Band

DECADES = (3, 4, 5, 6, 7)  # wobble is told after 10^3 to 10^7 cycles
HALF_TURN = 3.141592653589793  # rad; a smaller swing wears the bush where it is loaded


def wearing(found: Findings, play: Play, bushes: dict[int, Slid]):
    """Cycles until the worse bush is worn, cycles wanted, and the wobble meanwhile."""
    motion = found.joint.motion
    if motion.kind == "hand" or not bushes:
        return
    if motion.hours:
        wanted = found.work(theory.cycles_wanted, "cycles_wanted", n_w=motion.rate, t_w=3600 * motion.hours)
        found.put_number("cycles_wanted", wanted, "-")
        found.limits["cycles_wanted"] = wanted
    rows = _rows(found, play, bushes)
    growth = {n: _growth(found, n, bush, rows) for n, bush in bushes.items()}
    lasting = {}
    for n, grown in growth.items():
        room = _room(found, n, rows)
        if first(grown) > 0 and first(room) > 0:
            lasting[n] = found.work(theory.wear_cycles, f"wear_cycles_{n}", a_worn=room, g_w=grown)
    if lasting:
        found.put_over(rows, "wear_cycles", reduce(np.minimum, lasting.values()), "-")
        _worn(found, play, rows, growth)


def _room(found, n, rows):
    """Growth of the clearance at which a bush counts as worn, over the rows."""
    return found.work(
        theory.wear_room,
        f"wear_room_{n}",
        c=rows.columns[f"clearance_{n}"],
        d_f=found.seats[n - 1].bores.typical,
        d_s=first(found.rows.columns["shaft_diameter"]),
    )


def turns_round(joint: Joint) -> bool:
    """Whether the load turns round in the bush; else it stands still there and wears one side."""
    if joint.motion.kind == "swing" and joint.motion.angle < HALF_TURN:
        return False
    with_bush = joint.direction == ("fixed" if joint.layout == "A" else "turning")
    return not with_bush


def _rows(found, play, bushes) -> Rows:
    """Clearance and length of each bush as found so far, and the wear rate of its material."""
    sizes, bands, inside, rates = found.rows, {}, {}, []
    for n, one in enumerate(play.guided, 1):
        ball = found.seats[n - 1].ball
        for name, values in (
            ("clearance", one.clearance),
            ("free_tilt", one.free_tilt) if ball else ("length", one.length),
        ):
            bands[f"{name}_{n}"] = sizes.band(values)
            if bands[f"{name}_{n}"].width:
                inside[f"{name}_{n}"] = sizes.inside(values)
        if n in bushes:
            rate: Band = bushes[n].material.wear_rate
            bands[f"wear_rate_{n}"] = rate
            rates.append(f"wear_rate_{n}")
            found.given[f"wear_rate_{n}"] = Quantity("mm²/N", band=rate)
    return Rows(bands, inside, rates)


def _growth(found, n, bush, rows):
    """Growth of the clearance of one bush in one cycle, over the rows."""
    joint, work, d_s = found.joint, found.work, first(found.rows.columns["shaft_diameter"])
    length, rate = rows.columns[f"length_{n}"], rows.columns[f"wear_rate_{n}"]
    pressure = theory.bush_pressure(bush.radial, d_s, length)
    if joint.motion.kind == "swing":
        slid = work(theory.swing_distance, f"slid_{n}", phi_pp=joint.motion.angle, d_s=d_s)
    else:
        slid = work(theory.turn_distance, f"slid_{n}", d_s=d_s)
    all_round = turns_round(joint)
    depth = work(
        theory.turning_wear if all_round else theory.fixed_wear, f"wear_{n}", k_w=rate, p_b=pressure, s_c=slid
    )
    grown = theory.all_round_growth if all_round else theory.one_sided_growth
    return work(grown, f"growth_{n}", h_w=depth)


def _worn(found, play, rows, growth):
    """Wobble at the arm after so many cycles, until a bush would be worn through."""
    joint, seats = found.joint, found.seats
    for power in DECADES:
        worn = []
        for n, one in enumerate(play.guided, 1):
            clearance = rows.columns[f"clearance_{n}"]
            if n in growth:
                wall = (seats[n - 1].outside.typical - seats[n - 1].bores.typical) / 2
                if 10**power * first(growth[n]) > wall:
                    return
                clearance = theory.worn_clearance(clearance, 10.0**power, growth[n])
            if seats[n - 1].ball:
                worn.append(replace(one, clearance=clearance, free_tilt=rows.columns[f"free_tilt_{n}"]))
            else:
                worn.append(replace(one, clearance=clearance, length=rows.columns[f"length_{n}"]))
        tilt = tilt_of(tuple(worn), joint.separation, joint.offset or 0.0)
        found.put_over(rows, f"arm_play_1e{power}", freeplay.arm_travel(joint.arm, tilt), "mm")
