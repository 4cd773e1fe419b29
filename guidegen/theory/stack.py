"""What fills the shoulder and the thread: end play and thread room."""

from guidegen.theory.declare import absolute, formula, least_of


@formula(gives="j", source="derived", at="end play of a floating stack")
def end_play(L_s, T_s):
    """Axial play: shoulder length less everything between head and shoulder end."""
    return L_s - T_s


@formula(gives="j", source="derived", at="end play of a clamped stack")
def clamped_end_play(P_1, P_2, H_i, H_o):
    """Axial play of two ball bearings clamped together; below zero they are preloaded.

    Each bearing's own play limits the travel; a mismatch of the rings takes from what both leave.
    """
    return least_of(P_1, P_2, (P_1 + P_2) / 2 - absolute(H_i - H_o))


@formula(gives="l_r", source="derived", at="thread left beyond the nut")
def thread_room(l_t, T_t):
    """Thread that is left beyond everything on it, nuts included."""
    return l_t - T_t


@formula(gives="a", source="derived", at="load plane of an arm clamped on the thread")
def arm_overhang(z_f, z_2, t_p):
    """Distance from the middle of bearing 2 to the middle of the arm plate."""
    return z_f - z_2 + t_p / 2
