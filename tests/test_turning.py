"""What it takes to turn a joint: the shaft as a free body, friction where it rubs, bands, likely ranges."""

from functools import cache

import numpy as np
import pytest
from drawn_joints import evaluated
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from likely_reference import by_ratio, evenly, nine_in_ten
from moving_joints import again, moving, sound

from guidegen.errors import BadInput

MANY = settings(max_examples=25, deadline=None, derandomize=True, database=None)
SEEDS = st.integers(0, 3000)


@cache
def turned():
    """(result, second calculation) of joints whose load plane is known."""
    pairs = [(result, again(result)) for result in sound(240)]
    return [(result, one) for result, one in pairs if "start_torque" in result.quantities]


def on_the_shaft(v, sense):
    """Forces of the two bearings that hold the shaft still: no force across and no moment is left."""
    S, F = v["separation"], v["radial"]
    rows = [[1.0, 1.0], [0.0, S]]  # forces across; moments about bearing 1
    return np.linalg.solve(rows, [F, F * (S + v["overhang"]) + sense * v["axial"] * v["arm"]])


def rubbing_ring(mu, force, outer, inner, rings=20_000):
    """Torque of a face that has worn in, ring by ring: pressure times radius is the same all over it."""
    r = np.linspace(inner / 2, outer / 2, rings + 1)
    middle, width = (r[1:] + r[:-1]) / 2, np.diff(r)
    pressure = 1 / middle
    pressure *= force / np.sum(pressure * 2 * np.pi * middle * width)
    return mu * np.sum(pressure * 2 * np.pi * middle**2 * width)


def test_pairs_of_bushes_as_a_free_body():
    """Run torque of two bushes: the shaft held still under each sense of the couple, and a face that rubs.

    The couple turns one way or the other: where the load lies between the bearings, never are both at their
    worst at once.
    """
    between = outside = 0
    for result, one in turned():
        v = one.typical
        if len(one.bushes) != 2:
            continue
        senses = []
        for sense in (1, -1):
            forces = on_the_shaft(v, sense)
            rubs = sum(v[f"friction_{n}"] * abs(forces[n - 1]) for n in (1, 2))
            senses.append(rubs * v["shaft_diameter"] / 2)
        faces = [
            rubbing_ring(v[f"friction_{n}"], v["axial"], one.face(n), v[f"free_bore_{n}"]) for n in (1, 2)
        ]
        expected = max(senses) + max(faces)
        torque = result.quantities["run_torque"].typical
        assert torque == pytest.approx(expected, rel=1e-5), result.joint.title
        between += -v["separation"] < v["overhang"] < 0 and v["axial"] > 0
        outside += v["overhang"] > 0
    assert min(between, outside) > 5


def test_a_bush_alone_that_its_arm_tips():
    """A moment larger than 0.4 of load times length is carried by both ends of a bush, and both rub.

    The ends are a pair two thirds of the length apart: without a radial load each bears moment over 2/3 L.
    """
    alone = 0
    for result, one in turned():
        v = one.typical
        if one.bushes != [1] or one.balls:
            continue
        moment, radial, length = one.alone_with(), v["radial"], v["length_1"]
        if moment <= 0.4 * radial * length:
            continue
        near, far = (moment / (2 * length / 3) + side * radial / 2 for side in (1, -1))
        ends = v["friction_1"] * (near + far) * v["shaft_diameter"] / 2
        face = rubbing_ring(v["friction_1"], v["axial"], one.face(1), v["free_bore_1"])
        torque = result.quantities["run_torque"].typical
        assert torque == pytest.approx(ends + face, rel=1e-5), result.joint.title
        alone += 1
    assert alone > 5


def test_the_force_at_the_arm_turns_the_joint():
    """Force times arm is the torque to start, at each end of the band."""
    for result, one in turned():
        torque, force = (result.quantities[name].band for name in ("start_torque", "start_force"))
        for end in ("least", "typical", "most"):
            assert getattr(force, end) * one.typical["arm"] == pytest.approx(getattr(torque, end))


def test_likely_ranges_of_friction():
    """Coefficients spread evenly by their ratio; drag and seals evenly between their limits."""
    tried = 0
    for seed, (result, one) in enumerate(turned()[::4]):
        rng, drawn = np.random.default_rng(seed), {}
        for name, band in one.given.items():
            kind = name.removeprefix("start_")
            if kind.startswith(("friction", "drag", "seal")):
                drawn[name] = (by_ratio if kind.startswith("friction") else evenly)(rng, band)
        for prefix, name in (("start_", "start_torque"), ("", "run_torque")):
            values, likely = one.torque(prefix, drawn.get), result.quantities[name].likely
            assert nine_in_ten(values, likely), (result.joint.title, name)
        tried += 1
    assert tried > 20


def built(file):
    result = evaluated(file)
    assume(not isinstance(result, BadInput) and "start_torque" in result.quantities)
    return result


@MANY
@given(seed=SEEDS)
def test_friction_is_never_below_nothing_and_starting_is_harder(seed):
    """Bands in order, none below zero; no joint starts more easily than it runs, at any end of its band."""
    q = built(moving(seed)).quantities
    for name in ("start_torque", "run_torque", "start_force"):
        band, (low, high) = q[name].band, q[name].likely
        assert 0 <= band.least <= band.typical <= band.most
        assert band.least * (1 - 1e-9) <= low <= high <= band.most * (1 + 1e-9)
    for end in ("least", "typical", "most"):
        assert getattr(q["start_torque"].band, end) >= getattr(q["run_torque"].band, end)


@MANY
@given(seed=SEEDS)
def test_a_joint_without_load_has_only_grease_and_seals(seed):
    """No load: bushes turn freely, ball bearings against grease and seals."""
    file = moving(seed)
    result = built(file | {"load": {"radial": "0 N", "axial": "0 N"}})
    one = again(result)
    v = one.typical
    left = sum(v[f"drag_{n}"] * v[f"pitch_diameter_{n}"] ** 3 + v[f"seal_{n}"] for n in one.balls)
    assert result.quantities["run_torque"].typical == pytest.approx(left)
    if not one.balls:
        assert result.quantities["start_force"].band.most == 0


@MANY
@given(seed=SEEDS, factor=st.floats(1.01, 10))
def test_friction_grows_with_the_load(seed, factor):
    """More load, no less friction; bushes under a radial load alone rub as many times as much."""
    file = moving(seed)
    loads = [{"radial": f"{size:.9f} N", "axial": "0 N"} for size in (20, 20 * factor)]
    one, more = (built(file | {"load": load}).quantities["run_torque"].band for load in loads)
    assert more.least >= one.least and more.typical >= one.typical and more.most >= one.most
    if not any(id.startswith("bb") for id in file["bearings"]):
        assert more.typical == pytest.approx(factor * one.typical, rel=1e-6)
