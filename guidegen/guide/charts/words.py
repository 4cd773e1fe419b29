"""What charts say: titles, text alternatives with the numbers drawn, how to read them, what to see."""

from collections import Counter
from typing import Iterable

import numpy as np

from guidegen.guide.charts.style import Told
from guidegen.guide.measures import Measures
from guidegen.guide.names import CAUSES
from guidegen.guide.templates import upper_first
from guidegen.joint.records import Joint
from guidegen.joint.words import pair_words
from guidegen.kit.records import BallBearing, SleeveBushing
from guidegen.numbers import MINUS, show_number

PERCENT = "\u202f%"
FIND_THE_LOAD = (
    "Find the place of the load along the bottom: left of zero between the bearings, right of zero beyond "
    "bearing 2."
)


def plain(x: float) -> str:
    """A number on a chart."""
    return show_number(x, 3)


def percent(share: float) -> str:
    """A share, already in per cent, to whole ones."""
    return f"{round(share)}{PERCENT}".replace("-", MINUS)


def share(cause: str, size: float) -> str:
    """A part of a bar, in one line."""
    return f"{cause} {percent(size)}"


def limit(mm: float) -> str:
    """Words beside the limit's line."""
    return f"limit {plain(mm)} mm"


def alone(curve) -> list[str]:
    """Words beside the lines of one bearing alone."""
    if len(curve.alone) == 1:
        return ["one alone"]
    return [f"{_short(bearing)} alone" for bearing in curve.joint.bearings]


def bush_of(pair: str) -> str:
    """What one of a pair of like bushes is called: "bronze" of "two bronze bushings"."""
    return pair.removeprefix("two ").removesuffix(" bushings")


def brief_pairs(joints: list[Joint]) -> list[str]:
    """Pairs in few letters, to stand beside their lines; with the parts' ids where that leaves two alike."""
    brief = [_brief_pair(joint) for joint in joints]
    ids = (" ".join(dict.fromkeys(bearing.id for bearing in joint.bearings)) for joint in joints)
    return [f"{words} {id}" if brief.count(words) > 1 else words for words, id in zip(brief, ids)]


def _brief_pair(joint):
    one, other = map(_short, joint.bearings)
    if one != other:
        return f"{one}, {other}"
    if one == "ball":
        return "balls, clamped" if joint.clamped else "balls, loose"
    return f"two {one}"


def _short(bearing) -> str:
    if isinstance(bearing, BallBearing):
        return "ball"
    return "bronze" if isinstance(bearing, SleeveBushing) else "nylon"


def pair_wobble(curve, wanted: float, measures: Measures, variant: str):
    """What is said of the wobble of one pair."""
    joint, travels = curve.joint, curve.travels
    title = f"Wobble against separation: {pair_words(joint)}; {variant}"
    text = [
        f"Total travel of the arm tip, {_length(joint.arm, measures)} from the axis, by the bearings alone.",
        f"Side by side, with their middles {_length(curve.separations[0], measures)} apart, they let it "
        f"travel typically {_travel(travels[0].typical, measures)}, {_range(travels[0], measures)}; "
        f"{_length(curve.separations[-1], measures)} apart {_travel(travels[-1].typical, measures)}, "
        f"{_range(travels[-1], measures)}.",
    ]
    for apart, travel in curve.built.items():
        text.append(
            f"Worked at {_length(apart, measures)}: {_travel(travel.typical, measures)}, likely "
            f"{_between((travel.low, travel.high), measures)}, {_range(travel, measures)}."
        )
    names = ["One of them"] if len(curve.alone) == 1 else [f"The {_short(b)} one" for b in joint.bearings]
    text += [f"{name} alone: {_travel(one.typical, measures)}." for name, one in zip(names, curve.alone)]
    text.append(_limit_met(curve, wanted, measures))
    see = _kept_from(curve, wanted, measures)
    if curve.with_fork:
        seen = sorted(travel for _, travel in curve.with_fork)
        text.append(f"With the play of the screw in a fork: {_between(seen, measures)}.")
    if curve.with_arm:
        text.append(
            "Not drawn: with the arm loose on the shoulder between the bearings, "
            f"{_between(curve.with_arm, measures)}."
        )
    how = (
        "Go up from a separation: the full line is the travel with all parts at the middle of their limits, "
        "the dark band holds 9 of 10 joints, the pale band every part within its limits. "
        "A pair keeps the limit where the pale band stays under the dashed line."
        + " Open diamonds add the play of the screw in a fork."
        * bool(curve.with_fork)
    )
    return Told(title, " ".join(text), how, see)


def _kept_from(curve, wanted, measures):
    """The one thing to see: where the limit is kept whatever the parts, and that it takes two bearings."""
    safe, travels = curve.within(wanted), [one.typical for one in curve.alone]
    if safe is None:
        kept = "Some pairs pass the limit at every separation drawn: measure your parts"
    elif safe == curve.separations[0]:
        kept = "The limit is kept at every separation drawn"
    else:
        kept = f"The limit is kept from {_length(safe, measures)} apart on"
    times = min(travels) / list(curve.built.values())[-1].typical
    return (
        f"{kept}; one bearing alone wobbles {show_number(times, 2)} times as much as the widest pair worked."
    )


def _limit_met(curve, wanted, measures):
    told = f"Limit: {_travel(wanted, measures)}."
    safe = curve.within(wanted)
    if safe is None:
        return f"{told} No separation drawn keeps every joint under it."
    if safe == curve.separations[0]:
        return f"{told} Every joint drawn stays under it."
    return f"{told} From {_length(safe, measures)} apart every joint stays under it."


def and_more(name: str, line) -> str:
    """Words beside a line that several pairs share."""
    return f"{name} +{len(line) - 1}" if len(line) > 1 else name


def kit_wobble(kit, what: str, lines, wanted: float, measures: Measures, left_out=()):
    """What is said of pairs of a kit."""
    arms = _length(lines[0][0].joint.arm, measures)
    text = [f"Typical travel of the arm tip, {arms} from the axis; limit {_travel(wanted, measures)}."]
    ranked = sorted((*lines, *left_out), key=lambda line: list(line[0].built.values())[-1].typical)
    for line in ranked:
        built = list(line[0].built.items())
        (near, first), (far, last) = built[0], built[-1]
        also = f"; {', '.join(_ids(curve.joint) for curve in line[1:])} alike" if len(line) > 1 else ""
        off = " (not drawn)" if line in left_out else ""
        text.append(
            f"{upper_first(pair_words(line[0].joint))}, {_ids(line[0].joint)}{off}: "
            f"{_travel(first.typical, measures)} at {_length(near, measures)} apart, "
            f"{_travel(last.typical, measures)} at {_length(far, measures)}{also}."
        )
    steadiest, slackest = (line[0].joint for line in (ranked[0], ranked[-1]))
    text.append(
        f"Each at its widest, {pair_words(steadiest)}, {_ids(steadiest)}, wobble least, "
        f"{pair_words(slackest)}, {_ids(slackest)}, most."
    )
    how = (
        "Each line is one pair with all parts at the middle of their limits, its markers are separations "
        "that the kit builds; lower is steadier. How far a pair strays from its line, its own chart shows."
    )
    if any(len(line) > 1 for line in lines):
        how += " A number after a plus says how many more pairs lie on the same line."
    title = f"{upper_first(what)} of the {kit.title}, typical wobble against separation"
    return Told(title, " ".join(text), how, _halved(lines[0][0], measures))


def _halved(curve, measures):
    """The one thing to see: what setting the bearings farther apart does to the first line."""
    (near, first), *_, (far, last) = [*curve.built.items()] * (2 if len(curve.built) == 1 else 1)
    if near == far:
        return f"{upper_first(pair_words(curve.joint))}: {_travel(first.typical, measures)}."
    return (
        f"Set farther apart, every pair wobbles less: {pair_words(curve.joint)} "
        f"{_travel(first.typical, measures)} at {_length(near, measures)}, {_travel(last.typical, measures)} "
        f"at {_length(far, measures)}."
    )


def _ids(joint) -> str:
    return " and ".join(dict.fromkeys(bearing.id for bearing in joint.bearings))


def rule_beside_truth(curve, rule, measures: Measures):
    """What is said of the rule of thumb."""
    told = []
    for place in (curve.separations[0], *curve.built):
        says, true = (float(np.interp(place, curve.separations, y)) for y in (rule, curve.along("typical")))
        told.append(
            f"{_length(place, measures)} apart the rule says {_travel(says, measures)}, "
            f"{show_number(says / true, 3)} times the true {_travel(true, measures)}."
        )
    lengths = curve.results[0].inputs["length_1"].typical
    text = (
        f"{upper_first(pair_words(curve.joint))}, each {_length(lengths, measures)} long, typical clearance. "
        + " ".join(told)
    )
    how = (
        "The rule of thumb, clearance over separation, takes each bush for a thin ring at its middle. A bush "
        "stops the shaft at its outer ends, so the true wobble is smaller; the shaded part is what the rule "
        "adds, most where bushes stand close."
    )
    see = f"The rule frightens more than it should: {told[0][0].lower()}{told[0][1:]}"
    return Told("Clearance over separation, the rule of thumb, beside the truth", text, how, see)


def shares(of: str, bars: list[tuple[str, list[tuple[str, float]]]]):
    """What is said of bars of causes."""
    told = [
        f"{upper_first(heading)}: " + ", ".join(share(cause, size) for cause, size in parts) + "."
        for heading, parts in bars
    ]
    largest = Counter(max(parts, key=lambda part: part[1])[0] for _, parts in bars)
    cause, count = largest.most_common(1)[0]
    see = f"{upper_first(cause)} is the largest cause in {count} of {len(bars)}."
    if len(bars) == 1:
        see = f"The largest cause is {cause}."
    told.append(see)
    how = (
        "A bar is the typical wobble of one joint, 100 % in all; each part of it is what goes when that "
        "cause alone is taken away. Right of zero a cause adds play, left of zero it takes play away. "
        f"Meant are: {'; '.join(CAUSES[cause] for cause in CAUSES)}."
    )
    return Told(f"Causes of the wobble: {of}", " ".join(told), how, see)


def shares_table(bars, causes: Iterable[str]) -> list[tuple[str, ...]]:
    """The same as a table, headings first."""
    return [("joint", *causes)] + [
        (heading, *(percent(100 * found.get(cause, 0.0)) for cause in causes)) for heading, found in bars
    ]


def reactions(places, first, second):
    """What is said of the reactions against the place of the load."""

    def at(place):
        return (plain(float(np.interp(place, places, line))) for line in (first, second))

    told = []
    for words, place in (
        ("at bearing 1", -1),
        ("midway between the bearings", -0.5),
        ("at bearing 2", 0),
        ("half a separation beyond bearing 2", 0.5),
        ("one separation beyond", 1),
        ("two beyond", 2),
    ):
        one, two = at(place)
        told.append(f"{words}: {one} and {two}")
    text = f"Reactions of bearing 1 and bearing 2, as multiples of the load, with the load {'; '.join(told)}."
    how = (
        "Find the place of the load along the bottom and read both lines: how many times the load each "
        "bearing carries. Below zero bearing 1 pulls the other way, so an overhung load presses bearing 2 "
        "with more than itself."
    )
    see = (
        "With the load between the bearings neither carries more than it; one separation beyond, bearing 2 "
        f"carries {list(at(1))[1]} times the load."
    )
    return Told("Reactions against the place of the load, from straddle to overhung", text, how, see)


def deflection(kit, joint: Joint, curves, measures: Measures):
    """What is said of the deflection against the place of the load."""
    diameter = joint.shaft.shoulder_diameter.typical
    text = [
        f"Load {measures.value(joint.radial, 'N').line}; {measures.value(joint.axial, 'N').line} along the "
        f"screw at {_length(joint.arm, measures)} from its axis, turned the worse way; shoulder "
        f"{measures.size(diameter).line}, "
        f"Young's modulus {measures.value(joint.youngs_modulus, 'MPa').line}."
    ]
    for separation, places, bent in curves:
        between = places <= 0
        text.append(
            f"{_length(separation, measures)} apart: at most {measures.bend(bent[between].max()).line} with "
            f"the load between the bearings, {measures.bend(bent[-1]).line} with the load "
            f"{_length(places[-1], measures)} beyond bearing 2."
        )
    how = (
        f"{FIND_THE_LOAD} The height is how far the screw itself bends there. It comes on top of the "
        "wobble, which is usually far larger."
    )
    _, places, bent = curves[-1]
    times = bent[-1] / bent[places <= 0].max()
    see = f"Beyond the bearings the screw bends up to {show_number(times, 2)} times as much as between them."
    return Told(f"Deflection against the place of the load: {kit.title}", " ".join(text), how, see)


def _length(mm, measures):
    return measures.value(float(mm), "mm").line


def _travel(mm, measures):
    return measures.value(float(mm), "mm", 2).line


def _between(rising, measures):
    """The first and the last of some travels; one number where they print alike."""
    low, high = (measures.value(travel, "mm", 2) for travel in (rising[0], rising[-1]))
    return low.line if low.first == high.first else measures.range(rising[0], rising[-1], "mm").line


def _range(travel, measures):
    return f"within limits {_between((travel.least, travel.most), measures)}"
