"""Press fits: Lamé's closed forms against rings cut into finite elements."""

from functools import cache

import numpy as np
import pytest
from proofs import proves
from ring_reference import pressed

from guidegen.theory import pressfit

NEAR = 2e-4  # relative; the elements are good to a ten-thousandth

STEEL, BRONZE, ACRYLIC, PLY = (207e3, 0.3), (80e3, 0.34), (3000.0, 0.38), (6000.0, 0.1)
PAIRS = [  # bore, joint, outside of the housing's ring, interference, bush, housing
    (8.0, 12.0, 28.0, 0.03, BRONZE, ACRYLIC),
    (8.0, 12.0, 28.0, 0.03, BRONZE, PLY),
    (10.0, 16.0, 32.0, 0.02, BRONZE, STEEL),
    (9.5, 12.7, 15.0, 0.05, ACRYLIC, STEEL),
    (25.0, 50.0, 75.0, 0.02, STEEL, STEEL),
]


@cache
def solved():
    return [(pair, pressed(*pair)) for pair in PAIRS]


def by_formula(bore, joint, outside, interference, bush, housing):
    k_h, k_b = pressfit.hub_ratio(outside, joint), pressfit.bush_ratio(joint, bore)
    p = pressfit.press_pressure(interference, joint, k_h, housing[1], housing[0], k_b, bush[1], bush[0])
    return p, pressfit.bore_closure(p, joint, bore, bush[0]), pressfit.hub_stress(p, k_h)


@proves("hub_ratio", "bush_ratio", "press_pressure", "hub_stress", "bore_closure")
def test_bush_pressed_into_a_housing():
    """Pressure, closure of the bore and hoop stress of the housing, soft and hard, thin and thick."""
    for pair, (pressure, closure, _, hoop) in solved():
        assert by_formula(*pair) == pytest.approx((pressure, closure, hoop), rel=NEAR)


@proves("press_pressure")
def test_a_loose_bush_is_not_squeezed():
    """No pressure without interference, none when the hole is larger than the bush."""
    for interference in (0.0, -0.02):
        assert by_formula(8.0, 12.0, 28.0, interference, BRONZE, ACRYLIC) == (0.0, 0.0, 0.0)


@proves("bore_closure")
def test_how_far_a_bore_can_close():
    """From nothing in a housing like butter to about the interference in one like diamond.

    It may pass the interference a little, for the squeezed wall grows thicker: by the equations of the ring
    never beyond i/√(1 − ν²), reached where (bore/outside)² = (1 − ν)/(1 + ν). The elements agree.
    """
    most = 0.03 / np.sqrt(1 - BRONZE[1] ** 2)
    worst = 12 * np.sqrt((1 - BRONZE[1]) / (1 + BRONZE[1]))
    for bore in (11.9, worst, 6.0):
        closures = [by_formula(bore, 12.0, 28.0, 0.03, BRONZE, (E, 0.3))[1] for E in (1e-6, 1e3, 1e5, 1e9)]
        assert closures == sorted(closures) and closures[0] < 1e-9 and closures[-1] <= most
        assert closures[-1] == pytest.approx(pressed(bore, 12.0, 28.0, 0.03, BRONZE, (1e9, 0.3))[1], rel=NEAR)
    assert by_formula(worst, 12.0, 28.0, 0.03, BRONZE, (1e9, 0.3))[1] == pytest.approx(most, rel=1e-3)
    assert by_formula(11.98, 12.0, 28.0, 0.03, BRONZE, (1e9, 0.3))[1] == pytest.approx(0.03, rel=0.01)


@cache
def inner_rings():
    """Bore, raceway, shaft of an inner ring on a solid steel shaft, and the elements' answer."""
    found = []
    for bore, raceway, shaft, ring, solid in (
        (8.0, 11.2, 8.012, STEEL, STEEL),
        (9.525, 13.0, 9.53, STEEL, (193e3, 0.29)),
    ):
        found.append(
            ((bore, raceway, shaft, ring, solid), pressed(0.0, bore, raceway, shaft - bore, solid, ring))
        )
    return found


@proves("ring_pressure", "inner_ring_ratio", "raceway_growth")
def test_inner_ring_tight_on_its_shaft():
    """Pressure on the shaft and growth of the raceway."""
    for (bore, raceway, shaft, ring, solid), (pressure, _, growth, _) in inner_rings():
        k_i = pressfit.inner_ring_ratio(raceway, bore)
        p = pressfit.ring_pressure(shaft, bore, k_i, ring[1], ring[0], solid[1], solid[0])
        assert p == pytest.approx(pressure, rel=NEAR)
        assert pressfit.raceway_growth(p, bore, raceway, ring[0]) == pytest.approx(growth, rel=NEAR)


@proves("ring_pressure")
def test_inner_ring_that_slides_on():
    """No pressure when the shaft is smaller than the bore, or just as large."""
    assert [pressfit.ring_pressure(d, 8.0, 3.0, 0.3, 2e5, 0.3, 2e5) for d in (7.98, 8.0)] == [0.0, 0.0]


def test_the_elements_are_fine_enough():
    """Half as many give the same to a ten-thousandth; a thin ring obeys p = E·δ·t/r² (boiler formula)."""
    import ring_reference

    fine = pressed(*PAIRS[0])
    try:
        ring_reference.ELEMENTS //= 2
        assert pressed(*PAIRS[0]) == pytest.approx(fine, rel=1e-4)
    finally:
        ring_reference.ELEMENTS *= 2
    pressure = pressed(0.0, 100.0, 100.4, 0.01, (1e12, 0.3), STEEL)[0]
    assert pressure == pytest.approx(207e3 * 0.005 * 0.2 / 50.1**2, rel=5e-3)
    assert np.isfinite(fine).all()
