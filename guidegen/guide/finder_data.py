"""The worked joints as columns, for the pages that search and rank them on the reader's own device."""

from math import degrees, radians
from statistics import pstdev
from typing import Callable, Iterable, NamedTuple

from guidegen.guide.change import arm_words
from guidegen.guide.edition import Edition
from guidegen.guide.lasting import motion_words
from guidegen.guide.making import TOOL_WORDS
from guidegen.guide.measures import GRAM, GRAMS_PER_OUNCE, POUND
from guidegen.guide.names import FITS, LAYOUTS
from guidegen.guide.pairs import group_of
from guidegen.guide.reckon_data import can_start, script_of_data
from guidegen.guide.templates import upper_first
from guidegen.guide.wobble import overhang_of, seen_travel
from guidegen.joint.build_order import steps
from guidegen.joint.records import STATES, Joint, Result
from guidegen.joint.words import bearing_word, pair_words
from guidegen.theory import statics
from guidegen.units import MM_PER_INCH

DIGITS = 5  # of a number in the file; pages print two or three
AT = 0.005  # mm; a load plane so near is at the bearing
NEWTON_PER_GRAM = statics.weight(GRAM, statics.STANDARD_GRAVITY)
TOOLS = {  # what a joint may need that not every bench has
    "laser": TOOL_WORDS["laser"],
    "print": TOOL_WORDS["print"],
    "drill": "drill press and drills",
    "reamer": "reamer",
    "vice": TOOL_WORDS["vice"],
    "glue": TOOL_WORDS["glue"],
    "thread locker": TOOL_WORDS["thread locker"],
}
MIXED = "two unlike bearings"
PLACES = {"between": "between the bearings", "at": "at the last bearing", "beyond": "beyond the last bearing"}
MOTIONS = {"swing": "swings to and fro", "turn": "turns round and round", "hand": "moved by hand"}


class Kind(NamedTuple):
    """A kind of number as people type it: units, how many of the inside unit each is, and an example."""

    units: dict[str, float]
    shown: tuple[str, ...]  # the units that pages print, metric first
    example: str


class Number(NamedTuple):
    """A quantity that joints are filtered, sorted and compared by."""

    key: str
    name: str
    kind: str
    digits: int
    of: Callable[[Result], float | None]
    less: str = "less"  # what a smaller number is called beside a larger one
    more: str = "more"


def kinds(currency: str) -> dict[str, Kind]:
    """The kinds of numbers; a mass counts as its weight where a force is asked for."""
    lengths = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": MM_PER_INCH, "inch": MM_PER_INCH, '"': MM_PER_INCH}
    masses = {"g": 1.0, "kg": 1000.0, "oz": GRAMS_PER_OUNCE, "lb": 16 * GRAMS_PER_OUNCE}
    weights = {unit: NEWTON_PER_GRAM * grams for unit, grams in masses.items()}
    forces = {"N": 1.0, "kN": 1000.0, "lbf": POUND}
    return {
        "length": Kind(lengths | {"ft": 12 * MM_PER_INCH}, ("mm", "in"), "120 mm, 4.5 in, 3/8 in"),
        "force": Kind(forces | weights, ("N", "lbf"), "500 g, 30 N, 5 lbf, 2 lb"),
        "mass": Kind(masses, ("g", "oz"), "50 g, 2 oz"),
        "money": Kind({currency: 1.0, "": 1.0}, (currency,), f"5, 4.50 {currency}"),
        "hours": Kind({"h": 1.0, "": 1.0}, ("h",), "200 h"),
        "count": Kind({"": 1.0, "million": 1e6}, ("",), "50000, 2 million"),
        "angle": Kind({"deg": radians(1), "°": radians(1), "rad": 1.0}, ("deg",), "70 deg, 0.2 rad"),
        "rate": Kind(
            {"/min": 1 / 60, "rpm": 1 / 60, "a minute": 1 / 60, "/s": 1.0, "Hz": 1.0},
            ("/min",),
            "6 /min, 40 rpm",
        ),
        "times": Kind({"": 1.0, "times": 1.0}, ("",), "1.5"),
    }


def _typical(name):
    def of(result):
        found = result.quantities.get(name)
        return None if found is None else found.typical

    return of


def _most(name):
    def of(result):
        found = result.quantities.get(name)
        return None if found is None else found.band.most if found.band else found.value

    return of


def _life(result):
    return min(
        (q.typical for name, q in result.quantities.items() if name.startswith("life_hours")), default=None
    )


NUMBERS = (
    Number("wobble", "Wobble at its arm", "length", 2, lambda r: seen_travel(r).typical),
    Number("wobble-most", "Wobble at most", "length", 2, lambda r: seen_travel(r).most),
    Number("start", "Force that starts it", "force", 2, _typical("start_force")),
    Number("start-most", "Starts at most at", "force", 2, _most("start_force")),
    Number("load", "Load across the screw", "force", 3, lambda r: r.joint.radial),
    Number("push", "Load along the screw", "force", 3, lambda r: r.joint.axial),
    Number("arm", "Arm", "length", 3, lambda r: r.joint.arm, "shorter", "longer"),
    Number("apart", "Bearings apart", "length", 3, lambda r: r.joint.separation),
    Number("beyond", "Load beyond the last bearing by", "length", 3, overhang_of),
    Number("cost", "Cost of the bought parts", "money", 3, _typical("cost")),
    Number("mass", "Mass of the bought parts", "mass", 2, _typical("mass")),
    Number("bends", "Screw bends by", "length", 2, _typical("deflection")),
    Number("wears", "Swings or turns until a bush is worn", "count", 2, _typical("wear_cycles")),
    Number("lives", "Hours that nine in ten ball bearings last", "hours", 2, _life),
)


class Choice(NamedTuple):
    """A property that joints are filtered by: of a joint its key, and the words for it."""

    key: str
    name: str
    of: Callable[[Result, Edition], tuple[str, str]]


def bearings_of(joint: Joint) -> tuple[str, str]:
    """The kind of bearings of a joint: key and words."""
    words = {bearing_word(bearing) for bearing in joint.bearings}
    word = words.pop()
    return ("mixed", MIXED) if words else (word.split()[0], f"{word}s")


def place_of(result: Result) -> str:
    """Where the load acts: between the bearings, at the last of them, or beyond it."""
    overhang = overhang_of(result)
    if overhang is None:
        return "beyond"
    return "at" if abs(overhang) < AT else "beyond" if overhang > 0 else "between"


def _kit(joint):
    return (joint.kit.id, joint.kit.title) if joint.kit else ("none", "of no kit")


def _layout(joint):
    if joint.arm_between:
        arm = arm_words(joint)
        return f"{joint.layout}-{arm.split()[0]}", f"{joint.layout}: {LAYOUTS[joint.layout]}, {arm} between"
    return joint.layout, f"{joint.layout}: {LAYOUTS[joint.layout]}"


def _joined(pairs):
    """Keys and words of what the housings of one joint have."""
    pairs = list(dict.fromkeys(pairs))
    return "+".join(key for key, _ in pairs), ", ".join(words for _, words in pairs)


def _rings(joint):
    if bearings_of(joint)[0] not in ("ball", "mixed"):
        return "none", "no ball bearing"
    return joint.rings, f"rings {joint.rings}"


def _motion(joint):
    moved = joint.motion
    return f"{moved.kind}-{degrees(moved.angle):.3g}-{60 * moved.rate:.3g}", motion_words(joint)


CHOICES = (
    Choice("state", "State", lambda r, e: (r.state.replace(" ", "-"), r.state)),
    Choice("kit", "Kit", lambda r, e: _kit(r.joint)),
    Choice("bearings", "Kind of bearings", lambda r, e: bearings_of(r.joint)),
    Choice("pair", "Bearings", lambda r, e: (group_of(r.joint), _pair(r.joint))),
    Choice("rings", "Rings of ball bearings", lambda r, e: _rings(r.joint)),
    Choice("screw", "Screw", lambda r, e: (r.joint.shaft.id, r.joint.shaft.id)),
    Choice("layout", "Layout", lambda r, e: _layout(r.joint)),
    Choice("place", "Place of the load", lambda r, e: (place_of(r), PLACES[place_of(r)])),
    Choice(
        "stock",
        "Stock round the bearings",
        lambda r, e: _joined((h.stock.id, h.stock.name) for h in r.joint.housings),
    ),
    Choice("fit", "Held by", lambda r, e: _joined((h.fit, FITS[h.fit]) for h in r.joint.housings)),
    Choice("motion", "Motion worked out", lambda r, e: _motion(r.joint)),
)


def _pair(joint):
    ids = " and ".join(dict.fromkeys(bearing.id for bearing in joint.bearings))
    return f"{upper_first(pair_words(joint))}, {ids}"


def tools_of(result: Result, edition: Edition) -> list[str]:
    """Keys of TOOLS that a joint takes to make and put together; none of one that cannot be built."""
    if result.stack is None:
        return []
    used = {tool for step in steps(result.joint, result.stack, edition.course.parts) for tool in step.tools}
    return [tool for tool in TOOLS if tool in used]


def columns(edition: Edition) -> dict:
    """All that the searching pages know of the worked joints, by columns, ready for JSON."""
    results, course = edition.results, edition.course
    of_kind = kinds(course.currency)
    checks = list(dict.fromkeys(v.about for r in results for v in r.verdicts if v.counts_as != "holds"))
    troubles = [tuple(_troubles(result, checks)) for result in results]
    told = list(dict.fromkeys(troubles))
    return {
        "first": course.units_first,
        "currency": course.currency,
        "arm": course.target_arm,
        "kinds": {key: kind._asdict() for key, kind in of_kind.items()},
        "ids": [result.id for result in results],
        "starts": [int(can_start(result)) for result in results],
        "named": {n: r.joint.title for n, r in enumerate(results) if r.id in course.joints},
        "choices": [_choice(choice, edition) for choice in CHOICES],
        "numbers": [_number(number, results) for number in NUMBERS],
        "stocks": _sets(
            {h.stock.id: h.stock.name for r in results for h in r.joint.housings},
            ([h.stock.id for h in result.joint.housings] for result in results),
        ),
        "tools": _sets(TOOLS, (tools_of(result, edition) for result in results)),
        "moves": _coded(((r.joint.motion.kind, MOTIONS[r.joint.motion.kind]) for r in results), sorted),
        "checks": checks,
        "troubles": told,
        "trouble": [told.index(of) for of in troubles],
    }


def joints_file(found: dict) -> bytes:
    """The columns as a script, which opens from a folder where a data file would not."""
    return script_of_data("guideJoints", found)


def _troubles(result, checks):
    """Which checks a joint fails, and which ask for care, by their place in `checks`."""
    for state in STATES[:0:-1]:
        yield tuple(sorted({checks.index(v.about) for v in result.verdicts if v.counts_as == state}))


def _choice(choice, edition):
    pairs = [choice.of(result, edition) for result in edition.results]
    order = _in_order_of_states if choice.key == "state" else None
    return {"key": choice.key, "name": choice.name, **_coded(pairs, order)}


def _in_order_of_states(pairs):
    return sorted(pairs, key=lambda pair: STATES.index(pair[1]))


def _coded(pairs: Iterable[tuple[str, str]], order=None) -> dict:
    """Keys and words that occur, each once, and of each joint the place of its own."""
    pairs = list(pairs)
    values = list(dict.fromkeys(pairs))
    values = (order or (lambda found: sorted(found, key=lambda pair: pair[1])))(values)
    place = {pair: n for n, pair in enumerate(values)}
    return {"values": values, "of": [place[pair] for pair in pairs]}


def _sets(words: dict[str, str], members: Iterable[Iterable[str]]) -> dict:
    """Names of a set, and of each joint a number whose bits say which of them it takes."""
    keys = list(words)
    return {"values": list(words.items()), "of": [sum(1 << keys.index(k) for k in set(of)) for of in members]}


def _number(number, results):
    found = [number.of(result) for result in results]
    known = [x for x in found if x is not None]
    return {
        "key": number.key,
        "name": number.name,
        "kind": number.kind,
        "digits": number.digits,
        "less": number.less,
        "more": number.more,
        "spread": _rounded(pstdev(known)) if known else 0,
        "of": [None if x is None else _rounded(x) for x in found],
    }


def _rounded(x):
    short = float(f"{x:.{DIGITS}g}")
    return int(short) if short.is_integer() else short
