"""One joint with each kind of bearings, tried under stated loads and motions: for choosing and charts."""

from dataclasses import dataclass, replace
from math import floor, log10, pi
from typing import Iterable, Mapping

from guidegen.guide.kinds import Kind, kinds_of, like_joints
from guidegen.guide.pairs import Group
from guidegen.joint import evaluate
from guidegen.joint.records import Joint, Motion, Result
from guidegen.kit.records import Course, Kit

SWING, RATE, SPEED, HOURS = pi / 3, 6 / 60, 30 / 60, 200.0  # rad there and back, 1/s, turns a second, h
MOTIONS = {
    "swing": Motion("swing", angle=SWING, rate=RATE, hours=HOURS),
    "turn": Motion("turn", rate=SPEED, hours=HOURS),
}
KNOCK = 3.0  # shock factor of a drop from the bench (common practice)
WORN = "arm_play_1e5"  # wobble after so many swings or turns
LOADS = ("light", "medium", "heavy")
LEAST_RANGE = 4.0  # heavy over light, at least
MOST_KINDS = 5  # as many as a chart has lines


@dataclass(frozen=True)
class Tried:
    """One kind of bearings in the joint that all kinds share, and what happens there in each trial."""

    kind: Kind
    joint: Joint  # as tried, under the load of the worked joint it is modelled on
    nearest: Result  # the worked joint with these bearings that comes nearest to it
    trials: Mapping[tuple[str, str], Result]  # by names of load and motion


@dataclass(frozen=True)
class KitTrials:
    """The kinds of pairs of a kit at like joints, and the radial loads, N, under which they are tried."""

    kit: Kit
    loads: Mapping[str, float]
    tried: tuple[Tried, ...]


def kit_trials(kits: Iterable[Kit], made: list[Group], course: Course) -> list[KitTrials]:
    """Every kind of pair of every kit under each load and motion, with the knock of a drop."""
    found = []
    for kit in kits:
        kinds = kinds_of(made, kit.id)
        likes = like_joints(kinds, course)[:MOST_KINDS]
        if likes:
            loads = _loads(result.joint.radial for kind in kinds for g in kind.groups for result in g.worked)
            tried = tuple(
                Tried(like.kind, like.joint, like.nearest, _trials(like.joint, loads, course))
                for like in likes
            )
            found.append(KitTrials(kit, loads, tried))
    return found


def _loads(worked: Iterable[float]) -> dict[str, float]:
    """Least and greatest load of the kit's worked joints, and a round one between."""
    worked = sorted(worked)
    light, heavy = worked[0], max(worked[-1], LEAST_RANGE * worked[0])
    middle = (light * heavy) ** 0.5
    return dict(zip(LOADS, (light, round(middle, -floor(log10(middle))), heavy)))


def _trials(joint, loads, course):
    return {
        (load, motion): evaluate(
            replace(joint, id=f"{joint.id}-{load}-{motion}", radial=loads[load], shock=KNOCK, motion=moves),
            course,
        )
        for load in loads
        for motion, moves in MOTIONS.items()
    }
