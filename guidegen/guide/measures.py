"""Quantities as a page prints them: in both unit systems, the course's own first."""

from dataclasses import dataclass
from math import degrees, floor, log10
from typing import NamedTuple

from guidegen.joint.records import Quantity
from guidegen.numbers import MINUS, said, show_number
from guidegen.units import MM_PER_INCH, Band

POUND = 4.4482216152605  # N in a pound-force: 0.45359237 kg × 9.80665 m/s², both exact by definition
INCH_UNITS = {
    "mm": ("in", 1 / MM_PER_INCH),
    "N": ("lbf", 1 / POUND),
    "N·mm": ("lbf·in", 1 / (POUND * MM_PER_INCH)),
    "MPa": ("ksi", MM_PER_INCH**2 / POUND / 1000),
}
UNSEEN = 0.001  # mm; a deflection below it is not worth a number
TOO_SMALL = "under 0.001 mm", "under 0.0001 in"
SMALLEST = 1e-5  # lengths down to here are written out, without a power of ten
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


@dataclass(frozen=True)
class Measures:
    """Prints numbers with their units; `first` is the unit of length that stands first, mm or in."""

    first: str

    def value(self, x: float, unit: str, digits: int = 3) -> Both:
        """A number rounded to so many digits; an angle also in degrees."""
        if unit == "rad":
            return Both(said(x, "rad", digits), f"{show_number(degrees(x), digits)}°")
        if unit not in INCH_UNITS:
            return Both(said(x, unit, digits), "")
        other, factor = INCH_UNITS[unit]
        return self._ordered(_said(x, unit, digits), _said(x * factor, other, digits))

    def quantity(self, q: Quantity, digits: int = 3) -> Both:
        """The typical value of a quantity."""
        return self.value(q.typical, q.unit, digits)

    def size(self, mm: float, decimals=FINE) -> Both:
        """A length with fixed decimals, as on a drawing."""
        return self._ordered(_fixed(mm, "mm", decimals), _fixed(mm / MM_PER_INCH, "in", decimals))

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
        return Both(_joined(a, b), _joined(a_2, b_2))

    def bend(self, mm: float) -> Both:
        """A deflection, or that it is too small to see."""
        if mm < UNSEEN:
            return self._ordered(*TOO_SMALL)
        return self.value(mm, "mm", 2)

    def length(self, mm: float) -> str:
        """A length in the first unit alone, for a narrow table."""
        return self.value(mm, "mm").first

    def _ordered(self, metric, inch):
        return Both(metric, inch) if self.first == "mm" else Both(inch, metric)


def _fixed(x, unit, decimals):
    return f"{x:.{decimals[unit]}f} {unit}".replace("-", MINUS)


def _said(x, unit, digits):
    """A number with its unit; a short length written out to the last of its digits."""
    if unit in ("mm", "in") and SMALLEST <= abs(x) < 0.001:
        decimals = min(digits - 1 - floor(log10(abs(x))), 5)
        return f"{x:.{decimals}f} {unit}".replace("-", MINUS)
    return said(x, unit, digits)


def _joined(low, high):
    """ "0.1 to 0.3 mm": the unit of the lower number is left out."""
    number, _, unit = low.rpartition(" ")
    return f"{number if unit and high.endswith(' ' + unit) else low}{TO}{high}"
