"""One thing changed: a worked joint beside its neighbour, in words and differences."""

from math import inf
from typing import Callable, Iterator, NamedTuple

from guidegen.guide.measures import UNSEEN, Measures
from guidegen.guide.names import AXES, FITS, LAYOUTS
from guidegen.guide.wobble import seen_travel
from guidegen.joint.near import AXES as ORDER
from guidegen.joint.near import axes
from guidegen.joint.records import Joint, Result
from guidegen.joint.words import bearing_word, pair_words
from guidegen.numbers import ENOUGH, show_number

AT = 0.005  # mm; a load plane so near is at the bearing
SAME = "about the same"
NOTICEABLE = 0.02  # share by which a number must move to be called different
MUCH = 0.1  # share by which effort and life must move to be worth a word: both are known roughly
LASTING = (  # quantity, what is said of it, from where on nobody asks
    ("wear_cycles", "Its bushes last {} times as many cycles.", inf),
    ("rating_life", "Its ball bearings last {} times as long.", ENOUGH["10⁶"]),
)
BECOMES = {"does not hold": "Fails", "take care": "Needs care", "holds": "Holds"}


class Change(NamedTuple):
    """A neighbour: which thing changes, into what, and what that does."""

    axis: str
    becomes: str
    result: Result
    does: str
    state: str  # "" when it stays as it is


def changes(result: Result, near, measures: Measures) -> list[Change]:
    """The neighbours of a worked joint as rows, in the order of the axes."""
    rows = [_change(result, axis, other, measures) for axis, other in near]
    return sorted(rows, key=lambda row: (list(AXES.values()).index(row.axis), row.result.id))


def _change(here, axis, other, measures):
    wobble = _moved(seen_travel(here).typical, seen_travel(other).typical, measures)
    bends = _moved(_bends(here), _bends(other), measures)
    does = f"Wobbles {wobble}" + (f", bends {bends}." if bends else ".")
    said = ["Wobbles and bends about the same." if wobble == bends == SAME else does]
    said += [*_effort(here, other, measures), *_lasting(here, other), *_judged(here, other)]
    return Change(
        AXES[axis],
        value_words(axis, other.joint, measures),
        other,
        " ".join(said),
        "" if other.state == here.state else f"here: {here.state}",
    )


def _effort(here, other, measures) -> Iterator[str]:
    """What becomes of the force that starts it turning, where that is much."""
    before, after = (_typical(result, "start_force") for result in (here, other))
    if before and after and abs(after / before - 1) > MUCH:
        force = measures.value(abs(after - before), "N", 2).first
        yield f"Starts with {force} {'more' if after > before else 'less'}."


def _lasting(here, other) -> Iterator[str]:
    """What becomes of wear and of life, where that is much and where there is an end to it."""
    for name, says, enough in LASTING:
        before, after = (_typical(result, name) for result in (here, other))
        if before and after and min(before, after) < enough and abs(after / before - 1) > MUCH:
            yield says.format(show_number(after / before, 2))


def _typical(result, name):
    """The typical value of a quantity; of two bearings, that of the worse."""
    keys = (key for key in (name, f"{name}_1", f"{name}_2") if key in result.quantities)
    return min((result.quantities[key].typical for key in keys), default=None)


def _judged(here, other) -> Iterator[str]:
    """The checks that come out otherwise, by what becomes of them."""
    before, after = (_worst(result) for result in (here, other))
    for state, says in BECOMES.items():
        turned = [about for about, found in after.items() if found == state != before.get(about, state)]
        if turned:
            yield f"{says} there: {', '.join(turned)}."


def _worst(result):
    """The worst state by what a check is about."""
    return {verdict.about: verdict.state for verdict in reversed(result.verdicts)}


def _bends(result):
    found = result.quantities.get("deflection")
    return None if found is None else found.typical


def _moved(before, after, measures):
    """What became of a length: "0.13 mm less", "about the same"."""
    if before is None or after is None:
        return ""
    step = after - before
    if abs(step) <= max(UNSEEN, NOTICEABLE * max(abs(before), abs(after))):
        return SAME
    size = measures.value(abs(step), "mm", 2).first
    share = f" ({show_number(after / before, 2)} times)" if before and abs(step) > abs(before) / 2 else ""
    return f"{size} {'less' if step < 0 else 'more'}{share}"


def value_words(axis: str, joint: Joint, measures: Measures) -> str:
    """What an axis is at in one joint."""
    match axis:
        case "pair":
            parts = " and ".join(dict.fromkeys(bearing.id for bearing in joint.bearings))
            return f"{pair_words(joint)} ({parts})"
        case "rings":
            return f"rings {joint.rings}"
        case "screw":
            return joint.shaft.id
        case "housing":
            return housing_words(joint)
        case "layout":
            arm = f", {arm_words(joint)} between the bearings" if joint.arm_between else ""
            return f"{joint.layout}: {LAYOUTS[joint.layout]}{arm}"
        case "separation":
            return "one bearing alone" if joint.single else measures.value(joint.separation, "mm").line
        case "overhang":
            return load_place(joint, joint.overhang, lambda mm: measures.value(mm, "mm").line)
    return measures.value(joint.radial, "N").line


def arm_words(joint: Joint) -> str:
    """What is said of an arm on the shoulder between the bearings: it slides, or it is bonded."""
    return "bonded arm" if joint.arm_bonded else "sliding arm"


def housing_words(joint: Joint) -> str:
    """What the bearings sit in, how its holes are made and how they hold."""
    told = [f"{h.stock.name}, {h.process.name}, {FITS[h.fit]}" for h in joint.housings]
    return (
        told[0]
        if len(set(told)) == 1
        else "; ".join(f"{bearing_word(b)}: {words}" for b, words in zip(joint.bearings, told))
    )


def load_place(joint: Joint, overhang: float | None, length: Callable[[float], str]) -> str:
    """Where the load plane lies, `overhang` mm from the last bearing; `length` prints millimetres."""
    if overhang is None:
        return "at a place not known"
    last = "the bearing" if joint.single else "bearing 2"
    if abs(overhang) < AT:
        return f"at {last}"
    return f"{length(abs(overhang))} {'beyond' if overhang > 0 else 'before'} {last}"


def differences(here: Joint, there: Joint, measures: Measures) -> str:
    """What to change to get from one joint to another: "on ss-8x50, 28 mm apart"."""
    mine, theirs = axes(here), axes(there)
    changed = [axis for axis in ORDER if mine[axis] != theirs[axis]]
    if "pair" in changed and "rings" in changed:  # what a pair is called says how its rings are held
        changed.remove("rings")
    return ", ".join(_briefly(axis, there, measures) for axis in changed) or "the same, worked in the grid"


def _briefly(axis, joint, measures):
    match axis:
        case "pair":
            return f"{pair_words(joint)} ({' and '.join(dict.fromkeys(b.id for b in joint.bearings))})"
        case "screw":
            return f"on {joint.shaft.id}"
        case "housing":
            return "in " + " and ".join(dict.fromkeys(h.stock.name for h in joint.housings))
        case "layout":
            arm = f" with the {arm_words(joint)} between the bearings" if joint.arm_between else ""
            return f"layout {joint.layout}{arm}"
        case "separation":
            return "one alone" if joint.single else f"{measures.length(joint.separation)} apart"
        case "overhang":
            return f"load {load_place(joint, joint.overhang, measures.length)}"
        case "load":
            return f"for {measures.value(joint.radial, 'N').first}"
    return value_words(axis, joint, measures)
