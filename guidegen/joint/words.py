"""Joints in words: what the pair is, where the load sits, what one change does."""

from guidegen.joint.records import Joint
from guidegen.kit.records import BallBearing, SleeveBushing
from guidegen.numbers import show_number

LAYOUT_WORDS = {
    "A": "shaft turns in a frame",
    "B": "hub turns on a screw held at its thread",
    "C": "hub turns in a fork",
}


def bearing_word(part) -> str:
    """What a bearing is called in a sentence."""
    if isinstance(part, BallBearing):
        return "ball bearing"
    return "bronze bushing" if isinstance(part, SleeveBushing) else "nylon bushing"


def pair_words(joint: Joint) -> str:
    """What holds the shaft, "two bronze bushings"."""
    words = [bearing_word(b) for b in joint.bearings]
    if joint.single:
        return f"one {words[0]}"
    if words[0] == words[1]:
        rings = {"ball bearing": ", rings clamped" if joint.clamped else ", rings loose"}.get(words[0], "")
        return f"two {words[0]}s{rings}"
    return f"{words[0]} and {words[1]}"


def length_words(mm: float, units: str) -> str:
    """A length in the kit's own unit."""
    return f"{show_number(mm, 3)} mm" if units == "mm" else f"{show_number(mm / 25.4, 3)} in"


def load_words(joint: Joint) -> str:
    """Where the load acts."""
    units = joint.kit.units if joint.kit else "mm"
    bearing = "it" if joint.single else "bearing 2"
    if abs(joint.overhang) < 0.005:  # mm
        return f"load at {bearing}"
    size, side = length_words(abs(joint.overhang), units), "outside" if joint.overhang >= 0 else "inside"
    return f"load {size} {side} {bearing}"


def title_of(joint: Joint) -> str:
    """One line that tells a worked joint from its neighbours."""
    units = joint.kit.units if joint.kit else "mm"
    apart = "" if joint.single else f" {length_words(joint.separation, units)} apart"
    pair = pair_words(joint)
    arm = ", arm bonded on" if joint.arm_bonded else ""
    return (
        f"{pair[0].upper()}{pair[1:]}{apart} on {joint.shaft.id}, {LAYOUT_WORDS[joint.layout]}, "
        f"{load_words(joint)}{arm}, {show_number(joint.radial, 3)} N"
    )
