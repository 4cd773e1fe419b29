"""The hole to draw: for the bearings of a joint, and for one bearing in every stock by every process."""

from dataclasses import dataclass, replace
from typing import Iterator, NamedTuple

from guidegen.guide.measures import Both, Measures
from guidegen.joint.inputs import MadeHole, hole_for, seats
from guidegen.joint.reach import Fit, Reach, goes_in, pressed, reach_of, ring_of, wall_of
from guidegen.joint.records import Housing, Result
from guidegen.kit.lookup import edge_distance
from guidegen.kit.records import BallBearing, Course, Part, Process, SleeveBushing, Spacer, Stock
from guidegen.numbers import percent

UNMEASURED = "not measured on your machine"


@dataclass(frozen=True)
class Hole:
    """The hole to draw for one bearing, and the rule behind it."""

    where: str  # which bearing; "" when there is but one
    names: tuple[str, ...]  # of the results
    draw: Both
    wanted: Both
    bias: Both
    hole_class: str  # "" where the chances set the hole
    grade: str  # of a reamer; "" when the machine's bias counts
    source: str
    made: Both
    process: str
    measured: bool
    comes_out: str  # how often it comes out right
    table: str  # page of all holes in that stock by that machine


class Pocket(NamedTuple):
    """A bearing's hole in one stock by one process, and what comes of it."""

    made: MadeHole
    reach: Reach
    fit: Fit | None  # of a press fit
    goes_in: float | None  # of the others


def housed(part: Part) -> bool:
    """Whether a part sits in a hole: bushings, ball bearings, spacers that serve as bushings."""
    return isinstance(part, SleeveBushing | BallBearing) or isinstance(part, Spacer) and part.bush == "yes"


def pocket(part: Part, course: Course, stock: Stock, process: Process, fit) -> Pocket:
    """A bearing's hole as far from the edge as this kind of stock wants it, held against no torque."""
    outside = part.outside_diameter
    edge = edge_distance(stock.kind)[1] * outside.typical
    ring, wall = ring_of(part, course), wall_of(stock, edge)
    made, reach = (
        hole_for(part, outside, ring, wall, Housing(stock, process, fit, edge, "head")),
        reach_of(ring, wall),
    )
    if fit != "press":
        return Pocket(made, reach, None, goes_in(outside, made.band.typical, made.scatter))
    return Pocket(made, reach, pressed(outside, made.band.typical, made.scatter, 0.0, reach), None)


def table_path(stock: Stock, process: Process) -> str:
    """Where the table of a stock and a process stands."""
    return f"holes/{stock.id}-{process.id}.html"


def processes_of(stock: Stock, course: Course) -> Iterator[Process]:
    """The processes that work on a stock."""
    return (process for process in course.processes.values() if stock.kind in process.stocks.split())


def holes_of(result: Result, course: Course, measures: Measures) -> list[Hole]:
    """The holes of a joint; one where both bearings take the same."""
    joint, holes = result.joint, []
    for n, (seat, housing) in enumerate(zip(seats(joint, course), joint.housings), 1):
        name = f"drawn_hole_{n}"
        holes.append(
            Hole(
                "" if joint.single else f"bearing {n}",
                (name,),
                measures.drawn(result.quantities[name].typical),
                measures.size(seat.wanted),
                measures.size(seat.bias),
                seat.hole_class,
                housing.process.grade,
                seat.hole_source,
                measures.limits(seat.hole),
                housing.process.name,
                housing.process.measured == "yes",
                _chance(result, n),
                table_path(housing.stock, housing.process),
            )
        )
    if len(holes) == 2 and replace(holes[0], where="", names=()) == replace(holes[1], where="", names=()):
        return [replace(holes[0], where="both bearings", names=holes[0].names + holes[1].names)]
    return holes


def _chance(result, n) -> str:
    right, lasting, goes = (
        result.quantities.get(f"chance_{name}_{n}") for name in ("right", "lasting", "goes_in")
    )
    if right:
        said = f"A bearing pressed in comes out right {percent(right.value)} of the time"
        fewer = percent(lasting.value) != percent(right.value)
        return said + (
            f"; it then lets the shaft in and lasts in {percent(lasting.value)}." if fewer else "."
        )
    return f"The bearing goes in by hand {percent(goes.value)} of the time." if goes else ""
