"""The nut and what it clamps: against pressures summed over the face, a bed of springs, exact beams."""

import itertools
import math
from fractions import Fraction

import numpy as np
import pytest
from beam_reference import solved
from hypothesis import given
from hypothesis import strategies as st
from proofs import proves
from scipy.integrate import dblquad, quad
from scipy.optimize import brentq, fsolve

from guidegen.kit import lookup
from guidegen.kit.tables import read_table
from guidegen.theory import clamp

FACES = ((7.6, 6.6), (7.6, 4.7), (9.3, 7.0), (12.0, 0.0))  # outer and inner diameter of a face, mm
RINGS, STEPS = 60, 120


def over_face(function, D, d):
    """The integral over a ring of a function of the distance from its middle and the angle."""
    return dblquad(lambda r, angle: r * function(r, angle), 0, 2 * math.pi, d / 2, D / 2)[0]


def plane_pressure(F, M, D, d):
    """(mean, rise per mm) of the pressure, linear across the face, that carries a force and a moment."""
    across = [[over_face(lambda r, a: (r * math.cos(a)) ** (m + n), D, d) for n in (0, 1)] for m in (0, 1)]
    return np.linalg.solve(across, [F, M])


def pieces(D, d):
    """(distance across, area) of the face cut into small pieces of rings."""
    edges = np.linspace(d / 2, D / 2, RINGS + 1)
    angles = (np.arange(STEPS) + 0.5) * 2 * math.pi / STEPS
    middle = (edges[1:] + edges[:-1]) / 2
    area = math.pi * np.diff(edges**2) / STEPS
    return np.outer(middle, np.cos(angles)).ravel(), np.repeat(area, STEPS)


def share_lifted(F, M, D, d):
    """Share of the face that has lifted off a bed of springs that push and never pull."""
    y, area = pieces(D, d)

    def missing(plane):
        pressure = np.maximum(0, plane[0] + plane[1] * y)
        return [(pressure * area).sum() / F - 1, (pressure * area * y).sum() / M - 1]

    plane, _, found, _ = fsolve(missing, plane_pressure(F, M, D, d), full_output=True)
    assert found == 1
    return area[plane[0] + plane[1] * y < 0].sum() / area.sum()


@proves("clamp_needed")
def test_clamp_needed_leaves_no_pressure_at_one_edge():
    """Pressure over the ring integrated and solved for force and moment: the least of it is just zero."""
    M = 900.0
    for D, d in FACES:
        needed = clamp.clamp_needed(M, D, d)

        def least(F):
            mean, rise = plane_pressure(F, M, D, d)
            return mean - rise * D / 2

        assert needed == pytest.approx(brentq(least, 1, 1e5), rel=1e-6)
    assert clamp.clamp_needed(0.0, 7.6, 6.6) == 0
    assert clamp.clamp_needed(8.0, 8.0, 0.0) == 8  # a full disc: the load stands at a quarter of its radius


def test_below_the_clamp_needed_the_face_opens():
    """On a bed of springs: closed with two per cent more, open in part with five per cent less."""
    for D, d in FACES:
        needed = clamp.clamp_needed(700.0, D, d)
        assert share_lifted(1.02 * needed, 700.0, D, d) == 0
        assert 0 < share_lifted(0.95 * needed, 700.0, D, d) < 0.2


@proves("clamp_needed", "seat_pressure")
def test_a_face_about_to_open_bears_twice_the_mean():
    """What the docstring says: at the other edge the pressure is then twice the mean."""
    for D, d in FACES:
        F = clamp.clamp_needed(500.0, D, d)
        mean, rise = plane_pressure(F, 500.0, D, d)
        assert mean + rise * D / 2 == pytest.approx(2 * clamp.seat_pressure(F, D, d), rel=1e-6)


@proves("seat_pressure")
def test_seat_pressure_carries_the_clamp_force():
    """Summed over the face it gives the force; 2 kN on an 8 mm shoulder over a 6.4 mm hole is 110 MPa."""
    for D, d in FACES:
        p = clamp.seat_pressure(2000.0, D, d)
        assert over_face(lambda r, a: p, D, d) == pytest.approx(2000, rel=1e-6)
    assert clamp.seat_pressure(2000.0, 8.0, 6.4) == pytest.approx(110, abs=1)
    assert clamp.seat_pressure(0.0, 8.0, 6.4) == 0


@proves("pressed_limit")
def test_the_weakest_ring_bears_its_pressure_all_over():
    """The pressure summed over the ring; a nylon spacer 1/2 over 3/8 in bears 2.7 kN at its 50 MPa."""
    for D, d in FACES:
        assert clamp.pressed_limit(120.0, D, d) == pytest.approx(over_face(lambda r, a: 120.0, D, d), rel=1e-6)
    assert clamp.pressed_limit(50.0, 12.7, 9.65) == pytest.approx(2677, abs=2)


@proves("clamp_to_set")
def test_the_slipperiest_thread_spoils_nothing():
    """A nut a quarter more slippery than the middle one: by the torque set, the weaker is at 95 per cent."""
    for screw, pressed in ((9000.0, 2700.0), (4000.0, 12_000.0)):
        aimed = clamp.clamp_to_set(0.95, 0.15, 0.2, screw, pressed)
        torque = 0.2 * 8.0 * aimed  # by the middle nut factor, on an 8 mm thread
        assert torque / (0.15 * 8.0) == pytest.approx(0.95 * min(screw, pressed))


@proves("clamp_torque")
def test_clamp_torque_between_even_wear_and_even_pressure():
    """Friction summed over the face: exact for pressure as 1/r, a little less than even pressure gives."""
    mu, F = 0.15, 2000.0
    for D, d in FACES:
        one = quad(lambda r: 2 * math.pi * r * (1 / r), d / 2, D / 2)[0]  # force of the pressure 1/r
        wear = quad(lambda r: 2 * math.pi * r * (mu / r) * r, d / 2, D / 2)[0] * F / one
        assert clamp.clamp_torque(mu, F, D, d) == pytest.approx(wear, rel=1e-9)
        p = F / quad(lambda r: 2 * math.pi * r, d / 2, D / 2)[0]
        even = quad(lambda r: 2 * math.pi * r * r * mu * p, d / 2, D / 2)[0]
        assert clamp.clamp_torque(mu, F, D, d) <= even * (1 + 1e-9)
        if d > 0.6 * D:  # a shoulder over a clearance hole
            assert clamp.clamp_torque(mu, F, D, d) == pytest.approx(even, rel=0.03)
    # one old disc needs more force than a new one: 250 and 50 mm, published ratio 0.871 (an examination item)
    even = 2 / 3 * (125**3 - 25**3) / (125**2 - 25**2)
    assert clamp.clamp_torque(1.0, 1.0, 250.0, 50.0) / even == pytest.approx(0.871, abs=0.0005)


@proves("tightening_torque", "clamp_of_torque")
def test_torque_and_clamp_force_undo_each_other():
    """There and back, on arrays; no torque, no force."""
    K, d, F = np.array([0.12, 0.2, 0.3]), np.array([4.0, 6.0, 9.525]), np.array([0.0, 1500.0, 8000.0])
    assert clamp.clamp_of_torque(clamp.tightening_torque(K, d, F), K, d) == pytest.approx(F)
    assert clamp.tightening_torque(0.2, 6.0, 8750.0) == pytest.approx(10_500)  # M6 8.8 at 75 %: 10.5 N·m


@proves("tightening_torque")
def test_nut_factor_stands_for_the_friction_of_thread_and_face():
    """An M6 at friction 0.15 everywhere: the screw's wedge and the nut's face together give K 0.2.

    Power screw theory: T = F·d_2/2·tan(slope + friction angle on a 60° thread) + F·mu·mean face radius.
    """
    F, d, pitch, mu = 1000.0, 6.0, 1.0, 0.15
    d_2 = d - 0.649519 * pitch
    slope, rub = math.atan(pitch / (math.pi * d_2)), math.atan(mu / math.cos(math.radians(30)))
    torque = F * d_2 / 2 * math.tan(slope + rub) + F * mu * (d + 10.0) / 4
    assert clamp.tightening_torque(lookup.nut_factor("zinc").typical, d, F) == pytest.approx(torque, rel=0.05)


@proves("clamp_kept")
def test_what_settling_leaves():
    """Timber joints kept 0.23 of their force in a year, 0.66 when tightened again (J. Wood Sci. 2008)."""
    assert clamp.clamp_kept(2000.0, lookup.clamp_loss("wood").most) == pytest.approx(0.23 * 2000)
    assert clamp.clamp_kept(np.array([0.0, 10.0]), 0.0).tolist() == [0, 10]
    assert clamp.clamp_kept(300.0, 1 / 3) == pytest.approx(200)


@proves("clamp_limit")
def test_the_weaker_of_neck_and_thread_sets_the_clamp_force():
    """Force at the proof stress, integrated over the neck or taken from the thread's stress area."""
    m6, proof = lookup.thread("M6"), lookup.proof_stress("12.9", 6.0)
    for neck, nut in ((4.4, proof), (4.58, proof), (5.5, proof), (4.4, 500.0)):
        area = quad(lambda r: 2 * math.pi * r, 0, neck / 2)[0]
        weaker = min(proof * area, nut * m6.stress_area)
        assert clamp.clamp_limit(0.75, proof, neck, nut, m6.stress_area) == pytest.approx(0.75 * weaker)
    assert clamp.clamp_limit(0.75, proof, 4.4, proof, 20.1) < clamp.clamp_limit(0.75, proof, 9, proof, 20.1)


@proves("face_moment")
def test_moment_at_the_face_of_a_screw_built_in_there():
    """A rigid lever with load and couple at its end, either way round, solved as an exact beam."""
    face = (Fraction(0),)
    for F, x, M_a in ((30, 3, 400), (25, 12, 0), (25, Fraction(1, 1000), 60), (40, -7, 150)):
        at = Fraction(abs(x))
        senses = [
            solved(face, ((at, Fraction(F)),), ((at, Fraction(turn * M_a)),), face)[2] for turn in (1, -1)
        ]
        found = clamp.face_moment(1.5, float(F), float(x), float(M_a))
        assert found == pytest.approx(1.5 * float(max(senses)))
    assert clamp.face_moment(1.5, 0.0, 3.0, 0.0) == 0


@proves("arm_deflection", "arm_stress")
def test_the_arm_plate_is_a_cantilever():
    """Deflection by an exact beam with I integrated over the section; stress sums to the moment."""
    F, r, E, b, t, hole = 4.0, 120.0, 70_000.0, 30.0, 3.0, 6.6
    inertia = quad(lambda z: b * z**2, -t / 2, t / 2)[0]
    place = (Fraction(120),)
    exact = solved((Fraction(0),), ((place[0], Fraction(4)),), (), place)[0][0]
    assert clamp.arm_deflection(F, r, E, b, t) == pytest.approx(float(exact) / (E * inertia), rel=1e-6)
    stress = clamp.arm_stress(1.5, F, r, b, hole, t)
    moment = quad(lambda z: stress * 2 * z / t * z * (b - hole), -t / 2, t / 2)[0]
    assert moment == pytest.approx(1.5 * F * r)
    assert clamp.arm_deflection(0.0, r, E, b, t) == 0 and clamp.arm_stress(1.5, 0.0, r, b, hole, t) == 0


def test_the_arm_plate_is_softer_than_its_screw():
    """A 3 mm aluminium arm of 30 mm bends many times as far as an 8 mm steel screw it is clamped on."""
    screw = 30 * 18**2 * (24 + 18) / (3 * 207_000 * math.pi * 8**4 / 64)  # 30 N, 18 mm overhang, 24 mm apart
    assert clamp.arm_deflection(4.0, 120.0, 70_000.0, 30.0, 3.0) > 10 * screw


@given(st.floats(0, 5e3), st.floats(0, 1e3), st.floats(4, 30), st.floats(0, 0.95))
def test_more_moment_needs_more_clamp(M, more, D, share):
    """Monotone in the moment; a larger hole in the part never makes the face need more."""
    d = share * D
    needed = clamp.clamp_needed(M, D, d)
    assert 0 <= needed <= clamp.clamp_needed(M + more, D, d)
    assert needed <= clamp.clamp_needed(M, D, 0.0)
    assert clamp.seat_pressure(needed + 1, D, d) >= clamp.seat_pressure(needed, D, d) >= 0


def test_proof_stress_by_class_and_size():
    """A class's ranges rise without a gap, each side of a boundary has its own value; SAE grades in ksi."""
    for _, rows in itertools.groupby(read_table("proof_stress").rows, key=lambda row: row["class"]):
        ends = [(float(row["over"]), float(row["to"])) for row in rows]
        assert ends[0][0] == 0 and all(a[1] == b[0] for a, b in itertools.pairwise(ends))
    assert [lookup.proof_stress("8.8", d) for d in (6.0, 16.0, 16.01, 20.0)] == [580, 580, 600, 600]
    assert lookup.proof_stress("SAE 5", 6.35) == pytest.approx(85 * 6.894757)
    for nominal in ("8.8", "10.9", "12.9"):  # the proof stress lies a little below the yield stress named
        tensile, ratio = (float(part) for part in nominal.split("."))
        assert 0.85 < lookup.proof_stress(nominal, 8.0) / (tensile * 100 * ratio / 10) < 1
    with pytest.raises(lookup.OutsideTable, match="class 4.6"):
        lookup.proof_stress("4.6", 6.0)


def test_nut_factors_and_their_scatter():
    """Slippery is lower; the band of K is that of a force a quarter more and a quarter less."""
    found = [lookup.nut_factor(name) for name in ("anti-seize", "cadmium", "oiled", "zinc", "black oxide")]
    assert [band.typical for band in found] == [0.12, 0.16, 0.18, 0.20, 0.30]
    for band in found:
        forces = [clamp.clamp_of_torque(9000.0, K, 6.0) for K in (band.most, band.typical, band.least)]
        assert [F / forces[1] for F in forces] == pytest.approx([0.75, 1, 1.25])
    with pytest.raises(lookup.OutsideTable, match="surface rusty"):
        lookup.nut_factor("rusty")


def test_loss_of_clamp_force_by_stock():
    """Every kind of stock has its band; metal keeps most."""
    bands = {kind: lookup.clamp_loss(kind) for kind in ("metal", "plastic", "print", "wood")}
    assert all(0 <= band.least <= band.typical <= band.most < 1 for band in bands.values())
    assert bands["metal"].most < min(bands[kind].least for kind in ("plastic", "print", "wood"))
