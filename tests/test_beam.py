"""The bent shaft: the beam function and every closed form against beams that sympy solves exactly."""

import math
import random
from fractions import Fraction
from functools import cache

import numpy as np
import pytest
from beam_reference import solved
from proofs import proves
from scipy.integrate import quad
from scipy.optimize import brentq

from guidegen.theory import beam

NEAR = 1e-7  # relative; the reference takes moments a thousandth of a micrometre beside a plane


def fraction(rng, least, most):
    return Fraction(rng.randint(20 * least, 20 * most), 20)


def whole(rng, *bounds):
    return tuple(fraction(rng, least, most) for least, most in bounds)


def floats(values):
    return [float(value) for value in values]


def near(expected):
    return pytest.approx(float(expected), rel=NEAR, abs=1e-12)


def both_senses(held, force, couple, planes):
    """The reference for the couple turning one way and the other."""
    at, size = force
    return [solved(held, (force,), ((at, sense * couple),), planes) for sense in (1, -1)]


@cache
def overhung():
    """(F, a, S, M_a) and both senses solved at the bearings and the load; loads at bearing 2 too."""
    rng = random.Random(1)
    cases = [whole(rng, (1, 60), (0, 40), (10, 60), (0, 900)) for _ in range(6)]
    cases += [
        (Fraction(30), Fraction(0), Fraction(24), Fraction(400)),
        (Fraction(30), Fraction(1, 1000), Fraction(24), Fraction(400)),
    ]
    return [
        ((F, a, S, M_a), both_senses((Fraction(0), S), (S + a, F), M_a, (Fraction(0), S, S + a)))
        for F, a, S, M_a in cases
    ]


@cache
def straddle():
    """(F, p, q, S, M_a) and the two senses solved at both bearings and the load; loads at a bearing too."""
    rng = random.Random(2)
    cases = [whole(rng, (1, 60), (1, 30), (1, 30), (0, 900)) for _ in range(6)]
    cases += [
        (Fraction(30), Fraction(1, 1000), Fraction(24), Fraction(400)),
        (Fraction(30), Fraction(24), Fraction(0), Fraction(400)),
        (Fraction(30), Fraction(12), Fraction(12), Fraction(400)),
    ]
    return [
        ((F, p, q, p + q, M_a), both_senses((Fraction(0), p + q), (p, F), M_a, (Fraction(0), p + q, p)))
        for F, p, q, M_a in cases
    ]


@cache
def built_in():
    """(N_1, N_2, x_1, x_2) of two forces on a cantilever, solved at both."""
    rng = random.Random(3)
    cases = []
    for _ in range(8):
        N_1, N_2, x_2, more = whole(rng, (-60, 60), (-60, 60), (1, 30), (0, 30))
        cases.append((N_1, N_2, x_2 + more, x_2))
    return [
        (case, solved((Fraction(0),), ((case[2], case[0]), (case[3], case[1])), (), case[2:]))
        for case in cases
    ]


@cache
def fork():
    """(N_1, N_2, p_1, p_2, H) of two forces between cheeks, solved at both."""
    rng = random.Random(4)
    cases = []
    for _ in range(8):
        N_1, N_2, p_1, more, rest = whole(rng, (-60, 60), (-60, 60), (1, 20), (0, 20), (1, 20))
        cases.append((N_1, N_2, p_1, p_1 + more, p_1 + more + rest))
    return [
        (case, solved((Fraction(0), case[4]), ((case[2], case[0]), (case[3], case[1])), (), case[2:4]))
        for case in cases
    ]


@cache
def single():
    """(F, M, x) on a cantilever, solved at x; (F, M, p, q, H) between cheeks, at p; M of both signs."""
    rng = random.Random(5)
    alone, between = [], []
    for _ in range(8):
        F, M, x, q = whole(rng, (-60, 60), (-900, 900), (1, 40), (1, 40))
        alone.append(((F, M, x), solved((Fraction(0),), ((x, F),), ((x, M),), (x,))))
        between.append(((F, M, x, q, x + q), solved((Fraction(0), x + q), ((x, F),), ((x, M),), (x,))))
    return alone, between


def greatest(senses, place, at):
    """The larger size, over both senses, of deflection (0) or slope (1) at one of the planes."""
    return max(abs(sense[place][at]) for sense in senses)


@proves("overhung_moment", "overhung_deflection", "overhung_slope_1", "overhung_slope_2")
def test_load_beyond_the_bearings():
    """Layout A overhung, the couple turning the worse way; load at, near and far from bearing 2."""
    for (F, a, S, M_a), senses in overhung():
        E, I, k = 2.0, 0.5, 1.5
        shaft = [float(n) for n in (F, a, S, M_a)]
        assert beam.overhung_moment(k, shaft[0], shaft[1], shaft[3]) == near(
            1.5 * float(max(s[2] for s in senses))
        )
        assert beam.overhung_deflection(*shaft, E, I) == near(greatest(senses, 0, 2))
        assert beam.overhung_slope_1(*shaft, E, I) == near(greatest(senses, 1, 0))
        assert beam.overhung_slope_2(*shaft, E, I) == near(greatest(senses, 1, 1))
        assert beam.overhung_slope_2(*shaft, 3 * E, 5 * I) == near(greatest(senses, 1, 1) / 15)
        assert beam.overhung_slope_1(*shaft, 3 * E, 5 * I) == near(greatest(senses, 1, 0) / 15)
        assert beam.overhung_deflection(*shaft, 3 * E, 5 * I) == near(greatest(senses, 0, 2) / 15)


@proves("straddle_moment", "straddle_deflection")
def test_load_between_the_bearings():
    """Layout A straddle, the couple turning the worse way; load at, near and midway between the bearings."""
    for (F, p, q, S, M_a), senses in straddle():
        F, p, q, S, M_a = floats((F, p, q, S, M_a))
        assert beam.straddle_moment(1.5, F, p, q, S, M_a) == near(1.5 * float(max(s[2] for s in senses)))
        assert beam.straddle_deflection(F, p, q, S, M_a, 2.0, 3.0) == near(greatest(senses, 0, 2) / 6)


@proves("built_in_moment", "built_in_deflection_1", "built_in_deflection_2")
def test_screw_built_in_at_its_thread():
    """Layout B: two bearing forces of any sign on a cantilever."""
    for (N_1, N_2, x_1, x_2), (deflections, _, moment) in built_in():
        shaft = floats((N_1, N_2, x_1, x_2))
        assert beam.built_in_moment(1.5, *shaft) == near(1.5 * float(moment))
        assert beam.built_in_deflection_1(*shaft, 2.0, 3.0) == near(deflections[0] / 6)
        assert beam.built_in_deflection_2(*shaft, 2.0, 3.0) == near(deflections[1] / 6)


@proves("fork_moment", "fork_deflection_1", "fork_deflection_2")
def test_screw_in_a_fork():
    """Layout C: two bearing forces of any sign between two supports."""
    for (N_1, N_2, p_1, p_2, H), (deflections, _, moment) in fork():
        shaft = floats((N_1, N_2, p_1, p_2, H))
        assert beam.fork_moment(1.5, *shaft) == near(1.5 * float(moment))
        assert beam.fork_deflection_1(*shaft, 2.0, 3.0) == near(deflections[0] / 6)
        assert beam.fork_deflection_2(*shaft, 2.0, 3.0) == near(deflections[1] / 6)


@proves("built_in_single_moment", "built_in_single_deflection", "built_in_single_slope")
def test_one_bearing_on_a_screw_built_in_at_its_thread():
    """Layout B with one bearing: a force and a couple of either sign on a cantilever."""
    for (F, M, x), (deflections, slopes, moment) in single()[0]:
        F, M, x = floats((F, M, x))
        assert beam.built_in_single_moment(1.5, F, M, x) == near(1.5 * float(moment))
        assert beam.built_in_single_deflection(F, M, x, 2.0, 3.0) == near(deflections[0] / 6)
        assert beam.built_in_single_slope(F, M, x, 2.0, 3.0) == near(slopes[0] / 6)


@proves("fork_single_moment", "fork_single_deflection", "fork_single_slope")
def test_one_bearing_on_a_screw_in_a_fork():
    """Layout C with one bearing: a force and a couple of either sign between two supports."""
    for (F, M, p, q, H), (deflections, slopes, moment) in single()[1]:
        F, M, p, q, H = floats((F, M, p, q, H))
        assert beam.fork_single_moment(1.5, F, M, p, q, H) == near(1.5 * float(moment))
        assert beam.fork_single_deflection(F, M, p, q, H, 2.0, 3.0) == near(deflections[0] / 6)
        assert beam.fork_single_slope(F, M, p, q, H, 2.0, 3.0) == near(slopes[0] / 6)


@proves("single_deflection")
def test_shaft_in_one_bearing():
    """A shaft guided by one bearing is a cantilever from its middle, load and couple bending the same way."""
    for (F, M, x), _ in single()[0]:
        worst = solved((Fraction(0),), ((x, abs(F)),), ((x, abs(M)),), (x,))
        F, M, x = floats((abs(F), abs(M), x))
        assert beam.single_deflection(F, x, M, 2.0, 3.0) == near(worst[0][0] / 6)


@proves("hub_deflection", "single_hub_deflection")
def test_a_rigid_hub_stays_straight():
    """The load plane of a hub lies on the straight line through its bearings, or along its only one."""
    rng = np.random.default_rng(6)
    for y_1, y_2, a, S in rng.uniform([-1, -1, -30, 5], [1, 1, 30, 50], (10, 4)):
        line = np.polynomial.Polynomial.fit([0, S], [y_1, y_2], 1)
        assert beam.hub_deflection(y_1, y_2, a, S) == pytest.approx(line(S + a), abs=1e-12)
        slope = (y_2 - y_1) / S
        assert beam.single_hub_deflection(y_2, slope, a) == pytest.approx(line(S + a), abs=1e-12)


@proves("second_moment")
def test_second_moment_of_a_round_section():
    """The integral of y² over the disc."""
    for d in (3.0, 8.0, 9.525):
        whole = quad(lambda y: 2 * y**2 * math.sqrt((d / 2) ** 2 - y**2), -d / 2, d / 2)[0]
        assert beam.second_moment(d) == pytest.approx(whole, rel=1e-6)


@proves("bending_stress")
def test_bending_stress_carries_the_moment():
    """Stress that grows from the middle to its greatest value at the surface adds to the moment."""
    for d, M in ((8.0, 900.0), (9.525, -450.0)):
        surface = beam.bending_stress(M, d)
        carried = quad(lambda y: surface * 2 * y / d * y * 2 * math.sqrt((d / 2) ** 2 - y**2), -d / 2, d / 2)[
            0
        ]
        assert carried == pytest.approx(M, rel=1e-6)


@proves("yield_factor")
def test_yield_factor_is_the_growth_of_load_that_yields():
    """So many times the moment brings the stress to the yield point."""
    for d, M, S_y in ((8.0, 900.0, 640.0), (9.525, 4500.0, 205.0)):
        stress = beam.bending_stress(M, d)
        grown = brentq(lambda n: beam.bending_stress(n * M, d) - S_y, 1e-6, 1e6)
        assert beam.yield_factor(S_y, stress) == pytest.approx(grown, rel=1e-9)


@cache
def any_beams():
    """Beams of layouts A, B and C with several loads of any sign, solved at five planes."""
    rng, found = random.Random(7), []
    for n in range(12):
        S = fraction(rng, 10, 60)
        start = fraction(rng, -10, 10)
        held = (start, start + S) if n % 3 else (start,)
        forces = tuple((fraction(rng, -30, 90), fraction(rng, -60, 60)) for _ in range(1 + n % 3))
        couples = tuple((forces[0][0], fraction(rng, -900, 900)) for _ in range(n % 2))
        planes = (Fraction(-20), Fraction(0), S / 3, S, Fraction(70))
        found.append((held, forces, couples, planes, solved(held, forces, couples, planes)))
    on_support = (Fraction(0), Fraction(24))
    loads = ((Fraction(24), Fraction(30)),)
    found.append((on_support, loads, (), on_support, solved(on_support, loads, (), on_support)))
    return found


@proves("beam", "_in_balance", "_greatest_moment")
def test_the_beam_function():
    """Any loads on two supports or a built-in end: deflection and slope anywhere, greatest moment."""
    for held, forces, couples, planes, (deflections, slopes, moment) in any_beams():
        pairs = [[(float(at), float(size)) for at, size in loads] for loads in (forces, couples)]
        y, slope, most = beam.beam(floats(planes), 4.0, floats(held), *pairs)
        assert y == pytest.approx([float(v) / 4 for v in deflections], rel=NEAR, abs=1e-6)
        assert slope == pytest.approx([float(v) / 4 for v in slopes], rel=NEAR, abs=1e-7)
        assert most == pytest.approx(float(moment), rel=NEAR, abs=1e-5)


def test_closed_forms_equal_the_beam_function():
    """What a page prints for layout A is what the beam function gives, on a hundred random shafts."""
    rng = np.random.default_rng(8)
    for F, a, S, M_a, d in rng.uniform([1, 0, 8, 0, 4], [90, 40, 60, 900, 12], (100, 5)):
        E, I = 193000.0, beam.second_moment(d)
        y, slope, moment = beam.beam([0, S, S + a], E * I, (0, S), [(S + a, F)], [(S + a, M_a)])
        assert beam.overhung_deflection(F, a, S, M_a, E, I) == pytest.approx(y[2])
        assert [
            beam.overhung_slope_1(F, a, S, M_a, E, I),
            beam.overhung_slope_2(F, a, S, M_a, E, I),
        ] == pytest.approx(np.abs(slope[:2]))
        assert beam.overhung_moment(1.0, F, a, M_a) == pytest.approx(moment)
