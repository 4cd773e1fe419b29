"""Sliding bushes: pressure, speed, edges and wear against Archard's law point by point, statics and pint."""

import csv
import shutil
from functools import cache
from pathlib import Path

import numpy as np
import pint
import pytest
from formula_inputs import DECLARED, each, inputs
from hypothesis import given
from hypothesis import strategies as st
from proofs import proves
from scipy.integrate import quad
from scipy.optimize import fsolve
from test_reader import PLAIN_COURSE, check, mistakes_of, spoil
from wear_reference import round_load, standing_load

from guidegen.joint.records import Quantity
from guidegen.joint.verdicts import judge
from guidegen.kit.cells import read_band
from guidegen.kit.reader import read_course
from guidegen.kit.records import SleeveBushing, SlidingMaterial, Spacer
from guidegen.theory import sliding
from guidegen.units import Band, read_quantity

ROOT = Path(__file__).parent.parent
UNITS = pint.UnitRegistry()
SLIDING = "data/sliding.csv"
LIMITS = ("pressure", "speed", "pv")


def internal(value, unit, ours):
    """A value in any unit as pint turns it into ours."""
    return UNITS.Quantity(value, unit).to(ours).magnitude


def ends(band):
    return band.least, band.typical, band.most


# --- pressure, speed, and their product ---------------------------------------------------------------


@proves("bush_pressure", "shock_pressure", "turning_speed", "pressure_speed")
def test_pressure_and_speed_in_the_units_of_another_trade():
    """A 3/8 in bush, 1/2 in long, 25 lbf, 600 rpm, knocks 1.5: worked in psi and ft/min, turned round by pint."""
    psi = 25 / (0.375 * 0.5)
    feet = 0.375 / 12 * np.pi * 600
    d, F = internal(0.375, "inch", "mm"), internal(25, "lbf", "N")
    p = sliding.bush_pressure(F, d, internal(0.5, "inch", "mm"))
    v = sliding.turning_speed(d, internal(600, "1/minute", "1/s"))
    assert p == pytest.approx(internal(psi, "psi", "MPa"), rel=1e-9)
    assert sliding.shock_pressure(1.5, p) == pytest.approx(internal(1.5 * psi, "psi", "MPa"), rel=1e-9)
    assert v == pytest.approx(internal(feet, "ft/minute", "mm/s"), rel=1e-9)
    found = sliding.pressure_speed(p, v)
    assert found == pytest.approx(internal(psi * feet, "psi*ft/minute", "MPa*mm/s"), rel=1e-9)


@proves("bush_pressure")
def test_the_pressures_of_a_worn_bore_carry_the_load():
    """A pressure of 4/π times the mean, falling off with the cosine, summed round the bore, is the load."""
    d, L, F = 8.0, 12.0, 30.0
    p = sliding.bush_pressure(F, d, L)
    carried = quad(lambda a: 4 / np.pi * p * np.cos(a) * np.cos(a) * L * d / 2, -np.pi / 2, np.pi / 2)[0]
    assert carried == pytest.approx(F, rel=1e-9)


@proves("swing_speed", "swing_distance", "turn_distance", "turning_speed")
def test_distance_and_mean_speed_of_a_real_motion():
    """Distance added up over one cycle: of a shaft that swings as a sine does, and of one that turns."""
    d, swing, rate = 8.0, 1.2, 0.4
    speed = lambda t: d / 2 * abs(swing / 2 * 2 * np.pi * rate * np.cos(2 * np.pi * rate * t))  # noqa: E731
    turns = [0.25 / rate, 0.75 / rate]
    slid = quad(speed, 0, 1 / rate, points=turns)[0]
    assert sliding.swing_distance(swing, d) == pytest.approx(slid, rel=1e-9)
    assert sliding.swing_speed(swing, d, rate) == pytest.approx(slid * rate, rel=1e-9)
    angles = np.linspace(0, 2 * np.pi, 100_001)
    path = np.hypot(np.diff(d / 2 * np.cos(angles)), np.diff(d / 2 * np.sin(angles))).sum()
    assert sliding.turn_distance(d) == pytest.approx(path, rel=1e-8)
    assert sliding.turning_speed(d, rate) == pytest.approx(path * rate, rel=1e-8)


@proves("intermittent_limit")
def test_short_runs_may_be_twice_as_hard():
    """A maker of lined bushes prints 1.8 for running on and 3.6 for short periods, MPa·m/s."""
    assert sliding.intermittent_limit(1800.0) == pytest.approx(3600.0)


# --- edges --------------------------------------------------------------------------------------------


@cache
def on_one_side(offset):
    """Greatest over mean of a pressure that rises evenly along the bush and never pulls, load off the middle.

    The two unknowns of the line are found from force and moment alone, by numbers.
    """

    def out_of_balance(line):
        middle, slope = line
        zero = -middle / slope
        inside = [zero] if -0.5 < zero < 0.5 else None
        pressure = lambda z: max(0.0, middle + slope * z)  # noqa: E731
        force = quad(pressure, -0.5, 0.5, points=inside)[0]
        moment = quad(lambda z: z * pressure(z), -0.5, 0.5, points=inside)[0]
        return force - 1, moment - offset

    start = (1.0, 12 * offset) if offset <= 1 / 6 else (1 - 3 * offset, 20 * offset)
    middle, slope = fsolve(out_of_balance, start, xtol=1e-13)
    assert max(map(abs, out_of_balance((middle, slope)))) < 1e-9
    return middle + slope / 2


def on_both_ends(moment, load):
    """(near, far) force of a bush of length 1 that bears a third of its length inwards from each end."""
    return np.linalg.solve([[1, -1], [1 / 3, 1 / 3]], [load, moment])


OFFSETS = (0.01, 0.08, 0.15, 0.16, 0.163, 0.166, 0.168, 0.171, 0.174, 0.2, 0.25, 1 / 3, 0.37, 0.39, 0.4)


@proves("edge_factor")
def test_edge_pressure_of_a_bush_that_bears_on_one_side():
    """Up to 0.4 as an evenly rising pressure gives it, on both sides of a sixth."""
    for offset in OFFSETS:
        assert sliding.edge_factor(offset) == pytest.approx(on_one_side(offset), rel=1e-7), offset


@proves("edge_factor", "near_end_force", "far_end_force", "end_pressure", "edge_offset", "edge_pressure",
        "both_ends_force", "end_mean_pressure")
def test_a_bush_that_bears_on_both_ends():
    """Beyond 0.4 as a pair two thirds of its length apart: forces by statics, edge twice the mean of a third."""
    d, L = 8.0, 12.0
    for M, R in ((180.0, 30.0), (150.0, 30.0), (148.0, 30.0), (600.0, 10.0), (50.0, 0.0), (0.0, 0.0)):
        near, far = on_both_ends(M / L, R)
        assert sliding.near_end_force(M, R, L) == pytest.approx(near, rel=1e-12)
        assert sliding.near_end_force(-M, R, L) == sliding.near_end_force(M, R, L)
        assert sliding.far_end_force(M, R, L) == sliding.far_end_force(-M, R, L) == pytest.approx(far, rel=1e-12)
        assert sliding.both_ends_force(near, far) == pytest.approx(3 * abs(M) / L, rel=1e-12)
        edge = 2 * near / (d * L / 3)
        assert 2 * sliding.end_mean_pressure(near, d, L) == pytest.approx(edge, rel=1e-12)
        assert sliding.end_pressure(near, d, L) == pytest.approx(edge, rel=1e-12)
        if R:
            offset = sliding.edge_offset(-M, R, L)
            assert offset == pytest.approx(M / R / L)
            mean = R / (d * L)
            found = sliding.edge_pressure(sliding.edge_factor(offset), mean)
            assert found == pytest.approx(max(edge, 20 / 3 * mean), rel=1e-12)


@proves("edge_factor")
def test_the_edge_factor_just_beyond_both_ends():
    """Between 0.4 and 11/27 the greatest factor of one side holds on, until both ends have as much."""
    for offset in (0.4001, 0.403, 0.407):
        assert sliding.edge_factor(offset) == pytest.approx(20 / 3, rel=1e-12)
    assert sliding.edge_factor(11 / 27) == pytest.approx(20 / 3, rel=1e-12)
    assert sliding.edge_factor(0.42) == pytest.approx(2 * 3 * on_both_ends(0.42, 1.0)[0], rel=1e-12)


def test_without_a_radial_load_the_ends_still_bear_the_moment():
    """Finite, both ends alike; the offset says that it does not hold."""
    assert sliding.near_end_force(50.0, 0.0, 10.0) == sliding.far_end_force(50.0, 0.0, 10.0) == 7.5
    assert not sliding.edge_offset.formula.held(dict(M_b=50.0, R_w=0.0, L=10.0))
    assert sliding.near_end_force.formula.held(dict(M_b=50.0, R_w=0.0, L=10.0))
    assert not sliding.far_end_force.formula.held(dict(M_b=39.0, R_w=10.0, L=10.0))


@given(st.floats(0, 3), st.floats(0, 3))
def test_farther_off_is_never_gentler(one, other):
    """The factor is one in the middle, rises, and is never below that of a bush without any clearance, 1 + 6 ε."""
    low, high = sorted((one, other))
    assert 1 <= sliding.edge_factor(low) <= sliding.edge_factor(high) * (1 + 1e-12)
    assert sliding.edge_factor(low) >= (1 + 6 * low) * (1 - 1e-12)


@pytest.mark.parametrize("boundary", [1 / 6, 0.4, 11 / 27])
def test_the_edge_factor_has_no_step(boundary):
    """Both sides of each boundary meet."""
    either_side = sliding.edge_factor(np.array([boundary - 1e-9, boundary, boundary + 1e-9]))
    assert np.ptp(either_side) < 1e-6


# --- wear ---------------------------------------------------------------------------------------------

LOAD, BORE, RATE = 30.0, 8.0, 1e-8  # N per mm of length, mm, mm²/N


@proves("fixed_wear", "one_sided_growth")
def test_wear_under_a_load_that_stands_still():
    """The shaft sinks at this rate once the loose bore is worn to it, by Archard's law point by point."""
    sinking = standing_load(LOAD, BORE, 0.002, RATE, 1e6, 400, 1e4)
    depth = sliding.fixed_wear(RATE, LOAD / BORE, 250.0)
    assert sliding.one_sided_growth(depth) == depth == pytest.approx(250 * sinking, rel=1e-4)


@proves("turning_wear", "all_round_growth")
def test_wear_under_a_load_that_turns_round():
    """Each point has the mean pressure of a turn, and both sides wear; a bore that fits its shaft wears most."""
    fitting, turn = round_load(LOAD, BORE, 0.0, 1e5), 25.0
    depth = sliding.turning_wear(RATE, LOAD / BORE, turn)
    assert depth == pytest.approx(RATE * fitting * turn, rel=1e-4)
    for clearance in (1e-6, 1e-4, 0.02):
        looser = RATE * round_load(LOAD, BORE, clearance, 1e5) * turn
        assert depth / 1.28 < looser < depth
    assert round_load(LOAD, BORE, 0.02, 1e7) == pytest.approx(LOAD / BORE / np.pi, rel=1e-3)
    one_side, other_side = depth, depth
    assert sliding.all_round_growth(depth) == one_side + other_side


def sweep(swing, direction):
    """Wear along and against a direction under a load that swings with the shaft, mean pressure and rate 1."""

    def seen(place):
        ahead = lambda a: 4 / np.pi * max(0.0, np.cos(place - a)) / swing  # noqa: E731
        edges = [place + turn * np.pi for turn in (-1.5, -0.5, 0.5, 1.5)]
        return quad(ahead, -swing / 2, swing / 2, points=[e for e in edges if abs(e) < swing / 2] or None)[0]

    return seen(direction) + seen(direction + np.pi)


def test_any_swing_under_half_a_turn_counts_as_a_load_that_stands_still():
    """A load that swings with the shaft never opens the bore more than that, and nearly as much when it is small.

    From half a turn on the bore opens as under a load that turns round, at most a seventh more.
    """
    fixed = sliding.one_sided_growth(sliding.fixed_wear(1.0, 1.0, 1.0))
    turning = sliding.all_round_growth(sliding.turning_wear(1.0, 1.0, 1.0))
    opening = {swing: max(sweep(swing, way) for way in np.linspace(0, np.pi, 25))
               for swing in (0.05, 0.8, 1.6, 2.4, 3.1, np.pi, 4.0, 4.7, 5.5, 2 * np.pi)}
    assert all(found <= fixed for found in opening.values())
    assert opening[0.05] == pytest.approx(fixed, rel=1e-3)
    assert opening[np.pi] == pytest.approx(turning, rel=1e-6)
    assert opening[2 * np.pi] == pytest.approx(turning, rel=1e-6)
    assert all(turning * (1 - 1e-9) <= found < turning * 8 / 7 for swing, found in opening.items() if swing > np.pi)


def test_a_load_that_turns_round_lasts_half_as_long_again():
    """A bush maker's example takes 1.5 for a rotating load; by the growth of the clearance it is π/2."""
    depths = [wear(1e-9, 2.0, 25.0) for wear in (sliding.fixed_wear, sliding.turning_wear)]
    ratio = sliding.one_sided_growth(depths[0]) / sliding.all_round_growth(depths[1])
    assert ratio == pytest.approx(np.pi / 2) and ratio == pytest.approx(1.5, rel=0.05)


@proves("wear_cycles", "worn_clearance", "wear_time", "cycles_wanted")
def test_cycles_counted_one_by_one():
    """Clearance added to, cycle after cycle, until it has doubled; time and clearance belong to that count."""
    clearance, growth, rate = 0.03, 1.7e-5, 0.2
    worn, count = clearance, 0
    while worn < 2 * clearance:
        worn, count = worn + growth, count + 1
    cycles = sliding.wear_cycles(clearance, growth)
    assert count - 1 < cycles <= count
    assert sliding.worn_clearance(clearance, count, growth) == pytest.approx(worn)
    assert sliding.wear_time(cycles, rate) == pytest.approx(sum(1 / rate for _ in range(count)), rel=1 / count)
    assert sliding.cycles_wanted(rate, 5.0 * count) == pytest.approx(count)


@proves("wear_room")
def test_twice_nothing_is_no_wear_life():
    """Doubled where there is clearance; by the clearance before pressing where that has left less."""
    assert sliding.wear_room(0.05, 8.03, 7.99) == 0.05  # bonded or loose in its hole: more than bore less shaft
    assert sliding.wear_room(0.001, 8.03, 7.99) == pytest.approx(0.04)
    grown = [sliding.wear_cycles(sliding.wear_room(c, 8.03, 7.99), 1e-6) for c in (1e-6, 1e-3, 0.04)]
    assert grown == pytest.approx([40_000] * 3)  # no cliff towards a bush pressed till nothing is left


def test_wear_factors_of_a_handbook_are_the_rates_of_the_file():
    """K of the book, in³·min/(lbf·ft·h), turned into mm³/(N·m) by pint, in the middle of each plastic's band."""
    found = read_course(ROOT).sliding
    for name, factors in (("nylon-66", (200e-10,)), ("acetal", (50e-10, 60e-10))):
        rates = [internal(K, "inch**3*minute/(lbf*ft*hour)", "mm**2/N") for K in factors]
        assert np.mean(rates) == pytest.approx(found[name].wear_rate.typical, rel=0.03)
    starved = internal(102e-10, "inch**3*minute/(lbf*ft*hour)", "mm**2/N")
    assert starved == pytest.approx(found["oil-bronze"].wear_rate.most, rel=0.03)


def test_an_oiled_bush_of_a_maker_wears_within_the_band():
    """A bush maker's page: 6e-5 to 3e-4 mm/(N/mm²·m/s·h) with oil now and then; its own kgf column agrees."""
    band = read_course(ROOT).sliding["oil-bronze"].wear_rate
    for metric, old in ((3e-4, 5e-7), (6e-5, 1e-7)):
        rate = internal(metric, "mm/(N/mm**2*m/s*hour)", "mm**2/N")
        assert internal(old, "mm/(kgf/cm**2*m/minute*hour)", "mm**2/N") == pytest.approx(rate, rel=0.05)
        assert band.least < rate < band.most


@given(st.floats(0.01, 50), st.floats(1.01, 10), st.floats(1e-10, 1e-6), st.floats(0.1, 100))
def test_more_pressure_never_lasts_longer(pressure, times, rate, distance):
    """Wear life falls with pressure, with distance and with the wear rate, each in the same measure."""

    def cycles(k, p, s):
        return sliding.wear_cycles(0.02, sliding.one_sided_growth(sliding.fixed_wear(k, p, s)))

    life = cycles(rate, pressure, distance)
    for shorter in (cycles(rate, pressure * times, distance), cycles(rate, pressure, distance * times),
                    cycles(rate * times, pressure, distance)):
        assert shorter == pytest.approx(life / times) and shorter < life


def test_nothing_wears_without_load_or_motion():
    """No load, no swing: no pressure, no speed, no wear, the clearance as it was; cycles then have no end."""
    assert sliding.bush_pressure(0.0, 8.0, 12.0) == sliding.swing_speed(0.0, 8.0, 2.0) == 0
    assert sliding.turning_speed(8.0, 0.0) == sliding.swing_distance(0.0, 8.0) == 0
    for wear in (sliding.fixed_wear, sliding.turning_wear):
        assert wear(1e-9, 0.0, 10.0) == wear(1e-9, 3.0, 0.0) == 0
    assert sliding.worn_clearance(0.03, 1e6, 0.0) == 0.03
    assert not sliding.wear_cycles.formula.held(dict(a_worn=0.03, g_w=0.0))
    assert sliding.wear_cycles(0.0, 1e-6) == 0 and sliding.wear_cycles.formula.held(dict(a_worn=0.0, g_w=1e-6))


@pytest.mark.parametrize(
    "formula", [f for f in DECLARED if f.function.__module__ == sliding.__name__], ids=lambda f: f.name
)
def test_arrays_pass_straight_through(formula):
    """A column of joints gives what each joint alone gives, and nothing endless."""
    values = inputs(formula, 50, seed=11)
    together = np.broadcast_to(formula.function(**values), len(next(iter(values.values()))))
    assert together == pytest.approx([formula.function(**one) for one in each(values)], rel=1e-12)
    assert np.isfinite(together).all()


# --- the course's file --------------------------------------------------------------------------------


@pytest.fixture
def folder(tmp_path):
    """A copy of the plain course, to be spoiled."""
    return shutil.copytree(PLAIN_COURSE, tmp_path / "course")


@pytest.fixture(scope="module")
def course():
    """The demo course."""
    return read_course(ROOT)


def test_a_row_is_read_into_our_units(folder):
    """MPa, mm/s, MPa·mm/s and mm²/N inside; friction in the middle, wear at the geometric middle of its limits."""
    bronze = read_course(folder).sliding["bronze"]
    assert (bronze.speed_design, bronze.pv_ceiling, bronze.temperature_most) == (1000, 1750, 75)
    assert ends(bronze.friction_start) == pytest.approx((0.075, 0.15, 0.225))
    assert ends(bronze.friction_run) == pytest.approx((0.05, 0.10, 0.15))
    assert ends(bronze.wear_rate) == pytest.approx((1e-11, 1e-10, 1e-9), rel=1e-9)
    spoil(folder, SLIDING, "MPa*m/s,MPa*m/s", "psi*ft/min,psi*ft/min")
    spoil(folder, SLIDING, "0.7,1.75", "20000,50000")
    bronze = read_course(folder).sliding["bronze"]
    assert bronze.pv_ceiling == pytest.approx(internal(50000, "psi*ft/minute", "MPa*mm/s"), rel=1e-9)


@pytest.mark.parametrize("text, dimension, unit, decades, band", [
    ("0.1 to 0.2", "number", "", False, (0.1, 0.15, 0.2)), ("0.1 ± 0.05", "number", "", False, (0.05, 0.1, 0.15)),
    ("1e-8 to 1e-6", "wear rate", "mm**3/(N*m)", True, (1e-11, 1e-10, 1e-9)),
    ("1e-8 to 1e-6 mm^3/(N*m)", "wear rate", "", True, (1e-11, 1e-10, 1e-9)),
    ("3e-7 to 3e-7", "wear rate", "mm**3/(N*m)", True, (3e-10, 3e-10, 3e-10)),
    ("200 to 300 psi", "stress", "MPa", False, tuple(internal(p, "psi", "MPa") for p in (200, 250, 300)))])
def test_the_forms_of_a_value_with_limits(text, dimension, unit, decades, band):
    """Both forms, the unit in the cell or over the column; what spans decades has its typical in between."""
    assert ends(read_band(text, dimension, unit, decades)) == pytest.approx(band, rel=1e-9)


WRONG = {
    "no unit": (SLIDING, "MPa*m/s,MPa*m/s", "MPa*m/s,-", "3 pv_ceiling", "no unit", "MPa*m/s"),
    "wrong unit": (SLIDING, "m/s,m/s", "m/s,mm", "2 speed_ceiling", "another kind (mm)", "speed"),
    "wear rate in another kind": (SLIDING, "mm^3/(N*m)", "mm^3", "2 wear_rate", "another kind (mm^3)", "wear rate"),
    "design above ceiling": (SLIDING, ",14,30,", ",40,30,", "3 pressure_design", "40 MPa", "pressure_ceiling (30"),
    "design and ceiling swapped": (SLIDING, ",1,7.5,", ",7.5,1,", "3 speed_design", "7500 mm/s", "(1000 mm/s)"),
    "product swapped": (SLIDING, "0.7,1.75", "1.75,0.7", "3 pv_design", "1750 MPa*mm/s", "(700 MPa*mm/s)"),
    "product beyond both": (
        SLIDING, "30,1,7.5,0.7,1.75", "30,1,2,0.7,61", "3 pv_ceiling", "61000 MPa*mm/s", "(60000 MPa*mm/s)"),
    "unknown material": (SLIDING, "bronze,bronze", "bronz,bronze", "3 id", '"bronz"', "bronze"),
    "ill-formed id": (SLIDING, "bronze,bronze", "Bronze,bronze", "3 id", '"Bronze"', "a-z"),
    "friction without limits": (SLIDING, "0.05 to 0.15", "0.10", "3 friction_run", "without limits", "0.10 ± 0.05"),
    "friction with a unit": (SLIDING, "0.15 ± 0.075", "0.15 N ± 0.075", "3 friction_start", "a unit (N)", "0.05 to"),
    "friction swapped": (SLIDING, "0.05 to 0.15", "0.15 to 0.05", "3 friction_run", "swapped", "0.05 to 0.15"),
    "friction below nothing": (SLIDING, "0.15 ± 0.075", "0.15 ± 0.2", "3 friction_start", "0.2", "at least 0"),
    "wear swapped": (SLIDING, "1e-8 to 1e-6", "1e-6 to 1e-8", "3 wear_rate", "swapped", "mm**3/(N*m)"),
    "wear of nothing": (SLIDING, "1e-8 to 1e-6", "0 to 1e-6", "3 wear_rate", '"0 to', "above 0 mm**2/N"),
    "wear off by decimals": (SLIDING, "1e-8 to 1e-6", "1e-8 to 1e6", "3 wear_rate", "1e6", "at most 0.001 mm**2/N"),
    "decimal comma": (SLIDING, "0.05 to 0.15", '"0,05 to 0,15"', "3 friction_run", "decimal comma", "0.05 to 0.15"),
    "empty": (SLIDING, "1e-8 to 1e-6", "", "3 wear_rate", "an empty cell", "wear rate"),
    "unknown source": (SLIDING, "invented", "hearsay", "3 source", '"hearsay"', "sources.yaml"),
}


@pytest.mark.parametrize("case", WRONG.values(), ids=WRONG)
def test_a_wrong_cell_is_told(folder, case):
    """One wrong cell: one mistake about it, in the form of every table; the bushes are not blamed for it."""
    check(folder, case)


def test_a_bush_that_nobody_says_how_it_slides(folder):
    """A material of a bush without a row: told once, with the bush; the steel parts need none."""
    spoil(folder, "data/parts/sleeve_bushings.csv", "0.3,bronze,oiled,0.5,invented\n", "0.3,steel,plain,0.5,invented\n")
    (told,) = mistakes_of(folder)
    assert told.file == SLIDING and told.found == "no row steel, of which bush is made"


def test_the_file_itself_may_not_be_missing(folder):
    """Gone: that alone is told, the bushes are not blamed for it."""
    (folder / SLIDING).unlink()
    (told,) = mistakes_of(folder)
    assert (told.file, told.found) == (SLIDING, "no such file")


def test_every_cell_carries_its_source(course):
    """Each column of each row leads to a source of its own row or of the row; memory is marked as memory."""
    for material in course.sliding.values():
        for column in set(SlidingMaterial.model_fields) - {"id", "name", "source"}:
            assert material.source_of(column) in course.sources, (material.id, column)
        assert course.sources[material.source_of("wear_rate")].kind == "memory"
        assert course.sources[material.source_of("pressure_design")].kind == "common practice"


def test_every_bush_of_the_catalogue_has_a_row(course):
    """Bronze bushes and nylon spacers; acetal stands ready for a course that has some."""
    bushes = [part for part in course.parts.values()
              if isinstance(part, SleeveBushing) or isinstance(part, Spacer) and part.bush == "yes"]
    assert {part.material for part in bushes} <= set(course.sliding) >= {"oil-bronze", "nylon-66", "acetal"}
    assert set(course.sliding) <= set(course.materials)


def test_the_limits_are_those_of_the_handbooks(course):
    """As printed: bronze 30 MPa, 7.5 m/s, 0.7 MPa·m/s and 75 °C, nylon 7 MPa, 2.5 m/s and 95 °C in Mechanical

    Engineer's Data Handbook; 50 000 and 3000 psi·ft/min in Machine Elements in Mechanical Design, Table 16-1.
    """
    bronze, nylon = course.sliding["oil-bronze"], course.sliding["nylon-66"]
    assert (bronze.pressure_ceiling, bronze.speed_ceiling, bronze.pv_design) == (30, 7500, 700)
    assert (nylon.pressure_ceiling, nylon.speed_ceiling) == (7, 2500)
    assert (bronze.temperature_most, nylon.temperature_most) == (75, 95)
    for material, printed in ((bronze, 50_000), (nylon, 3000)):
        assert material.pv_ceiling == pytest.approx(read_quantity(f"{printed} psi*ft/min", "pv"), rel=0.005)


def test_bands_and_limits_are_in_order(course):
    """Design below ceiling; friction and wear least, typical, most; breaking away is not easier than moving."""
    for material in course.sliding.values():
        for limit in LIMITS:
            assert 0 < getattr(material, f"{limit}_design") <= getattr(material, f"{limit}_ceiling")
        for band in (material.friction_start, material.friction_run, material.wear_rate):
            assert 0 < band.least < band.typical < band.most
        assert material.friction_start.typical >= material.friction_run.typical
    rows = list(csv.DictReader((ROOT / SLIDING).open(encoding="utf-8")))
    assert len(rows) - 1 == len(course.sliding) == 3


def test_wear_life_of_a_band_is_a_band(course):
    """Least wear rate, longest life: the ends change places, so corners must be worked out, not passed through."""
    wear = course.sliding["nylon-66"].wear_rate
    lives = [sliding.wear_cycles(0.1, sliding.fixed_wear(k, 0.5, 10.0)) for k in (wear.least, wear.typical, wear.most)]
    assert lives == sorted(lives, reverse=True)
    likely = Quantity("-", band=Band(*reversed(lives)))
    assert judge(likely, "least", lives[1]) == "take care" and judge(likely, "least", lives[2]) == "holds"
