"""What a caliper shows, how sure a reading is, and what repeating it is worth.

Jaws with a flat of their own read a small hole too small. How sure: the rules of the guide to measurement
uncertainty, with the error of the instrument even between its limits and readings scattered normally.
"""

from guidegen.theory.declare import formula, sqrt


@formula(gives="m_in", source="derived", at="two flats across a round hole", holds="w_jaw < d_in")
def jaw_reading(d_in, w_jaw):
    """What the inside jaws of a caliper read in a round hole.

    The edges of the two flats touch the hole, not their middles. The smaller the hole, the more it matters.
    """
    return sqrt(d_in**2 - w_jaw**2)


@formula(gives="d_in", source="derived", at="two flats across a round hole, for the hole")
def hole_of_reading(m_in, w_jaw):
    """Hole in which inside jaws read so much; measure the flats with the outside jaws of another caliper."""
    return sqrt(m_in**2 + w_jaw**2)


@formula(gives="u_read", source="gum", at="4.2.3, 4.3.7 and 5.1.2", holds="n_read > 0")
def reading_uncertainty(a_read, s_read, n_read):
    """Standard uncertainty of the mean of readings: the instrument's part, and what is left of the scatter.

    Repeating makes the scatter smaller, not the error of the instrument: that is the same in every reading.
    """
    return sqrt(a_read**2 / 3 + s_read**2 / n_read)


@formula(gives="nu_read", source="gum", at="G.4.1, equation G.2b", holds="n_read > 1 and s_read > 0")
def effective_freedom(u_read, s_read, n_read):
    """How many readings beyond the first the standard uncertainty is worth, for Student's t."""
    return (n_read - 1) * (u_read**2 * n_read / s_read**2) ** 2


@formula(gives="U_read", source="gum", at="6.2.1")
def sure_within(k_sure, u_read):
    """Range either way in which the true size lies, as often as the factor says."""
    return k_sure * u_read


@formula(gives="U_diff", source="gum", at="5.1.2, difference of two readings")
def difference_uncertainty(U_first, U_second):
    """How sure a clearance is that was measured as bore less shaft: worse than either reading."""
    return sqrt(U_first**2 + U_second**2)


@formula(gives="U_c", source="gum", at="5.1.6, product of readings", holds="y_r > 0 and B > 0 and r > 0")
def clearance_uncertainty(c, y_r, U_y, B, U_B, r, U_r):
    """How sure a clearance is that was worked back from the travel of a tip."""
    return c * sqrt((U_y / y_r) ** 2 + (U_B / B) ** 2 + (U_r / r) ** 2)


@formula(gives="theta_seen", source="derived", at="travel of a tip, for the tilt", holds="r > 0")
def least_tilt_seen(U_y, r):
    """Tilt each way that a reading of the travel at an arm can just tell from none."""
    return U_y / (2 * r)
