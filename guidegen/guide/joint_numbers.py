"""The numbers of a joint as its page tells them: play, loads, shares of causes, checks, inputs."""

import re
from typing import NamedTuple

from guidegen.guide.measures import Both, Measures
from guidegen.guide.names import CAUSES, quantity_words
from guidegen.guide.wobble import band_of, clearances_alike
from guidegen.joint.records import STATES, Result, Verdict
from guidegen.units import Band

PLAY = ("arm_play", "tilt", "clearance_1", "clearance_2", "load_play", "end_play")
LOADS = (
    "reaction_1",
    "reaction_2",
    "bearing_load_1",
    "bearing_load_2",
    "shaft_moment",
    "bending_stress",
    "deflection",
    "thread_room",
)
_AT_BEARING = re.compile(" at bearing [12]")


class Row(NamedTuple):
    """A line of the table of numbers: the four of a band, or one value alone."""

    name: str
    words: str
    cells: tuple[Both, ...]


def play_rows(result: Result, measures: Measures) -> list[Row]:
    """Room to move: each with its least, typical, most and likely range."""
    rows = []
    for name in PLAY:
        if name not in result.quantities or name == "clearance_2" and clearances_alike(result):
            continue
        quantity, words = result.quantities[name], quantity_words(name)
        if name == "clearance_1" and clearances_alike(result):
            words = "clearance of each bearing"
        band = band_of(quantity)
        cells = [measures.value(x, quantity.unit, 2) for x in (band.least, band.typical, band.most)]
        likely = measures.range(*quantity.likely, quantity.unit) if quantity.likely else Both("", "")
        rows.append(Row(name, words, (*cells, likely)))
    return rows


def load_rows(result: Result, measures: Measures) -> list[Row]:
    """Forces, moment, stress, deflection: one value each."""
    rows = []
    for name in LOADS:
        if name not in result.quantities:
            continue
        quantity, words = result.quantities[name], quantity_words(name)
        value = measures.bend(quantity.typical) if name == "deflection" else measures.quantity(quantity)
        rows.append(Row(name, words, (value,)))
    return rows


def input_rows(result: Result, measures: Measures) -> list[tuple[str, Both]]:
    """(words, value) of every input; what is equal at both bearings stands once."""
    rows: dict[tuple, str] = {}
    for name, quantity in result.inputs.items():
        stem, _, number = name.rpartition("_")
        key = (stem if number in ("1", "2") else name, quantity)
        rows[key] = f"{rows[key]} and {number}" if key in rows else quantity_words(name)
    return [(words, _given(quantity, measures)) for (_, quantity), words in rows.items()]


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


def checks_of(verdicts: tuple[Verdict, ...]) -> list[tuple[Verdict, str]]:
    """Each verdict and its reason; what is alike at both bearings stands once."""
    found: dict[tuple, list[Verdict]] = {}
    for verdict in verdicts:
        found.setdefault((verdict.about, verdict.state, _AT_BEARING.sub("", verdict.why)), []).append(verdict)
    return [
        (same[0], _AT_BEARING.sub(" at each bearing", same[0].why) if len(same) > 1 else same[0].why)
        for same in found.values()
    ]
