"""How warm, cold and damp it gets where a joint stands, and by how much its parts grow there."""

from functools import cache
from typing import NamedTuple

from guidegen.joint.records import Joint
from guidegen.kit import lookup
from guidegen.numbers import show_number
from guidegen.theory import heat
from guidegen.units import Band

KEPT_AT = 50.0  # % humidity of the air in which parts are kept, measured and put together; common practice
NEVER = Band.exactly(0.0)


class Climate(NamedTuple):
    """A weather to look at: how much warmer than at measuring, K; its humidity, per cent, where it counts."""

    name: str  # cold, hot or damp; quantities and steps carry it
    rise: float
    air: Band | None

    @property
    def words(self) -> str:
        """When it is so: "at 40 °C" or "at 40 °C and 60 to 95 % humidity"."""
        at = f"at {show_number(heat.MEASURED_AT + self.rise)} °C"
        if self.air is None:
            return at
        return f"{at} and {show_number(self.air.least)} to {show_number(self.air.most)} % humidity"


class Grows(NamedTuple):
    """What a part grows by: with each kelvin, and by the water of the air, as a share of length."""

    expansion: float
    water: Band

    def at(self, rise: float) -> Band:
        """Its growth when it is so much warmer."""
        water = self.water
        return Band(*(heat.growth(self.expansion, rise, w) for w in (water.least, water.typical, water.most)))


def climates(joint: Joint) -> tuple[Climate, ...]:
    """The coldest and the warmest of its place, and the warmest when the air is as damp as it gets there."""
    place = joint.place
    cold, hot = (end - heat.MEASURED_AT for end in (place.temperature_least, place.temperature_most))
    damp = place.humidity
    air = Band(100 * damp.least, 100 * damp.typical, 100 * damp.most)
    return (Climate("cold", cold, None), Climate("hot", hot, None), Climate("damp", hot, air))


def grows(expansion: float, swells: str, climate: Climate) -> Grows:
    """Growth of a material in a climate; `swells`: its name in the table of growth by water, or ""."""
    return Grows(expansion, water_growth(swells, climate.air) if swells and climate.air else NEVER)


STANDOFFS = Grows(11.7e-6, NEVER)  # of steel, as most are (common practice); the course does not say


@cache
def water_growth(swells: str, air: Band) -> Band:
    """Growth of a material from the air it is kept in to damper or drier air, as a share of length."""

    def growth(humidity, end):
        points = lookup.swelling(swells, end)
        return float(heat.growth_in(humidity, *points) - heat.growth_in(KEPT_AT, *points))

    least, most = (
        worst(growth(humidity, end) for end in ("least", "typical", "most"))
        for worst, humidity in ((min, air.least), (max, air.most))
    )
    return Band(least, growth(air.typical, "typical"), most)


def humidity_at(growth: float, swells: str) -> float:
    """Humidity, per cent, at which a material kept as ours has grown by so much; endless if it never does."""
    points = lookup.swelling(swells, "typical")
    kept = heat.growth_in(KEPT_AT, *points)
    return float(heat.humidity_of(growth + kept, *points))
