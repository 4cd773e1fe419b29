"""Numbers worth keeping in mind at the bench: each worked out from this course's own data, with its range."""

from typing import Iterator, NamedTuple

from guidegen.guide.edition import Edition
from guidegen.guide.measures import GRAM, Both
from guidegen.guide.templates import upper_first
from guidegen.joint.climate import water_growth
from guidegen.kit.fasteners import hand_force
from guidegen.kit.lookup import thread
from guidegen.kit.records import BallBearing
from guidegen.theory import ball, beam, freeplay, heat, nuts, statics
from guidegen.units import Band

ARM, SPAN, ROOM = 100.0, 40.0, 0.05  # mm: of an arm, from end to end of two bushes, of clearance in each
MRAD = 1e-3
HUNDRED = 100.0  # mm and g
WARMER = 10.0  # K
SOAKED = Band.exactly(100.0)  # per cent of humidity: in water
PUSH, AWAY = 10.0, 50.0  # N, mm beyond bearing 2


class Number(NamedTuple):
    """What it is about, how much, and for what it holds."""

    about: str
    amount: Both
    holds: str


def numbers_to_remember(edition: Edition) -> list[Number]:
    """From tilt and travel to weight, warmth and water."""
    return [*_wobble(edition), *_forces(edition), *_screws(edition), *_growth(edition)]


def _wobble(edition: Edition) -> Iterator[Number]:
    value, exact = edition.measures.value, edition.measures.exact
    tilt = freeplay.bush_pair_tilt(ROOM, ROOM, SPAN, SPAN / 4, SPAN / 4)
    yield Number(
        f"Travel of the tip of a {exact(ARM).line} arm for a tilt of 1 mrad each way",
        value(freeplay.arm_travel(ARM, MRAD), "mm", 2),
        "any joint; twice the arm, twice the travel",
    )
    yield Number(
        f"Travel of the same tip on two bushes, {exact(SPAN).line} from end to end, with "
        f"{exact(ROOM).line} of "
        "clearance each",
        value(freeplay.arm_travel(ARM, tilt), "mm", 2),
        "two like bushes in line; goes with the clearance, and with one over the length from end to end",
    )
    groups = {part.clearance_group: part for part in edition.course.parts.values() if _usual(part)}
    for group, part in sorted(groups.items()):
        play = part.internal_clearance
        yield Number(
            f"Room inside a small ball bearing of group {group}",
            edition.measures.range(play.least, play.most, "mm"),
            f"bores like that of {part.name}; press fits take from it",
        )


def _usual(part) -> bool:
    return isinstance(part, BallBearing) and part.clearance_group in ("CN", "C3")


def _forces(edition: Edition) -> Iterator[Number]:
    value, exact = edition.measures.value, edition.measures.exact
    yield Number(
        "Weight of 100 g", value(statics.weight(HUNDRED * GRAM, statics.STANDARD_GRAVITY), "N", 2), "anywhere"
    )
    screws = [one.joint for one in edition.results if one.joint.kit and one.stack]
    if screws:
        joint = min(screws, key=lambda each: (each.shaft.nominal, each.id))
        d = joint.shaft.shoulder_diameter.typical
        I = beam.second_moment(d)  # noqa: E741
        bends = beam.overhung_deflection(PUSH, AWAY, SPAN, 0.0, joint.youngs_modulus, I)
        yield Number(
            f"Bend of a {exact(joint.shaft.nominal).line} shoulder under {value(PUSH, 'N').line} that acts "
            f"{exact(AWAY).line} beyond bearings {exact(SPAN).line} apart",
            value(bends, "mm", 2),
            "the thinnest screw of the kits; goes with one over the fourth power of the diameter",
        )
    yield Number(
        "Life of a ball bearing under twice the load",
        Both(f"1/{ball.rating_life(2.0, 1.0) / ball.rating_life(2.0, 2.0):.0f}", ""),
        "bearings that turn round and round; a bush wears twice as fast",
    )
    pinch = hand_force("pinch")
    yield Number(
        "Force of finger and thumb", edition.measures.range(pinch.least, pinch.most, "N"), "common practice"
    )


def _screws(edition: Edition) -> Iterator[Number]:
    for id in dict.fromkeys(one.joint.thread.id for one in edition.results if one.joint.kit):
        gap = float(nuts.gap_of_turn(thread(id).pitch, 1 / 6))
        yield Number(
            f"One flat of a nut on {id}",
            edition.measures.value(gap, "mm", 2),
            "a sixth of a turn; where nothing stops the nut",
        )


def _growth(edition: Edition) -> Iterator[Number]:
    course = edition.course
    kinds = {}
    for stock in course.stocks.values():
        kinds.setdefault(stock.kind, stock)
    for stock in kinds.values():
        grows = HUNDRED * float(heat.growth(stock.expansion, WARMER, 0.0))
        yield Number(
            f"Growth of {edition.measures.exact(HUNDRED).line} of {stock.name}, {WARMER:g} K warmer",
            edition.measures.value(grows, "mm", 2),
            "in proportion, in the warmth of a room",
        )
    for swells in dict.fromkeys(material.swells for material in course.materials.values() if material.swells):
        share = water_growth(swells, SOAKED)
        yield Number(
            f"{upper_first(swells)}, from the air of a room to standing in water",
            Both(f"{100 * share.least:.2g} to {100 * share.most:.2g} % longer", ""),
            "once it has drunk its fill: days for a thin wall, months for a thick one",
        )
