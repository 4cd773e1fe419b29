"""How a number is printed: rounded, without needless zeros, small and large ones by powers of ten."""

from decimal import Context, Decimal
from math import inf
from typing import NamedTuple

MINUS, TIMES, THIN_SPACE = "\u2212", "\u00d7", "\u2009"
MILLION = 1e6
ENOUGH = {"h": 1e5, "10⁶": 1e4, "-": 1e9}  # beyond it a sentence says "over"; 100 000 h are eleven years
SPOKEN_UNITS = {"10⁶": "million turns"}
SEEN = 0.99  # a chance beyond it, or below what is left of one, gets no number of its own
ALL_DIGITS = 12  # beyond them two numbers of a result are one
LARGEST_PLAIN, SMALLEST_PLAIN = 6, -3  # powers of ten: 999 999 and 0.001 are still written out
RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹⁻"
_RAISED = str.maketrans("0123456789-", RAISED)


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
    if unit == "°":  # no space before it (ISO 80000-1)
        return f"{show_number(x, digits)}°"
    return f"{show_number(x, digits)} {SPOKEN_UNITS.get(unit, unit)}"


def written(x: float, unit: str, digits: int = 3) -> str:
    """As `said`, for a reason: written out without powers of ten, and degrees without a space."""
    text = said(x, unit, digits)
    if "10" in text and any(raised in text.removesuffix(unit) for raised in RAISED):
        number = printed(1000 * x if unit == "rad" else x, digits)
        plain = Printed(number.negative, f"{Decimal(f'{number.digits}e{number.power}'):f}", 0)
        unit = {"": "", "-": "", "°": "°"}.get(unit, f" {text.rpartition(' ')[2]}")
        text = f"{MINUS * number.negative}{plain.grouped}{unit}"
    return text


def digits_apart(x: float, limit: float, unit: str, digits: int = 3) -> int:
    """Digits at which a number and its limit print differently; as many as asked for where they are one."""
    for more in range(digits, ALL_DIGITS):
        if written(x, unit, more) != written(limit, unit, more):
            return more
    return digits


def percent(chance: float) -> str:
    """A chance in per cent; what is nearly sure, or nearly never, is not told to a digit."""
    if SEEN < chance < 1:
        return f"over {show_number(100 * SEEN)} %"
    if 0 < chance < 1 - SEEN:
        return f"under {show_number(100 * (1 - SEEN))} %"
    return f"{show_number(100 * chance, 2)} %"
