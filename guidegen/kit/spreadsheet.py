"""A CSV file as a spreadsheet shows it: a header row, a row of units, then one row a thing."""

import csv
from dataclasses import dataclass
from difflib import get_close_matches
from io import StringIO
from pathlib import Path
from typing import Iterator, Mapping

from guidegen.errors import Mistake
from guidegen.kit.cells import Field
from guidegen.kit.textfile import Review, read_text
from guidegen.units import EXAMPLES, read_quantity

LARGEST = 2_000_000  # bytes
HEADER, UNITS = 1, 2  # row numbers, as a spreadsheet counts


@dataclass(frozen=True)
class Row:
    """One row: its number in the spreadsheet, and its cells by column; of a row out of step, its id alone."""

    number: int
    cells: Mapping[str, str]
    in_step: bool


@dataclass(frozen=True)
class Sheet:
    """The rows of one file, with the unit of each column that has one. Unknown columns are left out.

    Rows come one by one, so that the mistakes of a file are told from top to bottom.
    """

    rows: Iterator[Row]
    units: Mapping[str, str]


def read_sheet(path: Path, name: str, fields: Mapping[str, Field], mistakes: list[Mistake]) -> Sheet | None:
    """The rows of a file whose columns are `fields`; None when nothing of it can be read."""
    review = Review(name, mistakes)
    text = read_text(path, review, LARGEST)
    if text is None:
        return None
    rows = []
    try:
        for number, cells in enumerate(csv.reader(StringIO(text, newline=""), strict=True), 1):
            rows.append((number, [cell.strip() for cell in cells]))
    except csv.Error as wrong:
        review.refuse(
            f"row {len(rows) + 1}",
            f"a row that cannot be taken apart ({wrong})",
            "cells between commas",
            "Look for a double quote that is not closed.",
        )
        return None
    filled = [(number, cells) for number, cells in rows if any(cells)]
    header, units, things = filled[0][1], filled[1:2], filled[2:]
    if len(header) == 1 and ";" in header[0]:
        review.refuse(
            f"row {HEADER}",
            "semicolons between the columns",
            "commas between the columns",
            "Export again with the comma as separator and the point as decimal mark.",
        )
        return None
    _check_header(review, header, fields)
    if not units or not all(cell in ("", "-") for column, cell in zip(header, units[0][1]) if column == "id"):
        review.refuse(
            f"row {UNITS}",
            "no row of units",
            "the unit of each column, - for words and plain numbers",
            "Add this row below the header, e.g. -, -, mm, mm.",
        )
        return None
    known = _check_units(review, header, units[0][1], fields)
    return Sheet(_rows(review, header, things, fields), known)


def nearest(word: str, known) -> str:
    """A remedy that names the known word which was probably meant; "" when nothing is near."""
    near = get_close_matches(word, list(known), n=1, cutoff=0.6)
    return f"Perhaps you mean {near[0]}." if near else ""


def _check_header(review, header, fields):
    missing = [column for column, field in fields.items() if field.required and column not in header]
    for column in filter(None, dict.fromkeys(header)):
        place = f"row {HEADER}, column {column[:60]}"
        if header.count(column) > 1:
            review.refuse(place, "this column twice", "each column once")
        if column not in fields:
            meant = get_close_matches(column, missing, n=1)
            missing = [other for other in missing if other not in meant]
            review.refuse(place, "an unknown column", ", ".join(fields), nearest(column, meant or fields))
    for column in missing:
        review.refuse(f"row {HEADER}, column {column}", "no such column", f"a column {column}")


def _check_units(review, header, cells, fields):
    """Units by column; a column with a wrong unit is left out, so that its cells are not blamed too."""
    units = {}
    for column, cell in zip(header, cells):
        unit = "" if cell == "-" else cell
        if column not in fields:
            continue
        dimension = fields[column].dimension
        allowed = f"a unit of {dimension}, as in {EXAMPLES[dimension]}" if dimension else "-"
        wrong = f'the unit "{unit[:30]}"' if unit and not dimension else ""
        if dimension and unit:
            try:
                read_quantity("1", dimension, unit)
            except ValueError as reason:
                wrong = str(reason)
        if wrong:
            review.refuse(f"row {UNITS}, column {column}", wrong, allowed)
        else:
            units[column] = unit
    return units


def _rows(review, header, things, fields):
    for number, cells in things:
        in_step = len(cells) >= len(header) and not any(cells[len(header) :])
        if not in_step:
            review.refuse(
                f"row {number}",
                f"{len(cells)} cells",
                f"{len(header)} cells, as in the header",
                "Write decimals with a point; put text that holds a comma in double quotes.",
            )
        taken = {column: cell for column, cell in zip(header, cells) if column in fields}
        yield Row(number, taken if in_step else {"id": taken.get("id", "")}, in_step)
