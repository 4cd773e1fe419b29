"""Worked joints as a whole: steps, loads, bent shafts, bores out of line, and what must always be true."""

import warnings
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from functools import cache

import numpy as np
import pytest
from beam_reference import solved
from joint_reference import banded, course, play, sizes, some, worked
from play_reference import Bore, gaps, greatest

from guidegen.joint import evaluate
from guidegen.kit.records import BallBearing, SleeveBushing
from guidegen.theory.declare import FORMULAS

SUMMARY = {
    "clearance",
    "tilt",
    "arm_play",
    "load_play",
    "reaction",
    "bearing_load",
    "thrust",
    "shaft_moment",
    "bending_stress",
    "deflection",
    "end_play",
    "thread_room",
    "closure",
    "interference",
}


@cache
def results():
    """Every third worked joint, evaluated."""
    return tuple(evaluate(joint, course()) for joint in worked()[::3])


METRES = {"m/s": 1000, "MPa·m/s": 1000}  # told in metres, worked out in millimetres


def without_number(name):
    stem, _, number = name.rpartition("_")
    return stem if number in ("1", "2") else name


def test_every_step_is_its_formula_and_gives_its_quantity():
    """The result of a step is the formula of its values, and the typical value of the quantity it gives."""
    compared = Counter()
    for result in results():
        for step in result.steps:
            formula = FORMULAS[step.formula]
            assert set(step.values) == set(formula.arguments)
            assert float(formula.function(**step.values)) == pytest.approx(
                step.result, rel=1e-9, abs=1e-12
            ), (result.id, step)
            assert step.held == formula.held(step.values) and step.source == formula.source
            if step.gives in result.quantities:
                quantity = result.quantities[step.gives]
                typical = quantity.typical * METRES.get(quantity.unit, 1)
                assert step.result == pytest.approx(typical, rel=1e-6, abs=1e-9), (result.id, step.gives)
                compared[without_number(step.gives)] += 1
    assert SUMMARY <= compared.keys()


def test_every_number_of_a_summary_has_a_step():
    """What a page sums up, it also works out."""
    for result in results():
        given = {step.gives for step in result.steps}
        missing = [
            name for name in result.quantities if without_number(name) in SUMMARY and name not in given
        ]
        assert missing == [], result.id


def test_reactions_carry_the_load():
    """Signed reactions add to the load with its shock; one bearing carries it all."""
    for result in results():
        joint, q = result.joint, result.quantities
        signed = [q[name].typical for name in ("reaction_1", "reaction_2") if name in q]
        assert sum(signed) == pytest.approx(joint.shock * joint.radial)
        if joint.single:
            continue
        S, at = joint.separation, joint.separation + result.inputs["overhang"].typical
        assert signed[1] * S == pytest.approx(joint.shock * joint.radial * at)
        assert q["couple_force"].typical * S == pytest.approx(joint.shock * joint.axial * joint.arm)


def exact(x):
    return Fraction(float(x)).limit_denominator(10**6)


def shaft_of(result, sense):
    """A result's screw as a beam along z: where it is held, forces, couples, bearing planes, load plane."""
    joint, z = result.joint, [exact(plane) for plane in result.stack.z_bearings]
    load = exact(result.stack.z_load)
    F, M = exact(joint.radial), sense * exact(joint.axial) * exact(joint.arm)
    if joint.layout == "A":
        return tuple(z), ((load, F),), ((load, M),), tuple(z), load
    if joint.layout == "B":
        held = (exact(result.inputs["fixed_at"].typical),)
    else:
        held = tuple(exact(result.inputs[name].typical) for name in ("support_1", "support_2"))
    if joint.single:  # the hub's force and couple reach the screw at its only bearing
        return held, ((z[0], F),), ((z[0], F * (load - z[0]) + M),), tuple(z), load
    second = (F * (load - z[0]) + M) / (z[1] - z[0])
    return held, ((z[0], F - second), (z[1], second)), (), tuple(z), load


def bent_by(result, sense):
    """(movement of the load plane, slopes at the bearings, greatest moment) of a result's screw, by sympy."""
    held, forces, couples, z, load = shaft_of(result, sense)
    (*y, at_load), (*slopes, _), moment = solved(held, forces, couples, (*z, load))
    if result.joint.layout != "A":  # the hub stays straight, or follows the slope at its only bearing
        rise = slopes[0] if len(z) == 1 else (y[1] - y[0]) / (z[1] - z[0])
        at_load = y[-1] + rise * (load - z[-1])
    return abs(at_load), [abs(slope) for slope in slopes], moment


def test_bent_shafts_of_every_layout():
    """Moment, deflection and slopes of fifteen joints as sympy solves them, both senses of the couple."""
    groups = {}
    for result in results():
        joint = result.joint
        groups.setdefault((joint.layout, joint.single, joint.straddle, joint.clamped), []).append(result)
    assert len(groups) >= 7
    for kind in groups.values():
        for result in kind[:: max(1, len(kind) // 2)][:2]:
            joint, q = result.joint, result.quantities
            senses = [bent_by(result, sense) for sense in (1, -1)]
            stiffness = joint.youngs_modulus * np.pi * result.inputs["shaft_diameter"].typical ** 4 / 64
            assert q["shaft_moment"].typical == pytest.approx(
                joint.shock * float(max(s[2] for s in senses)), rel=1e-5
            )
            assert q["deflection"].typical == pytest.approx(
                float(max(s[0] for s in senses)) / stiffness, rel=1e-5
            )
            held = joint.layout == "A" and joint.single  # at its only bearing, where it has no slope
            assert ("slope_1" in q) != held
            for n, pair in enumerate(() if held else zip(*(s[1] for s in senses)), 1):
                assert q[f"slope_{n}"].typical == pytest.approx(float(max(pair)) / stiffness, rel=1e-5)
            stress = q["shaft_moment"].typical * (result.inputs["shaft_diameter"].typical / 2)
            stress /= np.pi * result.inputs["shaft_diameter"].typical ** 4 / 64
            assert q["bending_stress"].typical == pytest.approx(stress)


def bores_of(result, offset=0.0):
    """The bearings of a result as bores at typical sizes, the second out of line by the offset."""
    found = []
    for n, bearing in enumerate(result.joint.bearings, 1):
        middle, off = (0.0, 0.0) if n == 1 else (result.joint.separation, offset)
        room = result.quantities[f"clearance_{n}"].typical
        if isinstance(bearing, BallBearing):
            found.append(Bore(middle, 0.0, room, off, free=result.quantities[f"free_tilt_{n}"].typical))
        else:
            found.append(Bore(middle, result.inputs[f"length_{n}"].typical, room, off))
    return tuple(found)


def test_bores_out_of_line():
    """Tilt, lean, travel at the load and binding of pairs with an offset, by the linear program."""
    pairs = [result for result in some() if not result.joint.single]
    rng = np.random.default_rng(3)
    offsets = [float(result.quantities["offset_limit"].typical * rng.uniform(-1.3, 1.3)) for result in pairs]
    moved = [
        evaluate(replace(result.joint, offset=offset), course()) for result, offset in zip(pairs, offsets)
    ]
    joints = [bores_of(result, offset) for result, offset in zip(moved, offsets)]
    bound = gaps(joints) > 1e-9
    for result, binds, offset, straight in zip(moved, bound, offsets, pairs):
        verdict = next(v for v in result.verdicts if v.about == "binds")
        assert (
            (verdict.state == "does not hold")
            == binds
            == (abs(offset) > straight.quantities["offset_limit"].typical)
        )
    assert 5 < bound.sum() < len(bound) - 5
    clear = [(result, joint) for result, joint, binds in zip(moved, joints, bound) if not binds]
    passing = [joint for _, joint in clear]
    planes = np.array([result.joint.separation + result.inputs["overhang"].typical for result, _ in clear])
    most, least = greatest(passing, 0, 1), -greatest(passing, 0, -1)
    travel = greatest(passing, 1, planes) + greatest(passing, -1, -planes)
    for n, (result, _) in enumerate(clear):
        q = result.quantities
        assert q["tilt"].typical == pytest.approx((most[n] - least[n]) / 2, rel=1e-5, abs=1e-9)
        assert q["lean"].typical == pytest.approx((most[n] + least[n]) / 2, rel=1e-5, abs=1e-9)
        assert q["load_play"].typical == pytest.approx(travel[n], rel=1e-5, abs=1e-9)


def test_play_of_the_screw_in_its_cheeks():
    """A fork that floats: the screw tilts in two holes of the cheeks, and what is seen is both together."""
    tried = 0
    for result in results():
        q, joint = result.quantities, result.joint
        if "cheek_tilt" not in q:
            assert joint.layout != "C" or joint.clamped
            continue
        thick = joint.cheeks.stock.thickness.typical
        middles = [result.inputs[name].typical for name in ("support_1", "support_2")]
        hole, shaft = result.inputs["cheek_hole"].band, result.inputs["shaft_diameter"].band

        def tilt(bore, d):
            room = max(0.0, bore - d)
            return greatest([(Bore(middles[0], thick, room), Bore(middles[1], thick, room))], 0, 1)[0]

        ends = tilt(hole.least, shaft.most), tilt(hole.typical, shaft.typical), tilt(hole.most, shaft.least)
        band = q["cheek_tilt"].band
        assert (band.least, band.typical, band.most) == pytest.approx(ends, rel=1e-6, abs=1e-9)
        seen = [
            q["tilt"].band.least + ends[0],
            q["tilt"].band.typical + ends[1],
            q["tilt"].band.most + ends[2],
        ]
        assert [
            q["seen_tilt"].band.least,
            q["seen_tilt"].band.typical,
            q["seen_tilt"].band.most,
        ] == pytest.approx(seen)
        tried += 1
        if tried == 8:
            break
    assert tried == 8


def test_wobble_falls_with_separation():
    """The same pair farther apart never tilts more, at no size within its limits."""
    rng, fell = np.random.default_rng(4), 0
    for result in some():
        if result.joint.single:
            continue
        drawn = {name: rng.uniform(band.least, band.most, 200) for name, band in banded(result).items()}
        tilts = [
            play(result.joint, sizes(result, drawn | {"separation": result.joint.separation * share}))["tilt"]
            for share in (1.0, 1.1, 1.5, 3.0)
        ]
        assert all(np.all(nearer >= farther - 1e-12) for nearer, farther in zip(tilts, tilts[1:]))
        farther = evaluate(replace(result.joint, separation=result.joint.separation * 1.5), course())
        for end in ("least", "typical", "most"):
            assert (
                getattr(farther.quantities["tilt"].band, end)
                <= getattr(result.quantities["tilt"].band, end) + 1e-12
            )
        fell += farther.quantities["tilt"].typical < result.quantities["tilt"].typical - 1e-9
    assert fell > 20


def test_a_pair_never_tilts_more_than_either_bearing_alone():
    """Each bearing of a pair, evaluated on its own, allows at least as much tilt."""
    tried = 0
    for result in some():
        joint = result.joint
        if joint.single or joint.clamped:
            continue  # a bearing alone cannot be clamped, and a loose one tilts more
        for bearing, housing in zip(joint.bearings, joint.housings):
            alone = evaluate(
                replace(joint, bearings=(bearing,), housings=(housing,), separation=None, after_parts=None),
                course(),
            )
            for end in ("least", "typical", "most"):
                assert (
                    getattr(result.quantities["tilt"].band, end)
                    <= getattr(alone.quantities["tilt"].band, end) + 1e-12
                )
            tried += 1
    assert tried > 40


def test_wobble_grows_with_clearance():
    """A thinner shaft, a larger hole or a larger bore never makes less wobble."""
    for result in some():
        v = sizes(result)
        before = float(play(result.joint, v)["tilt"])
        for name in v:
            step = (
                -0.01
                if name == "shaft_diameter"
                else 0.01
                if name.startswith(("free_bore", "bore", "hole", "internal"))
                else None
            )
            if step:
                assert float(play(result.joint, v | {name: v[name] + step})["tilt"]) >= before - 1e-12, (
                    result.id,
                    name,
                )


def test_bushes_face_to_face():
    """Two bushes that touch wobble like one as long as both; far enough out of line, they bind."""
    joint = next(
        joint
        for joint in worked()
        if joint.layout == "B"
        and not joint.single
        and all(isinstance(bearing, SleeveBushing) for bearing in joint.bearings)
    )
    touching = replace(joint, separation=joint.bearings[0].length.typical, body="block")
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        in_line, bound = (evaluate(replace(touching, offset=offset), course()) for offset in (None, 0.5))
    q = in_line.quantities
    assert q["tilt"].typical == pytest.approx(q["clearance_1"].typical / (2 * touching.separation))
    assert next(v for v in bound.verdicts if v.about == "binds").state == "does not hold"
    assert bound.quantities["tilt"].typical == bound.quantities["load_play"].typical == 0
