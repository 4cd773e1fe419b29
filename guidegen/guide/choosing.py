"""Bushing, ball bearing or nylon: the kinds of bearings of a kit side by side, tried under the same loads."""

from collections import Counter
from dataclasses import dataclass
from math import inf
from typing import Callable, Iterator, Mapping, NamedTuple, Sequence

from guidegen.guide.edition import Edition
from guidegen.guide.joint_file import joint_text
from guidegen.guide.lasting import motion_words
from guidegen.guide.measures import Measures
from guidegen.guide.names import FITS
from guidegen.guide.page import Heading, Page
from guidegen.guide.pairs import Group, sample_of
from guidegen.guide.templates import fill, upper_first
from guidegen.guide.trials import HOURS, KNOCK, LOADS, MOTIONS, WORN, KitTrials, Tried
from guidegen.guide.wobble import alone_travel, overhang_of, seen_travel
from guidegen.joint.records import STATES, Joint, Quantity, Result, State, Verdict
from guidegen.kit.records import BallBearing, SleeveBushing, Spacer
from guidegen.numbers import show_number
from guidegen.units import Band

COMPARED = "medium"  # load at which the kinds are compared
# What a bearing is judged by when it is moved by hand, and what comes to it when it swings or turns.
STILL = {
    "pressure": "pressure",
    "edge": "edge",
    "static": "knock",
    "thrust": "thrust",
    "start force": "start force",
}
MOVING = {
    "speed": "speed",
    "pressure times speed": "pressure × speed",
    "wear": "wear",
    "life": "life",
    "swing": "swing",
}
REACH_LIMIT = {"wear", "static", "life"}  # checks whose number must reach the limit; others must stay below
WAYS = {"hand": "moved by hand", "swing": "swinging", "turn": "turning"}
WET = {  # common practice, said by kind of bearing
    BallBearing: "Shields keep grit out, not water: balls and rings rust and run rough. Seals keep "
    "more out and turn "
    "harder.",
    SleeveBushing: "Water washes the oil out: it starts harder and wears faster; dust sticks to the "
    "oil. Oil it again "
    "after wetting.",
    Spacer: "No rust, no oil; but nylon swells as it takes up water: clearance shrinks, and a "
    "tight one pinches.",
}
MUCH = 1000  # a factor beyond it is only said to be large
HARDLY = 1.1  # times; less is no difference to speak of
FILLERS = ("washer", "ring", "spacer", "shim")
EVEN = 0.05  # mm; less is not told as a difference


@dataclass(frozen=True)
class Line:
    """One kind of pair: what a reader compares."""

    tried: Tried
    key: str  # names its place on the page
    wobble: Band
    worn: Quantity | None  # wobble after many swings; None where no wear is counted
    start: Quantity
    swings: (
        float | None
    )  # how many times as long as wanted it lasts when it swings; None where no life is known
    turns: float | None  # the same when it turns
    knock: float  # how many times the load of a drop it bears
    price: float

    @property
    def words(self) -> str:
        return self.tried.kind.words

    @property
    def joint(self) -> Joint:
        """The joint that all kinds share, with the bearings of this one."""
        return self.tried.joint

    @property
    def wet(self) -> list[str]:
        """What water and dust do to it."""
        return [WET[kind] for kind in dict.fromkeys(map(type, self.joint.bearings))]


class Cell(NamedTuple):
    """The bearings of one kind under one load and motion: state, and what is nearest to its limit."""

    state: State
    why: str


class Way(NamedTuple):
    """One kind moved in ways that come to the same, under each load."""

    line: Line
    motions: tuple[str, ...]
    cells: tuple[Cell, ...]


class Listed(NamedTuple):
    """A group at its sample joint: wobble, wobble of one bearing alone, largest cause, price."""

    group: Group
    result: Result
    wobble: Band
    alone: float | None
    cause: str
    price: float


@dataclass(frozen=True)
class KitChoice:
    """All that the page tells of one kit."""

    trials: KitTrials
    lines: tuple[Line, ...]
    winners: tuple[str, ...]
    ways: tuple[Way, ...]
    listed: tuple[Listed, ...]  # every pair and single bearing


def choosing_page(edition: Edition, made: list[Group], trials: Sequence[KitTrials]) -> Page:
    """Which kind of bearings for what: one joint with each, under three loads, moved in three ways."""
    kits = [_choice(edition, one, made) for one in trials]
    body = fill(
        "choose",
        kits=kits,
        measures=edition.measures,
        course=edition.course,
        moved=_ways_words(kits),
        ways=WAYS,
        hours=HOURS,
        knock=KNOCK,
        compared=COMPARED,
        times=times_words,
        inputs_of=inputs_of,
        unlike_nearest=unlike_nearest,
        shared_of=shared_of,
        load_planes=load_planes,
    )
    contents = [Heading(2, kit.trials.kit.id, kit.trials.kit.title) for kit in kits]
    return Page(
        "choose.html",
        "Bushing, ball bearing or nylon?",
        body,
        (*contents, Heading(2, "words", "What the numbers leave out"), Heading(2, "inputs", "Inputs")),
        in_search=True,
        description="Kinds of bearings side by side in one joint: wobble, wear, force to start, price.",
    )


def _ways_words(kits) -> dict[str, str]:
    """How the joints are moved, by name of the motion."""
    moved = {"hand": WAYS["hand"]}
    for kit in kits[:1]:
        moved |= {key: motion_words(kit.lines[0].tried.trials[COMPARED, key].joint) for key in MOTIONS}
    return moved


def trial_files(trials: Sequence[KitTrials]) -> dict[str, bytes]:
    """A joint file for each kind under the load at which kinds are compared, by its path in the site."""
    return {
        f"choose/{trial_key(one, tried)}.yaml": joint_text(
            tried.trials[COMPARED, "swing"],
            f"{upper_first(tried.kind.words)}, as tried on the page choose.html",
        ).encode()
        for one in trials
        for tried in one.tried
    }


def trial_key(one: KitTrials, tried: Tried) -> str:
    """Names the place of a kind on the page."""
    return f"{one.kit.id}-{'-'.join(tried.kind.words.replace(',', '').split())}"


def _choice(edition, one: KitTrials, made) -> KitChoice:
    lines = lines_of(one)
    own = [group for group in made if group.kit == one.kit.id]
    return KitChoice(
        one,
        lines,
        tuple(winners(lines, edition.measures, edition.course.currency)),
        tuple(way for line in lines for way in _ways(line)),
        tuple(map(_listed, own)),
    )


def lines_of(one: KitTrials) -> tuple[Line, ...]:
    """What a reader compares of each kind of a kit."""
    return tuple(_line(one, tried) for tried in one.tried)


def _line(one: KitTrials, tried: Tried) -> Line:
    result = tried.trials[COMPARED, "swing"]
    return Line(
        tried,
        trial_key(one, tried),
        seen_travel(result),
        result.quantities.get(WORN),
        result.quantities["start_force"],
        lasts(result),
        lasts(tried.trials[COMPARED, "turn"]),
        bears(result),
        _price(result.joint),
    )


def lasts(result: Result) -> float | None:
    """How many times as long as wanted the worse bearing lasts, at typical wear; None if not known.

    A ring that creeps wears its seat long before its balls are tired.
    """
    found, quantities = [], result.quantities
    if any(v.about == "ring creep" and v.state == "does not hold" for v in result.verdicts):
        return None
    if "wear_cycles" in quantities:
        found.append(quantities["wear_cycles"].typical / quantities["cycles_wanted"].typical)
    if "life_hours" in quantities:
        found.append(quantities["life_hours"].typical / result.joint.motion.hours)
    return min(found, default=None)


def bears(result: Result) -> float:
    """How many times the load with shock the worse bearing bears before it is dented or crushed."""
    found = [q.typical for name, q in result.quantities.items() if name.startswith("static_factor")]
    for n in (1, 2):
        if f"pressure_{n}" in result.quantities:
            ceiling = result.inputs[f"pressure_ceiling_{n}"].typical
            found.append(ceiling / result.quantities[f"pressure_{n}"].typical)
    return min(found)


def times_words(times: float) -> str:
    """A factor to read at a glance."""
    return f"over {MUCH} ×" if times > MUCH else f"{show_number(times, 2)} ×"


class Criterion(NamedTuple):
    """What kinds are compared by: its name, the number, how it is said, and whether more of it is better."""

    says: str
    of: Callable[[Line], float | None]
    said: Callable[[float, Measures, str], str]
    more: bool = False


CRITERIA = (
    Criterion(
        "Steadiest when new", lambda line: line.wobble.typical, lambda x, m, _: m.value(x, "mm", 2).line
    ),
    Criterion(
        "Steadiest after 100 000 swings",
        lambda line: line.worn.typical if line.worn else line.wobble.typical,
        lambda x, m, _: m.value(x, "mm", 2).line,
    ),
    Criterion("Easiest to start", lambda line: line.start.typical, lambda x, m, _: m.value(x, "N", 2).line),
    Criterion(
        "Lasts longest, turning",
        lambda line: line.turns,
        lambda x, *_: f"{times_words(x)} what is wanted",
        more=True,
    ),
    Criterion(
        "Takes the hardest knock",
        lambda line: line.knock,
        lambda x, *_: f"{times_words(x)} the load of a drop",
        more=True,
    ),
    Criterion("Cheapest pair", lambda line: line.price, lambda x, _, currency: f"{x:.2f} {currency}"),
)


def winners(lines: Sequence[Line], measures: Measures, currency: str) -> Iterator[str]:
    """For each criterion which kind is best, the next, and by how much."""
    for criterion in CRITERIA:
        known = [(x, line) for line in lines if (x := criterion.of(line)) is not None]
        ranked = sorted(known, key=lambda pair: -pair[0] if criterion.more else pair[0])
        if len(ranked) < 2:
            continue
        (best, first), (next_best, second), (worst, last) = ranked[0], ranked[1], ranked[-1]
        told = f"{criterion.says}: {first.words}, {criterion.said(best, measures, currency)}"
        told += f"; next {second.words}, {_by(best, next_best)}"
        if last is not second:
            told += f"; last {last.words}, {criterion.said(worst, measures, currency)}"
        yield told + "."


def _by(best, other):
    """How the next compares with the best."""
    low, high = sorted((best, other))
    times = high / low
    if times < HARDLY:
        return "hardly different"
    return f"{show_number(times, 2)} times {'as much' if other > best else 'less'}"


def _ways(line: Line) -> Iterator[Way]:
    """A kind under each load; the ways to move it that come to the same stand together."""
    found: dict[tuple[Cell, ...], list[str]] = {}
    for motion in WAYS:
        abouts = STILL if motion == "hand" else STILL | MOVING
        results = (line.tried.trials[load, "swing" if motion == "hand" else motion] for load in LOADS)
        found.setdefault(tuple(nearest_limit(result, abouts) for result in results), []).append(motion)
    return (Way(line, tuple(motions), cells) for cells, motions in found.items())


def nearest_limit(result: Result, abouts: Mapping[str, str]) -> Cell:
    """State of a joint by some checks alone, and which of those in that state has least to spare."""
    asked = [verdict for verdict in result.verdicts if verdict.about in abouts]
    state = max((verdict.state for verdict in asked), key=STATES.index, default="holds")
    asked = [verdict for verdict in asked if verdict.state == state]
    words = [abouts[verdict.about] for verdict in asked if verdict.limit is None and state != "holds"]
    used = [(used_up(verdict), verdict.about) for verdict in asked if verdict.limit]
    if used:
        share, about = max(used)
        words.append(f"{abouts[about]} {_per_cent(share)}")
    return Cell(state, ", ".join(dict.fromkeys(words)))


def used_up(verdict: Verdict) -> float:
    """Share of its limit that a check takes up at its worst."""
    if verdict.about in REACH_LIMIT:
        return verdict.limit / verdict.number if verdict.number else inf
    return verdict.number / verdict.limit


def _per_cent(share):
    if share == inf:
        return "at worst without a clearance to double"
    return "under 1 %" if share < 0.01 else f"{show_number(100 * share, 2)} %"


def _listed(group: Group) -> Listed:
    result = sample_of(group)
    joint = result.joint
    return Listed(
        group,
        result,
        seen_travel(result),
        None if joint.single else alone_travel(result),
        max(result.shares, key=lambda cause: result.shares[cause], default=""),
        _price(joint),
    )


def _price(joint):
    return sum(bearing.price for bearing in joint.bearings)


def shared_of(one: KitTrials, measures: Measures) -> str:
    """What the joints of all kinds have in common, in one sentence."""
    joint = one.tried[0].joint
    first = joint.housings[0]
    return (
        f"screw {joint.shaft.id}; bearings {FITS[first.fit]} {first.stock.name}, {first.process.name}, "
        f"{measures.value(joint.separation, 'mm').line} from middle to middle; arm "
        f"{measures.value(joint.arm, 'mm').line}; {measures.value(joint.axial, 'N').line} along the screw"
    )


def load_planes(one: KitTrials, measures: Measures) -> str:
    """How far beyond bearing 2 the load acts: what is not quite alike, from least to most."""
    places = sorted(overhang_of(tried.trials[COMPARED, "swing"]) for tried in one.tried)
    return measures.range(places[0], places[-1], "mm").line


def inputs_of(line: Line, measures: Measures) -> tuple[str, str, list[str]]:
    """What a kind's joint has of its own: its bearings, the place of the load, what fills the screw."""
    result = line.tried.trials[COMPARED, "swing"]
    own = Counter(row.part for row in result.stack.placed if row.kind in FILLERS)
    return (
        " and ".join(dict.fromkeys(bearing.id for bearing in line.joint.bearings)),
        measures.value(overhang_of(result), "mm").line,
        [f"{count} × {id}" if count > 1 else id for id, count in own.items()],
    )


def unlike_nearest(line: Line, measures: Measures) -> str:
    """How the nearest worked joint differs from the joint tried, load and motion apart."""
    near, joint = line.tried.nearest.joint, line.joint
    told = []
    if (mine := near.housings[0]).stock != (other := joint.housings[0]).stock or mine.fit != other.fit:
        told.append(f"{mine.stock.name}, {FITS[mine.fit]}")
    if near.shaft.id != joint.shaft.id:
        told.append(f"screw {near.shaft.id}")
    if abs(near.separation - joint.separation) > EVEN:
        told.append(f"{measures.value(near.separation, 'mm').line} apart")
    places = [overhang_of(result) for result in (line.tried.nearest, line.tried.trials[COMPARED, "swing"])]
    if abs(places[0] - places[1]) > EVEN:
        told.append(f"load {measures.value(places[0], 'mm').line} beyond bearing 2")
    return "; ".join(told) or "in nothing"
