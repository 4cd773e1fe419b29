"""What a ball bearing bears, and how long: load ratings, equivalent loads, rating life, swinging.

For one row of balls in deep grooves, contact angle zero, balls up to 25.4 mm. Published tables are
not known here: whoever holds them hands their columns to `rating_factors`, `thrust_factors` and
`reliability_factor`, which read between the rows. A life is only a life where its formula holds;
without a load nothing tires, and there is none to tell.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from guidegen.theory.declare import formula, most_of, pi, where

MATERIAL = 1.3  # b_m of deep-groove bearings, ISO 281 Table 1: memory, high confidence; printed ratings agree
HOUR = 3600.0  # s
SLOWEST = 10 / 60  # turns a second; slower, judge by the static factor alone (common practice)
SMALL_BORE = 12.0  # mm; bearings up to here bear less thrust (bearing catalogues)


class RatingFactors(NamedTuple):
    """Factors of the load ratings of a deep-groove bearing, and whether both tables reach so far."""

    f_c: float | np.ndarray  # N/mm^1.8
    f_0: float | np.ndarray  # MPa
    known: bool | np.ndarray


class ThrustFactors(NamedTuple):
    """Where thrust begins to count, how much it counts, and whether the table reaches so far."""

    e: float | np.ndarray
    Y: float | np.ndarray
    known: bool | np.ndarray


@formula(gives="gamma", source="iso281", at="Table 2, entry")
def ball_ratio(D_w, d_m):
    """Ball diameter over pitch diameter: how plump the balls are for their circle."""
    return D_w / d_m


@formula(gives="C", source="iso281", at="dynamic radial load rating, one row of balls")
def dynamic_rating(b_m, f_c, Z, D_w):
    """Radial load under which nine of ten bearings last a million turns. Balls up to 25.4 mm."""
    return b_m * f_c * Z ** (2 / 3) * D_w**1.8


@formula(gives="C_0", source="iso76", at="static radial load rating, one row of balls")
def static_rating(f_0, Z, D_w):
    """Radial load that presses the worst ball into its groove with 4200 MPa: the first lasting dent."""
    return f_0 * Z * D_w**2


@formula(gives="u", source="iso281", at="Table 3, entry", holds="C_0 > 0")
def thrust_entry(f_0, F_a, C_0):
    """Thrust measured by the static rating: the entry of the table of thrust factors."""
    return f_0 * F_a / C_0


@formula(gives="P", source="iso281", at="dynamic equivalent radial load", holds="F_r >= 0 and F_a >= 0")
def equivalent_load(F_r, F_a, e, Y):
    """Radial load that would tire the bearing as fast as radial load and thrust together."""
    return where(F_a <= e * F_r, F_r, most_of(F_r, 0.56 * F_r + Y * F_a))


@formula(gives="P_0", source="iso76", at="static equivalent radial load", holds="R_w >= 0 and F_t >= 0")
def equivalent_static_load(R_w, F_t):
    """Radial load that would press the worst ball as hard as radial load and thrust together, with shock."""
    return most_of(R_w, 0.6 * R_w + 0.5 * F_t)


@formula(gives="s_0", source="iso76", at="static safety factor", holds="P_0 > 0")
def static_factor(C_0, P_0):
    """How many times the load could grow before the balls dent their grooves."""
    return C_0 / P_0


@formula(gives="F_l", source="public-pages", at="thrust on a deep-groove bearing")
def thrust_limit(x_t, C_0):
    """Greatest thrust to allow; take the share of the static rating from `thrust_share`."""
    return x_t * C_0


@formula(gives="L_10", source="iso281", at="basic rating life", holds="0 < P <= 0.5 * C")
def rating_life(C, P):
    """Million turns that nine of ten bearings last."""
    return (C / P) ** 3


@formula(gives="L_10h", source="iso281", at="basic rating life in hours", holds="n > 0")
def life_hours(L_10, n, t_h):
    """Hours of motion that nine of ten bearings last; t_h is one hour."""
    return 1e6 * L_10 / (t_h * n)


@formula(gives="L_n", source="iso281", at="life at another reliability", holds="0 < a_1 <= 1")
def reliable_life(a_1, L_10):
    """Million turns that more than nine of ten bearings last. Take a_1 from `reliability_factor`."""
    return a_1 * L_10


@formula(gives="L_w", source="derived", at="turns in the time wanted")
def wanted_turns(n, t_w):
    """Million turns that the joint makes in the time it is wanted for."""
    return n * t_w / 1e6


@formula(gives="C_n", source="iso281", at="basic rating life, for the rating", holds="P >= 0 and L_w > 0")
def needed_rating(P, L_w):
    """Dynamic rating of the bearing that lasts the turns wanted."""
    return P * L_w ** (1 / 3)


@formula(gives="N_s", source="derived", at="turns in one swing, there and back")
def swing_turns(phi_pp):
    """Turns that one swing there and back is worth."""
    return phi_pp / pi


@formula(gives="n", source="derived", at="turn rate of a swinging joint")
def swing_turn_rate(N_s, f_s):
    """Turns a second that a swinging joint is worth."""
    return N_s * f_s


@formula(
    gives="phi_i",
    source="derived",
    at="rolling without slip on the inner ring",
    holds="Z > 0 and gamma >= 0",
)
def inner_overlap(Z, gamma):
    """Swing from which the patches that neighbouring balls roll on the inner ring leave no gap."""
    return 4 * pi / (Z * (1 + gamma))


@formula(
    gives="phi_o",
    source="derived",
    at="rolling without slip on the outer ring",
    holds="Z > 0 and 0 <= gamma < 1",
)
def outer_overlap(Z, gamma):
    """Swing from which the patches that neighbouring balls roll on the outer ring leave no gap."""
    return 4 * pi / (Z * (1 - gamma))


@formula(gives="L_s10", source="derived", at="rating life in swings", holds="phi_pp >= phi_o and phi_o > 0")
def swing_life(L_10, phi_pp, phi_o):
    """Swings there and back that nine of ten bearings last; none is known for a swing below the overlap."""
    return 1e6 * L_10 * pi / phi_pp


def rating_factors(
    gamma: float | np.ndarray, dynamic: Mapping[str, Sequence], static: Mapping[str, Sequence]
) -> RatingFactors:
    """f_c and f_0 for balls of this ratio, read in a straight line between the rows of their tables.

    gamma: D_w/d_m, number or array. dynamic: columns gamma and f_c (ISO 281 Table 2); static: columns
    gamma and f_0 (ISO 76). Beyond the rows stands the nearest row's value, with `known` false.
    """
    known = _within(gamma, dynamic["gamma"]) & _within(gamma, static["gamma"])
    f_c = np.interp(gamma, dynamic["gamma"], dynamic["f_c"])
    return RatingFactors(f_c, np.interp(gamma, static["gamma"], static["f_0"]), known)


def thrust_factors(entry: float | np.ndarray, table: Mapping[str, Sequence]) -> ThrustFactors:
    """e and Y for a thrust entry f_0·F_a/C_0, read in a straight line between the rows of their table.

    entry: number or array. table: columns entry, e and Y (ISO 281 Table 3). Below the first row the
    first holds; above the last stands the last, with `known` false: too much thrust for a rating life.
    """
    e, Y = (np.interp(entry, table["entry"], table[column]) for column in ("e", "Y"))
    return ThrustFactors(e, Y, np.asarray(entry) <= table["entry"][-1])


def reliability_factor(
    reliability: float | np.ndarray, table: Mapping[str, Sequence], edition: str = "a_1"
) -> tuple[float | np.ndarray, bool | np.ndarray]:
    """a_1 for a reliability in per cent, and whether the table reaches so far.

    table: columns reliability, a_1 (ISO 281:2007) and a_1_1990 (ISO 281:1990); `edition` names one.
    """
    known = _within(reliability, table["reliability"])
    return np.interp(reliability, table["reliability"], table[edition]), known


def thrust_share(bore: float | np.ndarray, light: bool | np.ndarray = False) -> float | np.ndarray:
    """Share of the static rating that thrust may reach: 0.5; 0.25 for small bores and light series.

    bore: mm. light: diameter series 8, 9, 0 or 1 of ISO 15. Source: bearing catalogues, read on two pages.
    """
    return np.where((np.asarray(bore) <= SMALL_BORE) | light, 0.25, 0.5)[()]


def _within(x, rows):
    return (rows[0] <= np.asarray(x)) & (np.asarray(x) <= rows[-1])
