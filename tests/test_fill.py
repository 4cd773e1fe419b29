"""The search for parts that fill a length, against trying every combination there is."""

import random
from itertools import combinations

import numpy as np
import pytest

from guidegen.joint import fill
from guidegen.joint.fill import GRAIN, filler

KITS = 300


def grains(length):
    return round(length * GRAIN)


def kit(rng):
    """A few small parts: often with equal thicknesses, sums that coincide, and none left of some."""
    sizes = rng.sample([0.1, 0.2, 0.5, 1.0, 1.2, 1.5875, 1.6, 2.0, 3.0, 3.175, 5.0, 6.35], rng.randint(1, 4))
    return tuple(filler(f"part-{n}", size, rng.randint(0, 3)) for n, size in enumerate(sizes))


def lengths(fillers, rng):
    """A length to fill, mm: near that of some handful, or any; and one near that of a part of it."""
    handful = rng.choice(sorted(every(fillers)))
    sizes = {f.part: f.grains / GRAIN for f in fillers}
    second = sum(sizes[part] for part in handful if rng.random() < 0.5)
    whole = sum(sizes[part] for part in handful) if rng.random() < 0.7 else rng.uniform(0, 12)
    return round(whole + rng.uniform(-0.2, 0.1), 2), round(second + rng.uniform(-0.7, 0.7), 2)


def every(fillers):
    """Every handful that can be taken out of the kit, as a sorted tuple of ids, with its length in grains."""
    single = [(f.part, f.grains) for f in fillers for _ in range(f.count)]
    found = {}
    for size in range(len(single) + 1):
        for chosen in combinations(single, size):
            found[tuple(sorted(part for part, _ in chosen))] = sum(thick for _, thick in chosen)
    return found


def test_fewest_parts_equal_trying_everything():
    """As few as possible, nearest the middle of the range; None exactly when no handful fits."""
    rng, refused = random.Random(1), 0
    for _ in range(KITS):
        fillers = kit(rng)
        low, _ = lengths(fillers, rng)
        high = low + rng.choice([0.0, 0.1, 0.3])
        found = fill.fewest(fillers, low, high)
        fits = {
            parts: thick for parts, thick in every(fillers).items() if grains(low) <= thick <= grains(high)
        }
        if not fits:
            assert found is None
            refused += 1
            continue
        best = min((len(parts), abs(2 * thick - grains(low) - grains(high))) for parts, thick in fits.items())
        thick = fits[tuple(sorted(found))]
        assert (len(found), abs(2 * thick - grains(low) - grains(high))) == best
        sizes = {f.part: f.grains for f in fillers}
        assert [sizes[part] for part in found] == sorted((sizes[part] for part in found), reverse=True)
    assert KITS / 10 < refused < KITS * 9 / 10


def splits(fillers, total, second):
    """Every way to share parts of the kit between two places, with both lengths within their ranges."""
    for whole, thick in every(fillers).items():
        if total[0] <= thick <= total[1]:
            for size in range(len(whole) + 1):
                for chosen in set(combinations(whole, size)):
                    sizes = {f.part: f.grains for f in fillers}
                    part = sum(sizes[name] for name in chosen)
                    if second[0] <= part <= second[1]:
                        yield len(whole), part


def test_fewest_parts_in_two_places_equal_trying_everything():
    """As few as possible, the second place nearest to what was wanted; None exactly when nothing fits."""
    rng, refused = random.Random(2), 0
    for _ in range(KITS):
        fillers = kit(rng)
        low, wanted = lengths(fillers, rng)
        high, reach = low + 0.2, 0.5
        found = fill.fewest_in_two(fillers, low, high, wanted - reach, wanted + reach, wanted)
        ranked = [
            (number, abs(part - grains(wanted)))
            for number, part in splits(
                fillers, (grains(low), grains(high)), (grains(wanted - reach), grains(wanted + reach))
            )
        ]
        if not ranked:
            assert found is None
            refused += 1
            continue
        sizes, left = {f.part: f.grains for f in fillers}, {f.part: f.count for f in fillers}
        first, second = found
        part = sum(sizes[name] for name in second)
        assert (len(first) + len(second), abs(part - grains(wanted))) == min(ranked)
        assert grains(low) <= part + sum(sizes[name] for name in first) <= grains(high)
        assert all((first + second).count(name) <= left[name] for name in first + second)
    assert KITS / 10 < refused < KITS * 9 / 10


def test_reachable_sums_are_all_and_only_those():
    """Each sum of some parts up to the ceiling, once, rising; with the fewest parts that make it."""
    rng = random.Random(3)
    for _ in range(60):
        fillers, roof = kit(rng), grains(rng.uniform(0, 15))
        whole = every(fillers)
        expected = sorted({thick for thick in whole.values() if thick <= roof})
        assert fill.reachable_sums(fillers, roof) == pytest.approx(np.array(expected) / GRAIN)
        for thick, (number, counts) in fill.reachable(fillers, roof).items():
            assert number == sum(counts) == min(len(parts) for parts, one in whole.items() if one == thick)
            assert sum(n * f.grains for n, f in zip(counts, fillers)) == thick


def test_a_kit_without_fillers():
    """Nothing fills nothing, and only nothing."""
    assert fill.fewest((), -0.1, 0.1) == () and fill.fewest((), 0.1, 0.3) is None
    assert fill.fewest((filler("ring", 1.0, 2),), -0.5, -0.2) is None


def test_the_nearest_second_place_equals_trying_everything():
    """When a wanted length cannot be had: the nearest one that leaves both places filled."""
    rng = random.Random(4)
    for _ in range(KITS // 4):
        fillers = kit(rng)
        low, wanted = lengths(fillers, rng)
        high = low + 0.3
        parts = [part for _, part in splits(fillers, (grains(low), grains(high)), (0, grains(high)))]
        found = fill.nearest_in_two(fillers, low, high, wanted)
        if not parts:
            assert found is None
        else:
            nearest = min(abs(part - grains(wanted)) for part in parts)
            assert abs(grains(found) - grains(wanted)) == nearest
