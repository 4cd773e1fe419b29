"""Kinds of bearings in a kit, and one joint for all of them: alike in everything but the bearings."""

from collections import Counter
from dataclasses import replace
from statistics import median
from typing import Iterable, NamedTuple

from guidegen.guide.pairs import Group
from guidegen.joint import evaluate
from guidegen.joint.records import Joint, Result
from guidegen.joint.words import pair_words
from guidegen.kit.records import Course

FIRST = (  # kinds that stand in the same order, and have the same line on charts, in every kit
    "two bronze bushings",
    "two ball bearings, rings loose",
    "two ball bearings, rings clamped",
    "two nylon bushings",
    "bronze bushing and ball bearing",
)
OTHER_HOUSING, OTHER_SCREW = 10.0, 3.0  # mm of distance that make up for another housing, another screw
# Fit and kind of stock that suit bronze, rings and nylon alike: nothing sticks to nylon, and metal keeps its
# size, so that what differs is the bearings' own (common practice).
SUITS_ALL = "press", "metal"


class Kind(NamedTuple):
    """Groups of joints whose bearings go by the same words, the one with most worked joints first."""

    words: str
    groups: tuple[Group, ...]

    @property
    def single(self) -> bool:
        return self.groups[0].first.single


def kinds_of(made: Iterable[Group], kit: str) -> list[Kind]:
    """The kinds of bearings in a kit: pairs before single ones, those of every kit before others."""
    found: dict[str, list[Group]] = {}
    for group in made:
        if group.kit == kit:
            found.setdefault(pair_words(group.first), []).append(group)
    for groups in found.values():
        groups.sort(key=lambda group: -len(group.worked))
    kinds = [Kind(words, tuple(groups)) for words, groups in found.items()]
    order = {words: place for place, words in enumerate(FIRST)}
    return sorted(
        kinds,
        key=lambda kind: (
            kind.single,
            order.get(kind.words, len(order)),
            -len(kind.groups[0].worked),
            kind.words,
        ),
    )


class Like(NamedTuple):
    """A kind of pair at the joint that all kinds of a kit share, and the worked joint that comes nearest."""

    kind: Kind
    joint: Joint
    nearest: Result


def like_joints(kinds: Iterable[Kind], course: Course) -> list[Like]:
    """The same joint with each kind of pair of a kit: nothing differs but bearings and what fills the screw.

    The shaft turns, the load lies beyond bearing 2 and is the least there is. Screw, housing, plates and
    separation are those of a worked joint of the first kind; the load plane lies as nearly at the same
    place as the kit's spacers bring it. Kinds that cannot be built there are left out.
    """
    choice = [(kind, found) for kind in kinds if not kind.single and (found := _overhung(kind))]
    if not choice:
        return []
    model = _model(choice)
    alike = [(kind, found, _with(model, kind, None, course)) for kind, found in choice]
    reached = max((result.inputs["overhang"].value for *_, result in alike if result.stack), default=None)
    likes = []
    for kind, found, natural in alike:
        built = next((one for one in (_with(model, kind, reached, course), natural) if one.stack), None)
        if built:
            joint = replace(built.joint, overhang=built.inputs["overhang"].value)
            nearest = min(found, key=lambda result: (_distance(joint, result.joint), result.id))
            likes.append(Like(kind, joint, nearest))
    return likes


def _model(choice) -> Joint:
    """The worked joint of the first kind that has most in common with worked joints of the others."""
    housing = _shared_housing([kind for kind, _ in choice])
    middle = median(result.joint.separation for _, found in choice for result in found)

    def unlike(result):
        apart = [min(_distance(result.joint, other.joint) for other in found) for _, found in choice[1:]]
        return _housing(result.joint) != housing, sum(apart), abs(result.joint.separation - middle), result.id

    return min((result for _, found in choice for result in found), key=unlike).joint


def _shared_housing(kinds: Iterable[Kind]) -> tuple:
    """The housing that suits all kinds and that most of them have in worked joints."""
    own = [[_housing(result.joint) for group in kind.groups for result in group.worked] for kind in kinds]
    in_kinds = Counter(housing for found in own for housing in set(found))
    in_joints = Counter(housing for found in own for housing in found)
    return max(in_kinds, key=lambda one: (_suits(one), in_kinds[one], in_joints[one], one))


def _suits(housing) -> int:
    """How much of what suits all kinds a housing has."""
    return sum(one in housing for one in SUITS_ALL)


def _housing(joint: Joint) -> tuple[str, str, str, str]:
    first = joint.housings[0]
    return first.fit, first.stock.kind, first.stock.id, first.process.id


def _with(model: Joint, kind: Kind, overhang: float | None, course: Course) -> Result:
    """The model with the bearings of a kind."""
    own = kind.groups[0].first
    words = "-".join(kind.words.replace(",", "").split())
    return evaluate(
        replace(
            model,
            id=f"{model.kit.id}-{words}",
            title=kind.words,
            bearings=own.bearings,
            rings=own.rings,
            overhang=overhang,
            after_parts=None,
            stack_ids=None,
        ),
        course,
    )


def _overhung(kind) -> list[Result]:
    for group in kind.groups:
        found = [
            result
            for result in group.worked
            if result.stack and result.joint.layout == "A" and not result.joint.straddle
        ]
        if found:
            least = min(result.joint.radial for result in found)
            return [result for result in found if result.joint.radial == least]
    return []


def _distance(one: Joint, other: Joint) -> float:
    """How unlike two joints are, mm."""
    return (
        abs(one.separation - other.separation)
        + abs(one.overhang - other.overhang)
        + OTHER_HOUSING * (_housing(one) != _housing(other))
        + OTHER_SCREW * (one.shaft.id != other.shaft.id)
    )
