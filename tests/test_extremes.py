"""Joints at the ends of what may be asked: no load, no hours, one bearing, ten kilonewtons, any arm."""

import json
import math
from itertools import product

import pytest
from drawn_joints import evaluated
from moving_joints import again

from guidegen.errors import BadInput
from guidegen.joint import as_json, report

SEATS = {"bush": "sb-8x12x8", "nylon": "ny-8x12x8"}
SEATS |= {"ball": "bb-608", "thin ball": "bb-688", "sealed": "bb-608-2rs"}
BASE = {
    "title": "At the end",
    "shaft": "ss-8x40",
    "arm": "100 mm",
    "motion": {"kind": "swing", "angle": "70 deg", "rate": "6 /min", "hours": 100},
    "body": "block",
    "housing_1": {"stock": "aluminium-6", "process": "ream", "fit": "press", "edge": "18 mm"},
}
HELD = {
    "A": {"turns": "shaft", "on_thread": {"stock": "aluminium-2", "process": "drill"}},
    "B": {"turns": "housing", "held": "thread", "overhang": "4 mm"},
    "C": {"turns": "housing", "held": "fork", "overhang": "4 mm"},
}
HELD["B"]["on_thread"] = HELD["C"]["cheeks"] = HELD["A"]["on_thread"]
PAIRS = (
    ("bush", "bush"),
    ("nylon", "bush"),
    ("ball", "ball"),
    ("thin ball", "bush"),
    ("sealed", "thin ball"),
)
LOADS = {
    "none": {"radial": "0 N", "axial": "0 N"},
    "radial alone": {"radial": "30 N", "axial": "0 N"},
    "thrust alone": {"radial": "0 N", "axial": "30 N"},
    "ten kilonewtons": {"radial": "10 kN", "axial": "0 N"},
    "ten kilonewtons of thrust": {"radial": "0 N", "axial": "10 kN"},
    "next to nothing": {"radial": "1e-6 N", "axial": "1e-6 N"},
    "both": {"radial": "30 N", "axial": "4 N", "shock": 3},
}
MOTIONS = (
    {"kind": "hand"},
    {"kind": "swing", "angle": "70 deg", "rate": "6 /min", "hours": 0},
    {"kind": "swing", "angle": "0.01 deg", "rate": "0.01 /min", "hours": 1e6},
    {"kind": "turn", "speed": "3000 rpm", "hours": 1e6},
    {"kind": "turn", "speed": "0.001 rpm"},
)


def joint(layout, bearings, load, **more):
    file = BASE | HELD[layout] | {"bearings": [SEATS[seat] for seat in bearings], "load": load} | more
    if len(bearings) == 2:
        return file | {"separation": "18 mm", "housing_2": "same"}
    return {key: value for key, value in file.items() if key != "body"}


def told(file):
    """The result, its JSON and its report read through: finite, plain, a reason in each verdict."""
    result = evaluated(file)
    assert not isinstance(result, BadInput), result
    text = json.dumps(as_json(result), allow_nan=False)
    words = report(result)
    assert not {"nan", "inf", "None"} & {*words.replace(",", " ").split()} and json.loads(text)
    for verdict in result.verdicts:
        assert (
            verdict.why.strip() and verdict.source and "nan" not in verdict.why and "inf " not in verdict.why
        )
        assert (verdict.number is None) == (verdict.limit is None)
        assert verdict.number is None or math.isfinite(verdict.number) and math.isfinite(verdict.limit)
    return result


@pytest.mark.parametrize("load", LOADS)
def test_every_load_on_every_kind_of_joint(load):
    """Each layout with each pair and each bearing alone, each motion in turn: a result, judged in words."""
    kinds = [*product("ABC", (*PAIRS, *((seat,) for seat in SEATS)))]
    for number, (layout, bearings) in enumerate(kinds):
        result = told(joint(layout, bearings, LOADS[load], motion=MOTIONS[number % len(MOTIONS)]))
        about = {verdict.about for verdict in result.verdicts}
        assert {"wobble", "start force"} <= about and ("buildable" in about)
        for n, seat in enumerate(bearings, 1):
            loaded = result.quantities[f"bearing_load_{n}"].value > 0
            if "ball" in seat or seat == "sealed":
                rated = loaded or result.quantities["thrust"].value > 0
                assert (f"static_factor_{n}" in result.quantities) == rated and "thrust" in about
            else:
                assert f"pressure_{n}" in result.quantities


def test_one_ball_bearing_bears_no_couple():
    """Alone, a ball bearing tips under any moment; right under a radial load it holds, and so does a bush."""
    for layout in "BC":
        tips = told(joint(layout, ("ball",), LOADS["radial alone"]))
        under = told(joint(layout, ("ball",), LOADS["radial alone"], overhang="0 mm"))
        bush = told(joint(layout, ("bush",), LOADS["radial alone"]))
        states = [
            next(v.state for v in one.verdicts if v.about == "buildable") for one in (tips, under, bush)
        ]
        assert states == ["does not hold", "holds", "holds"]


def test_what_carries_more_than_it_bears_does_not_hold():
    """Ten kilonewtons dent every ball bearing, crush every bush; a motion has no life there."""
    for bearings in PAIRS:
        result = told(joint("B", bearings, LOADS["ten kilonewtons"], motion=MOTIONS[3]))
        failed = {v.about for v in result.verdicts if v.state == "does not hold"}
        balls = ["ball" in seat or seat == "sealed" for seat in bearings]
        assert ("static" in failed) == any(balls) == ("life" in failed)
        assert ("pressure" in failed) == (not all(balls))
        assert "shaft yield" in failed
        pushed = told(joint("B", bearings, LOADS["ten kilonewtons of thrust"]))
        assert ("thrust" in {v.about for v in pushed.verdicts if v.state == "does not hold"}) == any(balls)


def test_a_bush_that_only_a_moment_loads():
    """No radial force, an axial load at the arm: both its ends bear, are told, rub and run warm."""
    result = told(joint("B", ("bush",), LOADS["thrust alone"]))
    edge = next(v for v in result.verdicts if v.about == "edge")
    assert edge.state == "take care" and "both its ends" in edge.why
    moment, length, d = 30 * 100, 8.0, result.inputs["shaft_diameter"].typical
    ends = moment / (2 * length / 3)
    assert result.quantities["pressure_1"].value == pytest.approx(2 * ends / (d * length / 3))
    assert result.quantities["run_torque"].typical >= 0.1 * 2 * ends * d / 2
    assert "pv_1" in result.quantities and result.quantities["pv_1"].value > 0


@pytest.mark.parametrize(
    "motion, words",
    [
        ({"kind": "swing", "angle": "0 deg", "rate": "6 /min"}, "above 0"),
        ({"kind": "swing", "angle": "361 deg", "rate": "6 /min"}, "at most"),
        ({"kind": "swing", "angle": "70 deg", "rate": "0 /min"}, "above 0"),
        ({"kind": "turn", "speed": "0 rpm"}, "above 0"),
        ({"kind": "turn", "speed": "6 rpm", "hours": -1}, "at least 0"),
        ({"kind": "turn", "speed": "6 rpm", "hours": ".nan"}, "hours"),
    ],
)
def test_a_motion_that_is_none(motion, words):
    """No swing, no speed, time that runs backwards: told as mistakes."""
    bad = evaluated(joint("A", ("bush", "bush"), LOADS["both"], motion=motion))
    assert isinstance(bad, BadInput) and any(words in str(mistake) for mistake in bad.mistakes)


@pytest.mark.parametrize("arm", ["0.001 mm", "0.000001 mm", "1000 mm"])
def test_arms_from_nothing_to_a_metre(arm):
    """Force at the arm times the arm stays the torque; what is wanted at 100 mm is asked in proportion."""
    for bearings in PAIRS:
        result = told(joint("A", bearings, LOADS["both"], arm=arm))
        length = result.inputs["arm"].value
        force, torque = (result.quantities[name].band.most for name in ("start_force", "start_torque"))
        assert force * length == pytest.approx(torque)
        limit = next(v.limit for v in result.verdicts if v.about == "start force")
        assert limit * length == pytest.approx(1.0 * 100)


def test_a_bearing_squeezed_until_nothing_is_left():
    """A shaft and a hole that take all clearance: the preload is told, the rest stays finite."""
    tight = {"shaft": "8.05 mm", "hole_1": "21.9 mm", "with": "micrometer"}
    result = told(joint("B", ("ball", "ball"), LOADS["both"], measured=tight))
    state = {v.about: v.state for v in result.verdicts}
    assert state["preload"] == "does not hold" and result.quantities["clearance_1"].typical == 0
    assert result.quantities["static_factor_1"].value > 0 and result.quantities["start_torque"].band.least > 0


def test_a_bush_squeezed_onto_the_shaft():
    """No clearance left: no cycles until it doubles, and the joint does not go together."""
    tight = {"shaft": "8.05 mm", "bore_1": "8.01 mm", "bore_2": "8.01 mm", "with": "micrometer"}
    result = told(joint("B", ("bush", "bush"), LOADS["both"], measured=tight))
    assert result.quantities["clearance_1"].typical == 0 and "wear_cycles" not in result.quantities
    assert ("goes together", "does not hold") in {(v.about, v.state) for v in result.verdicts}


def test_measured_sizes_are_what_everything_is_worked_out_from():
    """Shaft and bores as measured: pressure, speed, stress and friction of bush and ball take those sizes."""
    sizes = {"shaft": "7.9 mm", "bore_1": "8.2 mm", "bore_2": "8.03 mm", "with": "micrometer"}
    result = told(joint("B", ("ball", "bush"), LOADS["both"], measured=sizes))
    one = again(result)
    numbers = one.sliding() | one.rolling() | one.strength(one.loads())
    for name in ("pressure_2", "sliding_speed", "shear_stress", "yield_factor", "static_factor_1"):
        assert result.quantities[name].value == pytest.approx(numbers[name]), name
    assert one.typical["shaft_diameter"] == 7.9
    assert result.quantities["run_torque"].typical == pytest.approx(one.torques("")[1])


def test_a_joint_that_cannot_be_built_is_still_rated():
    """Too long for its screw: the bearings are rated and judged, the clamp is not."""
    short = {"shaft": "ss-8x25", "overhang": "10 mm", "motion": MOTIONS[3]}
    result = told(joint("A", ("ball", "ball"), LOADS["both"], **short))
    about = {v.about: v.state for v in result.verdicts}
    assert result.stack is None and about["buildable"] == "does not hold"
    assert {"static", "thrust", "life", "shaft yield", "start force"} <= about.keys() and "clamp" not in about
