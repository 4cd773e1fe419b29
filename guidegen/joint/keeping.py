"""What the place of a joint does to it: rust, metals that touch, and what reaches the parts that run.

No rate is reckoned: how long a part lasts where it rusts, nobody can say.
"""

from typing import Mapping, NamedTuple

from guidegen.joint.findings import Findings
from guidegen.joint.galvanic import Met, metals_met
from guidegen.joint.made_of import Thing, agents_meet, things_of
from guidegen.joint.records import STATES, Joint, Stack, State
from guidegen.joint.verdicts import Yes
from guidegen.kit.metals import effect, own_rust, surface
from guidegen.kit.records import NO_METAL, BallBearing, Course, Surroundings
from guidegen.theory.corrosion import attack_factor, galvanic_difference

SOAKS = ("plywood",)  # what water swells out of shape, as the table of agents calls it
DAMPENS = ("water", "salt mist", "fertiliser mist")  # agents that keep it damp
DRINKS = ("nylon",)  # what grows by the water that it takes up
OILED = ("oil bronze",)  # what runs on oil of its own
WET: Mapping[str, State] = {"splashed": "take care", "soaked": "does not hold"}


class Rusting(NamedTuple):
    """What the air of the place does to one thing."""

    thing: Thing
    state: State
    says: str


class Reached(NamedTuple):
    """What an agent of the place does to what runs, and how much that matters."""

    thing: str
    agent: str
    state: State
    says: str


def keeping(found: Findings, stack: Stack | None):
    """Three answers, each the worst of the joint, with the part and the reason."""
    joint, course = found.joint, found.course
    rusts = rusting(joint, stack, course)
    found.answers["rusts"] = _answer([(one.state, _rust_words(rusts)) for one in rusts])
    pairs = metals_met(joint, stack, course)
    if pairs:
        worst = max(pairs, key=lambda one: (STATES.index(one.state), one.apart))
        _work(found, worst)
        found.answers["galvanic"] = _answer([(worst.state, worst.why)])
    else:
        found.answers["galvanic"] = Yes(True, True, "no two different metals touch")
    reached = reaching(joint, course)
    found.answers["exposed"] = _answer(
        [(one.state, f"{one.thing}: {one.agent} {one.says}") for one in reached]
    )


def _answer(states: list[tuple[State, str]]) -> Yes:
    """The worst of several, with its own reason; without any, a plain yes."""
    state, why = max(states, key=lambda one: STATES.index(one[0]), default=("holds", ""))
    return Yes(state != "does not hold", state == "holds", why)


def rusting(joint: Joint, stack: Stack | None, course: Course) -> tuple[Rusting, ...]:
    """What the air does to each metal thing, the worst first."""
    found = []
    for thing in things_of(joint, stack, course):
        if thing.metal != NO_METAL:
            rust = own_rust(thing.metal, thing.finish, _air(thing, joint.place))
            found.append(Rusting(thing, rust.state, rust.says))
    return tuple(sorted(found, key=lambda one: -STATES.index(one.state)))


def _air(thing: Thing, place: Surroundings) -> str:
    """The steel inside seals stands in calmer air than its place."""
    sealed = isinstance(thing.of, BallBearing) and thing.of.closure == "seals"
    return "normal" if sealed and place.air == "harsh" else place.air


def _rust_words(rusts: tuple[Rusting, ...]) -> str:
    """The worst, by name; with others that are as bad for the same reason."""
    if not rusts:
        return "nothing in it can rust"
    worst = rusts[0]
    alike = [one.thing.name for one in rusts if one.says == worst.says]
    return f"{' and '.join(alike)}: {_lower(worst.says)}"


def _lower(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:].rstrip(".")


def _work(found: Findings, worst: Met):
    """The difference of the two, and how much harder the smaller one is attacked, as worked steps."""
    indices = (surface(thing.metal, thing.finish).index for thing in (worst.eaten, worst.kept))
    found.work(galvanic_difference, "metals_apart", **dict(zip(("E_1", "E_2"), indices)))
    found.work(attack_factor, "attack_factor", A_n=worst.kept_area, A_l=worst.eaten_area)
    found.put_number("metals_apart", worst.apart, "V")


def reaching(joint: Joint, course: Course) -> tuple[Reached, ...]:
    """What each agent of the place does to bearings, plates and prints, the worst first."""
    place = joint.place
    found = []
    for name, thing, of in agents_meet(joint, course):
        for agent in place.agents:
            found.append(
                Reached(name, agent, matters(of, thing, agent, place), _lower(effect(agent, thing).says))
            )
    return tuple(sorted(found, key=lambda one: -STATES.index(one.state)))


def matters(of, thing: str, agent: str, place: Surroundings) -> State:
    """Whether an agent of a place stops what runs, asks for upkeep, or does no harm."""
    if isinstance(of, BallBearing):
        if agent == "water" and place.wet == "soaked":
            return "does not hold"
        kept_out = thing == "seals" or thing == "shields" and agent == "dust"
        comes = agent != "water" or place.wet == "splashed"
        return "take care" if comes and not kept_out else "holds"
    if thing in SOAKS:
        damp: State = "take care" if agent in DAMPENS else "holds"
        return WET.get(place.wet, damp) if agent == "water" else damp
    if thing in DRINKS and agent == "water":
        return "take care"
    if thing in OILED and (agent != "water" or place.wet in WET):
        return "take care"
    return "holds"
