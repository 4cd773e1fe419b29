"""What the bearings carry: weights, reactions and the couple of an off-centre load."""

from guidegen.theory.declare import absolute, formula, sqrt

STANDARD_GRAVITY = 9806.65  # mm/s², g_n; ISO 80000-3


@formula(gives="W", source="iso80000", at="weight, standard acceleration of free fall")
def weight(m, g_n):
    """Weight of a mass at rest: along an upright shaft, square to a level one.

    A mass that is dropped or jerked presses with several times this: see the shock factor.
    """
    return m * g_n


@formula(gives="T_w", source="statics", at="torque of a weight on a level arm")
def weight_torque(W, r):
    """Torque that a weight puts on a level shaft while its arm is level too, which is when it is greatest."""
    return W * r


@formula(gives="F_k", source="statics", at="force that holds a torque", holds="r_k > 0")
def holding_force(T_w, r_k):
    """Force square to a handle, or along a string round a drum, that holds the weight; without friction."""
    return T_w / r_k


@formula(gives="R_2", source="statics", at="moments about bearing 1", holds="S > 0")
def reaction_2(k_s, F, a, S):
    """Radial reaction of bearing 2, positive when it opposes the load."""
    return k_s * F * (1 + a / S)


@formula(gives="R_1", source="statics", at="moments about bearing 2", holds="S > 0")
def reaction_1(k_s, F, a, S):
    """Radial reaction of bearing 1, positive when it opposes the load."""
    return -k_s * F * a / S


@formula(gives="R", source="statics", at="one bearing alone")
def single_reaction(k_s, F):
    """Radial reaction of a bearing that is alone."""
    return k_s * F


@formula(gives="M_a", source="statics", at="couple of an axial load off the axis")
def axial_couple(F_a, r):
    """Couple that an axial load at the arm radius puts on the shaft."""
    return F_a * r


@formula(gives="R_a", source="statics", at="couple carried by two bearings", holds="S > 0")
def couple_force(k_s, M_a, S):
    """Radial force, opposite at the two bearings, that carries the couple."""
    return k_s * M_a / S


@formula(gives="F_r", source="statics", at="load without shock", holds="k_s > 0")
def steady_load(R_w, k_s):
    """Radial load of a bearing with the shock taken out again: what it bears turn after turn."""
    return R_w / k_s


@formula(gives="F_t", source="statics", at="thrust")
def thrust(k_s, F_a):
    """Axial force on the bearing that stops the shaft."""
    return k_s * F_a


@formula(gives="R_w", source="statics", at="worst of both senses of the couple")
def bearing_load(R, R_a):
    """Worst radial load of a bearing: the couple may turn either way."""
    return absolute(R) + R_a


@formula(gives="M", source="statics", at="moment on a bearing that is alone")
def single_moment(k_s, F, a, M_a):
    """Moment that one bearing alone must carry."""
    return k_s * (F * absolute(a) + M_a)


@formula(
    gives="k_d",
    source="strength-of-materials",
    at="weight that falls on an elastic support",
    holds="h_d >= 0 and delta_j > 0",
)
def drop_factor(h_d, delta_j):
    """How many times its weight a load presses when it falls on the joint: 2 even from no height.

    Take how far the whole joint gives way where the weight lands: arm, screw, bearings, plates and what they
    stand on. How far the screw alone bends must never be put in: it is too stiff, the factor far too large.
    """
    return 1 + sqrt(1 + 2 * h_d / delta_j)
