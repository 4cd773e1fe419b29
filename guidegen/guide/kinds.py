"""Kinds of bearings in a kit, and for each the worked joint in which it compares best with the others."""

from statistics import median
from typing import Iterable, NamedTuple

from guidegen.guide.pairs import Group
from guidegen.joint.records import Joint, Result
from guidegen.joint.words import pair_words

FIRST = (  # kinds that stand in the same order, and have the same line on charts, in every kit
    "two bronze bushings",
    "two ball bearings, rings loose",
    "two ball bearings, rings clamped",
    "two nylon bushings",
    "bronze bushing and ball bearing",
)
OTHER_STOCK, OTHER_SCREW = 10.0, 3.0  # mm of distance that make up for another housing, another screw


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


def like_joints(kinds: Iterable[Kind]) -> list[tuple[Kind, Result]]:
    """A worked joint for each kind of pair, as like one another as the kit can build them.

    The shaft turns, the load lies beyond bearing 2 and is the least there is. Kinds without such a joint are
    left out.
    """
    choice = [(kind, found) for kind in kinds if not kind.single and (found := _overhung(kind))]
    if not choice:
        return []
    middle = median(result.joint.separation for _, found in choice for result in found)

    def unlike(result):
        apart = [min(_distance(result.joint, other.joint) for other in found) for _, found in choice[1:]]
        return sum(apart), abs(result.joint.separation - middle), result.id

    model = min(choice[0][1], key=unlike)
    return [
        (kind, min(found, key=lambda result: (_distance(model.joint, result.joint), result.id)))
        for kind, found in choice
    ]


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
        + OTHER_STOCK * (one.housings[0].stock.id != other.housings[0].stock.id)
        + OTHER_SCREW * (one.shaft.id != other.shaft.id)
    )
