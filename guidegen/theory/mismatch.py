"""Where an inch part meets a metric one: hexagons that turn or slip, threads that jam."""

from guidegen.theory.declare import absolute, atan, formula, pi, sqrt


@formula(
    gives="psi",
    source="derived",
    at="hexagon within a larger hexagon",
    holds="W_key <= W_open and sqrt(3) * W_open <= 2 * W_key",
)
def hexagon_free_turn(W_open, W_key):
    """Free turn each way of a hexagon key in its socket, or of a nut in its wrench.

    The corners of the smaller hexagon come to bear on the larger one's flats. The same between the two
    parallel jaws of an open wrench. At sizes as they are, without wear.
    """
    c_turn = sqrt(3) * W_open / (2 * W_key)
    return pi / 6 - atan(sqrt(1 - c_turn**2) / c_turn)


@formula(gives="W_slip", source="derived", at="hexagon within a larger hexagon")
def slipping_opening(W_key):
    """Opening in which a hexagon goes right round: its own size across corners."""
    return 2 * W_key / sqrt(3)


@formula(gives="d_pitch", source="iso68", at="basic profile: pitch diameter")
def pitch_diameter(d_major, P_t):
    """Pitch diameter of a 60 degree thread: ridge and groove are equally wide there."""
    return d_major - 3 * sqrt(3) / 8 * P_t


@formula(gives="a_room", source="derived", at="flanks at 30 degrees", holds="d_pscrew <= d_pnut")
def flank_room(d_pnut, d_pscrew):
    """Axial room of a screw in a nut, from flank to flank, at nominal sizes."""
    return (d_pnut - d_pscrew) / sqrt(3)


@formula(gives="n_jam", source="derived", at="pitches that differ", holds="a_room >= 0")
def turns_to_jam(a_room, P_nut, P_screw):
    """Turns of engaged thread after which two different pitches jam, at nominal sizes."""
    return a_room / absolute(P_nut - P_screw)


@formula(gives="o_thread", source="iso68", at="basic profile: minor diameter of the nut")
def thread_overlap(d_nut, P_nut, d_screw):
    """Share of its full height on which a screw's ridges bear in a nut, at nominal sizes.

    A screw of the nut's own diameter gives 1; at 0 it falls through.
    """
    d_minor = d_nut - 5 * sqrt(3) / 8 * P_nut
    return (d_screw - d_minor) / (d_nut - d_minor)
