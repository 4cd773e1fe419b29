"""What water, salts, dust, heat and metals that touch do to joints: place by place, part by part."""

from dataclasses import replace
from itertools import combinations
from typing import Iterable, Iterator

from guidegen.guide.edition import Edition
from guidegen.guide.grids import Grid, grid
from guidegen.guide.keeping import CLEANERS, STORE, made_words, place_words
from guidegen.guide.page import Heading, Page
from guidegen.guide.templates import fill, upper_first
from guidegen.joint import evaluate
from guidegen.joint.galvanic import EATEN_FIRST, SAME
from guidegen.joint.keeping import matters
from guidegen.joint.made_of import agent_thing
from guidegen.joint.records import STATES as WORST_LAST
from guidegen.joint.records import Joint
from guidegen.kit.lookup import OutsideTable
from guidegen.kit.metals import effect, galvanic_limit, own_rust, surface
from guidegen.kit.records import NO_METAL, Course, Part, Stock, Surroundings
from guidegen.numbers import show_number
from guidegen.theory.corrosion import galvanic_difference

AIRS = {
    "controlled": "dry and warm",
    "normal": "indoors",
    "harsh": "outdoors, damp, salts",
    "soaked": "in water",
}
CLASSES = ("harsh", "normal", "controlled")  # of the limits for metals that touch, the strictest first
COMES = ("water", "fertiliser mist", "salt mist", "dust")
HANDLED = (*CLEANERS, STORE)
ASKS = ("does not hold", "take care", "upkeep")
SWELLS = "May seize: its joint tells"
OF_PLACE = {"heat", "water", "rust", "galvanic", "exposure"}  # checks that a place decides
SECTIONS = {
    "places": "The places",
    "named": "Joints of this course, anywhere",
    "bearings": "Which bearing where?",
    "rust": "What rusts by itself",
    "metals": "Metals that touch",
    "agents": "What water, salts and dust do",
    "cleaning": "Cleaning and storing",
}


def surroundings_page(edition: Edition) -> Page:
    """One page for the question what a place does to joints, and what to choose there."""
    course = edition.course
    places = list(course.places.values())
    named = [edition.by_id[id].joint for id in course.joints if id in edition.by_id]
    body = fill(
        "surroundings",
        sections=SECTIONS,
        own=course.places[course.surroundings],
        places=_places(places),
        named=_everywhere(named, places, course),
        bearings=_bearings(course, places),
        rust=_rust(course),
        metals=_metals(course),
        comes=_agents(course, COMES, "What comes by itself"),
        handled=_agents(course, HANDLED, "What people bring"),
        cautions=edition.cautions("solvents", about={"solvents"}),
    )
    return Page(
        "surroundings.html",
        "What about water, rust and heat?",
        body,
        tuple(Heading(2, *section) for section in SECTIONS.items() if named or section[0] != "named"),
        in_search=True,
        description="Rust, metals that touch, water, salts, dust: what each place does to joints.",
    )


def _places(places: Iterable[Surroundings]) -> Grid:
    rows = (
        (
            upper_first(place.name),
            ", ".join((place.wet, *(agent for agent in place.agents if agent != "water"))),
            f"{show_number(place.temperature_least)} to {show_number(place.temperature_most)} °C",
            f"{show_number(100 * place.humidity.least)} to {show_number(100 * place.humidity.most)} %",
            AIRS[place.air],
        )
        for place in places
    )
    heads = ("place", "what comes", "temperature", "humidity", "air counts as")
    return grid("Places", "Places that a joint file may name", heads, rows)


def _everywhere(joints: list[Joint], places: list[Surroundings], course: Course) -> Grid:
    """What each place asks of each named joint, by how much it matters."""
    rows = ((upper_first(place.name), *_there(joints, place, course)) for place in places)
    return grid("Everywhere", "What each place asks of the joints of this course", ("place", *ASKS), rows)


def _there(joints: list[Joint], place: Surroundings, course: Course) -> Iterator[str]:
    """For each way of asking: what is asked, and of which joints."""
    asked: dict[str, dict[str, list[str]]] = {way: {} for way in ASKS}
    for joint in joints:
        for verdict in evaluate(replace(joint, place=place), course).verdicts:
            if verdict.about in OF_PLACE and verdict.state != "holds":
                way = verdict.state if verdict.counts_as != "holds" else "upkeep"
                asked[way].setdefault(verdict.about, []).append(joint.title)
    for found in asked.values():
        told = (f"{about}: {_which(titles, joints)}" for about, titles in found.items())
        yield upper_first("; ".join(told)) or "–"


def _which(titles: list[str], joints: list[Joint]) -> str:
    named = list(dict.fromkeys(titles))
    return "all" if len(named) == len(joints) else ", ".join(named)


def _bearings(course: Course, places: list[Surroundings]) -> Grid:
    """One part of each kind that the table of agents knows, in each place."""
    things = _things(course)
    rows = (
        (upper_first(place.name), *(_worst_there(of, thing, place) for thing, of in things))
        for place in places
    )
    heads = ("place", *(thing_words(thing) for thing, _ in things))
    return grid("Bearings", "What each place does to what runs, and to what holds it", heads, rows)


def _things(course: Course) -> list[tuple[str, Part | Stock]]:
    """(name in the table of agents, the first that is called so) of the course."""
    found: dict[str, Part | Stock] = {}
    for of in (*course.parts.values(), *course.stocks.values()):
        if thing := agent_thing(of, course):
            found.setdefault(thing, of)
    return list(found.items())


def thing_words(thing: str) -> str:
    """What the table of agents calls a thing, for a reader: a closure becomes a ball bearing."""
    closures = {
        "open": "open ball bearing",
        "shields": "ball bearing with shields",
        "seals": "ball bearing with seals",
    }
    return closures.get(thing, thing)


def _worst_there(of, thing: str, place: Surroundings) -> str:
    """The worst that comes to a thing in a place, with the agent."""
    told = [(matters(of, thing, agent, place), agent) for agent in place.agents]
    worst = max((state for state, _ in told), key=WORST_LAST.index, default="holds")
    if thing == "nylon" and "water" in place.agents:
        return SWELLS
    if worst == "holds":
        return upper_first(place_words(worst))
    agents = [agent for state, agent in told if state == worst]
    return f"{upper_first(place_words(worst))}: {', '.join(agents)}"


def _surfaces(course: Course) -> list[tuple[str, str]]:
    """(metal, finish) of all parts and stock of the course, each once."""
    of_parts = ((course.materials[part.material].metal, part.finish) for part in course.parts.values())
    of_stock = ((stock.metal, stock.finish) for stock in course.stocks.values())
    return sorted({of for of in (*of_parts, *of_stock) if of[0] != NO_METAL})


def _rust(course: Course) -> Grid:
    rows = ((made_words(*of), *(own_rust(*of, air).says for air in AIRS)) for of in _surfaces(course))
    return grid("Rust", "What the air does to each metal of this course", ("metal", *AIRS.values()), rows)


def _metals(course: Course) -> Grid:
    """Each two surfaces of the course: how far apart, which is eaten, where that is let pass."""
    met = {}
    for of in _surfaces(course):
        one = surface(*of)
        if one.index is not None:
            met.setdefault(one.name, (one.index, *of))
    rows = []
    for (one, mine), (other, theirs) in combinations(sorted(met.items(), key=lambda of: of[1]), 2):
        apart = galvanic_difference(mine[0], theirs[0])
        if apart > SAME:
            passes = [name for name in CLASSES if apart <= galvanic_limit(name) + SAME]
            guards = theirs[2] in EATEN_FIRST and theirs[1] == mine[1]
            where = f"anywhere: the {theirs[2]} is there to be eaten" if guards else _passed(passes)
            rows.append((f"{other} and {one}", f"{apart:.2f} V", other, where))
    rows.sort(key=lambda row: row[1])
    heads = ("metals", "apart", "eaten", "may touch")
    return grid(
        "Metals", "Metals and platings of this course, those nearest to each other first", heads, rows
    )


def _passed(classes: list[str]) -> str:
    """Where metals so far apart may touch: the harshest place that lets them pass."""
    where = {
        "harsh": "in any air, wet and salt too",
        "normal": "indoors",
        "controlled": "where it is dry and warm",
    }
    return where[classes[0]] if classes else "only with a film between them, or where it is always dry"


def _agents(course: Course, agents: tuple[str, ...], caption: str) -> Grid:
    rows = (
        (upper_first(thing_words(thing)), *(_said(agent, thing) for agent in agents))
        for thing, _ in _things(course)
    )
    return grid(caption, caption, ("what", *agents), rows)


def _said(agent: str, thing: str) -> str:
    try:
        return effect(agent, thing).says
    except OutsideTable:
        return "–"
