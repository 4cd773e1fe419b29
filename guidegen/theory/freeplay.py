"""How far a rigid shaft can tilt and shift in its bearings (small angles).

The closed forms are for bores in line. `tilt_range` and `highest_at` are the general form: every
bearing is one or two stations, each allowing the axis a band of positions. The derivation stands
on the method page; a test proves both against a linear program built from bores and axes.
"""

from itertools import permutations

import numpy as np

from guidegen.theory.declare import absolute, formula, least_of, most_of

TOUCHING = 1e-9  # mm; bushes face to face count as so far apart, so that no slope is endless


@formula(gives="B", source="derived", at="span over the outer faces")
def outer_span(S, L_1, L_2):
    """Distance between the outermost faces that guide the shaft; a ball bearing counts as a plane."""
    return S + (L_1 + L_2) / 2


@formula(gives="g", source="derived", at="gap between the inner faces")
def inner_gap(S, L_1, L_2):
    """Distance between the innermost faces that guide the shaft."""
    return S - (L_1 + L_2) / 2


@formula(gives="theta", source="derived", at="free tilt of one bush", holds="c >= 0")
def bush_tilt(c, L):
    """Tilt each way of a shaft in a single bush."""
    return c / L


@formula(gives="theta", source="derived", at="free tilt of two bushes in line", holds="c_1 >= 0 and c_2 >= 0")
def bush_pair_tilt(c_1, c_2, B, L_1, L_2):
    """Tilt each way of a shaft in two bushes: the pair, or one bush alone, stops it first."""
    return least_of((c_1 + c_2) / (2 * B), c_1 / L_1, c_2 / L_2)


@formula(
    gives="theta",
    source="derived",
    at="free tilt of two ball bearings in line",
    holds="c_1 >= 0 and c_2 >= 0",
)
def ball_pair_tilt(c_1, c_2, S, theta_1, theta_2):
    """Tilt each way of a shaft in two ball bearings: the pair, or one bearing's own tilt, stops it."""
    return least_of((c_1 + c_2) / (2 * S), theta_1, theta_2)


@formula(
    gives="theta",
    source="derived",
    at="free tilt of a bush and a ball bearing",
    holds="c_1 >= 0 and c_2 >= 0",
)
def mixed_pair_tilt(c_1, c_2, B, c, L, theta_b):
    """Tilt each way of a shaft in one bush (clearance c, length L) and one ball bearing."""
    return least_of((c_1 + c_2) / (2 * B), c / L, theta_b)


@formula(gives="theta_s", source="derived", at="the pair of stations that stops the tilt", holds="z_k > z_j")
def station_tilt(U_k, W_j, z_k, z_j):
    """Greatest tilt that two stations allow: from the lower edge of one to the upper edge of the other."""
    return (U_k - W_j) / (z_k - z_j)


@formula(gives="theta_m", source="derived", at="a ring loose on the shaft", holds="w > 0")
def ring_lean(theta_p, d_b, d_s, w):
    """Lean of the shaft that a ball bearing takes: what its balls forgive, and what its ring has room for.

    A ring that slides on the shaft follows its lean only once the shaft touches both ends of its bore.
    """
    return theta_p + most_of(0, d_b - d_s) / w


@formula(gives="theta_v", source="derived", at="two swings one after the other")
def seen_tilt(theta, theta_c):
    """Whole tilt each way that one sees: the bearings', and the screw's in a fork or the arm's on it."""
    return theta + theta_c


@formula(gives="theta", source="derived", at="half the total swing")
def half_swing(theta_u, theta_l):
    """Half of the swing between the greatest and the least tilt; none when the shaft binds."""
    return most_of(0, theta_u - theta_l) / 2


@formula(gives="lambda_", source="derived", at="centre of the swing")
def swing_centre(theta_u, theta_l):
    """The tilt about which the shaft swings; zero when the bores are in line."""
    return (theta_u + theta_l) / 2


@formula(gives="y_r", source="derived", at="total travel at the arm")
def arm_travel(r, theta):
    """Total axial travel at the arm radius by the bearings alone."""
    return 2 * r * theta


@formula(gives="y_u", source="derived", at="reach beyond two stations")
def station_reach(U_k, W_j, x, z_k, z_j):
    """Highest position at a plane beyond station k, held down by station j."""
    return U_k + (U_k - W_j) * (x - z_k) / (z_k - z_j)


@formula(gives="y_u", source="derived", at="reach between two stations", holds="z_k > z_j")
def station_between(U_j, U_k, x, z_j, z_k):
    """Highest position at a plane between two stations."""
    return U_j + (U_k - U_j) * (x - z_j) / (z_k - z_j)


@formula(gives="y_u", source="derived", at="reach from one station at the greatest tilt")
def tilt_reach(U_k, theta_u, x, z_k):
    """Highest position at a plane when the bearing's own free tilt stops the shaft."""
    return U_k + theta_u * (x - z_k)


@formula(gives="y_t", source="derived", at="total travel at the load plane")
def total_travel(y_u, y_l):
    """Total radial travel between the highest and the lowest position; none when the shaft binds."""
    return most_of(0, y_u - y_l)


@formula(gives="e_l", source="derived", at="how far apart two bore axes may be")
def offset_limit(c_1, c_2, g, s_1, s_2):
    """Offset of the two bores at which the shaft just binds.

    The slope each bearing allows is clearance over length for a bush, free tilt for a ball bearing.
    """
    return (c_1 + c_2) / 2 + g * least_of(s_1, s_2)


@formula(gives="theta_f", source="derived", at="tilt that the end faces allow", holds="j >= 0")
def face_tilt(j, D_1, D_2):
    """Tilt each way at which the end faces touch, from end play and mating face diameters."""
    return 2 * j / (D_1 + D_2)


@formula(gives="theta_c", source="derived", at="arm between its neighbours", holds="c >= 0 and theta_f >= 0")
def arm_tilt(c, L, theta_f):
    """Tilt each way of an arm that slides on the shoulder: its hole, or the faces beside it, stop it first.

    Take the second from `face_tilt` with the arm's own axial play. L: the arm's thickness.
    """
    return least_of(c / L, theta_f)


@formula(gives="theta_0", source="derived", at="settled tilt with the load overhung")
def settled_tilt_overhung(c_1, c_2, B, theta):
    """Tilt of the shaft when an overhung load has pressed it to opposite sides; at most its free tilt."""
    return least_of((c_1 + c_2) / (2 * B), theta)


@formula(gives="theta_0", source="derived", at="settled tilt with the load between")
def settled_tilt_straddle(c_1, c_2, S, theta):
    """Tilt of the shaft when a load between bearings of one length has pressed it against the same side."""
    return least_of(absolute(c_1 - c_2) / (2 * S), theta)


@formula(gives="c", source="derived", at="clearance worked back from measured travel")
def clearance_from_travel(y_r, B, r):
    """Clearance of each of two equal bushes from the tip travel measured with end play removed."""
    return y_r * B / (2 * r)


def tilt_range(z, W, U, lowest, highest):
    """Least and greatest tilt of a straight axis through all stations.

    z, W, U: station planes and the band of axis positions each allows, mm, shape (rows, stations).
    lowest, highest: bounds on the tilt itself, rad, shape (rows,).
    Returns (tilt_min, tilt_max), rad, shape (rows,); tilt_min > tilt_max means the shaft binds.
    Source: derived.
    """
    least, most = np.array(lowest, float), np.array(highest, float)
    for j, k in permutations(range(z.shape[1]), 2):
        run = z[:, k] - z[:, j]
        most = np.minimum(most, _slope(U[:, k] - W[:, j], run))
        least = np.maximum(least, -_slope(U[:, j] - W[:, k], run))
    return least, most


def _slope(rise, run):
    """Slope of a line that runs forwards; backwards it limits nothing."""
    return np.where(run >= 0, rise / np.maximum(run, TOUCHING), np.inf)


def highest_at(x, z, W, U, lowest, highest):
    """Highest position of the axis at plane x, mm, shape (rows,).

    Arguments as in `tilt_range`; x has shape (rows,). The lowest position is
    `-highest_at(x, z, -U, -W, -highest, -lowest)`. Source: derived, cases (i) to (iv).
    """
    best = np.full(len(z), np.inf)
    stations = range(z.shape[1])
    for k in stations:
        away = x - z[:, k]
        steepest = np.where(away >= 0, highest, lowest)
        swung = np.where(away == 0, 0.0, steepest * np.where(away == 0, 1.0, away))
        best = np.minimum(best, U[:, k] + swung)
        for j in stations:
            if j == k:
                continue
            between = away * (x - z[:, j]) < 0
            beyond = away * (z[:, k] - z[:, j]) > 0
            run = np.where(between | beyond, z[:, k] - z[:, j], 1.0)  # bushes that touch share a plane
            best = np.minimum(
                best, np.where(between, U[:, j] + (U[:, k] - U[:, j]) * (x - z[:, j]) / run, np.inf)
            )
            best = np.minimum(best, np.where(beyond, U[:, k] + (U[:, k] - W[:, j]) * away / run, np.inf))
    return best
