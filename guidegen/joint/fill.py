"""Exact search for the fewest kit parts that fill a length, within the counts of a kit."""

from bisect import bisect_left, bisect_right
from functools import lru_cache
from typing import NamedTuple

import numpy as np

GRAIN = 10_000  # lengths are compared in tenths of a micrometre, so that sums are exact
KEPT = 512  # tables of sums; a search asks for the same few again and again


class Filler(NamedTuple):
    """A part that may fill a shoulder: its id, typical thickness in grains, how many there are."""

    part: str
    grains: int
    count: int


Fill = tuple[str, ...]  # part ids, sorted by falling thickness


def filler(part_id, thickness, count) -> Filler:
    return Filler(part_id, round(thickness * GRAIN), count)


def fewest(fillers: tuple[Filler, ...], low: float, high: float) -> Fill | None:
    """Fewest parts whose typical thicknesses add to between low and high, mm; None if there are none.

    Of equally few, the one nearest the middle of the range; then the one that takes least of the first part.
    """
    lo, hi = round(low * GRAIN), round(high * GRAIN)
    if hi < 0:
        return None
    sums, rising = reachable(fillers, _roof(hi)), _rising(fillers, _roof(hi))
    between = rising[bisect_left(rising, lo) : bisect_right(rising, hi)]
    ranks = ((sums[total][0], abs(2 * total - lo - hi), sums[total][1]) for total in between)
    best = min(ranks, default=None)
    return _named(fillers, best[2]) if best else None


def fewest_in_two(fillers, low, high, part_low, part_high, wanted) -> tuple[Fill, Fill] | None:
    """Fewest parts in two places: all adding to low..high, those in the second to part_low..part_high.

    Returns (first, second). Of equally few, the second place nearest to `wanted`, mm.
    """
    lo, hi = round(low * GRAIN), round(high * GRAIN)
    part_lo, part_hi = round(part_low * GRAIN), min(round(part_high * GRAIN), hi)
    if hi < 0:
        return None
    at_least = _fewest_within(reachable(fillers, _roof(hi)), hi)
    fewest_second = at_least(part_lo, part_hi)
    if at_least(lo, hi) is None or fewest_second is None:
        return None
    best = None
    for size in range(fewest_second, sum(f.count for f in fillers) + 1):
        if best and size > best[0][0]:
            break
        smallest = sum(sorted(f.grains for f in fillers for _ in range(f.count))[:size])
        if smallest > part_hi:
            break
        for counts in _multisets(fillers, size, part_lo, part_hi):
            total = sum(n * f.grains for n, f in zip(counts, fillers))
            more = at_least(lo - total, hi - total)
            if more is None or best and size + more > best[0][0]:
                continue
            left = tuple(f._replace(count=f.count - n) for f, n in zip(fillers, counts))
            first = fewest(left, low - total / GRAIN, high - total / GRAIN)
            if first is None:
                continue
            rank = (size + len(first), abs(total - wanted * GRAIN), counts)
            if best is None or rank < best[0]:
                best = rank, first, _named(fillers, counts)
    return best[1:] if best else None


def nearest_in_two(fillers, low, high, wanted) -> float | None:
    """The length in the second place nearest to `wanted`, mm, when both places add to low..high."""
    hi = round(high * GRAIN)
    sums = [total for total in reachable(fillers, _roof(max(0, hi))) if total <= hi]
    for total in sorted(sums, key=lambda total: (abs(total - wanted * GRAIN), total)):
        length = total / GRAIN
        if fewest_in_two(fillers, low, high, length, length, length):
            return length
    return None


def _fewest_within(sums, roof):
    """A quick test: the fewest parts that add to low..high grains, all parts at hand; None for no way."""
    rising = sorted(total for total in sums if total <= roof)

    def at_least(low, high):
        between = rising[bisect_left(rising, low) : bisect_right(rising, high)]
        return min((sums[total][0] for total in between), default=None)

    return at_least


@lru_cache(KEPT)
def reachable(fillers: tuple[Filler, ...], roof: int) -> dict[int, tuple[int, tuple[int, ...]]]:
    """Every sum up to `roof` grains, with the fewest parts that make it: {sum: (parts, count of each)}."""
    sums = {0: (0, ())}
    for part in fillers:
        wider = {}
        for total, (number, counts) in sums.items():
            for n in range(part.count + 1):
                reached = total + n * part.grains
                if reached > roof:
                    break
                known, parts = wider.get(reached), number + n
                if known is None or parts < known[0] or parts == known[0] and counts + (n,) < known[1]:
                    wider[reached] = parts, counts + (n,)
        sums = wider
    return sums


@lru_cache(KEPT)
def _rising(fillers, roof) -> list[int]:
    return sorted(reachable(fillers, roof))


@lru_cache(KEPT)
def reachable_sums(fillers, roof) -> np.ndarray:
    """The sums of `reachable`, rising, mm."""
    return np.array(_rising(fillers, roof)) / GRAIN


def roof_over(length: float) -> int:
    """A common ceiling for searches up to `length` mm, so that their tables are shared."""
    return _roof(round(length * GRAIN))


def _roof(grains):
    step = 10 * GRAIN
    return -(-grains // step) * step


def _multisets(fillers, size, low, high):
    """Counts of each filler, `size` parts in all, adding to low..high grains."""
    if not fillers:
        if size == 0 and low <= 0 <= high:
            yield ()
        return
    sizes = [f.grains for f in fillers]
    if size * min(sizes) > high or size * max(sizes) < low:
        return
    first, rest = fillers[0], fillers[1:]
    for n in range(min(first.count, size) + 1):
        thick = n * first.grains
        for others in _multisets(rest, size - n, low - thick, high - thick):
            yield (n,) + others


def _named(fillers, counts) -> Fill:
    chosen = [f for f, n in zip(fillers, counts) for _ in range(n)]
    return tuple(f.part for f in sorted(chosen, key=lambda f: (-f.grains, f.part)))
