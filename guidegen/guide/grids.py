"""A table of a page that brings joints or parts together: heads, rows, cells of numbers or words."""

from dataclasses import dataclass
from typing import Sequence

from guidegen.guide.measures import Both

Cell = Both | str  # numbers in both units, or words; finished HTML where it is marked so


@dataclass(frozen=True)
class Grid:
    """Rows of cells under heads; the first head stands over what each row is about."""

    label: str
    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]

    def __post_init__(self):
        for row in self.rows:
            if len(row) != len(self.heads):
                raise ValueError(f"{self.label}: a row of {len(row)} cells under {len(self.heads)} heads")


def grid(label: str, caption: str, heads: Sequence[str], rows) -> Grid:
    """A grid from any rows."""
    return Grid(label, caption, tuple(heads), tuple(map(tuple, rows)))
