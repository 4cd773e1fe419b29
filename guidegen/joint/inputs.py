"""What free play depends on: sizes with limits, and what housings and bearings are made of."""

from dataclasses import dataclass, replace
from typing import Literal, Mapping

from guidegen.joint.box import thickness
from guidegen.joint.reach import (
    Bound,
    Ring,
    Scatter,
    Wall,
    half_of,
    reach_of,
    ring_of,
    scatter_of,
    wall_of,
    wanted_hole,
)
from guidegen.joint.records import Housing, Joint, Plate
from guidegen.joint.stack import bore_of
from guidegen.kit import lookup
from guidegen.kit.records import BallBearing, Course, Part, Process, SleeveBushing, source_marks
from guidegen.units import MM_PER_INCH, Band

SPREADS = 3  # a made hole lies within so many spreads of its mean
METRIC_BORES = 0.5  # mm; a nominal bore that is no multiple of this is an inch size
Series = Literal["fine", "medium", "coarse"]  # of clearance holes
SHAFT_HOLE = "shaft_hole"  # key of housing_classes for a hole a shoulder passes through


@dataclass(frozen=True)
class Seat:
    """One bearing in its housing, as far as free play is concerned; sizes mm, moduli MPa."""

    bearing: Part
    bonded: bool
    bores: Band  # out of the box
    pressed: Band | None  # bore measured after pressing, which then sets the clearance
    outside: Band
    hole: Band
    drawn: float  # hole to draw
    wanted: float  # mean hole aimed at
    hole_class: str  # "" where the chances of a press fit set the hole
    hole_source: str
    bias: float
    scatter: Scatter  # of the hole
    bound: Bound | None  # what bounds a press fit
    ring: Ring
    wall: Wall
    length: Band  # effective: of a bush; 0 for a ball bearing
    width: float
    housing_modulus: Band
    housing_poisson: float
    hub: float  # outer diameter of the ring that stands for the housing
    modulus: float
    poisson: float

    @property
    def ball(self) -> bool:
        return isinstance(self.bearing, BallBearing)


def seats(joint: Joint, course: Course) -> tuple[Seat, ...]:
    """One seat per bearing, bearing 1 first."""
    return tuple(
        _seat(joint, n, bearing, housing, course)
        for n, (bearing, housing) in enumerate(zip(joint.bearings, joint.housings), 1)
    )


def _seat(joint, number, bearing, housing: Housing, course) -> Seat:
    outside = joint.measured.get(f"outside_diameter_{number}", bearing.outside_diameter)
    material = course.materials[bearing.material]
    stock = housing.stock
    ring, wall = ring_of(bearing, course), wall_of(stock, housing.edge)
    made = hole_for(bearing, outside, ring, wall, housing)
    measured = joint.measured.get(f"hole_{number}")
    moduli = sorted((stock.modulus_along, stock.modulus_across))
    return Seat(
        bearing=bearing,
        bonded=housing.fit == "bonded",
        bores=joint.measured.get(f"free_bore_{number}", bore_of(bearing)),
        pressed=joint.measured.get(f"bore_{number}"),
        outside=outside,
        hole=measured or made.band,
        drawn=made.drawn,
        wanted=made.wanted,
        hole_class=made.hole_class,
        hole_source=made.source,
        bias=made.bias,
        scatter=Scatter(half_of(measured)) if measured else made.scatter,
        bound=made.bound,
        ring=ring,
        wall=wall,
        length=Band.exactly(0.0) if isinstance(bearing, BallBearing) else thickness(bearing),
        width=thickness(bearing).typical,
        housing_modulus=Band.between(*moduli),
        housing_poisson=stock.poisson,
        hub=2 * housing.edge,
        modulus=material.youngs_modulus,
        poisson=material.poisson,
    )


def round_nominal(bearing) -> float:
    """Nominal outside diameter: the middle of the limits to the nearest 0.1 mm, of an inch part 1/64 in."""
    step = 0.1 if round(bearing.nominal % METRIC_BORES, 6) in (0, METRIC_BORES) else MM_PER_INCH / 64
    return round(round(bearing.outside_diameter.typical / step) * step, 6)


@dataclass(frozen=True)
class MadeHole:
    """A hole as drawn and as made, and whose word it is."""

    drawn: float
    wanted: float
    band: Band
    hole_class: str
    bias: float
    scatter: Scatter
    source: str
    bound: Bound | None = None


def hole_for(bearing: Part, outside: Band, ring: Ring, wall: Wall, housing: Housing) -> MadeHole:
    """The hole for a bearing: of a press fit by a machine that scatters that at which most come out right."""
    kind = {BallBearing: "ball_bearing", SleeveBushing: "sleeve_bushing"}.get(type(bearing), "spacer")
    aim, process = lookup.housing_class(kind, housing.fit, housing.stock.kind), housing.process
    if housing.fit != "press":
        return made_hole(round_nominal(bearing), aim, housing)
    reach = reach_of(ring, wall)
    if process.grade:
        made = made_hole(round_nominal(bearing), aim, housing)
    else:
        made = scattered(wanted_hole(outside, reach, wall.kind), lookup.HousingClass("", "derived"), process)
    return replace(made, bound=reach.bound(wall.kind))


def made_hole(nominal: float, aim: lookup.HousingClass, where: Housing | Plate) -> MadeHole:
    """The hole to draw and its band as made: aimed at the middle of a class, or reamed to a class."""
    process = where.process
    if process.grade:
        band = lookup.band_of_class(nominal, process.grade)
        return MadeHole(nominal, band.typical, band, process.grade, 0.0, Scatter(half_of(band)), aim.source)
    return scattered(lookup.band_of_class(nominal, aim.name).typical, aim, process)


def scattered(wanted: float, aim: lookup.HousingClass, process: Process) -> MadeHole:
    """The hole to draw and its band as made about a wanted one, by a machine with bias and spread."""
    scatter = scatter_of(process)
    far = SPREADS * scatter.spread
    band = Band(wanted - far, wanted, wanted + far)
    return MadeHole(wanted - process.bias, wanted, band, aim.name, process.bias, scatter, aim.source)


def shaft_hole(nominal: float, plate: Plate) -> MadeHole:
    """The hole in a fork cheek, or in an arm on the shoulder, through which the shoulder passes."""
    return made_hole(nominal, lookup.housing_class(SHAFT_HOLE, "slip", plate.stock.kind), plate)


def thread_hole(thread: str, series: Series, process: Process) -> MadeHole:
    """A clearance hole over a thread, fine, medium or coarse; of a reamer, the size as it stands."""
    wanted = getattr(lookup.clearance_hole(thread), series)
    default, single = source_marks(lookup.named_row("clearance_holes", id=thread)["source"])
    source = single.get(series, default)
    if process.grade:
        return MadeHole(wanted, wanted, Band.exactly(wanted), series, 0.0, Scatter(0.0), source)
    return scattered(wanted, lookup.HousingClass(series, source), process)


def hole_beside(joint: Joint) -> dict[str, Band]:
    """The hole through which the shoulder passes with room: in both cheeks of a fork, or in an arm on it."""
    if joint.clamped:
        return {}
    if joint.layout == "C":
        return {"cheek_hole": shaft_hole(joint.shaft.nominal, joint.cheeks).band}
    if joint.arm_between and joint.arm_plate.fit != "bonded":
        return {"arm_hole": shaft_hole(joint.shaft.nominal, joint.arm_plate).band}
    return {}


def banded(joint: Joint, seats: tuple[Seat, ...]) -> Mapping[str, Band]:
    """Every input of the free play that has limits, by the name it carries in results."""
    bands = {"shaft_diameter": joint.measured.get("shaft", joint.shaft.shoulder_diameter)}
    for n, seat in enumerate(seats, 1):
        bands[f"bore_{n}" if seat.ball else f"free_bore_{n}"] = seat.bores
        if seat.pressed is not None:
            bands[f"bore_{n}"] = seat.pressed
        bands[f"outside_diameter_{n}"], bands[f"hole_{n}"] = seat.outside, seat.hole
        bands[f"housing_modulus_{n}"] = seat.housing_modulus
        if seat.ball:
            bands[f"internal_clearance_{n}"] = seat.bearing.internal_clearance
        else:
            bands[f"length_{n}"] = seat.length
    return bands


def without(cause: str, bands: Mapping[str, Band], seats, nominal: float) -> Mapping[str, Band]:
    """The inputs with one cause of play taken away: shoulder, bearing, housing or closure.

    A full-size shoulder still slides into the smallest bore; a bore is over size only above nominal.
    """
    bands = dict(bands)
    bores = {n: f"bore_{n}" if f"bore_{n}" in bands else f"free_bore_{n}" for n in range(1, len(seats) + 1)}
    if cause == "shoulder":
        full = min(nominal, *(bands[bore].typical for bore in bores.values()))
        bands["shaft_diameter"] = Band.exactly(max(full, bands["shaft_diameter"].typical))
    for n, seat in enumerate(seats, 1):
        if cause == "bearing":
            bands[bores[n]] = Band.exactly(min(nominal, bands[bores[n]].typical))
            if seat.ball:
                bands[f"internal_clearance_{n}"] = Band.exactly(0.0)
        if cause == "housing":  # a hole that is too large is made to fit; a tight one stays as it is
            bands[f"hole_{n}"] = Band.exactly(
                min(bands[f"hole_{n}"].typical, bands[f"outside_diameter_{n}"].typical)
            )
        if cause == "closure":  # a housing too soft to squeeze anything
            bands[f"housing_modulus_{n}"] = Band.exactly(1e-9)
    return bands
