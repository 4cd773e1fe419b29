"""What the nut holds: from torque to clamp force, the clamped face, the plate in the clamp.

The clamped face is the ring where a part with a hole is pressed against the shoulder's end: D_a outside
(the shoulder less its edge break), d_h inside. The arm plate is a cantilever of even width and thickness.
"""

from guidegen.theory.declare import absolute, formula, least_of, pi


@formula(gives="T_n", source="shigley-9", at="Eq. 8-27")
def tightening_torque(K_n, d_t, F_i):
    """Torque on the nut for a clamp force. Take the nut factor from its table; it scatters by a quarter."""
    return K_n * d_t * F_i


@formula(gives="F_0", source="shigley-9", at="Eq. 8-27, solved for the force", holds="K_n > 0 and d_t > 0")
def clamp_of_torque(T_n, K_n, d_t):
    """Clamp force that a torque on the nut gives, before anything settles."""
    return T_n / (K_n * d_t)


@formula(
    gives="F_i", source="common-practice", at="settling of a clamped plate", holds="u_l >= 0 and u_l <= 1"
)
def clamp_kept(F_0, u_l):
    """Clamp force that is left once the plate in the clamp has settled and crept."""
    return F_0 * (1 - u_l)


@formula(gives="F_m", source="shigley-9", at="Eq. 8-31, neck and thread", holds="0 < u_p <= 1")
def clamp_limit(u_p, S_p, d_n, S_t, A_t):
    """Greatest clamp force to tighten to: a share of what the neck or the thread, the weaker, bears.

    The share is three quarters for a joint that is taken apart again. S_t is the weaker of screw and nut.
    """
    F_n = S_p * pi * d_n**2 / 4
    F_g = S_t * A_t
    return u_p * least_of(F_n, F_g)


@formula(gives="F_weak", source="statics", at="force over a ring", holds="D_a > d_h and d_h >= 0")
def pressed_limit(p_least, D_a, d_h):
    """Clamp force that presses the weakest part in the clamp, on its ring, as hard as it bears."""
    return p_least * pi * (D_a**2 - d_h**2) / 4


@formula(gives="F_i", source="derived", at="force to aim at", holds="u_spare <= 1 and K_n >= K_least > 0")
def clamp_to_set(u_spare, K_least, K_n, F_m, F_weak):
    """Clamp force to set the torque for: even with the least nut factor it harms neither screw nor clamp.

    The torque is counted with the middle nut factor; a slippery nut gives as much more force as its own
    factor is smaller.
    """
    return u_spare * K_least / K_n * least_of(F_m, F_weak)


@formula(gives="M_f", source="statics", at="moments about the clamped face")
def face_moment(k_s, F, x_f, M_a):
    """Moment that the clamped face must carry, the couple turning the worse way.

    x_f: from the face to the load plane; half the thickness of an arm on the thread; for a hub the
    distance of bearing 2 from the face less the overhang.
    """
    return k_s * (F * absolute(x_f) + M_a)


@formula(gives="F_c", source="derived", at="no gap at the clamped face", holds="D_a > d_h and d_h >= 0")
def clamp_needed(M_f, D_a, d_h):
    """Clamp force below which the clamped face begins to open on one side."""
    return 8 * M_f * D_a / (D_a**2 + d_h**2)


@formula(gives="p_s", source="statics", at="force over the clamped face", holds="D_a > d_h and d_h >= 0")
def seat_pressure(F_i, D_a, d_h):
    """Mean pressure on the clamped face. A face about to open bears twice as much at its other side."""
    return F_i / (pi / 4 * (D_a**2 - d_h**2))


@formula(gives="T_c", source="shigley-9", at="Eq. 16-25, uniform wear", holds="D_a >= d_h and d_h >= 0")
def clamp_torque(mu_c, F_i, D_a, d_h):
    """Torque that the clamped face passes on before it slips, counted at its mean diameter.

    Exact where the pressure falls off outwards (uniform wear); even pressure would carry a little more.
    """
    return mu_c * F_i * (D_a + d_h) / 4


@formula(gives="y_a", source="strength-of-materials", at="cantilever of rectangular section")
def arm_deflection(F_a, r, E_a, b_a, t_p):
    """How far the arm plate itself bends out of its plane under the axial load at the arm radius.

    Counted from the screw's axis, which adds a little; leaves out how the screw and the joint give way.
    """
    return 4 * F_a * r**3 / (E_a * b_a * t_p**3)


@formula(gives="sigma_a", source="strength-of-materials", at="bending of a flat bar", holds="b_a > d_h")
def arm_stress(k_s, F_a, r, b_a, d_h, t_p):
    """Bending stress in the arm plate across its hole, where least of its width is left."""
    return 6 * k_s * F_a * r / ((b_a - d_h) * t_p**2)
