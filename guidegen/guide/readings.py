"""What a caliper should read on a part: its limits, widened by the caliper and by the jaws it has."""

from math import ceil, floor
from typing import Mapping, NamedTuple

from guidegen.guide.measures import TO, Both, Measures
from guidegen.guide.names import COLUMNS
from guidegen.joint.specify import INSTRUMENTS
from guidegen.kit.records import Part
from guidegen.theory.measuring import jaw_reading
from guidegen.units import MM_PER_INCH, Band

CALIPER, MICROMETER, PIN = (INSTRUMENTS[name] for name in ("caliper", "micrometer", "plug gauge"))
JAW_FLATS = Band.between(0.3, 0.5)  # mm, width of the flats of inside jaws; common practice
OUTSIDE, INSIDE, STEP = "outside jaws", "inside jaws", "step or depth rod"
FACES = {
    "shoulder_diameter": OUTSIDE,
    "shoulder_length": STEP,
    "neck_diameter": OUTSIDE,
    "head_diameter": OUTSIDE,
    "head_height": OUTSIDE,
    "free_bore": INSIDE,
    "bore": INSIDE,
    "hole": INSIDE,
    "outside_diameter": OUTSIDE,
    "length": OUTSIDE,
    "width": OUTSIDE,
    "thickness": OUTSIDE,
    "across_flats": OUTSIDE,
    "height": OUTSIDE,
}
SHOWN = {"mm": 0.01, "in": 0.0005}  # steps in which a caliper shows
PINS = {"mm": 0.01, "in": 0.001}  # steps in which gauge pins come
DECIMALS = {"mm": 2, "in": 4}
PIN_DECIMALS = {"mm": 2, "in": 3}
EVEN = 1e-6  # of a step, and mm: a limit this near to a step or bound lies on it


class Reading(NamedTuple):
    """One size of a part as a caliper shows it; lengths mm."""

    column: str
    words: str
    face: str
    limits: Band
    least: float
    most: float
    low_by: Band | None  # how much the flats of inside jaws make it read too small

    @property
    def blunt(self) -> bool:
        """Whether the caliper is too coarse to judge the limits: they lie closer than its own error."""
        return self.limits.width < 2 * CALIPER - EVEN


def readings_of(part: Part) -> list[Reading]:
    """Every size that a caliper reaches, in the order of the part's columns."""
    return [
        reading(column, getattr(part, column))
        for column in type(part).model_fields
        if column in FACES and isinstance(getattr(part, column), Band)
    ]


def reading(column: str, limits: Band) -> Reading:
    """One size as a caliper shows it."""
    face, low_by, low, high = FACES[column], None, limits.least, limits.most
    if face == INSIDE and limits.least > JAW_FLATS.most:
        low = float(jaw_reading(limits.least, JAW_FLATS.most))
        high = float(jaw_reading(limits.most, JAW_FLATS.least))
        low_by = Band.between(limits.most - high, limits.least - low)
    return Reading(column, COLUMNS[column], face, limits, low - CALIPER, high + CALIPER, low_by)


def shown(least: float, most: float, measures: Measures) -> Both:
    """From one reading to another, as the caliper shows them, rounded outward."""
    texts = {
        unit: TO.join(f"{end:.{DECIMALS[unit]}f}" for end in outward(least, most, unit)) + f" {unit}"
        for unit in SHOWN
    }
    return ordered(texts, measures)


def outward(least: float, most: float, unit: str) -> tuple[float, float]:
    """Two readings, mm, rounded outward to the steps a caliper shows in a unit; in that unit."""
    step, mm = SHOWN[unit], MM_PER_INCH if unit == "in" else 1.0
    low, high = floor(least / mm / step + EVEN), ceil(most / mm / step - EVEN)
    return max(low * step, 0.0), high * step


def ordered(texts: Mapping[str, str], measures: Measures) -> Both:
    """Texts by their unit, that of the course first."""
    first, second = sorted(texts, key=lambda unit: unit != measures.first)
    return Both(texts[first], texts[second])


def pins(limits: Band, measures: Measures) -> tuple[Both, Both]:
    """Of gauge pins: the thickest that must go into every such hole, the thinnest that goes into none."""
    goes, stops = {}, {}
    for unit, mm in (("mm", 1.0), ("in", MM_PER_INCH)):
        step = PINS[unit]
        goes[unit] = floor(limits.least / mm / step + EVEN) * step
        stops[unit] = (floor(limits.most / mm / step + EVEN) + 1) * step
    return _pin(goes, measures), _pin(stops, measures)


def _pin(sizes, measures):
    return ordered({unit: f"{size:.{PIN_DECIMALS[unit]}f} {unit}" for unit, size in sizes.items()}, measures)
