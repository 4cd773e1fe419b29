"""Frozen records of what a course owns. A column of a data file is a field here, with its unit."""
from dataclasses import dataclass
from typing import Annotated, Literal, Mapping

from pydantic import BaseModel, ConfigDict

from guidegen.units import Band


@dataclass(frozen=True)
class Cell:
    """How a cell of a data file is read: its dimension, whether limits are needed, its bounds."""

    dimension: str
    above: float | None = None
    at_least: float | None = None
    at_most: float | None = None


# Anything beyond these is a slipped decimal point or unit.
LONGEST = 2000.0  # mm
STIFFEST = 1e6  # MPa
COARSEST = 2.0  # mm, that a hole may miss its drawn size or place by

Size = Annotated[Band, Cell("length", above=0, at_most=LONGEST)]
Play = Annotated[Band, Cell("length", at_least=0, at_most=LONGEST)]
Length = Annotated[float, Cell("length", above=0, at_most=LONGEST)]
Offset = Annotated[float, Cell("length", at_least=-COARSEST, at_most=COARSEST)]
Deviation = Annotated[float, Cell("length", at_least=0, at_most=COARSEST)]
Modulus = Annotated[float, Cell("stress", above=0, at_most=STIFFEST)]
Stress = Annotated[float, Cell("stress", above=0, at_most=STIFFEST)]
Angle = Annotated[float, Cell("angle", at_least=0, at_most=0.35)]
Number = Annotated[float, Cell("number")]
Ratio = Annotated[float, Cell("number", at_least=0, at_most=0.5)]
Count = Annotated[int, Cell("number", above=0)]
Money = Annotated[float, Cell("number", at_least=0)]
Expansion = Annotated[float, Cell("expansion", at_least=0, at_most=1e-3)]
Temperature = Annotated[float, Cell("temperature", at_least=-40, at_most=120)]


def source_marks(text: str) -> tuple[str, dict[str, str]]:
    """A source cell taken apart: the key that holds for the row, and the keys of single columns.

    "iso7379; price=invented" gives ("iso7379", {"price": "invented"}). A row without default gives "".
    """
    pieces = [piece.strip() for piece in text.split(";") if piece.strip()]
    default = [piece for piece in pieces if "=" not in piece]
    single = dict(map(str.strip, piece.split("=", 1)) for piece in pieces if "=" in piece)
    return (default[0] if default else ""), single


class Record(BaseModel):
    """A row of a data file. `source` is a key of sources.yaml, then `column=key` pairs after a semicolon."""

    model_config = ConfigDict(frozen=True, arbitrary_types_allowed=True, extra="forbid")
    id: str
    name: str
    source: str

    def source_of(self, column: str) -> str:
        """The source key of one column."""
        default, single = source_marks(self.source)
        return single.get(column, default)


class Part(Record):
    """A thing out of the kit box."""

    material: str
    finish: str
    price: Money


class ShoulderScrew(Part):
    """A screw whose ground shoulder is the axle."""

    nominal: Length
    shoulder_diameter: Size
    shoulder_length: Size
    thread: str
    thread_length: Length
    neck_diameter: Size
    neck_width: Length
    head_diameter: Size
    head_height: Size
    socket: Length


class SleeveBushing(Part):
    """A plain cylindrical bush for a `nominal` shaft; its bore before it is pressed in."""

    nominal: Length
    free_bore: Size
    outside_diameter: Size
    length: Size
    chamfer: Length


class BallBearing(Part):
    """A single-row deep-groove ball bearing; `nominal` is its bore."""

    nominal: Length
    bore: Size
    outside_diameter: Size
    width: Size
    clearance_group: str
    internal_clearance: Play
    balls: Count
    ball_diameter: Length
    pitch_diameter: Length
    inner_land: Length
    outer_land: Length
    closure: Literal["open", "shields", "seals"]


class Spacer(Part):
    """A tube over a `nominal` shoulder: filler, ring spacer beside a ball bearing, shim, or light bush."""

    kind: Literal["spacer", "ring", "shim"]
    nominal: Length
    hole: Size
    outside_diameter: Size
    length: Size
    bush: Literal["yes", "no"]


class Washer(Part):
    """A flat washer: large goes over the shoulder, small over the thread."""

    kind: Literal["large", "small"]
    hole: Size
    outside_diameter: Size
    thickness: Size


class Nut(Part):
    """A hexagon nut."""

    kind: Literal["hex", "thin", "locking", "low locking"]
    thread: str
    across_flats: Size
    height: Size


class Material(Record):
    """What a part is made of."""

    youngs_modulus: Modulus
    poisson: Ratio
    yield_stress: Stress
    tensile_stress: Stress
    expansion: Expansion


class Stock(Record):
    """Sheet, bar or print that houses bearings or makes an arm."""

    kind: Literal["metal", "plastic", "wood", "print"]
    thickness: Size
    modulus_along: Modulus
    modulus_across: Modulus
    poisson: Ratio
    hoop_limit_short: Stress
    hoop_limit_long: Stress


class Process(Record):
    """A way to make a hole. `grade` (an ISO 286 hole class) stands for bias and spread when given.

    bias: mean of made less drawn diameter; spread: one standard deviation; position and squareness:
    how far the hole may lie from its place, and its axis lean, either way. `stocks`: kinds it works on.
    """

    stocks: str
    grade: str = ""
    bias: Offset
    spread: Deviation
    position: Deviation
    squareness: Angle
    measured: Literal["yes", "no"]


class Thread(BaseModel):
    """A screw thread: nominal diameter, pitch and stress area, in mm and mm²."""

    model_config = ConfigDict(frozen=True)
    id: str
    diameter: float
    pitch: float
    stress_area: float
    source: str


class Kit(BaseModel):
    """Which parts, and how many, one team gets."""

    model_config = ConfigDict(frozen=True)
    id: str
    title: str
    units: Literal["mm", "in"]
    parts: Mapping[str, int]


SourceKind = Literal["standard", "book", "paper", "public page", "common practice", "memory", "derived",
                     "invented", "course"]


class Source(BaseModel):
    """A book, standard, or the words 'common practice', 'memory', 'derived', 'invented'."""

    model_config = ConfigDict(frozen=True)
    id: str
    title: str
    kind: SourceKind
    detail: str = ""


@dataclass(frozen=True)
class RawFile:
    """A YAML file as written: plain mappings, lists, text and numbers, and the line of each key.

    `lines` is keyed by the way down: ("housing_1", "stock"), or ("bearings", 0) for a list entry.
    """

    path: str  # as told in mistakes
    data: Mapping
    lines: Mapping[tuple, int]

    def place(self, *way) -> str:
        """Where a key stands, "line 12"; of a key that is not there, the line of what should hold it."""
        while way and way not in self.lines:
            way = way[:-1]
        return f"line {self.lines.get(way, 1)}"


class Settings(BaseModel):
    """What course.yaml says."""

    model_config = ConfigDict(frozen=True, arbitrary_types_allowed=True, extra="forbid")
    title: str
    note: str = ""  # stands on every page, e.g. that a course is invented
    units_first: Literal["mm", "in"]
    currency: str
    teams: Count
    spares: Annotated[float, Cell("number", at_least=0, at_most=2)]  # share bought beyond the kits
    paper: Literal["A4", "Letter"]
    site_address: str = ""  # for printed codes
    surroundings: str
    temperature_least: Temperature  # °C
    temperature_most: Temperature
    target_travel: Length  # wobble wanted: total travel, mm
    target_arm: Length  # at this arm radius, mm


class Course(Settings):
    """Everything read from a course folder and the package's sources; nothing half filled."""

    parts: Mapping[str, Part]
    materials: Mapping[str, Material]
    stocks: Mapping[str, Stock]
    processes: Mapping[str, Process]
    kits: Mapping[str, Kit]
    sources: Mapping[str, Source]
    grid: RawFile
    joints: Mapping[str, RawFile]  # joint files as written, by file stem; joint/ turns them into joints


@dataclass(frozen=True)
class Caution:
    """A warning that stands where the hand is. `where` names the places that print it."""

    id: str
    title: str
    text: str
    where: tuple[str, ...]
    source: str


@dataclass(frozen=True)
class Term:
    """A word of the trade: what it means here, and what else it is called."""

    name: str
    meaning: str
    also_called: tuple[str, ...]


@dataclass(frozen=True)
class Words:
    """The words that site and sheets share."""

    cautions: Mapping[str, Caution]
    glossary: Mapping[str, Term]
