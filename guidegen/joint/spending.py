"""What the bought parts of a joint cost and weigh: screw, bearings, fillers, nuts; no sheet, no prints."""

from collections import Counter
from functools import cache
from typing import Mapping

from guidegen.joint.findings import Findings
from guidegen.joint.records import Joint, Stack
from guidegen.kit.lookup import thread
from guidegen.kit.records import (
    BallBearing,
    Course,
    Nut,
    Part,
    ShoulderScrew,
    SleeveBushing,
    Spacer,
    Washer,
)
from guidegen.theory import cost, weight
from guidegen.theory.mismatch import pitch_diameter

GRAM = 1e-6  # t
WITH_INSERT = ("locking", "low locking")  # nuts that weigh less than solid ones


def bought(joint: Joint, stack: Stack, course: Course) -> dict[Part, int]:
    """The bought parts of a joint, the screw first, and how many of each."""
    own = {part.id: part for part in (joint.shaft, *joint.bearings)}  # a joint file may bring its own
    parts = (own.get(row.part) or course.parts.get(row.part) for row in stack.placed)
    return Counter([joint.shaft, *filter(None, parts)])


def spent(found: Findings, stack: Stack):
    """Cost, in the currency of the course, and mass in grams of what is bought for the joint."""
    course, parts = found.course, bought(found.joint, stack, found.course)
    counts = {part.id: count for part, count in parts.items()}
    found.put_number(
        "cost", cost.total_cost(counts, {part.id: part.price for part in parts}), course.currency
    )
    found.put_number("mass", sum(n * mass_of(part, course) for part, n in parts.items()) / GRAM, "g")


def kit_cost(counts: Mapping[str, int], course: Course) -> float:
    """What so many of each part of the catalogue cost."""
    return cost.total_cost(counts, {id: part.price for id, part in course.parts.items()})


def mass_of(part: Part, course: Course) -> float:
    """Mass of one part, t, at typical sizes."""
    return _mass(part, course.materials[part.material].density)


@cache
def _mass(part, density):
    match part:
        case ShoulderScrew():
            return _screw(part, density)
        case BallBearing():
            return weight.ball_bearing_mass(
                density,
                part.outside_diameter.typical,
                part.outer_land,
                part.inner_land,
                part.bore.typical,
                part.width.typical,
                part.balls,
                part.ball_diameter,
            )
        case Nut():
            whole = weight.hexagon_mass(
                density, part.across_flats.typical, _pitch_diameter(part.thread), part.height.typical
            )
            return whole * (weight.LOCKING if part.kind in WITH_INSERT else 1.0)
        case SleeveBushing():
            hole, length = part.free_bore, part.length
        case Spacer():
            hole, length = part.hole, part.length
        case Washer():
            hole, length = part.hole, part.thickness
        case _:
            raise TypeError(f"{part.id} has no mass")
    return weight.ring_mass(density, part.outside_diameter.typical, hole.typical, length.typical)


def _screw(part, density):
    return weight.screw_mass(
        density,
        part.head_diameter.typical,
        part.head_height.typical,
        part.socket,
        part.shoulder_diameter.typical,
        part.shoulder_length.typical,
        part.neck_diameter.typical,
        part.neck_width,
        _pitch_diameter(part.thread),
        part.thread_length,
    )


def _pitch_diameter(name):
    of = thread(name)
    return pitch_diameter(of.diameter, of.pitch)
