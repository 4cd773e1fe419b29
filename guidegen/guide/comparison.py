"""Published values beside ours: what a row of `tests/published/` says, computed by the declared formulas."""

import re
from dataclasses import dataclass
from decimal import Decimal

from guidegen.joint.endplay import axial_floating
from guidegen.kit.lookup import columns_of
from guidegen.kit.published import Published
from guidegen.kit.reader import read_symbols
from guidegen.theory.ball import rating_factors, thrust_factors
from guidegen.theory.beam import beam
from guidegen.theory.declare import FORMULAS
from guidegen.units import Band, read_quantity

DIMENSIONS = {
    "mm": "length",
    "N": "force",
    "MPa": "stress",
    "rad": "angle",
    "N·mm": "moment",
    "mm²": "area",
    "mm⁴": "area moment",
    "mm/s": "speed",
    "1/s": "rate",
    "s": "time",
    "MPa·mm/s": "pv",
    "mm²/N": "wear rate",
    "N·s²/mm": "mass",
    "N·s²/mm⁴": "density",
    "V": "voltage",
    "K": "temperature rise",
    "1/K": "expansion",
    "-": "number",
}


@dataclass(frozen=True)
class Compared:
    """A published value with ours, both in its own unit."""

    row: Published
    ours: float

    @property
    def theirs(self) -> float:
        return float(_digits(self.row.published))

    @property
    def difference(self) -> float:
        return self.ours - self.theirs

    @property
    def within(self) -> float:
        """How far apart the two may be: half a unit of the last printed digit, unless the row says."""
        return (
            float(self.row.within)
            if self.row.within
            else 0.5 * 10.0 ** _digits(self.row.published).as_tuple().exponent
        )

    @property
    def agrees(self) -> bool:
        return abs(self.difference) <= self.within * (1 + 1e-9)


def compared(row: Published) -> Compared:
    """Our value for a row; raises ValueError when the row cannot be read."""
    given, dimension = dict(_inputs(row.inputs)), "number"
    values, last = {}, 0.0
    for call in row.call.split(", "):
        if call in OTHER_CALLS:
            last, dimension = OTHER_CALLS[call](given, values)
            continue
        formula = FORMULAS[call]
        for name in formula.arguments:
            if name not in values:
                values[name] = read_quantity(given[name], _dimension(name))
        last = values[formula.gives] = float(
            formula.function(**{name: values[name] for name in formula.arguments})
        )
        dimension = _dimension(formula.gives)
    one = 1.0 if dimension == "number" else read_quantity(f"1 {row.unit}", dimension)
    return Compared(row, last / one)


def _digits(text):
    return Decimal(text.replace(" ", "").replace("−", "-"))


def _inputs(text):
    for part in text.split(";"):
        name, value = part.split("=")
        yield name.strip(), value.strip()


def _dimension(symbol):
    return DIMENSIONS[read_symbols()[symbol].unit]


def _bent(given, values):
    """(deflection mm, slope rad, moment N·mm) at the plane asked for, under the row's loads."""
    held = [read_quantity(place.strip(), "length") for place in given["held"].split(",")]
    forces = [
        tuple(read_quantity(text, kind) for text, kind in zip(load.split(" at "), ("force", "length")))
        for load in re.split(r",\s*", given["forces"])
    ]
    stiffness = read_quantity(given["E_s"], "stress") * (
        values["I"] if "I" in values else read_quantity(given["I"], "area moment")
    )
    at = [(place, force) for force, place in forces]
    deflection, slope, moment = beam([read_quantity(given["at"], "length")], stiffness, held, at)
    return deflection[0], slope[0], moment


def _end_play(given):
    """The band of end play of a stack whose sizes are given as "1.500 ± 0.001 in"."""
    shoulder, body, *parts = (
        _band(text) for key in ("shoulder", "body", "parts") for text in given[key].split(",")
    )
    return axial_floating(shoulder, body, parts, [], (), (0.0, 1.0)).end_play


def _band(text):
    middle, limit, unit = re.fullmatch(r"\s*(\S+) ± (\S+) (\w+)\s*", text).groups()
    size, reach = (read_quantity(f"{number} {unit}", "length") for number in (middle, limit))
    return Band(size - reach, size, size + reach)


def _rated(given, values):
    """Both rating factors of a ball bearing, for the formulas that follow."""
    found = rating_factors(values["gamma"], columns_of("fc_iso281"), columns_of("f0_iso76"))
    values.update(f_c=float(found.f_c), f_0=float(found.f_0))
    return values["f_c"], "number"


def _thrust(wanted):
    """Both thrust factors of a ball bearing, for the formulas that follow, and the one wanted."""

    def read(given, values):
        found = thrust_factors(values["u"], columns_of("thrust_iso281"))
        values.update(e=float(found.e), Y=float(found.Y))
        return values[wanted], "number"

    return read


OTHER_CALLS = {
    "rating factors": _rated,
    "thrust bound": _thrust("e"),
    "thrust factor": _thrust("Y"),
    "beam deflection": lambda given, values: (_bent(given, values)[0], "length"),
    "beam slope": lambda given, values: (_bent(given, values)[1], "angle"),
    "end play": lambda given, values: (_end_play(given).typical, "length"),
    "end play limit": lambda given, values: (_end_play(given).width / 2, "length"),
}
