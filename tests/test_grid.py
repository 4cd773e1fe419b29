"""The worked joints of the demo: enough of every outcome, each with a way out, ids that last."""
import csv
import random
import re
import shutil
from collections import Counter, defaultdict
from dataclasses import replace
from pathlib import Path

import pytest
import yaml

from guidegen.errors import BadInput
from guidegen.joint import Worked, expand, neighbours
from guidegen.joint.near import AXES, axes
from guidegen.kit import lookup
from guidegen.kit.reader import read_course
from guidegen.kit.records import BallBearing, Nut, ShoulderScrew, SleeveBushing, Spacer, Washer

ID = re.compile(r"[a-z0-9-]{1,80}")
ROOT = Path(__file__).parent.parent
KEPT = [row["id"] for row in csv.DictReader((ROOT / "tests/kept_ids.csv").open(encoding="utf-8"))]
KITS = ("in38", "mix14", "mm8")
WITHOUT_BALLS = (6.5, 7.9375)  # mm: no ball bearing of the catalogue has a bore of 6.5 mm or 5/16 in


@pytest.fixture(scope="module")
def worked():
    return Worked(read_course(ROOT))


@pytest.fixture(scope="module")
def results(worked):
    return list(worked.results())


def test_every_outcome_occurs_for_several_reasons(results):
    """At least four different checks lead to each state; at least three in ten joints hold throughout."""
    reasons = defaultdict(set)
    for result in results:
        for verdict in result.verdicts:
            reasons[verdict.state].add(verdict.about)
    assert all(len(reasons[state]) >= 4 for state in ("holds", "take care", "does not hold")), reasons
    states = Counter(result.state for result in results)
    assert 10 * states["holds"] >= 3 * len(results)


def test_there_are_about_a_thousand_over_the_three_kits(results):
    """950 to 1,080 pages; every kit has each layout, pairs of each kind, single bearings and every outcome."""
    assert 950 <= len(results) <= 1080
    for kit in KITS:
        own = [result for result in results if result.joint.kit.id == kit]
        joints = [result.joint for result in own]
        assert len(own) >= 250
        assert {joint.layout for joint in joints} == {"A", "B", "C"}
        assert {True, False} == {joint.clamped for joint in joints} == {joint.single for joint in joints}
        assert any(joint.arm_between and joint.arm_bonded for joint in joints)
        assert any(joint.arm_between and not joint.arm_bonded for joint in joints)
        kinds = {tuple(sorted({type(bearing) for bearing in joint.bearings}, key=str)) for joint in joints}
        assert kinds >= {(SleeveBushing,), (BallBearing,), (Spacer,), (BallBearing, SleeveBushing)}
        assert {joint.housings[0].stock.kind for joint in joints} >= {"wood", "metal", "plastic", "print"}
        assert all(count >= 0.1 * len(own) for count in Counter(result.state for result in own).values())


def test_published_ids_are_kept(results):
    """The 328 joints of the first published guide still have their pages."""
    assert len(KEPT) == 328 and not set(KEPT) - {result.id for result in results}


def test_nearly_every_joint_has_neighbours(results):
    """A page leads on: all but a few differ from another page in one thing, half of them in three axes or more."""
    beside = neighbours(results)
    assert sum(not beside[result.id] for result in results) <= len(results) / 50
    assert 2 * sum(len({axis for axis, _ in beside[result.id]}) >= 3 for result in results) >= len(results)


def test_a_glued_arm_adds_no_play_of_its_own(results):
    """Beside each straddle joint with a loose arm that has a glued twin: the twin wobbles less, by the arm's own play."""
    by_id = {result.id: result for result in results}
    pairs = [(result, by_id[twin]) for result in results if (twin := result.id.replace("-a-", "-ag-")) in by_id
             and twin != result.id]
    assert len(pairs) >= 30
    for loose, glued in pairs:
        seen = [result.quantities["seen_tilt"].typical for result in (loose, glued)]
        assert seen[0] - seen[1] == pytest.approx(loose.quantities["arm_tilt"].typical)
        assert "arm_tilt" not in glued.quantities and "arm bonded on" in glued.joint.title


def test_what_does_not_hold_names_a_better_joint_or_what_was_tried(worked, results):
    """A way out is another worked joint in which this check is better and none fails."""
    by_id = {result.id: result for result in results}
    order = ("holds", "take care", "does not hold")
    for result in results:
        for verdict in result.verdicts:
            if verdict.counts_as == "holds":
                assert not verdict.instead and not verdict.tried
                continue
            assert bool(verdict.instead) != bool(verdict.tried), (result.id, verdict.about)
            if verdict.instead:
                other = by_id[verdict.instead]
                states = [v.counts_as for v in other.verdicts if v.about == verdict.about]
                assert other.state != "does not hold" and other.joint.radial >= result.joint.radial
                assert all(order.index(state) < order.index(verdict.state) for state in states)


def test_no_two_joints_are_alike_and_few_share_a_design(results):
    """Every joint differs from every other; at most twelve share pair, rings, screw, housing and layout."""
    every = [axes(result.joint) for result in results]
    assert len({tuple(one.values()) for one in every}) == len(results)
    alike = Counter(tuple(one[axis] for axis in ("pair", "rings", "screw", "housing")) + one["layout"][:1] for one in every)
    assert max(alike.values()) <= 12
    assert len({tuple(row.part for row in result.stack.placed) for result in results}) >= 30


def test_neighbours_differ_in_one_thing(results):
    """The axis that a neighbour names is the only one in which it differs."""
    beside = neighbours(results)
    for result in results:
        for axis, other in beside[result.id]:
            mine, theirs = axes(result.joint), axes(other.joint)
            assert [name for name in AXES if mine[name] != theirs[name]] == [axis]


def test_ids_are_plain_and_do_not_depend_on_the_order_of_data(worked, results):
    """Ids are lower-case and short; parts, stocks and kits read in another order give the same joints."""
    course = worked.course
    turned = course.model_copy(update={
        name: dict(reversed(getattr(course, name).items())) for name in ("parts", "stocks", "processes", "kits")})
    assert all(ID.fullmatch(result.id) for result in results)
    again = Worked(turned)
    assert [joint.id for joint in again.joints] == [result.id for result in results]
    some = [again.result(joint) for joint in again.joints[::20]]
    assert some == [replace(result, joint=one.joint) for result, one in zip(results[::20], some)]


def test_ids_do_not_depend_on_the_order_of_rows_and_series(worked, tmp_path):
    """Every row of every table, every line of kits, every series and every list in it in another order."""
    shutil.copytree(ROOT / "data", tmp_path / "data")
    shuffle = random.Random(7).shuffle
    for path in sorted((tmp_path / "data").rglob("*.csv")):
        head, units, *rows = path.read_text(encoding="utf-8").splitlines()
        shuffle(rows)
        path.write_text("\n".join([head, units, *rows]) + "\n", encoding="utf-8")
    for name in ("kits", "grid"):
        path = tmp_path / f"data/{name}.yaml"
        path.write_text(yaml.safe_dump(shuffled(yaml.safe_load(path.read_text(encoding="utf-8")), shuffle),
                                       sort_keys=False), encoding="utf-8")
    again, refused = expand(read_course(tmp_path))
    assert [joint.id for joint in again] == [joint.id for joint in worked.joints]
    assert refused == worked.refused
    assert [axes(joint) for joint in again] == [axes(joint) for joint in worked.joints]


def shuffled(data, shuffle):
    """The same mappings and lists in another order; the order of two bearings says which is nearest the head."""
    if isinstance(data, dict):
        keys = list(data)
        shuffle(keys)
        return {key: data[key] if key == "bearings" else shuffled(data[key], shuffle) for key in keys}
    if isinstance(data, list):
        data = [shuffled(one, shuffle) for one in data]
        shuffle(data)
    return data


PAIR = {"loads": ["20 N"], "edge": "18 mm", "screws": ["ss-8x50"], "standoffs": ["20 mm"],
        "housings": {"ply": {"stock": "birch-ply-6", "process": "laser"}},
        "pairs": [{"bearings": ["sb-8x12x8", "sb-8x12x8"], "fits": {"ply": "bonded"}}],
        "layouts": {"b": {"plate": {"stock": "aluminium-2", "process": "drill"}, "overhangs": ["10 mm"]}}}


def with_series(course, *series):
    grid = course.grid
    return course.model_copy(update={"grid": replace(grid, data={**grid.data, "series": list(series)})})


def test_two_joints_of_one_id_are_told(worked):
    """The same joint twice is one; another plate under the same address is a mistake in the file, with its line."""
    series = {"kit": "mm8", **PAIR}
    joints, refused = expand(with_series(worked.course, series, series))
    assert len(joints) == 1 and refused == {"same as another": 1}
    thicker = {**series, "layouts": {"b": {**PAIR["layouts"]["b"], "plate": {"stock": "steel-3", "process": "drill"}}}}
    for pair in ((series, thicker), (thicker, series)):
        with pytest.raises(BadInput) as told:
            expand(with_series(worked.course, *pair))
        (mistake,) = told.value.mistakes
        assert mistake.file == "data/grid.yaml" and re.fullmatch(r"line \d+", mistake.place)
        assert joints[0].id in mistake.found and "on_thread" in mistake.found and mistake.remedy


def test_no_more_than_twelve_alike_whatever_is_asked(worked):
    """Of twenty loads at one place the twelve lightest become pages; the others are counted."""
    many = {"kit": "mm8", **PAIR, "loads": [f"{n} N" for n in range(20, 0, -1)]}
    joints, refused = expand(with_series(worked.course, many))
    assert sorted(joint.radial for joint in joints) == list(range(1, 13))
    assert refused == {"more than twelve alike": 8}


def test_a_block_takes_the_standoff_as_the_wall_between_its_seats(worked):
    """Two 8 mm bushes with a 20 mm wall between them are 28 mm apart, in plates of any thickness or in a block."""
    plates = {"kit": "mm8", **PAIR}
    print_ = {**plates, "housings": {"pla": {"stock": "pla-block", "process": "print"}},
              "pairs": [{"bearings": ["sb-8x12x8", "sb-8x12x8"], "fits": {"pla": "press"}}]}
    block, thick = ({**print_, "body": "block"}, print_)
    apart = [expand(with_series(worked.course, series))[0][0].separation for series in (plates, block, thick)]
    assert apart == [28, 28, 36]  # 12 mm plates with bushes flush outside: 20 + 2 * (12 - 4)


def nominals():
    return sorted({screw.nominal for screw in read_course(ROOT).parts.values() if isinstance(screw, ShoulderScrew)})


@pytest.mark.parametrize("nominal", nominals(), ids=lambda nominal: f"{nominal:g} mm")
def test_every_shoulder_of_the_catalogue_serves_a_kit(nominal, tmp_path):
    """A course that edits counts alone: its own kit of this shoulder builds pairs of bushes and of ball bearings, in
    layouts a, b and c. Sizes without a ball bearing of their bore build bushes.
    """
    course = read_course(ROOT)
    parts = [part for part in course.parts.values() if goes_with(part, nominal, course)]
    bushes = [part for part in parts if isinstance(part, SleeveBushing)]
    balls = [part for part in parts if isinstance(part, BallBearing)]
    screws = sorted((p for p in parts if isinstance(p, ShoulderScrew)), key=lambda s: s.shoulder_length.typical)[-2:]
    assert bushes and bool(balls) == (round(nominal, 4) not in WITHOUT_BALLS)
    shutil.copytree(ROOT / "data", tmp_path / "data")
    (tmp_path / "data/kits.yaml").write_text(yaml.safe_dump(
        {"own": {"title": "Our own kit", "units": "mm", "parts": {part.id: 4 for part in parts}}}))
    series = {"kit": "own", "loads": ["10 N"], "edge": "20 mm", "screws": [screw.id for screw in screws],
              "standoffs": ["5 mm", "10 mm", "15 mm"],
              "housings": {"ply": {"stock": "birch-ply-3", "process": "laser"}},
              "pairs": [{"bearings": [part.id] * 2, "fits": {"ply": "bonded"}} for part in (*bushes[:1], *balls[:1])],
              "layouts": {"a": {"plate": {"stock": "steel-1", "process": "drill"}, "after": [[]]},
                          "b": {"plate": {"stock": "steel-1", "process": "drill"}, "overhangs": ["8 mm"]},
                          "c": {"plate": {"stock": "aluminium-2", "process": "drill"}, "overhangs": ["0 mm"]}}}
    (tmp_path / "data/grid.yaml").write_text(yaml.safe_dump(
        {"arm": "100 mm", "axial": "1 N", "shock": 1.5, "gap_tolerance": "0.1 mm", "series": [series]}))
    shutil.rmtree(tmp_path / "data/joints")
    joints, _ = expand(read_course(tmp_path))
    built = {(type(joint.bearings[0]), joint.layout) for joint in joints}
    assert built == {(kind, layout) for kind in (SleeveBushing, *[BallBearing] * bool(balls)) for layout in "ABC"}
    assert all(ID.fullmatch(joint.id) for joint in joints)


def goes_with(part, nominal, course):
    """Whether a part goes on shoulder screws of this nominal diameter: on the shoulder, or on the thread."""
    screws = [one for one in course.parts.values() if isinstance(one, ShoulderScrew) and one.nominal == nominal]
    thread = lookup.thread(screws[0].thread)
    match part:
        case Nut():
            return part.thread == thread.id
        case Washer(kind="large"):
            return all(0 <= part.hole.least - screw.shoulder_diameter.most for screw in screws) and (
                part.hole.typical - nominal <= 1.2)
        case Washer():
            return thread.diameter <= part.hole.least and all(
                part.hole.most < screw.shoulder_diameter.least for screw in screws)
    return part.nominal == nominal


def test_refused_combinations_are_counted_by_reason(worked):
    """What the kit cannot build is not silently left out."""
    assert worked.refused.total() > 0
    assert all(reason and count > 0 for reason, count in worked.refused.items())
