"""How a joint is kept alive where it stands: rust, metals that touch, water and dust, cleaning, storing."""

from typing import Iterable, Iterator

from guidegen.guide.chapters import Chapter, Row, Table, present
from guidegen.guide.measures import Both, Measures
from guidegen.guide.templates import upper_first
from guidegen.joint.galvanic import Met, metals_met
from guidegen.joint.keeping import Reached, Rusting, reaching, rusting
from guidegen.joint.made_of import agents_meet
from guidegen.joint.records import Result, State
from guidegen.kit.metals import effect, galvanic_limit, surface
from guidegen.kit.records import Course

WORKED = ("metals_apart", "attack_factor")  # names of the steps behind these numbers
CLEANERS = ("alcohol", "degreaser")
STORE = "paper or wood"
STATES = {"holds": "well", "take care": "upkeep", "does not hold": "not here"}
BARE = "plain"  # a finish that needs no word


def keeping(result: Result, course: Course, measures: Measures) -> tuple[Chapter, ...]:
    """One chapter: what the place does to each part, and what to do about it."""
    joint, stack = result.joint, result.stack
    limit = f"{galvanic_limit(joint.place.harshness):.2f} V"
    apart = f"Metals that touch. Farther apart than {limit} the first named is eaten where both are wet"
    rust = _table("Rust", "By itself in this air", _rust_rows(rusting(joint, stack, course)))
    met = _table("Metals", apart, _met_rows(metals_met(joint, stack, course)))
    comes = _table("Agents", "What comes to what runs", _reached_rows(reaching(joint, course)))
    return (
        Chapter("keeping", "Keep it alive", present((rust, met, comes)), tuple(_sentences(result, course))),
    )


def _table(label: str, caption: str, rows: Iterable[Row]) -> Table:
    return Table(label, caption, ("here", "why"), tuple(rows), worded=True)


def made_words(metal: str, finish: str) -> str:
    """A metal as a reader calls it, with its finish: "steel, black oxide"."""
    return metal if finish == BARE else f"{metal}, {finish}"


def place_words(state: State) -> str:
    """A state of rust, metals or exposure: it is well here, asks for upkeep, or is not for this place."""
    return STATES[state]


def _row(words: str, here: str, says: str) -> Row:
    return Row((), words, (Both(here, ""), Both(upper_first(says), "")))


def _rust_rows(rusts: Iterable[Rusting]) -> Iterator[Row]:
    """One for each metal and finish, with all that is made of it."""
    found: dict[tuple, list[str]] = {}
    for one in rusts:
        made = made_words(one.thing.metal, one.thing.finish)
        found.setdefault((made, one.state, one.says), []).append(one.thing.name)
    for (made, state, says), names in found.items():
        yield _row(f"{made}: {'; '.join(names)}", place_words(state), says)


def _met_rows(pairs: Iterable[Met]) -> Iterator[Row]:
    """One for each two metals that touch, with where they do."""
    found: dict[tuple, list[Met]] = {}
    for met in pairs:
        surfaces = tuple(surface(thing.metal, thing.finish).name for thing in (met.eaten, met.kept))
        found.setdefault((surfaces, met.apart, met.state), []).append(met)
    for ((eaten, kept), apart, state), same in found.items():
        where: dict[str, list[str]] = {}
        for met in same:
            where.setdefault(met.eaten.name, []).append(met.kept.name)
        told = "; ".join(f"{name} on {', '.join(others)}" for name, others in where.items())
        says = max((met.says for met in same), key=len)
        here = f"{apart:.2f} V: {place_words(state)}"
        yield _row(f"{eaten} on {kept}", here, f"{told}{'. ' * bool(says)}{upper_first(says)}.")


def _reached_rows(reached: Iterable[Reached]) -> Iterator[Row]:
    for one in reached:
        yield _row(f"{one.agent}: {one.thing}", place_words(one.state), f"{one.agent} {one.says}.")


def _sentences(result: Result, course: Course) -> Iterator[str]:
    """Where it stands, how to clean it, how to store it."""
    yield (
        f"It stands here: {result.joint.place.name}. How long a part lasts where it rusts, no table can say: "
        "look at it after a week, then set the rhythm."
    )
    met = list(agents_meet(result.joint, course))
    for agent in CLEANERS:
        told = dict.fromkeys(f"{name}: {agent} {_small(effect(agent, thing).says)}" for name, thing, _ in met)
        if told:
            yield f"Cleaning with {agent}. {upper_first('; '.join(told))}."
    for name, thing, _ in met:
        if thing == "oil bronze":
            yield f"Storing. {upper_first(name)}: {STORE} {_small(effect(STORE, thing).says)}."


def _small(sentence: str) -> str:
    return sentence[0].lower() + sentence[1:].rstrip(".")
