"""Frozen records of a joint to be built and of what happens in it."""

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal, Mapping

from guidegen.kit.records import Kit, Part, Process, ShoulderScrew, Stock, Surroundings, Thread
from guidegen.units import Band

State = Literal["holds", "take care", "does not hold"]
STATES: tuple[State, ...] = ("holds", "take care", "does not hold")


@dataclass(frozen=True)
class Housing:
    """Where one bearing sits: the stock, how its hole is made, how the bearing is held in it."""

    stock: Stock
    process: Process
    fit: Literal["press", "slip", "bonded"]
    edge: float  # hole centre to nearest edge, mm
    proud: Literal["head", "thread"]  # the side on which a bearing longer than its plate stands out


@dataclass(frozen=True)
class Plate:
    """A plate clamped by the nut, a fork cheek, or the arm on the shoulder of a straddle joint."""

    stock: Stock
    process: Process
    fit: Literal["press", "slip", "bonded"] = "slip"


@dataclass(frozen=True)
class Motion:
    """How the joint moves: peak-to-peak swing (rad) and rate (1/s), or turning speed (1/s)."""

    kind: Literal["swing", "turn", "hand"]
    angle: float = 0.0
    rate: float = 0.0
    hours: float = 0.0


@dataclass(frozen=True)
class Joint:
    """One joint as asked for. Lengths mm, forces N. `None` means absent, to be found or not there."""

    id: str
    title: str
    kit: Kit | None  # the counts the stack search may use
    shaft: ShoulderScrew
    thread: Thread
    bearings: tuple[Part, ...]  # one or two; bearing 1 is nearest the head
    separation: float | None  # between bearing mid-planes; None for a single bearing
    overhang: float | None  # bearing 2 (or the only one) to load plane; None: taken from the stack
    radial: float
    axial: float
    shock: float
    direction: Literal["fixed", "turning"]
    arm: float
    motion: Motion
    turns: Literal["shaft", "housing"]
    held: Literal["thread", "fork"] | None
    rings: Literal["loose", "clamped"]
    body: Literal["plates", "block"]
    housings: tuple[Housing, ...]
    on_thread: Plate | None
    cheeks: Plate | None  # layout C
    arm_plate: Plate | None  # layout A straddle: sits on the shoulder between the bearings
    offset: float | None
    gap_tolerance: float  # of standoffs and blocks, ± mm
    place: Surroundings  # where it stands; of the course's own place, its temperatures are the course's
    youngs_modulus: float  # of the screw, MPa
    yield_stress: float
    after_parts: tuple[str, ...] | None = None  # fillers after bearing 2 asked for by the grid
    stack_ids: tuple[str, ...] | None = None  # the whole stack from the head, when the file gives it
    measured: Mapping[str, Band] = field(default_factory=lambda: MappingProxyType({}))

    @property
    def layout(self) -> Literal["A", "B", "C"]:
        if self.turns == "shaft":
            return "A"
        return "C" if self.held == "fork" else "B"

    @property
    def single(self) -> bool:
        return len(self.bearings) == 1

    @property
    def clamped(self) -> bool:
        return self.rings == "clamped"

    @property
    def straddle(self) -> bool:
        """Whether the load acts between the bearings."""
        return not self.single and self.overhang is not None and -self.separation <= self.overhang < 0

    @property
    def arm_between(self) -> bool:
        """Whether the arm sits on the shoulder between the bearings of a frame."""
        return self.layout == "A" and self.straddle

    @property
    def arm_bonded(self) -> bool:
        """Whether that arm is bonded to the shoulder, so that it adds no play of its own."""
        return self.arm_between and self.arm_plate.fit == "bonded"

    @property
    def plate_on_thread(self) -> bool:
        """Whether the nut clamps a plate, the arm or the frame, against the shoulder end."""
        return self.on_thread is not None and self.layout != "C" and not self.arm_between


@dataclass(frozen=True)
class Placed:
    """One thing on the screw, in order from the head."""

    part: str  # part id; "frame" or "hub" for the body with its bearings, a stock id for a plate
    name: str
    kind: str  # washer ring spacer shim bearing body plate cheek nut
    z_from: float
    z_to: float
    on: Literal["shoulder", "thread"]
    turns_with: Literal["screw", "frame", "arm", "free"]
    touches_before: str  # part before it towards the head that it touches; "" when a gap is there
    thickness: Band
    hole: float  # typical diameters, for drawing
    outside: float
    within: str = ""  # "frame" or "hub" for a bearing and what stands between bearings


@dataclass(frozen=True)
class BodyPlate:
    """A plate or block round the bearings, for drawing: z range, the hole in it and its edge."""

    stock: str
    z_from: float
    z_to: float
    hole: float
    edge: float
    bearing: int  # 1, 2; 0 for a block that houses both


@dataclass(frozen=True)
class Clamped:
    """A stack clamped through the inner rings: mismatch of the rings, and how far it stands out; mm."""

    mismatch: "Quantity"
    proud: "Quantity"
    chance_proud: float  # share of measured stacks that the kit's fillers bring to stand out as wanted


@dataclass(frozen=True)
class ArmPlay:
    """Where an arm slides on the shoulder between the bearings: the room for it and what stands beside it."""

    gap: Band  # between the faces of the bearings
    parts: tuple[Band, ...]  # thicknesses of all that stands there, the arm among them
    faces: tuple[float, float]  # smallest faces that meet on either side of the arm

    @property
    def play(self) -> Band:
        """Axial play of the arm."""
        taken = sum(self.parts, Band.exactly(0.0))
        return Band(
            self.gap.least - taken.most, self.gap.typical - taken.typical, self.gap.most - taken.least
        )


@dataclass(frozen=True)
class Stack:
    """The resolved stack: drawing, end play, order of assembly, face contact all read this one."""

    placed: tuple[Placed, ...]
    plates: tuple[BodyPlate, ...]
    z_bearings: tuple[float, ...]  # mid-planes
    z_load: float
    z_face: float  # the clamped face: shoulder end, or top of a clamped stack
    shoulder: float
    thread_end: float
    end_play: Band
    end_play_likely: tuple[float, float]
    at_typical: float  # end play with every part at its typical size
    chance_pinched: float
    chance_fits: float  # share of measured stacks that the kit's fillers bring into the window
    window: tuple[float, float]  # of end play
    clamped: "Clamped | None"  # what else is known of a stack that the nut clamps
    arm: "ArmPlay | None"  # of an arm that slides on the shoulder between the bearings
    face_diameters: tuple[float, float] | None
    thread_room: float
    nut_engaged: Band  # nut height on full thread
    faults: tuple[str, ...]  # faces that touch what they may not; empty when sound

    @property
    def cheeks(self) -> tuple[float, ...]:
        """Middles of a fork's cheeks."""
        return tuple((row.z_from + row.z_to) / 2 for row in self.placed if row.kind == "cheek")


@dataclass(frozen=True)
class Quantity:
    """A number, or a band with its likely range, in the fixed unit of JSON results."""

    unit: str
    value: float | None = None
    band: Band | None = None
    likely: tuple[float, float] | None = None

    @property
    def typical(self) -> float:
        return self.value if self.band is None else self.band.typical


@dataclass(frozen=True)
class Verdict:
    """What is said about one check. `number` and `limit` are None for yes/no checks."""

    about: str
    state: State
    number: float | None
    limit: float | None
    unit: str
    why: str
    source: str
    instead: str | None = None  # id of an evaluated joint that passes
    tried: str = ""  # what the search tried and found missing, when there is no instead
    name: str = ""  # of the quantity judged; "" for yes/no checks
    upkeep: bool = False  # what its place asks of whoever keeps the joint, however it is designed

    @property
    def counts_as(self) -> State:
        """Its state as the joint's own counts it: what upkeep can keep is no fault of the joint."""
        return "holds" if self.upkeep and self.state == "take care" else self.state


@dataclass(frozen=True)
class Step:
    """One worked step at typical values: formula name, the quantity, values put in, the result."""

    gives: str  # quantity NAME of the results
    formula: str  # key of theory FORMULAS
    values: Mapping[str, float]  # by formula argument
    result: float
    held: bool
    source: str
    about: str = ""  # what a search solved, in words, when the formula proves a found solution


@dataclass(frozen=True)
class Result:
    """All that was found out about one joint."""

    joint: Joint
    stack: Stack | None  # None when nothing can be built
    inputs: Mapping[str, Quantity]
    quantities: Mapping[str, Quantity]
    shares: Mapping[str, float]
    verdicts: tuple[Verdict, ...]  # worst first
    steps: tuple[Step, ...]

    @property
    def id(self) -> str:
        return self.joint.id

    @property
    def state(self) -> State:
        return max((v.counts_as for v in self.verdicts), key=STATES.index, default="holds")
