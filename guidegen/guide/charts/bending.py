"""Deflection and stress of the screw against the place of the load, for the layouts side by side."""

from dataclasses import dataclass
from typing import Iterable

import numpy as np

from guidegen.guide.charts import words
from guidegen.guide.charts.loads import PLACE_MM, THOUSANDTHS
from guidegen.guide.charts.style import INCHES, KSI, ROOM, THOUSANDTHS_OF_INCH, End, Told, plot, width_of
from guidegen.guide.measures import Measures
from guidegen.guide.templates import upper_first
from guidegen.joint.loads import bent
from guidegen.joint.records import Joint, Result
from guidegen.joint.words import pair_words
from guidegen.joint.working import Working
from guidegen.numbers import show_number
from guidegen.theory import statics

PLACES = 81
NAMES = {"A": "A: shaft", "B": "B: hub", "C": "C: fork"}
READ_AT = (-0.5, 0.0, 0.5, 1.0)  # in separations beyond bearing 2


@dataclass(frozen=True)
class Bend:
    """One layout: its worked joint, and how the screw bends with the load at each place."""

    result: Result
    places: np.ndarray  # mm beyond bearing 2
    deflection: np.ndarray  # mm, under the steady load
    stress: np.ndarray  # MPa, with shock


def bends(results: Iterable[Result]) -> list[Bend]:
    """The layouts at one pair, screw, housing, separation and load, from load at bearing 1 to far beyond."""
    chosen = _alike(results)
    return [_bend(chosen[layout]) for layout in sorted(chosen)]


def over_place(found, kit, results: Iterable[Result], course):
    """Both charts of a kit, where its worked joints come in more than one layout."""
    lines = bends(results)
    if len(lines) < 2:
        return
    measures = Measures(course.units_first)
    _chart(found, f"deflection-layouts-{kit.id}", kit, lines, measures, "deflection")
    _chart(found, f"stress-layouts-{kit.id}", kit, lines, measures, "stress")


def _alike(results) -> dict[str, Result]:
    """The design with most layouts, then with most joints: a worked joint of each layout."""
    designs: dict[tuple, list[Result]] = {}
    for result in results:
        joint = result.joint
        if result.stack and not joint.single and not joint.clamped and not joint.straddle:
            key = joint.bearings[0].id, joint.bearings[1].id, joint.shaft.id, joint.housings[0].stock.id
            designs.setdefault((*key, round(joint.separation, 2), joint.radial), []).append(result)
    if not designs:
        return {}
    best = max(designs, key=lambda key: (len({r.joint.layout for r in designs[key]}), len(designs[key]), key))
    return {result.joint.layout: result for result in sorted(designs[best], key=lambda r: r.id, reverse=True)}


def _bend(result: Result) -> Bend:
    joint = result.joint
    places = np.linspace(-joint.separation, joint.separation, PLACES)
    bent_there = [_bent(joint, result.stack, float(place)) for place in places]
    return Bend(
        result,
        places,
        np.array([shaft.deflection for shaft in bent_there]),
        np.array([shaft.stress for shaft in bent_there]),
    )


def _bent(joint: Joint, stack, place):
    couple = statics.axial_couple(joint.axial, joint.arm)
    return bent(Working(), joint, stack, place, couple, joint.shaft.shoulder_diameter.typical)


def _chart(found, id, kit, lines, measures, what):
    joint = lines[0].result.joint
    deflects = what == "deflection"
    rises = [THOUSANDTHS * line.deflection if deflects else line.stress for line in lines]
    told = _words(kit, lines, measures, what)
    far = joint.separation
    ends = [
        End(far, rise[-1], NAMES[line.result.joint.layout], number)
        for number, (line, rise) in enumerate(zip(lines, rises), 1)
    ]
    with plot(found, id, told) as drawn:
        room = ROOM + max(width_of(end.text) for end in ends)
        top = 1.12 * max(rise.max() for rise in rises)
        drawn.axes.set(xlim=(-far, far + 2 * far * room / (drawn.width - room)), ylim=(0, top))
        drawn.zone(-far, 0)
        drawn.frame()
        drawn.across(PLACE_MM, -far, far, INCHES)
        if deflects:
            drawn.up("deflection at the load _y_d_, 1/1000 mm", THOUSANDTHS_OF_INCH)
        else:
            drawn.up("greatest bending stress _σ_b_, MPa", KSI)
        drawn.upright(0, 0, top, "ink", linewidth=1.2)
        drawn.words(-far / 2, top, "straddle", ha="center", by=(0, -11))
        drawn.words(far / 2, top, "overhung", ha="center", by=(0, -11))
        drawn.words(0, top, "bearing 2", ha="right", by=(-5, -26))
        drawn.words(-far, top, "bearing 1", by=(5, -41))
        name = "deflection" if deflects else "bending_stress"
        for number, (line, rise) in enumerate(zip(lines, rises), 1):
            drawn.line(number, line.places, rise)
            value = line.result.quantities[name].typical * (THOUSANDTHS if deflects else 1)
            drawn.markers(number, [line.result.inputs["overhang"].value], [value])
        drawn.label_ends(ends)


def _words(kit, lines, measures: Measures, what):
    joint = lines[0].result.joint
    diameter = joint.shaft.shoulder_diameter.typical
    shock = "" if what == "deflection" else f" × {words.plain(joint.shock)} for knocks"
    text = [
        f"{pair_words(joint)} {measures.value(joint.separation, 'mm').line} apart on {joint.shaft.id}, "
        "shoulder "
        f"{measures.size(diameter).line}; load {measures.value(joint.radial, 'N').line}{shock}, "
        f"{measures.value(joint.axial, 'N').line} along the screw at {measures.value(joint.arm, 'mm').line} "
        "from its axis, turned the worse way."
    ]
    for line in lines:
        told = []
        for share, place in zip(
            READ_AT, ("midway", "at bearing 2", "half a separation beyond", "one beyond")
        ):
            told.append(f"{place} {_value(line, share, measures, what)}")
        text.append(f"{NAMES[line.result.joint.layout]}, load {', '.join(told)}.")
    if what != "deflection":
        text.append(f"The screw yields at {measures.value(joint.yield_stress, 'MPa').line}.")
    how = (
        f"{words.FIND_THE_LOAD} Go up to the line of your layout; its marker is a worked joint. Layout "
        "A: the shaft turns in a frame; B: a hub turns on a screw held at its thread; C: a hub turns in a "
        "fork. "
    )
    how += (
        "The height is how far the load plane moves because the screw bends."
        if what == "deflection"
        else "The height is the greatest bending stress anywhere along the shoulder, the load turned the "
        "worse "
        "way."
    )
    first = "Deflection" if what == "deflection" else "Bending stress"
    words_of = f"{first} against the place of the load, by layout: {kit.title}"
    return Told(words_of, upper_first(" ".join(text)), how, _see(lines, what))


def _see(lines, what) -> str:
    """The one thing to see: which layout is bent least, and how much, a separation beyond bearing 2."""
    rises = [(line.deflection if what == "deflection" else line.stress)[-1] for line in lines]
    ranked = sorted(zip(rises, lines), key=lambda one: one[0])
    (least, first), (most, last) = ranked[0], ranked[-1]
    verb = "moves" if what == "deflection" else "is stressed"
    return (
        f"With the load one separation beyond bearing 2 layout {first.result.joint.layout} {verb} least, "
        f"layout {last.result.joint.layout} {show_number(most / least, 2)} times as much."
    )


def _value(line, share, measures, what):
    rise = line.deflection if what == "deflection" else line.stress
    there = float(np.interp(share * line.result.joint.separation, line.places, rise))
    return measures.bend(there).line if what == "deflection" else measures.value(there, "MPa", 2).line
