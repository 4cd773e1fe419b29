"""One thing changed: a worked joint beside its neighbour, in words and differences."""

from typing import Callable, NamedTuple

from guidegen.guide.measures import UNSEEN, Measures
from guidegen.guide.names import AXES, FITS, LAYOUTS
from guidegen.guide.wobble import seen_travel
from guidegen.joint.near import AXES as ORDER
from guidegen.joint.near import axes
from guidegen.joint.records import Joint, Result
from guidegen.joint.words import bearing_word, pair_words
from guidegen.numbers import show_number

AT = 0.005  # mm; a load plane so near is at the bearing
SAME = "about the same"
NOTICEABLE = 0.02  # share by which a number must move to be called different


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
    return Change(
        AXES[axis],
        value_words(axis, other.joint, measures),
        other,
        "Wobbles and bends about the same." if wobble == bends == SAME else does,
        "" if other.state == here.state else f"here: {here.state}",
    )


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
            return f"{joint.layout}: {LAYOUTS[joint.layout]}" + (
                ", arm between the bearings" * joint.arm_between
            )
        case "separation":
            return "one bearing alone" if joint.single else measures.value(joint.separation, "mm").line
        case "overhang":
            return load_place(joint, joint.overhang, lambda mm: measures.value(mm, "mm").line)
    return measures.value(joint.radial, "N").line


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
            return f"layout {joint.layout}" + " with the arm between the bearings" * joint.arm_between
        case "separation":
            return "one alone" if joint.single else f"{measures.length(joint.separation)} apart"
        case "overhang":
            return f"load {load_place(joint, joint.overhang, measures.length)}"
        case "load":
            return f"for {measures.value(joint.radial, 'N').first}"
    return value_words(axis, joint, measures)
