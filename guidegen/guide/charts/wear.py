"""How bushes wear: clearance of one and wobble of a pair against swings, with their scatter."""

from typing import NamedTuple

import numpy as np

from guidegen.guide.charts import words
from guidegen.guide.charts.style import INCHES, LIMIT, MARGINS, Entry, Other, Told, plot
from guidegen.guide.measures import Measures
from guidegen.guide.trials import HOURS, RATE, SWING, KitTrials
from guidegen.guide.wobble import wanted_travel
from guidegen.joint.records import Result
from guidegen.joint.wear import DECADES
from guidegen.numbers import show_number
from guidegen.theory import ball, sliding
from guidegen.theory.declare import FORMULAS

BETWEEN = 12  # points of a line in each power of ten
LOAD = "heavy"  # at which wear is drawn: the others wear less
SWINGS_AN_HOUR = RATE * ball.HOUR
HOURS_OF_MOTION = Other(f"hours at {60 * RATE:g} swings a minute", SWINGS_AN_HOUR)
SWINGS = "swings there and back"
LAST = 8  # power of ten to which the clearance is drawn
UNDER = 2.5  # how far the scale goes below the steadiest pair, times; bands are cut off there
LONG_NUMBERS = 62  # margin for a scale of thousandths of an inch, user units
APART = 20  # user units between two names on one scale


class Worn(NamedTuple):
    """Wobble of a joint while it wears, over cycles: 5th percentile, typical, 95th percentile, mm."""

    cycles: np.ndarray
    low: np.ndarray
    typical: np.ndarray
    high: np.ndarray


def worn(result: Result) -> Worn | None:
    """Wobble from 10^3 cycles to as many as the bushes last, from the joint's own page; None without bushes.

    Wear deepens evenly with every cycle, wobble goes with clearance: between powers of ten it rises evenly.
    """
    told = {0: result.quantities["arm_play"]}
    for power in DECADES:
        if f"arm_play_1e{power}" in result.quantities:
            told[10**power] = result.quantities[f"arm_play_1e{power}"]
    if len(told) < 3:
        return None
    last = max(told)
    cycles = np.geomspace(10 ** DECADES[0], last, 1 + BETWEEN * round(np.log10(last) - DECADES[0]))
    known = list(told)
    rows = (
        [q.likely[0] for q in told.values()],
        [q.typical for q in told.values()],
        [q.likely[1] for q in told.values()],
    )
    return Worn(cycles, *(np.interp(cycles, known, row) for row in rows))


class Growth(NamedTuple):
    """Clearance of a bush when new, and its growth a cycle by least, typical and greatest wear rate, mm."""

    clearance: float
    least: float
    typical: float
    most: float

    def after(self, cycles, growth: float):
        """Clearance after so many cycles."""
        return sliding.worn_clearance(self.clearance, cycles, growth)


def growth_of(result: Result, n: int) -> Growth | None:
    """How bush n of a joint wears at typical sizes: the worked steps again, at the ends of the wear rate."""
    steps = {step.gives: step for step in result.steps}
    if f"wear_{n}" not in steps:
        return None
    depth, grown = steps[f"wear_{n}"], steps[f"growth_{n}"]
    rates = result.inputs[f"wear_rate_{n}"].band

    def growth(rate):
        deep = FORMULAS[depth.formula].function(**{**depth.values, "k_w": rate})
        return FORMULAS[grown.formula].function(h_w=deep)

    clearance = result.quantities[f"clearance_{n}"].typical
    return Growth(clearance, *(growth(rate) for rate in (rates.least, rates.typical, rates.most)))


def wobble_over_cycles(found, id: str, trials: KitTrials, course):
    """Wobble of the pairs of a kit that swing under their heavy load; those without bushes stay as new."""
    measures = Measures(course.units_first)
    pairs = [(tried.kind, tried.trials[LOAD, "swing"]) for tried in trials.tried]
    lines = [(kind, result, worn(result)) for kind, result in pairs]
    if not any(line for *_, line in lines):
        return
    joint = lines[0][1].joint
    limit, last = wanted_travel(course, joint), 10.0 ** DECADES[-1]
    told = _wobble_words(trials, lines, limit, measures)
    entries, news = [(limit, Entry("ink", words.limit(limit)))], [limit]
    names = words.brief_pairs([result.joint for _, result, _ in lines])
    for number, (name, (_, result, line)) in enumerate(zip(names, lines), 1):
        news.append(result.quantities["arm_play"].typical)
        entries.append((news[-1] if line is None else line.typical[-1], Entry(number, name, marked=False)))
    entries.sort(key=lambda one: -one[0])
    with plot(found, id, told, key=[entry for _, entry in entries]) as drawn:
        start = 10.0 ** DECADES[0]
        bottom, top = min(news) / UNDER, 2.5 * entries[0][0]
        drawn.axes.set(xscale="log", yscale="log")
        drawn.axes.set(xlim=(start, last), ylim=(bottom, top))
        drawn.frame()
        drawn.across(SWINGS, start, last, HOURS_OF_MOTION)
        drawn.up("wobble: total travel at the arm _y_r_, mm", INCHES)
        drawn.level(limit, start, last, "ink", **LIMIT)
        _wanted(drawn, top)
        for number, (_, result, line) in enumerate(lines, 1):
            if line is None:
                drawn.line(number, [start, last], [result.quantities["arm_play"].typical] * 2)
                continue
            if len({bearing.id for bearing in result.joint.bearings}) == 1:
                low, high = np.maximum(line.low, bottom), np.minimum(line.high, top)
                drawn.band(line.cycles, low, high, 0.16, role=number)
            drawn.line(number, line.cycles, line.typical)


def clearance_over_cycles(found, id: str, trials: KitTrials, course):
    """Clearance of the more loaded bush of pairs of one material, to where it has doubled and beyond."""
    measures = Measures(course.units_first)
    lines = []
    for tried in trials.tried:
        result = tried.trials[LOAD, "swing"]
        if len({bearing.id for bearing in result.joint.bearings}) == 1 and (growth := growth_of(result, 2)):
            lines.append((tried.kind, result, growth))
    if not lines:
        return
    told = _clearance_words(trials, lines, measures)
    start, last = 10.0 ** DECADES[0], 10.0**LAST
    top = 3.2 * max(growth.clearance for *_, growth in lines)
    left, _, *others = MARGINS
    with plot(found, id, told, margins=(left, LONG_NUMBERS, *others)) as drawn:
        drawn.axes.set(xscale="log")
        drawn.axes.set(xlim=(start, last), ylim=(0, top))
        drawn.frame()
        drawn.across(SWINGS, start, last, HOURS_OF_MOTION)
        drawn.up("clearance of bush 2, mm", INCHES)
        cycles = np.geomspace(start, last, 1 + BETWEEN * (LAST - DECADES[0]))
        _wanted(drawn, top)
        for number, (kind, _, growth) in enumerate(lines, 1):
            low, typical, high = (
                growth.after(cycles, g) for g in (growth.least, growth.typical, growth.most)
            )
            drawn.band(cycles, np.minimum(low, top), np.minimum(high, top), 0.2, role=number)
            drawn.line(number, cycles, typical)
            doubled = sliding.wear_cycles(growth.clearance, growth.typical)
            if doubled < last:
                drawn.markers(number, [doubled], [2 * growth.clearance])
        above = float("inf")
        for number, (kind, _, growth) in sorted(enumerate(lines, 1), key=lambda one: -one[1][2].clearance):
            high = drawn.at(start, growth.clearance)[1]
            up = 9 if above - high > APART else -9
            drawn.words(start, growth.clearance, words.bush_of(kind.words), number, by=(6, up))
            above = high
        drawn.words(last, 0, "markers: doubled", ha="right", by=(-6, 9))


def _wanted(drawn, top):
    cycles = sliding.cycles_wanted(RATE, HOURS * ball.HOUR)
    drawn.upright(cycles, drawn.axes.get_ylim()[0], top, "ink", linestyle=(0, (2, 2)), linewidth=1.0)
    drawn.words(cycles, top, f"{HOURS:g} h", by=(4, -9))


def _load_words(trials, result, measures):
    joint = result.joint
    return (
        f"load {measures.value(trials.loads[LOAD], 'N').line}, {measures.value(joint.axial, 'N').line} "
        "along the "
        f"screw, swinging {show_number(np.degrees(SWING))}° there and back, {60 * RATE:g} times a minute"
    )


def _wobble_words(trials, lines, limit, measures: Measures):
    text = [f"Total travel of the arm tip, {_load_words(trials, lines[0][1], measures)}."]
    for kind, result, line in lines:
        new = result.quantities["arm_play"]
        told = f"{kind.words[0].upper()}{kind.words[1:]}: new {_mm(new.typical, measures)}"
        if line is None:
            text.append(f"{told}, and no wear is counted.")
            continue
        after = [
            f"{_mm(q.typical, measures)} after {show_number(10.0**power)}"
            for power in (5, 6, 7)
            if (q := result.quantities.get(f"arm_play_1e{power}"))
        ]
        ended = (
            ""
            if f"arm_play_1e{DECADES[-1]}" in result.quantities
            else ", worn through before ten times as many"
        )
        low, high = line.low[-1], line.high[-1]
        text.append(
            f"{told}, {', '.join(after)}{ended}; at the end nine of ten lie from "
            f"{measures.range(low, high, 'mm').line}."
        )
    text.append(f"Limit: {_mm(limit, measures)}.")
    how = (
        "Go up from the number of swings, or from the hours along the top: the line is the wobble with "
        "typical "
        "sizes and typical wear, the band of a pair of like bushes holds 9 of 10 joints. Wear rates "
        "scatter more than tenfold, and grit "
        "multiplies them: take the upper edge, and measure now and then. Ball bearings do not wear like "
        "this; "
        "their end is dirt and rust."
    )
    return Told(
        f"Wobble while the joint wears: {trials.kit.title}", " ".join(text), how, _wanted_words(lines)
    )


def _wanted_words(lines) -> str:
    """The one thing to see: what the motion wanted does to the pair that wears most."""
    cycles = sliding.cycles_wanted(RATE, HOURS * ball.HOUR)
    grown = [
        (float(np.interp(cycles, line.cycles, line.typical)) / result.quantities["arm_play"].typical, kind)
        for kind, result, line in lines
        if line is not None
    ]
    times, kind = max(grown, key=lambda one: one[0])
    more = show_number(100 * (times - 1), 2)
    return f"In {HOURS:g} h typical wear adds at most {more} % to the wobble ({kind.words})."


def _clearance_words(trials, lines, measures: Measures):
    text = [f"Clearance of the more loaded bush, {_load_words(trials, lines[0][1], measures)}."]
    for kind, _, growth in lines:
        cycles = [
            sliding.wear_cycles(growth.clearance, g) for g in (growth.typical, growth.most, growth.least)
        ]
        typical, soon, late = (show_number(x, 2) for x in cycles)
        text.append(
            f"{kind.words[0].upper()}{kind.words[1:]}: new {_mm(growth.clearance, measures)}; doubled "
            "after typically "
            f"{typical} swings, {soon} at the greatest wear rate known, {late} at the least."
        )
    how = (
        "Go up from the number of swings: the line is the clearance with typical wear, the band spans the "
        "wear "
        "rates that were measured. Clearance starts at what the sizes give and grows evenly with every "
        "swing; on "
        "this scale that looks like a sudden rise. Wobble grows with it."
    )
    ratio = max(growth.most / growth.least for *_, growth in lines)
    see = (
        "A wear rate is known only roughly: the edges of a band lie up to "
        f"{show_number(ratio, 2)} times as many swings apart."
    )
    return Told(f"Clearance while a bush wears: {trials.kit.title}", " ".join(text), how, see)


def _mm(mm, measures):
    return measures.value(mm, "mm", 2).line
