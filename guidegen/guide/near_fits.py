"""What goes into a hole of the other system: shoulders, bearings, screws through washers."""

from dataclasses import dataclass
from typing import Iterable

from guidegen.guide.families import HOLES, noun_of
from guidegen.guide.near_chance import chance, how_often
from guidegen.guide.near_sizes import OTHER, Side, in_order, near, parts_of, sides_of
from guidegen.guide.near_threads import threads_of
from guidegen.guide.own_units import said_size
from guidegen.joint.inputs import round_nominal
from guidegen.kit import lookup
from guidegen.kit.records import BallBearing, Course, ShoulderScrew, SleeveBushing, Spacer, Washer
from guidegen.units import Band

FREE_RUNNING = "H9", "d9"  # the loosest fit of ISO 286 that is still meant to run: looser than it rattles
SLIDES = "H7"  # hole that a bearing of its own size slips into


@dataclass(frozen=True)
class Fit:
    """What goes into a hole: a pair and the room it has there, mm; below zero it is too large."""

    inside: Side
    outside: Side
    room: Band
    loosest: float | None  # room of the loosest running fit; None where looseness does no harm

    @property
    def state(self) -> str:
        """goes in, may rattle, rattles, does not go in; where limits overlap, how often it goes in."""
        if self.room.most < 0:
            return "does not go in"
        if self.room.least < 0:
            return how_often(self.chance, "goes in")
        if self.loosest is None or self.room.most <= self.loosest:
            return "goes in"
        return "rattles" if self.room.least > self.loosest else "may rattle"

    @property
    def chance(self) -> float:
        """Share of pairs that go together."""
        return chance(self.inside.limits, self.outside.limits)


@dataclass(frozen=True)
class Meeting:
    """Fits that go the same way, of one size with several parts of another."""

    fits: tuple[Fit, ...]

    @property
    def first(self) -> Fit:
        return self.fits[0]

    @property
    def room(self) -> tuple[float, float]:
        """Least and most room of them all, mm."""
        return min(fit.room.least for fit in self.fits), max(fit.room.most for fit in self.fits)

    @property
    def chance(self) -> tuple[float, float]:
        """Least and greatest share of pairs that go together."""
        shares = [fit.chance for fit in self.fits]
        return min(shares), max(shares)


def shafts_in_bores(course: Course) -> list[Fit]:
    """Shoulders of one system in bores of the other."""
    shafts = sides_of(parts_of(course, ShoulderScrew), "shoulder_diameter", _shoulder_words)
    bores = [
        side
        for kind in (SleeveBushing, BallBearing, Spacer)
        for side in sides_of(parts_of(course, kind), HOLES[kind], _bore_words)
    ]
    return _fits(shafts, bores, loosest_running)


def shafts_in_drilled(course: Course) -> list[Fit]:
    """Shoulders of one system in a hole of the nominal size of a common drill of the other."""
    shafts = sides_of(parts_of(course, ShoulderScrew), "shoulder_diameter", _shoulder_words)
    drills = [
        Side(unit, size, f"{said_size(size, unit)} drill", Band.exactly(size))
        for unit in OTHER
        for size in lookup.sold_sizes("drill", unit)
    ]
    return _fits(shafts, drills, loosest_running)


def outsides_in_holes(course: Course) -> list[Fit]:
    """Bearings of one system in a hole that is right for one of the other."""
    bearings = [
        side
        for kind in (SleeveBushing, BallBearing, Spacer)
        for side in sides_of(_housed(course, kind), "outside_diameter", _outside_words, round_nominal)
    ]
    sizes = {(side.unit, side.size): side for side in bearings if loosest_running(side.size)}
    return _fits(bearings, map(_hole_for, sizes.values()), loosest_running)


def washers_over(course: Course) -> list[Fit]:
    """Washers of one system over shoulders and threads of the other. They may be loose: that is their use."""
    screws = parts_of(course, ShoulderScrew)
    shoulders = sides_of(screws, "shoulder_diameter", _shoulder_words)
    threads = [side for side, _ in threads_of(course, ShoulderScrew)]
    found = []
    for kind, served in (("large", shoulders), ("small", threads)):
        washers = [part for part in parts_of(course, Washer) if part.kind == kind]
        for side in sides_of(washers, "hole", lambda part, size, unit: noun_of(part)):
            if own := _served(side, served):
                words = f"{side.words} for {own.words.removesuffix(' shoulder')}"
                made_for = Side(side.unit, own.size, words, side.limits, side.parts)
                found += _fits(served, [made_for], lambda size: None)
    return in_order(found)


def meetings(fits: Iterable[Fit], shared: str) -> list[Meeting]:
    """Fits that go the same way, together; `shared` (inside or outside) is the side they have in common."""
    other = {"inside": "outside", "outside": "inside"}[shared]
    found: dict[tuple, list[Fit]] = {}
    for fit in fits:
        side = getattr(fit, other)
        found.setdefault((getattr(fit, shared), side.unit, side.size, fit.state), []).append(fit)
    return [Meeting(tuple(members)) for members in found.values()]


def loosest_running(size: float) -> float | None:
    """Most room of the loosest fit that is still meant to run, mm; None beyond the table. Source: ISO 286."""
    try:
        hole, shaft = (lookup.limits_of_class(size, name) for name in FREE_RUNNING)
    except lookup.OutsideTable:
        return None
    return hole[1] - shaft[0]


def _housed(course, kind):
    return [part for part in parts_of(course, kind) if getattr(part, "bush", "yes") == "yes"]


def _served(washer: Side, served: Iterable[Side]) -> Side | None:
    """The largest shoulder or thread of its own system that a washer goes over."""
    own = [side for side in served if side.unit == washer.unit and side.size <= washer.limits.least]
    return max(own, key=lambda side: side.size, default=None)


def _shoulder_words(part, size, unit):
    return f"{said_size(size, unit)} shoulder"


def _bore_words(part, size, unit):
    return f"{said_size(size, unit)} {noun_of(part)}"


def _outside_words(part, size, unit):
    return f"{noun_of(part)}, {said_size(size, unit)} outside"


def _hole_for(side: Side) -> Side:
    lower, upper = lookup.limits_of_class(side.size, SLIDES)
    limits = Band.between(side.size + lower, side.size + upper)
    return Side(side.unit, side.size, f"{said_size(side.size, side.unit)} hole, {SLIDES}", limits)


def _fits(inside: Iterable[Side], outside: Iterable[Side], loosest) -> list[Fit]:
    outside = list(outside)
    return in_order(
        Fit(one, other, _room(one.limits, other.limits), loosest(other.size))
        for one in inside
        for other in outside
        if one.unit != other.unit and near(one.size, other.size)
    )


def _room(inside: Band, hole: Band) -> Band:
    return Band(hole.least - inside.most, hole.typical - inside.typical, hole.most - inside.least)
