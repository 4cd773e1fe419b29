"""Values as printed in books and articles, one file a source, that our own are compared with."""

import csv
from dataclasses import dataclass
from pathlib import Path

TOLD = ("# source:", "# how:")


@dataclass(frozen=True)
class Published:
    """One printed value, all as text: what it shows, from which inputs, and how the value reached us."""

    id: str
    place: str  # where in the source
    shows: str
    inputs: str  # "D = 40 mm; i = 0.059 mm"
    call: str  # formulas in order, each giving what the next needs
    published: str  # with the printed digits
    unit: str
    within: str  # in that unit; empty: half a unit of the last printed digit
    reproduces: str  # yes, or no: then `why` says why not
    why: str
    source: str
    how: str  # read, noted, memory; the file says which


def read_published(folder: Path) -> tuple[Published, ...]:
    """Every published value in a folder of such files, in the order of the files' names."""
    found = []
    for path in sorted(folder.glob("*.csv")):
        lines = path.read_text(encoding="utf-8").splitlines()
        source, how = (
            next(line.removeprefix(told).strip() for line in lines if line.startswith(told)) for told in TOLD
        )
        rows = csv.DictReader(line for line in lines if not line.startswith("#"))
        found += [Published(**row, source=source, how=how) for row in rows]
    return tuple(found)
