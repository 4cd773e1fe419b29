"""Which charts there are: those of one group of like bearings, and those that compare groups."""

from collections import Counter
from typing import Iterable, Sequence

from guidegen.guide.change import housing_words
from guidegen.guide.charts import loads, shares, wobble
from guidegen.guide.charts.curves import FARTHEST, sorts, wobble_curves, wobble_over_separation
from guidegen.guide.charts.shares import Bar
from guidegen.guide.charts.style import Chart
from guidegen.guide.names import FITS
from guidegen.guide.pairs import Group, groups
from guidegen.guide.templates import upper_first
from guidegen.joint.records import Result
from guidegen.joint.words import pair_words
from guidegen.kit.records import Course, SleeveBushing


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


def general_charts(results: Iterable[Result], course: Course) -> list[Chart]:
    """Charts that compare: pairs of each kit and their causes, places of the load, the rule of thumb."""
    results = tuple(results)
    like = [
        result for result in results if result.id not in course.joints
    ] or results  # of the grid, to compare
    kits = sorted(course.kits.values(), key=lambda kit: kit.units != course.units_first)
    made = groups(like, course.joints, kits)
    found: list[Chart] = []
    bushes = None
    for kit in kits:
        own = [group for group in made if group.kit == kit.id]
        stands = {group.key: _sort_like_others(group, own, course) for group in own}
        pairs = [stands[group.key] for group in own if not group.first.single]
        bars = _bars([alike[0] for alike in stands.values() if alike[0].shares])
        if bars:
            shares.cause_bars(found, f"causes-{kit.id}", kit.title, bars)
        if pairs:
            farthest = FARTHEST * max(result.joint.separation for alike in pairs for result in alike)
            curves = [wobble_over_separation(alike, course, farthest) for alike in pairs]
            arm = curves[0].joint.arm
            at_arm = [curve for curve in curves if curve.joint.arm == arm]
            wobble.kit_wobble(found, f"wobble-{kit.id}", kit, at_arm, course)
            loads.deflection_over_place(
                found, f"deflection-{kit.id}", kit, [r for a in pairs for r in a], course
            )
            bushes = bushes or next((curve for curve in curves if _two_like_bushes(curve.joint)), None)
    loads.reactions_over_place(found, "reactions-by-place")
    if bushes:
        wobble.rule_beside_truth(found, "rule-of-thumb-bushes", bushes, course)
    return found


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


def _bars(results: Sequence[Result]) -> list[Bar]:
    """A bar for each of these joints; where two would read alike, with the ids of their bearings."""
    joints = [result.joint for result in results]
    words = [pair_words(joint) for joint in joints]
    ids = (" and ".join(dict.fromkeys(bearing.id for bearing in joint.bearings)) for joint in joints)
    names = [f"{name} {id}" if words.count(name) > 1 else name for name, id in zip(words, ids)]
    held = (f"{joint.housings[0].stock.name}, {FITS[joint.housings[0].fit]}" for joint in joints)
    return [Bar(upper_first(f"{name}: {how}"), result) for name, how, result in zip(names, held, results)]


def _two_like_bushes(joint) -> bool:
    return joint.bearings[0] == joint.bearings[-1] and isinstance(joint.bearings[0], SleeveBushing)
