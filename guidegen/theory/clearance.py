"""How much room a shaft has in its bearings, and what sets the hole they sit in."""

from guidegen.theory.declare import formula, most_of, sqrt


@formula(gives="D_d", source="derived", at="from drawing to made hole")
def drawn_hole(D_m, b):
    """Diameter to draw so that the machine makes the wanted hole.

    Take the wanted diameter from the middle of the recommended housing class and the bias (made less
    drawn) from the process. Leaves out the machine's spread: issue the chances separately.
    """
    return D_m - b


@formula(gives="g_h", source="derived", at="gap round a bearing in its housing")
def housing_gap(D_h, D):
    """Diametral gap left round a bearing that is loose in its hole; none when it is tight."""
    return most_of(0, D_h - D)


@formula(gives="i", source="derived", at="interference of a pressed bearing")
def interference(D, D_h):
    """How much larger the bearing is than its hole; negative when it is loose."""
    return D - D_h


@formula(gives="d_b", source="derived", at="bore after pressing")
def bore_after_pressing(d_f, delta):
    """Bore of a bush once it sits in its hole. Take the closure from `bore_closure`."""
    return d_f - delta


@formula(gives="f", source="derived", at="signed fit of shaft and bore")
def shaft_fit(d_b, d_s):
    """Bore less shaft, with its sign: below zero a bush cannot be assembled."""
    return d_b - d_s


@formula(gives="c", source="derived", at="clearance of a bush")
def bush_clearance(d_b, d_s, g_h):
    """Diametral room of the shaft in a bush, with the bush's own room in its housing added."""
    return most_of(0, d_b - d_s) + g_h


@formula(gives="c", source="derived", at="clearance of a ball bearing with loose rings")
def loose_ball_clearance(G_m, d_b, d_s, g_h):
    """Radial travel of the shaft in a ball bearing whose inner ring is loose on it."""
    return G_m + most_of(0, d_b - d_s) + g_h


@formula(gives="c", source="derived", at="clearance of a ball bearing with clamped rings")
def clamped_ball_clearance(G_m, g_h):
    """Radial travel of the shaft in a ball bearing whose inner ring is clamped to it."""
    return G_m + g_h


@formula(gives="G_m", source="derived", at="clearance left after mounting")
def mounted_clearance(G, delta_i, delta_o):
    """Radial internal clearance left once the rings are tight: zero at least, then preloaded."""
    return most_of(0, G - delta_i - delta_o)


@formula(gives="A", source="iso281", at="groove radius of a deep-groove bearing")
def groove_excess(f_g, D_w):
    """How much both groove radii together exceed the ball diameter; sets axial play and free tilt."""
    return (2 * f_g - 1) * D_w


@formula(gives="P_e", source="derived", at="axial play from radial clearance", holds="G_m <= A")
def axial_play(A, G_m):
    """Axial play of a ball bearing from its radial internal clearance, for small clearances."""
    return 2 * sqrt(A * G_m)


@formula(gives="theta_b", source="derived", at="free tilt of a clamped ball bearing")
def clamped_ball_tilt(P_e, d_m):
    """How far one ball bearing tilts each way before its balls carry a couple."""
    return P_e / d_m


@formula(gives="theta_b", source="derived", at="free tilt of a loose ball bearing")
def loose_ball_tilt(P_e, d_m, d_b, d_s, w):
    """Free tilt each way of one ball bearing whose inner ring is also loose on the shaft."""
    return P_e / d_m + most_of(0, d_b - d_s) / w


@formula(gives="e_off", source="derived", at="round part on a smaller one")
def off_centre(c):
    """How far a tube clamped on a thinner bolt may stand off the middle: half their clearance."""
    return c / 2
