"""The way from a reading to the part: all diameters of all parts, in the order of what a caliper reads."""

from typing import NamedTuple

from guidegen.guide.edition import Edition
from guidegen.guide.families import ALONG, FIRST, HOLES, Family
from guidegen.guide.measures import Both
from guidegen.guide.names import COLUMNS
from guidegen.guide.page import Heading, Page
from guidegen.guide.readings import Reading, reading, shown
from guidegen.guide.templates import fill
from guidegen.units import Band


class Row(NamedTuple):
    """One size of a family, and what to measure next."""

    least: float
    most: float
    reads: Both
    words: str
    family: Family
    next: list[tuple[str, Both]]  # other sizes and what they should read


def measured_page(found: list[Family], edition: Edition) -> Page:
    """Two tables: what jaws close on from outside, and what they open in."""
    outside = _rows(found, FIRST, edition)
    holes = _rows([family for family in found if type(family.first) in HOLES], HOLES, edition)
    tables = [
        ("outside", "Measured from outside", outside),
        ("holes", "Measured in a hole", holes),
    ]
    return Page(
        "measured.html",
        "I measured it: which part is it?",
        fill("measured", tables=tables),
        tuple(Heading(2, key, title) for key, title, _ in tables),
        in_search=True,
        description="All parts in the order of what a caliper reads on them.",
    )


def _rows(found, columns, edition) -> list[Row]:
    rows = [_row(family, columns[type(family.first)], edition.measures) for family in found]
    return sorted(rows, key=lambda row: (row.least, row.most, row.family.key))


def _row(family: Family, column: str, measures) -> Row:
    part, kind = family.first, type(family.first)
    own = reading(column, getattr(part, column))
    others = [other for other in (FIRST[kind], HOLES.get(kind)) if other and other != column]
    next_up = [(COLUMNS[other], _shown(reading(other, getattr(part, other)), measures)) for other in others]
    along = [getattr(one, ALONG[kind]) for one in family.parts]
    lengths = Band.between(along[0].least, along[-1].most) if len(along) > 1 else along[0]
    next_up.append((COLUMNS[ALONG[kind]], _shown(reading(ALONG[kind], lengths), measures)))
    return Row(own.least, own.most, _shown(own, measures), own.words, family, next_up)


def _shown(found: Reading, measures) -> Both:
    return shown(found.least, found.most, measures)
