"""What warmth and water do to fits: interference, clearance, end play, and nylon that grows in its hole.

Growth is a share of length, by warmth and water together, counted from the state in which sizes were
measured; below zero a part shrinks. What cannot grow outwards grows inwards.
"""

from typing import Sequence

import numpy as np

from guidegen.theory.declare import formula

MEASURED_AT = 20.0  # °C, at which sizes are meant (ISO 1)


@formula(gives="e_grown", source="thermal-expansion", at="linear expansion, and water beside it")
def growth(alpha, dT, e_water):
    """Share by which a part has grown when it is so much warmer and has taken up water."""
    return alpha * dT + e_water


@formula(gives="d_later", source="thermal-expansion", at="linear expansion")
def grown_size(d_first, e_grown):
    """A size once its part has grown: bores grow as solid parts do."""
    return d_first * (1 + e_grown)


@formula(gives="i_later", source="derived", at="interference of two parts that grow")
def grown_interference(i, D, e_bearing, e_housing):
    """Interference of a bearing in its hole once both have grown; below zero it has come loose."""
    return i + D * (e_bearing - e_housing)


@formula(gives="c_later", source="derived", at="clearance of two parts that grow")
def grown_clearance(c, d_s, e_bearing, e_shaft):
    """Clearance of the shaft in a bearing free to grow, once both have grown; below zero it seizes."""
    return c + d_s * (e_bearing - e_shaft)


@formula(gives="j_later", source="derived", at="end play of parts that grow")
def grown_end_play(j, L_s, e_shaft, T_s, e_stack):
    """End play once screw and stack have grown; take the stack's growth from `mean_growth`."""
    return j + L_s * e_shaft - T_s * e_stack


@formula(
    gives="dT_loose",
    source="thermal-expansion",
    at="two sizes that meet",
    holds="absolute(D_h * alpha_h - D * alpha_b) > 0",
)
def loosening_rise(D, D_h, alpha_b, alpha_h):
    """Rise of temperature at which bearing and hole are the same size; below zero a fall. Both alike warm."""
    return (D - D_h) / (D_h * alpha_h - D * alpha_b)


@formula(
    gives="dT_slip", source="thermal-expansion", at="one size that meets another", holds="D_h * alpha_h > 0"
)
def slipping_rise(D, D_h, g_slip, alpha_h):
    """How much warmer the housing alone must be for the bearing to slip in with a gap left over."""
    return (D - D_h + g_slip) / (D_h * alpha_h)


@formula(gives="e_beyond", source="derived", at="growth of a bush beyond its housing")
def growth_beyond(e_bearing, e_housing):
    """How much more a bush grows than the housing round it."""
    return e_bearing - e_housing


@formula(
    gives="delta_bore",
    source="derived",
    at="elastic bush in a rigid hole, ends free",
    holds="D > d_f and d_f > 0 and nu_b < 1",
)
def elastic_swelling(e_beyond, d_f, D, nu_b):
    """Change of the bore of a bush that grows in a rigid hole and is squeezed elastically: at first.

    Below zero the bore closes. Plane stress, as in `pressfit`.
    """
    return e_beyond * d_f * (1 - 2 * D**2 / (D**2 + d_f**2 - nu_b * (D**2 - d_f**2)))


@formula(
    gives="delta_bore",
    source="derived",
    at="area of the wall kept, ends free",
    holds="e_beyond >= 0 and D >= d_f and d_f > 0",
)
def relaxed_swelling(e_beyond, d_f, D):
    """Change of the bore once the squeeze has crept away and the bush could lengthen: all goes inwards."""
    return -e_beyond * (D**2 - d_f**2) / d_f


@formula(
    gives="delta_bore",
    source="derived",
    at="volume of the wall kept, ends held",
    holds="e_beyond >= 0 and D >= d_f and d_f > 0",
)
def held_swelling(e_beyond, d_f, D):
    """Change of the bore once the squeeze has crept away and the ends are held: judge by this one."""
    return -1.5 * e_beyond * (D**2 - d_f**2) / d_f


@formula(gives="c_later", source="derived", at="clearance of a bush that has swollen")
def swollen_clearance(c, delta_bore):
    """Clearance left of a bush that has grown in its hole; at zero or below it seizes."""
    return c + delta_bore


@formula(
    gives="e_seize",
    source="derived",
    at="volume of the wall kept, ends held, for the growth",
    holds="c >= 0 and D > d_f and d_f > 0",
)
def seizing_growth(c, d_f, D):
    """Growth beyond its housing at which a bush with held ends has closed its clearance and seizes."""
    return c * d_f / (1.5 * (D**2 - d_f**2))


def mean_growth(thicknesses: Sequence, growths: Sequence):
    """Growth of a whole stack: that of its parts, weighed by their thickness, mm. Numbers or arrays."""
    total = sum(thicknesses)
    grown = sum(t * e for t, e in zip(thicknesses, growths, strict=True))
    return np.where(np.asarray(total) > 0, grown / np.where(np.asarray(total) > 0, total, 1.0), 0.0)[()]


def growth_in(humidity, humidities: Sequence[float], growths: Sequence[float]):
    """Growth by water in air of a humidity, per cent, read in a straight line between a table's points."""
    return np.interp(humidity, humidities, growths)


def humidity_of(growth_wanted, humidities: Sequence[float], growths: Sequence[float]):
    """Humidity, per cent, at which a growth is reached; endless when even the dampest air does not."""
    reached = np.interp(growth_wanted, growths, humidities)
    return np.where(np.asarray(growth_wanted) > growths[-1], np.inf, reached)[()]
