"""Thick rings pressed together (Lamé): pressure, stress, and how far a bore closes."""

from guidegen.theory.declare import formula, most_of


@formula(gives="k_h", source="lame", at="thick ring under inner pressure", holds="D_o > D")
def hub_ratio(D_o, D):
    """Hoop stress at the hole over the pressure in it, for a housing taken as a ring.

    Take the outer diameter as twice the distance from the hole's centre to the nearest edge.
    """
    return (D_o**2 + D**2) / (D_o**2 - D**2)


@formula(gives="k_b", source="lame", at="thick ring under outer pressure", holds="D > d_f")
def bush_ratio(D, d_f):
    """The same ratio for the bush, pressed from outside."""
    return (D**2 + d_f**2) / (D**2 - d_f**2)


@formula(gives="p", source="lame", at="pressure between two rings")
def press_pressure(i, D, k_h, nu_h, E_h, k_b, nu_b, E_b):
    """Pressure between bush and housing; none when the bush is loose."""
    return most_of(0, i) / (D * ((k_h + nu_h) / E_h + (k_b - nu_b) / E_b))


@formula(gives="sigma_h", source="lame", at="hoop stress at the hole")
def hub_stress(p, k_h):
    """Hoop stress that tries to split the housing at the edge of the hole."""
    return p * k_h


@formula(gives="delta", source="lame", at="bore of a ring under outer pressure")
def bore_closure(p, D, d_f, E_b):
    """How much a bush's bore, or an outer ring's raceway, shrinks on pressing in."""
    return 2 * p * D**2 * d_f / ((D**2 - d_f**2) * E_b)


@formula(gives="p_i", source="lame", at="ring pressed on a solid shaft of the same steel")
def ring_pressure(d_s, d_b, k_i, nu_b, E_b, nu_s, E_s):
    """Pressure between an inner ring and a shaft larger than its bore; none when it slides on."""
    return most_of(0, d_s - d_b) / (d_b * ((k_i + nu_b) / E_b + (1 - nu_s) / E_s))


@formula(gives="k_i", source="lame", at="inner ring under inner pressure", holds="d_r > d_b")
def inner_ring_ratio(d_r, d_b):
    """Hoop stress over pressure for an inner ring, taken as a plain ring up to its raceway."""
    return (d_r**2 + d_b**2) / (d_r**2 - d_b**2)


@formula(gives="delta_i", source="lame", at="outside of a ring under inner pressure")
def raceway_growth(p_i, d_b, d_r, E_b):
    """How much an inner raceway grows when its ring is tight on the shaft."""
    return 2 * p_i * d_b**2 * d_r / ((d_r**2 - d_b**2) * E_b)
