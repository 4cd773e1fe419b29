"""Whether the screw, and what the nut clamps, bear the load: shear, fatigue, the clamped face."""

from dataclasses import dataclass, replace

from guidegen.joint.findings import Findings
from guidegen.joint.loads import Bent, Carried, supports
from guidegen.joint.records import Joint, Placed, Quantity, Stack
from guidegen.joint.rows import Rows, first
from guidegen.joint.verdicts import Yes
from guidegen.kit import lookup
from guidegen.kit.fasteners import locking_torque
from guidegen.kit.records import Nut
from guidegen.numbers import said
from guidegen.theory import clamp as holding
from guidegen.theory import beam
from guidegen.theory import strength as theory
from guidegen.theory.nuts import wrench_torque

YIELDING = ("bending_factor", "shear_factor", "neck_factor")
LOCKING = ("locking", "low locking")  # nuts that take a torque just to run on
FINISH, RELIABILITY = "ground", 99  # of the shoulder; per cent of screws that bear the endurance limit
PROOF = 0.88  # of the yield stress, that a screw bears without staying longer (ISO 898-1, class 12.9)
REUSED = 0.75  # share of the proof load for a joint that is taken apart again
EDGE_BREAK = 0.2  # mm that the edge of the shoulder's end is broken by, all round (common practice)
SHARP = 2.7  # concentration at a fillet of unknown radius, bending; Shigley, memory
TO_SPARE = 0.95  # of the force that neck or plate would still bear
FACE_FRICTION = 0.15  # of the clamped face, dry (common practice)


def strong(found: Findings, stack: Stack | None, overhang: float, load: Carried, shaft: Bent):
    """Shear and fatigue of the shoulder, and what the clamped face must hold and does."""
    d_s = first(found.rows.columns["shaft_diameter"])
    _shear(found, shaft.shear, d_s)
    if shaft.stress > 0 and tires(found.joint):
        _fatigue(found, shaft.stress, d_s)
    if stack is not None and found.joint.plate_on_thread:
        _clamp(found, stack, overhang, load)
    _yield(found)


def _yield(found):
    """The least of the factors on yield: in bending, in shear, in the neck where the face opens."""
    factors = [n for n, step in enumerate(found.work.steps) if step.gives in YIELDING]
    if factors:
        steps = found.work.steps
        least = min(factors, key=lambda n: steps[n].result)
        steps[least] = replace(steps[least], gives="yield_factor")
        found.put_number("yield_factor", steps[least].result, "-")


def tires(joint: Joint) -> bool:
    """Whether the load goes round the screw: it turns under a load that stands still, or the other way.

    A swing under half a turn counts as going round, which is on the safe side.
    """
    if joint.motion.kind == "hand":
        return False
    return joint.direction == ("fixed" if joint.layout == "A" else "turning")


def _shear(found, force, d_s):
    if not force:
        return
    tau = found.work(theory.shear_stress, "shear_stress", V=force, d_s=d_s)
    found.work(theory.shear_factor, "shear_factor", S_y=found.joint.yield_stress, tau=tau)
    found.put_number("shear_stress", tau, "MPa")


def _fatigue(found, stress, d_s):
    work = found.work
    material = found.course.materials[found.joint.shaft.material]
    finish = lookup.surface_finish(FINISH)
    k_a = work(
        theory.surface_factor,
        "surface_factor",
        a_s=finish.a,
        S_u=material.tensile_stress,
        S_1=theory.MEGAPASCAL,
        b_s=finish.b,
    )
    k_z = work(theory.size_factor, "size_factor", d_e=d_s, d_0=theory.SPECIMEN)
    k_e, _ = theory.endurance_reliability(RELIABILITY, lookup.columns_of("reliability_ke"))
    limit = work(
        theory.specimen_limit,
        "specimen_limit",
        u_e=theory.OF_TENSILE,
        S_u=material.tensile_stress,
        S_c=theory.GREATEST_LIMIT,
    )
    S_e = work(theory.endurance_limit, "endurance_limit", k_a=k_a, k_z=k_z, k_e=float(k_e), S_n=limit)
    factor = work(theory.endurance_factor, "endurance_factor", S_e=S_e, K_f=1.0, sigma_b=stress)
    found.put_number("endurance_factor", factor, "-")
    found.given["tensile_stress"] = Quantity("MPa", material.tensile_stress)


@dataclass(frozen=True)
class _Face:
    """The ring where the plate is pressed against the shoulder or the last ring spacer."""

    outer: float
    hole: float
    plate: Placed


def _face(joint: Joint, stack: Stack, d_s) -> _Face:
    plate = next(row for row in stack.placed if row.kind == "plate")
    before = [row for row in stack.placed if row.z_to <= plate.z_from + 1e-6 and row.on == "shoulder"]
    pressing = before[-1].outside if joint.clamped and before else d_s - 2 * EDGE_BREAK
    return _Face(pressing, plate.hole, plate)


def _clamp(found, stack, overhang, load):
    """Clamp force needed to keep the face shut, and given by the torque to set, with its scatter and loss."""
    joint, work = found.joint, found.work
    face = _face(joint, stack, first(found.rows.columns["shaft_diameter"]))
    if face.outer <= face.hole:
        why = (
            f"the hole over the thread, {said(face.hole, 'mm')}, leaves no face to press against: "
            f"what presses is {said(face.outer, 'mm')} across"
        )
        found.answers["clamped_face"] = Yes(False, False, why)
        return
    arm = joint.on_thread.stock.thickness.typical / 2
    if joint.layout == "B":
        _, planes, _ = supports(joint, stack)
        arm = planes[-1] - overhang
    moment = work(
        holding.face_moment, "face_moment", k_s=joint.shock, F=joint.radial, x_f=arm, M_a=load.couple
    )
    needed = work(holding.clamp_needed, "clamp_needed", M_f=moment, D_a=face.outer, d_h=face.hole)
    found.put_number("clamp_needed", needed, "N")
    found.limits["clamp_needed"] = needed
    nuts = [row.part for row in stack.placed if row.kind == "nut"]
    kept, tight = _given(found, face, found.course.parts[nuts[-1]]) if nuts else (0.0, 0.0)
    if kept < needed:
        _neck(found, moment, tight)


def _given(found, face, nut: Nut) -> tuple[float, float]:
    """Typical clamp force that is kept, and when new, from the torque that neither neck nor plate minds."""
    joint, work, screw = found.joint, found.work, found.joint.shaft
    proof = PROOF * joint.yield_stress
    most = work(
        holding.clamp_limit,
        "clamp_limit",
        u_p=REUSED,
        S_p=proof,
        d_n=screw.neck_diameter.least,
        S_t=proof,
        A_t=joint.thread.stress_area,
    )
    stock = joint.on_thread.stock
    per_newton = work(holding.seat_pressure, "seat_per_newton", F_i=1.0, D_a=face.outer, d_h=face.hole)
    bands = {"nut_factor": lookup.nut_factor(nut.finish), "clamp_loss": lookup.clamp_loss(stock.kind)}
    rows = Rows(bands)
    scatter = bands["nut_factor"].least / bands["nut_factor"].typical
    force = TO_SPARE * scatter * min(most, stock.seat_limit / per_newton)
    torque = work(
        holding.tightening_torque,
        "set_torque",
        K_n=bands["nut_factor"].typical,
        d_t=joint.thread.diameter,
        F_i=force,
    )
    found.put_number("set_torque", torque, "N·mm")
    if nut.kind in LOCKING:
        running = locking_torque(nut.thread)
        found.given["running_torque"] = Quantity("N·mm", running)
        found.put_number(
            "wrench_torque", work(wrench_torque, "wrench_torque", T_n=torque, T_k=running), "N·mm"
        )
    tight = work(
        holding.clamp_of_torque,
        "clamp_at_first",
        T_n=torque,
        K_n=rows.columns["nut_factor"],
        d_t=joint.thread.diameter,
    )
    kept = work(holding.clamp_kept, "clamp_given", F_0=tight, u_l=rows.columns["clamp_loss"])
    found.put_over(rows, "clamp_given", kept, "N")
    pressure = work(holding.seat_pressure, "seat_pressure", F_i=tight, D_a=face.outer, d_h=face.hole)
    found.put_over(rows, "seat_pressure", pressure, "MPa")
    found.limits["seat_limit"] = stock.seat_limit
    capacity = work(
        holding.clamp_torque, "clamp_torque", mu_c=FACE_FRICTION, F_i=kept, D_a=face.outer, d_h=face.hole
    )
    found.put_over(rows, "clamp_torque", capacity, "N·mm")
    found.given |= {
        "clamped_face": Quantity("mm", face.outer),
        "clamped_hole": Quantity("mm", face.hole),
        "seat_limit": Quantity("MPa", stock.seat_limit),
        "proof_stress": Quantity("MPa", proof),
        "stress_area": Quantity("mm²", joint.thread.stress_area),
        "neck_diameter": Quantity("mm", band=screw.neck_diameter),
        **{name: Quantity("-", band=band) for name, band in bands.items()},
    }
    if screw.neck_fillet is not None:
        found.given["neck_fillet"] = Quantity("mm", screw.neck_fillet)
    return first(kept), first(tight)


def _neck(found, moment, tight):
    """The neck alone, with its concentration, where the clamped face opens; it may yield first."""
    work, screw = found.work, found.joint.shaft
    d_n = screw.neck_diameter.least
    K_t = SHARP
    if screw.neck_fillet is not None:
        step = screw.shoulder_diameter.typical / d_n
        A, b, _ = theory.fillet_constants(step, lookup.columns_of("fillet_bending"))
        K_t = work(
            theory.fillet_concentration,
            "neck_concentration",
            A_f=float(A),
            r_f=screw.neck_fillet,
            d_n=d_n,
            b_f=float(b),
        )
    bent = work(theory.fillet_stress, "neck_bending", K_c=K_t, M_f=moment, d_n=d_n)
    stress = work(theory.neck_stress, "neck_stress", sigma_f=bent, F_i=tight, d_n=d_n)
    found.put_number("neck_stress", stress, "MPa")
    work(beam.yield_factor, "neck_factor", S_y=found.joint.yield_stress, sigma_b=stress)
