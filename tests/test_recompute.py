"""Every number and verdict of whole results against a second calculation that reads their JSON alone."""

import json
import math
import random
from collections import Counter
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from joint_reference import course, some
from moving_joints import all_moving, unsaid
from moving_reference import DECADES, Moving

from guidegen.errors import BadInput
from guidegen.joint import as_json, evaluate, make_joint
from guidegen.joint.records import Motion

DRAWN = 240
# What a joint is judged by: verdict, quantity, "least" or "most", the limit; from the design of the checks.
CHECKS = (
    ("goes together", "fit", "least", lambda v, n, more: 0.0),
    ("goes together", "passing_room", "least", lambda v, n, more: 0.0),
    ("preload", "preload_margin", "least", lambda v, n, more: 0.0),
    ("wobble", "seen_tilt", "most", lambda v, n, more: 1.0 / (2 * 100.0)),
    ("lean", "lean_under_load", "most", lambda v, n, more: v.lean_limit(n, v.new)),
    ("hole", "chance_right", "least", lambda v, n, more: 0.5),
    ("offset", "offset_limit", "least", lambda v, n, more: abs(v.typical["offset"]) or None),
    ("shaft yield", "yield_factor", "least", lambda v, n, more: 1.5),
    ("shaft fatigue", "endurance_factor", "least", lambda v, n, more: 1.5),
    ("thread room", "thread_room", "least", lambda v, n, more: v.typical["pitch"]),
    ("nut grip", "nut_engaged", "least", lambda v, n, more: 0.8 * v.typical["thread_diameter"]),
    ("static", "static_factor", "least", lambda v, n, more: 2.0),
    ("thrust", "thrust", "most", lambda v, n, more: v.thrust_limit() if v.balls else None),
    ("life", "life_hours", "least", lambda v, n, more: v.hours or None),
    ("wear", "wear_cycles", "least", lambda v, n, more: v.rate * v.hours * 3600 or None),
    ("clamp", "clamp_given", "least", lambda v, n, more: more.get("clamp_needed")),
    ("seat", "seat_pressure", "most", lambda v, n, more: v.typical["seat_limit"]),
    ("clamp torque", "clamp_torque", "least", lambda v, n, more: more["start_torque"]["most"]),
    ("start force", "start_force", "most", lambda v, n, more: 1.0 * 100.0 / v.typical["arm"]),
)
CEILINGS = (("pressure", "pressure"), ("speed", "sliding_speed"), ("pressure times speed", "pv"))
FALSE_BRINELLING = math.radians(5)  # "a few degrees": a public manual of ball bearings
CHANCES = ("loose", "right", "cracked", "closed", "strained", "goes_in")
WEATHER = ("cold", "hot", "damp")
PRESSED = (  # test_pressing.py, test_warming.py
    *("push_force", "holding_torque", "press_pressure_later", "hub_stress_later", "holding_torque_later"),
    *("hold_factor", "hold_factor_later", "edge_ratio"),
    *(f"{name}_{when}" for name in ("clearance", "interference") for when in WEATHER),
)
NOT_HERE = {  # tested elsewhere
    *("cost", "mass", "ring_mismatch", "passing_room"),
    *("drawn_hole_1", "drawn_hole_2", "chance_pinched", "chance_fits", "chance_proud", "chance_binds", "chance_binds_in_line"),
    *("chance_lasting_1", "chance_lasting_2"),
    *(f"chance_{name}_{n}" for name in CHANCES for n in (1, 2)),
    *(f"{name}_{n}" for name in PRESSED for n in (1, 2)),
    *("end_play_cold", "end_play_hot", "end_play_damp", "metals_apart"),
}


UPKEEP = {"rust", "galvanic", "exposure"}


@cache
def found():
    """All named joints, sixty worked ones put in motion, and the drawn ones, evaluated."""
    named = [make_joint(course(), raw, id) for id, raw in course().joints.items()]
    named += [
        replace(one.joint, motion=moves(n), direction=("fixed", "turning")[n // 2 % 2])
        for n, one in enumerate(some(60))
    ]
    drawn = [result for _, result in all_moving(DRAWN) if not isinstance(result, BadInput)]
    return (*(evaluate(joint, course()) for joint in named), *drawn)


def moves(seed):
    """Motions of each kind by turns: a swing, turning, by hand."""
    rng = random.Random(seed)
    angle, rate, hours = rng.uniform(0.1, 6.2), rng.uniform(0.02, 20), rng.choice([0, rng.uniform(1, 5000)])
    kinds = Motion("swing", angle, rate, hours), Motion("turn", 0.0, rate, hours), Motion("hand")
    return kinds[seed // 4 % 3]


@cache
def results() -> tuple[dict, ...]:
    """Their JSON."""
    return tuple(map(as_json, found()))


@cache
def again():
    """(result, second calculation, play at typical sizes, whether the shaft passes, loads) of each."""
    pairs = []
    for result, one in zip(results(), found()):
        second = Moving(result, unsaid(one.joint))
        pairs.append((result, second, second.new, bool(second.passes), second.loads()))
    return pairs


@cache
def under_load():
    """(result, second calculation, numbers of its loaded and moving bearings, screw and clamp)."""
    return [
        (result, one, one.rolling() | one.sliding() | one.strength(loads))
        for result, one, _, _, loads in again()
        if loads
    ]


def close(value):
    return pytest.approx(value, rel=1e-6, abs=2e-9)


def middle(q):
    return q.get("typical", q.get("value"))


def test_joints_of_every_kind_are_among_them():
    """Layouts, single and pair, straddle, clamped, out of line, measured, listed, in inches, and impossible ones."""
    seen = Counter()
    for file, result in all_moving(DRAWN):
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
        seen[joint.kit.id] += 1
        seen["block"] += joint.body == "block"
        seen["no load"] += joint.radial == 0 and joint.axial == 0
        seen["thrust alone"] += joint.radial == 0 and joint.axial > 0
        seen["crushing load"] += joint.radial > 3e3
        seen[joint.motion.kind, joint.direction] += 1
        seen["large swing"] += joint.motion.angle >= np.pi
        seen["slow"] += joint.motion.kind == "turn" and joint.motion.rate < 1 / 6
        seen["wanted for no time"] += joint.motion.kind != "hand" and not joint.motion.hours
        seen["a bush and a ball bearing"] += len({hasattr(b, "balls") for b in joint.bearings}) == 2
        seen["bearings overlap"] += (
            joint.separation is not None
            and joint.separation < sum(result.inputs[f"width_{n}"].value for n in (1, 2)) / 2
        )
    assert len(results()) > 300 and seen["built"] > 120 and min(seen.values()) >= 2, seen
    assert len(seen) == 34, seen


def numbers(tree):
    if isinstance(tree, dict):
        tree = list(tree.values())
    if isinstance(tree, list):
        return [x for part in tree for x in numbers(part)]
    return [tree] if isinstance(tree, (int, float)) and not isinstance(tree, bool) else []


def test_json_is_plain_and_finite():
    """Every result is JSON without NaN or infinity, judged, in the fixed units, labels in order."""
    units = {"mm", "N", "MPa", "rad", "N·mm", "-", "m/s", "MPa·m/s", "h", "10⁶", "1/s", "mm²", "mm²/N", "EUR", "g", "K", "1/K", "V"}
    for result in results():
        assert json.loads(json.dumps(result, allow_nan=False)) == result
        assert all(map(math.isfinite, numbers(result))) and result["verdicts"]
        counted = [v["state"] for v in result["verdicts"] if not (v.get("upkeep") and v["state"] == "take care")]
        assert result["state"] == counted[0] and {v["about"] for v in result["verdicts"] if v.get("upkeep")} == UPKEEP
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
    moved = {id(one): {*numbers} | names_with_bands(one) for _, one, numbers in under_load()}
    for result, one, play, passes, loads in again():
        numbers, bands = one.axial()
        expected = {*play, *loads, *one.leaning(play, loads), *numbers, *bands, *moved.get(id(one), ())}
        expected |= {"lean"} if passes and not one.typical["offset"] else set()
        expected -= {"lean"} if not passes else set()
        assert set(result["quantities"]) - NOT_HERE == expected, result["title"]


def names_with_bands(one):
    """Names of what a load and a motion bring that has a band."""
    names = {"start_torque", "run_torque", "start_force"}
    names |= {"clamp_given", "seat_pressure", "clamp_torque"} if "clamped_face" in one.given else set()
    names |= {"arm_slip_torque"} if "arm_friction" in one.given else set()
    if one.wears():
        cycles, _ = one.worn(one.new, one.typical, one.wear_rates("typical"))
        if cycles is not None:
            names |= {"wear_cycles", *(f"arm_play_1e{power}" for power in one.decades())}
    return names


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


def test_ratings_pressures_and_strength():
    """Static factor, life, pressure, speed, wear wanted, shear, fatigue, clamp and yield, from the JSON alone."""
    seen = Counter()
    for result, one, numbers in under_load():
        for name, value in numbers.items():
            found = middle(result["quantities"].get(name, {"value": math.nan}))
            assert found == pytest.approx(float(value), rel=2e-6, abs=1e-12), (result["title"], name)
            seen[name.removesuffix("_1").removesuffix("_2")] += 1
    assert len(seen) == 15 and min(seen.values()) >= 4, seen


def test_torque_to_turn():
    """Least, typical and most to start and to run: the worse sense of the couple, never both at once."""
    for result, one, _ in under_load():
        for prefix, name in (("start_", "start_torque"), ("", "run_torque")):
            q = result["quantities"][name]
            expected = pytest.approx(one.torques(prefix), rel=1e-6, abs=1e-9)
            assert [q["least"], q["typical"], q["most"]] == expected, (result["title"], name)
        force = [end / one.typical["arm"] for end in one.torques("start_")]
        q = result["quantities"]["start_force"]
        assert [q["least"], q["typical"], q["most"]] == pytest.approx(force, rel=1e-6, abs=1e-12)


def test_what_the_nut_holds():
    """Clamp force kept, pressure on the seat and torque passed on, over nut factor and loss."""
    clamped = 0
    for result, one, _ in under_load():
        if "clamped_face" in one.given:
            for name, ends in one.clamp_ends().items():
                q = result["quantities"][name]
                found = [q["least"], q["typical"], q["most"]]
                assert found == pytest.approx(ends, rel=1e-6), (result["title"], name)
            clamped += 1
    assert clamped > 60


def test_wear_and_worn_wobble():
    """Cycles until a bush is worn and travel at the arm after many: typical, and over every corner."""
    whole = worn_through = 0
    for result, one, _ in under_load():
        if not one.wears() or "wear_cycles" not in result["quantities"]:
            continue
        q, kept = result["quantities"], one.decades()
        worn_through += len(kept) < len(DECADES)
        cycles, travel = one.worn(one.new, one.typical, one.wear_rates("typical"))
        assert q["wear_cycles"]["typical"] == close(float(cycles)), result["title"]
        for power in kept:
            assert q[f"arm_play_1e{power}"]["typical"] == close(float(travel(10**power))), result["title"]
        sizes, every = one.corners()
        if not every:
            continue
        rooms, _ = one.play(sizes)
        ends = {end: one.worn(rooms, sizes, one.wear_rates(end)) for end in ("least", "most")}
        expected = {"wear_cycles": (np.min(ends["most"][0]), np.max(ends["least"][0]))}
        for power in kept[::4]:
            expected[f"arm_play_1e{power}"] = tuple(
                pick(ends[end][1](10**power)) for pick, end in ((np.min, "least"), (np.max, "most"))
            )
        for name, (least, most) in expected.items():
            found = q[name]["least"], q[name]["most"]
            assert found == (close(least), close(most)), (result["title"], name)
        whole += 1
    assert whole > 25 and worn_through > 10, (whole, worn_through)


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
        one = Moving(result)
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


def below_ceiling(value, design, ceiling):
    """Holds up to the design value, take care up to the ceiling; which of both is passed is the limit."""
    if value > ceiling:
        return "does not hold", value, ceiling
    return ("holds" if value <= design else "take care"), value, design


def measured_checks(result, one, numbers):
    """(about, state, number, limit) of every check of a quantity that applies."""
    for about, stem, sense, limit in CHECKS:
        for name, q in result["quantities"].items():
            if name == stem or name[:-2] == stem and name[-2:] in ("_1", "_2"):
                wanted = limit(one, int(name[-1]) if name != stem else 0, result["quantities"] | numbers)
                if wanted is not None:
                    judged, worst = state(q, sense, float(wanted))
                    yield about, judged, worst, float(wanted)
    for about, stem in CEILINGS:
        for name, q in result["quantities"].items():
            if name == stem or name[:-2] == stem:
                at = [int(name[-1])] if name != stem else one.bushes
                ends = [
                    min(one.typical[f"{stem}_{end}_{n}"] for n in at) for end in ("design", "ceiling")
                ]
                yield about, *below_ceiling(q["value"], *ends)
    for about, name in (("end play", "chance_fits"), ("clamped stack", "chance_proud")):
        if name in result["quantities"]:
            share = result["quantities"][name]["value"]
            judged = "holds" if share >= 0.95 else "take care" if share >= 0.5 else "does not hold"
            yield about, judged, share, 0.95


def answered_checks(result, one):
    """(about, state) of every yes/no check of loaded and moving bearings that applies, and of a fork's arm."""
    if one.layout == "C" and one.stack:
        hub = next(n for n, row in enumerate(one.stack) if row["part"] == "hub")
        within = [row for row in one.stack[hub + 1 :] if row["to"] <= one.stack[hub]["to"] + 1e-9]
        at = (within[-1]["from"] + within[-1]["to"]) / 2 + one.typical["overhang"]
        frame = [row for row in one.stack if row["turns_with"] == "frame"]
        inside = frame[0]["to"] - 1e-6 <= at <= frame[-1]["from"] + 1e-6
        yield "arm room", "holds" if inside else "take care"
    if "chance_binds_in_line" in result["quantities"]:  # test_holing.py
        often = result["quantities"]["chance_binds_in_line"]["value"] > 0.5
        yield "bores in line", "take care" if often else "holds"
    if "overhang" not in one.given:
        return
    if one.balls:
        if any(map(one.has_no_life, one.balls)):
            yield "life", "does not hold"
        if one.motion == "swing":
            yield "swing", "holds" if one.angle >= FALSE_BRINELLING else "take care"
        sizes, _ = one.corners()
        held = [one.rings_held(play) for play in (one.new, one.play(sizes)[0])]
        yield "ring creep", "holds" if all(held) else "take care" if held[0] else "does not hold"
    if "arm_friction" in one.given:
        grip = {end: one.grip(end) for end in ("least", "typical")}
        start = result["quantities"]["start_torque"]
        typical = grip["typical"] >= start["typical"] or one.typical["axial"] > 0
        always = grip["least"] >= start["most"]
        yield "arm on the shoulder", "holds" if always else "take care" if typical else "does not hold"
    if one.bushes and one.alone_with():
        off = one.alone_with() / (one.worst(1) * one.typical["length_1"]) if one.worst(1) else math.inf
        yield "edge", "holds" if off <= 1 / 6 else "take care"


def test_room_of_the_shoulder_in_holes_beside_the_bearings():
    """In cheeks and in an arm that slides: the smaller hole less the shoulder, from the inputs alone; else none."""
    seen = 0
    for result, *_ in again():
        inputs = result["inputs"]
        names = [name for name in ("cheek_hole", "arm_hole") if name in inputs]
        assert ("passing_room" in result["quantities"]) == bool(names), result["title"]
        for name in names:
            hole, shaft, room = inputs[name], inputs["shaft_diameter"], result["quantities"]["passing_room"]
            ends = [value if isinstance(value, dict) else None for value in (hole, shaft)]
            assert all(ends) and room["typical"] == pytest.approx(hole["typical"] - shaft.get("typical", shaft.get("value")))
            assert room["least"] == pytest.approx(hole["least"] - shaft.get("most", shaft.get("value")))
            assert room["most"] == pytest.approx(hole["most"] - shaft.get("least", shaft.get("value")))
            seen += 1
    assert seen > 3


def test_verdicts_follow_from_the_quantities():
    """Each check that applies is judged once, by its quantity and limit; the worst stands first."""
    states, moved = Counter(), {id(one): numbers for _, one, numbers in under_load()}
    elsewhere = {"buildable", "faces", "binds", "listed stack"}
    elsewhere |= {"press holds", "crack now", "crack later", "bush spins", "held", "edge distance", "heat", "water"}
    elsewhere |= UPKEEP
    for result, one, play, passes, _ in again():
        expected = [*measured_checks(result, one, moved.get(id(one), {}))]
        expected += [(*row, None, None) for row in answered_checks(result, one)]
        found = [
            (v["about"], v["state"], v["number"], v["limit"])
            for v in result["verdicts"]
            if v["about"] not in elsewhere
        ]
        order = lambda row: (*row[:2], row[2] or 0, row[3] or 0)  # noqa: E731
        found, expected = sorted(found, key=order), sorted(expected, key=order)
        assert [row[:2] for row in found] == [row[:2] for row in expected], result["title"]
        for one_found, one_expected in zip(found, expected):
            assert (one_found[2] is None) == (one_expected[2] is None)
            if one_found[2] is not None:
                assert one_found[2:] == close(one_expected[2:]), (result["title"], one_found)
        order = ["does not hold", "take care", "holds"]
        ranks = [order.index(v["state"]) for v in result["verdicts"] if v["about"] not in UPKEEP]
        assert ranks == sorted(ranks)
        states.update((about, judged) for about, judged, *_ in expected)
        said = {v["about"]: v["state"] for v in result["verdicts"] if v["about"] in elsewhere}
        assert ("binds" in said) == bool(one.typical["offset"])
        assert passes == (said.get("binds") != "does not hold")
        assert ("faces" in said) == bool(result["stack"])
        assert result["stack"] or said["buildable"] == "does not hold"
    assert len(states) > 50, states


def test_inputs_say_all_that_the_second_calculation_needs():
    """Motion, neck and diameter series stand among the inputs where they count."""
    for result, one, numbers in under_load():
        wanted = {"motion"}
        wanted |= {"rate", "hours"} if one.motion != "hand" else set()
        wanted |= {"swing_angle"} if one.motion == "swing" else set()
        wanted |= {"neck_fillet"} if "neck_stress" in numbers and one.said["neck_fillet"] else set()
        wanted |= {f"diameter_series_{n}" for n in one.balls if one.typical[f"bore_{n}"] > 12.0}
        assert wanted <= set(one.given), result["title"]


def test_a_listed_stack_is_the_stack_that_was_found():
    """Listing the parts that were found gives the same numbers; with one left out the end play is judged."""
    drawn = all_moving(DRAWN)
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
            assert (listed.state == "holds") == (low <= result.stack.at_typical <= high)
            wrong += listed.state == "does not hold"
    assert same > 10 and wrong > 5, (same, wrong)
