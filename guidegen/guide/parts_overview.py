"""The page of all parts: kind by kind, family by family, each with its outline at life size."""

from typing import NamedTuple

from guidegen.drawing import small_outline
from guidegen.guide.edition import Edition
from guidegen.guide.families import FIRST, HOLES, Family, length_words
from guidegen.guide.measures import Both
from guidegen.guide.names import KINDS
from guidegen.guide.page import Heading, Page
from guidegen.guide.readings import reading, shown
from guidegen.guide.templates import fill, ready, upper_first
from guidegen.kit.records import Part


class Row(NamedTuple):
    """A family in the table of its kind."""

    family: Family
    outline: str
    material: str
    reads: list[tuple[str, Both]]
    parts: list[tuple[Part, str, bool]]  # each with its length in words, and whether a kit has it


def parts_overview(found: list[Family], edition: Edition) -> Page:
    """Every part of the catalogue, and the ways to find one's own."""
    in_kits = {id for kit in edition.kits for id in kit.parts}
    kinds = []
    for record, title in KINDS.items():
        own = [family for family in found if isinstance(family.first, record)]
        if own:
            columns = _columns(record)
            rows = [_row(family, columns, in_kits, edition) for family in own]
            kinds.append((record.__name__.lower(), upper_first(title), rows))
    count = sum(len(family.parts) for family in found)
    return Page(
        "parts.html",
        "Which part is this?",
        fill("parts", kinds=kinds, count=count, families=len(found)),
        tuple(Heading(2, key, title) for key, title, *_ in kinds),
        in_search=True,
        description="Every part of the catalogue at life size, with what a caliper should read.",
    )


def _columns(record):
    """The columns that tell families of a kind apart."""
    return [FIRST[record], *([HOLES[record]] if record in HOLES else [])]


def _row(family: Family, columns, in_kits, edition: Edition) -> Row:
    part = family.first
    readings = [reading(column, getattr(part, column)) for column in columns]
    return Row(
        family,
        ready(small_outline(part)),
        edition.course.materials[part.material].name,
        [(found.words, shown(found.least, found.most, edition.measures)) for found in readings],
        [(one, length_words(one), one.id in in_kits) for one in family.parts],
    )
