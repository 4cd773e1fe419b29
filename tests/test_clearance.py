"""Room of a shaft in its bearings, and how far a ball bearing tilts: against plain geometry."""

from itertools import product

import numpy as np
import pytest
from proofs import proves
from scipy.optimize import brentq

from guidegen.theory import clearance


def travel(*rings):
    """How far the innermost of nested rings can move, stop to stop: (hole, what lies in it) for each."""
    return sum(hole - inside for hole, inside in rings if hole > inside)


@proves("housing_gap", "shaft_fit", "bush_clearance", "bore_after_pressing", "interference")
def test_a_shaft_in_a_bush_in_a_hole():
    """Loose and tight bushes, loose and tight shafts: travel from stop to stop."""
    for shaft, free, closure, outside, hole in product(
        (7.97, 8.03), (8.0, 8.02), (0.0, 0.012), (12.0, 12.04), (11.98, 12.03)
    ):
        bore = clearance.bore_after_pressing(free, closure)
        assert bore + closure == pytest.approx(free)
        gap = clearance.housing_gap(hole, outside)
        assert clearance.shaft_fit(bore, shaft) + shaft == pytest.approx(free - closure)
        assert clearance.interference(outside, hole) + hole == pytest.approx(outside)
        assert clearance.bush_clearance(bore, shaft, gap) == pytest.approx(
            travel((bore, shaft), (hole, outside))
        )


@proves("loose_ball_clearance", "clamped_ball_clearance", "mounted_clearance")
def test_a_shaft_in_a_ball_bearing_in_a_hole():
    """Inner ring loose or clamped, squeezed or not: total radial travel of the shaft."""
    for shaft, bore, races, growth, closure, outside, hole in product(
        (7.97, 8.004), (7.995, 8.0), (0.013, 0.002), (0.0, 0.004), (0.0, 0.003), (22.0,), (21.99, 22.03)
    ):
        gap = travel((hole, outside))
        inside = clearance.mounted_clearance(races, growth, closure)
        squeezed = travel((20.0 + races - closure, 20.0 + growth))  # raceways 20 mm apart, balls left out
        assert inside == pytest.approx(squeezed, abs=1e-12)
        assert clearance.clamped_ball_clearance(inside, gap) == pytest.approx(squeezed + gap)
        assert clearance.loose_ball_clearance(inside, bore, shaft, gap) == pytest.approx(
            squeezed + gap + travel((bore, shaft))
        )


def axial_travel(ball, ratio, room):
    """Axial travel of a ball bearing by geometry: grooves of radius ratio·ball, room on diameter.

    Moved sideways, the rings stop when the ball touches both grooves: their centres then lie two groove
    radii less a ball diameter apart.
    """
    groove = ratio * ball

    def overlap(side):
        rise = 2 * (groove - ball / 2) - room / 2  # centres apart across the bearing, rings in the middle
        return np.hypot(rise, side) - 2 * (groove - ball / 2)

    return 2 * brentq(overlap, 0.0, ball)


@proves("groove_excess", "axial_play")
def test_axial_play_of_a_ball_bearing():
    """From its radial clearance, for a ball in two grooves; the formula leaves out clearance over eight A."""
    for ball, ratio, room in ((3.175, 0.52, 0.001), (3.969, 0.52, 0.0005), (4.763, 0.53, 0.002)):
        excess = clearance.groove_excess(ratio, ball)
        assert clearance.axial_play(excess, room) == pytest.approx(
            axial_travel(ball, ratio, room), rel=room / excess / 7
        )
        assert excess == pytest.approx(2 * (ratio * ball - ball / 2))


@proves("clamped_ball_tilt", "loose_ball_tilt")
def test_free_tilt_of_a_ball_bearing():
    """A disc tilted until its rim has used the axial play; a loose ring adds its tilt on the shaft."""
    for play, pitch, bore, shaft, width in (
        (0.06, 15.0, 8.0, 7.975, 7.0),
        (0.1, 20.6, 10.0, 9.99, 8.0),
        (0.05, 15.0, 8.0, 8.004, 7.0),
    ):
        tilt = clearance.clamped_ball_tilt(play, pitch)
        rim = np.array([[0, pitch / 2], [0, -pitch / 2]]) @ np.array(
            [[np.cos(tilt), np.sin(tilt)], [-np.sin(tilt), np.cos(tilt)]]
        )
        assert np.ptp(rim[:, 0]) == pytest.approx(play, rel=1e-4)
        more = clearance.loose_ball_tilt(play, pitch, bore, shaft, width) - tilt
        across = width * np.tan(more)  # an axis from the lower lip of one end to the upper lip of the other
        assert across == pytest.approx(max(0.0, bore - shaft), rel=1e-4, abs=1e-12)


@proves("drawn_hole")
def test_the_machine_makes_the_wanted_hole():
    """Drawn so, and made larger by the bias (smaller, where it is negative), the hole is what was wanted."""
    for wanted, bias in ((22.01, 0.12), (12.0, -0.2), (16.009, 0.0)):
        assert clearance.drawn_hole(wanted, bias) + bias == pytest.approx(wanted)
