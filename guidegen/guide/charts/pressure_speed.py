"""Where bushes may work: mean pressure against sliding speed, with the limits of each material."""

from math import log10
from typing import NamedTuple, Sequence

import numpy as np

from guidegen.guide.charts import words
from guidegen.guide.charts.style import FEET_A_MINUTE, KSI, TALL, Told, plot
from guidegen.guide.measures import Measures
from guidegen.joint.records import Result
from guidegen.kit.records import SlidingMaterial
from guidegen.numbers import show_number

A_DECADE = 10  # places that can be told apart in each power of ten
BELOW = 0.4  # of the least speed and pressure marked: where the scales begin
PER_METRE = 1000.0  # mm
MARKS = {
    "worked": (1, False, "worked joint"),
    "swing": (2, True, "trial, swings"),
    "turn": (3, True, "turns"),
}


class Corner(NamedTuple):
    """The limits of a bush that go together: MPa, m/s, MPa·m/s."""

    pressure: float
    speed: float
    product: float

    def border(self, slowest: float, lightest: float) -> tuple[np.ndarray, np.ndarray]:
        """Speeds and pressures along the border: even pressure, even product, even speed."""
        speeds = [slowest, self.product / self.pressure, self.speed, self.speed]
        return np.array(speeds), np.array([self.pressure, self.pressure, self.product / self.speed, lightest])


def charts(found, made, trials, course):
    """A map for each material of which a kit holds bushes."""
    worked = [result for group in made for result in group.results]
    tried = {name: [] for name in ("swing", "turn")}
    for kit in trials:
        for one in kit.tried:
            for (_, motion), result in one.trials.items():
                tried[motion].append(result)
    maps = [
        (id, {"worked": points(worked, id)} | {name: points(results, id) for name, results in tried.items()})
        for id in course.sliding
    ]
    maps.sort(key=lambda one: -sum(map(len, one[1].values())))
    for id, marked in maps:
        if any(marked.values()):
            _chart(found, f"pv-{id}", course.sliding[id], marked, Measures(course.units_first))


def corners(material: SlidingMaterial) -> tuple[Corner, Corner]:
    """Design values and ceilings."""
    return (
        Corner(material.pressure_design, material.speed_design / PER_METRE, material.pv_design / PER_METRE),
        Corner(
            material.pressure_ceiling, material.speed_ceiling / PER_METRE, material.pv_ceiling / PER_METRE
        ),
    )


def points(results: Sequence[Result], material: str) -> list[tuple[float, float]]:
    """(speed, mean pressure under the steady load) of the bushes of a material that move, in m/s and MPa.

    Of those whose marks would lie on one another, one stands for all.
    """
    found = {}
    for result in results:
        for n, bearing in enumerate(result.joint.bearings, 1):
            if bearing.material == material and f"pv_{n}" in result.quantities:
                speed = result.quantities["sliding_speed"].typical
                pressure = result.quantities[f"pv_{n}"].typical / speed
                found[tuple(round(A_DECADE * log10(x)) for x in (speed, pressure))] = speed, pressure
    return sorted(found.values())


def _chart(found, id, material, marked, measures):
    design, ceiling = corners(material)
    told = _words(material, design, ceiling, marked, measures)
    speeds, pressures = zip(*(place for places in marked.values() for place in places))
    slowest, lightest = BELOW * min(speeds), BELOW * min(pressures)
    with plot(found, id, told, height=TALL) as drawn:
        axes = drawn.axes
        axes.set(xscale="log", yscale="log")
        axes.set(xlim=(slowest, 2.5 * ceiling.speed), ylim=(lightest, 6 * ceiling.pressure))
        low, high = axes.get_xlim()
        drawn.frame()
        drawn.across("sliding speed _v_, m/s", low, high, FEET_A_MINUTE)
        drawn.up("mean pressure _p_b_, MPa", KSI, high=2 * ceiling.pressure)
        border = design.border(slowest, lightest)
        drawn.band(*border, lightest, 0.16)
        drawn.line(1, *border)
        drawn.line(2, *ceiling.border(slowest, lightest))
        drawn.words(slowest, design.pressure, "design", 1, by=(5, -9))
        drawn.words(slowest, ceiling.pressure, "never beyond", 2, by=(5, 9))
        keys = []
        for name, places in marked.items():
            number, hollow, told = MARKS[name]
            if places:
                drawn.markers(number, *zip(*places), hollow=hollow)
                keys.append((number, hollow, told))
        drawn.tell_markers(keys)


def _words(material, design, ceiling, marked, measures: Measures):
    text = [
        f"{material.name[0].upper()}{material.name[1:]}. Design: up to {_limits(design, measures)}. "
        f"Never beyond {_limits(ceiling, measures)}. Pressure times speed decides from "
        f"{_v(design.product / design.pressure, measures)} on."
    ]
    for name, told in (
        ("worked", "Worked joints"),
        ("swing", "Trials that swing"),
        ("turn", "Trials that turn"),
    ):
        if marked[name]:
            speeds, pressures = zip(*marked[name])
            products = [speed * pressure for speed, pressure in marked[name]]
            text.append(
                f"{told}: {_range(speeds, 'm/s', measures)}, {_range(pressures, 'MPa', measures)}; "
                "pressure times "
                f"speed at most {words.plain(max(products) / design.product)} of the design value."
            )
    how = (
        "Find your sliding speed along the bottom and your mean pressure, without shock, on the left. "
        "Inside the "
        "shaded field a bush lasts; between the lines it wears and warms fast; beyond the dashed line "
        "never. The "
        "sloping part is pressure times speed. Runs of a few minutes with long rests may reach twice the "
        "product."
    )
    most = max(speed * pressure for places in marked.values() for speed, pressure in places)
    see = (
        f"The hardest joint here uses {show_number(100 * most / design.product, 2)} % of the pressure times "
        "speed that a bush is designed for."
    )
    return Told(f"Pressure and speed that a bush bears: {material.name}", " ".join(text), how, see)


def _v(speed, measures):
    return measures.value(speed, "m/s", 2).line


def _limits(corner, measures):
    pressure, product = measures.value(corner.pressure, "MPa"), measures.value(corner.product, "MPa·m/s")
    return f"{pressure.line}, {_v(corner.speed, measures)}, and {product.line} as their product"


def _range(values, unit, measures):
    return measures.range(min(values), max(values), unit).line
