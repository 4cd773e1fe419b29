"""What a sliding bush bears and how it wears: pressure, speed, edges, and the growth of its clearance.

Loads are radial; those without shock come from `steady_load`. The shaft is taken as hard and smooth, so
that the bush alone wears, and its bore as worn to the shaft: there the pressure follows a cosine. Which of
the two wear depths applies is a matter of the load as the bush sees it: it stands still there, or it turns
round. Any swing under half a turn counts as standing still, which is on the safe side.
"""

from guidegen.theory.declare import absolute, formula, least_of, most_of, pi, where


@formula(gives="p_b", source="plain-bearings", at="mean pressure on the projected area", holds="L > 0")
def bush_pressure(F_r, d_s, L):
    """Mean pressure in a bush: load over bore times length. Take the load from `steady_load`."""
    return F_r / (d_s * L)


@formula(gives="p_k", source="plain-bearings", at="mean pressure on the projected area, with shock")
def shock_pressure(k_s, p_b):
    """Mean pressure in a bush under a load with shock; wear, friction and warmth leave the shock out."""
    return k_s * p_b


@formula(gives="v", source="plain-bearings", at="sliding speed of a turning shaft", holds="n >= 0")
def turning_speed(d_s, n):
    """Sliding speed of a shaft that turns in its bush."""
    return pi * d_s * n


@formula(gives="v", source="plain-bearings", at="mean sliding speed of a swinging shaft", holds="f_s >= 0")
def swing_speed(phi_pp, d_s, f_s):
    """Mean sliding speed of a shaft that swings in its bush, there and back in each cycle."""
    return phi_pp * d_s * f_s


@formula(gives="pv", source="plain-bearings", at="pressure times speed")
def pressure_speed(p_b, v):
    """Pressure times sliding speed, which sets how warm a bush runs and how fast it wears."""
    return p_b * v


@formula(gives="pv_r", source="common-practice", at="short runs with long rests")
def intermittent_limit(pv_l):
    """Limit of pressure times speed for runs of a few minutes with rests three to five times as long."""
    return 2 * pv_l


@formula(gives="epsilon", source="statics", at="offset of the load on a bush", holds="R_w > 0 and L > 0")
def edge_offset(M_b, R_w, L):
    """How far off its middle a bush is loaded, over its length; zero for each bush of a pair.

    Without a radial load there is no offset, only a moment: take `near_end_force` and `end_pressure` then.
    """
    return absolute(M_b) / (R_w * L)


@formula(gives="k_o", source="derived", at="bush loaded off its middle", holds="epsilon >= 0")
def edge_factor(epsilon):
    """How many times the mean the pressure at the edge of a bush is.

    Up to a sixth the whole length bears; up to 0.4 a part of it, from one edge on; beyond, both ends bear on
    opposite sides, each on a third of the length.
    """
    k_p = 4 / (3 * (1 - 2 * least_of(epsilon, 0.4)))
    k_q = where(epsilon <= 0.4, k_p, most_of(k_p, 3 + 9 * epsilon))
    return where(epsilon <= 1 / 6, 1 + 6 * epsilon, k_q)


@formula(gives="p_e", source="derived", at="pressure at the edge of a bush")
def edge_pressure(k_o, p_k):
    """Pressure at the edge of a bush, with shock."""
    return k_o * p_k


@formula(
    gives="R_n",
    source="statics",
    at="bush that bears on both ends, taken as a pair two thirds of its length apart",
    holds="absolute(M_b) >= 0.4 * R_w * L and L > 0",
)
def near_end_force(M_b, R_w, L):
    """Force at the end of a bush towards the load, when it bears on both ends, even without a radial load."""
    return 3 * absolute(M_b) / (2 * L) + R_w / 2


@formula(
    gives="R_f",
    source="statics",
    at="bush that bears on both ends, taken as a pair two thirds of its length apart",
    holds="absolute(M_b) >= 0.4 * R_w * L and L > 0",
)
def far_end_force(M_b, R_w, L):
    """Force at the end of a bush away from the load, on the other side of the bore, when both ends bear."""
    return 3 * absolute(M_b) / (2 * L) - R_w / 2


@formula(gives="R_b", source="statics", at="bush that bears on both ends")
def both_ends_force(R_n, R_f):
    """All that a bush presses on the shaft when both ends bear, on opposite sides: what friction feels."""
    return R_n + R_f


@formula(gives="p_b", source="derived", at="bush that bears on both ends", holds="L > 0")
def end_mean_pressure(R_n, d_s, L):
    """Mean pressure on the third of a bush that bears at its worse end."""
    return 3 * R_n / (d_s * L)


@formula(gives="p_e", source="derived", at="bush that bears on both ends", holds="L > 0")
def end_pressure(R_n, d_s, L):
    """Pressure at the edge of a bush that bears on a third of its length at each end: twice the mean."""
    return 6 * R_n / (d_s * L)


@formula(gives="s_c", source="derived", at="distance slid in a swing there and back", holds="phi_pp >= 0")
def swing_distance(phi_pp, d_s):
    """Distance that the shaft slides in its bush in one swing there and back."""
    return phi_pp * d_s


@formula(gives="s_c", source="derived", at="distance slid in a turn")
def turn_distance(d_s):
    """Distance that the shaft slides in its bush in one turn."""
    return pi * d_s


@formula(gives="h_w", source="archard", at="load that stands still in the bush, bore worn to the shaft")
def fixed_wear(k_w, p_b, s_c):
    """Depth worn off a bush where it is loaded, in one cycle; the load stands still in the bush.

    Leaves out running in, grit, and the faster wear of an edge.
    """
    return (4 / pi) * k_w * p_b * s_c


@formula(gives="h_w", source="archard", at="load that turns round the bush, bore worn to the shaft")
def turning_wear(k_w, p_b, s_c):
    """Depth worn off a bush all round, in one cycle; the load turns round in the bush."""
    return (4 / pi**2) * k_w * p_b * s_c


@formula(gives="g_w", source="derived", at="bush worn on one side")
def one_sided_growth(h_w):
    """Growth of the clearance in one cycle of a bush worn on one side: the depth worn there."""
    return h_w


@formula(gives="g_w", source="derived", at="bush worn all round")
def all_round_growth(h_w):
    """Growth of the clearance in one cycle of a bush worn all round: the depth worn, on both sides."""
    return 2 * h_w


@formula(gives="a_worn", source="common-practice", at="clearance doubled", holds="c >= 0")
def wear_room(c, d_f, d_s):
    """Growth of the clearance at which a bush counts as worn: its own clearance, so that it has doubled.

    Pressing in may leave hardly any; twice nothing says nothing. It then counts what bore and shaft had
    before the bush was pressed in.
    """
    return most_of(c, d_f - d_s)


@formula(gives="N_w", source="derived", at="growth even from cycle to cycle", holds="g_w > 0 and a_worn >= 0")
def wear_cycles(a_worn, g_w):
    """Cycles until a bush is worn. A bush that is not loaded or does not slide does not wear."""
    return a_worn / g_w


@formula(gives="t_d", source="derived", at="growth even from cycle to cycle", holds="n_w > 0")
def wear_time(N_w, n_w):
    """Time of motion until a bush is worn."""
    return N_w / n_w


@formula(gives="N_c", source="derived", at="cycles in the time wanted", holds="n_w >= 0")
def cycles_wanted(n_w, t_w):
    """Cycles that the joint makes in the time it is wanted for."""
    return n_w * t_w


@formula(gives="c_w", source="derived", at="clearance of a worn bush", holds="N_c >= 0")
def worn_clearance(c, N_c, g_w):
    """Clearance of a bush after so many cycles; wear depth grows evenly with the distance slid."""
    return c + N_c * g_w
