"""Made holes and their chances: against sampling, integrals, polygons and the program over straight lines."""

from functools import cache
from itertools import product

import numpy as np
import pytest
from play_reference import Bore, gaps
from proofs import proves
from ring_reference import pressed as rings_pressed
from scipy import stats
from scipy.integrate import quad
from scipy.optimize import brentq, linprog, minimize_scalar
from scipy.sparse import block_diag, csr_array

from guidegen.joint.reach import scatter_of
from guidegen.kit.own_holes import MeasuredHole, told_by
from guidegen.kit.records import Process
from guidegen.theory import chances, clearance, freeplay, grip, holes, pressfit

CELL = 0.001  # mm
MILLION = 1_000_000


def burnt(line_at, cut):
    """Which cells of a strip, 1 µm each, are burnt away by cuts along lines at these places."""
    at = (np.arange(30_000) + 0.5) * CELL
    return at, np.any(np.abs(at[:, None] - np.asarray(line_at)) < cut / 2, axis=1)


@proves("raw_hole", "raw_plug", "kerf_of_plug")
def test_a_cut_on_the_drawn_line():
    """A strip burnt cell by cell: the hole grows and the plug shrinks by the whole width of the cut."""
    for drawn, cut in ((12.0, 0.2), (5.0, 0.12), (20.0, 0.35)):
        at, gone = burnt((3.0, 3.0 + drawn), cut)
        hole = at[gone].max() - at[gone].min() + CELL
        plug = (~gone & (at > 3.0) & (at < 3.0 + drawn)).sum() * CELL
        assert holes.raw_hole(drawn, cut) == pytest.approx(hole, abs=CELL)
        assert holes.raw_plug(drawn, cut) == pytest.approx(plug, abs=CELL)
        assert holes.kerf_of_plug(hole, plug) == pytest.approx(cut, abs=CELL)


@proves("kerf_of_cuts")
def test_many_cuts_pushed_together():
    """Eleven cuts across a strip: all that was burnt is one gap."""
    _, gone = burnt(2.0 + 2.5 * np.arange(11), 0.18)
    assert holes.kerf_of_cuts(gone.sum() * CELL, 11) == pytest.approx(0.18, abs=CELL)


@proves("made_hole")
def test_made_holes_scatter_about_the_drawn_one_and_the_bias():
    """A quarter of a million holes: their mean and their spread."""
    made = holes.made_hole(12.0, -0.2, 0.03, np.random.default_rng(1).standard_normal(250_000))
    assert made.mean() == pytest.approx(12.0 - 0.2, abs=4 * 0.03 / 500)
    assert made.std() == pytest.approx(0.03, rel=0.01)
    assert np.mean(made < holes.made_hole(12.0, -0.2, 0.03, 1.5)) == pytest.approx(
        stats.norm.cdf(1.5), abs=0.004
    )
    assert holes.made_hole(12.0, 0.1, 0.0, 3.0) == pytest.approx(clearance.drawn_hole(12.0, -0.1))


@proves("next_spread")
def test_the_next_hole_scatters_more_than_those_measured():
    """The error of "next less mean of n" is a sum of independent ones: its weights, squared and summed."""
    for n in (2, 3, 5, 20):
        weights = np.array([1.0, *[-1 / n] * n])
        assert holes.next_spread(0.03, n) == pytest.approx(0.03 * np.linalg.norm(weights))


ABOUT = {"stocks": "wood", "position": 0.1, "squareness": 0.0, "measured": "no"}
LASER = Process(id="laser", name="laser", source="", bias=0.0, spread=0.04, **ABOUT)


def strip(drawn, made):
    """Holes of a test strip, as a course's file would hold them."""
    rows = enumerate(zip(map(float, drawn), map(float, made)))
    return [MeasuredHole(id=f"h{n}", process="laser", drawn=a, made=b) for n, (a, b) in rows]


def test_own_holes_foretell_the_next_one_by_students_t():
    """Samples of three: the next hole lies as deep in its foretold distribution as it should, evenly."""
    rng = np.random.default_rng(4)
    depths = []
    for made in 10.05 + 0.02 * rng.standard_normal((8000, 4)):
        own = told_by(strip([10.0] * 3, made[:3]), LASER)
        scatter = scatter_of(own)
        depths.append(stats.t.cdf((made[3] - 10.0 - own.bias) / scatter.spread, scatter.freedom))
    assert stats.kstest(depths, "uniform").pvalue > 0.01
    own = told_by(strip([10.0, 12.0, 16.0], [10.1, 12.16, 16.13]), LASER)
    spread, freedom = scatter_of(own)
    assert own.bias == pytest.approx(0.13) and freedom == 2 and own.measured == "yes"
    assert spread == pytest.approx(np.std([0.1, 0.16, 0.13], ddof=1) * (4 / 3) ** 0.5)
    assert scatter_of(LASER) == (0.04, np.inf)


def polygon(corners, diameter):
    """Corners of an even polygon on a circle, as complex numbers."""
    return diameter / 2 * np.exp(2j * np.pi * np.arange(corners) / corners)


@proves("across_flats")
def test_what_goes_through_a_hole_of_facets():
    """The largest disc inside a polygon: twice the least distance of a point on its sides from the middle."""
    for corners, diameter in product((3, 6, 12, 25), (8.0, 22.0)):
        ends = polygon(corners, diameter)
        sides = ends[:, None] + np.linspace(0, 1, 2001) * (np.roll(ends, -1) - ends)[:, None]
        assert holes.across_flats(diameter, corners) == pytest.approx(2 * np.abs(sides).min(), rel=1e-6)


@proves("facet_count")
def test_facets_of_one_length_round_a_circle():
    """The angle of a chord found by trying; how often it goes round."""
    for diameter, chord in ((8.0, 0.5), (22.0, 2.0), (10.0, 8.0)):
        angle = brentq(lambda a: abs(diameter / 2 * (1 - np.exp(1j * a))) - chord, 0, np.pi, xtol=1e-14)
        assert holes.facet_count(diameter, chord) == pytest.approx(2 * np.pi / angle)


@proves("narrow_side")
def test_a_cut_wall_that_leans():
    """A wall as a line turned in the plane, followed to the far side."""
    for wide, sheet, lean in ((22.0, 6.0, 0.02), (12.0, 3.0, 0.0), (9.5, 5.0, 0.3)):
        wall = complex(wide / 2, 0) + np.exp(1j * (np.pi / 2 + lean)) * np.array([0.0, sheet / np.cos(lean)])
        assert wall[1].imag == pytest.approx(sheet)
        assert holes.narrow_side(wide, sheet, lean) == pytest.approx(2 * wall[1].real)


@proves("tapered_interference")
def test_interference_along_a_tapered_hole():
    """Summed over thin slices; wholly tight, half loose, wholly loose, without taper."""
    for narrow, wide in (
        (0.05, 0.01),
        (0.03, -0.05),
        (-0.01, -0.04),
        (0.02, 0.02),
        (0.0, 0.0),
        (-0.01, -0.01),
    ):
        slices = np.maximum(0, np.linspace(narrow, wide, 200_001))
        mean = holes.tapered_interference(narrow, wide, 12.0)
        assert mean == pytest.approx(np.trapezoid(slices) / 200_000, abs=1e-7)


# chances of a fit -------------------------------------------------------------------------------------------

FITS = [  # limits of the outside diameter, mean hole, spread, grips from, cracks from, freedom of t
    (9.992, 10.0, 9.95, 0.02, 0.01, 0.06, np.inf),
    (9.992, 10.0, 9.98, 0.02, 0.01, 0.06, 1),
    (12.023, 12.034, 11.99, 0.03, 0.004, 0.05, 2),
    (12.023, 12.034, 12.0, 0.001, 0.004, 0.05, 4),
    (21.991, 22.0, 21.9, 0.05, 0.0, 0.02, 9),
    (9.5, 9.5, 9.47, 0.015, 0.01, 0.05, np.inf),
]


def made(freedom, rng, count=MILLION):
    return rng.standard_normal(count) if np.isinf(freedom) else rng.standard_t(freedom, count)


def near(share, count=MILLION):
    """Four standard errors of a share counted in so many trials."""
    return 4 * np.sqrt(max(share * (1 - share), 10 / count) / count)


@cache
def counted(fit):
    """Shares loose, right and cracked among a million bearings in a million holes."""
    least, most, hole, spread, grips, cracks, freedom = fit
    rng = np.random.default_rng([FITS.index(fit), 3])
    tight = rng.uniform(least, most, MILLION) - hole - spread * made(freedom, rng)
    cracked, loose = tight >= cracks, (tight < cracks) & (tight < grips)
    return loose.mean(), 1 - loose.mean() - cracked.mean(), cracked.mean()


@proves("tight_by", "chances")
def test_chances_of_a_fit_against_a_million_bearings():
    """Loose, right and cracked as counted, normal and Student's t, wide and narrow spreads."""
    for fit in FITS:
        found = chances.chances(*fit)
        for ours, theirs in zip(found, counted(fit)):
            assert ours == pytest.approx(theirs, abs=near(theirs)), fit


@cache
def integrals():
    """Random fits, and the chance of interference by an integral over the outside diameter."""
    rng, found = np.random.default_rng(8), []
    for freedom in (1, 1.5, 2, 3, 12, 200, np.inf):
        law = stats.norm if np.isinf(freedom) else stats.t(freedom)
        for _ in range(12):
            least = rng.uniform(9.9, 10.0)
            most = least + rng.choice([1e-7, 1e-3, 0.02, 0.3])
            hole, spread, reach = (
                rng.uniform(9.8, 10.1),
                rng.choice([0.003, 0.02, 0.1]),
                rng.uniform(-0.1, 0.1),
            )
            edges = np.unique(
                np.clip([least, most, *(reach + hole + spread * np.arange(-8, 9))], least, most)
            )
            parts = [
                quad(lambda d: law.cdf((d - reach - hole) / spread), a, b, epsabs=1e-14)[0]
                for a, b in zip(edges, edges[1:])
            ]
            found.append(((reach, least, most, hole, spread, freedom), sum(parts) / (most - least)))
    return found


@proves("tight_by", "_distribution")
def test_chance_of_an_interference_against_integrals():
    """The closed form to a ten-thousand-millionth."""
    for fit, share in integrals():
        assert chances.tight_by(*fit) == pytest.approx(share, abs=1e-9), fit


@proves("tight_by")
def test_chances_where_nothing_scatters():
    """Only the bearing varies, only the hole, neither; no limit at all; arrays of both."""
    assert chances.tight_by(0.02, 9.99, 10.01, 9.985, 0.0) == pytest.approx(0.25)
    assert chances.tight_by(0.02, 10.0, 10.0, 9.97, 0.02) == pytest.approx(stats.norm.cdf(0.5))
    assert [chances.tight_by(r, 10.0, 10.0, 9.97, 0.0) for r in (0.02, 0.04)] == [1.0, 0.0]
    assert (
        chances.tight_by(np.inf, 9.99, 10.0, 9.9, 0.02) == 0 == chances.tight_by(np.inf, 9.99, 10.0, 9.9, 0.0)
    )
    mixed = chances.tight_by(0.02, 9.99, 10.01, 9.985, np.array([0.0, 0.02]))
    assert mixed == pytest.approx([0.25, chances.tight_by(0.02, 9.99, 10.01, 9.985, 0.02)])
    with pytest.raises(ValueError, match="two measured holes"):
        chances.tight_by(0.0, 9.99, 10.0, 9.98, 0.02, 0)


def test_the_three_chances_add_to_exactly_one():
    """Not by a hair more or less, whatever the order, over random fits; holding and cracking crossed too."""
    rng = np.random.default_rng(2)
    for freedom in (1, 3, np.inf):
        found = chances.chances(
            9.99,
            10.0,
            rng.uniform(9.8, 10.1, 5000),
            rng.choice([0, 1e-9, 0.003, 0.02, 0.1], 5000),
            rng.uniform(0, 0.08, 5000),
            rng.uniform(0, 0.1, 5000),
            freedom,
        )
        for order in ((0, 1, 2), (2, 1, 0), (1, 2, 0)):
            a, b, c = (found[n] for n in order)
            assert np.array_equal(a + b + c, np.ones(5000)) and (np.minimum(np.minimum(a, b), c) >= 0).all()
    crossed = chances.chances(9.99, 10.0, 9.95, 0.02, 0.08, 0.05)
    assert crossed.right == 0 and crossed.cracked > 0.3


def test_one_pressure_and_one_torque_decide():
    """A million bronze bushes in acrylic, each with its own pressure, stress and torque: the chances agree.

    The interference from which it holds, and that at which it cracks, are those of the middle bush.
    """
    bore, length, edge, limit, torque, friction = 8.0, 6.0, 14.0, 55.0, 60.0, 0.25
    E_h, nu_h, E_b, nu_b = 3100.0, 0.37, 70e3, 0.22
    least, most, hole, spread = 12.023, 12.034, 11.88, 0.1
    rng = np.random.default_rng(12)
    D = rng.uniform(least, most, MILLION)
    tight = D - hole - spread * rng.standard_normal(MILLION)
    k_h, k_b = pressfit.hub_ratio(2 * edge, D), pressfit.bush_ratio(D, bore)
    p = pressfit.press_pressure(tight, D, k_h, nu_h, E_h, k_b, nu_b, E_b)
    cracked = pressfit.hub_stress(p, k_h) >= limit
    loose = grip.holding_torque(grip.push_force(friction, D, length, p), D) < torque
    middle = (least + most) / 2
    k_h, k_b = pressfit.hub_ratio(2 * edge, middle), pressfit.bush_ratio(middle, bore)
    ring = (middle, k_h, nu_h, E_h, k_b, nu_b, E_b)
    grips = grip.pressure_interference(grip.torque_pressure(torque, friction, middle, length), *ring)
    cracks = grip.pressure_interference(grip.hoop_pressure(limit, k_h), *ring)
    found = chances.chances(least, most, hole, spread, grips, cracks)
    assert 0.05 < cracked.mean() < 0.5 and 0.05 < loose.mean() < 0.5
    assert found.cracked == pytest.approx(cracked.mean(), abs=near(cracked.mean()) + 1e-4)
    assert found.loose == pytest.approx(loose.mean(), abs=near(loose.mean()) + 1e-4)


@proves("closing_pressure")
def test_pressure_that_closes_a_bore():
    """Rings by finite elements: the pressure between them and how far the inner one closed belong together."""
    for inside, D, outside, tight, bush, hub in (
        (8.03, 12.0, 36.0, 0.03, (100_000.0, 0.3), (68_900.0, 0.33)),
        (18.2, 22.0, 40.0, 0.02, (207_000.0, 0.3), (2_475.0, 0.35)),
        (8.1, 12.0, 30.0, 0.1, (2_700.0, 0.4), (8_600.0, 0.2)),
    ):
        p, closed, *_ = rings_pressed(inside, D, outside, tight, bush, hub)
        assert holes.closing_pressure(closed, D, inside, bush[0]) == pytest.approx(p, rel=2e-4)


@proves("best_hole", "best_drawn")
def test_the_best_hole_by_grid_and_by_search():
    """No drawn size on a fine grid, nor one found by search, brings more bearings out right."""
    for least, most, _, spread, grips, cracks, freedom in FITS:
        best = chances.best_drawn(least, most, 0.15, spread, grips, cracks, freedom)

        def right(drawn):
            return chances.chances(least, most, drawn + 0.15, spread, grips, cracks, freedom).right

        grid = best.drawn + np.linspace(-0.1, 0.1, 2001)
        assert best.chances.right >= right(grid).max() - 1e-9
        found = minimize_scalar(
            lambda d: -right(d), bounds=(best.drawn - 0.05, best.drawn + 0.04), method="bounded"
        )
        assert best.chances.right >= -found.fun - 1e-9
        even = np.flatnonzero(
            right(grid) >= best.chances.right - 1e-6
        )  # where it matters, only the middle is best
        assert grid[even].mean() == pytest.approx(best.drawn, abs=2e-4)
        assert holes.best_hole((least + most) / 2, grips, cracks) - 0.15 == pytest.approx(best.drawn)


def test_even_the_best_may_not_be_worth_while():
    """Two holes of one's own and a brittle sheet: less than half come out right, and it is said."""
    poor = chances.best_drawn(12.023, 12.034, 0.0, 0.05, 0.01, 0.04, 1)
    good = chances.best_drawn(12.023, 12.034, 0.0, 0.005, 0.01, 0.06, 9)
    assert poor.chances.right < 0.5 and not poor.enough
    assert good.chances.right > 0.9 and good.enough


def test_which_way_to_err():
    """Away from the crack; where nothing cracks, towards the tight side."""
    brittle = chances.chances(12.023, 12.034, 11.97, 0.02, 0.005, 0.06)
    tough = chances.chances(12.023, 12.034, 11.97, 0.02, 0.005, 0.5)
    assert chances.err_towards(brittle) == "larger" and chances.err_towards(tough) == "smaller"


# chances of binding -----------------------------------------------------------------------------------------

KINDS = {  # c_1, c_2, L_1, L_2, separation, free slopes
    "bush-bush": chances.Bearings(0.04, 0.06, 8.0, 12.0, 30.0, 0.04 / 8, 0.06 / 12),
    "near": chances.Bearings(0.05, 0.03, 10.0, 10.0, 10.5, 0.005, 0.003),
    "bush-ball": chances.Bearings(0.05, 0.03, 10.0, 0.0, 25.0, 0.005, 0.006),
    "ball-bush": chances.Bearings(0.03, 0.05, 0.0, 10.0, 25.0, 0.006, 0.005),
    "ball-ball": chances.Bearings(0.03, 0.04, 0.0, 0.0, 40.0, 0.004, 0.006),
}
MISSED = [
    (0.05, 0.0, 0.0),
    (0.05, 0.002, 0.004),
    (0.01, 0.004, 0.003),
    (0.0, 0.002, 0.002),
    (0.08, 0.0, 0.003),
]


def bores(two, offset, lean_1, lean_2):
    """Both bearings as the program over straight lines takes them; a bush sets its own free slope."""
    free = [s if L == 0 else np.inf for s, L in ((two.s_1, two.L_1), (two.s_2, two.L_2))]
    return (
        Bore(0.0, two.L_1, two.c_1, 0.0, lean_1, free[0]),
        Bore(two.separation, two.L_2, two.c_2, offset, lean_2, free[1]),
    )


@proves("lean_limit")
def test_how_far_one_bore_may_lean():
    """The lean at which the program finds that the bores must give way, for each kind of pair."""
    for kind, limit in leans().items():
        two = KINDS[kind]
        found = holes.lean_limit(two.c_1, two.c_2, two.separation, two.L_1, two.L_2, two.s_1, two.s_2)
        assert found == pytest.approx(limit, rel=1e-5), kind


@cache
def leans():
    return {
        kind: brentq(lambda a: gaps([bores(two, 0.0, 0.0, a)])[0] - 1e-8, 0, 0.05, xtol=1e-9)
        for kind, two in KINDS.items()
    }


@proves("offset_spread")
def test_offset_of_two_bores_placed_one_by_one():
    """The spread of a difference, from its weights and the spreads of both."""
    for one, two in ((0.05, 0.05), (0.02, 0.12), (0.0, 0.06)):
        weights = np.array([1.0, -1.0])
        assert holes.offset_spread(one, two) == pytest.approx(
            np.sqrt(weights @ np.diag([one**2, two**2]) @ weights)
        )


def drawn(spreads, count, seed):
    """Offsets and slopes of both bores, normal."""
    return np.array(spreads)[:, None] * np.random.default_rng(seed).standard_normal((3, count))


@cache
def bound_by_program():
    """Share of 800 random pairs of bores that must give way, by the program, by kind and spreads."""
    found = {}
    for (kind, two), (n, spreads) in product(KINDS.items(), enumerate(MISSED[1:3])):
        sample = [bores(two, *one) for one in drawn(spreads, 800, n).T]
        found[kind, spreads] = (gaps(sample) > 1e-9).mean()
    return found


@proves("binds_in_plane", "_offset_within", "_farthest")
def test_chance_of_binding_in_a_plane_by_the_program_over_lines():
    """Bushes and balls, offset and crooked at random: how often no straight line passes."""
    for (kind, spreads), share in bound_by_program().items():
        ours = chances.binds_in_plane(KINDS[kind], *spreads)
        assert ours == pytest.approx(share, abs=near(share, 800)), (kind, spreads)


@cache
def bound_by_stations():
    """The same for a hundred and fifty thousand pairs by the station form, which that program has proved."""
    found = {}
    for (kind, two), (n, spreads) in product(KINDS.items(), enumerate(MISSED)):
        offset, lean_1, lean_2 = drawn(spreads, 150_000, [n, 5])
        half_1, half_2 = two.L_1 / 2, two.L_2 / 2
        z = np.array([-half_1, half_1, two.separation - half_2, two.separation + half_2])
        axis = np.array(
            [-half_1 * lean_1, half_1 * lean_1, offset - half_2 * lean_2, offset + half_2 * lean_2]
        ).T
        room = np.array([two.c_1, two.c_1, two.c_2, two.c_2]) / 2
        free = [two.s_1 if two.L_1 == 0 else 1.0, two.s_2 if two.L_2 == 0 else 1.0]
        keep = [0, 1] * (two.L_1 > 0) or [0]
        keep = keep + ([2, 3] if two.L_2 > 0 else [2])
        least, most = freeplay.tilt_range(
            np.broadcast_to(z, axis.shape)[:, keep],
            (axis - room)[:, keep],
            (axis + room)[:, keep],
            np.maximum(lean_1 - free[0], lean_2 - free[1]),
            np.minimum(lean_1 + free[0], lean_2 + free[1]),
        )
        found[kind, spreads] = (least > most).mean()
    return found


@proves("binds_in_plane", "_offset_within", "_farthest")
def test_chance_of_binding_in_a_plane_by_many_more_samples():
    """To a fifth of a per cent, with one or two kinds of error missing as well."""
    for (kind, spreads), share in bound_by_stations().items():
        ours = chances.binds_in_plane(KINDS[kind], *spreads)
        assert ours == pytest.approx(share, abs=near(share, 150_000)), (kind, spreads)


@proves("binds_in_plane")
def test_bores_that_only_miss_each_other():
    """The two tails beyond the offset limit; nothing at all when bores are true, all when they cannot be."""
    for two in KINDS.values():
        gap = two.separation - (two.L_1 + two.L_2) / 2
        limit = freeplay.offset_limit(two.c_1, two.c_2, gap, two.s_1, two.s_2)
        assert chances.binds_in_plane(two, 0.05) == pytest.approx(2 * stats.norm.sf(limit / 0.05))
        assert chances.binds_in_plane(two, 0.0) == 0 == chances.binds(two, 0.0)
        tight = two._replace(c_1=0.0, c_2=0.0, s_1=0.0, s_2=0.0)
        assert chances.binds_in_plane(tight, 0.05, 0.001, 0.001) == 1
    rows = KINDS["bush-bush"]._replace(c_1=np.array([0.02, 0.04]), s_1=np.array([0.02, 0.04]) / 8)
    each = [chances.binds(rows._replace(c_1=c, s_1=c / 8), 0.05, 0.002, 0.004) for c in rows.c_1]
    assert chances.binds(rows, 0.05, 0.002, 0.004) == pytest.approx(each)


@proves("binds")
def test_offset_in_space_follows_rayleighs_law():
    """Where only the places miss, the offset in space is Rayleigh's: ours within 0.013, and never below."""
    two = KINDS["bush-bush"]
    limit = freeplay.offset_limit(two.c_1, two.c_2, 20.0, two.s_1, two.s_2)
    for spread in limit / np.array([0.3, 0.7, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0]):
        exact = np.exp(-((limit / spread) ** 2) / 2)
        assert -1e-12 <= chances.binds(two, spread) - exact < 0.0135


def binds_in_space(two, offset, lean_1, lean_2):
    """Whether no straight shaft passes through round bores: a program with each mouth as a 24-sided hole.

    offset, lean_1, lean_2: shape (2, joints), along two directions at right angles.
    """
    angles = 2 * np.pi * (np.arange(24) + 0.5) / 24
    across = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    blocks, limits = [], []
    for e, a, b in zip(offset.T, lean_1.T, lean_2.T):
        rules, rooms = [], []
        for middle, L, c, off, lean, s in (
            (0.0, two.L_1, two.c_1, 0 * e, a, two.s_1),
            (two.separation, two.L_2, two.c_2, e, b, two.s_2),
        ):
            for z in (-L / 2, L / 2) if L else (0.0,):
                place = off + lean * z
                rules.append(np.hstack([across, across * (middle + z), -np.ones((24, 1))]))
                rooms.append(1000 * (c / 2 + across @ place))
            if not L:
                rules.append(np.hstack([0 * across, across, -np.ones((24, 1))]))
                rooms.append(1000 * (s + across @ lean))
        blocks.append(np.vstack(rules))
        limits.append(np.concatenate(rooms))
    found = linprog(
        np.tile([0.0, 0, 0, 0, 1], len(blocks)),
        A_ub=csr_array(block_diag(blocks)),
        b_ub=np.concatenate(limits),
        bounds=([(None, None)] * 4 + [(0, None)]) * len(blocks),
        method="highs",
    )
    assert found.status == 0, found.message
    return found.x.reshape(-1, 5)[:, 4] > 1e-6


@proves("binds")
def test_chance_of_binding_in_space_by_a_program():
    """Round bores that miss each other and lean in all directions: within three hundredths of ours."""
    for (kind, spreads), share in bound_in_space().items():
        ours = chances.binds(KINDS[kind], *spreads)
        assert ours == pytest.approx(share, abs=0.03 + near(share, 400) / 2), (kind, spreads)


@cache
def bound_in_space():
    found = {}
    for kind, spreads in (
        ("bush-bush", MISSED[1]),
        ("bush-bush", MISSED[2]),
        ("ball-ball", MISSED[1]),
        ("bush-ball", MISSED[2]),
    ):
        sample = drawn(spreads, 800, 6).reshape(3, 2, 400)
        found[kind, spreads] = binds_in_space(KINDS[kind], *sample).mean()
    return found
