"""What it takes to turn the joint: torque to break away and to run, and the force at the arm."""

from functools import reduce

import numpy as np

from guidegen.joint.findings import Findings
from guidegen.joint.loads import Carried
from guidegen.joint.records import Quantity, Stack
from guidegen.joint.rolling import Rolled
from guidegen.joint.rows import Rows, first
from guidegen.joint.sliding import Slid, pressed_on
from guidegen.joint.verdicts import Yes
from guidegen.kit.lookup import ball_friction, press_friction
from guidegen.numbers import written
from guidegen.theory import friction as theory
from guidegen.units import Band

STATES = ("start", "run")
UNITS = {"friction": "-", "drag": "MPa", "seal": "N·mm"}


def turning(
    found: Findings, stack: Stack | None, load: Carried, bushes: dict[int, Slid], balls: dict[int, Rolled]
):
    """Torque to start and to keep turning, with bands, and the force at the end of a balanced arm."""
    torques = {state: _torque(found, state, stack, load, bushes, balls) for state in STATES}
    rows, torque = torques["start"]
    found.limits["torque_to_pass"] = rows.band(torque).most
    force = found.work(theory.arm_force, "start_force", T=torque, r=found.joint.arm)
    found.put_over(rows, "start_force", force, "N")
    if found.arm is not None:
        found.answers["arm_grips"] = _arm_grips(found, found.quantities["start_torque"].band)


def _arm_grips(found, start: Band) -> Yes:
    """Whether an arm that slides on the shoulder takes the screw with it: by its radial load alone, dry.

    A couple presses the arm on the shoulder too, but how much of it, the faces beside the arm decide.
    """
    joint = found.joint
    band = press_friction(joint.arm_plate.stock.kind)
    found.given["arm_friction"] = Quantity("-", band=band)
    rows = Rows({"arm_friction": band}, decades=["arm_friction"])
    d_s = first(found.rows.columns["shaft_diameter"])
    grip = found.work(
        theory.bush_torque, "arm_slip_torque", mu=rows.columns["arm_friction"], F_r=joint.radial, d_s=d_s
    )
    found.put_over(rows, "arm_slip_torque", grip, "N·mm")
    slips = rows.band(grip)
    always, typical = slips.least >= start.most, slips.typical >= start.typical
    why = (
        f"by the radial load alone the shoulder grips the arm with {_ends(slips)}; the bearings hold the "
        f"screw back with {_ends(start)}"
    )
    if always:
        return Yes(True, True, f"{why}: the screw turns with the arm")
    perhaps = "turns" if not typical and not joint.axial else "may turn"
    return Yes(
        typical or bool(joint.axial),
        False,
        f"{why}: the arm {perhaps} on the shoulder while the screw stands; then its own hole wears, and "
        "what is told of bearings that turn does not come true; bond the arm",
    )


def _ends(band: Band) -> str:
    least, typical, most = (written(x, "N·mm") for x in (band.least, band.typical, band.most))
    return f"{typical} ({least.removesuffix(' N·mm')} to {most})"


def _torque(found, state, stack, load, bushes, balls):
    """(rows of the coefficients, torque over them); the couple may turn either way, the worse way counts."""
    bands = _bands(found, state, bushes)
    rows = Rows(bands, decades=[name for name in bands if name.startswith("friction")])

    def parts(work, radials):
        numbered = enumerate(radials, 1)
        return [
            _bearing(work, found, n, state, rows.columns, radial, bushes, balls) for n, radial in numbered
        ]

    worse = max(load.senses, key=lambda radials: sum(map(first, parts(_unprinted, radials))))
    both = (*parts(found.work, worse), 0.0)[:2]
    face = _face(found, state, stack, rows, bushes)
    torque = found.work(theory.joint_torque, f"{state}_torque", T_1=both[0], T_2=both[1], T_f=face)
    if state == "start":
        found.rubbing = {
            n: rows.band(both[n - 1] + (face if n in bushes else 0.0)) for n, _ in enumerate(found.seats, 1)
        }
    found.put_over(rows, f"{state}_torque", torque, "N·mm")
    return rows, torque


def _unprinted(formula, gives, **values):
    return formula(**values)


def _bands(found, state, bushes) -> dict[str, Band]:
    """What is known between limits: coefficients, drag and seals, of each bearing its own."""
    bands, prefix = {}, "" if state == "run" else "start_"
    for n, seat in enumerate(found.seats, 1):
        if n in bushes:
            known = {"friction": getattr(bushes[n].material, f"friction_{state}")}
        else:
            table = ball_friction(seat.bearing.closure, seat.bearing.nominal)
            known = {name: getattr(table, f"{name}_{state}") for name in UNITS}
        for name, band in known.items():
            bands[f"{name}_{n}"] = band
            found.given[f"{prefix}{name}_{n}"] = Quantity(UNITS[name], band=band)
    return bands


def _bearing(work, found, n, state, columns, radial, bushes, balls):
    """Friction torque of one bearing under its steady radial load."""
    name = f"{state}_torque_{n}"
    if n in bushes:
        d_s, length = first(found.rows.columns["shaft_diameter"]), found.seats[n - 1].length.typical
        pressed = pressed_on(work, n, radial, bushes[n].moment, length)
        return work(theory.bush_torque, name, mu=columns[f"friction_{n}"], F_r=pressed, d_s=d_s)
    bearing, bore = found.seats[n - 1].bearing, first(found.rows.columns[f"bore_{n}"])
    drag = work(
        theory.drag_torque, f"{state}_drag_{n}", tau_0=columns[f"drag_{n}"], d_m=bearing.pitch_diameter
    )
    return work(
        theory.ball_torque,
        name,
        mu=columns[f"friction_{n}"],
        P=balls[n].equivalent(radial),
        d_b=bore,
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
