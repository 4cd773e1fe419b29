"""What fills the shoulder and the thread: end play and thread room."""

from guidegen.theory.declare import absolute, formula, least_of


@formula(gives="j", source="derived", at="end play of a floating stack")
def end_play(L_s, T_s):
    """Axial play: shoulder length less everything between head and shoulder end."""
    return L_s - T_s


@formula(gives="h_fill", source="derived", at="end play measured and wanted")
def filler_wanted(j, j_w):
    """Thickness of washers or shims that turns the end play measured into the one wanted."""
    return j - j_w


@formula(gives="H_m", source="derived", at="rings of a clamped stack")
def ring_mismatch(H_i, H_o):
    """How far the inner rings of two clamped ball bearings stand nearer or farther than the outer ones."""
    return absolute(H_i - H_o)


@formula(gives="j", source="derived", at="end play of a clamped stack", holds="H_m >= 0")
def clamped_end_play(P_1, P_2, H_m):
    """Axial play of two ball bearings clamped together; below zero they are preloaded.

    Each bearing's own play limits the travel; a mismatch of the rings takes from what both leave, whichever
    way it goes. Take the mismatch that half of all stacks have: rings that match exactly are no typical case.
    """
    return least_of(P_1, P_2, (P_1 + P_2) / 2 - H_m)


@formula(gives="h_proud", source="derived", at="end of a clamped stack")
def stands_proud(T_s, L_s):
    """How far a clamped stack stands out beyond the shoulder; below zero the nut stops on the shoulder."""
    return T_s - L_s


@formula(gives="l_r", source="derived", at="thread left beyond the nut")
def thread_room(l_t, T_t):
    """Thread that is left beyond everything on it, nuts included."""
    return l_t - T_t


@formula(gives="a", source="derived", at="load plane of an arm clamped on the thread")
def arm_overhang(z_f, z_2, t_p):
    """Distance from the middle of bearing 2 to the middle of the arm plate."""
    return z_f - z_2 + t_p / 2
