"""Worked steps for a page: what bears on its numbers, equal steps of two bearings told once."""

from collections import Counter
from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

from markupsafe import Markup

from guidegen.guide.models import model_of, title_of
from guidegen.guide.names import QUANTITIES, quantity_words
from guidegen.guide.templates import ready
from guidegen.joint.records import Result, Step
from guidegen.kit.reader import read_symbols
from guidegen.notation.mathml import mathml
from guidegen.notation.worked import worked
from guidegen.theory.declare import FORMULAS

# Where nothing is pressed, what would follow from pressure is not worked out: a sentence stands for it.
NO_PRESSURE = {
    "press_pressure": (
        {"hub_ratio", "bush_ratio", "ring_ratio", "press_pressure", "closure"},
        "Nothing presses on the bearing in its hole: no pressure, no closure",
    ),
    "ring_pressure": (
        {"inner_ring_ratio", "ring_pressure", "growth"},
        "The inner ring slides on the shaft: it does not grow",
    ),
}
UNTOLD = {
    "offset_limit",
    "inner_gap",
    "thrust",
    "face_tilt",
}  # neither in the tables of numbers nor judged, as a rule


@dataclass(frozen=True)
class Line:
    """One step as a page shows it: what it gives, the formula in letters, once, and with numbers put in."""

    gives: tuple[str, ...]  # quantity names; two where both bearings are alike
    words: str
    formula: str
    model: str  # page of the method that explains it
    letters: Markup  # "" where the formula stands further up
    numbers: Markup
    source: str  # "" where it is that of the section
    held: bool
    holds: str
    about: str


class Section(NamedTuple):
    """The steps of one model, where most of them come from, and what needs no working."""

    model: str
    title: str
    source: str
    lines: list[Line]
    remarks: list[str]


def sections_of(result: Result) -> list[Section]:
    """The steps of a result under the titles of their models, in the order worked."""
    idle, remarks = _idle(result)
    judged = {verdict.about for verdict in result.verdicts}
    told = [
        step
        for step in result.steps
        if step.gives not in idle and (step.gives not in UNTOLD or "offset" in judged)
    ]
    chapters: dict[str, list] = {}
    for gives, step in _alike(told):
        chapters.setdefault(model_of(FORMULAS[step.formula]), []).append((gives, step))
    return [
        _section(model, steps, remarks if model == "clearance" else []) for model, steps in chapters.items()
    ]


def _idle(result):
    """Names of steps that only work out what no pressure does, and the sentences that stand for them."""
    idle, remarks = set(), []
    for step in result.steps:
        stem, _, number = step.gives.rpartition("_")
        if stem in NO_PRESSURE and step.result == 0:
            names, sentence = NO_PRESSURE[stem]
            idle |= {f"{name}_{number}" for name in names}
            remarks.append((sentence, number))
    said = Counter(sentence for sentence, _ in remarks)
    return idle, list(
        dict.fromkeys(
            f"{sentence}."
            if said[sentence] == len(result.joint.bearings)
            else f"{sentence}, at bearing {number}."
            for sentence, number in remarks
        )
    )


def _alike(steps) -> list[tuple[tuple[str, ...], Step]]:
    """Each different step once, with the names of all it gives."""
    found: dict[tuple, tuple[list[str], Step]] = {}
    for step in steps:
        key = step.formula, tuple(step.values.items()), step.gives.rstrip("12"), step.about
        found.setdefault(key, ([], step))[0].append(step.gives)
    return [(tuple(dict.fromkeys(gives)), step) for gives, step in found.values()]


def _section(model, steps, remarks):
    source = Counter(step.source for _, step in steps).most_common(1)[0][0]
    lines, printed = [], set()
    for gives, step in steps:
        lines.append(_line(gives, step, model, source, step.formula in printed))
        printed.add(step.formula)
    return Section(model, title_of(model), source, lines, remarks)


def _line(gives, step: Step, model, source, printed) -> Line:
    formula, symbols = FORMULAS[step.formula], read_symbols()
    letters = "" if printed else _letters(step.formula)
    numbers = _numbers(step.formula, tuple(step.values.items()), step.result)
    return Line(
        gives,
        _words(gives, symbols[formula.gives].meaning),
        step.formula,
        model,
        ready(letters),
        ready(numbers),
        "" if step.source == source else step.source,
        step.held,
        formula.holds,
        step.about,
    )


@cache
def _letters(name):
    return _lines(mathml(FORMULAS[name], read_symbols()))


@cache
def _numbers(name, values, result):
    """Many joints share a step; it is printed once for all of them."""
    return _lines(worked(FORMULAS[name], dict(values), result, read_symbols()))


def _lines(display):
    """Formulas whose display the style sheet decides: said sixty times, it would weigh on a page."""
    return display.replace('<math display="block">', "<math>")


def _words(gives, meaning):
    """What a step gives: by the name of the result, or what its symbol means for a number on the way."""
    stem, _, number = gives[0].rpartition("_")
    if gives[0] in QUANTITIES or stem in QUANTITIES and number in ("1", "2"):
        words = quantity_words(gives[0])
    else:
        words = f"{meaning}, bearing {number}" if number in ("1", "2") and number not in meaning else meaning
    return f"{words} and {gives[1].rpartition('_')[2]}" if len(gives) > 1 else words
