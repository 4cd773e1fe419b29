"""The published tables that come with the package: rows as printed, each with its source marks."""

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Mapping

FOLDER = files("guidegen").joinpath("tables")
_SOURCE = "# source:"


@dataclass(frozen=True)
class Table:
    """A published table: what its first lines say, and its rows as text keyed by column."""

    name: str
    says: tuple[str, ...]  # standard, clause, unit, how ranges read
    source: str  # marks for the whole table; "" when each row carries its own
    rows: tuple[Mapping[str, str], ...]

    def numbers(self, column) -> tuple[float, ...]:
        """One column as numbers, in the order printed."""
        return tuple(float(row[column]) for row in self.rows)

    def source_of(self, row) -> str:
        """The source marks of one row."""
        return row.get("source") or self.source


@cache
def read_table(name: str) -> Table:
    """The table `name` of the package, e.g. "iso286_grades"."""
    lines = FOLDER.joinpath(f"{name}.csv").read_text(encoding="utf-8").splitlines()
    says = [line for line in lines if line.startswith("#")]
    source = "".join(line.removeprefix(_SOURCE).strip() for line in says if line.startswith(_SOURCE))
    told = tuple(line.lstrip("# ") for line in says if not line.startswith(_SOURCE))
    return Table(name, told, source, tuple(csv.DictReader(lines[len(says) :])))


def table_names() -> tuple[str, ...]:
    """Every table of the package, by name."""
    return tuple(sorted(f.name.removesuffix(".csv") for f in FOLDER.iterdir() if f.name.endswith(".csv")))
