"""What a caliper shows: jaws with a flat of their own read a small hole too small."""

from guidegen.theory.declare import formula, sqrt


@formula(gives="m_in", source="derived", at="two flats across a round hole", holds="w_jaw < d_in")
def jaw_reading(d_in, w_jaw):
    """What the inside jaws of a caliper read in a round hole.

    The edges of the two flats touch the hole, not their middles. The smaller the hole, the more it matters.
    """
    return sqrt(d_in**2 - w_jaw**2)
