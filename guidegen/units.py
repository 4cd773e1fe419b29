"""Quantities at the edge: text to numbers, numbers to both unit systems, and sizes with limits.

Inside the program every length is in mm, force in N, time in s, angle in rad, temperature
difference in K; stress is then MPa and moment N·mm. Text is turned into these once, here.
"""

import re
from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

INTERNAL = {
    "length": "mm",
    "force": "N",
    "stress": "MPa",
    "angle": "rad",
    "moment": "N*mm",
    "rate": "1/s",
    "time": "s",
    "mass": "t",
    "temperature": "degC",
    "expansion": "1/K",
    "speed": "mm/s",
    "number": "",
    "wear rate": "mm**2/N",
    "area": "mm**2",
    "area moment": "mm**4",
    "density": "t/mm**3",
    "temperature rise": "K",
    "pv": "MPa*mm/s",
    "voltage": "V",
}
EXAMPLES = {
    "length": "8 mm, 0.3125 in, 5/16 in",
    "force": "30 N, 7 lbf",
    "stress": "3200 MPa, 3.2 GPa",
    "angle": "70 deg, 0.2 rad",
    "moment": "500 N*mm",
    "rate": "6 /min, 40 rpm",
    "time": "200 h",
    "mass": "500 g",
    "temperature": "40 degC",
    "expansion": "80e-6 /K",
    "speed": "10 mm/s",
    "number": "1.5",
    "wear rate": "4e-6 mm**3/(N*m)",
    "area": "20.1 mm^2",
    "area moment": "200 mm**4",
    "density": "7850 kg/m^3",
    "temperature rise": "20 K",
    "pv": "0.7 MPa*m/s, 20000 psi*ft/min",
    "voltage": "0.25 V",
}
_NUMBER = re.compile(
    r"""\s*(?P<sign>[-+−]?)\s*(?:
      (?P<whole>\d+)\s+(?P<top>\d+)/(?P<bottom>\d+)
    | (?P<top2>\d+)/(?P<bottom2>\d+)
    | (?P<decimal>(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)
    )\s*(?P<unit>.*?)\s*$""",
    re.VERBOSE,
)
_UNIT = re.compile(r"(?!.*(\*\*|\^)\s*-?\d\d)[A-Za-z0-9_*/^(). µμ-]{1,40}")  # no power that could explode
MM_PER_INCH = 25.4


@dataclass(frozen=True, slots=True)
class Band:
    """A quantity known between limits: least ≤ typical ≤ most."""

    least: float
    typical: float
    most: float

    def __post_init__(self):
        if not self.least <= self.typical <= self.most:
            raise ValueError(f"limits out of order: {self.least}, {self.typical}, {self.most}")

    @classmethod
    def between(cls, least, most):
        """The band of a size whose typical value is the middle of its limits."""
        return cls(least, (least + most) / 2, most)

    @classmethod
    def exactly(cls, value):
        """A value known without limits."""
        return cls(value, value, value)

    @property
    def width(self):
        return self.most - self.least

    def __add__(self, other):
        return Band(self.least + other.least, self.typical + other.typical, self.most + other.most)

    def shifted(self, by):
        return Band(self.least + by, self.typical + by, self.most + by)


class Symbol(NamedTuple):
    """How a name inside a formula is printed, its unit and what it means; rows of symbols.csv."""

    name: str
    print: str
    unit: str
    meaning: str


@cache
def _pint():
    import pint  # heavy: loaded only when text with a unit is read

    registry = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    registry.define("rpm_ = 1 / minute")
    return registry


@cache
def read_quantity(text: str, dimension: str, unit: str = "") -> float:
    """The value of `text` ("8 mm", "5/16 in", '0.3125"') in the internal unit of `dimension`.

    `unit` is used when the text carries none. Raises ValueError with one plain sentence.
    """
    match = _NUMBER.match(text)
    if match is None:
        if re.search(r"\d,\d", text):
            raise ValueError("a decimal comma; write a decimal point")
        if re.match(r"\s*[-+]?(nan|inf)", text, re.I):
            raise ValueError("not a finite number")
        raise ValueError("not a number with a unit")
    if match["unit"].startswith(","):
        raise ValueError("a decimal comma; write a decimal point")
    number = _number(match)
    written = match["unit"] or unit
    if dimension == "number":
        if match["unit"]:
            raise ValueError(f"a unit ({match['unit']}) where a plain number belongs")
        return number
    if not written:
        raise ValueError("no unit")
    return _convert(number, written, dimension)


def _number(match) -> float:
    if match["decimal"]:
        value = float(match["decimal"])
    else:
        whole = float(match["whole"] or 0)
        top, bottom = match["top"] or match["top2"], match["bottom"] or match["bottom2"]
        if float(bottom) == 0:
            raise ValueError("a fraction over zero")
        value = whole + float(top) / float(bottom)
    if value == float("inf"):
        raise ValueError("not a finite number")
    return -value if match["sign"] in ("-", "−") else value


def _convert(number, written, dimension):
    pint = _pint()
    import pint as package

    spelled = written.replace('"', "inch").replace("″", "inch").replace("°C", "degC").replace("°", "deg")
    spelled = spelled.replace("·", "*").replace("rpm", "rpm_")
    if spelled.startswith("/"):
        spelled = "1" + spelled
    if not _UNIT.fullmatch(spelled):
        raise ValueError(f"an unknown unit ({written[:40]})")
    try:
        value = pint.Quantity(number, spelled).to(INTERNAL[dimension]).magnitude
        return float(f"{value:.12g}")  # so that 0.375 in is 9.525 mm, as printed
    except package.DimensionalityError:
        raise ValueError(f"a unit of another kind ({written})") from None
    except Exception:  # pint raises many kinds for a unit it cannot read
        raise ValueError(f"an unknown unit ({written})") from None
