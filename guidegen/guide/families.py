"""Parts that differ in their length alone: one family, with one outline and one line in a table."""

from dataclasses import dataclass
from itertools import takewhile
from typing import Iterable

from guidegen.guide.own_units import round_size, said_size, unit_of
from guidegen.joint.inputs import round_nominal
from guidegen.kit.lookup import thread
from guidegen.kit.records import BallBearing, Nut, Part, ShoulderScrew, SleeveBushing, Spacer, Washer
from guidegen.units import Band

ALONG = {  # the size along the axis
    ShoulderScrew: "shoulder_length",
    SleeveBushing: "length",
    BallBearing: "width",
    Spacer: "length",
    Washer: "thickness",
    Nut: "height",
}
FIRST = {  # the size that is measured first
    ShoulderScrew: "shoulder_diameter",
    SleeveBushing: "outside_diameter",
    BallBearing: "outside_diameter",
    Spacer: "outside_diameter",
    Washer: "outside_diameter",
    Nut: "across_flats",
}
HOLES = {SleeveBushing: "free_bore", BallBearing: "bore", Spacer: "hole", Washer: "hole"}
KINDS = {
    ShoulderScrew: "shoulder screw",
    SleeveBushing: "bush",
    BallBearing: "ball bearing",
    Spacer: "spacer",
    Washer: "washer",
    Nut: "nut",
}
NOT_TOLD = {"id", "name", "source", "price", "pack"}


@dataclass(frozen=True)
class Family:
    """Parts of one kind, material and cross-section, from the shortest to the longest."""

    parts: tuple[Part, ...]

    @property
    def first(self) -> Part:
        return self.parts[0]

    @property
    def key(self) -> str:
        """Names its place on the page of all parts."""
        return f"f-{self.first.id}"

    @property
    def words(self) -> str:
        """What it is called: the name of its only part, else kind and size."""
        if len(self.parts) == 1:
            return self.first.name
        return f"{noun_of(self.first)} {size_words(self.first)}"


def families(parts: Iterable[Part]) -> list[Family]:
    """The families among parts, by the size that is measured first."""
    found: dict[tuple, list[Part]] = {}
    for part in parts:
        found.setdefault(_section(part), []).append(part)
    made = [Family(tuple(sorted(members, key=length_of))) for members in found.values()]
    return sorted(
        made, key=lambda family: (*map(_typical(family.first), _measured(family.first)), family.key)
    )


def noun_of(part: Part) -> str:
    """What a part is called without its sizes: its name up to the first figure, "close shoulder screw"."""
    words = [*takewhile(lambda word: not any(map(str.isdigit, word)), part.name.split())]
    if words and words[-1].endswith("."):  # of "No. 10"
        words.pop()
    return " ".join(words) or KINDS[type(part)]


def size_words(part: Part) -> str:
    """What it goes with, and the size across it, in its own unit: "8 mm, thread M6"."""
    unit = unit_of(part)
    if isinstance(part, ShoulderScrew):
        return f"{said_size(part.nominal, unit)}, thread {part.thread}"
    if isinstance(part, Nut):
        return part.thread
    hole, outside = getattr(part, HOLES[type(part)]), part.outside_diameter
    inner = said_size(part.nominal, unit) if hasattr(part, "nominal") else round_size(hole, unit)
    pressed = isinstance(part, SleeveBushing)  # its outside is made over size, to be pressed in
    outer = said_size(round_nominal(part), unit) if pressed else round_size(outside, unit)
    return f"{inner.removesuffix(' ' + unit)} x {outer}"


def length_words(part: Part) -> str:
    """Its length in its own unit, "25 mm"."""
    return round_size(getattr(part, ALONG[type(part)]), unit_of(part))


def length_of(part: Part) -> float:
    """Its typical length along the axis, mm."""
    return getattr(part, ALONG[type(part)]).typical


def thread_of(part: Part) -> float:
    """Nominal diameter of its thread, mm; 0 where it has none."""
    return thread(part.thread).diameter if hasattr(part, "thread") else 0.0


def _measured(part):
    """The columns that tell families apart, in the order they are measured."""
    return [FIRST[type(part)], *([HOLES[type(part)]] if type(part) in HOLES else [])]


def _typical(part):
    return lambda column: getattr(part, column).typical


def _section(part):
    """All that a family has in common."""
    along = ALONG[type(part)]
    fields = (column for column in type(part).model_fields if column not in NOT_TOLD and column != along)
    return type(part).__name__, *(_hashable(getattr(part, column)) for column in fields)


def _hashable(value):
    return (value.least, value.most) if isinstance(value, Band) else value
