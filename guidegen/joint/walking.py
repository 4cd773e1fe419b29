"""Which way a loose ring, screw or nut walks round when the load turns, seen from where it is loose."""

from typing import Literal, NamedTuple

Way = Literal[-1, 0, 1]  # turns: clockwise seen from the nut's end, not at all, counter-clockwise is -1


class Walks(NamedTuple):
    """Which way each loose part walks; the part that turns does so clockwise, seen from the nut's end."""

    inner: Way  # an inner ring or a nut on its shaft
    outer: Way  # an outer ring or a bush in its hole

    @property
    def nut(self) -> str:
        """What that does to a loose nut with a right-hand thread: tightens, loosens, stays."""
        return {1: "tightens", 0: "stays", -1: "loosens"}[self.inner]


def ring_way(load: Way, shaft: Way) -> Way:
    """Of a ring or nut round a shaft: with the load, as the shaft sees it."""
    return _sign(load - shaft)


def pin_way(load: Way, hole: Way) -> Way:
    """Of a pin, screw or outer ring in a hole: against the load, as the hole sees it."""
    return _sign(hole - load)


def walks(turns: Literal["shaft", "housing"], direction: Literal["fixed", "turning"]) -> Walks:
    """The ways of loose parts in a joint that keeps turning one way.

    turns: which part turns. direction: whether the load stays where it is or turns with what turns.
    """
    load: Way = 1 if direction == "turning" else 0
    shaft, housing = (1, 0) if turns == "shaft" else (0, 1)
    return Walks(ring_way(load, shaft), pin_way(load, housing))


def _sign(x) -> Way:
    return (x > 0) - (x < 0)
