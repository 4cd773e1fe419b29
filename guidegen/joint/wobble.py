"""How far the unloaded joint moves: holes, free play, its causes, and what else wobbles beside it."""

import numpy as np

from guidegen.joint.findings import Findings, each_hole
from guidegen.joint.inputs import without
from guidegen.joint.play import Play, free_play
from guidegen.joint.rows import first
from guidegen.joint.verdicts import Yes
from guidegen.joint.working import Working
from guidegen.theory import freeplay
from guidegen.theory.clearance import drawn_hole, shaft_fit

CAUSES = ("shoulder", "bearing", "housing", "closure")


def holes(found: Findings):
    """The holes to draw."""
    for n, seat in enumerate(found.seats, 1):
        worked = seat.bias or seat.drawn == seat.wanted
        drawn = (
            found.work(drawn_hole, f"drawn_hole_{n}", D_m=seat.wanted, b=seat.bias) if worked else seat.drawn
        )
        found.put_number(f"drawn_hole_{n}", drawn, "mm")


def loose(found: Findings, overhang: float | None) -> Play:
    """Free play by the bearings alone, with what the press does to each of them."""
    joint = found.joint
    play = free_play(found.work, found.seats, found.rows.columns, overhang=overhang, **_asked(joint))
    for n, (seat, one) in enumerate(zip(found.seats, play.guided), 1):
        _bearing(found, n, seat, one)
    found.put("tilt", play.tilt, "rad")
    if play.lean is not None:
        found.put("lean", play.lean, "rad", among=np.broadcast_to(play.binds <= 0, np.shape(play.lean)))
    found.put("arm_play", play.arm_play, "mm")
    if play.load_play is not None:
        found.put("load_play", play.load_play, "mm")
    if play.offset_limit is not None:
        found.put("offset_limit", play.offset_limit, "mm")
    if joint.offset:
        found.limits["offset"] = abs(joint.offset)
        found.answers["binds"] = _binds(found, play)
    return play


def _asked(joint):
    return dict(separation=joint.separation, arm=joint.arm, offset=joint.offset or 0.0, clamped=joint.clamped)


def _bearing(found, n, seat, one):
    found.put(f"clearance_{n}", one.clearance, "mm")
    if not (found.joint.clamped and seat.ball):
        found.put(f"fit_{n}", one.fit, "mm")
    found.put(f"interference_{n}", one.interference, "mm")
    found.put(f"press_pressure_{n}", one.pressure, "MPa")
    found.put(f"hub_stress_{n}", one.hub_stress, "MPa")
    found.put(f"closure_{n}", one.closure, "mm")
    if seat.ball:
        found.put(f"preload_margin_{n}", one.preload, "mm")
        found.put(f"free_tilt_{n}", one.free_tilt, "rad")


def _binds(found, play) -> Yes:
    box = np.atleast_1d(play.binds)[: 1 + found.rows.corners]
    passes, always = bool(box[0] <= 0), bool(np.all(box <= 0))
    when = "" if not passes else ", at the worst sizes within their limits,"
    offset = abs(found.joint.offset)
    why = f"with the bores {offset:g} mm apart{when} no straight shaft passes through both"
    return Yes(passes, always, "" if always else why)


def shares(found: Findings, play: Play) -> dict[str, float]:
    """Share of each cause in the typical tilt: what its removal alone takes away, and what remains."""
    whole = first(play.tilt)
    if whole <= 0:
        return {}
    taken = {}
    for cause in CAUSES:
        bands = without(cause, found.bands, found.seats, found.joint.shaft.nominal)
        typical = {name: band.typical for name, band in bands.items()}
        left = free_play(Working(), found.seats, typical, overhang=None, **_asked(found.joint)).tilt
        taken[cause] = (whole - first(left)) / whole
    return taken | {"together": 1 - sum(taken.values())}


def seen(found: Findings, play: Play, cheeks: list[float]):
    """The whole swing each way: the bearings', and that of the screw in its cheeks or the arm on it."""
    tilt = play.tilt
    if cheeks and "cheek_hole" in found.beside:
        tilt = found.work(freeplay.seen_tilt, "seen_tilt", theta=tilt, theta_c=_in_cheeks(found, cheeks))
    elif "arm_hole" in found.beside:
        tilt = found.work(freeplay.seen_tilt, "seen_tilt", theta=tilt, theta_c=_in_arm(found))
    found.put("seen_tilt", tilt, "rad")


def passing(found: Findings):
    """Room between the shoulder and the holes beside the bearings that it must pass through."""
    if not found.beside:
        return
    columns = found.rows.columns
    smallest = np.minimum.reduce([columns[name] for name in each_hole(found.beside)])
    found.put(
        "passing_room",
        found.work(shaft_fit, "passing_room", d_b=smallest, d_s=columns["shaft_diameter"]),
        "mm",
    )


def _in_cheeks(found, cheeks):
    thick, columns = found.joint.cheeks.stock.thickness.typical, found.rows.columns
    room = [np.maximum(0, columns[f"cheek_hole_{n}"] - columns["shaft_diameter"]) for n in (1, 2)]
    span = freeplay.outer_span(cheeks[-1] - cheeks[0], thick, thick)
    tilt = found.work(
        freeplay.bush_pair_tilt, "cheek_tilt", c_1=room[0], c_2=room[1], B=span, L_1=thick, L_2=thick
    )
    found.put("cheek_tilt", tilt, "rad")
    return tilt


def _in_arm(found):
    columns, thick = found.rows.columns, found.joint.arm_plate.stock.thickness.typical
    room = np.maximum(0, columns["arm_hole"] - columns["shaft_diameter"])
    if found.arm is None:
        tilt = found.work(freeplay.bush_tilt, "arm_tilt", c=room, L=thick)
    else:
        play, (D_1, D_2) = np.maximum(0, columns["arm_room"]), found.arm.faces
        faces = found.work(freeplay.face_tilt, "arm_face_tilt", j=play, D_1=D_1, D_2=D_2)
        tilt = found.work(freeplay.arm_tilt, "arm_tilt", c=room, L=thick, theta_f=faces)
    found.put("arm_tilt", tilt, "rad")
    return tilt
