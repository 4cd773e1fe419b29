"""Frozen records of what a course owns. A column of a data file is a field here, with its unit."""

from dataclasses import dataclass
from functools import cached_property
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
    decades: bool = False  # known to a power of ten: typical is the geometric middle of its limits


SAME = 3  # decimals of a millimetre to which nominal sizes agree
# Anything beyond these is a slipped decimal point or unit.
LONGEST = 2000.0  # mm
STIFFEST = 1e6  # MPa
COARSEST = 2.0  # mm, that a hole may miss its drawn size or place by
LEAST_KERF, MOST_KERF = 0.05, 0.5  # mm, of a cutter for sheet, unless confirmed (common practice)
LIGHTEST, HEAVIEST = 1e-11, 2.5e-8  # t/mm³: a foam, a little more than gold
LARGEST_RATING = 1e6  # N
FASTEST = 50_000.0  # mm/s
HARDEST_RUN = 1e5  # MPa·mm/s
HOTTEST = 400.0  # °C, beyond any bush
WORST_WEAR = 1e-3  # mm²/N, chalk

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
Density = Annotated[float, Cell("density", at_least=LIGHTEST, at_most=HEAVIEST)]
Rating = Annotated[float | None, Cell("force", above=0, at_most=LARGEST_RATING)]  # None: not known
Fillet = Annotated[float | None, Cell("length", above=0, at_most=COARSEST)]  # None: not known
Kerf = Annotated[float | None, Cell("length", above=0, at_most=COARSEST)]  # None: not known, or none
Temperature = Annotated[float, Cell("temperature", at_least=-40, at_most=120)]
Heat = Annotated[float, Cell("temperature", at_least=20, at_most=HOTTEST)]
Speed = Annotated[float, Cell("speed", above=0, at_most=FASTEST)]
PressureSpeed = Annotated[float, Cell("pv", above=0, at_most=HARDEST_RUN)]
Friction = Annotated[Band, Cell("number", at_least=0, at_most=1.5)]
Share = Annotated[Band, Cell("number", at_least=0, at_most=1)]
Thing = Literal["", "oil bronze", "nylon", "acrylic", "plywood"]  # beside ball bearings, in agents.csv
NO_METAL = "none"
WearRate = Annotated[Band, Cell("wear rate", above=0, at_most=WORST_WEAR, decades=True)]


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
    pack: Annotated[int, Cell("number", above=0)] = 1  # pieces in a bought pack


class ShoulderScrew(Part):
    """A screw whose ground shoulder is the axle."""

    nominal: Length
    shoulder_diameter: Size
    shoulder_length: Size
    thread: str
    thread_length: Length
    neck_diameter: Size
    neck_width: Length
    neck_fillet: Fillet = None  # least radius between thread neck and shoulder; None: not known
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
    """A single-row deep-groove ball bearing; `nominal` is its bore.

    The ratings are the part's own catalogue values, N; without them its balls give both (ISO 281, ISO 76).
    `diameter_series` is that of ISO 15; "" for a size outside it.
    """

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
    dynamic_rating: Rating = None
    static_rating: Rating = None
    diameter_series: Literal["", "7", "8", "9", "0", "1", "2", "3", "4"] = ""


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
    """What a part is made of.

    swells, creeps: its name in the tables of growth by water and of relaxation; "" where it does neither.
    metal: its name in the tables of metals, or none. agent_thing: its name in the table of what water and
    solvents do; "" where that table says nothing of it.
    """

    youngs_modulus: Modulus
    poisson: Ratio
    yield_stress: Stress
    tensile_stress: Stress
    expansion: Expansion
    density: Density
    swells: Literal["", "nylon", "acetal"] = ""
    creeps: Literal["", "nylon", "acetal"] = ""
    metal: str
    agent_thing: Thing = ""


class SlidingMaterial(Record):
    """What a bush of one material bears against a steel shaft; its id is that of the material.

    Pressure on the projected area, sliding speed and their product are limits of their own, each with a
    design value to stay below and a ceiling never to pass, for running without rest. Friction: breaking
    away and moving. Wear rate: volume worn per force and distance slid.
    """

    pressure_design: Stress
    pressure_ceiling: Stress
    speed_design: Speed
    speed_ceiling: Speed
    pv_design: PressureSpeed
    pv_ceiling: PressureSpeed
    friction_start: Friction
    friction_run: Friction
    wear_rate: WearRate
    temperature_most: Heat  # °C


class Stock(Record):
    """Sheet, bar or print that houses bearings or makes an arm.

    swells: its name in the table of growth by water; "" where it does not grow, or nobody measured it.
    metal, finish: its names in the tables of metals; none where it is no metal. agent_thing: as a material's.
    """

    kind: Literal["metal", "plastic", "wood", "print"]
    thickness: Size
    modulus_along: Modulus
    modulus_across: Modulus
    poisson: Ratio
    hoop_limit_short: Stress
    hoop_limit_long: Stress
    seat_limit: Stress  # pressure under a washer or a shoulder's end, across the sheet
    density: Density
    expansion: Expansion
    swells: Literal["", "plywood", "mdf", "acrylic", "pla", "acetal", "nylon"] = ""
    metal: str
    finish: str = "plain"
    agent_thing: Thing = ""


class Process(Record):
    """A way to make a hole. `grade` (an ISO 286 hole class) stands for bias and spread when given.

    bias: mean of made less drawn diameter; spread: one standard deviation; position and squareness:
    how far the hole may lie from its place, and its axis lean, either way. `stocks`: kinds it works on.
    holes: how many holes of one's own are behind bias and spread. tool: one that comes in steps of size.
    kerf: whole width of the cut; the bias has it in it. An odd kerf is taken only where kerf_sure says yes.
    """

    stocks: str
    grade: str = ""
    bias: Offset
    spread: Deviation
    position: Deviation
    squareness: Angle
    measured: Literal["yes", "no"]
    holes: Annotated[int | None, Cell("number", above=1)] = None
    tool: Literal["", "drill", "reamer"] = ""
    kerf: Kerf = None
    kerf_sure: Literal["", "yes", "no"] = ""


class Surroundings(Record):
    """A place where joints stand, and what it does to them.

    wet: how water comes to a joint; damp: air or dew that wets it. salts: what settles on it. humidity:
    share of the water that the air can hold. harshness: class of the limits for metals that touch.
    """

    wet: Literal["dry", "damp", "splashed", "soaked"]
    salts: Literal["none", "fertiliser", "salt"]
    dust: Literal["yes", "no"]
    humidity: Share
    temperature_least: Temperature  # °C
    temperature_most: Temperature
    harshness: Literal["controlled", "normal", "harsh"]

    @property
    def air(self) -> str:
        """What counts for a metal's own rust: how harsh the place is, or soaked."""
        return "soaked" if self.wet == "soaked" else self.harshness

    @property
    def agents(self) -> tuple[str, ...]:
        """What comes to a joint here by itself, as the table of agents calls it."""
        found = () if self.wet == "dry" else ("water",)
        found += () if self.salts == "none" else (f"{self.salts} mist",)
        return found + (("dust",) if self.dust == "yes" else ())


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


SourceKind = Literal[
    "standard", "book", "paper", "public page", "common practice", "memory", "derived", "invented", "course"
]


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
    loss: Annotated[float, Cell("number", at_least=0, at_most=1)] = 0.0  # share of pieces lost in a term
    paper: Literal["A4", "Letter"]
    site_address: str = ""  # for printed codes
    surroundings: str  # id of the place where its joints stand unless they say otherwise
    temperature_least: Temperature  # °C
    temperature_most: Temperature
    target_travel: Length  # wobble wanted: total travel, mm
    target_arm: Length  # at this arm radius, mm
    target_start_force: Annotated[
        float, Cell("force", above=0, at_most=1000)
    ]  # N there that starts it turning


class Course(Settings):
    """Everything read from a course folder and the package's sources; nothing half filled."""

    parts: Mapping[str, Part]
    materials: Mapping[str, Material]
    sliding: Mapping[str, SlidingMaterial]
    stocks: Mapping[str, Stock]
    processes: Mapping[str, Process]
    places: Mapping[str, Surroundings]
    kits: Mapping[str, Kit]
    sources: Mapping[str, Source]
    grid: RawFile
    joints: Mapping[str, RawFile]  # joint files as written, by file stem; joint/ turns them into joints

    @cached_property
    def _shoulders(self) -> Mapping[float, float]:
        found: dict[float, float] = {}
        for part in self.parts.values():
            if isinstance(part, ShoulderScrew):
                size = round(part.nominal, SAME)
                found[size] = max(found.get(size, 0.0), part.shoulder_diameter.most)
        return found

    def largest_shoulder(self, nominal: float) -> float:
        """The largest shoulder, mm, among the course's screws of a nominal size; of none, the size itself."""
        return self._shoulders.get(round(nominal, SAME), nominal)


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
