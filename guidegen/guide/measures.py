"""Quantities as a page prints them: in both unit systems, the course's own first."""

from dataclasses import dataclass
from math import degrees, floor, log10
from typing import NamedTuple

from guidegen.joint.records import Quantity
from guidegen.numbers import MINUS, said, show_number, written
from guidegen.theory import statics
from guidegen.units import MM_PER_INCH, Band

POUND = 4.4482216152605  # N in a pound-force: 0.45359237 kg × 9.80665 m/s², both exact by definition
INCH_UNITS = {
    "mm": ("in", 1 / MM_PER_INCH),
    "N": ("lbf", 1 / POUND),
    "N·mm": ("lbf·in", 1 / (POUND * MM_PER_INCH)),
    "N·m": ("lbf·in", 1000 / (POUND * MM_PER_INCH)),
    "MPa": ("ksi", MM_PER_INCH**2 / POUND / 1000),
    "m/s": ("ft/min", 60_000 / (12 * MM_PER_INCH)),
    "MPa·m/s": ("psi·ft/min", MM_PER_INCH**2 / POUND * 60_000 / (12 * MM_PER_INCH)),
    "mm²": ("in²", 1 / MM_PER_INCH**2),
    "mm²/N": ("in²/lbf", POUND / MM_PER_INCH**2),
}
SMALLER = {"ksi": ("psi", 1000)}  # the unit that people use below one of the larger one, and how many make it
BELOW_ONE = 0.9995  # a number that rounds to less than one
GRAM = 1e-6  # N·s²/mm
GRAMS_PER_OUNCE = 28.349523125  # a sixteenth of 0.45359237 kg
UNSEEN = 0.001  # mm; a deflection below it is not worth a number
TOO_SMALL = {  # by unit: what is not worth a number, and the words for it in both units
    "mm": (UNSEEN, "under 0.001 mm", "under 0.0001 in"),
    "m/s": (1e-4, "under 0.0001 m/s", "under 0.02 ft/min"),
    "MPa·m/s": (1e-4, "under 0.0001 MPa·m/s", "under 3 psi·ft/min"),
}
SMALLEST = 1e-6  # numbers are written out down to here, without a power of ten
SMALLEST_LENGTH = 1e-5
MANY_TIMES = 100  # a factor beyond it is only said to be large
TO = " to "
FINE = {"mm": 3, "in": 4}  # decimals of a size with limits
DRAWN = {"mm": 2, "in": 4}  # decimals that a drawing takes


class Both(NamedTuple):
    """One quantity in the unit shown first, and in the other one ("" where there is none)."""

    first: str
    second: str

    @property
    def line(self) -> str:
        return f"{self.first} ({self.second})" if self.second else self.first

    def after(self, words: str) -> "Both":
        """With words before the number: "at most 5 N"."""
        return Both(f"{words} {self.first}", self.second)


NOTHING = Both("", "")


@dataclass(frozen=True)
class Measures:
    """Prints numbers with their units; `first` is the unit of length that stands first, mm or in."""

    first: str

    def value(self, x: float, unit: str, digits: int = 3) -> Both:
        """A number rounded to so many digits; an angle also in degrees, a rate also by the minute."""
        if unit == "rad":
            return Both(written(x, "rad", digits), written(degrees(x), "°", digits))
        if unit == "1/s":
            return Both(_said(x, unit, digits), f"{show_number(60 * x, digits)} a minute")
        if unit not in INCH_UNITS:
            return Both(_said(x, unit, digits), "")
        other, factor = INCH_UNITS[unit]
        if other in SMALLER and abs(x * factor) < BELOW_ONE:
            other, factor = SMALLER[other][0], factor * SMALLER[other][1]
        return self._ordered(_said(x, unit, digits), _said(x * factor, other, digits))

    def quantity(self, q: Quantity, digits: int = 3) -> Both:
        """The typical value of a quantity."""
        return self.value(q.typical, q.unit, digits)

    def size(self, mm: float, decimals=FINE) -> Both:
        """A length with fixed decimals, as on a drawing."""
        return self._ordered(_fixed(mm, "mm", decimals), _fixed(mm / MM_PER_INCH, "in", decimals))

    def exact(self, mm: float) -> Both:
        """A length without limits, with no more decimals than it needs."""
        return self._ordered(_short(_fixed(mm, "mm", FINE)), _short(_fixed(mm / MM_PER_INCH, "in", FINE)))

    def drawn(self, mm: float) -> Both:
        """A diameter to type into a drawing."""
        return self.size(mm, DRAWN)

    def limits(self, band: Band) -> Both:
        """A size between limits; exact when it has none."""
        if not band.width:
            return self.size(band.typical)
        (low, low_2), (high, high_2) = self.size(band.least), self.size(band.most)
        return Both(low.split()[0] + TO + high, low_2.split()[0] + TO + high_2)

    def range(self, low: float, high: float, unit: str, digits: int = 2) -> Both:
        """From one number to another, the unit said once."""
        (a, a_2), (b, b_2) = self.value(low, unit, digits), self.value(high, unit, digits)
        return Both(_joined(a, b), _joined(a_2, b_2) if a_2 else "")

    def bend(self, mm: float) -> Both:
        """A deflection, or that it is too small to see."""
        return self.value(mm, "mm", 2) if mm >= UNSEEN else self._ordered(*TOO_SMALL["mm"][1:])

    def sensed(self, x: float, unit: str, digits: int = 2) -> Both:
        """A number, or that it is too small to matter; nought is nought."""
        if unit in TOO_SMALL and 0 < abs(x) < TOO_SMALL[unit][0]:
            return self._ordered(*TOO_SMALL[unit][1:])
        return self.value(x, unit, digits)

    def factor(self, times: float) -> Both:
        """How many times over something is safe; a large factor needs no number."""
        return Both(f"over {MANY_TIMES}" if times > MANY_TIMES else show_number(times, 3), "")

    def torque(self, newton_mm: float) -> Both:
        """A torque to set on a wrench: N·m from one on."""
        if newton_mm < 1000:
            return self.value(newton_mm, "N·mm", 2)
        return self.value(newton_mm / 1000, "N·m", 2)

    def on_scale(self, newton: float) -> Both:
        """What a kitchen scale shows under a force."""
        grams = newton / statics.weight(GRAM, statics.STANDARD_GRAVITY)
        return self._ordered(said(grams, "g", 2), said(grams / GRAMS_PER_OUNCE, "oz", 2))

    def length(self, mm: float) -> str:
        """A length in the first unit alone, for a narrow table."""
        return self.value(mm, "mm").first

    def _ordered(self, metric, inch):
        return Both(metric, inch) if self.first == "mm" else Both(inch, metric)


def _fixed(x, unit, decimals):
    return f"{x:.{decimals[unit]}f} {unit}".replace("-", MINUS)


def _short(text):
    """Without the zeros at the end of its decimals."""
    number, _, unit = text.partition(" ")
    return f"{number.rstrip('0').rstrip('.')} {unit}" if "." in number else text


def _said(x, unit, digits):
    """A number with its unit, to so many digits before its point too; a small one written out."""
    rounded = float(f"{x:.{digits}g}")
    if unit in ("mm", "in") and SMALLEST_LENGTH <= abs(rounded) < 0.001:
        decimals = digits - 1 - floor(log10(abs(rounded)))
        return f"{x:.{min(decimals, 5)}f} {unit}".replace("-", MINUS)
    return (written if abs(rounded) >= SMALLEST else said)(rounded, unit, digits)


def _joined(low, high):
    """ "0.1 to 0.3 mm": the unit of the lower number is left out."""
    if low == high:
        return low
    number, _, unit = low.rpartition(" ")
    return f"{number if unit and high.endswith(' ' + unit) else low}{TO}{high}"
