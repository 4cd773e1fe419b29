"""What a turn of a nut moves, what hand and wrench put on it, and two nuts that hold each other.

From torque to clamp force: the formulas of the nut and what it clamps. How far a nut shifts when another
jams it: `flank_room` at the limits of its thread.
"""

from guidegen.theory.declare import formula, sqrt


@formula(gives="g_t", source="derived", at="a screw advances by its pitch in a turn")
def gap_of_turn(P_t, n_k):
    """How far a nut moves along the screw: the cheapest gauge for end play.

    Turned back from where everything just touches. No gauge where the nut stands home on a shoulder.
    """
    return P_t * n_k


@formula(gives="n_k", source="derived", at="a screw advances by its pitch in a turn", holds="P_t > 0")
def turn_for_gap(g_t, P_t):
    """Turn of the nut, from touching, that leaves a gap; a sixth of a turn is one flat."""
    return g_t / P_t


@formula(gives="T_n", source="derived", at="couple of two forces on opposite flats")
def finger_torque(F_p, W_n):
    """Torque that finger and thumb put on a bare nut, pressing at opposite ends of two opposite flats.

    The most that the pinch allows; a wet or oily nut takes less.
    """
    return F_p * W_n / sqrt(3)


@formula(gives="T_n", source="statics", at="moment of a force about the axis")
def lever_torque(F_p, l_w):
    """Torque that a pull on a wrench or key puts on a nut or screw, square to it."""
    return F_p * l_w


@formula(gives="T_r", source="common-practice", at="locking nut", holds="T_k >= 0")
def wrench_torque(T_n, T_k):
    """What the wrench shows when a locking nut clamps: the torque of the clamp beyond what its insert takes.

    What it takes differs from nut to nut and falls with use: feel it while the nut runs free, just before it
    touches. No sum with the most that an insert may take is a setting: the rest would go into the clamp.
    """
    return T_n + T_k


@formula(gives="T_j", source="public-pages", at="thin nut of a pair", holds="0 < u_j <= 1")
def jam_torque(u_j, T_n):
    """Torque of the thin nut of a pair: it goes on first and is held still while the other is tightened."""
    return u_j * T_n
