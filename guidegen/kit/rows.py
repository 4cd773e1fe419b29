"""Records from the rows of a CSV file, every mistake of every cell told."""

import re
from pathlib import Path
from typing import Callable, Mapping

from guidegen.errors import Mistake
from guidegen.kit.cells import Field, Unreadable, is_spreadsheet_formula
from guidegen.kit.contradictions import contradictions
from guidegen.kit.records import Record, source_marks
from guidegen.kit.spreadsheet import nearest, read_sheet
from guidegen.kit.textfile import Review

LONGEST_ID = 24  # characters: four ids and more go into the address of a worked joint
ID_FORM = f"a-z, 0-9 and single hyphens between, at most {LONGEST_ID} characters"
_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


class Ids(dict):
    """Ids already taken, each with where it stands; not complete when a file could not be read."""

    complete = True

    def take(self, name, file, place, mistakes) -> bool:
        """Claim an id; False, with the mistake told, when it is ill formed or taken."""
        if not is_id(name):
            mistakes.append(Mistake(file, place, f'the id "{name[:60]}"', ID_FORM))
        elif name in self:
            mistakes.append(
                Mistake(
                    file, place, f"the id {name} again; it stands in {self[name]} already", "each id once"
                )
            )
        else:
            self[name] = f"{file}, {place}"
            return True
        return False


def is_id(name: str) -> bool:
    """Whether a name may go into addresses and file names."""
    return _ID.fullmatch(name) is not None and len(name) <= LONGEST_ID


def in_order(found: Mapping) -> dict:
    """A mapping in the order a person counts its keys: 5 before 10."""

    def counted(key):
        return [(int(piece), "") if piece.isdecimal() else (-1, piece) for piece in re.split(r"(\d+)", key)]

    return {key: found[key] for key in sorted(found, key=counted)}


def fields_of(record) -> dict[str, Field]:
    """What each field of a record takes, by name."""
    return {name: Field(declared) for name, declared in record.model_fields.items()}


def read_records(
    path: Path,
    name: str,
    record: type[Record],
    taken: Ids,
    known: Mapping[str, Mapping],
    mistakes: list[Mistake],
    complete: Callable = dict,
) -> dict[str, Record]:
    """The records of one file by id.

    taken: ids of this and earlier files, added to; known: by column, what its words must be among
    (nothing: not known, so not checked); complete: fills cells that follow from others.
    """
    fields = fields_of(record)
    sheet = read_sheet(path, name, fields, mistakes)
    if sheet is None:
        taken.complete = False
        return {}
    found, needed = {}, {column for column, field in fields.items() if field.required}
    for row in sheet.rows:
        reading = _Reading(name, row.number, mistakes)
        new = taken.take(row.cells.get("id", ""), name, f"row {row.number}, column id", mistakes)
        if not new:
            reading.refused.add("id")  # told already
        if not row.in_step:
            continue
        values = reading.values(complete(row.cells), fields, sheet.units)
        values["id"] = row.cells.get("id", "")
        reading.check_words(row.cells, known, fields)
        if not reading.refused and needed <= values.keys():
            made = record(**values)
            for column, *told in contradictions(made):
                reading.refuse(column, *told)
            found[made.id] = made
    return found


class _Reading:
    """One row being read."""

    def __init__(self, file, number, mistakes):
        self.review, self.number, self.refused = Review(file, mistakes), number, set()

    def refuse(self, column, found, allowed, remedy=""):
        self.refused.add(column)
        self.review.refuse(f"row {self.number}, column {column}", found, allowed, remedy)

    def values(self, cells, fields, units):
        """What the cells say, without those that cannot be read."""
        values = {}
        for column, text in cells.items():
            field = fields[column]
            if column == "id":
                continue  # judged where it is taken
            if is_spreadsheet_formula(text, words=field.cell is None):
                self.refuse(
                    column,
                    f'a spreadsheet formula ("{text[:60]}")',
                    "its value, typed",
                    "Words must not begin with = + - or @.",
                )
            elif column in units or field.cell is None:
                try:
                    value = field.read(text, units.get(column, ""))
                except Unreadable as wrong:
                    self.refuse(column, wrong.found, wrong.allowed, wrong.remedy)
                else:
                    if value is not None:
                        values[column] = value
        return values

    def check_words(self, cells, known, fields):
        for column, names in known.items():
            text = cells.get(column, "")
            if not names or column in self.refused:
                continue  # their file could not be read, or the cell is told already
            if column == "source":
                self._check_source(text, names, fields)
            elif text and text not in names:
                self.refuse(column, f'"{text[:60]}"', "one of " + ", ".join(names), nearest(text, names))

    def _check_source(self, text, sources, fields):
        default, single = source_marks(text)
        if text and not default:
            self.refuse("source", f'no source for the row ("{text[:60]}")', "a key of sources.yaml first")
        for column in single:
            if column not in fields:
                self.refuse(
                    "source",
                    f'"{column[:60]}={single[column][:60]}", no such column',
                    ", ".join(fields),
                    nearest(column, fields),
                )
        for key in filter(None, [default, *single.values()]):
            if key not in sources:
                self.refuse(
                    "source",
                    f'the source "{key[:60]}"',
                    "a key of sources.yaml",
                    nearest(key, sources) or "Add it to data/sources.yaml.",
                )
