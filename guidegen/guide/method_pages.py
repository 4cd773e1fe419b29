"""The method: a page for each model, with every formula, its letters, source, range and derivation."""

import re
from typing import Iterator, NamedTuple

from markupsafe import Markup

from guidegen.guide.edition import Edition
from guidegen.guide.models import formulas_of, models, says, title_of
from guidegen.guide.page import Heading, Page
from guidegen.guide.templates import exists, fill, ready
from guidegen.kit.reader import read_symbols
from guidegen.notation.mathml import condition, inline, mathml
from guidegen.notation.spoken import spoken
from guidegen.theory.declare import Formula

_SHORT = re.compile(r"[,;:.(]| when ")  # where a first line has said what a formula gives


class Letter(NamedTuple):
    """A letter of a formula: as printed, what it means, its unit."""

    print: Markup
    meaning: str
    unit: str


class Shown(NamedTuple):
    """A declared formula as the method page shows it."""

    name: str
    title: str
    more: str
    math: Markup
    words: str
    letters: list[Letter]
    holds: Markup
    source: str
    at: str


def method_pages(edition: Edition) -> Iterator[Page]:
    """The index of models, then each model."""
    index = [
        (model, title_of(model), says(model), [shown(f) for f in formulas_of(model)]) for model in models()
    ]
    body = fill("method", models=index, course=edition.course)
    yield Page(
        "method.html",
        "How is it computed?",
        body,
        tuple(Heading(2, model, title) for model, title, *_ in index),
        in_search=True,
        description="The models behind the numbers, formula by formula.",
    )
    for model, title, first, formulas in index:
        derivation = f"derivation_{model}"
        text = ready(fill(derivation)) if exists(derivation) else ""
        body = fill(
            "model",
            root="../",
            title=title,
            says=first,
            formulas=formulas,
            derivation=text,
            cite=edition.citing("../"),
        )
        contents = [Heading(2, "model", "What the model takes in")] * bool(text) + [
            Heading(2, "formulas", "Formulas")
        ]
        contents += [Heading(3, formula.name, formula.title) for formula in formulas]
        yield Page(
            f"method/{model}.html",
            title,
            body,
            tuple(contents),
            in_search=True,
            description=f"{title}: {first}",
        )


def shown(formula: Formula) -> Shown:
    """A formula with everything that is said about it."""
    symbols = read_symbols()
    title, _, more = formula.says.partition("\n")
    names = dict.fromkeys([formula.gives, *(step for step, _ in formula.steps), *formula.arguments])
    letters = [
        Letter(ready(inline(symbols[name])), symbols[name].meaning, symbols[name].unit) for name in names
    ]
    short, told = _SHORT.split(title)[0], f"{title} {' '.join(more.split())}".strip()
    return Shown(
        formula.name,
        short,
        "" if told == f"{short}." else told,
        ready(mathml(formula, symbols)),
        spoken(formula, symbols),
        letters,
        ready(condition(formula, symbols)),
        formula.source,
        formula.at,
    )
