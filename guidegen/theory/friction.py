"""What it takes to turn the joint: friction torque of bushes, faces that rub and ball bearings.

Each formula serves twice, with the coefficients for breaking away and with those for moving. Loads are those
without shock. A joint whose arm is not balanced needs the arm's own weight as well.
"""

from guidegen.theory.declare import absolute, formula


@formula(gives="T_b", source="dry-friction", at="friction torque of a journal")
def bush_torque(mu, F_r, d_s):
    """Friction torque of a bush.

    Its coefficient is what tests of bushes give: torque over load and half the bore. One measured between
    flat faces would have to be raised by 4/π, for a bore is pressed on all round its loaded half.
    """
    return mu * absolute(F_r) * d_s / 2


@formula(gives="r_m", source="dry-friction", at="collar worn evenly")
def face_radius(D_f, d_g):
    """Mean radius of a face that rubs: once worn in, friction acts there."""
    return (D_f + d_g) / 4


@formula(gives="T_f", source="dry-friction", at="friction torque of a collar")
def face_torque(mu_f, F_a, r_m):
    """Friction torque of the end face that takes the axial load."""
    return mu_f * absolute(F_a) * r_m


@formula(gives="T_0", source="rolling-drag", at="no-load part at low speed")
def drag_torque(tau_0, d_m):
    """Friction torque of a greased ball bearing without load, as slowly as a hand turns it."""
    return tau_0 * d_m**3


@formula(gives="T_b", source="rolling-friction", at="friction torque of a ball bearing", holds="P >= 0")
def ball_torque(mu, P, d_b, T_0, T_l):
    """Friction torque of a ball bearing: load, grease and seals. Take the load from `equivalent_load`.

    Best near a tenth of the dynamic rating; under a light load the grease and the seals are nearly all of it.
    """
    return 0.5 * mu * P * d_b + T_0 + T_l


@formula(gives="T", source="statics", at="torques about the axis of the joint")
def joint_torque(T_1, T_2, T_f):
    """Friction torque of the joint: both bearings and the face that takes the axial load."""
    return T_1 + T_2 + T_f


@formula(gives="F_h", source="statics", at="force at the arm", holds="r > 0")
def arm_force(T, r):
    """Force square to a balanced arm that moves the joint against its friction."""
    return T / r


@formula(
    gives="mu", source="statics", at="torques about the axis, for the friction", holds="r > 0 and d_s > 0"
)
def friction_of_pull(F_h, r, R_s, d_s, F_a, r_m):
    """Friction of two bushes, and of the face that takes the axial load, from the pull that just starts them.

    All of them taken alike; the arm balanced, or the pull averaged over both ways round.
    """
    return F_h * r / (R_s * d_s / 2 + absolute(F_a) * r_m)
