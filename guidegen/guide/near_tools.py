"""Hexagon keys and wrenches of the other system: free turn before they bear, and slip."""

from dataclasses import dataclass
from typing import Iterator

from guidegen.guide.near_chance import chance, how_often
from guidegen.guide.near_sizes import EVEN, OTHER, Side, in_order, near, parts_of, sides_of
from guidegen.guide.own_units import said_size, unit_of
from guidegen.kit import lookup
from guidegen.kit.records import Course, Nut, Part, ShoulderScrew
from guidegen.theory import mismatch
from guidegen.units import Band


@dataclass(frozen=True)
class Hexagon:
    """A hexagon key in a socket, or a nut in a wrench, of the other system."""

    inside: Side  # key or nut
    outside: Side  # socket or wrench
    turns: (
        tuple[float, float] | None
    )  # free turn each way, rad, least and most; None where it goes right round

    @property
    def state(self) -> str:
        """goes on, does not go on, slips; where limits overlap, how often it goes on."""
        if self.inside.limits.least > self.outside.limits.most + EVEN:
            return "does not go on"
        if self.inside.limits.most > self.outside.limits.least + EVEN:
            return how_often(self.chance, "goes on")
        return "goes on" if self.turns else "slips"

    @property
    def chance(self) -> float:
        """Share that go on."""
        return chance(self.inside.limits, self.outside.limits)


def keys_in_sockets(course: Course) -> list[Hexagon]:
    """Hexagon keys of one system in sockets of the other."""
    sockets: dict[tuple, list[Part]] = {}
    for part in parts_of(course, ShoulderScrew):
        sockets.setdefault((unit_of(part), part.socket), []).append(part)
    found = []
    for (unit, size), parts in sockets.items():
        socket = Side(unit, size, f"{said_size(size, unit)} socket", Band.exactly(size), tuple(parts))
        found += [_hexagon(key, socket) for key in _tools("key", OTHER[unit]) if near(key.size, size)]
    return in_order(found)


def nuts_in_wrenches(course: Course) -> list[Hexagon]:
    """Nuts of one system in wrenches of the other."""
    found = []
    for nut in sides_of(parts_of(course, Nut), "across_flats", lambda part, size, unit: f"{part.thread} nut"):
        wrenches = [wrench for wrench in _tools("wrench", OTHER[nut.unit]) if near(wrench.size, nut.size)]
        found += [_hexagon(nut, wrench) for wrench in wrenches]
    return in_order(found)


def _tools(kind, unit) -> Iterator[Side]:
    for size in lookup.sold_sizes(kind, unit):
        yield Side(unit, size, f"{said_size(size, unit)} {kind}", Band.exactly(size))


def _hexagon(inside: Side, outside: Side) -> Hexagon:
    opening, turns = outside.size, None
    if inside.limits.most <= opening + EVEN and opening < mismatch.slipping_opening(inside.limits.least):
        turns = tuple(
            float(mismatch.hexagon_free_turn(max(opening, size), size))
            for size in (inside.limits.most, inside.limits.least)
        )
    elif inside.limits.least <= opening < mismatch.slipping_opening(inside.limits.least):
        turns = 0.0, float(mismatch.hexagon_free_turn(opening, inside.limits.least))
    return Hexagon(inside, outside, turns)
