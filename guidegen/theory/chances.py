"""How often a pressed bearing comes out loose, right or with its housing cracked; how often a shaft binds.

The outside diameter lies anywhere between its limits alike; the made hole scatters about its mean by a
normal distribution, or by Student's t when the spread comes from a few holes of one's own. The chances
are exact: closed forms, or one integral over straight pieces. Numbers or arrays, element by element.
"""

from typing import Any, Literal, NamedTuple

import numpy as np

from guidegen.theory.clearance import drawn_hole
from guidegen.theory.holes import best_hole

KEPT = 2.0**40  # chances are kept to this fineness, so that they add to exactly 1
FARTHEST = 1e8  # spreads; beyond, a distribution has no tail left to count
NARROW = 1e-4  # spreads; over so little a distribution is even
TAIL = 8.5  # spreads; what lies beyond is below 1e-16
ENOUGH = 0.5  # of the bearings should come out right; else ream, bond or add a lip (common practice)
RARE = 0.01  # a crack more seldom than this does not decide which way to err (common practice)
ROUND = np.sqrt(np.pi) / 2  # half-side of a square over the radius of the disc of its area
NODES, WEIGHTS = np.polynomial.legendre.leggauss(48)


class Chances(NamedTuple):
    """How a bearing comes out once pressed in; the three add to exactly 1."""

    loose: Any  # it turns in its hole
    right: Any
    cracked: Any


class Best(NamedTuple):
    """The circle to draw, what comes of it, and whether that is worth while."""

    drawn: Any  # mm
    chances: Chances
    enough: Any  # at least half of them come out right


class Bearings(NamedTuple):
    """Two bearings as a shaft finds them; lengths mm, slopes rad; a ball bearing has no length.

    Slope: clearance over length for a bush, its own free tilt for a ball bearing. They must not overlap.
    """

    c_1: Any
    c_2: Any
    L_1: Any
    L_2: Any
    separation: Any
    s_1: Any
    s_2: Any


def tight_by(reach, least, most, hole, spread, freedom=np.inf):
    """Chance that a bearing is larger than its hole by `reach`, mm, at least.

    least, most: limits of the outside diameter, mm. hole: mean made hole, drawn plus bias, mm. spread: one
    standard deviation of made holes, mm. freedom: of Student's t; without it the normal distribution.
    Source: derived (the distribution function integrated over the limits).
    """
    least, most, spread = np.asarray(least, float), np.asarray(most, float), np.asarray(spread, float)
    size = np.where(spread > 0, spread, 1.0)
    low, high = (np.clip((limit - reach - hole) / size, -FARTHEST, FARTHEST) for limit in (least, most))
    width = high - low
    wide = np.where(width > NARROW, width, 1.0)
    middle, below, area = (low + high) / 2, *_distribution(freedom)
    scattered = np.where(width > NARROW, (area(high) - area(low)) / wide, below(middle))
    exact = np.where(width > 0, np.clip(high / np.where(width > 0, width, 1.0), 0, 1), high >= 0)
    return np.clip(np.where(spread > 0, scattered, exact), 0, 1)[()]


def _distribution(freedom):
    """(distribution function, its integral from far below) of the normal distribution or Student's t."""
    from scipy.special import gammaln, ndtr, stdtr  # heavy: only when something is evaluated

    if np.isinf(freedom):
        return ndtr, lambda u: u * ndtr(u) + np.exp(-u * u / 2) / np.sqrt(2 * np.pi)
    if not freedom >= 1:
        raise ValueError("Student's t needs two measured holes at least")
    if freedom == 1:  # the mean of its tail is endless, but the difference of two integrals is not
        return lambda u: stdtr(1, u), lambda u: u * stdtr(1, u) - np.log1p(u * u) / (2 * np.pi)
    log = gammaln((freedom + 1) / 2) - gammaln(freedom / 2) - np.log(freedom * np.pi) / 2

    def area(u):
        density = np.exp(log - (freedom + 1) / 2 * np.log1p(u * u / freedom))
        return u * stdtr(freedom, u) + (freedom + u * u) / (freedom - 1) * density

    return lambda u: stdtr(freedom, u), area


def chances(least, most, hole, spread, grips_from, cracks_from, freedom=np.inf) -> Chances:
    """Chances that a pressed bearing turns in its hole, sits right, or cracks its housing.

    grips_from: interference, mm, from which the hole holds against friction; cracks_from: interference at
    which the hoop stress reaches the short-time limit. Cracked counts first. Others as in `tight_by`.
    Both are taken at the middle of the limits: over those of a bearing they hardly change.
    """

    def at_least(reach):
        return np.round(tight_by(reach, least, most, hole, spread, freedom) * KEPT) / KEPT

    cracked = at_least(cracks_from)
    holding = np.maximum(at_least(np.minimum(grips_from, cracks_from)), cracked)
    return Chances(1 - holding, holding - cracked, cracked)


def best_drawn(least, most, bias, spread, grips_from, cracks_from, freedom=np.inf) -> Best:
    """The circle to draw so that most bearings come out right, and how many do.

    bias: mean of made less drawn, mm; others as in `chances`, grips_from and cracks_from finite. The middle
    between the two is best, because the scatter is even on both sides and thickest in the middle.
    """
    hole = best_hole((np.asarray(least) + most) / 2, np.asarray(grips_from), cracks_from)
    found = chances(least, most, hole, spread, grips_from, cracks_from, freedom)
    return Best(drawn_hole(hole, bias), found, found.right >= ENOUGH)


def err_towards(smaller: Chances) -> Literal["larger", "smaller"]:
    """Which way to err with one hole, from the chances of one drawn smaller by what one may be off.

    A hole too large takes a drop of glue; a cracked plate is lost. Where nothing cracks, a tight hole can be
    opened and a large one not closed. Source: common practice.
    """
    return "larger" if smaller.cracked >= RARE else "smaller"


def binds_in_plane(bearings: Bearings, offset_spread, lean_spread_1=0.0, lean_spread_2=0.0):
    """Chance that no straight shaft passes through two bores that miss each other in one plane.

    offset_spread: standard deviation of the offset of bore 2 from bore 1, mm; lean_spreads: those of each
    bore's slope about its own middle, rad. All three are normal and independent, with no mean.
    Measured from the axis of bore 1 only two numbers count, the offset u of bore 2 and its slope v; the
    shaft passes inside a polygon of u and v, and for a given v the offset is normal. Source: derived.
    """
    given = np.broadcast_arrays(
        *(np.asarray(x, float) for x in (*bearings, offset_spread, lean_spread_1, lean_spread_2))
    )
    two = tuple(x[..., None] for x in given[:7])
    *_, S, s_1, s_2, off, lean_1, lean_2 = (x[..., None] for x in given)
    spread = np.hypot(lean_1, lean_2)
    each = np.where(spread > 0, spread, 1.0)
    follows = S * lean_1**2 / each**2  # mean of u over v
    rest = np.hypot(off, S * lean_1 * lean_2 / each)
    reach = np.minimum(s_1 + s_2, TAIL * each)
    kinks = np.concatenate([-reach, s_1 - s_2, s_2 - s_1, s_1, s_2, -s_1, -s_2, reach], -1)
    ends = np.sort(np.clip(kinks, -reach, reach), -1)
    passes = 0.0
    for piece in range(ends.shape[-1] - 1):
        start, end = ends[..., piece, None], ends[..., piece + 1, None]
        v = (start + end) / 2 + NODES * (end - start) / 2
        density = np.exp(-((v / each) ** 2) / 2) / (np.sqrt(2 * np.pi) * each)
        within = density * _offset_within(two, v, follows * v, rest)
        passes = passes + (within @ WEIGHTS) * (end - start)[..., 0] / 2
    straight = _offset_within(two, np.zeros_like(S), 0.0, off)[..., 0]
    return np.clip(1 - np.where(spread[..., 0] > 0, passes, straight), 0, 1)[()]


def _offset_within(two, v, mean, spread):
    """Chance that the offset, normal about `mean`, lies between the two at which the shaft just binds."""
    from scipy.special import ndtr

    high, low = _farthest(two, v) - mean, -_farthest(two, -v) - mean
    size = np.where(spread > 0, spread, 1.0)
    return np.where(spread > 0, ndtr(high / size) - ndtr(low / size), (low <= 0) & (high >= 0))


def _farthest(two, v):
    """Greatest offset of bore 2, mm, at which the shaft still passes, when bore 2 leans by v from bore 1."""
    c_1, c_2, L_1, L_2, S, s_1, s_2 = two
    tilt = np.minimum(s_1, v + s_2)
    return tilt * S + (c_1 + c_2 - np.abs(tilt) * L_1 - np.abs(tilt - v) * L_2) / 2


def binds(bearings: Bearings, offset_spread, lean_spread_1=0.0, lean_spread_2=0.0):
    """Chance that no straight shaft passes through two bores that miss each other in space.

    Spreads are those along one direction, alike in all; others as in `binds_in_plane`. Round bores are
    replaced by square ones of the same area, and the two planes are then free of each other: for offset
    alone within 0.013 of the exact exp(−e²/2s²), on the safe side. Source: derived.
    """
    c_1, c_2, L_1, L_2, S, s_1, s_2 = bearings
    square = Bearings(ROUND * c_1, ROUND * c_2, L_1, L_2, S, ROUND * s_1, ROUND * s_2)
    return 1 - (1 - binds_in_plane(square, offset_spread, lean_spread_1, lean_spread_2)) ** 2
