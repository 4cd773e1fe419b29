"""Wobble of a pair against its separation, over the limits of its parts."""

import numpy as np

from guidegen.guide.change import housing_words
from guidegen.guide.chart import ROLES, Figure, chart
from guidegen.guide.curves import wobble_over_separation
from guidegen.guide.edition import Edition
from guidegen.guide.pairs import Group
from guidegen.guide.templates import ready, upper_first
from guidegen.guide.wobble import wanted_travel
from guidegen.joint.records import Result
from guidegen.joint.words import pair_words

FARTHEST = 1.35  # times the widest separation that the kit builds: how far a curve goes on
HEADROOM = 1.25


def wobble(group: Group, result: Result, edition: Edition, number: int) -> Figure:
    """Wobble of a pair against its separation, between its limits, and with one of its bearings alone."""
    joint, measures = result.joint, edition.measures
    built = sorted(
        {round(r.joint.separation, 2) for r in group.worked if housing_words(r.joint) == housing_words(joint)}
    )
    curve = wobble_over_separation(result, edition.course, FARTHEST * built[-1])
    wanted = wanted_travel(edition.course, joint)
    near, far = (curve.at(apart) for apart in (built[0], built[-1]))

    def travel(mm):
        return measures.value(mm, "mm", 2).line

    title = f"Wobble of {pair_words(joint)} against separation, {housing_words(joint)}"
    says = (
        f"At {measures.value(built[0], 'mm').line} apart the tip of the arm, "
        f"{measures.value(joint.arm, 'mm').line} long, travels "
        f"{travel(near.typical)}, between {travel(near.least)} and {travel(near.most)}; at "
        f"{measures.value(built[-1], 'mm').line} it is {travel(far.typical)}, at most {travel(far.most)}. "
        f"One of these bearings alone: {travel(curve.alone)}. Wanted: at most {travel(wanted)}."
    )
    name = f"w{number}"
    with chart(name, title, says) as drawn:
        _draw_wobble(drawn, curve, built, wanted)
    return Figure(name, upper_first(title), ready(drawn.svg), says)


def _draw_wobble(drawn, curve, built, wanted):
    axes, apart = drawn.axes, curve.separations
    least, typical, most = (
        np.array([getattr(band, end) for band in curve.bands]) for end in ("least", "typical", "most")
    )
    top = HEADROOM * max(most.max(), wanted)
    axes.set(
        xlim=(apart[0], apart[-1]),
        ylim=(0, top),
        xlabel="separation of the bearing middles, mm",
        ylabel="total travel at the arm, mm",
    )
    axes.fill_between(apart, least, most, color=ROLES["a"], alpha=0.22, linewidth=0)
    for line, dashes in ((least, (2, 2)), (most, (2, 2))):
        axes.plot(apart, line, color=ROLES["a"], linewidth=0.9, dashes=dashes)
    axes.plot(apart, typical, color=ROLES["a"])
    axes.plot(built, np.interp(built, apart, typical), "o", color=ROLES["a"], markersize=4.5)
    at = int(0.3 * len(apart))
    for line, word in ((most, "most"), (typical, "typical"), (least, "least")):
        axes.annotate(
            word, (apart[at], line[at]), xytext=(3, 3), textcoords="offset points", color=ROLES["a"]
        )
    _level(axes, wanted, "wanted, at most", ROLES["limit"], "--", above=wanted >= curve.alone)
    if curve.alone <= top:
        _level(axes, curve.alone, "one bearing alone", ROLES["b"], "-.", above=wanted < curve.alone)
    else:
        axes.annotate(
            f"one bearing alone: {curve.alone:.2g} mm, far above",
            (0.98, 0.97),
            xycoords="axes fraction",
            ha="right",
            va="top",
            color=ROLES["b"],
        )
    drawn.inches_too()


def _level(axes, height, words, colour, dashes, above):
    """A line across the chart with its words above or below it, at the right."""
    axes.axhline(height, color=colour, linestyle=dashes, linewidth=1.3)
    axes.annotate(
        words,
        (1, height),
        xycoords=("axes fraction", "data"),
        xytext=(-3, 3 if above else -4),
        textcoords="offset points",
        ha="right",
        va="bottom" if above else "top",
        color=colour,
    )
