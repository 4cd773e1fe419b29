"""The worked joints of the demo: enough of every outcome, each with a way out, ids that last."""
import re
from collections import Counter, defaultdict
from dataclasses import replace
from pathlib import Path

import pytest

from guidegen.joint import Worked, neighbours
from guidegen.joint.near import AXES, axes
from guidegen.kit.reader import read_course

ID = re.compile(r"[a-z0-9-]{1,80}")


@pytest.fixture(scope="module")
def worked():
    return Worked(read_course(Path(__file__).parent.parent))


@pytest.fixture(scope="module")
def results(worked):
    return list(worked.results())


def test_every_outcome_occurs_for_several_reasons(results):
    """At least four different checks lead to each state; at least a third of the joints hold throughout."""
    reasons = defaultdict(set)
    for result in results:
        for verdict in result.verdicts:
            reasons[verdict.state].add(verdict.about)
    assert all(len(reasons[state]) >= 4 for state in ("holds", "take care", "does not hold")), reasons
    states = Counter(result.state for result in results)
    assert 3 * states["holds"] >= len(results) >= 300


def test_what_does_not_hold_names_a_better_joint_or_what_was_tried(worked, results):
    """A way out is another worked joint in which this check is better and none fails."""
    by_id = {result.id: result for result in results}
    order = ("holds", "take care", "does not hold")
    for result in results:
        for verdict in result.verdicts:
            if verdict.state == "holds":
                continue
            assert bool(verdict.instead) != bool(verdict.tried), (result.id, verdict.about)
            if verdict.instead:
                other = by_id[verdict.instead]
                states = [v.state for v in other.verdicts if v.about == verdict.about]
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


def test_refused_combinations_are_counted_by_reason(worked):
    """What the kit cannot build is not silently left out."""
    assert worked.refused.total() > 0
    assert all(reason and count > 0 for reason, count in worked.refused.items())
