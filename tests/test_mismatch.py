"""Caliper jaws in round holes, hexagons in hexagons, threads of two systems: against plain geometry."""

from fractions import Fraction
from math import cos, hypot, isclose, pi, radians, sin, tan

import numpy as np
import pytest
from proofs import proves
from scipy.optimize import brentq, linprog

from guidegen.theory import measuring, mismatch

INCH = 25.4
CORNERS = np.arange(6) * pi / 3 + pi / 6  # of a hexagon whose flats face 0°, 60° …


@proves("jaw_reading")
def test_the_edges_of_the_jaws_touch_the_hole():
    """Two flats opened until their four edges meet the circle: found by opening them, not by the root."""
    for hole in (1.5, 3.0, 8.02, 22.2):
        for flat in (0.1, 0.3, 0.5):
            touches = brentq(lambda apart: hypot(apart / 2, flat / 2) - hole / 2, 0, hole)
            assert measuring.jaw_reading(hole, flat) == pytest.approx(touches, rel=1e-9)


def fits_turned(opening, hexagon, turn):
    """Whether a turned hexagon, free to shift, lies within a larger one: a linear program for the shift."""
    corners = hexagon / 2 / cos(pi / 6) * np.array([np.cos(CORNERS + turn), np.sin(CORNERS + turn)])
    flats = np.arange(6) * pi / 3
    normals = np.array([np.cos(flats), np.sin(flats)]).T
    least = opening / 2 - (normals @ corners).max(axis=1)
    return linprog([0, 0], A_ub=normals, b_ub=least + 1e-12, bounds=[(None, None)] * 2).status == 0


@proves("hexagon_free_turn", "slipping_opening")
def test_a_hexagon_turns_until_its_corners_bear():
    """Turned step by step within the opening; from the slipping opening on, it goes right round."""
    for hexagon in (3.969, 4.0, 12.5):
        slips = mismatch.slipping_opening(hexagon)
        for share in (0.02, 0.3, 0.8, 0.99):
            opening = hexagon + share * (slips - hexagon)
            free = mismatch.hexagon_free_turn(opening, hexagon)
            assert fits_turned(opening, hexagon, 0.999 * free)
            assert not fits_turned(opening, hexagon, 1.001 * free + 1e-6)
        assert all(fits_turned(1.0001 * slips, hexagon, radians(turn)) for turn in range(0, 61, 3))
        assert not fits_turned(0.999 * slips, hexagon, pi / 6)
        assert mismatch.hexagon_free_turn(hexagon, hexagon) == pytest.approx(0, abs=1e-12)


@proves("hexagon_free_turn")
def test_between_the_jaws_of_an_open_wrench_it_turns_as_far():
    """The width of a turned hexagon between two parallel jaws reaches their opening at the same angle."""
    for hexagon, opening in ((12.7, 13.0), (9.9, 10.2), (10.0, 11.3)):
        free = mismatch.hexagon_free_turn(opening, hexagon)
        reach = hexagon / 2 / cos(pi / 6) * np.cos(CORNERS + free)
        assert reach.max() - reach.min() == pytest.approx(opening, rel=1e-9)


def profile_gap(nut, screw, shift):
    """Least radial gap between the flanks of a nut and a screw of the same pitch, shifted along the axis.

    Both as saw-teeth with flanks at 30 degrees to the radius, drawn through their pitch diameters.
    """
    (nut_pitch_diameter, pitch), (screw_pitch_diameter, _) = nut, screw
    z = np.linspace(0, pitch, 4001)
    slope = 1 / tan(radians(30))

    def tooth(diameter, offset):  # radius of a flank above or below the pitch line, peak at offset
        away = np.abs((z - offset + pitch / 2) % pitch - pitch / 2)
        return diameter / 2 + (pitch / 4 - away) * slope

    return (tooth(nut_pitch_diameter, 0) - tooth(screw_pitch_diameter, shift)).min()


@proves("flank_room")
def test_a_nut_moves_along_its_screw_until_flanks_meet():
    """Two zig-zag profiles moved against each other: total travel between flank on flank, either way."""
    for nut, screw in (((5.35, 1.0), (5.2, 1.0)), ((9.026, 1.5), (8.7, 1.5)), ((3.545, 0.7), (3.5, 0.7))):
        one_way = brentq(lambda shift: profile_gap(nut, screw, shift), 0, nut[1] / 4)
        assert mismatch.flank_room(nut[0], screw[0]) == pytest.approx(2 * one_way, rel=2e-3)


@proves("turns_to_jam")
def test_two_pitches_run_out_of_step():
    """Counted turn by turn in exact fractions: the last whole thousandth of a turn that still has room."""
    for room, nut, screw in (("0.307", "1.5", "1.5875"), ("0.101", "1.27", "1"), ("0.098", "0.8", "0.79375")):
        room, nut, screw = map(Fraction, (room, nut, screw))
        step = abs(nut - screw) / 1000
        count = next(n for n in range(10**6) if n * step > room) - 1
        found = mismatch.turns_to_jam(float(room), float(nut), float(screw))
        assert count / 1000 <= found + 1e-9 and found < (count + 1) / 1000 + 1e-9
        assert isclose(mismatch.turns_to_jam(float(room), float(screw), float(nut)), found)


@proves("pitch_diameter", "thread_overlap")
def test_diameters_of_threads_are_those_of_the_tables():
    """Pitch and minor diameters printed in ISO 724 and ASME B1.1 tables (from memory, high confidence)."""
    printed = (  # nominal, pitch, pitch diameter, minor diameter of the nut; mm, then inch rows in inches
        (5, 0.8, 4.480, 4.134, 1),
        (6, 1, 5.350, 4.917, 1),
        (8, 1.25, 7.188, 6.647, 1),
        (10, 1.5, 9.026, 8.376, 1),
        (0.25, 1 / 20, 0.2175, 0.1959, INCH),
        (0.3125, 1 / 18, 0.2764, 0.2524, INCH),
    )
    for nominal, pitch, middle, minor, unit in printed:
        last = 0.00051 * unit if unit == 1 else 0.000051 * unit
        nominal, pitch, middle, minor = (value * unit for value in (nominal, pitch, middle, minor))
        assert mismatch.pitch_diameter(nominal, pitch) == pytest.approx(middle, abs=last)
        assert mismatch.thread_overlap(nominal, pitch, nominal) == pytest.approx(1)
        assert mismatch.thread_overlap(nominal, pitch, minor) == pytest.approx(0, abs=2 * last / pitch)
        half = (nominal + minor) / 2
        assert mismatch.thread_overlap(nominal, pitch, half) == pytest.approx(0.5, abs=2 * last / pitch)


def test_the_number_of_the_slip_is_two_over_root_three():
    """Across corners over across flats, from the corners' own places."""
    corner = [cos(pi / 6), sin(pi / 6)]
    assert mismatch.slipping_opening(1.0) == pytest.approx(1 / corner[0])
