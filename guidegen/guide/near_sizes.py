"""Sizes of the two systems that come close enough to be mixed up, and the parts that have them."""

from dataclasses import dataclass, field
from typing import Iterable

from guidegen.guide.own_units import unit_of
from guidegen.kit.records import Part
from guidegen.units import Band

NEAR_SHARE, NEAR = 0.06, 0.75  # of the larger, and mm: sizes nearer than both are a pair
EVEN = 1e-9  # mm
DIGITS = 6  # decimals of a millimetre beyond which limits are the same
OTHER = {"mm": "in", "in": "mm"}


@dataclass(frozen=True)
class Side:
    """One side of a pair: a size of one system, and the parts that have it."""

    unit: str
    size: float  # mm, as it is called
    words: str
    limits: Band
    parts: tuple[Part, ...] = field(default=(), hash=False)


def near(one: float, other: float) -> bool:
    """Whether two sizes, mm, are close enough to be mixed up."""
    return abs(one - other) <= min(NEAR, NEAR_SHARE * max(one, other)) + EVEN


def parts_of(course, kind):
    return [part for part in course.parts.values() if isinstance(part, kind)]


def sides_of(parts: Iterable[Part], column, words, called=None) -> list[Side]:
    """One side for each size that parts of a unit share, with those parts."""
    found: dict[tuple, list[Part]] = {}
    for part in parts:
        limits, unit = getattr(part, column), unit_of(part)
        size = called(part) if called else getattr(part, "nominal", round(limits.typical, DIGITS))
        ends = round(limits.least, DIGITS), round(limits.most, DIGITS)
        found.setdefault((unit, size, words(part, size, unit), *ends), []).append(part)
    return [
        Side(unit, size, said, getattr(members[0], column), tuple(members))
        for (unit, size, said, *_), members in found.items()
    ]


def in_order(pairs):
    return sorted(
        pairs,
        key=lambda pair: (
            metric_size(pair.inside, pair.outside),
            pair.inside.unit,
            pair.inside.size,
            pair.outside.size,
            pair.inside.words,
            pair.outside.words,
            pair.inside.limits.least,
            pair.outside.limits.least,
        ),
    )


def metric_size(one: Side, other: Side) -> float:
    return one.size if one.unit == "mm" else other.size
