"""Worked joints beside one another: neighbours that differ in one thing, and what would make a joint hold."""

from collections import Counter
from dataclasses import replace
from functools import cached_property
from typing import Iterable, Iterator

from guidegen.joint.evaluate import evaluate
from guidegen.joint.grid import expand
from guidegen.joint.records import STATES, Joint, Result
from guidegen.kit.records import Course

AXES = ("pair", "rings", "screw", "housing", "layout", "separation", "overhang", "load")
DUTY = ("place", "axial", "shock", "direction", "arm", "motion")  # beside the load across, which may be more
NEAREST = 100  # worked joints that are tried for a better one
GIVEN_UP = {
    "layout": 9,
    "pair": 3,
    "housing": 2,
}  # what a student gives up last counts most; the rest counts 1


def axes(joint: Joint) -> dict:
    """What tells one worked joint from another, by axis."""
    return {
        "pair": tuple(b.id for b in joint.bearings),
        "rings": joint.rings,
        "screw": joint.shaft.id,
        "housing": (joint.body, *((h.stock.id, h.process.id, h.fit) for h in joint.housings)),
        "layout": (joint.layout, joint.arm_between, joint.arm_bonded),
        "separation": round(joint.separation or 0.0, 2),
        "overhang": round(joint.overhang or 0.0, 2),
        "load": joint.radial,
    }


def neighbours(results: Iterable[Result]) -> dict[str, list[tuple[str, Result]]]:
    """For each joint's id, the (axis, result) pairs that differ in that axis alone, one step away."""
    results = list(results)
    found = {result.id: [] for result in results}
    for axis in AXES:
        lines: dict[tuple, list[Result]] = {}
        for result in results:
            others = tuple(sorted((k, v) for k, v in axes(result.joint).items() if k != axis))
            lines.setdefault((result.joint.kit.id, others), []).append(result)
        for line in lines.values():
            line.sort(key=lambda r: (_along(r.joint, axis), r.id))
            for before, after in zip(line, line[1:]):
                found[after.id].append((axis, before))
                found[before.id].append((axis, after))
    return found


def _along(joint, axis):
    return joint.shaft.shoulder_length.typical if axis == "screw" else axes(joint)[axis]


class Worked:
    """The worked joints of a course, each evaluated once, and searched for the nearest that is better."""

    def __init__(self, course: Course):
        self.course = course
        self._results: dict[tuple[str, str], Result] = {}

    @cached_property
    def _expanded(self):
        return expand(self.course)

    @property
    def joints(self) -> list[Joint]:
        """The joints of the grid that can be built, by id."""
        return self._expanded[0]

    @property
    def refused(self) -> Counter:
        """How many combinations of the grid cannot be built, by reason."""
        return self._expanded[1]

    @cached_property
    def _axes(self):
        return [axes(joint) for joint in self.joints]

    def results(self) -> Iterator[Result]:
        """The result of every worked joint, by id."""
        return (self.result(joint) for joint in self.joints)

    def result(self, joint: Joint) -> Result:
        """What happens in a joint, of the grid or of a file.

        Each check that does not hold carries the id of the nearest worked joint that is better there: the
        check is in a better state and none fails. Only joints of the same kit that carry at least the same
        load count, each looked at where the joint asked about stands, put to its motion, arm and load along
        the screw; where none is better, the verdict says how many were tried.
        """
        result = self._evaluated(joint)
        if result.state == "holds":
            return result
        ranked = self._nearest(joint)
        return replace(result, verdicts=tuple(self._mended(verdict, ranked) for verdict in result.verdicts))

    def _evaluated(self, joint):
        if joint.after_parts is None:  # of a file: its id may be that of a worked joint
            return evaluate(joint, self.course)
        key = joint.id, joint.place.id, joint.axial, joint.shock, joint.direction, joint.arm, joint.motion
        if key not in self._results:
            self._results[key] = evaluate(joint, self.course)
        return self._results[key]

    def _mended(self, verdict, ranked):
        if verdict.counts_as == "holds":
            return verdict
        for ways in ranked:
            if all(_better(self._evaluated(joint), verdict) for joint in ways):
                return replace(verdict, instead=ways[0].id)
        count = len(ranked)
        tried = f"None of the {count} nearest worked joints of this kit that carry this load is better here."
        return replace(verdict, tried=tried)

    def _nearest(self, asked: Joint) -> list[tuple[Joint, ...]]:
        """Comparable joints, each at its own duty and at this joint's; those with the least given up first.

        Then by distance of bearings and load.
        """
        mine = axes(asked)
        ranked = []
        for joint, theirs in zip(self.joints, self._axes):
            if (
                joint.id == asked.id
                or joint.radial < asked.radial
                or asked.kit is not None
                and joint.kit.id != asked.kit.id
            ):
                continue
            given_up = sum(GIVEN_UP.get(axis, 1) for axis in AXES if theirs[axis] != mine[axis])
            moved = abs(theirs["separation"] - mine["separation"]) + abs(
                theirs["overhang"] - mine["overhang"]
            )
            ranked.append((given_up, moved, joint.id, joint))
        nearest = sorted(ranked, key=lambda row: row[:3])[:NEAREST]
        return [tuple(_put_to(joint, asked, of) for of in (("place",), DUTY)) for *_, joint in nearest]


def _put_to(joint: Joint, asked: Joint, what: tuple[str, ...]) -> Joint:
    return replace(joint, **{of: getattr(asked, of) for of in what})


def _better(other: Result, verdict) -> bool:
    """Whether a joint holds, and this check does better in it."""
    same = [STATES.index(v.counts_as) for v in other.verdicts if v.about == verdict.about]
    return other.state != "does not hold" and max(same, default=0) < STATES.index(verdict.state)
