"""The published tables that come with the program, against other tables, formulas and worked examples."""
import itertools
import math
import re

import isofits
import numpy as np
import pytest
from pressfit import fit
from scipy.optimize import brentq
from scipy.special import ellipe, ellipkm1

from guidegen.kit import lookup
from guidegen.kit.contradictions import STOCK_KINDS
from guidegen.kit.lookup import OutsideTable, limits_of_class
from guidegen.kit.reader import package_sources
from guidegen.kit.records import source_marks
from guidegen.kit.tables import read_table, table_names
from guidegen.units import MM_PER_INCH, read_quantity

INCH = MM_PER_INCH
SMALLEST_SIZES = [0.5, 3, 3.01, 6, 6.01, 10, 10.01, 18, 18.01, 30]  # both sides of every boundary
# isofits 1.0 prints K6 for 6-10 mm as +2/-6, which is 8 wide where IT6 is 9: the right limits are +2/-7
SLIPS = {("K6", "6", "10"): (-0.007, 0.002)}


def micrometres(limits):
    return tuple(round(1000 * limit, 3) for limit in limits)


def isofits_cells():
    """Every class and range of the isofits package that ISO 286 letters of this guide cover."""
    for table in (isofits.hole_data, isofits.shaft_data):
        for name in set(table) - {"over", "inc."}:
            if name.lower().startswith("a"):
                continue  # a letter that the guide has no use for
            for over, to, cell in zip(table["over"], table["inc."], table[name]):
                if float(to) <= 50:
                    yield name, over, to, cell


def test_iso_286_classes_equal_an_independent_package():
    """Each class and range that isofits prints, cell by cell, its one slip set right."""
    compared = 0
    for name, over, to, cell in isofits_cells():
        upper, lower = (float(limit) / 1000 for limit in cell.split("\n"))
        for size in (float(over) + 0.001, float(to)):
            found = limits_of_class(size, name)
            assert found == pytest.approx(SLIPS.get((name, over, to), (lower, upper)), abs=1e-9), (name, size)
            compared += 1
    assert compared > 650


def test_the_slip_of_that_package_is_still_there():
    """The exception above is needed: its K6 for 6-10 mm is not as wide as its own h6."""
    at = isofits.hole_data["over"].index("6")
    assert isofits.hole_data["K6"][at].split("\n") == ["+2", "-6"]
    assert isofits.shaft_data["h6"][at].split("\n") == ["-0", "-9"]


@pytest.mark.parametrize("grade", range(5, 12))
def test_iso_286_shafts_and_h_holes_equal_a_second_package(grade):
    """Each letter and grade of pressfit, on both sides of every boundary, to the micrometre."""
    for letter, size in itertools.product(("c", "d", "e", "f", "g", "h", "js", "k", "m", "n", "p", "s"),
                                          SMALLEST_SIZES):
        theirs = fit(f"H{grade}/{letter}{grade}", size)
        assert micrometres(limits_of_class(size, f"{letter}{grade}")) == (theirs.shaft_ei_um, theirs.shaft_es_um)
        assert micrometres(limits_of_class(size, f"H{grade}")) == (theirs.hole_ei_um, theirs.hole_es_um)


def test_tolerance_grades_follow_the_tolerance_unit():
    """IT5 to IT14 within 10 per cent of 7i ... 400i, i = 0.45 D^(1/3) + 0.001 D (ISO 286-1, basis of the grades).

    Up to 3 mm the standard rounds upwards by more, and is left out.
    """
    multiples = dict(zip(range(5, 15), (7, 10, 16, 25, 40, 64, 100, 160, 250, 400)))
    for over, to in ((3, 6), (6, 10), (10, 18), (18, 30), (30, 50)):
        middle = math.sqrt(over * to)
        unit = 0.45 * middle ** (1 / 3) + 0.001 * middle
        for grade, multiple in multiples.items():
            width = -1000 * limits_of_class(to, f"h{grade}")[0]
            assert width == pytest.approx(multiple * unit, rel=0.1), (to, grade)


def test_delta_values_are_those_printed():
    """Delta of ISO 286-1:2010 Table 3 for IT5 to IT8: the shift of a K hole from its base."""
    printed = {6: (1, 3, 4, 6), 10: (2, 3, 6, 7), 18: (3, 3, 7, 9), 30: (3, 4, 8, 12)}
    for size, deltas in printed.items():
        base = -2 if size == 30 else -1
        shifts = [1000 * limits_of_class(size, f"K{grade}")[1] - base for grade in range(5, 9)]
        assert shifts == pytest.approx(deltas)
    assert [limits_of_class(3, f"K{grade}")[1] for grade in range(5, 9)] == [0, 0, 0, 0]


def test_worked_hole_with_delta():
    """Machine Drawing (Narayana, Kannaiah, Venkata Reddy), T15.3: P7 for 18-30 mm has delta 8 and ES -14."""
    assert limits_of_class(25, "P7")[1] == pytest.approx(-0.014)
    assert limits_of_class(25, "P7")[0] == pytest.approx(-0.035)


@pytest.mark.parametrize("size, hole, shaft, least, most", [
    (6, "H7", "g6", 4, 24), (8, "H7", "g6", 5, 29), (8, "H7", "h6", 0, 24), (10, "H7", "f7", 13, 43)])
def test_clearances_worked_by_hand(size, hole, shaft, least, most):
    """Four fits worked by hand from the printed tables, micrometres."""
    hole, shaft = limits_of_class(size, hole), limits_of_class(size, shaft)
    assert micrometres((hole[0] - shaft[1], hole[1] - shaft[0])) == (least, most)


def test_shigley_example_7_8():
    """Shigley 9th ed., Ex. 7-8: 2 in H7/s6 is hole 2.0010/2.0000, shaft 2.0023/2.0017 (ISO values in inches).

    The book's 2.00 in ends the range that ISO 286 ends at 50 mm.
    """
    hole, shaft = (limits_of_class(50, name) for name in ("H7", "s6"))
    assert [f"{2 + limit / INCH:.4f}" for limit in hole[::-1]] == ["2.0010", "2.0000"]
    assert [f"{2 + limit / INCH:.4f}" for limit in shaft[::-1]] == ["2.0023", "2.0017"]


def test_mott_example_13_1():
    """Machine Elements in Mechanical Design, Ex. 13-1: 2.00 in RC5, hole 2.0018/2.0000, shaft 1.9975/1.9963."""
    found = lookup.inch_fit(2 * INCH, "RC5")
    assert [f"{2 + limit / INCH:.4f}" for limit in found.hole[::-1]] == ["2.0018", "2.0000"]
    assert [f"{2 + limit / INCH:.4f}" for limit in found.shaft[::-1]] == ["1.9975", "1.9963"]
    clearance = (found.hole[0] - found.shaft[1], found.hole[1] - found.shaft[0])
    assert [f"{limit / INCH:.4f}" for limit in clearance] == ["0.0025", "0.0055"]


def test_encyclopaedia_example_50_h8_f7():
    """An encyclopaedia's fit example: 50 mm H8/f7 is hole +39/0, shaft -25/-50, clearance 25 to 89."""
    hole, shaft = limits_of_class(50, "H8"), limits_of_class(50, "f7")
    assert micrometres(hole) == (0, 39) and micrometres(shaft) == (-50, -25)
    assert micrometres((hole[0] - shaft[1], hole[1] - shaft[0])) == (25, 89)


def test_asme_b4_1_rows_agree_with_themselves():
    """Each printed clearance or interference of ASME B4.1 is hole less shaft of its own row."""
    rows = read_table("asme_b4_1").rows
    assert len(rows) == 45
    for row in rows:
        clearance = (float(row["hole_lower"]) - float(row["shaft_upper"]),
                     float(row["hole_upper"]) - float(row["shaft_lower"]))
        expected = clearance if row["fit"][:2] in ("RC", "LT") else (-clearance[1], -clearance[0])
        assert expected == pytest.approx((float(row["least"]), float(row["most"]))), row


@pytest.mark.parametrize("nominal, printed", [
    (6.5, ("6.487", "6.451")), (8, ("7.987", "7.951")), (10, ("9.987", "9.951")), (13, ("12.984", "12.941")),
    (16, ("15.984", "15.941"))])
def test_shoulder_limits_printed_in_b18_3_3m(nominal, printed):
    """ASME B18.3.3M-1986, shoulder diameters (Machinery's Handbook 31st ed., p. 1719), are f9."""
    lower, upper = limits_of_class(nominal, "f9")
    assert (f"{nominal + upper:.3f}", f"{nominal + lower:.3f}") == printed


def test_shoulders_of_the_other_band():
    """Shoulders h8 as calculated in the design notes for ISO 7379: 6.478, 7.978, 9.978, 12.973, 15.973 at least."""
    least = [round(size + limits_of_class(size, "h8")[0], 3) for size in (6.5, 8, 10, 13, 16)]
    assert least == [6.478, 7.978, 9.978, 12.973, 15.973]


def test_stress_areas_follow_the_formula():
    """Each stress area to its last printed digit: ISO 898-1 and ASME B1.1, area from pitch and minor diameter."""
    rows = read_table("threads").rows
    assert len(rows) == 16
    for row in rows:
        thread, (printed, unit) = lookup.thread(row["id"]), row["stress_area"].split()
        factor = 0.9382 if unit == "mm^2" else 0.9743
        area = math.pi / 4 * (thread.diameter - factor * thread.pitch) ** 2 / (1 if unit == "mm^2" else INCH ** 2)
        assert f"{area:.{len(printed.split('.')[1])}f}" == printed, row["id"]


def test_bearing_tolerances():
    """ISO 492 Normal class as two public pages print it: 608 bore 0/-8, outside 0/-9, width 0/-120."""
    assert micrometres(lookup.bearing_limits("bore", 8)) == (-8, 0)
    assert micrometres(lookup.bearing_limits("outside_diameter", 22)) == (-9, 0)
    assert micrometres(lookup.bearing_limits("outside_diameter", 16)) == (-8, 0)
    assert micrometres(lookup.bearing_limits("width", 8)) == (-120, 0)
    assert micrometres(lookup.bearing_limits("bore", 20)) == (-10, 0)


def test_clearance_groups():
    """ISO 5753-1 as two public pages print it; a 10 mm bore belongs to the smaller range, 12 mm to the next."""
    for bore, group, limits in ((8, "C2", (0, 7)), (10, "CN", (2, 13)), (12, "CN", (3, 18)), (8, "C3", (8, 23)),
                                (18, "C4", (18, 33)), (6, "MC3", (5, 10))):
        band = lookup.clearance_group(bore, group)
        assert micrometres((band.least, band.most)) == limits, (bore, group)


def test_load_rating_factor_follows_from_its_theory():
    """f_c of ISO 281 within 0.15 per cent of the Lundberg-Palmgren expression, grooves 0.52 D_w (ISO/TR 1281-1)."""
    table = lookup.columns_of("fc_iso281")
    assert len(table["gamma"]) == 40
    for gamma, printed in zip(table["gamma"], table["f_c"]):
        groove = (2 * 0.52 / (2 * 0.52 - 1)) ** 0.41
        rings = (1 + (1.04 * ((1 - gamma) / (1 + gamma)) ** 1.72) ** (10 / 3)) ** -0.3
        race = gamma ** 0.3 * (1 - gamma) ** 1.39 / (1 + gamma) ** (1 / 3)
        assert 0.95 * 40.21 * rings * race * groove == pytest.approx(printed, rel=0.0015), gamma


def hertz_load(curvatures, pressure, modulus=207_000.0, poisson=0.3):
    """Load of an elliptic Hertz contact at a greatest pressure; curvatures of one body pair, across and along."""
    across, along = sorted(curvatures, reverse=True)
    ratio = (across - along) / (across + along)

    def shape(k):
        m = 1 - 1 / k ** 2
        e, f = ellipe(m), ellipkm1(1 / k ** 2)
        return ((k ** 2 + 1) * e - 2 * f) / ((k ** 2 - 1) * e) - ratio

    k = brentq(shape, 1.0001, 500)
    e = ellipe(1 - 1 / k ** 2)
    unit_a, unit_b = (2 * k ** 2 * e / math.pi) ** (1 / 3), (2 * e / (math.pi * k)) ** (1 / 3)
    soft = 3 / (2 * (across + along)) * 2 * (1 - poisson ** 2) / modulus
    # pressure = 3 Q / (2 pi a b) with a b = unit_a unit_b (soft Q)^(2/3)
    return (pressure * 2 * math.pi * unit_a * unit_b * soft ** (2 / 3) / 3) ** 3


def test_static_factor_follows_from_hertz_contact():
    """f_0 of ISO 76 within rounding: 4200 MPa at the worst ball, grooves 0.52 and 0.53 D_w, Stribeck's fifth."""
    table = lookup.columns_of("f0_iso76")
    assert len(table["gamma"]) == 41
    for gamma, printed in zip(table["gamma"], table["f_0"]):
        ball, pitch = 1.0, 1 / gamma if gamma else 1e6
        inner = hertz_load((2 / ball + 2 / (pitch - ball), 2 / ball - 1 / 0.52), 4200)
        outer = hertz_load((2 / ball - 2 / (pitch + ball), 2 / ball - 1 / 0.53), 4200)
        assert min(inner, outer) / 5 == pytest.approx(printed, abs=0.08), gamma


def test_thrust_factors_read_with_the_older_entry():
    """ISO 281 Table 3 beside its older column F_a/(i Z D_w^2) in lbf/in^2 (ABMA), the same entry in another unit."""
    older = (24.92, 50.03, 99.91, 149.35, 200.10, 300.15, 500.25, 749.65, 999.05)
    table = lookup.columns_of("thrust_iso281")
    assert table["entry"] == pytest.approx([p * 6.894757e-3 for p in older], rel=0.004)
    assert list(table["e"]) == sorted(table["e"]) and list(table["Y"]) == sorted(table["Y"], reverse=True)


def test_clearance_holes_clear_their_thread():
    """fine < medium < coarse, all over the thread; ISO 273 prints M6 as 6.4, 6.6, 7.0."""
    assert lookup.clearance_hole("M6") == (6.4, 6.6, 7.0)
    assert {row["id"] for row in read_table("clearance_holes").rows} == {t for t in lookup.threads() if t != "M3"}
    for row in read_table("clearance_holes").rows:
        fine, medium, coarse = lookup.clearance_hole(row["id"])
        assert lookup.thread(row["id"]).diameter < fine < medium < coarse, row["id"]


def test_a_hole_class_stands_ready_for_every_housing():
    """Each bearing kind, fit and kind of stock has one class, and slip is never tighter than press."""
    for bearing, stock in itertools.product(("sleeve_bushing", "ball_bearing", "spacer"), STOCK_KINDS):
        upper = [limits_of_class(12, lookup.housing_class(bearing, way, stock).name)[1]
                 for way in ("press", "slip", "bonded")]
        assert upper == sorted(upper), (bearing, stock)
    for stock in STOCK_KINDS:
        assert limits_of_class(8, lookup.housing_class("shaft_hole", "slip", stock).name)[0] > 0


def test_no_housing_is_told_two_classes():
    """One row for each bearing, fit and stock: a second one would never be read."""
    asked = [(row["bearing"], row["fit"], row["stock"]) for row in read_table("housing_classes").rows]
    assert len(asked) == len(set(asked)) == 3 * 3 * 4 + 4


@pytest.mark.parametrize("ask, words", [
    (lambda: limits_of_class(8, "h3"), "grade IT3"), (lambda: limits_of_class(8, "z6"), "letter z"),
    (lambda: limits_of_class(8, "K9"), "no K hole"), (lambda: limits_of_class(51, "h8"), "51 mm is outside"),
    (lambda: limits_of_class(0, "h8"), "0 mm is outside"), (lambda: limits_of_class(-1, "H7"), "outside"),
    (lambda: limits_of_class(8, "H"), "not an ISO 286 class"), (lambda: limits_of_class(8, "Hh7"), "not an ISO"),
    (lambda: limits_of_class(40, "c9"), "letter c"), (lambda: limits_of_class(float("nan"), "h8"), "outside"),
    (lambda: limits_of_class(8, "j9"), "class j9"), (lambda: limits_of_class(60, "J7"), "60 mm is outside"),
    (lambda: lookup.drills_beside(6, "wire"), "series wire"), (lambda: lookup.drills_beside(0), "0 mm is no"),
    (lambda: lookup.reamers_beside(float("nan")), "nan mm is no"), (lambda: lookup.inch_fit(12, "LT2"), "fit LT2"),
    (lambda: limits_of_class(8, "over5"), "not an ISO 286 class"), (lambda: limits_of_class(8, "to5"), "letter to"),
    (lambda: lookup.clearance_group(8, "C9"), "group C9"), (lambda: lookup.clearance_group(25, "CN"), "25 mm"),
    (lambda: lookup.bearing_limits("bore", 100), "100 mm"), (lambda: lookup.bearing_limits("rim", 8), "item rim"),
    (lambda: lookup.inch_fit(1.5 * INCH, "RC5"), "1.5 in"), (lambda: lookup.inch_fit(12, "FN9"), "fit FN9"),
    (lambda: lookup.thread("M7"), "M6"), (lambda: lookup.clearance_hole("M3"), "id M3"),
    (lambda: lookup.housing_class("ball_bearing", "press", "glass"), "stock glass")])
def test_outside_a_table_is_said_in_plain_words(ask, words):
    """Never a bare KeyError: one sentence that names what was asked."""
    with pytest.raises(OutsideTable, match=re.escape(words)):
        ask()


def test_every_row_carries_a_source_that_exists():
    """No number without a source; memory and common practice are marked by their own keys."""
    known = package_sources()
    for name in set(table_names()) - {"symbols"}:
        table = read_table(name)
        assert table.says, f"{name} does not say what it is"
        for row in table.rows:
            default, single = source_marks(table.source_of(row))
            assert {default, *single.values()} <= set(known), (name, row)
            assert set(single) <= set(row), (name, row)


def test_ranges_meet_and_rise():
    """Each range begins where the one before ends: nothing falls between, nothing twice."""
    for name in ("iso286_grades", "iso286_shafts", "iso286_holes", "iso286_j"):
        ends = [(float(row["over"]), float(row["to"])) for row in read_table(name).rows]
        assert ends[0][0] == 0 and all(a[1] == b[0] for a, b in itertools.pairwise(ends))
    for name, key in (("iso492", "item"), ("iso5753", "group"), ("asme_b4_1", "fit")):
        for _, rows in itertools.groupby(read_table(name).rows, key=lambda row: row[key]):
            ends = [(float(row["over"]), float(row["to"])) for row in rows]
            assert all(a[1] <= b[0] for a, b in itertools.pairwise(ends)), name


# by table: the column that tells its blocks apart, and what gives a size in a block
RANGES = {
    "iso492": ("item", lambda size, block: lookup.bearing_limits(block, size)),
    "iso5753": ("group", lambda size, block: lookup.clearance_group(size, block)),
    "asme_b4_1": ("fit", lambda size, block: lookup.inch_fit(size * INCH, block)),
    "iso286_grades": (None, lambda size, _: [limits_of_class(size, f"h{grade}") for grade in range(4, 15)]),
    "iso286_shafts": (None, lambda size, _: [limits_of_class(size, f"{x}6") for x in "defghkmnprs"]),
    "iso286_holes": (None, lambda size, _: [limits_of_class(size, f"{x}6") for x in "DEFGHKMNPRS"]),
    "iso286_j": (None, lambda size, _: [limits_of_class(size, x) for x in ("j5", "j6", "j7", "J6", "J7", "J8")]),
}


def just_over(size):
    return size + 1e-4


@pytest.mark.parametrize("name", RANGES)
def test_a_range_ends_with_its_last_size_and_begins_after_the_one_before(name):
    """Every range of every table: all of it from just over its beginning up to its end, nothing of it beyond."""
    column, found = RANGES[name]
    rows = read_table(name).rows
    for row in rows:
        block = row[column] if column else None
        over, to = float(row["over"]), float(row["to"])
        inside = found(to, block)
        assert found(just_over(over), block) == inside, row
        following = [r for r in rows if r["over"] == row["to"] and (not column or r[column] == block)]
        if following:
            assert found(just_over(to), block) == found(float(following[0]["to"]), block)
        else:
            with pytest.raises(OutsideTable):
                found(just_over(to), block)


def test_what_cannot_lie_in_a_range_differs_between_neighbours():
    """A tolerance grade, a bearing's outside limits and a loose group grow over each boundary printed."""
    for at in (3, 6, 10, 18, 30):
        assert limits_of_class(at, "h7")[0] > limits_of_class(just_over(at), "h7")[0]
    for at in (18, 30):
        assert (lookup.bearing_limits("outside_diameter", at)[0]
                > lookup.bearing_limits("outside_diameter", just_over(at))[0])
    assert lookup.clearance_group(10, "C4").most < lookup.clearance_group(just_over(10), "C4").most
    for at in (0.24, 0.40, 0.71):
        assert lookup.inch_fit(at * INCH, "RC4").hole[1] < lookup.inch_fit(just_over(at) * INCH, "RC4").hole[1]


def test_holes_about_zero_as_a_public_table_prints_them():
    """J6, J7, J8 over 0 to 3 and over 10 to 18, read in a public page of metric tolerances; ISO 286-2."""
    printed = {(2, "J6"): (-4, 2), (2, "J7"): (-6, 4), (2, "J8"): (-8, 6),
               (12, "J6"): (-5, 6), (12, "J7"): (-8, 10), (12, "J8"): (-12, 15)}
    for (size, name), limits in printed.items():
        assert micrometres(limits_of_class(size, name)) == limits


DRILL_SERIES = ("number", "letter", "fractional", "metric")
REAMER_SERIES = ("fractional", "number", "letter", "over-under", "metric")


def tools(name, *series):
    """Nominal diameters of a table of tools, mm, rising."""
    rows = [row for row in read_table(name).rows if row["series"] in series]
    return sorted({round(read_quantity(row["diameter"], "length"), 6) for row in rows})


@pytest.mark.parametrize("name, beside, series", [
    *(("drills", lookup.drills_beside, (one,)) for one in DRILL_SERIES), ("drills", lookup.drills_beside, DRILL_SERIES),
    *(("reamers", lookup.reamers_beside, (one,)) for one in REAMER_SERIES),
    ("reamers", lookup.reamers_beside, REAMER_SERIES)])
def test_tools_beside_a_diameter(name, beside, series):
    """At a tool's own diameter that tool twice; just off it the next one on the far side; none beyond the ends."""
    sizes = tools(name, *series)
    assert len(sizes) >= 16
    for before, size, after in zip([None, *sizes], sizes, [*sizes[1:], None]):
        for asked, low, high in ((size, size, size), (size - 1e-4, before, size), (size + 1e-4, size, after)):
            below, above = beside(asked, *series)
            assert (below and round(below.diameter, 6), above and round(above.diameter, 6)) == (low, high)
        found = beside(size, *series)
        assert found.below is found.above and (len(series) > 1 or found.below.series == series[0])


def test_all_tools_are_asked_when_no_series_is_named():
    """12.3 mm: a metric drill of just that size; the fractional ones beside it are 31/64 and 1/2 in."""
    assert lookup.drills_beside(12.3).below.name == "12.3 mm"
    assert [tool.name for tool in lookup.drills_beside(12.31, "fractional")] == ["31/64", "1/2"]


def test_fractional_tools_are_exact_and_named_by_their_fraction():
    """Every 64th of an inch, in order, no gap; 1/4 in is drill E too."""
    for name in ("drills", "reamers"):
        assert tools(name, "fractional") == [round(n * INCH / 64, 6) for n in range(4, 73)]
    assert lookup.drills_beside(INCH / 4, "letter").below.name == "E"


def test_number_drills_fall_and_letter_drills_rise():
    """No. 40 to No. 1 and A to Z, 0.0980 to 0.413 in, never two of a size (ASME B94.11M)."""
    rows = read_table("drills").rows
    numbers = {int(row["id"].split()[1]): float(row["diameter"].split()[0]) for row in rows if row["series"] == "number"}
    letters = {row["id"]: float(row["diameter"].split()[0]) for row in rows if row["series"] == "letter"}
    assert sorted(numbers) == list(range(1, 41)) and len(letters) == 26
    falling, rising = [numbers[n] for n in range(1, 41)], [letters[name] for name in sorted(letters)]
    assert falling == sorted(falling, reverse=True) and rising == sorted(rising)
    assert (falling[0], falling[-1], rising[0], rising[-1]) == (0.228, 0.098, 0.234, 0.413)
    assert len({*falling, *rising}) == 66


@pytest.mark.parametrize("thread, series, printed", [
    ("8-32", None, "No. 29"), ("10-24", None, "No. 25"), ("10-32", None, "No. 21"), ("1/4-20", None, "No. 7"),
    ("1/4-28", None, "No. 3"), ("5/16-18", None, "F"), ("5/16-24", None, "I"), ("3/8-16", None, "5/16"),
    ("1/2-13", None, "27/64"), ("M4", "metric", "3.3 mm"), ("M5", "metric", "4.2 mm"), ("M6", "metric", "5 mm"),
    ("M8", "metric", "6.8 mm"), ("M10", "metric", "8.5 mm")])
def test_the_tapping_drill_of_the_shop_charts_is_the_nearest_one(thread, series, printed):
    """Drills of the usual tapping charts, for three quarters of a thread: D - 0.75 * 1.299 P (memory, high)."""
    found = lookup.thread(thread)
    wanted = found.diameter - 0.75 * 1.299 * found.pitch
    asked = (series,) if series else ("number", "letter", "fractional")
    beside = lookup.drills_beside(wanted, *asked)
    assert min(beside, key=lambda tool: abs(tool.diameter - wanted)).name == printed


def test_clearance_drills_of_the_standard_are_those_of_its_holes():
    """ASME B18.2.8, normal series, drills named in Machinery's Handbook 31st ed., p. 1741: 9, 2, 9/32, 11/32, 13/32."""
    named = {"8-32": "No. 9", "10-24": "No. 2", "1/4-20": "9/32", "5/16-18": "11/32", "3/8-16": "13/32"}
    for thread, drill in named.items():
        hole = lookup.clearance_hole(thread).medium
        assert lookup.drills_beside(hole, "number", "fractional").below.name == drill, thread
    loose = {"8-32": 0.213, "1/4-20": 0.297, "5/16-18": 0.359, "3/8-16": 0.422, "1/2-13": 0.609}
    for thread, least in loose.items():  # same page, least holes of the loose series
        assert lookup.clearance_hole(thread).coarse / INCH == pytest.approx(least, abs=5e-4), thread


def test_a_drill_is_never_over_its_size():
    """Under by 0.5, 0.7, 1.0, 1.2 thousandths to 1/8, 1/4, 1/2, 3/4 in (ASME B94.11M, memory); metric ones h8.

    h8 is printed for twist drills in a tool maker's catalogue: 14, 18, 22, 27, 33 micrometres to 3, 6, 10, 18, 30 mm.
    """
    for at, under, beyond in ((1 / 8, 0.5, 0.7), (1 / 4, 0.7, 1.0), (1 / 2, 1.0, 1.2), (3 / 4, 1.2, 1.5)):
        for drill, thousandths in ((lookup.drills_beside(at * INCH, "fractional").below, under),
                                   (lookup.drills_beside(at * INCH + 0.01, "fractional").above, beyond)):
            assert drill.band.most == drill.diameter
            assert drill.band.width == pytest.approx(thousandths * INCH / 1000)
    for at, micrometre in ((3, 14), (6, 18), (10, 22), (18, 27), (30, 33)):
        assert 1000 * lookup.drills_beside(at, "metric").below.band.width == pytest.approx(micrometre)


def reamer_for(upper, width):
    """Upper and lower deviation of a reamer for a hole, micrometres: 15 and 35 per cent of its width, rounded up."""
    largest = upper - math.ceil(0.15 * width - 1e-9)
    return largest, largest - math.ceil(0.35 * width - 1e-9)


def test_metric_reamers_ream_h7():
    """A tool maker's rule beside DIN 1420: its example 10 D8 gives 10.058/10.050; each H7 reamer follows it."""
    lower, upper = micrometres(limits_of_class(10, "D8"))
    assert reamer_for(upper, upper - lower) == (58, 50)
    for size in tools("reamers", "metric"):
        width = 1000 * limits_of_class(size, "H7")[1]
        band = lookup.reamers_beside(size, "metric").below.band
        found = tuple(round(1000 * (limit - size)) for limit in (band.most, band.least))
        assert found == reamer_for(round(width), round(width)), size


def test_inch_reamers_lie_just_over_their_size():
    """+.0001 to +.0004 in up to 1/4 in, to +.0005 in up to 1 in (ASME B94.2, memory); dowel pairs 1 thou each way."""
    for asked, most in ((0.25, 0.4), (0.2656, 0.5), (1.0, 0.5), (1.0156, 0.6)):
        reamer = lookup.reamers_beside(asked * INCH + 0.001, "fractional").below
        assert (reamer.band.most - reamer.diameter) / INCH == pytest.approx(most / 1000)
        assert reamer.band.least > reamer.diameter
    for pin in (1 / 8, 3 / 16, 1 / 4, 5 / 16, 3 / 8, 7 / 16, 1 / 2, 5 / 8):
        pair = lookup.reamers_beside(pin * INCH, "over-under")
        assert [tool.diameter / INCH - pin for tool in pair] == pytest.approx([-0.001, 0.001], abs=1e-9)


def test_wider_grades_hold_narrower_ones():
    """A coarser grade of the same letter reaches at least as far both ways from the fixed limit."""
    for letter, size in itertools.product(("c", "f", "h", "m", "s", "H", "F", "D"), np.linspace(1, 30, 30)):
        widths = [np.subtract(*limits_of_class(size, f"{letter}{grade}")[::-1]) for grade in range(5, 12)]
        assert all(a < b for a, b in itertools.pairwise(widths)), (letter, size)


def test_symbols_are_each_defined_once():
    """symbols.csv names each symbol once, with print form and meaning."""
    rows = read_table("symbols").rows
    assert len({row["name"] for row in rows}) == len(rows) > 20
    assert all(row["print"] and row["meaning"] for row in rows)
