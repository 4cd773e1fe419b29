"""The demo course: every mistake would be told here first; sizes against the standards they name."""
from pathlib import Path

import pytest

from guidegen.kit import lookup
from guidegen.kit.reader import read_course, read_words
from guidegen.kit.records import BallBearing, Nut, ShoulderScrew, SleeveBushing, Spacer, Washer, source_marks
from guidegen.units import MM_PER_INCH

ROOT = Path(__file__).parent.parent
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
    assert {"mm8", "in38"} <= set(course.kits) and len(course.joints) >= 6
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


def test_inch_shoulders_are_two_to_four_thousandths_under(course):
    """ASME B18.3 Table 8 (Machinery's Handbook 31st ed., p. 1818): 3/8 in is .3730/.3710, length +-.005."""
    screws = [screw for screw in of_kind(course, ShoulderScrew) if screw.thread == "5/16-18"]
    assert len(screws) == 5
    for screw in screws:
        assert (0.3710 * INCH, 0.3730 * INCH) == limits(screw.shoulder_diameter)
        assert screw.shoulder_length.width == pytest.approx(0.010 * INCH)
        assert (0.237 * INCH, 0.249 * INCH) == limits(screw.neck_diameter)


def test_metric_screws_have_printed_limits(course):
    """ASME B18.3.3M (Machinery's Handbook 31st ed., p. 1719), 8 mm row: f9 7.987/7.951, h8 8.000/7.978."""
    screws = [screw for screw in of_kind(course, ShoulderScrew) if screw.thread == "M6"]
    printed = [(7.951, 7.987), (7.978, 8.000)]
    for screw in screws:
        assert any(pair == limits(screw.shoulder_diameter) for pair in printed), screw.id
        assert (4.40, 4.58) == limits(screw.neck_diameter) and screw.socket == 4
    assert {screw.shoulder_length.least for screw in screws} >= {25, 30, 40, 50, 60}


def test_bearings_are_of_normal_class(course):
    """ISO 492 Normal class for bore, outside diameter and width; ISO 15 sizes 8 x 22 x 7 and 8 x 16 x 5."""
    metric = [bearing for bearing in of_kind(course, BallBearing) if bearing.nominal == 8]
    assert {(b.outside_diameter.most, b.width.most) for b in metric} == {(22, 7), (16, 5)}
    for bearing in metric:
        for column, size in (("bore", 8), ("width", 8), ("outside_diameter", bearing.outside_diameter.most)):
            lower, upper = lookup.bearing_limits(column, size)
            band = getattr(bearing, column)
            assert (band.most + lower, band.most + upper) == limits(band), (bearing.id, column)


@pytest.mark.parametrize("name, dynamic, static", [
    ("bb-608", 3300, 1370), ("bb-688", 1610, 710), ("bb-r6", 3350, 1410)])
def test_ball_complements_give_the_printed_ratings(course, name, dynamic, static):
    """C and C_0 of ISO 281 and ISO 76 from Z and D_w, within 1.5 per cent of bearing catalogues' printed ratings."""
    bearing = course.parts[name]
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


def test_nuts_and_washers_have_printed_limits(course):
    """M6 nut of ISO 4032: 4.9 to 5.2, 9.78 to 10; washers ISO 7089: thickness up to 1.8; nuts of B18.2.2, inches."""
    nut, inch, jam = (course.parts[name] for name in ("nut-m6", "nut-516", "nut-516-jam"))
    assert (4.9, 5.2) == limits(nut.height) and (9.78, 10) == limits(nut.across_flats)
    assert (0.258 * INCH, 0.273 * INCH) == limits(inch.height)
    assert (0.180 * INCH, 0.195 * INCH) == limits(jam.height)
    assert all(course.parts[name].thickness.most == 1.8 for name in ("wl-8", "ws-6"))
    assert {nut.kind for nut in of_kind(course, Nut)} == {"hex", "thin", "locking", "low locking"}


def test_bushes_follow_iso_2795(course):
    """ISO 2795 as delivered: bore F7 (8.013 to 8.028), outside r6 (12.023 to 12.034), length js13."""
    for bush in of_kind(course, SleeveBushing):
        if bush.nominal == 8:
            assert (8.013, 8.028) == limits(bush.free_bore) and (12.023, 12.034) == limits(bush.outside_diameter)
            assert bush.length.width == pytest.approx(0.22 if bush.length.typical < 10 else 0.27)


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


def test_every_part_is_in_a_kit_and_some_joint_stock_in_use(course):
    """No part that nobody gets; every process works on some stock."""
    assert {part for kit in course.kits.values() for part in kit.parts} == set(course.parts)
    kinds = {stock.kind for stock in course.stocks.values()}
    for process in course.processes.values():
        assert set(process.stocks.split()) & kinds, process.id
    assert {process.measured for process in course.processes.values()} == {"no"}


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
