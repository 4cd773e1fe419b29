"""The main sizes of a part, by the names a person would use, at typical values."""

from functools import singledispatch

from guidegen.drawing.annotations import both_units
from guidegen.drawing.profiles import CORNERS
from guidegen.kit.lookup import thread
from guidegen.kit.records import BallBearing, Nut, Part, ShoulderScrew, SleeveBushing, Spacer, Washer

CORNER = 0.06  # rounding of a ball bearing's rings over its width; schematic


def describe(part: Part, first: str = "mm") -> str:
    """What the drawing of a part shows, in words; `first`: the unit in front."""
    listed = ", ".join(f"{name} {both_units(size, ' (', first)})" for name, size in sizes_of(part))
    cut = "" if isinstance(part, ShoulderScrew) else ", half of it cut"
    thread = f", thread {part.thread}" if isinstance(part, (ShoulderScrew, Nut)) else ""
    return (
        f"{part.name} from the side{cut}, and to the right of that seen from the left (first-angle "
        f"arrangement), to scale: {listed}{thread}. Sizes are the middle of their limits."
    )


@singledispatch
def sizes_of(part):
    """(name, mm) of the main sizes; of a ring: its hole, its outside, its length, in this order."""
    raise TypeError(f"no drawing for {type(part).__name__}")


@sizes_of.register
def _(part: ShoulderScrew):
    return [
        ("shoulder diameter", part.shoulder_diameter.typical),
        ("shoulder length", part.shoulder_length.typical),
        ("neck diameter", part.neck_diameter.typical),
        ("thread length", part.thread_length),
        ("head diameter", part.head_diameter.typical),
        ("head height", part.head_height.typical),
        ("hexagon socket", part.socket),
    ]


@sizes_of.register
def _(part: SleeveBushing):
    return [
        ("bore before pressing", part.free_bore.typical),
        ("outside diameter", part.outside_diameter.typical),
        ("length", part.length.typical),
    ]


@sizes_of.register
def _(part: BallBearing):
    return [
        ("bore", part.bore.typical),
        ("outside diameter", part.outside_diameter.typical),
        ("width", part.width.typical),
    ]


@sizes_of.register
def _(part: Spacer):
    return [
        ("hole", part.hole.typical),
        ("outside diameter", part.outside_diameter.typical),
        ("length", part.length.typical),
    ]


@sizes_of.register
def _(part: Washer):
    return [
        ("hole", part.hole.typical),
        ("outside diameter", part.outside_diameter.typical),
        ("thickness", part.thickness.typical),
    ]


@sizes_of.register
def _(part: Nut):
    return [
        ("thread diameter", thread(part.thread).diameter),
        ("across flats", part.across_flats.typical),
        ("height", part.height.typical),
    ]


def length_of(part):
    """Length along the axis, mm."""
    if isinstance(part, ShoulderScrew):
        return part.head_height.typical + part.shoulder_length.typical + part.thread_length
    return sizes_of(part)[2][1]


def across_of(part):
    """Greatest distance across the axis, mm."""
    if isinstance(part, ShoulderScrew):
        return part.head_diameter.typical
    return sizes_of(part)[1][1] * (CORNERS if isinstance(part, Nut) else 1)


def edge_of(part):
    """How far the outer edges of a ring are broken, mm."""
    if isinstance(part, BallBearing):
        return CORNER * length_of(part)
    return part.chamfer if isinstance(part, SleeveBushing) else 0.0
