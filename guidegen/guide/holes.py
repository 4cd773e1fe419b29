"""The hole to draw: for the bearings of a joint, and for one bearing in every stock by every process."""

from dataclasses import dataclass, replace
from typing import NamedTuple

from guidegen.guide.measures import Both, Measures
from guidegen.guide.names import FITS
from guidegen.joint.inputs import made_hole, round_nominal, seats
from guidegen.joint.records import Plate, Result
from guidegen.kit.lookup import housing_class
from guidegen.kit.records import BallBearing, Course, Part, Process, SleeveBushing, Spacer, Stock

SAME_BY_KIND = "metal", "plastic", "wood", "print"


@dataclass(frozen=True)
class Hole:
    """The hole to draw for one bearing, and the rule behind it."""

    where: str  # which bearing; "" when there is but one
    names: tuple[str, ...]  # of the results
    draw: Both
    wanted: Both
    bias: Both
    hole_class: str
    grade: str  # of a reamer; "" when the machine's bias counts
    source: str
    made: Both
    process: str
    measured: bool


class HoleRow(NamedTuple):
    """A hole for one bearing: in what, made how, holding how, and what to draw."""

    stock: str
    process: str
    fit: str
    hole_class: str
    draw: Both
    made: Both
    measured: bool
    source: str


def housed(part: Part) -> bool:
    """Whether a part sits in a hole: bushings, ball bearings, spacers that serve as bushings."""
    return isinstance(part, SleeveBushing | BallBearing) or isinstance(part, Spacer) and part.bush == "yes"


def hole_rows(part: Part, course: Course, measures: Measures) -> list[HoleRow]:
    """Rows by kind of stock, process and fit; stocks of one kind share a row."""
    bearing = {SleeveBushing: "sleeve_bushing", BallBearing: "ball_bearing"}.get(type(part), "spacer")
    kinds = {stock.kind: stock for stock in course.stocks.values()}
    return [
        _row(part, bearing, kinds[kind], process, fit, measures)
        for kind in SAME_BY_KIND
        if kind in kinds
        for process in course.processes.values()
        if kind in process.stocks.split()
        for fit in (FITS if not process.grade else ("press",))
    ]


def _row(part, bearing, stock: Stock, process: Process, fit, measures: Measures) -> HoleRow:
    aim = housing_class(bearing, fit, stock.kind)
    hole = made_hole(round_nominal(part), aim.name, Plate(stock, process, fit))
    return HoleRow(
        stock.kind,
        process.name,
        FITS[fit],
        hole.hole_class,
        measures.drawn(hole.drawn),
        measures.limits(hole.band),
        process.measured == "yes",
        aim.source,
    )


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
            )
        )
    if len(holes) == 2 and replace(holes[0], where="", names=()) == replace(holes[1], where="", names=()):
        return [replace(holes[0], where="both bearings", names=holes[0].names + holes[1].names)]
    return holes
