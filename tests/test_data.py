"""The demo course: every mistake would be told here first; sizes against the standards they name."""
import csv
import re
import shutil
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import isofits
import pressfit
import pytest

from guidegen.errors import BadInput
from guidegen.joint.inputs import round_nominal
from guidegen.kit import lookup
from guidegen.kit.reader import PART_FILES, read_course, read_words
from guidegen.kit.records import BallBearing, Nut, ShoulderScrew, SleeveBushing, Spacer, Washer, source_marks
from guidegen.units import MM_PER_INCH, Band

ROOT = Path(__file__).parent.parent
PLAIN_COURSE = Path(__file__).parent / "plain_course"
STANDOFFS = (10, 15, 20, 25, 30, 40)  # mm
INCH = MM_PER_INCH


@pytest.fixture(scope="module")
def course():
    """The demo course."""
    return read_course(ROOT)


def of_kind(course, kind):
    return [part for part in course.parts.values() if isinstance(part, kind)]


def limits(band):
    return pytest.approx((band.least, band.most), abs=5e-4)


def test_the_demo_reads_without_a_mistake(course):
    """All files, and what they refer to in each other."""
    assert {"mm8", "in38", "mix14"} == set(course.kits) and len(course.joints) >= 6
    assert "invented" in course.note and course.site_address == ""
    assert (course.temperature_least, course.temperature_most) == (5, 40)
    assert (course.target_travel, course.target_arm) == (1, 100)


def test_every_number_carries_a_source(course):
    """Each column of each record leads to a source; prices and finishes are marked as invented."""
    records = [*course.parts.values(), *course.materials.values(), *course.stocks.values(), *course.processes.values()]
    for record in records:
        for column in set(type(record).model_fields) - {"id", "name", "source"}:
            assert record.source_of(column) in course.sources, (record.id, column)
    for part in course.parts.values():
        assert {course.sources[part.source_of(column)].kind for column in ("price", "finish")} == {"invented"}


def test_marks_say_what_they_are(course):
    """Keys of memory, common practice and invention are of that kind, and no source of a book hides one."""
    for key, source in course.sources.items():
        for word, kind in (("memory", "memory"), ("invented", "invented"), ("common-practice", "common practice")):
            if key.startswith(word):
                assert source.kind == kind, key
        if source.kind in ("standard", "book", "paper"):
            assert "from memory" not in source.title.lower(), key


def test_every_course_source_is_used(course):
    """Nothing in data/sources.yaml that no number names."""
    used = {"invented"}
    for path in (ROOT / "data").rglob("*.csv"):
        for row in path.read_text(encoding="utf-8").splitlines()[2:]:
            default, single = source_marks(row.rsplit(",", 1)[1])
            used |= {default, *single.values()}
    own = {line.split(":")[0] for line in (ROOT / "data/sources.yaml").read_text(encoding="utf-8").splitlines()
           if line[:1].isalnum()}
    assert own <= used


# Machinery's Handbook 31st ed., p. 1818 (ASME B18.3 Table 8), inches, by nominal: shoulder D, head A, head height H,
# thread-neck diameter G (all max, min), neck width I, thread length E, socket J, thread. The 3/16 in row is that of
# two public copies of the table.
INCH_SCREWS = {
    "3/16": (".1850 .1830", ".312 .296", ".156 .146", ".120 .112", ".069", ".189", "3/32", "8-32"),
    "1/4": (".2480 .2460", ".375 .357", ".188 .177", ".142 .133", ".083", ".375", "1/8", "10-24"),
    "5/16": (".3105 .3085", ".438 .419", ".219 .209", ".193 .182", ".100", ".438", "5/32", "1/4-20"),
    "3/8": (".3730 .3710", ".562 .543", ".250 .240", ".249 .237", ".111", ".500", "3/16", "5/16-18"),
    "1/2": (".4980 .4960", ".750 .729", ".312 .302", ".304 .291", ".125", ".625", "1/4", "3/8-16"),
}
# p. 1719 (ASME B18.3.3M-1986, withdrawn; the geometry of ISO 7379), mm: head A, H, neck G (max, min), I, J, thread;
# then the shoulder bands sold: f9 as printed there, h8, and a seller's 5.99/5.96 and 11.98/11.94 outside ISO 7379.
METRIC_SCREWS = {
    "6": ("10.00 9.78", "4.50 4.32", "3.86 3.68", "2.4", "3", "M5", {(5.96, 5.99)}),
    "6.5": ("10.00 9.78", "4.50 4.32", "3.86 3.68", "2.4", "3", "M5", {(6.451, 6.487), (6.478, 6.5)}),
    "8": ("13.00 12.73", "5.50 5.32", "4.58 4.40", "2.6", "4", "M6", {(7.951, 7.987), (7.978, 8)}),
    "10": ("16.00 15.73", "7.00 6.78", "6.25 6.03", "2.8", "5", "M8", {(9.951, 9.987), (9.978, 10)}),
    "12": ("18.00 17.73", "9.00 8.78", "7.91 7.69", "3.0", "6", "M10", {(11.94, 11.98)}),
}


def screws_of(course, nominal):
    return [screw for screw in of_kind(course, ShoulderScrew) if screw.nominal == pytest.approx(nominal)]


def inches(printed):
    """Limits in mm of a printed pair in inches, largest first."""
    return tuple(float(limit) * INCH for limit in printed.split()[::-1])


@pytest.mark.parametrize("nominal", INCH_SCREWS)
def test_inch_screws_are_those_of_the_printed_table(course, nominal):
    """ASME B18.3: every column of every length; shoulders 2 to 4 thousandths under from 1/4 in, length +-.005."""
    shoulder, head, height, neck, width, thread_length, socket, thread = INCH_SCREWS[nominal]
    screws = screws_of(course, float(Fraction(nominal)) * INCH)
    assert len(screws) >= 5
    for screw in screws:
        assert inches(shoulder) == limits(screw.shoulder_diameter) and inches(head) == limits(screw.head_diameter)
        assert inches(height) == limits(screw.head_height) and inches(neck) == limits(screw.neck_diameter)
        assert screw.neck_width == pytest.approx(float(width) * INCH)
        assert screw.thread_length == pytest.approx(float(thread_length) * INCH)
        assert screw.socket == pytest.approx(float(Fraction(socket)) * INCH) and screw.thread == thread
        assert screw.shoulder_length.width == pytest.approx(0.010 * INCH)


@pytest.mark.parametrize("nominal", METRIC_SCREWS)
def test_metric_screws_are_those_of_the_printed_table(course, nominal):
    """Every column of every length, in each band that is sold; the name says which, and which sizes are trade sizes."""
    head, height, neck, width, socket, thread, bands = METRIC_SCREWS[nominal]
    screws = screws_of(course, float(nominal))
    assert len(screws) >= 5
    seen = set()
    for screw in screws:
        for printed, band in ((head, screw.head_diameter), (height, screw.head_height), (neck, screw.neck_diameter)):
            assert tuple(float(limit) for limit in printed.split()[::-1]) == limits(band)
        assert (screw.neck_width, screw.socket, screw.thread) == (float(width), float(socket), thread)
        assert screw.shoulder_length.width == pytest.approx(0.25)
        shoulder = screw.shoulder_diameter
        seen.add((round(shoulder.least, 3), round(shoulder.most, 3)))
        if len(bands) == 2:
            assert (" h8 " if shoulder.most == float(nominal) else " f9 ") in screw.name
        else:
            assert "trade-size" in screw.name and screw.source_of("shoulder_diameter") == "trade-shoulders"
    assert seen == bands


# ISO 15 and the inch series: bore, outside diameter, width (of a shielded bearing where that is wider), in mm or in;
# diameter series of ISO 15; basic dynamic and static rating in N as bearing catalogues print them.
BEARINGS = {
    "bb-686": ("6", "13", "5", "8", 1080, 440), "bb-688": ("8", "16", "5", "8", 1610, 710),
    "bb-626": ("6", "19", "6", "2", 2340, 885), "bb-608": ("8", "22", "7", "0", 3300, 1370),
    "bb-6000": ("10", "26", "8", "0", 4550, 1970), "bb-6001": ("12", "28", "8", "0", 5100, 2370),
    "bb-r3": (".1875 in", ".5000 in", ".1960 in", "", 1300, 485), "bb-r4": (".2500 in", ".6250 in", ".1960 in", "", 1610, 660),
    "bb-r4a": (".2500 in", ".7500 in", ".2812 in", "", 2620, 1060),
    "bb-r6": (".3750 in", ".8750 in", ".2812 in", "", 3350, 1410),
    "bb-r8": (".5000 in", "1.1250 in", ".3125 in", "", None, None),
}


def in_mm(text):
    number, *unit = text.split()
    return float(number) * (INCH if unit else 1)


def test_bearings_have_their_standard_sizes(course):
    """ISO 15 and the inch series; variants of a size (sealed, another clearance) share all but closure and group."""
    for bearing in of_kind(course, BallBearing):
        size = re.fullmatch(r"(bb-[a-z]?\d+a?)(-c3|-mc3|-2rs)?", bearing.id)[1]
        bore, outside, width, series, *_ = BEARINGS[size]
        assert bearing.bore.most == pytest.approx(in_mm(bore)) == bearing.nominal
        assert bearing.outside_diameter.most == pytest.approx(in_mm(outside))
        assert bearing.width.most == pytest.approx(in_mm(width)) and bearing.diameter_series == series
        same = bearing.model_dump(exclude={"id", "name", "closure", "clearance_group", "internal_clearance", "price"})
        assert same == course.parts[size].model_dump(include=set(same))
        assert (bearing.closure == "seals") == bearing.id.endswith("-2rs")
        assert bearing.clearance_group == {"c3": "C3", "mc3": "MC3"}.get(bearing.id.split("-")[-1], "CN")
    assert set(BEARINGS) <= set(course.parts)


def test_bearings_are_of_normal_class(course):
    """ISO 492 Normal class for bore, outside diameter and width; inch ones ABEC 1: bore +0/-.0003 in."""
    for bearing in of_kind(course, BallBearing):
        outside = bearing.outside_diameter
        if bearing.source_of("bore") == "inch-bearings":
            assert bearing.bore.width == pytest.approx(0.0003 * INCH)
            assert outside.width == pytest.approx((0.0003 if outside.most <= 18 else 0.00035) * INCH)
            continue
        for column, size in (("bore", bearing.nominal), ("width", bearing.nominal), ("outside_diameter", outside.most)):
            lower, upper = lookup.bearing_limits(column, size)
            band = getattr(bearing, column)
            assert (band.most + lower, band.most + upper) == limits(band), (bearing.id, column)


@pytest.mark.parametrize("name", BEARINGS)
def test_ratings_are_the_printed_ones_and_the_balls_give_them(course, name):
    """C and C_0 of ISO 281 and ISO 76 from Z and D_w, within 1.5 per cent of bearing catalogues' printed ratings.

    R8, whose ratings are not read, against 5100 and 2400 N from memory, medium confidence.
    """
    bearing, printed = course.parts[name], BEARINGS[name][4:]
    assert (bearing.dynamic_rating, bearing.static_rating) == printed
    dynamic, static = printed if printed[0] else (5100, 2400)
    gamma, balls, size = bearing.ball_diameter / bearing.pitch_diameter, bearing.balls, bearing.ball_diameter
    f_c, f_0 = (between(lookup.columns_of(table), gamma, column)
                for table, column in (("fc_iso281", "f_c"), ("f0_iso76", "f_0")))
    assert 1.3 * f_c * balls ** (2 / 3) * size ** 1.8 == pytest.approx(dynamic, rel=0.015)
    assert f_0 * balls * size ** 2 == pytest.approx(static, rel=0.015)


def between(table, gamma, column):
    at = next(n for n, known in enumerate(table["gamma"]) if known >= gamma)
    share = (gamma - table["gamma"][at - 1]) / (table["gamma"][at] - table["gamma"][at - 1])
    return table[column][at - 1] + share * (table[column][at] - table[column][at - 1])


def test_lands_are_the_estimate_they_say(course):
    """Lands at 0.7 ball diameters inside and outside the pitch circle, rounded to 0.05 mm."""
    for bearing in of_kind(course, BallBearing):
        reach = 0.7 * bearing.ball_diameter
        assert bearing.inner_land == pytest.approx(bearing.pitch_diameter - reach, abs=0.05)
        assert bearing.outer_land == pytest.approx(bearing.pitch_diameter + reach, abs=0.05)


# by id, across flats and height, least and most. ISO 4032 and 4035 with the limits of product grade A (memory, high,
# for the least height of thin nuts); ISO 7040 and 10511 as an open data set of fasteners prints them, mm.
METRIC_NUTS = {
    "nut-m5": "7.78 8.00 4.4 4.7", "nut-m6": "9.78 10.00 4.9 5.2", "nut-m8": "12.73 13.00 6.44 6.80",
    "nut-m10": "15.73 16.00 8.04 8.40", "nut-m5-thin": "7.78 8.00 2.45 2.70", "nut-m6-thin": "9.78 10.00 2.9 3.2",
    "nut-m8-thin": "12.73 13.00 3.7 4.0", "nut-m10-thin": "15.73 16.00 4.7 5.0",
    "nut-m5-lock": "7.78 8.00 6.22 6.80", "nut-m6-lock": "9.78 10.00 7.42 8.00",
    "nut-m8-lock": "12.73 13.00 8.92 9.50", "nut-m10-lock": "15.73 16.00 11.2 11.9",
    "nut-m5-low": "7.78 8.00 4.52 5.00", "nut-m6-low": "9.78 10.00 5.52 6.00",
    "nut-m8-low": "12.73 13.00 6.18 6.76", "nut-m10-low": "15.73 16.00 7.98 8.56",
}
# Machinery's Handbook 31st ed., p. 1677 (ASME B18.2.2 Table 7) hex and jam nuts; two public pages each for machine screw
# nuts and for style NE of ASME B18.16.6; a seller's table for the small locking nuts, whose least height is memory; in.
INCH_NUTS = {
    "nut-14": ".428 .438 .212 .226", "nut-14-jam": ".428 .438 .150 .163", "nut-516": ".489 .500 .258 .273",
    "nut-516-jam": ".489 .500 .180 .195", "nut-38": ".551 .562 .320 .337", "nut-38-jam": ".551 .562 .210 .227",
    "nut-8-32": ".332 .344 .117 .130", "nut-10-24": ".362 .375 .117 .130", "nut-14-ms": ".423 .438 .178 .193",
    "nut-516-ms": ".545 .562 .208 .225", "nut-38-ms": ".607 .625 .239 .257",
    "nut-14-lock": ".430 .439 .298 .328", "nut-516-lock": ".489 .502 .329 .359", "nut-38-lock": ".551 .564 .438 .468",
    "nut-8-32-lock": ".332 .345 .209 .239", "nut-10-24-lock": ".362 .376 .219 .249",
}


def test_nuts_have_printed_limits(course):
    """Every nut of the catalogue, across flats and height; both 1/4 in nuts take one wrench, larger ones do not."""
    nuts = {nut.id: nut for nut in of_kind(course, Nut)}
    assert set(nuts) == {*METRIC_NUTS, *INCH_NUTS}
    for names, unit in ((METRIC_NUTS, 1), (INCH_NUTS, INCH)):
        for name, printed in names.items():
            low, high, thin, thick = (float(limit) * unit for limit in printed.split())
            assert (low, high) == limits(nuts[name].across_flats), name
            assert (thin, thick) == limits(nuts[name].height), name
    for name, same in (("nut-14", True), ("nut-516", False), ("nut-38", False)):
        assert (nuts[name].across_flats.most == nuts[f"{name}-ms"].across_flats.most) is same


# ISO 7089 and 7092 (open data set): hole d1 least, outside d2 most, thickness h and h most, mm, by thread and series
METRIC_WASHERS = {
    "ws-4": "4.3 9 0.8 0.9", "ws-5": "5.3 10 1.0 1.1", "ws-6": "6.4 12 1.6 1.8", "wl-6": "6.4 12 1.6 1.8",
    "ws-8": "8.4 16 1.6 1.8", "wl-8": "8.4 16 1.6 1.8", "ws-10": "10.5 20 2.0 2.2", "wl-10": "10.5 20 2.0 2.2",
    "wl-12": "13 24 2.5 2.7", "ws-5s": "5.3 9 1.0 1.1", "ws-6s": "6.4 11 1.6 1.8", "wl-6s": "6.4 11 1.6 1.8",
    "ws-8s": "8.4 15 1.6 1.8", "wl-8s": "8.4 15 1.6 1.8", "ws-10s": "10.5 18 1.6 1.8", "wl-10s": "10.5 18 1.6 1.8",
    "wl-12s": "13 20 2.0 2.2",
}
# ASME B18.22.1 Type B as a public page prints it up to 5/16 in narrow, beyond from memory: hole, outside, thickness
# (basic, plus, minus; basic, plus, minus; most, least), in.
INCH_WASHERS = {
    "10 narrow": ".203 8 5 .406 8 5 .045 .036", "10 regular": ".203 8 5 .562 8 5 .045 .036",
    "14 narrow": ".281 15 5 .500 15 5 .071 .056", "14 regular": ".281 15 5 .734 15 7 .071 .056",
    "516 narrow": ".344 15 5 .625 15 5 .071 .056", "516 regular": ".344 15 5 .875 15 7 .071 .056",
    "38 narrow": ".406 15 5 .734 15 7 .071 .056", "38 regular": ".406 15 5 1.000 15 7 .071 .056",
    "half narrow": ".531 15 5 1.000 15 7 .071 .056", "half regular": ".531 15 5 1.250 30 7 .112 .090",
}
WASHER_SIZES = {
    "wl-316n": "10 narrow", "wl-316r": "10 regular", "ws-no10": "10 narrow", "ws-no10r": "10 regular",
    "wl-14n": "14 narrow", "wl-14r": "14 regular", "ws-14": "14 narrow", "ws-14r": "14 regular",
    "wl-516n": "516 narrow", "wl-516r": "516 regular", "ws-516": "516 narrow", "ws-516r": "516 regular",
    "wl-38n": "38 narrow", "wl-38r": "38 regular", "ws-38": "38 narrow", "ws-38r": "38 regular",
    "wl-half-n": "half narrow", "wl-half-r": "half regular",
}


def test_washers_have_printed_limits(course):
    """ISO 7089 and 7092, holes H13 and outsides h14 (memory, high); inch ones of Type B, narrow and regular."""
    for name, printed in METRIC_WASHERS.items():
        washer = course.parts[name]
        hole, outside, thickness, thickest = map(float, printed.split())
        assert washer.hole.least == hole and washer.outside_diameter.most == outside
        assert (2 * thickness - thickest, thickest) == limits(washer.thickness)
        assert washer.hole.width == pytest.approx(-lookup.limits_of_class(hole, "h13")[0])
        assert washer.outside_diameter.width == pytest.approx(-lookup.limits_of_class(outside, "h14")[0])
    for name, size in WASHER_SIZES.items():
        washer = course.parts[name]
        hole, up, down, outside, larger, smaller, thick, thin = (float(x) for x in INCH_WASHERS[size].split())
        assert ((hole - down / 1000) * INCH, (hole + up / 1000) * INCH) == limits(washer.hole), name
        assert ((outside - smaller / 1000) * INCH, (outside + larger / 1000) * INCH) == limits(washer.outside_diameter)
        assert (thin * INCH, thick * INCH) == limits(washer.thickness), name
    bored = {"ws-516t", "wl-6-5"}  # a thin one and one drilled out: invented
    assert {washer.id for washer in of_kind(course, Washer)} == {*METRIC_WASHERS, *WASHER_SIZES, *bored}


def test_bushes_follow_iso_2795(course):
    """ISO 2795 as delivered: bore F7, outside r6, length js13, each as an independent package or table has it."""
    metric = [bush for bush in of_kind(course, SleeveBushing) if bush.source_of("free_bore") == "iso2795"]
    assert {bush.nominal for bush in metric} == {6, 8, 10, 12}
    for bush in metric:
        bore, outside = (isofits_limits(*of) for of in (("F7", bush.nominal), ("r6", round(bush.outside_diameter.least))))
        assert (bush.nominal + bore[0], bush.nominal + bore[1]) == limits(bush.free_bore)
        size = round(bush.outside_diameter.least)
        assert (size + outside[0], size + outside[1]) == limits(bush.outside_diameter)
    widths = {6: 0.18, 8: 0.22, 10: 0.22, 12: 0.27, 16: 0.27, 20: 0.33}  # IT13, memory, high
    assert all(bush.length.width == pytest.approx(widths[round(bush.length.typical)]) for bush in metric)
    listed = {6: {6, 10, 16}, 8: {8, 12, 16}, 10: {10, 16, 20}, 12: {12, 16, 20}}  # memory, medium
    for nominal, lengths in listed.items():
        assert {round(bush.length.typical) for bush in metric if bush.nominal == nominal} == lengths


def isofits_limits(name, size):
    """Lower and upper deviation, mm, of a class as the isofits package prints it."""
    table = isofits.hole_data if name[0].isupper() else isofits.shaft_data
    at = next(n for n, to in enumerate(table["inc."]) if float(table["over"][n]) < size <= float(to))
    upper, lower = (float(limit) / 1000 for limit in table[name][at].split("\n"))
    return lower, upper


def test_inch_bushes_press_into_a_reamed_nominal_hole(course):
    """Trade practice (common practice): 1 to 2.5 thou over nominal outside, a total of 1 thou on bore and outside.

    One maker's page says ID and OD are each held to .001 in; the 3/16 in sleeve is of a public register.
    """
    inch = [bush for bush in of_kind(course, SleeveBushing) if bush.source_of("free_bore") not in ("iso2795", "invented")]
    assert {round(bush.nominal / INCH, 4) for bush in inch} == {0.1875, 0.25, 0.3125, 0.375, 0.5}
    for bush in inch:
        assert bush.free_bore.width == pytest.approx(0.001 * INCH) == bush.outside_diameter.width
        over = [(limit - round_nominal(bush)) / INCH for limit in (bush.outside_diameter.least, bush.outside_diameter.most)]
        assert 0.001 <= round(over[0], 5) and round(over[1], 5) <= 0.0025, bush.id
        assert bush.length.width == pytest.approx(0.010 * INCH)


def test_a_hole_is_drawn_about_the_nominal_outside_diameter(course):
    """12 mm of a bush of 12.023 to 12.034, 7/8 in of a bearing a little under: for every part that sits in a hole."""
    for part in course.parts.values():
        if isinstance(part, (SleeveBushing, BallBearing)) or isinstance(part, Spacer) and part.bush == "yes":
            written = re.search(r"x (\S+) x", part.name) if not isinstance(part, BallBearing) else None
            if written:
                wanted = float(Fraction(written[1])) * (1 if part.name.split(" made")[0].endswith("mm") else INCH)
                assert round_nominal(part) == pytest.approx(wanted, abs=1e-6), part.id
            assert abs(round_nominal(part) - part.outside_diameter.typical) < 0.07, part.id


def test_rings_and_shims_touch_the_inner_ring_only(course):
    """Beside every ball bearing of their bore: at least 2 mm over it (common practice), inside the inner land."""
    bearings = of_kind(course, BallBearing)
    rings = [spacer for spacer in of_kind(course, Spacer) if spacer.kind in ("ring", "shim")]
    assert len(rings) >= 14
    for ring in rings:
        for bearing in (b for b in bearings if b.nominal == ring.nominal):
            assert bearing.nominal + 2 <= ring.outside_diameter.typical <= bearing.inner_land, (ring.id, bearing.id)


def test_ring_spacers_add_to_the_standoffs(course):
    """The metric kit's ring spacers add to each standoff length exactly, so that clamped stacks close."""
    kit = course.kits["mm8"]
    sums = {0}
    for part, count in kit.parts.items():
        if isinstance(course.parts[part], Spacer) and course.parts[part].kind == "ring":
            length = course.parts[part].length.typical
            sums = {total + n * length for total in sums for n in range(count + 1)}
    assert set(STANDOFFS) <= {round(total, 6) for total in sums}


def test_what_goes_over_the_shoulder_goes_over_it(course):
    """In each kit: spacers and large washers pass the largest shoulder; small washers pass only the thread."""
    for kit in course.kits.values():
        parts = [course.parts[name] for name in kit.parts]
        screws = [part for part in parts if isinstance(part, ShoulderScrew)]
        largest = max(screw.shoulder_diameter.most for screw in screws)
        smallest = min(screw.shoulder_diameter.least for screw in screws)
        across = lookup.thread(screws[0].thread).diameter
        assert {screw.thread for screw in screws} == {nut.thread for nut in parts if isinstance(nut, Nut)}
        for part in parts:
            if isinstance(part, Spacer) or isinstance(part, Washer) and part.kind == "large":
                assert part.hole.least >= largest, part.id
            if isinstance(part, Washer) and part.kind == "small":
                assert across <= part.hole.least and part.hole.most < smallest, part.id


def test_every_part_goes_with_a_screw_of_the_catalogue(course):
    """No part that nobody could use; every process works on some stock."""
    screws = of_kind(course, ShoulderScrew)
    nominals, threads = {screw.nominal for screw in screws}, {screw.thread for screw in screws}
    for part in course.parts.values():
        match part:
            case Nut():
                assert part.thread in threads, part.id
            case Washer(kind="large"):
                assert any(0 <= part.hole.least - screw.shoulder_diameter.most and
                           part.hole.typical - screw.nominal <= 1.2 for screw in screws), part.id
            case Washer():
                assert any(lookup.thread(screw.thread).diameter <= part.hole.least and
                           part.hole.most < screw.shoulder_diameter.least for screw in screws), part.id
            case ShoulderScrew():
                pass
            case _:
                assert part.nominal in nominals, part.id
    kinds = {stock.kind for stock in course.stocks.values()}
    for process in course.processes.values():
        assert set(process.stocks.split()) & kinds, process.id
    assert {process.measured for process in course.processes.values()} == {"no"}


def written_limits(text, unit):
    """Least and most, mm, of a cell with limits, taken apart here by itself, with exact decimals.

    Classes come from isofits; where it has none, from the grades of pressfit (js13, H13 and h14 from memory).
    """
    text, in_inches = (text[:-3], True) if text.endswith(" in") else (text, unit == "in")
    per = Decimal("25.4") if in_inches else Decimal(1)

    def number(word):
        return Decimal(Fraction(word).numerator) / Decimal(Fraction(word).denominator) * per

    if found := re.fullmatch(r"(\S+) ([A-Za-z]+\d+)", text):
        nominal = number(found[1])
        lower, upper = class_limits(found[2], float(nominal))
        return float(nominal) + lower, float(nominal) + upper
    if " to " in text:
        return tuple(float(number(end)) for end in text.split(" to "))
    if " ± " in text:
        nominal, either_way = map(number, text.replace(" in", "").split(" ± "))
        return float(nominal - either_way), float(nominal + either_way)
    nominal, upper, lower = re.fullmatch(r"(\S+) \+([\d.]+)/[-+]([\d.]+)", text).groups()
    sign = 1 if "/+" in text else -1
    return float(number(nominal) + sign * number(lower)), float(number(nominal) + number(upper))


COARSE = {13: ((3, 140), (6, 180), (10, 220), (18, 270), (30, 330)),  # ISO 286-1 Table 1; memory, high
          14: ((3, 250), (6, 300), (10, 360), (18, 430), (30, 520))}


def class_limits(name, size):
    letter, grade = re.fullmatch(r"([A-Za-z]+)(\d+)", name).groups()
    width = (pressfit.it_value(size, int(grade)) if int(grade) < 12
             else next(width for to, width in COARSE[int(grade)] if size <= to)) / 1000
    if letter == "js":
        return -width / 2, width / 2
    if letter in ("h", "H"):
        return (-width, 0.0) if letter == "h" else (0.0, width)
    if letter == "f":  # isofits has no f9
        least, most = isofits_limits("f7", size)
        return most - width, most
    return isofits_limits(name, size)


@pytest.mark.parametrize("stem", PART_FILES)
def test_every_cell_is_read_back_equal(course, stem):
    """Id, name, words, numbers and limits of every row of every part file, taken apart a second way."""
    head, units, *rows = csv.reader((ROOT / f"data/parts/{stem}.csv").open(encoding="utf-8"))
    assert len({row[0] for row in rows}) == len(rows) > 10
    for row in rows:
        part, cells = course.parts[row[0]], dict(zip(head, row))
        for (column, text), unit in zip(cells.items(), units):
            value = getattr(part, column)
            if isinstance(value, Band) and text:
                assert written_limits(text, unit) == pytest.approx((value.least, value.most), abs=1e-9), (part.id, column)
            elif isinstance(value, float) and text:
                number, *own = text.split()
                wanted = float(Fraction(number)) * (INCH if own == ["in"] else 1)
                assert value == pytest.approx(wanted, abs=1e-9), (part.id, column)
            elif text:
                assert str(value) == text, (part.id, column)
            else:
                assert value in (None, "") or column == "internal_clearance", (part.id, column)


def test_densities_are_those_of_the_stuff(course):
    """In t/mm^3, so that N, mm and s belong together: a litre of steel is 7.85 kg; wood floats, all else sinks."""
    litre = 1e6  # mm^3
    kilograms = {key: 1000 * thing.density * litre for key, thing in (*course.materials.items(), *course.stocks.items())}
    assert kilograms["carbon-steel"] == pytest.approx(7.85) == kilograms["steel-2"]
    assert kilograms["aluminium-6"] == pytest.approx(2.70) == kilograms["aluminium-6061"]
    for key, stock in course.stocks.items():
        assert (kilograms[key] < 1) == (stock.kind == "wood"), key
    assert course.stocks["aluminium-6"].expansion == course.materials["aluminium-6061"].expansion


# by name: file, column to add after which (or none: it is there), value, part of found, part of allowed
NEW_CELLS = {
    "density without unit of its kind": ("data/stock.csv", "density", "7.85 mm", "another kind (mm)", "7850 kg/m^3"),
    "density a thousand times too large": ("data/stock.csv", "density", "665000 kg/m^3", '"665000', "2.5e-08 t/mm**3"),
    "no density": ("data/materials.csv", "density", "", "an empty cell", "kg/m^3"),
    "density in g/cm^3 read as kg/m^3": ("data/materials.csv", "density", "7.85", '"7.85"', "at least 1e-11"),
    "expansion ten times too large": ("data/stock.csv", "expansion", "2000", '"2000"', "at most 0.001"),
    "no expansion": ("data/stock.csv", "expansion", "", "an empty cell", "a number with a unit of expansion"),
    "rating of another kind": ("data/parts/ball_bearings.csv", "dynamic_rating", "3300 kg", "kind (kg)", "30 N"),
    "rating of nothing": ("data/parts/ball_bearings.csv", "static_rating", "0", '"0"', "above 0 N"),
    "one rating alone": ("data/parts/ball_bearings.csv", "static_rating", "", "no rating beside the other", "neither"),
    "series in words": ("data/parts/ball_bearings.csv", "diameter_series", "60", '"60"', "one of 7, 8, 9, 0, 1, 2, 3, 4"),
}


@pytest.mark.parametrize("case", NEW_CELLS.values(), ids=NEW_CELLS)
def test_a_wrong_cell_of_these_columns_is_told(tmp_path, case):
    """File, row, column, what was found, what is allowed; the optional columns stand in the file, or not at all."""
    name, column, value, found, allowed = case
    folder = shutil.copytree(PLAIN_COURSE, tmp_path / "course")
    path = folder / name
    head, units, *rows = csv.reader(path.open(encoding="utf-8"))
    if column not in head:
        head += ["dynamic_rating", "static_rating", "diameter_series"]
        units += ["N", "N", "-"]
        rows = [[*row, "3300", "1370", "0"] for row in rows]
    assert read_back(path, head, units, rows, folder) is None
    rows[0][head.index(column)] = value
    (told,) = read_back(path, head, units, rows, folder)
    assert (told.file, told.place) == (name, f"row 3, column {column}")
    assert found in told.found and allowed in told.allowed, told


def read_back(path, head, units, rows, folder):
    """Mistakes of the course with this table; None when there is none."""
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows([head, units, *rows])
    try:
        read_course(folder)
    except BadInput as told:
        return told.mistakes
    return None


def test_stock_limits_rest_on_the_named_figures(course):
    """Lasting stress in acrylic 10.3 MPa cast and 5.2 MPa extruded, 1500 and 750 psi (two dealer pages)."""
    for stock in course.stocks.values():
        if "acrylic" in stock.id:
            assert stock.hoop_limit_long == pytest.approx(
                (1500 if "cast" in stock.id else 750) * 0.006894757, abs=0.05)
    ply = course.stocks["birch-ply-6"].thickness
    assert (ply.least, ply.most) == (5.6, 6.4)


def test_shared_words_are_in_order():
    """Cautions for each dangerous place, a glossary in alphabetical order, no makers' names."""
    words = read_words(ROOT / "shared")
    places = {place for caution in words.cautions.values() for place in caution.where}
    assert {"every sheet", "press fit", "laser cutting", "moving joint", "overhung load", "small parts"} <= places
    names = list(words.glossary)
    assert names == sorted(names, key=str.lower) and len(names) >= 50
    assert all(term.meaning.endswith(".") for term in words.glossary.values())
