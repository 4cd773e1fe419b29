"""What warmth and water do: against sizes multiplied out, rings in finite elements, walls kept whole."""

from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from formula_inputs import DECLARED, each, inputs
from proofs import proves
from ring_reference import pressed
from scipy.optimize import brentq

from guidegen.kit.tables import read_table
from guidegen.theory import heat, pressfit

RIGID = (1e12, 0.3)
NYLON = (1400.0, 0.4)
BUSHES = ((6.0, 10.0), (8.0, 10.0), (9.652, 12.7), (5.0, 15.0))  # bore, outside


@proves("growth", "grown_size")
def test_a_part_that_grows():
    """Warmed and wetted by a ten-thousandth, so that products of growths vanish; marks on a rule."""
    part = 1e-4
    for alpha, rise, water in (
        (23.6e-6, 20.0, 0.0),
        (90e-6, -15.0, 0.006),
        (90e-6, 0.0, 0.026),
        (0.0, 30.0, 0.0),
    ):
        size = (1 + alpha * rise * part) * (1 + water * part)
        assert heat.growth(alpha, rise, water) == pytest.approx((size - 1) / part, rel=1e-5, abs=1e-9)
    scale = np.linspace(0, 25.4, 8)  # marks on a rule, each between two that grow alike
    longer = np.concatenate([[0], np.cumsum(np.diff(scale) * 1.002)])
    assert heat.grown_size(25.4, 0.002) == pytest.approx(longer[-1])


@proves("grown_interference", "grown_clearance", "grown_end_play")
def test_fits_of_parts_that_grow():
    """Both parts multiplied out; what the formulas leave out is the growth of the difference."""
    for bearing, other, e_1, e_2 in (
        (12.03, 12.0, 4e-4, 1.4e-3),
        (8.02, 8.0, -3e-4, 2e-4),
        (10.0, 10.05, 0.006, 0.0),
    ):
        exact = bearing * (1 + e_1) - other * (1 + e_2)
        assert heat.grown_interference(bearing - other, bearing, e_1, e_2) == pytest.approx(exact, abs=1e-4)
        assert heat.grown_clearance(bearing - other, other, e_1, e_2) == pytest.approx(exact, abs=4e-4)
        exact = 40.0 * (1 + e_1) - 39.9 * (1 + e_2)
        assert heat.grown_end_play(0.1, 40.0, e_1, 39.9, e_2) == pytest.approx(exact)


@proves("grown_interference", "grown_clearance")
def test_growth_of_nearly_equal_sizes_is_exact_enough():
    """With sizes equal to begin with, nothing is left out at all."""
    exact = 12.0 * (1 + 4e-4) - 12.0 * (1 + 1.4e-3)
    assert heat.grown_interference(0.0, 12.0, 4e-4, 1.4e-3) == pytest.approx(exact, rel=1e-9)
    assert heat.grown_clearance(0.0, 12.0, 4e-4, 1.4e-3) == pytest.approx(exact, rel=1e-9)


@proves("loosening_rise", "slipping_rise")
def test_temperatures_at_which_sizes_meet():
    """Found by heating both, or the housing alone, until the sizes agree."""
    for D, hole, a_b, a_h in (
        (12.03, 12.0, 17.8e-6, 72e-6),
        (22.0, 21.98, 12.2e-6, 23.6e-6),
        (10.02, 10.0, 90e-6, 11e-6),
    ):
        both = brentq(lambda t: D * (1 + a_b * t) - hole * (1 + a_h * t), -2000, 2000, xtol=1e-9)
        assert heat.loosening_rise(D, hole, a_b, a_h) == pytest.approx(both)
        alone = brentq(lambda t: D + 0.02 - hole * (1 + a_h * t), -2000, 2000, xtol=1e-9)
        assert heat.slipping_rise(D, hole, 0.02, a_h) == pytest.approx(alone)


@proves("growth_beyond")
def test_a_hole_that_grows_as_its_bush_does():
    """Measured by a rule of the housing's own stock, the bush has grown by the difference."""
    for bush, housing in ((0.01, 0.002), (0.004, 0.004), (-0.001, 0.002)):
        by_own_rule = (1 + bush * 1e-6) / (1 + housing * 1e-6)
        assert heat.growth_beyond(bush, housing) == pytest.approx((by_own_rule - 1) * 1e6, abs=1e-7)


@cache
def squeezed():
    """Change of the bore of bushes that grow in a rigid hole, by elements: grown, then pressed back."""
    return {
        (d, D, e): e * d - pressed(d, D, 2 * D, e * D, NYLON, RIGID)[1]
        for d, D in BUSHES
        for e in (0.006, -0.002)
    }


@proves("elastic_swelling")
def test_elastic_bush_in_a_rigid_hole():
    """As the elements have it: the bore closes, thick walls less than thin ones for their size."""
    for (d, D, e), change in squeezed().items():
        assert heat.elastic_swelling(e, d, D, NYLON[1]) == pytest.approx(change, rel=1e-3)
    assert heat.elastic_swelling(0.0, 8.0, 10.0, 0.4) == 0


def test_elastic_bush_by_the_formulas_of_the_press_fit():
    """Grown interference, pressure and closure in a housing next to rigid say the same."""
    for d, D in BUSHES:
        k_b = pressfit.bush_ratio(D, d)
        i = heat.grown_interference(0.0, D, 0.006, 0.0)
        p = pressfit.press_pressure(i, D, 1.5, 0.3, 1e13, k_b, NYLON[1], NYLON[0])
        change = 0.006 * d - pressfit.bore_closure(p, D, d, NYLON[0])
        assert heat.elastic_swelling(0.006, d, D, NYLON[1]) == pytest.approx(change, rel=1e-6)


def bore_of_volume(d, D, growth, length):
    """Bore of a tube in a rigid hole whose volume has grown by three times `growth`."""
    volume = (D**2 - d**2) * (1 + growth) ** 3
    return brentq(lambda bore: (D**2 - bore**2) * length - volume, 0.5 * d, 1.5 * d, xtol=1e-14)


@proves("relaxed_swelling", "held_swelling")
def test_a_wall_keeps_its_volume():
    """Crept until nothing squeezes it: as long as it likes to be, or as long as it was."""
    for d, D in BUSHES:
        e = 1e-6
        free = bore_of_volume(d, D, e, 1 + e) - d
        held = bore_of_volume(d, D, e, 1.0) - d
        assert heat.relaxed_swelling(e, d, D) == pytest.approx(free, rel=1e-4)
        assert heat.held_swelling(e, d, D) == pytest.approx(held, rel=1e-4)
    assert heat.held_swelling(0.0, 8.0, 10.0) == 0 and heat.relaxed_swelling(0.0, 8.0, 10.0) == 0


def test_how_much_the_straight_line_leaves_out():
    """At the greatest growth of the table a thick bush closes by less than a tenth more than we say."""
    for d, D in BUSHES[:3]:
        real = bore_of_volume(d, D, 0.028, 1.0) - d
        assert 1 < real / heat.held_swelling(0.028, d, D) < 1.1


@proves("seizing_growth", "swollen_clearance")
def test_when_a_nylon_bush_seizes():
    """The growth at which the bore has come down to the shaft, found by growing."""
    for d, D in BUSHES:
        for clearance in (0.02, 0.08):
            seized = brentq(lambda e: heat.swollen_clearance(clearance, heat.held_swelling(e, d, D)), 0, 0.5)
            assert heat.seizing_growth(clearance, d, D) == pytest.approx(seized)
            bore = d + heat.held_swelling(0.01, d, D)
            left = heat.swollen_clearance(clearance, heat.held_swelling(0.01, d, D))
            assert left == pytest.approx(bore - (d - clearance))


@proves("mean_growth")
def test_growth_of_a_whole_stack():
    """Each part multiplied out and laid on the others; nothing at all has grown by nothing."""
    thick, grown = (2.0, 6.0, 30.0), (1e-4, 2.4e-3, -5e-4)
    whole = sum(t * (1 + e) for t, e in zip(thick, grown))
    assert heat.mean_growth(thick, grown) == pytest.approx(whole / 38.0 - 1)
    rows = heat.mean_growth([np.array([1.0, 2.0]), 3.0], [0.001, np.array([0.0, 0.002])])
    assert rows == pytest.approx([0.001 / 4, 0.008 / 5])
    assert heat.mean_growth([0.0, 0.0], [0.1, 0.2]) == 0
    with pytest.raises(ValueError, match="shorter|longer"):
        heat.mean_growth([1.0, 2.0], [0.1])


@pytest.mark.parametrize(
    "formula", [f for f in DECLARED if f.function.__module__ == heat.__name__], ids=lambda f: f.name
)
def test_arrays_go_through_as_numbers_do(formula):
    """Each formula, element by element."""
    values = inputs(formula, 25)
    together = formula.function(**values)
    np.testing.assert_allclose(together, [formula.function(**one) for one in each(values)], rtol=1e-12)


def curve(material, end="typical"):
    rows = [row for row in read_table("swelling").rows if row["material"] == material]
    return [float(row["humidity"]) for row in rows], [float(row[end]) for row in rows]


def test_swelling_read_between_its_points():
    """There and back; drier than dry is dry; what no damp air brings about needs endless humidity."""
    air, grown = curve("nylon")
    assert heat.growth_in(25, air, grown) == pytest.approx(0.003)
    for humidity in (10.0, 50.0, 60.0, 90.0):
        assert heat.humidity_of(heat.growth_in(humidity, air, grown), air, grown) == pytest.approx(humidity)
    np.testing.assert_array_equal(heat.humidity_of(np.array([0.0, 0.03]), air, grown), [0, np.inf])


def test_the_tables_of_water():
    """Growth rises with humidity, from nothing, in order; nylon grows most.

    Read elsewhere: acrylic grows 0.2 per cent up to 80 per cent humidity (a sheet supplier's page); plywood
    0.1 to 0.2 per cent from 35 to 85 per cent, board 0.2 to 0.35 (memory).
    """
    materials = dict.fromkeys(row["material"] for row in read_table("swelling").rows)
    for material in materials:
        for end in ("least", "typical", "most"):
            air, grown = curve(material, end)
            assert air[0] == 0 == grown[0] and air[-1] == 100
            assert all(a < b for a, b in pairwise(air)) and all(a < b for a, b in pairwise(grown))
        ends = np.array([curve(material, end)[1] for end in ("least", "typical", "most")])
        assert (np.diff(ends, axis=0) >= 0).all()
        assert material == "nylon" or ends[-1][-1] < curve("nylon")[1][-1]
    assert heat.growth_in(80, *curve("acrylic")) == pytest.approx(0.002)
    for material, least, most in (("plywood", 0.001, 0.002), ("mdf", 0.002, 0.0035)):
        for end, wanted in (("least", least), ("most", most)):
            moved = heat.growth_in(85, *curve(material, end)) - heat.growth_in(35, *curve(material, end))
            assert moved == pytest.approx(wanted)
