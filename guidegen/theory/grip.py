"""How a press fit holds: force to push, torque to spin, what the housing stands, what time takes away.

Pressure comes from `pressfit`. An outer ring in a hole and a bush are alike; of an inner ring on its shaft
take pressure, bore and width. For stock that is not alike in all directions, and for prints, all of it is
an estimate: see `alike_all_ways`.
"""

from guidegen.theory.declare import formula, least_of, pi

ALIKE = ("metal", "plastic")  # kinds of stock that are the same in all directions


@formula(gives="l_fit", source="derived", at="shorter of bearing and hole")
def engaged_length(l_bearing, t_sheet):
    """Length over which bearing and hole touch."""
    return least_of(l_bearing, t_sheet)


@formula(gives="F_push", source="press-fits", at="force to press in or out")
def push_force(mu_press, D, l_fit, p):
    """Force that pushes the bearing in or out; none without pressure. Never through the balls."""
    return pi * mu_press * D * l_fit * p


@formula(gives="T_hold", source="press-fits", at="torque of a press fit")
def holding_torque(F_push, D):
    """Torque at which the bearing turns in its hole. Compare with the friction torque of that bearing."""
    return F_push * D / 2


@formula(gives="T_hold", source="press-fits", at="torque of a press fit")
def pressure_torque(mu_press, D, l_fit, p):
    """The same torque from the pressure at once."""
    return pi * mu_press * D**2 * l_fit * p / 2


@formula(gives="T_spin", source="dry-friction", at="torque of both rubbing places, with shock")
def spinning_torque(k_s, T, T_f):
    """Torque that would turn the bearing in its hole: friction of its bore and its end face, with shock."""
    return k_s * (T + T_f)


@formula(gives="n_hold", source="derived", at="torque held over torque that turns", holds="T_spin > 0")
def hold_factor(T_hold, T_spin):
    """How many times the friction that would turn it in its hole a bearing is held against."""
    return T_hold / T_spin


@formula(
    gives="p_need",
    source="press-fits",
    at="torque of a press fit, for the pressure",
    holds="mu_press > 0 and D > 0 and l_fit > 0",
)
def torque_pressure(T, mu_press, D, l_fit):
    """Pressure that just holds a bearing against a torque."""
    return 2 * T / (pi * mu_press * D**2 * l_fit)


@formula(gives="p_hoop", source="lame", at="hoop stress at the hole, for the pressure", holds="k_h > 0")
def hoop_pressure(sigma_limit, k_h):
    """Pressure at which the hoop stress at the edge of the hole reaches its limit, short-time or lasting."""
    return sigma_limit / k_h


@formula(gives="i", source="lame", at="pressure between two rings, for the interference")
def pressure_interference(p, D, k_h, nu_h, E_h, k_b, nu_b, E_b):
    """Interference that gives a pressure: where the bearing begins to hold, or the housing to crack."""
    return p * D * ((k_h + nu_h) / E_h + (k_b - nu_b) / E_b)


@formula(
    gives="E_later",
    source="strength-of-materials",
    at="relaxed modulus",
    holds="u_relax >= 0 and u_relax < 1",
)
def relaxed_modulus(E_first, u_relax):
    """Stiffness left in stock or bush that has crept; the pressure with it is what still grips."""
    return E_first * (1 - u_relax)


@formula(gives="x_edge", source="derived", at="edge distance over hole diameter", holds="D > 0")
def edge_ratio(D_o, D):
    """Distance from the middle of the hole to the nearest edge, in hole diameters."""
    return D_o / (2 * D)


@formula(gives="D_floor", source="derived", at="floor of a blind seat", holds="w_ledge >= 0")
def floor_hole(D, w_ledge):
    """Greatest hole in the floor under a bearing that still leaves it a ledge to sit on.

    The hole must be larger than what turns or must not be pushed: the bore of a bush, the outer land of a
    ball bearing. A drift through it then pushes bush or outer ring out from behind.
    """
    return D - 2 * w_ledge


@formula(gives="d_pin", source="derived", at="face of an outer ring or a bush")
def push_pin(D, d_land):
    """Greatest pin that meets nothing but the outer ring or the bush's end; use two or three, round about."""
    return (D - d_land) / 2


@formula(gives="D_pins", source="derived", at="face of an outer ring or a bush")
def push_pin_circle(D, d_land):
    """Circle on which holes for such pins lie: the middle of that face."""
    return (D + d_land) / 2


def alike_all_ways(kind: str) -> bool:
    """Whether a kind of stock is the same in all directions; else the thick ring is an estimate."""
    return kind in ALIKE
