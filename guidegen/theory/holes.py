"""From the drawn circle to the made hole: width of the cut, facets, taper, scatter, and what to draw.

What the chances are that a bearing holds in such a hole, or cracks it, is told in `chances`.
"""

from guidegen.theory.declare import atan, cos, formula, least_of, most_of, pi, sqrt, tan

OF_LIMIT = 0.5  # spread of a published plus-or-minus figure over the figure itself (common practice)


@formula(gives="k_cut", source="derived", at="test cut of a square or a circle")
def kerf_of_plug(D_h, d_plug):
    """Width of the cut from one test piece: hole less the piece that fell out of it, halved."""
    return (D_h - d_plug) / 2


@formula(gives="k_cut", source="derived", at="many cuts pushed together", holds="n_cuts > 0")
def kerf_of_cuts(l_gap, n_cuts):
    """Width of the cut from many cuts at once: what lies between them is pushed together, one gap is left.

    The better way: the caliper's error is shared among all cuts.
    """
    return l_gap / n_cuts


@formula(gives="D_raw", source="derived", at="path on the drawn line")
def raw_hole(D_d, k_cut):
    """Hole cut on the drawn line: larger by half the cut on each side, a whole one on diameter."""
    return D_d + k_cut


@formula(gives="d_plug", source="derived", at="path on the drawn line")
def raw_plug(D_d, k_cut):
    """Disc or plug cut on the drawn line: smaller by the whole width of the cut."""
    return D_d - k_cut


@formula(gives="D_h", source="derived", at="from drawing to made hole")
def made_hole(D_d, b, s_made, t_made):
    """One made hole: what was drawn, moved by the machine's bias, and so many spreads off."""
    return D_d + b + s_made * t_made


@formula(gives="s_made", source="student", at="prediction of one more", holds="n_own >= 2")
def next_spread(s_own, n_own):
    """Spread of the next hole after one's own measured ones, to be used with Student's t.

    The mean of a few holes is itself not certain: this widens the spread.
    """
    return s_own * sqrt(1 + 1 / n_own)


@formula(gives="n_facets", source="derived", at="chords of a circle", holds="l_facet > 0 and D_d > l_facet")
def facet_count(D_d, l_facet):
    """Facets of a printed circle cut into straight pieces of one length; take the next whole number."""
    return pi / atan(l_facet / sqrt(D_d**2 - l_facet**2))


@formula(gives="D_flat", source="derived", at="corners on the drawn circle", holds="n_facets >= 3")
def across_flats(D_d, n_facets):
    """Hole of facets: its corners lie on the drawn circle, its flats inside; so much fits through."""
    return D_d * cos(pi / n_facets)


@formula(gives="D_narrow", source="derived", at="cut wall that leans")
def narrow_side(D_wide, t_sheet, phi_wall):
    """Hole at the far side of the sheet, from the wide side that is measured: press in from the wide side."""
    return D_wide - 2 * t_sheet * tan(phi_wall)


@formula(
    gives="i_mean",
    source="derived",
    at="interference along a tapered hole",
    holds="D > 0 and i_narrow >= i_wide",
)
def tapered_interference(i_narrow, i_wide, D):
    """Interference of a tapered hole, averaged over its length; where it is loose there is none.

    Slice by slice, as if the slices were free of each other. The thousand-millionth of the diameter keeps a
    hole without taper from dividing by nothing. Greatest stress and first crack: at the narrow side.
    """
    tight = most_of(0, i_narrow)
    taper = i_narrow - i_wide
    share = least_of(1, tight / most_of(taper, D / 1e9))
    return share * (tight - share * taper / 2)


@formula(
    gives="p_close",
    source="lame",
    at="bore of a ring under outer pressure, for the pressure",
    holds="d_f > 0 and D > d_f",
)
def closing_pressure(delta, D, d_f, E_b):
    """Pressure at which a bush's bore, or an outer ring's raceway, has lost so much of its room."""
    return delta * (D**2 - d_f**2) * E_b / (2 * D**2 * d_f)


@formula(gives="D_best", source="derived", at="middle between holding and cracking")
def best_hole(D, i_grip, i_crack):
    """Mean made hole at which most bearings come out right: half way between holding and cracking.

    So it is for any scatter that is even on both sides and thickest in the middle. Where the bore closes up
    before the housing cracks, that is the end not to pass. Subtract the machine's bias to draw it
    (`drawn_hole`).
    """
    return D - (i_grip + i_crack) / 2


@formula(gives="s_offset", source="derived", at="two bores placed one by one")
def offset_spread(s_place1, s_place2):
    """Spread of the offset between two bores that are placed one after the other, along one direction."""
    return sqrt(s_place1**2 + s_place2**2)


@formula(
    gives="psi_lean",
    source="derived",
    at="one bore leans about its middle",
    holds="S >= (L_1 + L_2) / 2 and S + L_1 > 0",
)
def lean_limit(c_1, c_2, S, L_1, L_2, s_1, s_2):
    """How far bore 2 may lean, the bores in line otherwise, before the shaft binds; for bore 1 exchange them.

    The slope each bearing allows is clearance over length for a bush, free tilt for a ball bearing (L = 0).
    """
    return s_2 + least_of(s_1, (c_1 + c_2 - s_2 * L_2) / (2 * S + L_1))
