"""What the bearings carry and how the shaft bends, at typical sizes."""

from dataclasses import dataclass

from guidegen.joint.records import Joint, Stack
from guidegen.joint.working import Working
from guidegen.theory import beam, statics


@dataclass(frozen=True)
class Carried:
    """Bearing loads, N, with shock; signed reactions oppose the load where positive."""

    reactions: tuple[float, ...]
    couple: float  # M_a, steady, N·mm
    couple_force: float
    thrust: float
    loads: tuple[float, ...]
    moment: float  # on a bearing that is alone, with shock, N·mm
    senses: tuple[tuple[float, ...], ...]  # steady radial loads for either sense of the couple


@dataclass(frozen=True)
class Bent:
    """The loaded shaft: greatest moment and shear force with shock, stress; deflection and slopes without."""

    moment: float
    shear: float
    stress: float
    deflection: float
    slopes: tuple[float, ...]


def carried(work: Working, joint: Joint, overhang: float) -> Carried:
    """Reactions by statics, for any position of the load plane."""
    F, k, a, S = joint.radial, joint.shock, overhang, joint.separation
    couple = work(statics.axial_couple, "axial_couple", F_a=joint.axial, r=joint.arm)
    thrust = work(statics.thrust, "thrust", k_s=k, F_a=joint.axial)
    if joint.single:
        reaction = work(statics.single_reaction, "reaction_1", k_s=k, F=F)
        moment = work(statics.single_moment, "bearing_moment", k_s=k, F=F, a=a, M_a=couple)
        worst = work(statics.bearing_load, "bearing_load_1", R=reaction, R_a=0.0)
        return Carried((reaction,), couple, 0.0, thrust, (worst,), moment, ((F,),))
    reactions = (
        work(statics.reaction_1, "reaction_1", k_s=k, F=F, a=a, S=S),
        work(statics.reaction_2, "reaction_2", k_s=k, F=F, a=a, S=S),
    )
    force = work(statics.couple_force, "couple_force", k_s=k, M_a=couple, S=S)
    loads = tuple(
        work(statics.bearing_load, f"bearing_load_{n}", R=reaction, R_a=force)
        for n, reaction in enumerate(reactions, 1)
    )
    senses = tuple(tuple(map(abs, on_shaft(F, a, S, sense * couple))) for sense in (1, -1))
    return Carried(reactions, couple, force, thrust, loads, 0.0, senses)


def bent(
    work: Working, joint: Joint, stack: Stack | None, overhang: float, couple: float, diameter: float
) -> Bent | None:
    """The bent shaft of any layout by one beam function; None where the supports are not known.

    The couple may turn either way: both senses are run and each quantity takes its larger size.
    """
    if stack is None and joint.layout != "A":
        return None
    inertia = work(beam.second_moment, "second_moment", d_s=diameter)
    stiffness = joint.youngs_modulus * inertia
    cases = [_case(joint, stack, overhang, sense * couple, stiffness) for sense in (1, -1)]
    moment, shear = (joint.shock * max(case[n] for case in cases) for n in (2, 3))
    deflection = max(abs(case[0]) for case in cases)
    slopes = tuple(max(map(abs, pair)) for pair in zip(*(case[1] for case in cases)))
    if joint.layout == "A" and joint.single:
        slopes = ()  # taken as held at its middle: no slope there
    _print(work, joint, stack, overhang, couple, inertia)
    stress = work(beam.bending_stress, "bending_stress", M=moment, d_s=diameter)
    if stress > 0:
        work(beam.yield_factor, "bending_factor", S_y=joint.yield_stress, sigma_b=stress)
    return Bent(moment, shear, stress, deflection, slopes)


def _case(joint, stack, a, couple, stiffness):
    """(movement of the load plane, slopes at the bearings, greatest moment, greatest shear) of one sense."""
    F, S = joint.radial, joint.separation
    if joint.layout == "A":
        held = (0.0,) if joint.single else (0.0, S)
        at = a if joint.single else S + a
        acts = [(at, F)], [(at, couple)]
        y, slope, moment = beam.beam([0.0, *held[1:], at], stiffness, held, *acts)
        return y[-1], slope[: len(held)], moment, beam.greatest_shear(held, *acts)
    held, planes, sign = supports(joint, stack)
    if joint.single:
        acts = [(planes[0], F)], [(planes[0], sign * F * a + couple)]
        y, slope, moment = beam.beam(planes, stiffness, held, *acts)
        return y[0] + sign * slope[0] * a, slope, moment, beam.greatest_shear(held, *acts)
    forces = list(zip(planes, on_shaft(F, a, S, couple)))
    y, slope, moment = beam.beam(planes, stiffness, held, forces)
    return beam.hub_deflection(y[0], y[1], a, S), slope, moment, beam.greatest_shear(held, forces)


def on_shaft(F, a, S, couple):
    """Steady forces of two bearings of a hub on the screw, N, positive along the load."""
    return -F * a / S - couple / S, F * (1 + a / S) + couple / S


def supports(joint: Joint, stack: Stack):
    """Where the screw is held, the bearing planes, and whether they count along (1) or against (-1) z.

    Layout B: built in at the clamped face, planes count from there. Layout C: the cheeks' middles.
    """
    if joint.layout == "B":
        return (0.0,), [stack.z_face - z for z in stack.z_bearings], -1
    return stack.cheeks, list(stack.z_bearings), 1


def _print(work, joint, stack, a, couple, inertia):
    """Worked steps in closed form, for the worse sense of the couple, where one is printed."""
    F, S, k, E = joint.radial, joint.separation, joint.shock, joint.youngs_modulus
    if joint.layout == "A" and joint.single:
        work(beam.overhung_moment, "shaft_moment", k_s=k, F=F, a=abs(a), M_a=couple)
        work(beam.single_deflection, "deflection", F=F, a=abs(a), M_a=couple, E_s=E, I=inertia)
    elif joint.layout == "A" and a >= 0:
        work(beam.overhung_moment, "shaft_moment", k_s=k, F=F, a=a, M_a=couple)
        work(beam.overhung_deflection, "deflection", F=F, a=a, S=S, M_a=couple, E_s=E, I=inertia)
        work(beam.overhung_slope_1, "slope_1", F=F, a=a, S=S, M_a=couple, E_s=E, I=inertia)
        work(beam.overhung_slope_2, "slope_2", F=F, a=a, S=S, M_a=couple, E_s=E, I=inertia)
    elif joint.layout == "A" and a >= -S:
        p, q = S + a, -a
        work(beam.straddle_moment, "shaft_moment", k_s=k, F=F, p_1=p, q_1=q, S=S, M_a=couple)
        work(beam.straddle_deflection, "deflection", F=F, p_1=p, q_1=q, S=S, M_a=couple, E_s=E, I=inertia)
    elif joint.layout in "BC":
        (_print_single if joint.single else _print_hub)(work, joint, stack, a, couple, inertia)


def _print_single(work, joint, stack, a, couple, inertia):
    """One bearing of a hub: its force and couple on the screw, the worse sense for the deflection."""
    F, k, E = joint.radial, joint.shock, joint.youngs_modulus
    held, planes, along = supports(joint, stack)
    x = planes[0]
    stiffness = E * inertia
    senses = {sense: _case(joint, stack, a, sense * couple, stiffness) for sense in (1, -1)}
    worse = max(senses, key=lambda sense: abs(senses[sense][0]))
    worst = max(senses, key=lambda sense: senses[sense][2])
    M_y, M_m = (along * F * a + sense * couple for sense in (worse, worst))
    if joint.layout == "B":
        work(beam.built_in_single_moment, "shaft_moment", k_s=k, F=F, M_1=M_m, x_1=x)
        y = work(beam.built_in_single_deflection, "deflection_at_1", F=F, M_1=M_y, x_1=x, E_s=E, I=inertia)
        slope = work(beam.built_in_single_slope, "slope_at_1", F=F, M_1=M_y, x_1=x, E_s=E, I=inertia)
    else:
        place = dict(p_1=x - held[0], q_1=held[1] - x, H=held[1] - held[0])
        work(beam.fork_single_moment, "shaft_moment", k_s=k, F=F, M_1=M_m, **place)
        y = work(beam.fork_single_deflection, "deflection_at_1", F=F, M_1=M_y, **place, E_s=E, I=inertia)
        slope = work(beam.fork_single_slope, "slope_at_1", F=F, M_1=M_y, **place, E_s=E, I=inertia)
    work(beam.single_hub_deflection, "deflection", y_1=y, phi_1=slope, a=along * a)


def _print_hub(work, joint, stack, a, couple, inertia):
    F, S, k, E = joint.radial, joint.separation, joint.shock, joint.youngs_modulus
    held, planes, _ = supports(joint, stack)

    def size(sense):
        y, _, moment = beam.beam(
            planes, E * inertia, held, list(zip(planes, on_shaft(F, a, S, sense * couple)))
        )
        return abs(beam.hub_deflection(y[0], y[1], a, S)), moment

    worse_y, worse_m = (max((1, -1), key=lambda sense: size(sense)[n]) for n in (0, 1))
    N_1, N_2 = on_shaft(F, a, S, worse_y * couple)
    M_1, M_2 = on_shaft(F, a, S, worse_m * couple)
    bent_by = dict(N_1=N_1, N_2=N_2, E_s=E, I=inertia)
    if joint.layout == "B":
        place = dict(x_1=planes[0], x_2=planes[1])
        work(beam.built_in_moment, "shaft_moment", k_s=k, N_1=M_1, N_2=M_2, **place)
        y_1 = work(beam.built_in_deflection_1, "deflection_at_1", **bent_by, **place)
        y_2 = work(beam.built_in_deflection_2, "deflection_at_2", **bent_by, **place)
    else:
        place = dict(p_1=planes[0] - held[0], p_2=planes[1] - held[0], H=held[1] - held[0])
        work(beam.fork_moment, "shaft_moment", k_s=k, N_1=M_1, N_2=M_2, **place)
        y_1 = work(beam.fork_deflection_1, "deflection_at_1", **bent_by, **place)
        y_2 = work(beam.fork_deflection_2, "deflection_at_2", **bent_by, **place)
    work(beam.hub_deflection, "deflection", y_1=y_1, y_2=y_2, a=a, S=S)
