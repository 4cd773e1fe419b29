"""Groups of worked joints that share their bearings: one page and its charts for each."""

from dataclasses import dataclass
from typing import Collection, Iterable, Sequence

from guidegen.guide.change import housing_words
from guidegen.guide.templates import upper_first
from guidegen.joint.records import Joint, Result
from guidegen.joint.words import pair_words
from guidegen.kit.records import Kit


@dataclass(frozen=True)
class Group:
    """Joints of one kit with the same bearings and the same hold of their rings."""

    key: str  # names its page
    kit: str
    title: str
    results: tuple[Result, ...]
    worked: tuple[Result, ...]  # those of the grid; all where it has none

    @property
    def first(self) -> Joint:
        return self.worked[0].joint


def group_of(joint: Joint) -> str:
    """The key of the group a joint belongs to."""
    names = [bearing.id for bearing in joint.bearings] + ["one"] * joint.single
    return "-".join([joint.kit.id, *names, *["clamped"] * joint.clamped])


def groups(results: Iterable[Result], named: Collection[str], kits: Sequence[Kit]) -> list[Group]:
    """The groups of all worked joints, in the order of the kits, pairs before single bearings.

    `named`: ids of the joints that the course names itself; curves are drawn from the others.
    """
    order = [kit.id for kit in kits]
    found: dict[str, list[Result]] = {}
    for result in results:
        found.setdefault(group_of(result.joint), []).append(result)
    made = [_group(key, members, named) for key, members in found.items()]
    return sorted(made, key=lambda group: (order.index(group.kit), group.first.single, group.key))


def fullest_kit(made: Iterable[Group], kits: Sequence[Kit]) -> Kit:
    """The kit with most worked joints among those in the units of the first."""
    counts: dict[str, int] = {}
    for group in made:
        counts[group.kit] = counts.get(group.kit, 0) + len(group.worked)
    return max((kit for kit in kits if kit.units == kits[0].units), key=lambda kit: counts.get(kit.id, 0))


def _group(key, members, named):
    worked = tuple(result for result in members if result.id not in named)
    return Group(
        key, members[0].joint.kit.id, _title(members[0].joint), tuple(members), worked or tuple(members)
    )


def _title(joint):
    ids = " and ".join(dict.fromkeys(bearing.id for bearing in joint.bearings))
    return f"{upper_first(pair_words(joint))}: {ids}"


def sample_of(group: Group) -> Result:
    """The joint that stands for a group: plainest layout, bearings as far apart as in most of them."""

    def plainness(result):
        joint = result.joint
        return (
            joint.layout,
            joint.arm_between,
            housing_words(joint),
            joint.radial,
            abs((joint.separation or 0) - middle),
        )

    apart = sorted(result.joint.separation or 0 for result in group.worked)
    middle = apart[len(apart) // 2]
    return min(group.worked, key=plainness)
