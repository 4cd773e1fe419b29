"""Tilt of any pair of like bearings, without dimensions, beside the rule of thumb and one bush alone."""

import numpy as np

from guidegen.guide.charts import words
from guidegen.guide.charts.style import ROOM, End, Told, plot, width_of
from guidegen.theory import freeplay

FARTHEST = 8.0  # lengths of a bush
POINTS = 60
READ_AT = (1, 2, 3, 5, 8)
RATIO = "separation over length of a bush, _S_ / _L_"


def tilts(ratios: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Tilt of two like bushes over that of the rule of thumb, and over that of one of them alone.

    ratios: separation over length, from 1, where the bushes touch.
    """
    clearance = length = 1.0  # tilt is as the clearance, and lengths count by their ratio alone
    span = freeplay.outer_span(ratios, length, length)
    tilt = freeplay.bush_pair_tilt(clearance, clearance, span, length, length)
    rule = freeplay.ball_pair_tilt(clearance, clearance, ratios, np.inf, np.inf)
    return tilt / rule, tilt / freeplay.bush_tilt(clearance, length)


def tilt_over_length(found, id: str):
    """Two like bushes in line, over how far apart they are: a chart for every size and clearance."""
    ratios = np.geomspace(1, FARTHEST, POINTS)
    by_rule, by_one = tilts(ratios)
    told = _words()
    ends = [
        End(FARTHEST, 1.0, "rule, balls", "ink"),
        End(FARTHEST, by_rule[-1], "over the rule", 1),
        End(FARTHEST, by_one[-1], "over one alone", 2),
    ]
    with plot(found, id, told, margins=(48, 14, 40, 14)) as drawn:
        room = ROOM + max(width_of(end.text) for end in ends)
        drawn.axes.set(xlim=(1, 1 + (FARTHEST - 1) * drawn.width / (drawn.width - room)), ylim=(0, 1.15))
        drawn.frame()
        drawn.across(RATIO, 1, FARTHEST)
        drawn.up("tilt of the pair, as a share", high=1.0)
        drawn.level(1.0, 1, FARTHEST, "ink", linestyle=(0, (9, 3)))
        drawn.line(1, ratios, by_rule)
        drawn.line(2, ratios, by_one)
        drawn.label_ends(ends)


def _words():
    told = []
    for ratio, by_rule, by_one in zip(READ_AT, *tilts(np.array(READ_AT, float))):
        told.append(
            f"{ratio} length{'s' if ratio > 1 else ''} apart {words.plain(by_rule)} of the rule and "
            f"{words.plain(by_one)} of one alone"
        )
    text = (
        "Tilt of two like bushes in line, as a share of clearance over separation (the rule of thumb) and of "
        f"the tilt of one bush alone, with the bushes {'; '.join(told)}. Ball bearings guide in their middle "
        "plane alone: for two of them the rule is right."
    )
    how = (
        "Divide the separation by the length of a bush and go up. The full line says how much of clearance "
        "over "
        "separation is left; the dashed line how much of the tilt of a single bush. It holds for every size "
        "and clearance."
    )
    _, (by_one,) = tilts(np.array([READ_AT[2]], float))
    see = (
        f"Three lengths apart, two bushes tilt {words.plain(by_one)} times as much as one alone; farther "
        "apart it pays less and less."
    )
    return Told("Tilt of any two like bushes, by how far apart they are", text, how, see)
