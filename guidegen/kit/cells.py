"""What one cell of a data file says: a word, a number with its unit, or a size with limits.

A size stands in one cell, in one of four forms; a unit after either number holds for both, else the
column's unit holds:
    8 h8                an ISO 286 class on a nominal size
    7.978 to 8.000      smallest and largest
    6 ± 0.4             (also +- or +/-) evenly about a nominal size
    7 +0/-0.12          upper and lower deviation from a nominal size
Any other value with limits, such as a friction coefficient, stands in the second or third form.
"""

import re
from math import sqrt
from typing import Literal, get_args, get_origin

from guidegen.kit.lookup import band_of_class
from guidegen.kit.records import Cell
from guidegen.units import EXAMPLES, INTERNAL, Band, read_quantity

SIZE_FORMS = "a size with limits, in a form such as 8 h8, 7.978 to 8.000, 6 ± 0.4 or 7 +0/-0.12"
BAND_FORMS = "a value with limits, in a form such as 0.05 to 0.15 or 0.10 ± 0.05"
LONGEST_TEXT = 400  # characters
_OPERAND = re.compile(r"\s*([-+−]?\s*[\d.][\d.\s/]*(?:[eE][-+]?\d+)?)\s*(.*?)\s*")
_CLASS = re.compile(r"(?P<size>.*\d.*?)\s*(?P<name>[A-Za-z]{1,2}\d{1,2})")
_PLUS_MINUS = re.compile(r"\s*(?:±|\+/-|\+-|\+/−|\+−)\s*")
_DEVIATIONS = re.compile(r"(?P<size>.*?\S)\s*(?P<upper>[-+−]\s*[^/]+)/\s*(?P<lower>[-+−].+)")


class Unreadable(Exception):
    """Why a cell cannot be taken: what was found, what is allowed, what to do."""

    def __init__(self, found, allowed, remedy=""):
        self.found, self.allowed, self.remedy = found, allowed, remedy
        super().__init__(found)


class Field:
    """What a field of a record takes, by its declaration: words, a whole number, a quantity, a size."""

    def __init__(self, declared):
        self.cell = next((mark for mark in declared.metadata if isinstance(mark, Cell)), None)
        self.type = declared.annotation
        self.required = declared.is_required()
        words = get_args(self.type) if get_origin(self.type) is Literal else ()
        self.choices = tuple(filter(None, words))  # "" stands for an empty cell

    @property
    def dimension(self) -> str:
        """The dimension of the column's unit; "" for words and plain numbers, which have none."""
        return self.cell.dimension if self.cell and self.cell.dimension != "number" else ""

    def read(self, text: str, unit: str = ""):
        """The value of a cell; raises Unreadable."""
        text = re.sub("[\u00a0\u2007\u202f]", " ", text).strip()  # spaces that spreadsheets put in numbers
        if not text or text == "-":
            if self.required:
                raise Unreadable("an empty cell", self._allowed())
            return None
        if len(text) > LONGEST_TEXT or not text.isprintable():
            raise Unreadable(
                f"{_shown(text)}, too long or not plain", f"at most {LONGEST_TEXT} printable characters"
            )
        if self.choices and text not in self.choices:
            raise Unreadable(_shown(text), self._allowed())
        if self.cell is None:
            return text
        try:
            value = self._value(text, unit)
        except ValueError as wrong:
            raise Unreadable(f"{_shown(text)}, {wrong}", self._allowed()) from None
        self._check_bounds(text, value)
        return self._whole(text, value) if self.type is int else value

    def _value(self, text, unit):
        if self.type is not Band:
            return read_quantity(text, self.cell.dimension, unit)
        if self.cell.dimension == "length":
            return read_size(text, unit)
        return read_band(text, self.cell.dimension, unit, self.cell.decades)

    def _whole(self, text, value):
        if value != int(value):
            raise Unreadable(_shown(text), "a whole number above 0")
        return int(value)

    def _check_bounds(self, text, value):
        least, most = (value.least, value.most) if isinstance(value, Band) else (value, value)
        cell = self.cell
        if (
            cell.above is not None
            and least <= cell.above
            or cell.at_least is not None
            and least < cell.at_least
            or cell.at_most is not None
            and most > cell.at_most
        ):
            raise Unreadable(_shown(text), f"{self._allowed()}, {self._bounds()}")

    def _bounds(self):
        cell = self.cell
        unit = f" {INTERNAL[cell.dimension]}".rstrip()
        limits = (("above", cell.above), ("at least", cell.at_least), ("at most", cell.at_most))
        return " and ".join(f"{word} {limit:g}{unit}" for word, limit in limits if limit is not None)

    def _allowed(self):
        if self.choices:
            return "one of " + ", ".join(self.choices)
        if self.cell is None:
            return "a word or two"
        if self.type is Band and self.cell.dimension == "length":
            return SIZE_FORMS
        if self.type is Band:
            return f"{BAND_FORMS}{self._and_unit()}"
        if self.cell.dimension == "number":
            return "a whole number" if self.type is int else "a plain number such as 1.5"
        return f"a number with a unit of {self.cell.dimension}, such as {EXAMPLES[self.cell.dimension]}"

    def _and_unit(self):
        dimension = self.cell.dimension
        return "" if dimension == "number" else f", with a unit of {dimension}, as in {EXAMPLES[dimension]}"


def read_size(text: str, unit: str = "") -> Band:
    """A size with its limits, mm, from one of the four forms; raises ValueError with one plain sentence."""
    if match := _CLASS.fullmatch(text):
        (nominal,) = _quantities("length", unit, match["size"])
        return band_of_class(nominal, match["name"])
    if band := _limits(text, "length", unit):
        return band
    if match := _DEVIATIONS.fullmatch(text):
        texts = match["size"], match["upper"], match["lower"]
        nominal, upper, lower = _quantities("length", unit, *texts)
        if lower > upper:
            raise ValueError("its deviations swapped: the upper one stands first")
        return Band.between(nominal + lower, nominal + upper)
    return _without_limits(text, "length", unit)


def read_band(text: str, dimension: str, unit: str = "", decades: bool = False) -> Band:
    """A value of any dimension with its limits; raises ValueError with one plain sentence.

    decades: known to a power of ten only, so that the typical value is the geometric middle of "x to y".
    """
    return _limits(text, dimension, unit, decades) or _without_limits(text, dimension, unit)


def _limits(text, dimension, unit, decades=False):
    """The band of "x to y" or "x ± y"; None for any other form."""
    if len(ends := re.split(r"\s+to\s+", text)) == 2:
        least, most = _quantities(dimension, unit, *ends)
        if least > most:
            raise ValueError("its limits swapped: the smaller one stands first")
        if decades and least > 0:
            return Band(least, min(max(least, sqrt(least * most)), most), most)
        return Band.between(least, most)
    if len(ends := _PLUS_MINUS.split(text)) == 2:
        nominal, either_way = _quantities(dimension, unit, *ends)
        if either_way < 0:
            raise ValueError("a negative number after ±")
        return Band.between(nominal - either_way, nominal + either_way)
    return None


def _without_limits(text, dimension, unit):
    _quantities(dimension, unit, text)  # says what is wrong with the number itself, if anything is
    raise ValueError("without limits")


def _quantities(dimension, unit, *texts):
    """Quantities written in one cell; a unit that one of them carries holds for all that have none."""
    written = [match[2] for match in map(_OPERAND.fullmatch, texts) if match and match[2]]
    shared = written[-1] if written else unit
    return [read_quantity(text, dimension, shared) for text in texts]


def is_spreadsheet_formula(text: str, words: bool) -> bool:
    """Whether a spreadsheet would run this cell instead of showing it; `words`: no number belongs here."""
    text = text.strip()
    if text[:1] in ("+", "-"):
        return len(text) > 1 and (words or re.match(r"[-+]\s*[\d.]", text) is None)
    return text[:1] in ("=", "@")


def _shown(text):
    """A cell as it stands, in quotes, shortened when nobody would read on."""
    return f'"{text[:60]}…"' if len(text) > 60 else f'"{text}"'
