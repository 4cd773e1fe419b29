"""What the bearings carry: reactions and the couple of an off-centre load."""

from guidegen.theory.declare import absolute, formula


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
