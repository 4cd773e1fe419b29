"""For each part of a kit: what takes its place when it has run out, tried in one worked joint with it."""

from typing import Mapping, NamedTuple

from guidegen.guide.edition import Edition
from guidegen.guide.measures import Measures
from guidegen.guide.wobble import seen_travel
from guidegen.joint.records import STATES, Result
from guidegen.joint.substitutes import Offer, offers
from guidegen.kit.records import Kit

NOTICED = 0.02  # share by which a number must move to be told


class StandIn(NamedTuple):
    """The joint in which it was tried; parts that come and go, each with its count; what moves."""

    joint: Result
    comes: list[tuple[str, int]]  # part ids; empty where nothing was found
    goes: list[tuple[str, int]]
    moves: list[str]


def stand_ins(kit: Kit, edition: Edition) -> Mapping[str, StandIn]:
    """By part id, for every part of a kit that some worked joint uses."""
    found = {}
    for id in kit.parts:
        result = _tried_in(id, kit, edition)
        if result is not None:
            found[id] = _stand_in(id, result, edition)
    return found


def _tried_in(id, kit, edition) -> Result | None:
    """The first joint in the best state that uses a part of this kit."""
    users = [one for one in edition.users.get(id, ()) if one.joint.kit == kit and one.stack]
    return min(users, key=lambda one: (STATES.index(one.state), one.id), default=None)


def _stand_in(id, result, edition) -> StandIn:
    offer = next(offers(id, result, edition.course), None)
    if offer is None:
        return StandIn(result, [], [], [])
    goes = {part: n for part, n in offer.spared.items() if part != id}
    moves = list(moved(result, offer, edition.measures, edition.course.currency))
    return StandIn(result, list(offer.instead.items()), list(goes.items()), moves)


def moved(result: Result, offer: Offer, measures: Measures, currency: str):
    """What moves with a substitute: wobble, the force to start, the cost."""
    before, after = (seen_travel(one).typical for one in (result, offer.result))
    if abs(after - before) > NOTICED * before:
        yield f"wobble {measures.value(abs(after - before), 'mm', 2).first} {_more(before, after)}"
    starts = [one.quantities.get("start_force") for one in (result, offer.result)]
    if all(starts):
        before, after = (one.typical for one in starts)
        if abs(after - before) > NOTICED * before:
            yield f"starts with {measures.value(abs(after - before), 'N', 2).first} {_more(before, after)}"
    before, after = (one.quantities["cost"].value for one in (result, offer.result))
    if round(after - before, 2):
        yield f"{abs(after - before):.2f} {currency} {_more(before, after)}"


def _more(before, after):
    return "more" if after > before else "less"
