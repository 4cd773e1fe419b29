"""Wobble against separation: of one pair over all its limits, of a kit's pairs, and by the rule of thumb."""

from guidegen.guide.charts import words
from guidegen.guide.charts.curves import WobbleCurve, rule_of_thumb
from guidegen.guide.charts.style import INCHES, KEY, LIMIT, ROLES, ROOM, End, Entry, plot, width_of
from guidegen.guide.measures import Measures
from guidegen.guide.wobble import wanted_travel

SEPARATION = "separation of the bearing middles _S_, mm"
TRAVEL = "wobble: total travel at the arm _y_r_, mm"
HEADROOM = 1.06
ALONE = 3  # line number of one bearing alone
FORK = 4  # marker number of joints whose screw also moves in a fork


def pair_wobble(found, id: str, curve: WobbleCurve, course, variant: str):
    """Wobble of one pair between its limits, the worked joints on it, one bearing alone, and the limit."""
    measures, limit = Measures(course.units_first), wanted_travel(course, curve.joint)
    told = words.pair_wobble(curve, limit, measures, variant)
    apart, last, built = curve.separations, curve.travels[-1], curve.built
    ends = [(last.least, "least", 1), (last.typical, "typical", 1), (last.high, "likely", 1)]
    ends = [End(apart[-1], *end) for end in (*ends, (last.most, "most", 1))]
    levels = [(travel.typical, name, ALONE) for travel, name in zip(curve.alone, words.alone(curve))]
    levels.append((limit, words.limit(limit), "ink"))
    with plot(found, id, told) as drawn:
        closest = next(iter(built.values())).most
        heights = [*(end.y for end in ends), *(y for y, *_ in levels), *(y for _, y in curve.with_fork)]
        _frame(drawn, apart[0], apart[-1], max(closest, *heights), ends)
        drawn.band(apart, curve.along("least"), curve.along("most"), 0.16)
        drawn.band(apart, curve.along("low"), curve.along("high"), 0.26)
        for name in ("least", "most"):
            drawn.axes.plot(apart, curve.along(name), color=ROLES[1], linewidth=0.8, dashes=(2, 2))
        drawn.line(1, apart, curve.along("typical"))
        drawn.level(limit, apart[0], apart[-1], "ink", **LIMIT)
        for travel in curve.alone:
            drawn.line(ALONE, apart[[0, -1]], [travel.typical] * 2)
        drawn.label_ends(ends, clear=KEY)
        drawn.label_levels(levels, apart[-1])
        drawn.markers(1, list(built), [travel.typical for travel in built.values()])
        keys = [(1, False, "worked joint")]
        if curve.with_fork:
            drawn.markers(FORK, *zip(*curve.with_fork), hollow=True)
            keys.append((FORK, True, "with play in the fork"))
        drawn.tell_markers(keys)


def kit_wobble(found, id: str, kit, what: str, lines: list[list[WobbleCurve]], course, left_out=()):
    """Typical wobble of pairs of a kit on one chart, to choose by.

    lines: curves that run together share one; `left_out` are told in words only.
    """
    curves = [line[0] for line in lines]
    measures, limit = Measures(course.units_first), wanted_travel(course, curves[0].joint)
    told = words.kit_wobble(kit, what, lines, limit, measures, left_out)
    names = words.brief_pairs([curve.joint for curve in curves])
    entries = [
        (curve.travels[-1].typical, Entry(number, words.and_more(name, line)))
        for number, (name, line, curve) in enumerate(zip(names, lines, curves), 1)
    ]
    key = [entry for _, entry in sorted(entries, key=lambda one: -one[0])]
    widest = max(curve.separations[-1] for curve in curves)
    with plot(found, id, told, key=key) as drawn:
        nearest = min(curve.separations[0] for curve in curves)
        highest = max(travel.typical for curve in curves for travel in curve.built.values())
        _frame(drawn, nearest, widest, max(limit, 1.2 * highest))
        drawn.level(limit, nearest, widest, "ink", **LIMIT)
        drawn.label_levels([(limit, words.limit(limit), "ink")], widest)
        for number, (line, curve) in enumerate(zip(lines, curves), 1):
            drawn.line(number, curve.separations, curve.along("typical"))
            built = sorted((apart, t.typical) for one in line for apart, t in one.built.items())
            drawn.markers(number, *zip(*built))


def rule_beside_truth(found, id: str, curve: WobbleCurve, course):
    """Clearance over separation, the rule of thumb, beside the travel that bushes of some length allow."""
    rule, truth, apart = rule_of_thumb(curve), curve.along("typical"), curve.separations
    told = words.rule_beside_truth(curve, rule, Measures(course.units_first))
    ends = [End(apart[-1], truth[-1], "as it is", 1), End(apart[-1], rule[-1], "by the rule", 2)]
    with plot(found, id, told) as drawn:
        _frame(drawn, apart[0], apart[-1], max(rule), ends)
        drawn.band(apart, truth, rule, 0.16)
        drawn.line(1, apart, truth)
        drawn.line(2, apart, rule)
        drawn.label_ends(ends)
        drawn.markers(1, list(curve.built), [travel.typical for travel in curve.built.values()])
        drawn.tell_markers([(1, False, "worked joint")])


def _frame(drawn, nearest, farthest, highest, ends=()):
    """Axes of a wobble chart, with room for words right of the lines' ends and for a line along the top."""
    room = ROOM + max(width_of(end.text) for end in ends) if ends else 0
    drawn.axes.set(
        xlim=(nearest, nearest + (farthest - nearest) * drawn.width / (drawn.width - room)),
        ylim=(0, HEADROOM * highest * drawn.height / (drawn.height - KEY)),
    )
    drawn.frame()
    drawn.across(SEPARATION, nearest, farthest, INCHES)
    drawn.up(TRAVEL, INCHES)
