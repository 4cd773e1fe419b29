"""Reactions and deflection against the place of the load, on one axis from straddle to overhung."""

from collections import Counter

import numpy as np

from guidegen.guide.charts import words
from guidegen.guide.charts.curves import OVERHUNG, PLACES, deflection, reactions
from guidegen.guide.charts.style import INCHES, ROOM, THOUSANDTHS_OF_INCH, End, plot, width_of
from guidegen.guide.measures import Measures
from guidegen.joint.records import Result

PLACE = "load beyond bearing 2 over separation, _a_ / _S_"
PLACE_MM = "load beyond bearing 2 _a_, mm"
THOUSANDTHS = 1000  # a shaft bends by thousandths of a millimetre


def reactions_over_place(found, id: str):
    """Both reactions over the load, from a load at bearing 1 to one two separations beyond bearing 2."""
    places = np.linspace(-1, OVERHUNG, 2)  # both are straight lines
    first, second = reactions(places)
    told = words.reactions(places, first, second)
    with plot(found, id, told, margins=(48, 14, 40, 14)) as drawn:
        axes = drawn.axes
        axes.set(xlim=(-1, OVERHUNG), ylim=(first[-1] - 0.2, second[-1] + 0.7))
        drawn.zone(-1, 0)
        drawn.frame()
        drawn.across(PLACE, -1, OVERHUNG)
        drawn.up("reaction over load, _R_ / _F_")
        drawn.level(0, -1, OVERHUNG, "ink", linewidth=0.8)
        drawn.line(1, places, first)
        drawn.line(2, places, second)
        low, high = axes.get_ylim()
        for place, name in ((-1, "bearing 1"), (0, "bearing 2")):
            drawn.upright(place, low, high, "ink", linewidth=1.2)
            drawn.words(place, low, name, by=(5, 9))
        drawn.words(-0.5, high, "straddle", ha="center", by=(0, -11))
        drawn.words(OVERHUNG / 2, high, "overhung", ha="center", by=(0, -11))
        at = 0.6 * OVERHUNG
        drawn.words(at, 1 + at, "bearing 2: _R_2_ / _F_", 2, ha="right", by=(-8, 8))
        drawn.words(at, -at, "bearing 1: _R_1_ / _F_", 1, ha="right", by=(-8, -10))


def deflection_over_place(found, id: str, kit, results: list[Result], course):
    """How far the shaft bends at the load, for the closest and the widest separation that the kit builds."""
    measures = Measures(course.units_first)
    shafts = [result.joint for result in results if result.joint.layout == "A" and not result.joint.single]
    load = Counter(joint.radial for joint in shafts).most_common(1)[0][0]
    joint = next(joint for joint in shafts if joint.radial == load)
    built = sorted({round(joint.separation, 2) for joint in shafts})
    apart = list(dict.fromkeys((built[0], built[-1])))
    widest = reach = apart[-1]
    curves = []
    for separation in apart:
        places = np.linspace(-separation, reach, PLACES)
        curves.append((separation, places, deflection(joint, separation, places)))
    told = words.deflection(kit, joint, curves, measures)
    ends = [
        End(reach, THOUSANDTHS * bent[-1], f"_S_ = {words.plain(separation)} mm", number)
        for number, (separation, _, bent) in enumerate(curves, 1)
    ]
    with plot(found, id, told) as drawn:
        axes = drawn.axes
        room = ROOM + max(width_of(end.text) for end in ends)
        top = 1.1 * max(end.y for end in ends)
        axes.set(xlim=(-widest, reach + (reach + widest) * room / (drawn.width - room)), ylim=(0, top))
        drawn.zone(-widest, 0)
        drawn.frame()
        drawn.across(PLACE_MM, -widest, reach, INCHES)
        drawn.up("deflection at the load _y_d_, 1/1000 mm", THOUSANDTHS_OF_INCH)
        drawn.upright(0, 0, top, "ink", linewidth=1.2)
        drawn.words(-widest / 2, top, "straddle", ha="center", by=(0, -11))
        drawn.words(reach / 2, top, "overhung", ha="center", by=(0, -11))
        drawn.words(0, top, "bearing 2", ha="right", by=(-5, -32))
        for number, (separation, places, bent) in enumerate(curves, 1):
            drawn.line(number, places, THOUSANDTHS * bent)
            drawn.markers(number, [-separation], [0])
            up = top * (0.02 + 0.07 * number)
            drawn.upright(-separation, 0, up, number, linewidth=0.6)
            drawn.words(-separation, up, "bearing 1", number, by=(3, 0))
        drawn.label_ends(ends)
