"""Every number and verdict of whole results against a second calculation that reads their JSON alone."""

import json
import math
from collections import Counter
from functools import cache

import numpy as np
import pytest
from drawn_joints import all_drawn
from joint_reference import course, some
from result_reference import Again

from guidegen.errors import BadInput
from guidegen.joint import as_json, evaluate, make_joint

DRAWN = 140
# What a joint is judged by: verdict, quantity, "least" or "most", the limit; from the design of the checks.
CHECKS = (
    ("goes together", "fit", "least", lambda v, n, play: 0.0),
    ("preload", "preload_margin", "least", lambda v, n, play: 0.0),
    ("wobble", "seen_tilt", "most", lambda v, n, play: 1.0 / (2 * 100.0)),
    ("lean", "lean_under_load", "most", lambda v, n, play: v.lean_limit(n, play)),
    ("offset", "offset_limit", "least", lambda v, n, play: abs(v.typical["offset"]) or None),
    ("shaft yield", "yield_factor", "least", lambda v, n, play: 1.5),
    ("thread room", "thread_room", "least", lambda v, n, play: v.typical["pitch"]),
    ("nut grip", "nut_engaged", "least", lambda v, n, play: 0.8 * v.typical["thread_diameter"]),
)
NOT_HERE = {"drawn_hole_1", "drawn_hole_2", "chance_pinched", "chance_fits"}  # tested elsewhere


@cache
def results() -> tuple[dict, ...]:
    """JSON of all named joints, forty worked ones and the drawn ones."""
    named = [evaluate(make_joint(course(), raw, id), course()) for id, raw in course().joints.items()]
    drawn = [result for _, result in all_drawn(DRAWN) if not isinstance(result, BadInput)]
    return tuple(map(as_json, (*named, *some(40), *drawn)))


@cache
def again():
    """(result, second calculation, play at typical sizes, whether the shaft passes, loads) of each."""
    found = []
    for result in results():
        one = Again(result)
        play, passes = one.play(one.typical)
        found.append((result, one, play, bool(passes), one.loads()))
    return found


def close(value):
    return pytest.approx(value, rel=1e-6, abs=2e-9)


def middle(q):
    return q.get("typical", q.get("value"))


def test_joints_of_every_kind_are_among_them():
    """Layouts, single and pair, straddle, clamped, out of line, measured, listed, in inches, and impossible ones."""
    seen = Counter()
    for file, result in all_drawn(DRAWN):
        if isinstance(result, BadInput):
            seen["refused as input"] += 1
            continue
        joint = result.joint
        seen["built" if result.stack else "not built"] += 1
        seen[joint.layout, "single" if joint.single else "pair"] += 1
        seen["straddle"] += joint.straddle
        seen["beyond bearing 1"] += (
            not joint.single and result.stack is not None and (joint.overhang or 0) < -joint.separation
        )
        seen["clamped"] += joint.clamped and result.stack is not None
        seen["arm between"] += joint.arm_between and result.stack is not None
        seen["out of line"] += bool(joint.offset)
        seen["measured"] += bool(joint.measured)
        seen["listed"] += joint.stack_ids is not None and result.stack is not None
        seen["inch"] += joint.kit.units == "in"
        seen["block"] += joint.body == "block"
        seen["no load"] += joint.radial == 0 and joint.axial == 0
        seen["crushing load"] += joint.radial > 1e4
        seen["bearings overlap"] += (
            joint.separation is not None
            and joint.separation < sum(result.inputs[f"width_{n}"].value for n in (1, 2)) / 2
        )
    assert len(results()) > 150 and seen["built"] > 60 and min(seen.values()) >= 2, seen
    assert len(seen) == 21, seen


def numbers(tree):
    if isinstance(tree, dict):
        tree = list(tree.values())
    if isinstance(tree, list):
        return [x for part in tree for x in numbers(part)]
    return [tree] if isinstance(tree, (int, float)) and not isinstance(tree, bool) else []


def test_json_is_plain_and_finite():
    """Every result is JSON without NaN or infinity, judged, in the fixed units, labels in order."""
    units = {"mm", "N", "MPa", "rad", "N·mm", "-"}
    for result in results():
        assert json.loads(json.dumps(result, allow_nan=False)) == result
        assert all(map(math.isfinite, numbers(result))) and result["verdicts"]
        assert result["state"] == result["verdicts"][0]["state"]
        for name, q in (result["quantities"] | result["inputs"]).items():
            assert q["unit"] in units, name
            if "least" in q:
                assert q["least"] <= q["typical"] <= q["most"], (result["id"], name)
        for name, q in result["quantities"].items():
            assert ("likely" in q) == ("least" in q), name
            if "likely" in q:
                low, high = q["likely"]
                span = 1e-9 * max(abs(q["least"]), abs(q["most"]), 1e-6)
                assert q["least"] - span <= low <= high <= q["most"] + span, (result["id"], name)


def test_only_quantities_that_apply_are_there():
    """The names of each result are those of the second calculation, no more and no fewer."""
    for result, one, play, passes, loads in again():
        numbers, bands = one.axial()
        expected = {*play, *loads, *one.leaning(play, loads), *numbers, *bands}
        expected |= {"lean"} if passes and not one.typical["offset"] else set()
        expected -= {"lean"} if not passes else set()
        assert set(result["quantities"]) - NOT_HERE == expected, result["title"]


def test_typical_values_of_free_play():
    """Clearances, closure, pressure, tilt, lean, travel, offset limit, cheeks and arm at typical sizes."""
    for result, one, play, passes, _ in again():
        for name, value in play.items():
            if name != "lean" or passes:
                assert middle(result["quantities"][name]) == close(float(value)), (result["title"], name)
        for n in one.numbers:
            if not one.ball(n) and "measured" not in one.given[f"bore_{n}"]:
                bore = one.typical[f"free_bore_{n}"] - play[f"closure_{n}"]
                assert one.typical[f"bore_{n}"] == close(float(bore))
        assert passes or any(v["about"] == "binds" for v in result["verdicts"])


def test_bands_of_free_play():
    """Least and most over the corners of all limits; where there are too many, corners drawn at random."""
    whole = 0
    for result, one, typical, passes, _ in again():
        sizes, every = one.corners()
        play, clear = one.play(sizes)
        for name, values in play.items():
            if name == "lean" and not passes:
                continue
            values = np.broadcast_to(values, np.shape(clear))[clear] if name == "lean" else np.ravel(values)
            values = np.append(values, typical[name])
            q = result["quantities"][name]
            if every and name != "lean":  # which may turn inside the box
                assert (q["least"], q["most"]) == (close(values.min()), close(values.max())), (
                    result["title"],
                    name,
                )
            slack = 2e-9 + 1e-6 * np.abs(values).max()
            assert q["least"] - slack <= values.min() and values.max() <= q["most"] + slack, name
        whole += every
    assert whole > 100


def test_sizes_inside_the_limits_stay_inside_the_bands():
    """Sizes drawn inside their limits, bores out of line included: nothing leaves its band."""
    rng, tried = np.random.default_rng(5), 0
    for result, one, _, passes, _ in again():
        if not one.typical["offset"]:
            continue
        sizes = dict(one.typical)
        for name, column in one.banded():
            sizes[column] = rng.uniform(one.given[name]["least"], one.given[name]["most"], 1000)
        play, clear = one.play(sizes)
        for name, values in play.items():
            if name == "lean" and not passes:
                continue
            values = np.broadcast_to(values, np.shape(clear))[clear] if name == "lean" else np.ravel(values)
            q = result["quantities"][name]
            turns = 0.15 if name == "lean" else 0.0  # found by points inside the box, so never quite whole
            slack = 2e-9 + 1e-6 * max(abs(q["least"]), abs(q["most"])) + turns * (q["most"] - q["least"])
            if len(values):
                assert q["least"] - slack <= values.min() and values.max() <= q["most"] + slack, (
                    result["title"],
                    name,
                )
        tried += 1
    assert tried > 20


def test_loads_and_the_bent_shaft():
    """Reactions, couple, moment, stress, deflection and slopes by statics and finite elements."""
    for result, one, play, _, loads in again():
        for name, value in (loads | one.leaning(play, loads)).items():
            found = middle(result["quantities"][name])
            assert found == pytest.approx(float(value), rel=2e-6, abs=1e-9), (result["title"], name)


def test_what_fills_the_screw():
    """End play, face tilt, thread room and nut grip from the thicknesses of the stack."""
    for result, one, *_ in again():
        numbers, bands = one.axial()
        for name, value in numbers.items():
            assert middle(result["quantities"][name]) == close(value), (result["title"], name)
        for name, values in bands.items():
            q = result["quantities"][name]
            assert [q["least"], q["typical"], q["most"]] == close(values), (result["title"], name)


def test_the_stack_lies_as_the_inputs_say():
    """Parts end to end from the head, bearings their separation apart, load plane and supports where they are."""
    for result in results():
        one = Again(result)
        if not one.stack:
            continue
        v, outside = one.typical, [row for row in one.stack if not row.get("within")]
        loose = 0.0 if one.clamped else result["quantities"]["end_play"]["typical"]
        assert outside[0]["from"] == close(loose)
        for row, after in zip(outside, outside[1:]):
            assert row["to"] == close(after["from"]) and after["touches_before"] == row["part"]
        middles = [(row["from"] + row["to"]) / 2 for row in one.kind("bearing")]
        assert len(middles) == len(one.numbers)
        if len(middles) == 2:
            assert middles[1] - middles[0] == close(v["separation"])
        plates = one.kind("plate")
        if one.layout == "A":
            assert len(plates) == 1 and [v["support_1"], v.get("support_2")][: len(middles)] == close(middles)
            assert (plates[0]["from"] + plates[0]["to"]) / 2 - middles[-1] == close(v["overhang"])
        elif one.layout == "B":
            assert len(plates) == 1 and plates[0]["from"] == close(v["fixed_at"]) and plates[0]["on"] == "thread"
        else:
            cheeks = [(row["from"] + row["to"]) / 2 for row in one.kind("cheek")]
            assert cheeks == close([v["support_1"], v["support_2"]])
            assert cheeks[0] < middles[0] and middles[-1] < cheeks[1]


def state(q, sense, limit):
    """Holds at its worst end, or with a fifth to spare; take care when only the typical value does."""
    ends = (q["least"], q["most"]) if "least" in q else (q["value"], q["value"])
    worst = ends[0] if sense == "least" else ends[1]
    spare = 0 if "least" in q else abs(limit) / 5
    ahead = (lambda x: x - limit) if sense == "least" else (lambda x: limit - x)
    if ahead(middle(q)) < 0:
        return "does not hold", worst
    return ("holds" if ahead(worst) >= spare else "take care"), worst


def test_verdicts_follow_from_the_quantities():
    """Each check that applies is judged once, by its quantity and limit; the worst stands first."""
    states = Counter()
    for result, one, play, passes, _ in again():
        expected = []
        for about, stem, sense, limit in CHECKS:
            for name, q in result["quantities"].items():
                if name == stem or name[:-2] == stem and name[-2:] in ("_1", "_2"):
                    wanted = limit(one, int(name[-1]) if name != stem else 0, play)
                    if wanted is not None:
                        judged, worst = state(q, sense, float(wanted))
                        expected.append((about, judged, worst, float(wanted)))
        if result["stack"]:
            share = result["quantities"]["chance_fits"]["value"]
            judged = "holds" if share >= 0.95 else "take care" if share >= 0.5 else "does not hold"
            expected.append(("end play", judged, share, 0.95))
        answered = ("buildable", "faces", "binds", "listed stack")
        found = [
            (v["about"], v["state"], v["number"], v["limit"])
            for v in result["verdicts"]
            if v["about"] not in answered
        ]
        assert [row[:2] for row in sorted(found)] == [row[:2] for row in sorted(expected)], result["title"]
        for one_found, one_expected in zip(sorted(found), sorted(expected)):
            assert one_found[2:] == close(one_expected[2:])
        order = ["does not hold", "take care", "holds"]
        ranks = [order.index(v["state"]) for v in result["verdicts"]]
        assert ranks == sorted(ranks)
        states.update((about, judged) for about, judged, *_ in expected)
        said = {v["about"]: v["state"] for v in result["verdicts"] if v["about"] in answered}
        assert ("binds" in said) == bool(one.typical["offset"])
        assert passes == (said.get("binds") != "does not hold")
        assert ("faces" in said) == bool(result["stack"]) and (result["stack"] or said["buildable"] == "does not hold")
    assert len(states) > 20


def test_a_listed_stack_is_the_stack_that_was_found():
    """Listing the parts that were found gives the same numbers; with one left out the end play is judged."""
    drawn = all_drawn(DRAWN)
    by_title = {}
    same = wrong = 0
    for file, result in drawn:
        if isinstance(result, BadInput) or not result.stack:
            continue
        if result.joint.stack_ids is None:
            by_title[file["title"]] = result
            continue
        found = by_title[file["title"]]
        listed = {v.about: v for v in result.verdicts}["listed stack"]
        if len(result.stack.placed) == len(found.stack.placed):
            assert result.quantities == found.quantities and listed.state == "holds", file["title"]
            same += 1
        else:
            low, high = result.stack.window
            assert (listed.state == "holds") == (low <= result.stack.end_play.typical <= high)
            wrong += listed.state == "does not hold"
    assert same > 10 and wrong > 5, (same, wrong)
