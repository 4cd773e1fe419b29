"""What a joint has that one must be warned of: names of places that the warnings know."""

from typing import Iterator

from guidegen.guide.edition import Edition
from guidegen.joint.build_order import overhung as lies_beyond
from guidegen.joint.build_order import way_of_making
from guidegen.joint.records import Joint, Result
from guidegen.kit.records import BallBearing, Caution

PLACES = {"laser": "laser cutting", "print": "printing", "drill": "drilling"}  # by what makes a hole


def making(joint: Joint) -> Iterator[str]:
    """How the holes are made and filled: the places of warnings that stand beside them."""
    for housing in joint.housings:
        yield PLACES[way_of_making(housing.process)]
        if housing.fit == "press":
            yield "press fit"


def concerns(joint: Joint) -> set[str]:
    """What is there to warn of: kinds of bearings, ways of making, stocks that crack."""
    found = set(making(joint))
    found |= {
        "ball bearings" if isinstance(bearing, BallBearing) else "bushings" for bearing in joint.bearings
    }
    plates = [plate for plate in (joint.on_thread, joint.cheeks, joint.arm_plate) if plate]
    if any(place.stock.kind in ("plastic", "print") for place in (*joint.housings, *plates)):
        found.add("solvents")
    return found


def overhung(result: Result) -> bool:
    """Whether the load lies beyond what holds the screw: never between the cheeks of a fork."""
    return result.stack is not None and lies_beyond(result.joint, result.stack)


def cautions_by_place(result: Result, edition: Edition) -> dict[str, list[Caution]]:
    """The warnings of a worked page, each where the hand first meets it: hole, load, stack, foot."""
    joint, said = result.joint, set()
    about = concerns(joint)
    found = {
        "hole": edition.cautions(*making(joint), about=about),
        "load": edition.cautions(*["overhung load"] * overhung(result)),
        "stack": edition.cautions("assembly", about=about),
        "foot": edition.cautions("every sheet", "testing", about=about),
    }
    for place, cautions in found.items():
        found[place] = [caution for caution in cautions if caution.id not in said]
        said |= {caution.id for caution in cautions}
    return found
