"""The hole to take first: for one bearing, one way to hold it in every stock by every machine."""

from typing import NamedTuple

from guidegen.guide.holes import Pocket, pocket, processes_of
from guidegen.guide.measures import Both, Measures
from guidegen.guide.names import FITS
from guidegen.kit.records import Course, Part, Process, Spacer, Stock
from guidegen.numbers import percent

MOSTLY = 0.8  # of press fits that come out right, from which pressing comes first; common practice
HARDLY = 0.5  # of holes of a reamer that hold the bearing, below which it is not for this one
KINDS = {"wood": "any wood", "plastic": "any plastic", "metal": "any metal", "print": "any print"}


class Way(NamedTuple):
    """How a bearing is held first: fit, hole to draw, share that comes out right or goes in by hand."""

    fit: str
    draw: Both
    chance: float

    @property
    def says(self) -> str:
        """What the share means, in words."""
        return f"{FITS[self.fit]}: {percent(self.chance)}"


class FirstHoles(NamedTuple):
    """Stocks that take the same holes, and a way to hold the bearing for each process, if any."""

    stock: str
    ways: list[Way | None]


def first_holes(part: Part, course: Course, measures: Measures) -> tuple[list[str], list[FirstHoles]]:
    """Names of the processes, and a row for each lot of stocks of one kind that take the same holes."""
    found: dict[tuple, list[tuple[Stock, list[Way | None]]]] = {}
    for stock in course.stocks.values():
        own = list(processes_of(stock, course))
        ways = [
            _way(part, course, stock, process, measures) if process in own else None
            for process in course.processes.values()
        ]
        found.setdefault((stock.kind, *(way and way[:2] for way in ways)), []).append((stock, ways))
    counts = {kind: sum(stock.kind == kind for stock in course.stocks.values()) for kind in KINDS}
    rows = [_row(kind, members, counts[kind]) for (kind, *_), members in found.items()]
    used = [n for n in range(len(course.processes)) if any(row.ways[n] for row in rows)]
    names = [process.name for process in course.processes.values()]
    rows.sort(key=lambda row: row.stock)
    return [names[n] for n in used], [row._replace(ways=[row.ways[n] for n in used]) for row in rows]


def first_way(part: Part, course: Course, stock: Stock, process: Process) -> tuple[str, Pocket] | None:
    """The fit that a bearing is held by first in a stock by a process, and what comes of it; None for none.

    Pressed in where at least four of five come out right, else bonded; nothing sticks to nylon, and a reamer
    makes one size only.
    """
    press = pocket(part, course, stock, process, "press")
    right = press.fit.lasting
    if process.grade:
        return ("press", press) if right >= HARDLY else None
    if isinstance(part, Spacer) or right >= MOSTLY:
        return "press", press
    return "bonded", pocket(part, course, stock, process, "bonded")


def _way(part, course, stock, process, measures: Measures) -> Way | None:
    first = first_way(part, course, stock, process)
    if first is None:
        return None
    fit, one = first
    return Way(fit, measures.drawn(one.made.drawn), one.goes_in if one.fit is None else one.fit.lasting)


def _row(kind, members, all_of_kind) -> FirstHoles:
    """One row; where the stocks differ in the share that comes out right, the least of it."""
    stocks = [stock for stock, _ in members]
    ways = [
        several[0] and several[0]._replace(chance=min(way.chance for way in several))
        for several in zip(*(ways for _, ways in members))
    ]
    whole = len(stocks) == all_of_kind > 1
    return FirstHoles(KINDS[kind] if whole else ", ".join(stock.name for stock in stocks), ways)
