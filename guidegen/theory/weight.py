"""What mass parts have, from their sizes and the density of what they are made of.

Sharp-edged bodies at typical sizes: chamfers, fillets and knurls are left out. A thread counts as a cylinder
of its pitch diameter, where ridge and groove are equally wide.
"""

from guidegen.theory.declare import formula, pi, sqrt

LOCKING = 0.8  # of a nut counted solid, that one with a plastic insert weighs; 0.72 to 0.90 in a public table


@formula(gives="m", source="derived", at="density times volume", holds="D_p >= d_p")
def ring_mass(rho, D_p, d_p, l_p):
    """Mass of a ring, tube or washer; of a round bar or disc where the hole is zero."""
    return rho * pi / 4 * (D_p**2 - d_p**2) * l_p


@formula(gives="m", source="derived", at="density times volume")
def hexagon_mass(rho, W_n, d_p, l_p):
    """Mass of a hexagon nut; its hole counts with the pitch diameter."""
    return rho * (sqrt(3) / 2 * W_n**2 - pi / 4 * d_p**2) * l_p


@formula(gives="m", source="derived", at="rings and balls", holds="D > d_o and d_o > d_i and d_i > d_b")
def ball_bearing_mass(rho, D, d_o, d_i, d_b, w, Z, D_w):
    """Mass of a ball bearing, within a tenth: both rings out to their lands, and the balls.

    The grooves cut from the rings and the cage and shields added to them nearly make up for each other.
    """
    V_r = pi / 4 * (D**2 - d_o**2 + d_i**2 - d_b**2) * w
    V_b = Z * pi / 6 * D_w**3
    return rho * (V_r + V_b)


@formula(gives="m", source="derived", at="cylinders end to end", holds="l_g >= w_n")
def screw_mass(rho, D_k, h_k, W_key, d_s, L_s, d_n, w_n, d_pitch, l_g):
    """Mass of a shoulder screw: head without its socket, shoulder, neck, thread.

    The socket goes half way through the head.
    """
    V_k = (pi / 4 * D_k**2 - sqrt(3) / 4 * W_key**2) * h_k
    V_s = pi / 4 * d_s**2 * L_s
    V_t = pi / 4 * (d_n**2 * w_n + d_pitch**2 * (l_g - w_n))
    return rho * (V_k + V_s + V_t)


@formula(gives="m", source="derived", at="density times volume")
def plate_mass(rho, A_p, t_p):
    """Mass of a plate from its area; take holes from the area."""
    return rho * A_p * t_p
