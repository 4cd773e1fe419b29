"""Wobble: the station form and every closed form against a linear program built from bores and axes."""

from functools import cache

import numpy as np
import pytest
from play_reference import Bore, gaps, greatest, resting
from proofs import proves

from guidegen.theory import freeplay

KINDS = ("bush-bush", "bush-ball", "ball-bush", "ball-ball", "bush", "ball")
EACH = 500  # random joints of each kind
NEAR = {"rel": 1e-6, "abs": 1e-9}  # of mm and rad


def bore(kind, middle, rng, straight):
    """A random bush or ball bearing; `straight`: its axis in line with the joint's."""
    crooked = (0.0, 0.0) if straight else (rng.normal(0, 0.06), rng.normal(0, 0.004))
    if kind == "bush":
        return Bore(middle, rng.uniform(3, 16), rng.uniform(0.005, 0.25), *crooked)
    return Bore(middle, 0.0, rng.uniform(0.005, 0.25), *crooked, free=rng.uniform(0.001, 0.02))


def joint(kinds, rng, straight=False):
    """One or two bores in order, the second beyond the first, nearly touching at times."""
    first = bore(kinds[0], rng.uniform(-20, 20), rng, straight)
    if len(kinds) == 1:
        return (first,)
    beyond = first.middle + first.length / 2 + rng.choice([0.01, 1, 10, 40]) * rng.uniform(0.5, 1.5)
    second = bore(kinds[1], beyond, rng, straight)
    return first, Bore(
        beyond + second.length / 2, second.length, second.room, second.off, second.lean, second.free
    )


def joints(kind, straight=False):
    rng = np.random.default_rng([KINDS.index(kind), straight])
    return [joint(kind.split("-"), rng, straight) for _ in range(EACH)]


def stations(joints):
    """The same joints as the station form takes them: planes, bands of the axis, bounds of tilt."""
    z = np.array([[mouth for bore in one for mouth in bore.mouths] for one in joints])
    axis = np.array([[bore.axis(mouth) for bore in one for mouth in bore.mouths] for one in joints])
    half = np.array([[bore.room / 2 for bore in one for _ in bore.mouths] for one in joints])
    lowest = np.array([max(bore.lean - bore.free for bore in one) for one in joints])
    highest = np.array([min(bore.lean + bore.free for bore in one) for one in joints])
    return z, axis - half, axis + half, lowest, highest


@cache
def crooked():
    """Random joints of each kind with crooked bores, and the program's answers for those that do not bind."""
    found = {}
    for kind in KINDS:
        mixed = joints(kind)
        needed = gaps(mixed)
        clear = [one for one, gap in zip(mixed, needed) if gap < 1e-9]
        planes = {where: plane(where, clear) for where in ("before", "first", "between", "last", "beyond")}
        found[kind] = (
            mixed,
            needed,
            clear,
            (-greatest(clear, 0, -1), greatest(clear, 0, 1)),
            {where: (x, greatest(clear, 1, x), -greatest(clear, -1, -x)) for where, x in planes.items()},
        )
    return found


def plane(where, joints):
    """A plane of each joint: before its first mouth, on it, between its ends, on its last, or beyond."""
    ends = np.array([(one[0].mouths[0], one[-1].mouths[-1]) for one in joints])
    share = {"before": -0.8, "first": 0, "between": 0.37, "last": 1, "beyond": 1.7}[where]
    span = np.maximum(ends[:, 1] - ends[:, 0], 5)
    return ends[:, 0] + share * span if where != "last" else ends[:, 1]


def test_enough_joints_are_tried_and_some_bind():
    """At least two thousand, of every kind; a good part of the pairs bind, a good part do not."""
    assert sum(len(mixed) for mixed, *_ in crooked().values()) >= 2000
    for kind, (mixed, _, clear, *_) in crooked().items():
        assert len(clear) > 50
        if "-" in kind:
            assert len(mixed) - len(clear) > 20


@proves("tilt_range", "_slope")
def test_tilt_range_of_crooked_joints():
    """Least and greatest tilt; where no straight shaft passes, the least is above the greatest."""
    for mixed, needed, clear, (least, most), _ in crooked().values():
        low, high = freeplay.tilt_range(*stations(mixed))
        assert np.array_equal(low > high, needed > 1e-9)
        low, high = freeplay.tilt_range(*stations(clear))
        assert low == pytest.approx(least, **NEAR)
        assert high == pytest.approx(most, **NEAR)


@proves("highest_at")
def test_reach_of_crooked_joints_at_any_plane():
    """Highest and lowest position before, on, between and beyond the bearings."""
    for _, _, clear, _, reach in crooked().values():
        z, W, U, lowest, highest = stations(clear)
        for x, top, bottom in reach.values():
            assert freeplay.highest_at(x, z, W, U, lowest, highest) == pytest.approx(top, **NEAR)
            assert -freeplay.highest_at(x, z, -U, -W, -highest, -lowest) == pytest.approx(bottom, **NEAR)


@cache
def in_line():
    """Random joints with their bores in line, and the greatest tilt by the program."""
    return {
        kind: (straight, greatest(straight, 0, 1))
        for kind in KINDS
        for straight in [joints(kind, straight=True)]
    }


def sizes(straight):
    """Rooms, lengths, free tilts (a column for each bearing) and distances between middles."""
    columns = [
        np.array([[getattr(bore, name) for bore in one] for one in straight]).T
        for name in ("room", "length", "free")
    ]
    return *columns, np.array([one[-1].middle - one[0].middle for one in straight])


@proves("bush_tilt", "outer_span", "bush_pair_tilt")
def test_closed_forms_of_bushes():
    """One bush, and two in line."""
    straight, most = in_line()["bush"]
    room, length, _, _ = sizes(straight)
    assert freeplay.bush_tilt(room[0], length[0]) == pytest.approx(most, **NEAR)
    straight, most = in_line()["bush-bush"]
    room, length, _, apart = sizes(straight)
    span = freeplay.outer_span(apart, *length)
    assert freeplay.bush_pair_tilt(*room, span, *length) == pytest.approx(most, **NEAR)


@proves("ball_pair_tilt", "mixed_pair_tilt")
def test_closed_forms_with_ball_bearings():
    """Two ball bearings in line; one and a bush, either first."""
    straight, most = in_line()["ball-ball"]
    room, _, free, apart = sizes(straight)
    assert freeplay.ball_pair_tilt(*room, apart, *free) == pytest.approx(most, **NEAR)
    for kind, bush in (("bush-ball", 0), ("ball-bush", 1)):
        straight, most = in_line()[kind]
        room, length, free, apart = sizes(straight)
        span = freeplay.outer_span(apart, *length)
        tilt = freeplay.mixed_pair_tilt(*room, span, room[bush], length[bush], free[1 - bush])
        assert tilt == pytest.approx(most, **NEAR)


@proves("half_swing", "swing_centre")
def test_swing_and_its_centre():
    """Half the way from the least tilt to the greatest, and its middle; no swing where the shaft binds."""
    for _, _, _, (least, most), _ in crooked().values():
        for low, high in zip(least[:20], most[:20]):
            half, centre = freeplay.half_swing(high, low), freeplay.swing_centre(high, low)
            assert (centre - half, centre + half) == pytest.approx((low, high), **NEAR)
            if high > low + 1e-6:
                assert freeplay.half_swing(low, high) == 0


@cache
def limits_of_offset():
    """Offset of the second bearing at which straight shafts just stop passing, by halving."""
    found = {}
    for kind in ("bush-bush", "bush-ball", "ball-bush", "ball-ball"):
        straight = in_line()[kind][0][:40]
        low, high = np.zeros(40), np.full(40, 5.0)
        for _ in range(22):
            middle = (low + high) / 2
            moved = [
                (one[0], Bore(one[1].middle, one[1].length, one[1].room, off, 0.0, one[1].free))
                for one, off in zip(straight, middle)
            ]
            free = gaps(moved) < 1e-9
            low, high = np.where(free, middle, low), np.where(free, high, middle)
        found[kind] = straight, low
    return found


@proves("inner_gap", "offset_limit")
def test_offset_at_which_a_joint_binds():
    """The offset of two bores at which no straight shaft passes any more."""
    for straight, most in limits_of_offset().values():
        room, length, free, apart = sizes(straight)
        gap = freeplay.inner_gap(apart, *length)
        with np.errstate(divide="ignore"):
            slopes = np.minimum(room / length, free)
        assert freeplay.offset_limit(*room, gap, *slopes) == pytest.approx(most, abs=3e-6)


@cache
def at_rest():
    """Slopes of shafts that a load has pushed down: beyond the bearings; between bearings of one length."""
    beyond = in_line()["bush-bush"][0][:60] + in_line()["ball-ball"][0][:60]
    rng = np.random.default_rng(9)
    between = [
        (Bore(0.0, L, c_1), Bore(S, L, c_2))
        for L, S, c_1, c_2 in rng.uniform([3, 20, 0.01, 0.01], [12, 60, 0.2, 0.2], (60, 4))
    ]
    return (
        beyond,
        np.abs(resting(beyond, [one[-1].mouths[-1] + 30 for one in beyond])),
        between,
        np.abs(resting(between, [one[1].middle / 2 for one in between])),
    )


@proves("settled_tilt_overhung", "settled_tilt_straddle")
def test_tilt_of_a_shaft_pressed_to_rest():
    """Where the shaft lies once the load has pressed it against its bearings."""
    beyond, overhung, between, straddled = at_rest()
    room, length, free, apart = sizes(beyond)
    span = apart + length.mean(axis=0)
    with np.errstate(divide="ignore"):
        alone = np.minimum(room / length, free).min(
            axis=0
        )  # one bearing may stop the shaft before the pair does
    tilt = freeplay.settled_tilt_overhung(*room, span, alone)
    assert np.sum(tilt < alone) > 40
    assert tilt == pytest.approx(overhung, **NEAR)
    room, length, _, apart = sizes(between)
    alone = (room / length).min(axis=0)
    tilt = freeplay.settled_tilt_straddle(*room, apart, alone)
    assert np.sum(tilt < alone) > 40
    assert tilt == pytest.approx(straddled, **NEAR)


@proves("arm_travel", "clearance_from_travel")
def test_travel_at_the_arm():
    """A rigid arm tilted to both stops, and the clearance of two equal bushes worked back from it."""
    for c, L, S, r in ((0.05, 8.0, 24.0, 120.0), (0.2, 12.0, 60.0, 30.0), (0.02, 6.0, 18.0, 250.0)):
        one = (Bore(0.0, L, c), Bore(S, L, c))
        tilt = greatest([one], 0, 1)[0]
        heights = [r * np.sin(side * tilt) for side in (1, -1)]
        travel = freeplay.arm_travel(r, tilt)
        assert travel == pytest.approx(heights[0] - heights[1], rel=1e-4)  # sine for angle
        assert freeplay.clearance_from_travel(travel, S + L, r) == pytest.approx(c, rel=1e-6)


@proves("station_tilt", "station_reach", "station_between", "tilt_reach", "total_travel")
def test_lines_through_stations():
    """Worked steps of a search: straight lines through two points, or through one at a given slope."""
    rng = np.random.default_rng(10)
    for low, high, z_j, run, x, slope in rng.uniform(
        [-0.2, -0.1, -20, 1, -90, -0.02], [0.1, 0.2, 20, 40, 90, 0.02], (20, 6)
    ):
        z_k = z_j + run
        line = np.polynomial.Polynomial.fit([z_j, z_k], [low, high], 1)
        assert freeplay.station_tilt(high, low, z_k, z_j) == pytest.approx(line.deriv()(0.0), rel=1e-9)
        assert freeplay.station_reach(high, low, x, z_k, z_j) == pytest.approx(line(x), abs=1e-9)
        assert freeplay.station_between(low, high, x, z_j, z_k) == pytest.approx(line(x), abs=1e-9)
        through = np.polynomial.Polynomial([high - slope * z_k, slope])
        assert freeplay.tilt_reach(high, slope, x, z_k) == pytest.approx(through(x), abs=1e-9)
        assert freeplay.total_travel(high, low) == pytest.approx(max(0.0, high - low), abs=1e-12)


@proves("face_tilt")
def test_tilt_at_which_end_faces_touch():
    """A body as wide as its faces, tilted between two square faces until opposite corners touch."""
    for j, D_1, D_2, length in ((0.15, 16.0, 13.0, 30.0), (0.05, 25.0, 25.0, 18.0), (0.4, 12.0, 30.0, 40.0)):
        tilt = freeplay.face_tilt(j, D_1, D_2)
        corners = np.array([(0.0, D_1 / 2), (0.0, -D_1 / 2), (length, D_2 / 2), (length, -D_2 / 2)])
        along = corners[:, 0] * np.cos(tilt) - corners[:, 1] * np.sin(tilt)
        assert along.max() - along.min() == pytest.approx(length + j, abs=0.02 * j)  # angle for sine


@proves("arm_tilt")
def test_an_arm_between_its_neighbours():
    """Tilted step by step until the shoulder bars its hole's mouths, or two opposite rims touch its neighbours."""
    for room, thick, play, across in ((0.15, 1.6, 0.25, 12.2), (0.02, 6.0, 0.4, 20.0), (0.3, 3.0, 0.05, 16.0)):
        tilts = np.linspace(0, 0.2, 400_001)
        passes = tilts * thick <= room  # the axis of the shoulder, over the length of the hole
        clear = np.tan(tilts) * across <= play + 1e-12  # the two rims, one forward, one back
        stops = tilts[passes & clear].max()
        faces = freeplay.face_tilt(play, across, across)
        assert freeplay.arm_tilt(room, thick, faces) == pytest.approx(stops, abs=2e-5)


@proves("tilt_range", "highest_at", "_slope")
def test_two_bushes_that_touch():
    """Bushes face to face are one long bush; out of line by more than both leave, they bind."""
    one, both = (Bore(6.0, 12.0, 0.03),), (Bore(3.0, 6.0, 0.03), Bore(9.0, 6.0, 0.03))
    with np.errstate(all="raise"):
        for x in (-10.0, 0.0, 4.0, 6.0, 20.0):
            alone, pair = (freeplay.highest_at(np.array([x]), *stations([joint])) for joint in (one, both))
            assert pair == pytest.approx(alone)
        assert freeplay.tilt_range(*stations([both])) == pytest.approx(
            np.array(freeplay.tilt_range(*stations([one])))
        )
        for off, binds in ((0.029, False), (0.031, True), (-0.031, True)):
            low, high = freeplay.tilt_range(*stations([(both[0], Bore(9.0, 6.0, 0.03, off))]))
            assert (low > high) == binds


@proves("tilt_range", "_slope")
def test_two_leaning_bushes_a_hair_apart():
    """Two bores that lean alike, one a step lower: the two mouths in the middle stop the shaft."""
    lean, gap, step = 0.02, 0.02, 0.02964
    one = (
        Bore(3.0, 6.0, 0.03, 0.0, lean),
        Bore(9.0 + gap, 6.0, 0.03, (6.0 + gap) * lean - step - gap * lean, lean),
    )
    low, high = freeplay.tilt_range(*stations([one]))
    assert (low, high) == (
        pytest.approx(-greatest([one], 0, -1), **NEAR),
        pytest.approx(greatest([one], 0, 1), **NEAR),
    )
    assert high == pytest.approx((0.03 - step) / gap)


@proves("seen_tilt")
def test_what_one_sees_is_one_turn_after_the_other():
    """A direction turned by the screw in its cheeks, then by the hub on the screw, as rotations in the plane."""
    for first, second in ((0.004, 0.001), (0.0, 0.02), (0.013, 0.013)):
        turned = np.exp(1j * first) * np.exp(1j * second)
        assert freeplay.seen_tilt(first, second) == pytest.approx(np.angle(turned), rel=1e-12)


@proves("ring_lean")
def test_a_loose_ring_follows_the_shaft_only_once_it_touches_both_ends():
    """Rings as bushes of their width that slide on the shaft, from lines in bores; tight ones give nothing."""
    for bore, shaft, width, forgiven in ((8.0, 7.95, 7.0, 0.003), (9.525, 9.45, 5.5, 0.001)):
        alone = greatest([(Bore(0.0, width, bore - shaft),)], 0, 1)[0]
        assert freeplay.ring_lean(forgiven, bore, shaft, width) == pytest.approx(forgiven + alone, rel=1e-6)
        assert freeplay.ring_lean(forgiven, shaft, bore, width) == pytest.approx(forgiven, rel=1e-12)
