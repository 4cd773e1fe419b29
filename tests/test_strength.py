"""Yield, endurance and notches: against integrals over the section, other charts, and other unit systems."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from proofs import proves
from scipy.integrate import quad
from scipy.optimize import brentq
from scipy.stats import norm

from guidegen.kit import lookup
from guidegen.kit.tables import read_table
from guidegen.theory import beam, strength

KSI = 6.894757  # MPa, NIST SP 811
INCH = 25.4
STEELS = (310.0, 515.0, 690.0, 965.0, 1220.0, 1500.0)  # tensile strengths, MPa
# Roark's Formulas for Stress and Strain, Table 17.1: C_1 to C_4, each a + b·sqrt(h/r) + c·h/r
LOW_SHOULDER = (  # h/r from 0.25 to 2
    (0.927, 1.149, -0.086),
    (0.015, -3.281, 0.837),
    (0.847, 1.716, -0.506),
    (-0.790, 0.417, -0.246),
)
HIGH_SHOULDER = (  # to 20
    (1.225, 0.831, -0.010),
    (-3.790, 0.958, -0.257),
    (7.374, -4.834, 0.862),
    (-3.809, 3.046, -0.595),
)


def stressed_area(width, radius):
    """Area where a bar bears 95 per cent or more: strips of `width(y)` from 0.95 of its radius out."""
    return 2 * quad(width, 0.95 * radius, radius)[0]


def round_strip(radius):
    return lambda y: 2 * math.sqrt(max(0.0, radius**2 - y**2))


def chart(step, r_over_d):
    """Concentration of a shoulder fillet in bending by Roark's fit; r_over_d is radius over thin diameter."""
    h = (step - 1) / (2 * r_over_d)  # height of the shoulder over the radius
    assert 0.25 <= h <= 20
    if h <= 2:
        rows = LOW_SHOULDER
    else:
        rows = HIGH_SHOULDER
    deep = (step - 1) / step
    return sum((a + b * math.sqrt(h) + c * h) * deep**n for n, (a, b, c) in enumerate(rows))


def concentration(step, r_over_d, d=10.0):
    constants = strength.fillet_constants(step, lookup.columns_of("fillet_bending"))
    return strength.fillet_concentration(constants.A, r_over_d * d, d, constants.b)


@proves("specimen_limit")
def test_a_specimen_bears_half_its_strength_up_to_a_limit():
    """Half the tensile strength; 700 MPa (100 ksi in inch tables) for all above 1400 MPa (200 ksi)."""
    steels = np.array([690, 1400, 1401, 2200])
    limits = strength.specimen_limit(strength.OF_TENSILE, steels, strength.GREATEST_LIMIT)
    assert limits.tolist() == [345, 700, 700, 700]
    inch = [strength.specimen_limit(0.5, S, 100.0) for S in (80, 90, 220)]
    assert inch == [40, 45, 100]  # Shigley 10th ed., Prob. 6-2, answers a, b and d in ksi
    assert strength.specimen_limit(0.35, 700, 700) == pytest.approx(245)  # A2-70: 240 to 280


@proves("surface_factor")
def test_the_finish_counts_the_same_in_ksi_and_in_mpa():
    """The book prints each finish in both units: as read in one and worked in the other they agree."""
    for row in read_table("surface_finish").rows:
        a, b, a_ksi = (float(row[column]) for column in ("a", "b", "a_ksi"))
        for S_u in STEELS:
            in_mpa = strength.surface_factor(a, S_u, strength.MEGAPASCAL, b)
            worked = min(1.0, a_ksi * (S_u / KSI) ** b)
            assert in_mpa == pytest.approx(worked, rel=4e-3)
            assert strength.surface_factor(a_ksi, S_u, KSI, b) == pytest.approx(worked, rel=1e-9)
    assert strength.surface_factor(57.7, 250.0, 1.0, -0.718) == 1  # 1.095 by the text's letter


@proves("surface_factor", "size_factor", "endurance_limit")
def test_factors_never_raise_the_limit():
    """All factors lie between 0 and 1, rougher and stronger is worse, and the limit is their product."""
    finishes = [lookup.surface_finish(name) for name in ("ground", "machined", "hot rolled", "forged")]
    sizes = np.geomspace(0.5, 50.8, 60)
    size = strength.size_factor(sizes, strength.SPECIMEN)
    assert ((0 < size) & (size <= 1)).all() and (np.diff(size) <= 0).all()
    for S_u in STEELS:
        factors = [strength.surface_factor(f.a, S_u, strength.MEGAPASCAL, f.b) for f in finishes]
        assert all(0 < factor <= 1 for factor in factors)
        if S_u >= 515:  # below, the fits of the two smoothest finishes cross
            assert factors == sorted(factors, reverse=True)
        limit = strength.endurance_limit(factors[0], size, 0.814, 300.0)
        assert (limit <= 300 * 0.814).all() and (np.diff(limit) <= 0).all()
        assert limit[-1] / (factors[0] * 0.814 * 300) == pytest.approx(0.879 * 2**-0.107, rel=1e-3)


@proves("size_factor")
def test_size_counts_from_the_specimen_on():
    """0.879·d^-0.107 for d in inches above the specimen's 0.3 in; 1 below, on both sides of 2.79 mm too."""
    for inches in (0.31, 0.5, 0.875, 2.0):
        assert strength.size_factor(inches * INCH, 7.62) == pytest.approx(0.879 * inches**-0.107, rel=1e-3)
    just = np.array([2.79, np.nextafter(2.79, 0), np.nextafter(2.79, 9), 7.62, 1.0])
    assert (strength.size_factor(just, 7.62) == 1).all()
    assert 1.24 * 2.79**-0.107 == pytest.approx(1.11, abs=0.005)  # the text there: not on the safe side
    held = strength.size_factor.formula.held({"d_e": np.array([0.0, 0.1, 50.8, 50.9]), "d_0": 7.62})
    assert held.tolist() == [False, True, True, False]


@proves("still_diameter")
def test_a_still_bar_counts_as_a_thinner_turning_one():
    """The turning bar whose ring above 95 per cent is as large as the two segments of the still bar."""
    for d in (6.3, 9.525, 38.0):
        segments = stressed_area(round_strip(d / 2), d / 2)
        ring = lambda e: math.pi / 4 * (1 - 0.95**2) * e**2  # noqa: E731
        turning = brentq(lambda e: ring(e) - segments, 0, d)
        assert strength.still_diameter(d) == pytest.approx(turning, rel=2e-3)


def test_reliability_follows_from_a_scatter_of_eight_per_cent():
    """k_e = 1 - 0.08·z with z of the normal distribution, row by row, and a straight line between rows."""
    table = lookup.columns_of("reliability_ke")
    for reliability, z, k_e in zip(table["reliability"], table["z"], table["k_e"]):
        assert z == pytest.approx(norm.ppf(reliability / 100), abs=0.0065)  # 90 % is printed 1.288, is 1.282
        assert k_e == pytest.approx(1 - 0.08 * z, abs=0.0006)
        assert strength.endurance_reliability(reliability, table) == (pytest.approx(k_e), True)
    k_e, known = strength.endurance_reliability(np.array([40, 50, 97, 99.99995]), table)
    assert known.tolist() == [False, True, True, False]
    assert k_e[2] == pytest.approx((0.868 + 0.814) / 2)


@proves("fillet_concentration")
def test_concentration_against_another_chart_fit():
    """Within a tenth of Roark's fit, made in other variables, for every step of shoulder screws."""
    worst = max(
        abs(concentration(step, r) / chart(step, r) - 1)
        for step in (1.45, 1.5, 1.65, 1.74, 1.8, 1.86, 2.0, 2.5, 3.0)
        for r in (0.04, 0.08, 0.12, 0.145, 0.2, 0.3)
        if (step - 1) / (2 * r) <= 20
    )
    assert 0.02 < worst < 0.10
    for step in (1.74, 1.8, 1.86):  # the thread neck of shoulder screws
        assert concentration(step, 0.14) == pytest.approx(chart(step, 0.14), rel=0.03)
    assert strength.fillet_concentration(0.9, 8.0, 10.0, -0.2) == 1  # no hollow so round makes it weaker


@proves("fillet_concentration")
def test_concentration_is_a_straight_line_on_double_logarithmic_paper():
    """Slope b through A at r = d, whatever the size of the bar."""
    table = lookup.columns_of("fillet_bending")
    radii = np.array([0.02, 0.05, 0.1])
    for step, A, b in zip(table["step"], table["A"], table["b"]):
        for d in (4.4, 8.0):
            slope, height = np.polyfit(np.log(radii), np.log(concentration(step, radii, d)), 1)
            assert slope == pytest.approx(b, rel=1e-9) and math.exp(height) == pytest.approx(A, rel=1e-9)


def test_deeper_steps_concentrate_more():
    """Row by row, but for the one pair of the printed table that crosses, as its first lines say."""
    steps = lookup.columns_of("fillet_bending")["step"]
    crossing = set()
    for r in (0.02, 0.05, 0.1, 0.2):
        found = [float(concentration(step, r)) for step in steps]
        crossing |= {steps[n] for n in range(1, len(steps)) if found[n] < found[n - 1]}
    assert crossing == {1.2}


def test_beyond_the_rows_of_the_fillets():
    """Both sides of the first and the last row; numbers and arrays alike."""
    table = lookup.columns_of("fillet_bending")
    at = strength.fillet_constants(np.array([1.0, 1.01, 1.75, 6.0, 6.1]), table)
    assert at.known.tolist() == [False, True, True, True, False]
    assert at.A[0] == at.A[1] == 0.91938 and at.b[4] == at.b[3] == -0.33243
    assert at.A[2] == pytest.approx((0.93836 + 0.90879) / 2)
    assert strength.fillet_constants(1.75, table).b == pytest.approx(at.b[2])


@proves("neuber_length", "notch_sensitivity")
def test_notch_sensitivity_against_neubers_constants():
    """Neuber's constant for steels, root inch: Machine Design (Norton), Table 6-6, typed from memory.

    The polynomial is another author's fit to the same chart: they differ by 0.004 at most.
    """
    tabled = {50: 0.130, 60: 0.108, 80: 0.080, 100: 0.062, 120: 0.049, 140: 0.039, 160: 0.031, 200: 0.018}
    for ksi, root in tabled.items():
        length = strength.neuber_length(ksi * KSI, KSI, INCH)
        assert math.sqrt(length / INCH) == pytest.approx(root, abs=0.004)
        for r in (0.5, 3.0):
            worked = 1 / (1 + root / math.sqrt(r / INCH))
            assert strength.notch_sensitivity(length, r) == pytest.approx(worked, abs=0.02)


@proves("neuber_length")
def test_neubers_length_in_millimetres_and_megapascals():
    """The fit as later editions print it for MPa and root millimetre; typed from memory, three digits."""
    for S_u in STEELS[1:]:
        worked = 1.24 - 2.25e-3 * S_u + 1.60e-6 * S_u**2 - 4.11e-10 * S_u**3
        length = strength.neuber_length(S_u, strength.KSI, INCH)
        assert math.sqrt(length) == pytest.approx(worked, abs=0.002 + 4e-6 * S_u)


@proves("neuber_length")
def test_neubers_length_is_the_printed_polynomial():
    """Its constants as read in the 8th edition's Eq. 6-35, root inch over ksi; holds from 50 to 250 ksi."""
    printed = np.polynomial.Polynomial([0.245799, -0.307794e-2, 0.150874e-4, -0.266978e-7])
    for ksi in (0.0, 60.0, 100.0, 250.0):
        worked = INCH * printed(ksi) ** 2
        assert strength.neuber_length(ksi * KSI, KSI, INCH) == pytest.approx(worked, rel=1e-9)
    values = {"S_u": np.array([344, 345, 1723, 1724]), "S_k": KSI, "l_k": INCH}
    assert strength.neuber_length.formula.held(values).tolist() == [False, True, True, False]


@proves("notch_sensitivity", "fatigue_concentration")
def test_a_hard_steel_feels_a_notch_more():
    """From nothing in a hollow far smaller than Neuber's length to all of it in a large one."""
    assert strength.notch_sensitivity(0.1, np.array([1e-9, 0.1, 1e9])) == pytest.approx([0, 0.5, 1], abs=2e-4)
    lengths = strength.neuber_length(np.array([400.0, 690, 965, 1220, 1650]), KSI, INCH)
    q = strength.notch_sensitivity(lengths, 0.6)
    assert (np.diff(q) > 0).all() and (q > 0).all() and (q < 1).all()
    K_f = strength.fatigue_concentration(q, 1.6)
    assert (1 < K_f).all() and (K_f < 1.6).all() and (np.diff(K_f) > 0).all()
    assert strength.fatigue_concentration(np.array([0, 0.5, 1]), 1.6) == pytest.approx([1, 1.3, 1.6])


@proves("endurance_factor")
def test_endurance_factor_is_the_growth_of_load_that_tires():
    """So many times the moment brings the stress at the fillet to the endurance limit."""
    for d, M, S_e, K_f in ((8.0, 900.0, 433.0, 1.0), (4.49, 500.0, 346.0, 1.45)):
        grown = brentq(lambda n: K_f * beam.bending_stress(n * M, d) - S_e, 1e-6, 1e6)
        factor = strength.endurance_factor(S_e, K_f, beam.bending_stress(M, d))
        assert factor == pytest.approx(grown, rel=1e-9)
    loads = {"S_e": 400.0, "K_f": 1.0, "sigma_b": np.array([0.0, 1e-9])}
    assert strength.endurance_factor.formula.held(loads).tolist() == [False, True]


@given(st.floats(1, 1e3), st.floats(1.001, 10), st.floats(1, 3))
def test_endurance_falls_with_load_and_with_the_notch(stress, more, K_f):
    """More load, or a sharper fillet, never leaves more."""
    n = strength.endurance_factor(400.0, 1.0, stress)
    assert strength.endurance_factor(400.0, 1.0, stress * more) < n
    assert strength.endurance_factor(400.0, K_f, stress) <= n


@proves("shear_stress")
def test_shear_stress_by_summing_what_lies_beyond():
    """V·Q/(I·b) at the middle, Q and I integrated over the disc; and the shear sums to V again."""
    for d, V in ((8.0, 120.0), (9.525, 40.0)):
        R, strip = d / 2, round_strip(d / 2)
        inertia = 2 * quad(lambda y: y**2 * strip(y), 0, R)[0]

        def at(y):
            return V * quad(lambda u: u * strip(u), y, R)[0] / (inertia * strip(y))

        assert strength.shear_stress(V, d) == pytest.approx(at(0.0), rel=1e-6)
        assert 2 * quad(lambda y: at(y) * strip(y), 0, R * (1 - 1e-9))[0] == pytest.approx(V, rel=1e-4)


@proves("shear_factor")
def test_shear_yields_where_the_distortion_energy_says():
    """The load grows until the von Mises stress of its full stress tensor reaches the yield stress."""
    for S_y, tau in ((1100.0, 50.0), (205.0, 90.0)):
        def excess(n):
            s = np.array([[0, n * tau, 0], [n * tau, 0, 0], [0, 0, 0]])
            deviator = s - np.trace(s) / 3 * np.eye(3)
            return math.sqrt(1.5 * (deviator * deviator).sum()) - S_y
        assert strength.shear_factor(S_y, tau) == pytest.approx(brentq(excess, 0, 1e3), rel=1e-9)
    assert strength.shear_factor(1.0, 1.0) == pytest.approx(0.577, abs=0.0005)  # as texts round it


@proves("fillet_stress", "neck_stress")
def test_stress_in_the_neck_carries_force_and_moment():
    """Stress without concentration, integrated over the neck, gives back the clamp force and the moment."""
    d, M, F = 4.49, 800.0, 2500.0
    bending = strength.fillet_stress(1.0, M, d)
    most = strength.neck_stress(bending, F, d)
    mean, strip = most - bending, round_strip(d / 2)
    whole = quad(lambda y: (mean + bending * 2 * y / d) * strip(y), -d / 2, d / 2)[0]
    moment = quad(lambda y: (mean + bending * 2 * y / d) * y * strip(y), -d / 2, d / 2)[0]
    assert (whole, moment) == (pytest.approx(F, rel=1e-6), pytest.approx(M, rel=1e-6))
    assert strength.fillet_stress(1.6, M, d) == pytest.approx(1.6 * bending)
    assert strength.fillet_stress(1.6, 0.0, d) == 0 and strength.neck_stress(0.0, 0.0, d) == 0


def test_the_examples_of_our_own_screws():
    """The design's first estimates: a ground 965 MPa shoulder at 99 %, and the fillets of a 1/4 in screw."""
    ground = lookup.surface_finish("ground")
    k_a = strength.surface_factor(ground.a, 965.0, strength.MEGAPASCAL, ground.b)
    k_e, _ = strength.endurance_reliability(99.0, lookup.columns_of("reliability_ke"))
    S_n = strength.specimen_limit(strength.OF_TENSILE, 965.0, strength.GREATEST_LIMIT)
    k_z = strength.size_factor(6.27, strength.SPECIMEN)
    assert strength.endurance_limit(k_a, k_z, k_e, S_n) == pytest.approx(346, abs=0.5)
    assert concentration(1.80, 0.145) == pytest.approx(chart(1.80, 0.145), rel=0.03)
    assert concentration(1.65, 0.040) == pytest.approx(chart(1.65, 0.040), rel=0.09)


def test_words_for_what_is_not_in_the_tables():
    """One sentence that names what was asked."""
    with pytest.raises(lookup.OutsideTable, match="finish polished"):
        lookup.surface_finish("polished")
