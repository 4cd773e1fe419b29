"""What it takes to turn the joint: torque to break away and to run, and the force at the arm."""

from functools import reduce

import numpy as np

from guidegen.joint.findings import Findings
from guidegen.joint.loads import Carried
from guidegen.joint.records import Quantity, Stack
from guidegen.joint.rolling import Rolled
from guidegen.joint.rows import Rows, first
from guidegen.joint.sliding import Slid
from guidegen.kit.lookup import ball_friction
from guidegen.theory import friction as theory
from guidegen.units import Band

STATES = ("start", "run")


def turning(
    found: Findings, stack: Stack | None, load: Carried, bushes: dict[int, Slid], balls: dict[int, Rolled]
):
    """Torque to start and to keep turning, with bands, and the force at the end of a balanced arm."""
    torques = {}
    for state in STATES:
        bands = _bands(found, state, bushes)
        rows = Rows(bands)
        parts = [_bearing(found, n, state, rows, bushes, balls) for n in range(1, len(found.seats) + 1)]
        face = _face(found, state, stack, rows, bushes)
        both = (*parts, 0.0)[:2]
        torque = found.work(theory.joint_torque, f"{state}_torque", T_1=both[0], T_2=both[1], T_f=face)
        found.put_over(rows, f"{state}_torque", torque, "N·mm")
        torques[state] = rows, torque
    rows, torque = torques["start"]
    found.limits["torque_to_pass"] = rows.band(torque).most
    force = found.work(theory.arm_force, "start_force", T=torque, r=found.joint.arm)
    found.put_over(rows, "start_force", force, "N")


def _bands(found, state, bushes) -> dict[str, Band]:
    """Coefficients and torques that are known between limits, one of each kind for a material or bearing."""
    bands = {}
    for n, seat in enumerate(found.seats, 1):
        if n in bushes:
            bands[f"friction_{n}"] = getattr(bushes[n].material, f"friction_{state}")
        else:
            known = ball_friction(seat.bearing.closure, seat.bearing.nominal)
            for name in ("friction", "drag", "seal"):
                bands[f"{name}_{n}"] = getattr(known, f"{name}_{state}")
        prefix = "" if state == "run" else "start_"
        for name in ("friction", "drag", "seal"):
            if f"{name}_{n}" in bands:
                unit = {"friction": "-", "drag": "MPa", "seal": "N·mm"}[name]
                found.given[f"{prefix}{name}_{n}"] = Quantity(unit, band=bands[f"{name}_{n}"])
    return bands


def _bearing(found, n, state, rows, bushes, balls):
    columns, name = rows.columns, f"{state}_torque_{n}"
    if n in bushes:
        d_s = first(found.rows.columns["shaft_diameter"])
        return found.work(theory.bush_torque, name, mu=columns[f"friction_{n}"], F_r=bushes[n].radial, d_s=d_s)
    bearing = found.seats[n - 1].bearing
    drag = found.work(
        theory.drag_torque, f"{state}_drag_{n}", tau_0=columns[f"drag_{n}"], d_m=bearing.pitch_diameter
    )
    return found.work(
        theory.ball_torque,
        name,
        mu=columns[f"friction_{n}"],
        P=balls[n].equivalent,
        d_b=bearing.bore.typical,
        T_0=drag,
        T_l=columns[f"seal_{n}"],
    )


def _face(found, state, stack, rows, bushes):
    """Torque of the face that stops the joint along the screw: a bush's end; ball bearings roll instead.

    The axial load may push either way. Where only one bearing is a bush, its end is taken to carry it.
    """
    if not bushes or not found.joint.axial:
        return 0.0
    torques = []
    for n in bushes:
        seat = found.seats[n - 1]
        faces = stack.face_diameters if stack is not None and stack.face_diameters else ()
        outer = faces[min(n, len(faces)) - 1] if faces else seat.outside.typical
        radius = found.work(theory.face_radius, f"face_radius_{n}", D_f=outer, d_g=seat.bores.typical)
        torques.append(
            found.work(
                theory.face_torque,
                f"{state}_face_torque_{n}",
                mu_f=rows.columns[f"friction_{n}"],
                F_a=found.joint.axial,
                r_m=radius,
            )
        )
    return reduce(np.maximum, torques)
