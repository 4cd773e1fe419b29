"""Which charts there are: those of one group of like bearings, and those that compare groups."""

from collections import Counter
from typing import Iterable, Sequence

from guidegen.guide.change import housing_words
from guidegen.guide.charts import (
    any_pair,
    bending,
    friction,
    life,
    loads,
    pressure_speed,
    shares,
    wear,
    wobble,
)
from guidegen.guide.charts.curves import (
    FARTHEST,
    WobbleCurve,
    alike_lines,
    sorts,
    wobble_curves,
    wobble_over_separation,
)
from guidegen.guide.charts.shares import Bar
from guidegen.guide.charts.style import DASHES, Chart
from guidegen.guide.kinds import Kind, kinds_of
from guidegen.guide.names import FITS
from guidegen.guide.pairs import Group
from guidegen.guide.templates import upper_first
from guidegen.guide.trials import KitTrials
from guidegen.joint.records import Result
from guidegen.joint.words import pair_words
from guidegen.kit.records import BallBearing, Course, Kit, SleeveBushing

FAMILIES = {
    "bushes": "bushings",
    "balls": "ball bearings",
}  # pairs of a kit that share a chart, beside the kinds


def pair_charts(group: Group, course: Course) -> list[Chart]:
    """Charts of one group: wobble against separation for each sort of its joints, then the causes of it.

    A sort is a way of housing the bearings or a tolerance of the screw; sorts that no reader could tell
    apart share a chart.
    """
    found: list[Chart] = []
    if group.first.single:
        alike = sorts(group, course)
    else:
        curves = wobble_curves(group, course)
        alike = [curve.results for curve in curves]
        for number, curve in enumerate(curves, 1):
            variant = _sort_words(curve.results, alike)
            wobble.pair_wobble(found, f"wobble-{group.key}-{number}", curve, course, variant)
    bars = [Bar(_sort_words(results, alike), results[0]) for results in alike if results[0].shares]
    if bars:
        shares.cause_bars(found, f"causes-{group.key}", group.title, bars)
    return found


def general_charts(made: Sequence[Group], trials: Sequence[KitTrials], course: Course) -> list[Chart]:
    """Charts that compare: pairs of each kit, places of the load, how bearings bear, wear and turn."""
    found: list[Chart] = []
    bushes = None
    for kit in (course.kits[id] for id in dict.fromkeys(group.kit for group in made)):
        own = [group for group in made if group.kit == kit.id]
        kinds = kinds_of(own, kit.id)
        stands = {group.key: _sort_like_others(group, own, course) for group in own}
        bars = _bars([results[0] for kind in kinds if (results := stands[kind.groups[0].key])[0].shares])
        if bars:
            shares.cause_bars(found, f"causes-{kit.id}", kit.title, bars)
        pairs = [group for group in own if not group.first.single]
        if pairs:
            curves = _curves(pairs, stands, course)
            _kit_wobbles(found, kit, kinds, pairs, curves, course)
            joints = [result for group in pairs for result in group.worked]
            loads.deflection_over_place(found, f"deflection-{kit.id}", kit, joints, course)
            bending.over_place(found, kit, joints, course)
            bushes = bushes or next(
                (curve for curve in curves.values() if _two_like_bushes(curve.joint)), None
            )
    loads.reactions_over_place(found, "reactions-by-place")
    if bushes:
        any_pair.tilt_over_length(found, "rule-of-thumb-any-pair")
        wobble.rule_beside_truth(found, "rule-of-thumb-bushes", bushes, course)
    life.charts(found, made, trials, course)
    pressure_speed.charts(found, made, trials, course)
    for tried in trials:
        wear.wobble_over_cycles(found, f"wear-{tried.kit.id}", tried, course)
        wear.clearance_over_cycles(found, f"wear-clearance-{tried.kit.id}", tried, course)
        friction.force_over_separation(found, f"start-{tried.kit.id}", tried, course)
    return found


def _curves(pairs, stands, course) -> dict[str, WobbleCurve]:
    """Wobble over separation of each group of pairs of a kit, all as far."""
    farthest = FARTHEST * max(result.joint.separation for group in pairs for result in group.worked)
    return {group.key: wobble_over_separation(stands[group.key], course, farthest) for group in pairs}


def _kit_wobbles(found, kit: Kit, kinds: list[Kind], pairs, curves, course):
    """One chart of the kinds of pairs, and one for each family in which a kind comes in several sizes."""
    arm = Counter(curve.joint.arm for curve in curves.values()).most_common(1)[0][0]
    kept = {key: curve for key, curve in curves.items() if curve.joint.arm == arm}
    chosen = [kept[key] for kind in kinds if (key := kind.groups[0].key) in kept][: len(DASHES)]
    wobble.kit_wobble(found, f"wobble-{kit.id}", kit, "pairs", [[curve] for curve in chosen], course)
    for family, words in FAMILIES.items():
        own = [group for group in pairs if _family(group) == family and group.key in kept]
        if len(own) > len({pair_words(group.first) for group in own}):
            own.sort(key=lambda group: -len(group.worked))
            lines = alike_lines([kept[group.key] for group in own], course)
            wobble.kit_wobble(
                found,
                f"wobble-{kit.id}-{family}",
                kit,
                words,
                lines[: len(DASHES)],
                course,
                lines[len(DASHES) :],
            )


def _family(group):
    return "balls" if all(isinstance(bearing, BallBearing) for bearing in group.first.bearings) else "bushes"


def _sort_words(results: Sequence[Result], alike: Sequence[Sequence[Result]]) -> str:
    """What a sort of a group's joints is: its housings, and its screws where other screws fit otherwise."""
    words = " or ".join(dict.fromkeys(housing_words(result.joint) for result in results))
    screws = sorted({result.joint.shaft.id for result in results})
    others = {result.joint.shaft.id for other in alike if other is not results for result in other}
    return words if others <= set(screws) else f"{words}; on {', '.join(screws)}"


def _sort_like_others(group: Group, own: list[Group], course: Course) -> list[Result]:
    """The sort of a group that compares best with the kit's others: in the housing most of them have."""
    counts = Counter(stock for other in own for stock in {_stock(result) for result in other.worked})
    return max(sorts(group, course), key=lambda alike: counts[_stock(alike[0])])


def _stock(result: Result) -> str:
    return result.joint.housings[0].stock.id


def _bars(results: Iterable[Result]) -> list[Bar]:
    """A bar for each of these joints."""
    joints = [(result.joint, result) for result in results]
    held = (f"{joint.housings[0].stock.name}, {FITS[joint.housings[0].fit]}" for joint, _ in joints)
    return [
        Bar(upper_first(f"{pair_words(joint)}: {how}"), result) for (joint, result), how in zip(joints, held)
    ]


def _two_like_bushes(joint) -> bool:
    return joint.bearings[0] == joint.bearings[-1] and isinstance(joint.bearings[0], SleeveBushing)
