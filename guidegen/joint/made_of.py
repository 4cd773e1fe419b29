"""What a joint is made of: each part and stock once, with the metal and finish that its place meets."""

from typing import Iterator, NamedTuple

from guidegen.joint.records import Joint, Stack
from guidegen.kit.records import BallBearing, Course, Part, Stock


class Thing(NamedTuple):
    """A part or stock of a joint, with the metal and finish that its place meets; no metal: none."""

    id: str
    name: str
    of: Part | Stock
    metal: str
    finish: str


def things_of(joint: Joint, stack: Stack | None, course: Course) -> tuple[Thing, ...]:
    """All that a joint is made of, the screw first, each once."""
    plates = (*joint.housings, *filter(None, (joint.on_thread, joint.cheeks, joint.arm_plate)))
    own = {of.id: of for of in (joint.shaft, *joint.bearings, *(plate.stock for plate in plates))}
    used = list(own) if stack is None else [joint.shaft.id, *(row.part for row in stack.placed)]
    used += [housing.stock.id for housing in joint.housings]
    known = {**course.parts, **own}
    return tuple(_thing(known[id], course) for id in dict.fromkeys(used) if id in known)


def _thing(of: Part | Stock, course: Course) -> Thing:
    metal = of.metal if isinstance(of, Stock) else course.materials[of.material].metal
    return Thing(of.id, of.name, of, metal, of.finish)


def agents_meet(joint: Joint, course: Course) -> Iterator[tuple[str, str, Part | Stock]]:
    """(name, name in the table of agents, part or stock) of bearings and housings, each once."""
    told = set()
    for of in (*joint.bearings, *(housing.stock for housing in joint.housings)):
        thing = agent_thing(of, course)
        if thing and of.id not in told:
            told.add(of.id)
            yield of.name, thing, of


def agent_thing(of: Part | Stock, course: Course) -> str:
    """How the table of agents calls a part or stock; "" where it says nothing of it."""
    if isinstance(of, BallBearing):
        return of.closure
    return of.agent_thing if isinstance(of, Stock) else course.materials[of.material].agent_thing
