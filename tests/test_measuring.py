"""How sure a reading is: against the guide to measurement uncertainty, and against thousands of drawn
readings.
"""

from statistics import mean, stdev

import numpy as np
import pytest
from proofs import proves
from scipy.stats import t as student

from guidegen.theory import measuring

# JCGM 100:2008, table 1 of 4.4.3: twenty temperatures, °C; from memory, mean and spread come out as printed.
TEMPERATURES = (
    96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07,
    100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
)  # fmt: skip


@proves("reading_uncertainty")
def test_the_guides_own_example():
    """Twenty readings: 100.14 °C, spread 1.49, uncertainty 0.33; an even error of 4 °C:
    2.3 (4.4.3 and 4.4.5).
    """
    assert (round(mean(TEMPERATURES), 3), round(stdev(TEMPERATURES), 2)) == (100.145, 1.49)
    found = measuring.reading_uncertainty(0.0, stdev(TEMPERATURES), len(TEMPERATURES))
    assert found == pytest.approx(0.33, abs=0.005)
    assert measuring.reading_uncertainty(4.0, 0.0, 1) == pytest.approx(2.3, abs=0.05)


@proves("reading_uncertainty")
def test_the_spread_of_drawn_means():
    """A caliper with an even error and a shaky hand, many times over."""
    random = np.random.default_rng(4)
    for a, s, n in ((0.02, 0.01, 3), (0.5, 0.3, 5), (0.02, 0.05, 10)):
        error = random.uniform(-a, a, 200_000) + random.normal(0, s, (n, 200_000)).mean(axis=0)
        assert measuring.reading_uncertainty(a, s, n) == pytest.approx(error.std(), rel=0.01)


@proves("effective_freedom", "sure_within")
def test_nineteen_in_twenty_are_caught():
    """Readings drawn with a known truth, their own spread put in:
    the range holds the truth about 95 times in 100.
    """
    random = np.random.default_rng(5)
    for a, s, n in ((0.0, 1.0, 3), (0.0, 1.0, 10), (1.0, 0.5, 4), (0.5, 0.5, 5)):
        drawn = random.normal(0, s, (n, 40_000))
        off = random.uniform(-a, a, 40_000) + drawn.mean(axis=0)
        own = drawn.std(axis=0, ddof=1)
        u = measuring.reading_uncertainty(a, own, n)
        k = student.ppf(0.975, measuring.effective_freedom(u, own, n))
        caught = np.mean(np.abs(off) <= measuring.sure_within(k, u))
        # an instrument's even error is never beyond its limits, so the rule is then a little too careful
        assert 0.94 < caught < (0.96 if a == 0 else 0.995), (a, s, n, caught)
    u = measuring.reading_uncertainty(0.0, 1.0, 7)
    assert measuring.effective_freedom(u, 1.0, 7) == pytest.approx(
        6
    )  # only scatter: one less than the readings
    assert measuring.effective_freedom(2 * u, 1.0, 7) == pytest.approx(6 * 16)
    assert measuring.sure_within(2.0, 0.33) == pytest.approx(0.66)


@proves("difference_uncertainty", "clearance_uncertainty")
def test_errors_carried_by_drawing_them():
    """Normal errors of bore and shaft, of travel, span and arm, put through the plain expression."""
    random = np.random.default_rng(6)
    bore, shaft = random.normal(8.02, 0.010, 400_000), random.normal(7.97, 0.004, 400_000)
    assert measuring.difference_uncertainty(0.010, 0.004) == pytest.approx((bore - shaft).std(), rel=0.01)
    travel, span, arm = 1.3, 36.0, 120.0
    for errors in ((0.02, 0.1, 1.0), (0.001, 0.7, 0.1), (0.001, 0.01, 2.0)):
        drawn = [random.normal(*of, 400_000) for of in zip((travel, span, arm), errors)]
        clearances = drawn[0] * drawn[1] / (2 * drawn[2])
        middle = travel * span / (2 * arm)
        given = (middle, travel, errors[0], span, errors[1], arm, errors[2])
        assert measuring.clearance_uncertainty(*given) == pytest.approx(clearances.std(), rel=0.01)


@proves("hole_of_reading")
def test_a_hole_from_its_reading():
    """A rectangle of flat and reading, its diagonal measured corner to corner."""
    for reading, flat in ((7.984, 0.5), (2.9, 0.3), (22.0, 0.4)):
        corners = np.array([[-reading / 2, -flat / 2], [reading / 2, flat / 2]])
        assert measuring.hole_of_reading(reading, flat) == pytest.approx(np.hypot(*(corners[1] - corners[0])))


@proves("least_tilt_seen")
def test_a_ruler_at_an_arm():
    """Half a millimetre at 100 mm, from end to end: the slope of either half."""
    top, bottom = np.array([100.0, 0.25]), np.array([100.0, -0.25])
    between = np.arctan2(*top[::-1]) - np.arctan2(*bottom[::-1])
    assert measuring.least_tilt_seen(0.5, 100.0) == pytest.approx(between / 2, rel=1e-4)
