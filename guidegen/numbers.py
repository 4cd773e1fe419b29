"""How a number is printed: rounded, without needless zeros, small and large ones by powers of ten."""
from decimal import Context, Decimal
from math import inf
from typing import NamedTuple

MINUS, TIMES, THIN_SPACE = "\u2212", "\u00d7", "\u2009"
MILLION = 1e6
ENOUGH = {"h": 1e5, "10⁶": 1e4, "-": 1e9}  # beyond it a sentence says "over"; 100 000 h are eleven years
SPOKEN_UNITS = {"10⁶": "million turns"}
LARGEST_PLAIN, SMALLEST_PLAIN = 6, -3  # powers of ten: 999 999 and 0.001 are still written out
_RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")


class Printed(NamedTuple):
    """A number as printed: sign, digits, and the power of ten behind them (0: none)."""

    negative: bool
    digits: str
    power: int

    @property
    def value(self) -> float:
        """The number that a reader of the print would type in."""
        return float(f"{'-' * self.negative}{self.digits}e{self.power}")

    @property
    def grouped(self) -> str:
        """The digits, in groups of three before the point when there are five or more (ISO 80000-1)."""
        whole, point, decimals = self.digits.partition(".")
        return (f"{int(whole):,}".replace(",", THIN_SPACE) if len(whole) > 4 else whole) + point + decimals


def printed(x: float, digits: int) -> Printed:
    """`x` rounded to so many significant digits, never before the decimal point of a number written out.

    Raises ValueError for a number that is not finite.
    """
    exact = Decimal(repr(float(x)))
    if not exact.is_finite():
        raise ValueError(f"no print for {x}")
    kept = max(digits, exact.adjusted() + 1) if exact.adjusted() < LARGEST_PLAIN else digits
    rounded = Context(prec=kept).create_decimal(exact)
    power = rounded.adjusted()
    if not rounded:
        return Printed(False, "0", 0)
    if SMALLEST_PLAIN <= power < LARGEST_PLAIN:
        power = 0
    size = abs(rounded).scaleb(-power).normalize()
    return Printed(rounded < 0, f"{size:f}", power)


def show_number(x: float, digits: int = 3) -> str:
    """`x` as plain text: "−0.13", "193 000", "4.2 × 10⁻⁶"."""
    number = printed(x, digits)
    text = number.grouped
    if number.power:
        ten = "10" + str(number.power).translate(_RAISED)
        text = ten if number.digits == "1" else f"{text} {TIMES} {ten}"
    return MINUS * number.negative + text


def said(x: float, unit: str, digits: int = 3) -> str:
    """A number with its unit for a sentence; angles in thousandths of a radian, huge numbers in words."""
    if x > ENOUGH.get(unit, inf):
        return f"over {said(ENOUGH[unit], unit)}"
    if unit in ("", "-"):
        million = float(f"{x:.{digits}g}") >= MILLION
        return f"{show_number(x / MILLION, digits)} million" if million else show_number(x, digits)
    if unit == "rad":
        x, unit = 1000 * x, "mrad"
    return f"{show_number(x, digits)} {SPOKEN_UNITS.get(unit, unit)}"
