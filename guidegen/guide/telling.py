"""How to tell a part from its look-alikes, in words and readings."""

from typing import Iterable, Mapping, NamedTuple

from guidegen.guide.lookalikes import Alike, Sizes, grouped, lookalikes
from guidegen.guide.measures import Both, Measures
from guidegen.guide.names import COLUMNS
from guidegen.guide.readings import DECIMALS, INSIDE, SHOWN, Reading, ordered, outward, shown
from guidegen.guide.templates import upper_first
from guidegen.kit.records import Material
from guidegen.numbers import show_number

MOST_ROWS = 10
BY = {
    "caliper": "a caliper",
    "thread": "the thread",
    "eye": "eye and hand",
    "fine gauge": "a finer gauge",
    "nothing": "nothing for sure",
}


class Told(NamedTuple):
    """Parts of one kind that a part is mistaken for, and how they are told from it."""

    others: list[tuple[str, str, Both]]  # id, name, what a caliper reads on the size that tells
    by: str
    what: str  # the size that tells best
    own: Both  # what a caliper reads on it here
    measured: bool  # whether that size tells, rather than what `more` says
    more: str  # sentences


class Telling(NamedTuple):
    """The look-alikes of a part, the hardest to tell first."""

    rows: list[Told]
    left: int  # parts not listed, all easier to tell than those


def telling(
    sizes: Sizes, all_sizes: Iterable[Sizes], materials: Mapping[str, Material], measures: Measures
) -> Telling:
    """What a part is mistaken for and how to tell, in a table's worth of rows."""
    groups = grouped(lookalikes(sizes, all_sizes))
    rows = [_told(group, materials, measures) for group in groups[:MOST_ROWS]]
    return Telling(rows, sum(map(len, groups[MOST_ROWS:])))


def _told(group: list[Alike], materials, measures) -> Told:
    first = group[0]
    others = [(one.id, one.other.part.name, _reads(one.tell.other, measures)) for one in group]
    more = [*_thread(first), *_seen(first, materials), *_unseen(first), *_for_sure(first, measures)]
    own = first.tell.own
    measured = first.by in ("caliper", "fine gauge")
    return Told(others, BY[first.by], own.words, _reads(own, measures), measured, " ".join(more))


def _reads(found: Reading, measures):
    return shown(found.least, found.most, measures)


def _thread(alike):
    if alike.threads:
        yield f"Thread {alike.other.thread}, here {alike.own.thread}."


def _seen(alike, materials):
    own, other = alike.own.part, alike.other.part
    for column in alike.seen:
        if column == "material":
            heavier = alike.other.density > alike.own.density
            times = f"{show_number(alike.heavier, 2)} times as {'heavy' if heavier else 'light'}"
            yield f"Made of {materials[other.material].name}, {times} for its size."
        else:
            words = upper_first(COLUMNS[column])
            yield f"{words}: {getattr(other, column)}, here {getattr(own, column)}."


def _unseen(alike):
    for column in alike.unseen:
        words, own, other = COLUMNS[column], alike.own.part, alike.other.part
        yield f"What no caliper shows: {words} {getattr(other, column)}, here {getattr(own, column)}."


def _for_sure(alike, measures):
    """Where readings overlap: from which reading on it is one of the two for sure."""
    if alike.by not in ("nothing", "fine gauge"):
        return
    own, other = alike.tell.own, alike.tell.other
    if alike.by == "fine gauge":
        yield "Gauge pins tell." if own.face == INSIDE else "A micrometer tells."
    sure = [
        *_sure("this one", own, other, measures),
        *_sure("the other", other, own, measures),
    ]
    if sure:
        yield f"By a caliper, for sure {', '.join(sure)}; between, either."
    elif alike.by == "nothing":
        yield "Every size reads the same." if _same_everywhere(alike) else ""


def _same_everywhere(alike):
    pairs = ((found, alike.other.readings[place]) for place, found in alike.own.readings.items())
    return all(one.limits == other.limits for one, other in pairs)


def _sure(words, one: Reading, against: Reading, measures):
    """The readings that only one of two parts can give."""
    for says, place, beyond in (("under", 0, -1), ("over", 1, 1)):
        ends = {unit: [outward(r.least, r.most, unit)[place] for r in (one, against)] for unit in SHOWN}
        if all(beyond * (own - other) > SHOWN[unit] / 2 for unit, (own, other) in ends.items()):
            texts = {unit: f"{other:.{DECIMALS[unit]}f} {unit}" for unit, (_, other) in ends.items()}
            yield f"{words} {says} {ordered(texts, measures).line}"
