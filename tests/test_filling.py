"""Washers to pick and separations to fill: against every sum counted out, and against random stacks."""

from itertools import combinations, combinations_with_replacement

import numpy as np
import pytest
from joint_reference import course, some

from guidegen.errors import CannotBuild
from guidegen.joint import evaluate, make_joint
from guidegen.joint.box import thickness
from guidegen.joint.fill import Filler
from guidegen.joint.filling import Filled, Span, between_rings, choices, joined, separations

STEP = 1000  # of a millimetre
KIT, SCREW = "mm8", "ss-8x50"


def counted(fillers, longest):
    """Every sum of parts up to `longest` mm, in thousandths: whether it can be made, part by part."""
    reached = np.zeros(round(longest * STEP) + 1, bool)
    reached[0] = True
    for length, count in fillers:
        for _ in range(count):
            shifted = np.zeros_like(reached)
            size = round(length * STEP)
            if size < len(reached):
                shifted[size:] = reached[: len(reached) - size]
            reached = reached | shifted
    return reached


def on_the_shoulder(kit, without=()):
    """(typical thickness, count) of everything in a kit that slides on its shoulder, from names alone."""
    left = dict(course().kits[kit].parts)
    for part in without:
        left[part] -= 1
    kinds = ("sp-", "ny-", "rg-", "sh-", "wl-")
    return [
        (thickness(course().parts[id]).typical, n) for id, n in left.items() if id.startswith(kinds) and n > 0
    ]


@pytest.mark.parametrize(
    ("bearing", "beside"), [("sb-8x12x8", ["wl-8"]), ("bb-608", ["rg-8x1", "wl-8"])], ids=["bush", "ball"]
)
def test_separations_are_those_that_some_sum_fills(bearing, beside):
    """Two thousand separations, each tried against all sums of what is left in the box."""
    parts = course().parts
    screw, width = parts[SCREW], thickness(parts[bearing]).typical
    spans = separations(course().kits[KIT], screw, [parts[bearing]] * 2, course())
    sums = np.flatnonzero(counted(on_the_shoulder(KIT, 2 * beside), 60)) / STEP
    fixed = 2 * sum(thickness(parts[id]).typical for id in beside) + width
    for apart in np.random.default_rng(1).uniform(width, screw.shoulder_length.typical, 2000):
        play = screw.shoulder_length.typical - fixed - apart - sums
        filled = bool(np.any((play >= 0.05) & (play <= 0.25)))
        assert filled == any(span.least <= apart <= span.most for span in spans), apart
    assert spans[0].least == pytest.approx(width)


def test_a_kit_with_gaps():
    """Only two spacers of 5 mm and a washer in the box: three ranges, each 0.2 mm wide."""
    parts, kit = course().parts, course().kits[KIT]
    poor = type(kit)(**{**vars(kit), "parts": {"sb-8x12x8": 2, "wl-8": 2, "sp-8x5": 2}})
    spans = separations(poor, parts[SCREW], [parts["sb-8x12x8"]] * 2, course())
    free = parts[SCREW].shoulder_length.typical - 2 * 1.6 - 8
    assert [(round(a, 6), round(b, 6)) for a, b in spans] == [
        (round(free - n * 5 - 0.25, 6), round(free - n * 5 - 0.05, 6)) for n in (2, 1, 0)
    ]
    with pytest.raises(CannotBuild, match="too few of sb-8x12x8"):
        separations(
            type(kit)(**{**vars(kit), "parts": {"wl-8": 2}}), parts[SCREW], [parts["sb-8x12x8"]] * 2, course()
        )


def test_ranges_that_touch_are_one():
    assert joined([Span(0, 1), Span(1, 2), Span(3, 4), Span(3.5, 3.8)]) == [Span(0, 2), Span(3, 4)]


def test_every_grid_joint_lies_within():
    """Separations at which the grid's own stacks came out; fillers there lie outside the bearings too."""
    checked = 0
    for result in some(60):
        joint, stack = result.joint, result.stack
        body = next(row for row in stack.placed if row.kind == "body").thickness.typical
        widths = sum(thickness(bearing).typical for bearing in joint.bearings) / 2
        plain = not joint.single and joint.layout != "C" and not joint.arm_between and stack.clamped is None
        if plain and abs(body - joint.separation - widths) < 1e-6:
            spans = separations(joint.kit, joint.shaft, joint.bearings, course(), stack.window)
            assert any(span.least - 1e-6 <= joint.separation <= span.most + 1e-6 for span in spans), result.id
            checked += 1
    assert checked > 10


def test_ring_spacers_one_or_two():
    """All pairs of spacers of a small enough outside, laid end to end."""
    parts, kit = course().parts, course().kits[KIT]
    bearing, screw = parts["bb-608"], parts[SCREW]
    ids = [id for id in kit.parts if id.startswith(("sp-", "ny-", "rg-"))]
    tried = {0.0} | {thickness(parts[id]).typical for id in ids}
    tried |= {sum(thickness(parts[id]).typical for id in two) for two in combinations(ids, 2)}
    tried |= {2 * thickness(parts[id]).typical for id in ids if kit.parts[id] > 1}
    width = thickness(bearing).typical
    expected = sorted({round(width + s, 4) for s in tried if s <= screw.shoulder_length.typical - 2 * width})
    found = between_rings(kit, bearing, screw, course(), 2)
    assert [round(apart, 4) for apart in found] == expected
    for apart, chosen in found.items():
        assert apart == pytest.approx(width + sum(thickness(parts[id]).typical for id in chosen))


def fits(fillers, room, window, most):
    """Whether so many parts at most leave a play within the window: every set of them tried."""
    sizes = {one.part: one.grains / 10_000 for one in fillers}
    counts = {one.part: one.count for one in fillers}
    for number in range(most + 1):
        for chosen in combinations_with_replacement(sizes, number):
            if all(chosen.count(part) <= counts[part] for part in set(chosen)):
                if window[0] - 1e-9 <= room - sum(sizes[part] for part in chosen) <= window[1] + 1e-9:
                    return True
    return False


def test_choices_are_right_and_the_fewest():
    """A small box:
    each row leaves a play that is wanted, all along; fewer parts would not do at its start.
    """
    fillers = (
        Filler("shim", 1_000, 2),
        Filler("thin", 3_000, 2),
        Filler("washer", 16_000, 3),
        Filler("ring", 20_000, 1),
    )
    sizes = {one.part: one.grains / 10_000 for one in fillers}
    window = (0.07, 0.23)
    rows = choices(fillers, 0.0, 4.0, window)
    assert rows[0].low == window[0] and rows[-1].high == 4.0
    assert all(before.high == after.low for before, after in zip(rows, rows[1:]))
    none = 0
    for row in rows:
        for room in np.linspace(row.low + 1e-6, row.high - 1e-6, 7):
            if row.parts is None:
                none += 1
                assert not fits(fillers, room, window, 8), row
            else:
                assert (
                    window[0] - 1e-5 <= room - sum(sizes[part] for part in row.parts) <= window[1] + 1e-5
                ), row
        if row.parts:
            assert not fits(fillers, row.low + 1e-6, window, len(row.parts) - 1), row
            assert row.left == pytest.approx(
                [end - sum(sizes[part] for part in row.parts) for end in (row.low, row.high)]
            )
    assert none  # the box has gaps, and the rows say so


def test_a_stack_taken_apart_is_the_stack():
    """Room less fillers is the end play again; random rooms that the rows serve are as many as
    the joint says.
    """
    named = [evaluate(make_joint(course(), raw, id), course()) for id, raw in course().joints.items()]
    checked = 0
    for result in [*named, *some(120)]:
        stack = result.stack
        if stack is None or stack.clamped is not None:
            continue
        filled = Filled(result, course())
        chosen = [thickness(course().parts[id]) for id in filled.chosen]
        assert filled.room.typical - sum(t.typical for t in chosen) == pytest.approx(stack.end_play.typical)
        assert filled.room.least - sum(t.most for t in chosen) == pytest.approx(stack.end_play.least)
        assert filled.room.most - sum(t.least for t in chosen) == pytest.approx(stack.end_play.most)
        rows = filled.choices()
        if all(row.parts is not None for row in rows) and rows and rows[0].low == filled.room.least:
            assert stack.chance_fits == pytest.approx(1.0), result.id
            checked += 1
    assert checked > 5
