"""A course's own measured holes, and the bias and spread of its machines that they tell."""

from collections.abc import Mapping
from pathlib import Path
from statistics import fmean, stdev
from typing import Annotated

from guidegen.errors import Mistake
from guidegen.kit.records import LONGEST, Cell, Process, Record
from guidegen.kit.rows import Ids, read_records

FILE = "data/measured_holes.csv"
FEWEST = 2  # one hole tells nothing of scatter


class MeasuredHole(Record):
    """One hole of a test strip: the process that made it, its diameter as drawn and as measured."""

    name: str = ""
    source: str = ""
    process: str
    drawn: Annotated[float, Cell("length", above=0, at_most=LONGEST)]
    made: Annotated[float, Cell("length", above=0, at_most=LONGEST)]


def as_measured(
    folder: Path, processes: dict[str, Process], known: Mapping, mistakes: list[Mistake]
) -> dict[str, Process]:
    """The processes, those of which the course has measured holes with the bias and spread of these."""
    if not (folder / FILE).exists():
        return processes
    columns = {**known, "process": processes}
    strips: dict[str, list[MeasuredHole]] = {}
    for hole in read_records(folder / FILE, FILE, MeasuredHole, Ids(), columns, mistakes).values():
        strips.setdefault(hole.process, []).append(hole)
    for name, strip in strips.items():
        if name not in processes:
            continue  # told already
        if len(strip) < FEWEST:
            mistakes.append(
                Mistake(FILE, f"process {name}", "one hole", "two holes at least, five are better")
            )
        elif processes[name].grade:
            mistakes.append(
                Mistake(
                    FILE,
                    f"process {name}",
                    f"holes of the class {processes[name].grade}",
                    "holes of a process without a class",
                )
            )
        else:
            processes = {**processes, name: told_by(strip, processes[name])}
    return processes


def told_by(strip: list[MeasuredHole], process: Process) -> Process:
    """The process with mean and standard deviation of made less drawn, mm, and how many holes say so."""
    off = [hole.made - hole.drawn for hole in strip]
    told = {"bias": fmean(off), "spread": stdev(off), "holes": len(off), "measured": "yes"}
    return process.model_copy(update=told)
