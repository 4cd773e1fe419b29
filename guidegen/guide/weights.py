"""From weight to load: what a pot on an arm does to a joint, for an upright shaft and for a level one."""

from typing import NamedTuple

from guidegen.guide.edition import Edition
from guidegen.guide.measures import GRAM, Both, Measures
from guidegen.guide.page import Heading, Page
from guidegen.guide.templates import fill
from guidegen.joint.records import Result
from guidegen.numbers import show_number
from guidegen.theory import statics
from guidegen.units import MM_PER_INCH

KILOGRAM = 1000 * GRAM
POUND = 0.45359237 * KILOGRAM  # exact
OUNCE = POUND / 16
PLACES = {"midway": -0.5, "at bearing 2": 0.0, "half a separation beyond": 0.5, "one separation beyond": 1.0}


class System(NamedTuple):
    """Round masses, arms and distances in one system of units; mm and N·s²/mm inside."""

    key: str
    title: str
    masses: tuple[tuple[str, float], ...]
    arms: tuple[float, ...]
    separations: tuple[float, float]
    handle: float  # radius at which a hand or a string holds the weight


SYSTEMS = {
    "mm": System(
        "metric",
        "Grams and millimetres",
        tuple((f"{g} g", g * KILOGRAM / 1000) for g in (50, 100, 200, 500))
        + tuple((f"{kg} kg", kg * KILOGRAM) for kg in (1, 2)),
        (50.0, 80.0, 120.0, 200.0, 300.0),
        (20.0, 40.0),
        50.0,
    ),
    "in": System(
        "inch",
        "Ounces, pounds and inches",
        tuple((f"{oz} oz", oz * OUNCE) for oz in (1, 4, 8))
        + tuple((f"{lb} lb", lb * POUND) for lb in (1, 2, 5)),
        tuple(MM_PER_INCH * inches for inches in (2, 3, 5, 8, 12)),
        (0.75 * MM_PER_INCH, 1.5 * MM_PER_INCH),
        2 * MM_PER_INCH,
    ),
}
FALLS = (5.0, 20.0, 100.0, 300.0)  # mm that a mass falls
GIVES = (0.5, 2.0, 10.0)  # mm that all below it gives way under the weight at rest
POT = "500 g", 500e-3 * KILOGRAM, 120.0  # on an arm of an upright shaft
TRAY = "1 kg", KILOGRAM, 150.0, 100.0  # on a level arm of a level shaft; radius of the handle that holds it


class Load(NamedTuple):
    """A mass and what it does: its weight; by places of the load, and by arms."""

    mass: str
    weight: float
    reactions: dict[str, tuple[float, float]]  # of bearings 1 and 2, signed, a level shaft
    torques: tuple[float, ...]  # by arm
    couples: tuple[tuple[float, float], ...]  # by arm: force at each bearing for both separations
    held: tuple[float, ...]  # by arm: force at the handle


def load_of(mass: str, size: float, system: System) -> Load:
    """What one mass does at every arm of a system."""
    weight = statics.weight(size, statics.STANDARD_GRAVITY)
    torques = tuple(statics.weight_torque(weight, arm) for arm in system.arms)
    couples = tuple(statics.axial_couple(weight, arm) for arm in system.arms)
    return Load(
        mass,
        weight,
        {
            words: (statics.reaction_1(1.0, weight, place, 1.0), statics.reaction_2(1.0, weight, place, 1.0))
            for words, place in PLACES.items()
        },
        torques,
        tuple(
            tuple(statics.couple_force(1.0, couple, apart) for apart in system.separations)
            for couple in couples
        ),
        tuple(statics.holding_force(torque, system.handle) for torque in torques),
    )


def weights_page(edition: Edition) -> Page:
    """Tables of masses by arms, and two of them read in words."""
    first = edition.course.units_first
    systems = [SYSTEMS[first], *(system for units, system in SYSTEMS.items() if units != first)]
    tables = [(system, [load_of(*mass, system) for mass in system.masses]) for system in systems]
    body = fill(
        "weights",
        tables=tables,
        places=PLACES,
        measures=edition.measures,
        worked=worked_examples(edition),
        between=[between_columns(system, edition.measures) for system in systems],
        pot=pot_reading(edition.measures),
        tray=tray_reading(edition.measures),
        signed=signed,
        falls=[(fall, [statics.drop_factor(fall, give) for give in GIVES]) for fall in FALLS],
        gives=GIVES,
        fall=edition.cautions("overhung load", "testing"),
    )
    return Page(
        "weights.html",
        "From weight to load",
        body,
        (
            Heading(2, "pot", "A pot on an upright shaft"),
            Heading(2, "tray", "A tray on a level shaft"),
            *(Heading(2, system.key, system.title) for system in systems),
            Heading(2, "drop", "Dropped or jerked"),
        ),
        in_search=True,
        description="From grams and ounces on an arm to the loads of a joint: weights, couples, torques.",
    )


def worked_examples(edition: Edition) -> dict[str, Result]:
    """Joints of the course with the most load along the shaft, times its arm, and across it; {} for none."""
    named = [edition.by_id[id] for id in edition.course.joints if id in edition.by_id]
    if not named:
        return {}
    return {
        "upright": max(named, key=lambda result: result.joint.axial * result.joint.arm),
        "level": max(named, key=lambda result: result.joint.radial),
    }


def between_columns(system: System, measures: Measures) -> str:
    """How a number scales with arm and mass, shown on an arm and a mass that have no column or row."""
    (said, mass), arm = system.masses[-3], system.arms[0]
    torque = statics.weight_torque(statics.weight(mass, statics.STANDARD_GRAVITY), arm)
    return (
        "An arm or mass that is not there: numbers grow evenly with both. "
        f"{said} at {_mm(2 * arm, measures)} is twice {said} at {_mm(arm, measures)}: "
        f"{measures.value(2 * torque, 'N·mm').line}. Forces at the bearings also grow as these come closer: "
        "half as far apart, twice the force."
    )


class Reading(NamedTuple):
    """A worked reading: its sentences, and the lines of a joint file that say the same."""

    sentences: list[str]
    lines: list[str]
    short: str  # all in one line


def pot_reading(measures: Measures) -> Reading:
    """A pot on the arm of an upright shaft: thrust, and a couple that the two bearings carry."""
    said, mass, arm = POT
    weight = statics.weight(mass, statics.STANDARD_GRAVITY)
    couple = statics.axial_couple(weight, arm)
    near, far = SYSTEMS["mm"].separations
    close, wide = (statics.couple_force(1.0, couple, apart) for apart in (near, far))
    return Reading(
        [
            f"A {said} pot stands on a {_mm(arm, measures)} arm of an upright shaft. It weighs "
            f"{_n(weight, measures)}, "
            f"all of it along the shaft: one bearing must stop that thrust.",
            f"It stands off the axis, so it also tips the shaft, by {measures.value(couple, 'N·mm').line}. "
            "Two bearings "
            f"{_mm(near, measures)} apart carry that with {_n(close, measures)} each, "
            f"{show_number(close / weight, 2)} times the weight; {_mm(far, measures)} apart with "
            f"{_n(wide, measures)} each.",
            "Nothing turns the shaft by itself: the weight does not help or hinder, only friction does.",
        ],
        [f"load: {{radial: 0 N, axial: {_plain(weight)} N}}", f"arm: {_plain(arm)} mm"],
        f"{said} on a {_mm(arm, measures)} arm of an upright shaft: {_n(weight, measures)} along it, and "
        f"{_n(close, measures)} on each of two bearings {_mm(near, measures)} apart.",
    )


def tray_reading(measures: Measures) -> Reading:
    """A tray on a level arm of a level shaft: a radial load, and a torque that something must hold."""
    said, mass, arm, handle = TRAY
    weight = statics.weight(mass, statics.STANDARD_GRAVITY)
    torque = statics.weight_torque(weight, arm)
    one, two = statics.reaction_1(1.0, weight, 1.0, 1.0), statics.reaction_2(1.0, weight, 1.0, 1.0)
    return Reading(
        [
            f"A {said} tray hangs on a {_mm(arm, measures)} arm of a level shaft. Its "
            f"{_n(weight, measures)} press "
            "square to the shaft, in the plane of the arm.",
            f"With that plane one separation beyond bearing 2, bearing 2 carries {_n(two, measures)} and "
            "bearing 1 "
            f"pulls back with {_n(abs(one), measures)}; midway between the bearings each carries "
            f"{_n(weight / 2, measures)}.",
            f"With the arm level the shaft is turned by {measures.value(torque, 'N·mm').line}; less when "
            "the arm "
            f"points up or down. To hold it takes {_n(statics.holding_force(torque, handle), measures)} at "
            "a handle "
            f"{_mm(handle, measures)} from the axis. Friction in the bearings holds only a small part of "
            "it: add a "
            "counterweight, a stop or a catch.",
        ],
        [f"load: {{radial: {_plain(weight)} N, axial: 0 N}}", f"arm: {_plain(arm)} mm"],
        f"{said} on a {_mm(arm, measures)} arm of a level shaft: {_n(weight, measures)} square to it, and "
        f"{measures.value(torque, 'N·mm').line} that turn it.",
    )


def _mm(mm, measures):
    return measures.value(mm, "mm").line


def _n(newtons, measures) -> str:
    return measures.value(newtons, "N").line


def _plain(x) -> str:
    return f"{x:.3g}"


def signed(newtons: float, measures: Measures) -> Both:
    """A reaction; one that pulls back says so by its sign, and nought is nought."""
    return measures.value(0.0 if abs(newtons) < 1e-9 else newtons, "N")
