"""Every handful of parts a small kit allows; what may lie where is written a second time here."""

from itertools import product

from guidegen.kit.records import BallBearing, Spacer, Washer

SOFT, HARD = (0.1, 0.4), (0.05, 0.25)  # end play aimed at in wood or print, and in anything else


def length(part):
    return (part.thickness if isinstance(part, Washer) else part.length).typical


def over_shoulder(part, screw):
    """Whether a washer or spacer slides on the shoulder and is still guided by it."""
    return (isinstance(part, Spacer) or isinstance(part, Washer) and part.kind == "large") and (
        screw.shoulder_diameter.most <= part.hole.least and part.hole.typical <= screw.nominal + 1.2
    )


def may_touch(part, bearing):
    """Whether a part that turns with the screw may lie against a bearing: an inner ring only."""
    if isinstance(bearing, BallBearing):
        return bearing.nominal + 2 <= part.outside_diameter.typical <= bearing.inner_land
    return True


def window(joint):
    return SOFT if any(housing.stock.kind in ("wood", "print") for housing in joint.housings) else HARD


def handfuls(joint, parts):
    """(how many, length in mm, ids) of every handful that may lie outside the bearings of a floating stack.

    On each side a large washer; between it and a ball bearing a ring spacer that touches the inner ring only.
    """
    sides = [joint.bearings[0], joint.bearings[-1]]
    balls = [bearing for bearing in sides if isinstance(bearing, BallBearing)]
    taken = [bearing.id for bearing in joint.bearings]
    choice = [
        (parts[id], 0 if id in taken else count)
        for id, count in sorted(joint.kit.parts.items())
        if over_shoulder(parts[id], joint.shaft)
    ]
    rings = {
        part.id
        for part, _ in choice
        if isinstance(part, Spacer) and part.kind == "ring" and all(may_touch(part, ball) for ball in balls)
    }
    for counts in product(*(range(count + 1) for _, count in choice)):
        held = [(part, n) for (part, _), n in zip(choice, counts) if n]
        if sum(n for part, n in held if isinstance(part, Washer)) >= len(sides) and sum(
            n for part, n in held if part.id in rings
        ) >= len(balls):
            yield sum(counts), sum(length(part) * n for part, n in held), {part.id: n for part, n in held}
