"""How hard a joint turns, as its page tells it: torque, force at the arm, and which ring goes round."""

from typing import Iterator

from guidegen.guide.chapters import BAND_HEADS, Chapter, Table, band_row, limits_of, present
from guidegen.guide.measures import Measures
from guidegen.joint.creep import inner_ring_goes_round
from guidegen.joint.records import Result
from guidegen.kit.records import BallBearing

EFFORT = ("start_torque", "run_torque", "start_force", "arm_slip_torque")
RING = {
    True: "Under this load it is the inner ring that goes round: that one must sit tight or be clamped, "
    "or it creeps on the shoulder; the outer ring may be loose.",
    False: "Under this load it is the outer ring that goes round: that one must sit tight or be bonded, "
    "or it creeps in its hole; the inner ring may be loose.",
    None: "The load goes round neither ring: both may sit loose.",
}


def effort_chapter(result: Result, measures: Measures) -> Chapter:
    """Torque to start and to run, force at the arm, what a kitchen scale shows there."""
    rows = [
        band_row(result, name, measures)
        for name in EFFORT
        if name in result.quantities and result.quantities[name].typical
    ]
    caption = "Friction alone, steady load, over what is known of friction."
    tables = present([Table("Effort", caption, BAND_HEADS, tuple(rows))])
    return Chapter("effort", "How hard it turns", tables, tuple(_sentences(result, rows, measures)))


def _sentences(result, rows, measures) -> Iterator[str]:
    force = result.quantities.get("start_force")
    if force and rows:
        typical, most = (measures.on_scale(x).line for x in (force.typical, force.band.most))
        wanted = limits_of(result).get("start force")
        told = f" Wanted: at most {measures.value(wanted, 'N', 2).line}." if wanted else ""
        yield (
            f"A kitchen scale at the end of the arm, pushed square to it, shows {typical}, at most {most}."
            f"{told} "
            "The arm is taken as balanced: add the arm's own weight."
        )
    elif force:
        yield "Without a load nothing rubs in the bushes: there is nothing but the arm's own weight to lift."
    if "arm_slip_torque" in result.quantities:
        yield (
            "All this is for a screw that turns with the arm; whether it does, the check of the arm on the "
            "shoulder tells."
        )
    loaded = result.joint.radial or result.joint.axial
    if loaded and any(isinstance(bearing, BallBearing) for bearing in result.joint.bearings):
        yield RING[inner_ring_goes_round(result.joint)]
