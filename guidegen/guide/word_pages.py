"""Pages of words: glossary, safety, sources, and published results beside ours."""

from collections import Counter
from itertools import groupby
from typing import Sequence

from guidegen.guide.comparison import compared
from guidegen.guide.edition import Edition
from guidegen.guide.models import model_of
from guidegen.guide.page import Heading, Page
from guidegen.guide.templates import fill
from guidegen.joint.records import Result
from guidegen.kit.published import Published
from guidegen.numbers import printed, show_number
from guidegen.theory.declare import FORMULAS

ROUNDING = 1e-9  # share below which a difference is only what binary numbers leave
KINDS = {
    "standard": "Standards",
    "book": "Books",
    "paper": "Papers",
    "public page": "Public pages",
    "derived": "Derived here",
    "common practice": "Common practice",
    "memory": "From memory",
    "course": "Chosen by the course",
    "invented": "Invented",
}


def glossary_page(edition: Edition) -> Page:
    """The words of the trade as this guide uses them, by their first letters."""
    terms = list(edition.words.glossary.values())
    letters = [
        (letter, [(place_of(term.name), term) for term in own])
        for letter, own in groupby(terms, key=lambda term: term.name[0].upper())
    ]
    return Page(
        "glossary.html",
        "What does the word mean?",
        fill("glossary", letters=letters, count=len(terms)),
        in_search=True,
        description="The words of the trade, in plain sentences.",
    )


def safety_page(edition: Edition) -> Page:
    """Every warning of the guide in one place."""
    cautions = list(edition.words.cautions.values())
    body = fill("safety", cautions=cautions, cite=edition.citing(""))
    return Page(
        "safety.html",
        "What is dangerous?",
        body,
        tuple(Heading(2, caution.id, caution.title) for caution in cautions),
        in_search=True,
        description="Every warning of this guide in one place.",
    )


def sources_page(edition: Edition) -> Page:
    """Every source that a number of the guide names."""
    sources = edition.course.sources.values()
    groups = [
        (kind, title, [source for source in sources if source.kind == kind]) for kind, title in KINDS.items()
    ]
    groups = [group for group in groups if group[2]]
    body = fill("sources", groups=groups)
    contents = tuple(Heading(2, _anchor(kind), title) for kind, title, _ in groups)
    return Page(
        "sources.html",
        "Where do the numbers come from?",
        body,
        contents,
        in_search=True,
        description="Standards, books, common practice, and what is from memory or invented.",
    )


def checks_page(edition: Edition, published: Sequence[Published], results: Sequence[Result]) -> Page:
    """Printed results beside ours, with what differs and why."""
    rows = [_row(row) for row in published]
    counts = Counter(row["agrees"] for row in rows)
    body = fill(
        "checks",
        rows=rows,
        agreed=counts[True],
        differ=counts[False],
        steps=sum(len(result.steps) for result in results),
    )
    return Page(
        "checks.html",
        "How do I know it is right?",
        body,
        (Heading(2, "printed", "Printed results beside ours"), Heading(2, "other", "Other checks")),
        in_search=True,
        description="Printed results of books and standards beside ours.",
    )


def _row(row: Published):
    found = compared(row)
    digits = max(4, len(printed(found.theirs, 12).digits.replace(".", "").lstrip("0")))
    formulas = [
        (FORMULAS[call].says.partition("\n")[0].rstrip("."), model_of(FORMULAS[call]), call)
        for call in row.call.split(", ")
        if call in FORMULAS
    ]
    apart = 0.0 if abs(found.difference) <= ROUNDING * abs(found.theirs) else found.difference
    return {
        "row": row,
        "ours": show_number(found.ours, digits),
        "difference": show_number(apart, 2),
        "agrees": found.agrees,
        "formulas": formulas,
    }


def place_of(word: str) -> str:
    """The name of a word's place on the glossary page."""
    return "-".join("".join(c if c.isalnum() else " " for c in word.lower()).split())


def _anchor(kind):
    return f"kind-{kind.replace(' ', '-')}"
