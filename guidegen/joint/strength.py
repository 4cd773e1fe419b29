"""Whether the screw bears the load: shear, fatigue, the least factor on yield."""

from dataclasses import replace

from guidegen.joint.clamping import clamped
from guidegen.joint.findings import Findings
from guidegen.joint.loads import Bent, Carried
from guidegen.joint.records import Joint, Quantity, Stack
from guidegen.joint.rows import first
from guidegen.kit import lookup
from guidegen.theory import strength as theory

YIELDING = ("bending_factor", "shear_factor", "neck_factor")
FINISH, RELIABILITY = "ground", 99  # of the shoulder; per cent of screws that bear the endurance limit


def strong(found: Findings, stack: Stack | None, overhang: float, load: Carried, shaft: Bent):
    """Shear and fatigue of the shoulder, and what the clamped face must hold and does."""
    d_s = first(found.rows.columns["shaft_diameter"])
    _shear(found, shaft.shear, d_s)
    if shaft.stress > 0 and tires(found.joint):
        _fatigue(found, shaft.stress, d_s)
    if stack is not None and (found.joint.plate_on_thread or found.joint.clamped):
        clamped(found, stack, overhang, load)
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
