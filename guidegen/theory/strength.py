"""What the screw bears: bending that goes round it, fillets, shear.

For round steel screws bent at room temperature. Factors with which texts also multiply, and which are 1
there or raise the limit below 250 °C (kind of load, temperature), are left out. Published tables are not
known here: whoever holds them hands their columns to `fillet_constants` and `endurance_reliability`, the
row of a finish to `surface_factor`.
"""

from typing import Mapping, NamedTuple, Sequence

import numpy as np

from guidegen.theory.declare import formula, least_of, most_of, pi, sqrt
from guidegen.units import MM_PER_INCH

MEGAPASCAL = 1.0  # in which the constants of surface finishes are stated
KSI = 4448.2216152605 / MM_PER_INCH**2  # MPa, in which Neuber's length was fitted
SPECIMEN = 7.62  # mm, diameter of the specimen in the fatigue machine, 0.3 in
OF_TENSILE = 0.5  # endurance limit of a polished steel specimen over its tensile strength
GREATEST_LIMIT = 700.0  # MPa, that a specimen's endurance limit reaches however hard the steel


class FilletConstants(NamedTuple):
    """Constants of the concentration at a fillet, and whether the table reaches so far."""

    A: float | np.ndarray
    b: float | np.ndarray
    known: bool | np.ndarray


@formula(gives="S_n", source="shigley-9", at="Eq. 6-8")
def specimen_limit(u_e, S_u, S_c):
    """Stress that a polished specimen bears for ever, turning under a steady load."""
    return least_of(u_e * S_u, S_c)


@formula(gives="k_a", source="shigley-9", at="Eq. 6-19", holds="S_u > 0")
def surface_factor(a_s, S_u, S_1, b_s):
    """What the finish of the surface leaves of the endurance limit; never more than a polished one."""
    return least_of(1, a_s * (S_u / S_1) ** b_s)


@formula(gives="d_e", source="shigley-9", at="Eq. 6-24")
def still_diameter(d_s):
    """Diameter of the turning bar that tires like a still one whose load reverses."""
    return 0.37 * d_s


@formula(gives="k_z", source="shigley-9", at="Eq. 6-20", holds="0 < d_e <= 20 * d_0 / 3")
def size_factor(d_e, d_0):
    """What the size leaves of the endurance limit; nothing is gained by being thinner than a specimen.

    The text lets the factor rise above 1 from 7.6 down to 2.8 mm and ends there: 1 is safer, and has no step.
    """
    return least_of(1, (d_e / d_0) ** -0.107)


@formula(gives="S_e", source="shigley-9", at="Eq. 6-18")
def endurance_limit(k_a, k_z, k_e, S_n):
    """Stress that the screw bears for ever while its load goes round it."""
    return k_a * k_z * k_e * S_n


@formula(
    gives="K_t",
    source="peterson-fits",
    at="shaft with shoulder fillet in bending",
    holds="0 < r_f <= 0.3 * d_n",
)
def fillet_concentration(A_f, r_f, d_n, b_f):
    """How many times the stress at a fillet exceeds that of the plain bar of the smaller diameter.

    Take the constants from `fillet_constants`. Leaves out what hard metal forgives: see
    `fatigue_concentration`.
    """
    return most_of(1, A_f * (r_f / d_n) ** b_f)


@formula(gives="a_n", source="shigley-9", at="Eqs. 6-33, 6-35", holds="S_u >= 50 * S_k and S_u <= 250 * S_k")
def neuber_length(S_u, S_k, l_k):
    """Length below which steel hardly feels a notch; fitted in inches and ksi, which are arguments here."""
    s_k = S_u / S_k
    return l_k * (0.245799 - 0.00307794 * s_k + 1.50874e-5 * s_k**2 - 2.66978e-8 * s_k**3) ** 2


@formula(gives="q_n", source="shigley-9", at="Eq. 6-34", holds="a_n >= 0 and r_f > 0")
def notch_sensitivity(a_n, r_f):
    """How much of a fillet's concentration the steel feels when it tires: 1 all, 0 nothing."""
    return 1 / (1 + sqrt(a_n / r_f))


@formula(gives="K_f", source="shigley-9", at="Eq. 6-32")
def fatigue_concentration(q_n, K_t):
    """How many times a fillet raises the stress that tires the screw."""
    return 1 + q_n * (K_t - 1)


@formula(gives="n_e", source="shigley-9", at="fully reversed stress, endless life", holds="sigma_b > 0")
def endurance_factor(S_e, K_f, sigma_b):
    """How many times the load could grow before the screw tires.

    The bending stress is that without concentration.
    """
    return S_e / (K_f * sigma_b)


@formula(gives="tau", source="strength-of-materials", at="shear of a round bar in bending")
def shear_stress(V, d_s):
    """Greatest shear stress across the shoulder: four thirds of the mean, at its middle."""
    A_s = pi * d_s**2 / 4
    return 4 * V / (3 * A_s)


@formula(gives="n_s", source="strength-of-materials", at="distortion energy in pure shear", holds="tau > 0")
def shear_factor(S_y, tau):
    """How many times the load could grow before the shoulder yields in shear."""
    return S_y / (sqrt(3) * tau)


@formula(gives="sigma_f", source="strength-of-materials", at="bending of a round bar, with concentration")
def fillet_stress(K_c, M_f, d_n):
    """Greatest bending stress at a fillet: at the neck when the clamped face opens, or under the head."""
    return 32 * K_c * M_f / (pi * d_n**3)


@formula(gives="sigma_n", source="strength-of-materials", at="tension and bending together")
def neck_stress(sigma_f, F_i, d_n):
    """Greatest stress in the neck when the clamped face opens and the neck alone carries the moment."""
    return sigma_f + 4 * F_i / (pi * d_n**2)


def fillet_constants(step: float | np.ndarray, table: Mapping[str, Sequence]) -> FilletConstants:
    """A_f and b_f of a fillet, read in a straight line between the rows of their table.

    step: larger over smaller diameter, number or array. table: columns step, A and b (fillet_bending).
    Beyond the rows stands the nearest row's value, with `known` false.
    """
    A, b = (np.interp(step, table["step"], table[column]) for column in ("A", "b"))
    return FilletConstants(A, b, _within(step, table["step"]))


def endurance_reliability(
    reliability: float | np.ndarray, table: Mapping[str, Sequence]
) -> tuple[float | np.ndarray, bool | np.ndarray]:
    """k_e for a reliability in per cent, and whether the table reaches so far.

    table: columns reliability and k_e (reliability_ke), read in a straight line between rows.
    """
    known = _within(reliability, table["reliability"])
    return np.interp(reliability, table["reliability"], table["k_e"]), known


def _within(x, rows):
    return (rows[0] <= np.asarray(x)) & (np.asarray(x) <= rows[-1])
