"""How far the shaft bends. One beam function serves every layout; closed forms print it."""

import numpy as np

from guidegen.theory.declare import absolute, formula, most_of, pi


@formula(gives="I", source="strength-of-materials", at="round section")
def second_moment(d_s):
    """Second moment of area of the round shoulder."""
    return pi * d_s**4 / 64


@formula(gives="sigma_b", source="strength-of-materials", at="bending of a round bar")
def bending_stress(M, d_s):
    """Greatest bending stress in the shoulder, without stress concentration."""
    return 32 * M / (pi * d_s**3)


@formula(gives="n_y", source="strength-of-materials", at="factor on yield", holds="sigma_b > 0")
def yield_factor(S_y, sigma_b):
    """How many times the load could grow before the shoulder yields."""
    return S_y / sigma_b


@formula(gives="M", source="strength-of-materials", at="overhanging beam", holds="a >= 0")
def overhung_moment(k_s, F, a, M_a):
    """Greatest moment, at bearing 2, of a load beyond the bearings."""
    return k_s * (F * a + M_a)


@formula(gives="y_d", source="strength-of-materials", at="overhanging beam", holds="a >= 0")
def overhung_deflection(F, a, S, M_a, E_s, I):
    """Deflection under a load beyond the bearings, with the couple bending the same way."""
    return F * a**2 * (S + a) / (3 * E_s * I) + M_a * a * (2 * S + 3 * a) / (6 * E_s * I)


@formula(gives="phi_2", source="strength-of-materials", at="overhanging beam", holds="a >= 0")
def overhung_slope_2(F, a, S, M_a, E_s, I):
    """Slope of the shaft at bearing 2, load beyond the bearings."""
    return 2 * (F * a + M_a) * S / (6 * E_s * I)


@formula(gives="phi_1", source="strength-of-materials", at="overhanging beam", holds="a >= 0")
def overhung_slope_1(F, a, S, M_a, E_s, I):
    """Slope of the shaft at bearing 1, load beyond the bearings."""
    return (F * a + M_a) * S / (6 * E_s * I)


@formula(
    gives="M",
    source="strength-of-materials",
    at="simple beam, load between supports",
    holds="p_1 >= 0 and q_1 >= 0",
)
def straddle_moment(k_s, F, p_1, q_1, S, M_a):
    """Greatest moment of a load between the bearings, p from bearing 1 and q from bearing 2."""
    return k_s * (F * p_1 * q_1 / S + M_a * most_of(p_1, q_1) / S)


@formula(
    gives="y_d",
    source="strength-of-materials",
    at="simple beam, load between supports",
    holds="p_1 >= 0 and q_1 >= 0",
)
def straddle_deflection(F, p_1, q_1, S, M_a, E_s, I):
    """Deflection under a load between the bearings; load and couple magnitudes added."""
    return F * p_1**2 * q_1**2 / (3 * E_s * I * S) + M_a * p_1 * q_1 * absolute(q_1 - p_1) / (3 * E_s * I * S)


@formula(gives="M", source="strength-of-materials", at="cantilever with two loads", holds="x_1 >= x_2")
def built_in_moment(k_s, N_1, N_2, x_1, x_2):
    """Greatest moment of a screw held by its thread: at the shoulder face, or at bearing 2."""
    return k_s * most_of(absolute(N_1 * x_1 + N_2 * x_2), absolute(N_1 * (x_1 - x_2)))


@formula(gives="y_1", source="strength-of-materials", at="cantilever with two loads", holds="x_1 >= x_2")
def built_in_deflection_1(N_1, N_2, x_1, x_2, E_s, I):
    """Deflection at bearing 1, the farther from the shoulder face."""
    return (2 * N_1 * x_1**3 + N_2 * x_2**2 * (3 * x_1 - x_2)) / (6 * E_s * I)


@formula(gives="y_2", source="strength-of-materials", at="cantilever with two loads", holds="x_1 >= x_2")
def built_in_deflection_2(N_1, N_2, x_1, x_2, E_s, I):
    """Deflection at bearing 2, the nearer to the shoulder face."""
    return (2 * N_2 * x_2**3 + N_1 * x_2**2 * (3 * x_1 - x_2)) / (6 * E_s * I)


@formula(gives="y_1", source="strength-of-materials", at="simple beam with two loads", holds="p_1 <= p_2")
def fork_deflection_1(N_1, N_2, p_1, p_2, H, E_s, I):
    """Deflection at bearing 1 of a screw in a fork; p from cheek 1, H between the cheeks."""
    return (2 * N_1 * p_1**2 * (H - p_1) ** 2 + N_2 * (H - p_2) * p_1 * (H**2 - (H - p_2) ** 2 - p_1**2)) / (
        6 * E_s * I * H
    )


@formula(gives="y_2", source="strength-of-materials", at="simple beam with two loads", holds="p_1 <= p_2")
def fork_deflection_2(N_1, N_2, p_1, p_2, H, E_s, I):
    """Deflection at bearing 2 of a screw in a fork; p from cheek 1, H between the cheeks."""
    return (2 * N_2 * p_2**2 * (H - p_2) ** 2 + N_1 * p_1 * (H - p_2) * (H**2 - p_1**2 - (H - p_2) ** 2)) / (
        6 * E_s * I * H
    )


@formula(gives="M", source="strength-of-materials", at="simple beam with two loads", holds="p_1 <= p_2")
def fork_moment(k_s, N_1, N_2, p_1, p_2, H):
    """Greatest moment of a screw in a fork, under one of the bearings."""
    m_1 = (N_1 * (H - p_1) + N_2 * (H - p_2)) * p_1 / H
    m_2 = (N_1 * p_1 + N_2 * p_2) * (H - p_2) / H
    return k_s * most_of(absolute(m_1), absolute(m_2))


@formula(gives="M", source="strength-of-materials", at="cantilever with a load and a couple")
def built_in_single_moment(k_s, F, M_1, x_1):
    """Greatest moment of a screw held by its thread, one bearing on it."""
    return k_s * most_of(absolute(F * x_1 + M_1), absolute(M_1))


@formula(gives="y_1", source="strength-of-materials", at="cantilever with a load and a couple")
def built_in_single_deflection(F, M_1, x_1, E_s, I):
    """Deflection at the only bearing of a screw held by its thread."""
    return F * x_1**3 / (3 * E_s * I) + M_1 * x_1**2 / (2 * E_s * I)


@formula(gives="phi_1", source="strength-of-materials", at="cantilever with a load and a couple")
def built_in_single_slope(F, M_1, x_1, E_s, I):
    """Slope at the only bearing of a screw held by its thread, rising away from the shoulder face."""
    return F * x_1**2 / (2 * E_s * I) + M_1 * x_1 / (E_s * I)


@formula(gives="M", source="strength-of-materials", at="simple beam with a load and a couple")
def fork_single_moment(k_s, F, M_1, p_1, q_1, H):
    """Greatest moment of a screw in a fork, one bearing on it: on one side of the bearing or the other."""
    return k_s * most_of(absolute(F * q_1 - M_1) * p_1 / H, absolute(F * p_1 + M_1) * q_1 / H)


@formula(gives="y_1", source="strength-of-materials", at="simple beam with a load and a couple")
def fork_single_deflection(F, M_1, p_1, q_1, H, E_s, I):
    """Deflection at the only bearing of a screw in a fork."""
    return F * p_1**2 * q_1**2 / (3 * E_s * I * H) + M_1 * p_1 * q_1 * (q_1 - p_1) / (3 * E_s * I * H)


@formula(gives="phi_1", source="strength-of-materials", at="simple beam with a load and a couple")
def fork_single_slope(F, M_1, p_1, q_1, H, E_s, I):
    """Slope at the only bearing of a screw in a fork."""
    return F * p_1 * q_1 * (q_1 - p_1) / (3 * E_s * I * H) + M_1 * (p_1**2 - p_1 * q_1 + q_1**2) / (
        3 * E_s * I * H
    )


@formula(gives="y_d", source="derived", at="load plane of a rigid hub on one bearing")
def single_hub_deflection(y_1, phi_1, a):
    """Movement of the load plane of a hub that follows the slope of the screw at its only bearing."""
    return y_1 + phi_1 * a


@formula(gives="y_d", source="derived", at="load plane of a rigid hub", holds="S > 0")
def hub_deflection(y_1, y_2, a, S):
    """Movement of the load plane with a rigid hub on a bent screw."""
    return y_2 + (y_2 - y_1) * a / S


@formula(gives="y_d", source="strength-of-materials", at="cantilever from a bearing that is alone")
def single_deflection(F, a, M_a, E_s, I):
    """Deflection under the load of a shaft guided by one bearing, taken as held at its middle."""
    return F * a**3 / (3 * E_s * I) + M_a * a**2 / (2 * E_s * I)


def beam(x, stiffness, held, forces=(), couples=()):
    """Deflection and slope of a round shaft at planes x, and the greatest bending moment anywhere.

    x: planes, mm, shape (n,). stiffness: E·I, N·mm². held: two support planes (simple beam) or one
    plane (built in there). forces: (plane, N), positive along positive deflection. couples:
    (plane, N·mm), positive along positive slope. Returns (deflection mm, slope rad, moment N·mm),
    shapes (n,), (n,), (). Source: the beam equation, any strength-of-materials text.
    """
    x, (forces, couples) = np.asarray(x, float), _in_balance(held, list(forces), list(couples))

    def integrals(points):
        slope = rise = np.zeros(len(points))
        for at, force in forces:
            arm = np.maximum(points - at, 0)
            slope, rise = slope + force * arm**2 / 2, rise + force * arm**3 / 6
        for at, couple in couples:
            arm = np.maximum(points - at, 0)
            slope, rise = slope - couple * arm, rise - couple * arm**2 / 2
        return slope, rise

    slope_held, rise_held = integrals(np.asarray(held, float))
    turn = -slope_held[0] if len(held) == 1 else -(rise_held[1] - rise_held[0]) / (held[1] - held[0])
    lift = -rise_held[0] - turn * held[0]
    slope, rise = integrals(x)
    return (rise + turn * x + lift) / stiffness, (slope + turn) / stiffness, _greatest_moment(forces, couples)


def greatest_shear(held, forces=(), couples=()):
    """Largest shear force anywhere in the shaft, N; the arguments are those of `beam`.

    It is the sum of what acts on one side; couples change it through the reactions of the supports.
    """
    forces, _ = _in_balance(held, list(forces), list(couples))
    sums = [abs(sum(force for place, force in forces if place <= plane)) for plane, _ in forces]
    nothing = 1e-12 * sum(abs(force) for _, force in forces)  # what rounding leaves
    return max((force for force in sums if force > nothing), default=0.0)


def _in_balance(held, forces, couples):
    """Forces and couples with the reactions of the supports added."""
    total = sum(force for _, force in forces)
    about = sum(force * (at - held[0]) for at, force in forces) + sum(couple for _, couple in couples)
    if len(held) == 1:
        return forces + [(held[0], -total)], couples + [(held[0], -about)]
    far = about / (held[1] - held[0])
    return forces + [(held[0], far - total), (held[1], -far)], couples


def _greatest_moment(forces, couples):
    """Largest bending moment; it stands at a load or a couple, on one side or the other of it."""
    planes = np.array([at for at, _ in forces + couples])
    straight = sum(force * np.maximum(planes - at, 0) for at, force in forces)
    before = straight - sum((couple * (planes > at) for at, couple in couples), np.zeros(len(planes)))
    after = straight - sum((couple * (planes >= at) for at, couple in couples), np.zeros(len(planes)))
    return float(np.max(np.abs(np.concatenate([before, after]))))
