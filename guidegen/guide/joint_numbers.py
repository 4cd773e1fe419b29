"""The numbers of a joint as its page tells them: play, shares of causes, checks, inputs."""

import re
from typing import NamedTuple

from guidegen.guide.chapters import BAND_HEADS, Chapter, Table, band_row
from guidegen.guide.measures import Both, Measures
from guidegen.guide.names import CAUSES, quantity_words
from guidegen.guide.wobble import band_of, clearances_alike
from guidegen.joint.records import STATES, Result, Verdict
from guidegen.units import Band

PLAY = ("arm_play", "tilt", "clearance_1", "clearance_2", "load_play", "end_play")
DESIGN, CEILING = "_design", "_ceiling"
_AT_BEARING = re.compile(" at bearing [12]")


class Checked(NamedTuple):
    """A check as the page tells it; `source` of its limit, and whether it is named for the first time."""

    verdict: Verdict
    why: str
    source: str
    first: bool


def room_chapter(result: Result, measures: Measures) -> Chapter:
    """Room to move: each with its least, typical, most and likely range."""
    rows = []
    for name in PLAY:
        if name not in result.quantities or name == "clearance_2" and clearances_alike(result):
            continue
        alike = name == "clearance_1" and clearances_alike(result)
        rows.append(band_row(result, name, measures, "clearance of each bearing" if alike else ""))
    arm = measures.value(result.joint.arm, "mm").line
    caption = f"Over the limits of every part. Likely: nine in ten. Arm {arm}."
    return Chapter("room", "Room to move", (Table("Play", caption, BAND_HEADS, tuple(rows)),))


def input_rows(result: Result, measures: Measures) -> list[tuple[str, Both]]:
    """(words, value) of every input, its bearing a bare number; what is equal at both stands once."""
    rows: dict[tuple, str] = {}
    for name, quantity in result.inputs.items():
        stem, _, number = name.rpartition("_")
        words, given = quantity_words(name), _given(quantity, measures)
        if stem.endswith(CEILING):  # told with its design value, in one row
            continue
        if stem.endswith(DESIGN):
            ceiling = result.inputs[name.replace(DESIGN, CEILING)].value
            words = f"{quantity_words(name.replace(DESIGN, ''))}: stay below, never above"
            given = measures.range(quantity.value, ceiling, quantity.unit, 3)
        key = (stem if number in ("1", "2") else name, given)
        rows[key] = f"{rows[key]} and {number}" if key in rows else words
    return [(words.replace(", bearing ", " "), given) for (_, given), words in rows.items()]


def _given(quantity, measures: Measures) -> Both:
    """An input as the table of inputs prints it: a size with its limits, or one number."""
    band = band_of(quantity)
    if quantity.unit == "mm":
        return measures.limits(band)
    if band.width:
        return measures.range(band.least, band.most, quantity.unit, 3)
    return measures.value(band.typical, quantity.unit, 4)


def share_rows(result: Result) -> list[tuple[str, int]]:
    """Bars of the shares of causes, in per cent; those that change nothing are left out."""
    shown = [(CAUSES[cause], round(100 * share)) for cause, share in result.shares.items()]
    return [(words, percent) for words, percent in shown if percent]


def extra_play(result: Result) -> tuple[str, Band] | None:
    """Play beside the bearings' own: (words, tilt) of fork cheeks or of an arm on the shoulder."""
    for name, words in (
        ("cheek_tilt", "the screw in the fork's cheeks"),
        ("arm_tilt", "the arm's own hole on the shoulder"),
    ):
        if name in result.quantities:
            return words, result.quantities[name].band
    return None


def counts_of(verdicts: tuple[Verdict, ...]) -> dict[str, int]:
    """How many checks are in each state."""
    return {state: sum(verdict.state == state for verdict in verdicts) for state in STATES}


def checks_of(verdicts: tuple[Verdict, ...]) -> list[Checked]:
    """Each verdict and its reason; what is alike at both bearings stands once."""
    found: dict[tuple, list[Verdict]] = {}
    for verdict in verdicts:
        found.setdefault((verdict.about, verdict.state, _AT_BEARING.sub("", verdict.why)), []).append(verdict)
    rows, named = [], set()
    for same in found.values():
        one = same[0]
        why = _AT_BEARING.sub(" at each bearing", one.why) if len(same) > 1 else one.why
        source = "" if one.limit is None else one.source
        rows.append(Checked(one, why, source, source not in named))
        named.add(source)
    return rows
