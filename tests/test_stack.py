"""What sits on the screw: every worked stack inspected, and the search against trying everything."""

import random
from collections import Counter
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from joint_reference import course, worked
from stack_reference import handfuls, may_touch, over_shoulder, window

from guidegen.errors import CannotBuild
from guidegen.joint import fill
from guidegen.joint.body import body_of
from guidegen.joint.endplay import _share_met
from guidegen.joint.stack import resolve
from guidegen.kit.records import BallBearing, Nut, Spacer, Washer
from guidegen.units import Band


@cache
def stacks():
    return [(joint, resolve(joint, course().parts)) for joint in worked()]


def outside(stack):
    """Rows from head to nut, without what stands inside the frame or hub."""
    return [row for row in stack.placed if not row.within]


def test_parts_lie_one_after_another():
    """In order from the head, no gap but the end play under the head, thicknesses adding to the places."""
    for joint, stack in stacks():
        rows = outside(stack)
        assert rows[0].z_from >= -1e-9 and stack.faults == ()
        for before, after in zip(rows, rows[1:]):
            assert after.z_from == pytest.approx(before.z_to, abs=1e-6), joint.id
        for row in rows:
            assert row.z_to - row.z_from == pytest.approx(row.thickness.typical, abs=1e-6), (
                joint.id,
                row.part,
            )
        on_shoulder = [row for row in rows if row.on == "shoulder"]
        on_thread = [row for row in rows if row.on == "thread"]
        assert rows == on_shoulder + on_thread
        taken = sum(row.thickness.typical for row in on_shoulder)
        if joint.clamped:
            assert rows[0].z_from == 0 and stack.z_face == pytest.approx(taken)
            assert 0.1 - 1e-6 <= taken - stack.shoulder <= 0.6 + 1e-6
        else:
            assert stack.end_play.typical == pytest.approx(stack.shoulder - taken)
            assert window(joint)[0] - 1e-6 <= stack.end_play.typical <= window(joint)[1] + 1e-6
            assert rows[0].z_from == pytest.approx(stack.end_play.typical)
        assert stack.thread_room == pytest.approx(stack.thread_end - on_thread[-1].z_to)


def test_parts_fit_what_they_sit_on_and_come_from_the_kit():
    """Holes over shoulder or thread, no small washer on the shoulder; no more of a part than there is."""
    parts = course().parts
    for joint, stack in stacks():
        used = Counter(row.part for row in stack.placed if row.part in parts)
        assert all(n <= joint.kit.parts[id] for id, n in used.items()), joint.id
        for row in stack.placed:
            part = parts.get(row.part)
            if row.on == "shoulder" and isinstance(part, (Spacer, Washer)) and row.kind != "bearing":
                assert over_shoulder(part, joint.shaft), (joint.id, row.part)
            if row.on == "thread" and isinstance(part, Washer):
                assert joint.thread.diameter <= part.hole.least < joint.shaft.shoulder_diameter.least
            if isinstance(part, Nut):
                assert row.on == "thread" and part.thread == joint.shaft.thread


def test_only_the_inner_ring_is_touched():
    """What lies against a ball bearing stays clear of its outer ring; no nut lies against a cheek."""
    parts, tried = course().parts, 0
    for joint, stack in stacks():
        rows = outside(stack)
        at = next(n for n, row in enumerate(rows) if row.kind == "body")
        for bearing, row in ((joint.bearings[0], rows[at - 1]), (joint.bearings[-1], rows[at + 1])):
            if isinstance(bearing, BallBearing):
                assert may_touch(parts[row.part], bearing), joint.id
                tried += 1
        assert isinstance(parts[rows[-1].part], Nut)
        if joint.layout == "C":
            cheeks = [n for n, row in enumerate(rows) if row.kind == "cheek"]
            assert cheeks[0] == 0 and rows[cheeks[1]].on == "shoulder" and rows[cheeks[1] + 1].on == "thread"
            assert isinstance(parts[rows[cheeks[1] + 1].part], Washer)
    assert tried > 50


def test_bearings_lie_where_they_were_asked_for():
    """Separation between middles, the load plane the overhang beyond, the plate first on the thread."""
    for joint, stack in stacks():
        z = stack.z_bearings
        assert len(z) == len(joint.bearings)
        if not joint.single:
            assert z[1] - z[0] == pytest.approx(joint.separation)
        assert stack.z_load - z[-1] == pytest.approx(joint.overhang, abs=0.5 + 1e-6)
        middles = [(row.z_from + row.z_to) / 2 for row in stack.placed if row.kind == "bearing"]
        assert middles == pytest.approx(list(z))
        if joint.plate_on_thread:
            plate = next(row for row in outside(stack) if row.on == "thread")
            assert plate.part == joint.on_thread.stock.id and plate.z_from == pytest.approx(stack.z_face)
            if joint.layout == "A":
                assert stack.z_load == pytest.approx((plate.z_from + plate.z_to) / 2)


def small_kit(joint, rng):
    """The joint's kit with few kinds of fillers, few of each."""
    parts = course().parts
    choice = [id for id in sorted(joint.kit.parts) if over_shoulder(parts[id], joint.shaft)]
    kept = sorted({id for id in choice if isinstance(parts[id], Washer)} | set(rng.sample(choice, 6)))
    counts = {id: n for id, n in joint.kit.parts.items() if id not in choice}
    return joint.kit.model_copy(update={"parts": counts | {id: rng.randint(1, 3) for id in kept}})


def tried_joints(number):
    """Worked joints with small kits and no wish for the place of the arm."""
    rng = random.Random(1)
    floating = [
        joint for joint in worked() if joint.layout in "AB" and not joint.clamped and not joint.arm_between
    ]
    for _ in range(number):
        joint = rng.choice(floating)
        overhang = None if joint.layout == "A" else joint.overhang
        yield replace(joint, kit=small_kit(joint, rng), overhang=overhang, after_parts=None)


def test_the_search_equals_trying_every_handful():
    """Refused exactly when no handful of the kit fits; with bushes always the fewest parts there are.

    Beside a ball bearing the search takes the kit's shortest ring; with a longer one fewer parts might do.
    """
    outcomes = Counter()
    for joint in tried_joints(300):
        free = joint.shaft.shoulder_length.typical - body_of(joint).length.typical
        low, high = free - window(joint)[1], free - window(joint)[0]
        fits = [
            number
            for number, length, _ in handfuls(joint, course().parts)
            if low - 1e-6 <= length <= high + 1e-6
        ]
        ball = any(isinstance(bearing, BallBearing) for bearing in joint.bearings)
        try:
            stack = resolve(joint, course().parts)
        except CannotBuild:
            assert not fits, joint.id
            outcomes["refused"] += 1
            continue
        used = sum(1 for row in outside(stack) if row.on == "shoulder" and row.kind != "body")
        assert used >= min(fits) and (ball or used == min(fits)), (joint.id, used, min(fits))
        outcomes["ball" if ball else "bush"] += 1
    assert min(outcomes["refused"], outcomes["ball"], outcomes["bush"]) > 10, outcomes


def test_end_play_of_a_clamped_pair():
    """Sizes drawn at random, the screw pushed to both stops: band, likely range, chance of preload."""
    rng, tried = np.random.default_rng(2), 0
    for joint, stack in stacks():
        if not joint.clamped:
            continue
        draw = lambda band: rng.uniform(band.least, band.most, 50_000)  # noqa: E731
        plays = []
        for bearing in joint.bearings:
            excess = (2 * 0.52 - 1) * bearing.ball_diameter
            plays.append(2 * np.sqrt(excess * draw(bearing.internal_clearance)))
        inner = sum(draw(row.thickness) for row in stack.placed if row.within and row.kind != "bearing")
        between = joint.separation - sum(bearing.width.typical for bearing in joint.bearings) / 2
        outer = draw(Band(between - joint.gap_tolerance, between, between + joint.gap_tolerance))
        # the inner rings move as one: each may be off by half its play, the second by the mismatch more
        farthest = np.minimum(plays[0] / 2, plays[1] / 2 - (inner - outer))
        nearest = np.maximum(-plays[0] / 2, -plays[1] / 2 - (inner - outer))
        left = farthest - nearest
        assert stack.end_play.least - 1e-9 <= left.min() and left.max() <= stack.end_play.most + 1e-9
        error = 4 * np.sqrt(0.05 * 0.95 * (1 / 50_000 + 1 / 4096))
        assert abs(np.mean(left < stack.end_play_likely[0]) - 0.05) < error
        assert abs(np.mean(left > stack.end_play_likely[1]) - 0.05) < error
        assert abs(np.mean(left < 0) - stack.chance_pinched) < 5 * error
        # what counts as typical is a stack like others: one in eight at least has less, and one in eight more
        assert min(np.mean(left < stack.end_play.typical), np.mean(left > stack.end_play.typical)) > 1 / 8
        mismatch, rings = np.abs(inner - outer), stack.clamped.mismatch
        half = 4 * np.sqrt(0.25 * (1 / 50_000 + 1 / 4096))
        assert abs(np.mean(mismatch < rings.typical) - 0.5) < half
        assert rings.band.least - 1e-9 <= mismatch.min() and mismatch.max() <= rings.band.most + 1e-9
        tried += 1
        if tried == 12:
            break
    assert tried == 12


def test_how_far_a_clamped_stack_stands_out():
    """Every part drawn at random: the stack against the shoulder; unmeasured, some end short of it."""
    rng, tried, short = np.random.default_rng(4), 0, 0
    for joint, stack in stacks():
        if not joint.clamped:
            continue
        draw = lambda band: rng.uniform(band.least, band.most, 50_000)  # noqa: E731
        column = [row for row in stack.placed if row.on == "shoulder" and row.kind != "body"]
        proud = sum(draw(row.thickness) for row in column) - draw(joint.shaft.shoulder_length)
        told = stack.clamped.proud
        assert told.band.least - 1e-9 <= proud.min() and proud.max() <= told.band.most + 1e-9
        error = 4 * np.sqrt(0.05 * 0.95 * (1 / 50_000 + 1 / 4096))
        assert abs(np.mean(proud < told.likely[0]) - 0.05) < error
        assert abs(np.mean(proud > told.likely[1]) - 0.05) < error
        assert told.band.typical > 0 and 0.95 <= stack.clamped.chance_proud <= 1
        short += told.band.least < 0
        tried += 1
        if tried == 30:
            break
    assert tried == 30 and short > 5


def test_share_of_measured_stacks_that_some_choice_fits():
    """Counted over every choice of fillers, for ranges of length drawn at random."""
    rng = np.random.default_rng(3)
    fillers = (
        fill.filler("a", 1.6, 2),
        fill.filler("b", 0.5, 2),
        fill.filler("c", 0.1, 3),
        fill.filler("d", 5.0, 1),
    )
    sums = sorted(
        {
            round(1.6 * a + 0.5 * b + 0.1 * c + 5 * d, 6)
            for a in range(3)
            for b in range(3)
            for c in range(4)
            for d in range(2)
        }
    )
    low = rng.uniform(-0.5, 9.0, 400)
    for width in (0.05, 0.2, 0.6):
        met = [any(a - 1e-9 <= s <= b + 1e-9 for s in sums) for a, b in zip(low, low + width)]
        assert _share_met(fillers, low, low + width) == pytest.approx(np.mean(met))
