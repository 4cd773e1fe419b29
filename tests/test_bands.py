"""Typical values, bands and likely ranges of free play, against a second calculation and random sampling."""

from functools import cache

import numpy as np
import pytest
from joint_reference import banded, corners, play, sample, sizes, some

POINTS, SOBOL = 100_000, 4096
ERROR = 4 * np.sqrt(
    0.05 * 0.95 * (1 / POINTS + 1 / SOBOL)
)  # of a share of one in twenty, four standard errors


def same(expected):
    return pytest.approx(expected, rel=1e-6, abs=1e-11)


@cache
def sampled():
    """Each result with its quantities at random points of its box."""
    return [
        (result, play(result.joint, sizes(result, sample(result, POINTS, n))))
        for n, result in enumerate(some())
    ]


def test_the_fifty_joints_are_of_every_kind():
    """Every pair, single ones, loose and clamped rings, three layouts, press fit and bonded."""
    joints = [result.joint for result in some()]
    assert len(joints) == 50
    assert {joint.layout for joint in joints} == {"A", "B", "C"}
    assert {joint.rings for joint in joints} == {"loose", "clamped"}
    assert {joint.single for joint in joints} == {True, False}
    assert {housing.fit for joint in joints for housing in joint.housings} >= {"press", "bonded"}
    assert len({tuple(type(b).__name__ for b in joint.bearings) for joint in joints}) >= 4


def test_typical_values_come_out_again():
    """Every quantity of free play, computed a second way from the typical sizes the result lists."""
    for result in some():
        for name, value in play(result.joint, sizes(result)).items():
            assert result.quantities[name].typical == same(float(value)), (result.id, name)


def test_bands_reach_the_corners_and_no_further():
    """Least and most are the extremes over all corners of the box of limits."""
    for result in some():
        typical = play(result.joint, sizes(result))
        for name, values in play(result.joint, sizes(result, corners(result))).items():
            values = np.append(values, typical[name])
            band = result.quantities[name].band
            assert (band.least, band.most) == (same(values.min()), same(values.max())), (result.id, name)


def test_no_random_point_leaves_its_band():
    """A hundred thousand points inside the box, on fifty joints."""
    for result, found in sampled():
        for name, values in found.items():
            band = result.quantities[name].band
            slack = 1e-9 * max(abs(band.least), abs(band.most)) + 1e-12
            assert band.least - slack <= np.min(values) and np.max(values) <= band.most + slack, (
                result.id,
                name,
            )


def test_likely_ranges_hold_nine_points_in_ten():
    """The 5th and 95th percentile, against the share of independent points below and above."""
    for result, found in sampled():
        for name, values in found.items():
            low, high = result.quantities[name].likely
            hair = (
                1e-9 * max(abs(low), abs(high)) + 1e-12
            )  # many points may share one value, such as no play at all
            assert (
                np.mean(values < low - hair) <= 0.05 + ERROR and np.mean(values <= low + hair) >= 0.05 - ERROR
            ), (result.id, name)
            assert (
                np.mean(values > high + hair) <= 0.05 + ERROR
                and np.mean(values >= high - hair) >= 0.05 - ERROR
            ), (result.id, name)


def test_least_typical_most_in_order():
    """Each label keeps to its meaning, and the likely range lies inside the band."""
    compared = 0
    for result in some():
        for name, q in result.quantities.items():
            if q.band is not None:
                assert q.band.least <= q.band.typical <= q.band.most, (result.id, name)
                if q.likely:
                    slack = 1e-9 + 1e-9 * abs(q.band.most)
                    assert q.band.least - slack <= q.likely[0] <= q.likely[1] <= q.band.most + slack, (
                        result.id,
                        name,
                    )
                compared += 1
    assert compared > 500


def test_end_play_band_and_chances():
    """Sizes of a stack drawn at random: end play in its band, likely range and chance of pinching as told."""
    for number, result in enumerate(some()):
        stack, joint = result.stack, result.joint
        rng = np.random.default_rng([7, number])
        draw = lambda band: rng.uniform(band.least, band.most, POINTS)  # noqa: E731
        if joint.clamped:
            continue  # checked in test_joint.py, where the rings' distance is known
        played = draw(joint.shaft.shoulder_length) - sum(
            draw(row.thickness) for row in stack.placed if row.on == "shoulder" and not row.within
        )
        assert stack.end_play.least - 1e-9 <= played.min() and played.max() <= stack.end_play.most + 1e-9
        assert abs(np.mean(played < stack.end_play_likely[0]) - 0.05) < ERROR
        assert abs(np.mean(played > stack.end_play_likely[1]) - 0.05) < ERROR
        spread = 4 * np.sqrt(0.25 * (1 / POINTS + 1 / SOBOL))
        assert abs(np.mean(played < 0) - stack.chance_pinched) < spread


def test_boxes_are_not_empty():
    """The sampling above varies something: at least four sizes with limits in every joint."""
    assert min(len(banded(result)) for result in some()) >= 4
