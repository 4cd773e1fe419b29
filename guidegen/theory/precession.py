"""Why a loose ring or screw walks round under a load that turns: one circle rolls in another.

A pin in a hole with room touches it on one side, where the load presses. As the load goes round, that place
goes round, and the pin rolls on the hole. It turns backwards, against the load, because it has the shorter
way round; a ring round a pin turns forwards, with the load. Without slip; slip and a firm clamp make it less.
"""

from guidegen.theory.declare import formula


@formula(gives="q_walk", source="derived", at="pin that rolls in a hole", holds="c >= 0 and d_s > 0")
def pin_walk(c, d_s):
    """Turns of a loose pin, screw or inner ring against the load,
    for one turn of the load seen from its hole.
    """
    return c / d_s


@formula(gives="q_walk", source="derived", at="ring that rolls on a pin", holds="c >= 0 and d_b > 0")
def ring_walk(c, d_b):
    """Turns of a loose ring or nut with the load, for one turn of the load seen from its shaft."""
    return c / d_b


@formula(gives="N_load", source="derived", at="turns over turns a turn", holds="q_walk > 0")
def loads_to_walk(n_k, q_walk):
    """Turns of the load after which a loose part has walked round by so much, if it never slips."""
    return n_k / q_walk
