"""Along the screw: end play, what limits the tilt there, room on the thread, grip of the nuts."""

from guidegen.joint.endplay import own_axial_play
from guidegen.joint.findings import Findings
from guidegen.joint.records import Quantity, Stack
from guidegen.joint.sample import likely_range, sobol, within
from guidegen.theory import freeplay
from guidegen.theory import stack as theory
from guidegen.units import Band


def along(found: Findings, stack: Stack):
    """End play with its chances, thread room, nut grip."""
    found.quantities["end_play"] = Quantity("mm", band=stack.end_play, likely=stack.end_play_likely)
    (_clamped if found.joint.clamped else _floating)(found, stack)
    found.put_number("chance_pinched", stack.chance_pinched, "-")
    found.put_number("chance_fits", stack.chance_fits, "-")
    on_thread = sum(row.thickness.typical for row in stack.placed if row.on == "thread")
    found.work(theory.thread_room, "thread_room", l_t=stack.thread_end - stack.z_face, T_t=on_thread)
    found.put_number("thread_room", stack.thread_room, "mm")
    _nuts(found, stack)


MISMATCHED = "mismatch: half of all stacks, their parts drawn at random within their limits, have less"


def _clamped(found, stack):
    """Worked steps of a stack clamped through the inner rings: its end play, how far it stands out."""
    P_1, P_2 = (own_axial_play(b, b.internal_clearance.typical) for b in found.joint.bearings)
    H_m = stack.clamped.mismatch.typical
    found.work(theory.clamped_end_play, "end_play", MISMATCHED, P_1=P_1, P_2=P_2, H_m=H_m)
    column = sum(row.thickness.typical for row in stack.placed if row.on == "shoulder" and row.kind != "body")
    found.work(theory.stands_proud, "stands_proud", T_s=column, L_s=stack.shoulder)
    found.quantities["ring_mismatch"] = stack.clamped.mismatch
    found.quantities["stands_proud"] = stack.clamped.proud
    found.put_number("chance_proud", stack.clamped.chance_proud, "-")


def _floating(found, stack):
    taken = sum(row.thickness.typical for row in stack.placed if row.on == "shoulder" and not row.within)
    play = found.work(theory.end_play, "end_play", L_s=stack.shoulder, T_s=taken)
    if play < 0:
        return
    D_1, D_2 = stack.face_diameters
    found.work(freeplay.face_tilt, "face_tilt", j=play, D_1=D_1, D_2=D_2)

    def limit(j):
        return freeplay.face_tilt(max(0.0, j), D_1, D_2)

    ends = stack.end_play.least, stack.end_play.typical, stack.end_play.most
    found.quantities["face_tilt"] = Quantity(
        "rad", band=Band(*map(limit, ends)), likely=tuple(map(limit, stack.end_play_likely))
    )


def _nuts(found, stack):
    heights = [row.thickness for row in stack.placed if row.kind == "nut"]
    if not heights:
        return
    sampled = sum(within(heights, sobol(len(heights)))) - sum(height.least for height in heights)
    likely = likely_range(stack.nut_engaged.least + sampled)
    found.quantities["nut_engaged"] = Quantity("mm", band=stack.nut_engaged, likely=likely)
