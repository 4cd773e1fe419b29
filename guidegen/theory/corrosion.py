"""Two metals that touch where it is wet: how far apart they are, and which areas feed the attack.

The one with the higher anodic index is eaten, the other kept. How fast, nothing here says.
"""

from guidegen.theory.declare import absolute, formula, pi

REACH = 6.4  # mm from the line of contact that dew or a film of water feeds: a quarter of an inch


@formula(gives="E_d", source="anodic-index", at="difference of two indices")
def galvanic_difference(E_1, E_2):
    """How far apart two metals are on the scale of the anodic index."""
    return absolute(E_1 - E_2)


@formula(gives="k_g", source="catchment", at="catchment principle", holds="A_n >= 0 and A_l > 0")
def attack_factor(A_n, A_l):
    """How much harder the less noble metal is attacked than without the nobler one beside it.

    All the oxygen that the nobler area catches eats the other one. Counts areas that the same water wets.
    """
    return 1 + A_n / A_l


@formula(gives="A_x", source="derived", at="ring round a contact", holds="D_c >= 0 and x_w >= 0")
def face_beside(D_c, x_w):
    """Area of a face within reach of the water round a part that stands on it."""
    return pi * x_w * (D_c + x_w)


@formula(gives="A_x", source="derived", at="rim and one face", holds="D_c >= d_c and d_c >= 0 and h_c >= 0")
def part_outside(D_c, d_c, h_c):
    """Area of a round part that water reaches: its rim, and its outer face less what covers it."""
    return pi / 4 * (D_c**2 - d_c**2) + pi * D_c * h_c
