"""Worked steps for a page: what bears on its numbers, equal steps of two bearings told once."""

import re
from collections import Counter
from dataclasses import dataclass, replace
from functools import cache
from typing import Collection, NamedTuple

from markupsafe import Markup

from guidegen.guide.left_out import left_out
from guidegen.guide.models import model_of, models, title_of
from guidegen.guide.names import step_words
from guidegen.guide.reasons import AT_EDGE, EDGE
from guidegen.guide.templates import ready
from guidegen.joint.records import Result, Step
from guidegen.kit.reader import read_symbols
from guidegen.notation.mathml import EQUALS, GAP, mathml
from guidegen.notation.worked import worked
from guidegen.numbers import MINUS
from guidegen.theory.declare import FORMULAS

UNTOLD = {"offset_limit", "inner_gap", "face_tilt"}  # neither in the tables of numbers nor judged, as a rule
QUESTIONS = {
    "room": ("Room to move", ("clearance", "pressfit", "holes", "grip", "heat", "freeplay", "stack")),
    "carries": ("What it carries", ("statics", "beam", "strength", "clamp", "nuts")),
    "lasts": ("How long it lasts", ("sliding", "ball")),
    "effort": ("How hard it turns", ("friction",)),
    "keeping": ("How it is kept", ("corrosion",)),
}
MATH = "<math>"
SHORT, COMMA = '<mo stretchy="false">', "<mo>,</mo>"
NEGATIVE = re.compile(f"<mrow><mo>{MINUS}</mo><mn>([^<]*)</mn></mrow>")


@dataclass(frozen=True)
class Line:
    """One step as a page shows it: what it gives, the formula in letters, once, and with numbers put in."""

    gives: tuple[str, ...]  # quantity names; two where both bearings are alike
    words: str
    formula: str
    model: str  # page of the method that explains it
    letters: Markup  # "" where the formula stands further up
    numbers: Markup
    source: str  # "" where it is that of the section or stands further up
    held: bool
    holds: str
    about: str
    first: bool = True  # whether its source is named for the first time in its section


class Question(NamedTuple):
    """What is asked of a joint, and the models that answer it."""

    id: str
    title: str
    sections: list["Section"]


class Section(NamedTuple):
    """The steps of one model, where most of them come from, and what needs no working."""

    model: str
    title: str
    source: str
    lines: list[Line]
    remarks: list[str]


def sections_of(result: Result, apart: Collection[str] = ()) -> list[Section]:
    """The steps of a result under the titles of their models, in the order of the page of methods.

    apart: names of what is worked out on another page, without the number of the bearing.
    """
    spared = left_out(result)
    here = [lot for lot in spared if not _all_apart(lot, apart)]
    return _sections(_told(result, spared, lambda stem: stem not in apart), here)


def sections_apart(result: Result, apart: Collection[str]) -> list[Section]:
    """Only the steps that `sections_of` leaves to another page."""
    spared = left_out(result)
    there = [lot for lot in spared if _all_apart(lot, apart)]
    return _sections(_told(result, spared, lambda stem: stem in apart), there)


def _all_apart(lot, apart):
    """Whether a sentence replaces nothing but steps that another page works out."""
    return bool(lot.names) and all(_stem(name) in apart for name in lot.names)


def _told(result, spared, wanted):
    """The steps that a page tells, of those whose name without the bearing's number is wanted."""
    idle = {name for lot in spared for name in lot.names}
    judged = {verdict.about for verdict in result.verdicts}
    return [
        step
        for step in result.steps
        if step.gives not in idle
        and (step.gives not in UNTOLD or "offset" in judged)
        and wanted(_stem(step.gives))
    ]


def _stem(name):
    stem, _, number = name.rpartition("_")
    return stem if number in ("1", "2") else name


def _sections(told, spared):
    chapters: dict[str, list] = {}
    for gives, step in _alike(told):
        chapters.setdefault(_chapter(step), []).append((gives, step))
    remarks: dict[str, dict[str, None]] = {}
    for lot in spared:
        remarks.setdefault(lot.model, {})[lot.sentence] = None
    order = [model for model in models() if model in chapters or model in remarks]
    return [_section(model, chapters.get(model, ()), list(remarks.get(model, ()))) for model in order]


def _chapter(step):
    return model_of(FORMULAS[step.formula])


def questions_of(sections: list[Section]) -> list[Question]:
    """The sections under the questions that the page of the joint answers."""
    asked = [
        Question(question, title, [part for part in sections if part.model in answering])
        for question, (title, answering) in QUESTIONS.items()
    ]
    return [question for question in asked if question.sections]


def _alike(steps) -> list[tuple[tuple[str, ...], Step]]:
    """Each different step once, with the names of all it gives."""
    found: dict[tuple, tuple[list[str], Step]] = {}
    for step in steps:
        key = step.formula, tuple(step.values.items()), step.gives.rstrip("12"), step.about
        found.setdefault(key, ([], step))[0].append(step.gives)
    return [(tuple(dict.fromkeys(gives)), step) for gives, step in found.values()]


def _section(model, steps, remarks):
    sources = Counter(step.source for _, step in steps).most_common(1)
    source = sources[0][0] if sources else ""
    lines, printed, cited = [], set(), {source}
    for gives, step in steps:
        line = _line(gives, step, source, step.formula in printed)
        lines.append(replace(line, first=line.source not in cited))
        printed.add(step.formula)
        cited.add(line.source)
    return Section(model, title_of(model), source, lines, remarks)


def _line(gives, step: Step, source, printed) -> Line:
    formula, symbols = FORMULAS[step.formula], read_symbols()
    letters = "" if printed else _letters(step.formula)
    numbers = _numbers(step.formula, tuple(step.values.items()), step.result)
    if letters.count(MATH) == numbers.count(MATH) == 1:  # the letters' own left side stands above
        numbers = MATH + numbers[numbers.index(EQUALS) :]
    return Line(
        gives,
        _words(gives, symbols[formula.gives].meaning, step.formula),
        step.formula,
        model_of(formula),
        ready(letters),
        ready(numbers),
        "" if printed or step.source == source else step.source,
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
    """Formulas whose display, spaces and fences style sheet and browser see to, to spare a page.

    The browser leaves a space behind a comma; a number takes its minus with it.
    """
    spared = display.replace(f"{COMMA}{GAP}", COMMA).replace(GAP, "<mspace/>").replace(SHORT, "<mo>")
    return NEGATIVE.sub(f"<mn>{MINUS}\\1</mn>", spared.replace('<math display="block">', MATH))


def _words(gives, meaning, formula):
    """What a step gives; of two alike bearings both are named."""
    words = EDGE if formula in AT_EDGE else step_words(gives[0], meaning)
    return f"{words} and {gives[1].rpartition('_')[2]}" if len(gives) > 1 else words
