"""What a page tells of a joint in numbers: chapters of tables and sentences, and what fills their cells."""

from dataclasses import dataclass
from typing import Iterable, NamedTuple

from markupsafe import Markup

from guidegen.guide.measures import NOTHING, Both, Measures
from guidegen.guide.names import quantity_words
from guidegen.guide.wobble import band_of
from guidegen.joint.records import Result

ENDS = ("least", "typical", "most")
BAND_HEADS = (*ENDS, "likely")


class Row(NamedTuple):
    """A line of a table of numbers. `names`: the quantities told; two where both bearings are alike."""

    names: tuple[str, ...]
    words: str
    cells: tuple[Both, ...]


class Table(NamedTuple):
    """Rows under the heads of their cells; `what` heads their words; `flat`: both units in one line.

    A figure shows the same below it. worded: its cells are sentences.
    """

    label: str
    caption: str
    heads: tuple[str, ...]
    rows: tuple[Row, ...]
    flat: bool = False
    what: str = "What"
    figure: Markup = Markup("")
    figure_says: str = ""
    worded: bool = False


@dataclass(frozen=True)
class Chapter:
    """A question about the joint and its answer; sentences stand below the tables."""

    id: str
    title: str
    tables: tuple[Table, ...] = ()
    sentences: tuple[str, ...] = ()

    def told(self) -> Iterable[str]:
        """The quantities that its tables show."""
        return (name for table in self.tables for row in table.rows for name in row.names)


def present(tables: Iterable[Table]) -> tuple[Table, ...]:
    """The tables that have something to show."""
    return tuple(table for table in tables if table.rows)


def ends_of(result: Result, name: str, measures: Measures, digits=2) -> tuple[Both, ...]:
    """Least, typical and most of a quantity."""
    quantity = result.quantities[name]
    band = band_of(quantity)
    return tuple(measures.sensed(x, quantity.unit, digits) for x in (band.least, band.typical, band.most))


def band_row(result: Result, name: str, measures: Measures, words="") -> Row:
    """A quantity with its ends and its likely range."""
    quantity = result.quantities[name]
    likely = measures.range(*quantity.likely, quantity.unit) if quantity.likely else NOTHING
    return Row((name,), words or quantity_words(name), (*ends_of(result, name, measures), likely))


def folded(rows: Iterable[Row], alone: bool) -> tuple[Row, ...]:
    """The rows, those of two alike bearings as one: "..., each bearing". `alone`: there is but one."""
    found: dict[tuple, Row] = {}
    for row in rows:
        stem, _, number = row.names[0].rpartition("_")
        first = found.get((stem, row.cells)) if number == "2" else None
        if first:
            words = first.words.replace(", bearing 1", ", each bearing")
            row = Row((*first.names, *row.names), words, row.cells)
        elif alone:
            row = row._replace(words=row.words.replace(", bearing 1", ""))
        found[(stem if number in ("1", "2") else row.names, row.cells)] = row
    return tuple(found.values())


def limits_of(result: Result) -> dict[str, float]:
    """What each check asks for, by what it is about; that of the worse bearing where there are two."""
    return {v.about: v.limit for v in reversed(result.verdicts) if v.limit is not None}


def reason(result: Result, about: str) -> str:
    """What a yes/no check has to say beyond its yes; "" where it says no more."""
    said = (v.why for v in result.verdicts if v.about == about and v.number is None)
    return next((why for why in said if not why.startswith("yes:")), "")


def step_result(result: Result, name: str) -> float | None:
    """What a worked step of this name gives at typical sizes."""
    return next((step.result for step in result.steps if step.gives == name), None)
