"""How hard a joint is to start: force at the arm against separation, kind of bearing by kind."""

from dataclasses import replace

import numpy as np

from guidegen.guide.charts import words
from guidegen.guide.charts.style import INCHES, KEY, LIMIT, Entry, Other, Told, plot
from guidegen.guide.measures import GRAM, Measures
from guidegen.guide.trials import KitTrials
from guidegen.joint.findings import Findings
from guidegen.joint.loads import carried
from guidegen.joint.records import Quantity, Result
from guidegen.joint.rolling import rolling
from guidegen.joint.sliding import sliding
from guidegen.joint.turning import turning
from guidegen.joint.working import Working
from guidegen.kit.records import Course
from guidegen.theory import statics

LOAD = "medium"
POINTS = 14
NEAREST, FARTHEST = 0.75, 2.2  # times the separation of the joint tried
GRAMS = Other("grams on a kitchen scale", statics.weight(GRAM, statics.STANDARD_GRAVITY))
LOWEST = 2.0  # times below the easiest line: where the scale begins


def start_force(result: Result, course: Course, separation: float) -> Quantity:
    """Force at the arm that starts the joint of a result with its bearings another distance apart.

    All else stays: the place of the load beyond bearing 2, the faces that rub.
    """
    joint = replace(result.joint, separation=separation)
    found = Findings(joint, course)
    load = carried(Working(), joint, result.inputs["overhang"].value)
    turning(found, result.stack, load, sliding(found, load), rolling(found, load))
    return found.quantities["start_force"]


def force_over_separation(found, id: str, trials: KitTrials, course: Course):
    """Typical force to start, for each kind of pair of a kit, with the range of the bushes."""
    measures = Measures(course.units_first)
    results = [tried.trials[LOAD, "swing"] for tried in trials.tried]
    apart = sorted(result.joint.separation for result in results)
    separations = np.linspace(NEAREST * apart[0], FARTHEST * apart[-1], POINTS)
    lines = [[start_force(result, course, float(s)) for s in separations] for result in results]
    limit = course.target_start_force * course.target_arm / results[0].joint.arm
    told = _words(trials, results, lines, separations, limit, measures)
    names = words.brief_pairs([result.joint for result in results])
    near, far = separations[0], separations[-1]
    entries = [
        (line[-1].typical, Entry(number, name)) for number, (name, line) in enumerate(zip(names, lines), 1)
    ]
    entries.append((limit, Entry("ink", f"wanted at most {words.plain(limit)} N")))
    key = [entry for _, entry in sorted(entries, key=lambda one: -one[0])]
    with plot(found, id, told, key=key) as drawn:
        drawn.axes.set(yscale="log")
        highest = max(limit, *(force.band.most for line in lines for force in line))
        lowest = min(force.typical for line in lines for force in line) / LOWEST
        top = highest * (highest / lowest) ** (2 * KEY / drawn.height)
        drawn.axes.set(xlim=(near, far), ylim=(lowest, top))
        drawn.frame()
        drawn.across("separation of the bearing middles _S_, mm", near, far, INCHES)
        drawn.up("force at the arm to start _F_h_, N", GRAMS)
        drawn.level(limit, near, far, "ink", **LIMIT)
        for number, (result, line) in enumerate(zip(results, lines), 1):
            if result.joint.bearings[0] == result.joint.bearings[1]:
                low, high = ([getattr(force.band, end) for force in line] for end in ("least", "most"))
                drawn.band(separations, np.maximum(low, lowest), high, 0.12, role=number)
            drawn.line(number, separations, [force.typical for force in line])
            drawn.markers(number, [result.joint.separation], [result.quantities["start_force"].typical])
        drawn.tell_markers([(1, False, "joint tried")])


def _words(trials, results, lines, separations, limit, measures: Measures):
    joint = results[0].joint
    text = [
        f"Force at the end of a balanced arm of {measures.value(joint.arm, 'mm').line} that starts the "
        "joint, load "
        f"{measures.value(trials.loads[LOAD], 'N').line} and {measures.value(joint.axial, 'N').line} along "
        "the screw."
    ]
    for tried, line in zip(trials.tried, lines):
        near, far = line[0], line[-1]
        text.append(
            f"{tried.kind.words[0].upper()}{tried.kind.words[1:]}: {_n(near, measures)} with the bearings "
            f"{measures.value(separations[0], 'mm').line} apart, {_n(far, measures)} "
            f"{measures.value(separations[-1], 'mm').line} apart."
        )
    ranked = sorted(zip(lines, trials.tried), key=lambda pair: pair[0][0].typical)
    (easiest, one), (hardest, other) = ranked[0], ranked[-1]
    times = words.plain(round(hardest[0].typical / easiest[0].typical))
    see = (
        f"{other.kind.words[0].upper()}{other.kind.words[1:]} take about {times} times the force of "
        f"{one.kind.words}."
    )
    text.append(see)
    text.append(f"The course wants at most {measures.value(limit, 'N').line}.")
    how = (
        "Go up from the separation: the line is the force at typical friction, the band from least to "
        "greatest "
        "friction; the right-hand scale is what a kitchen scale would show when it pushes at the arm. "
        "Bearings "
        "farther apart carry less of an overhung load, so they start more easily. An arm that is not "
        "balanced "
        "needs its own weight as well."
    )
    return Told(f"Force to start turning against separation: {trials.kit.title}", " ".join(text), how, see)


def _n(force, measures):
    low, high = force.band.least, force.band.most
    return f"{measures.value(force.typical, 'N', 2).line} (from {measures.range(low, high, 'N').line})"
