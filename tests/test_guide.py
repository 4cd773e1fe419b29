"""What the guide's pages say and how they are made, before any site builder has seen them."""
import re
from collections import Counter
from pathlib import Path

import pytest

from guidegen.guide.compose import compose
from guidegen.guide.edition import Edition
from guidegen.guide.first_holes import first_holes
from guidegen.guide.holes import pocket, processes_of
from guidegen.guide.measures import Measures
from guidegen.guide.names import FITS, INPUTS, QUANTITIES, quantity_words
from guidegen.guide.steps import sections_of
from guidegen.guide.wobble import wanted_travel
from guidegen.guide.worked import chapters_of, places_of
from guidegen.joint import Worked, make_joint
from guidegen.kit.reader import read_course, read_words
from guidegen.units import Band

ROOT = Path(__file__).parent.parent
HEAVIEST = 43_000  # bytes of the body of a joint's answer; the theme adds some 14 000
HEAVIEST_WORKING = 43_500  # and of its working; the theme adds some 13 000


@pytest.fixture(scope="module")
def course():
    return read_course(ROOT)


@pytest.fixture(scope="module")
def results(course):
    """The joints that the demo names itself, and one in ten of its grid."""
    worked = Worked(course)
    named = [worked.result(make_joint(course, raw, id)) for id, raw in course.joints.items()]
    return [*named, *(worked.result(joint) for joint in worked.joints[::10])]


@pytest.fixture(scope="module")
def words():
    return read_words(ROOT / "shared")


@pytest.fixture(scope="module")
def guide(course, results, words):
    return compose(course, results, words)


def test_every_page_begins_with_its_heading_and_its_contents_lead_to_places(guide):
    """One h1, first; each entry of the table of contents is an id in the body."""
    assert len(guide.pages) > 100
    for page in guide.pages:
        assert re.match(r"<h1[ >]", page.body), page.path
        assert {heading.id for heading in page.toc} <= page.anchors, page.path


def test_no_page_carries_styles_scripts_or_addresses(guide):
    """Bodies are plain HTML: looks come from the style sheet alone, nothing is fetched."""
    for page in guide.pages:
        assert not re.search(r"<script|<style|\sstyle=|\son[a-z]+=|src=", page.body), page.path
        assert "http" not in page.body, page.path


def test_every_result_has_a_page_and_stands_in_the_index_of_ids(guide, results):
    """The list for other programs names what is there."""
    paths = {page.path for page in guide.pages}
    assert {f"joints/{result.id}.html" for result in results} <= paths
    assert all(f'"id": "{result.id}"'.encode() in guide.files["joints/index.json"] for result in results)


@pytest.mark.parametrize("folder, most", [("joints/", HEAVIEST), ("working/", HEAVIEST_WORKING)])
def test_worked_pages_are_light(guide, folder, most):
    """The heaviest stays below its limit; most stay well below."""
    weights = sorted(len(page.body.encode()) for page in guide.pages if page.path.startswith(folder))
    assert weights[-1] < most and weights[len(weights) // 2] < 0.9 * most, weights[-5:]


def test_what_a_page_tells_in_its_tables_is_worked_out_on_it(results, course):
    """Each number of its tables has its line of working; the worn wobble follows from clearances grown."""
    told = set()
    for result in results:
        places = places_of(result, sections_of(result))
        chapters = chapters_of(result, Measures("mm"), wanted_travel(course, result.joint))
        named = {name for chapter in chapters for name in chapter.told() if name in result.quantities}
        missing = {name for name in named - set(places) if not name.startswith("arm_play_1e")}
        missing -= {"ring_mismatch"}  # drawn at random, as the working of the end play says
        assert not missing, (result.id, missing)
        told |= named
    assert len(told) > 35


def test_the_verdict_and_the_hole_stand_above_the_drawing(guide, results):
    """What a student needs today is on top."""
    bodies = {page.path: page.body for page in guide.pages}
    for result in results:
        body = bodies[f"joints/{result.id}.html"]
        places = [body.index(text) for text in (f">{result.state}</b>", "Hole to draw", 'id="drawing"')]
        assert places == sorted(places), result.id


def test_every_number_has_words(results):
    """No result or input is shown by its program name; two names never share their words."""
    named = {name for result in results for name in (*result.inputs, *result.quantities)}
    for name in named:
        stem = re.sub("_[12]$", "", name)
        assert {name, stem} & (INPUTS.keys() | QUANTITIES.keys()), name
    assert len({quantity_words(name) for name in named}) == len(named) > 100


def test_no_page_of_a_joint_needs_reading_twice(guide):
    """No program's words for nothing, no huge number by its powers of ten."""
    pages = [page for page in guide.pages if page.path.startswith("joints/")]
    for page in pages:
        text = re.sub(r"<[^>]+>", " ", page.body)
        assert not re.search(r"\b(nan|inf|None)\b", text), page.path
        assert not re.search(r"× 10[⁰¹²³⁴⁵⁶⁷⁸⁹]|[×x] ?10\^|\de\+?\d", text), page.path
    assert any("over 100\u2009000 h" in page.body for page in pages)


def test_neighbours_and_ways_out_are_linked(guide, results, course, words):
    """A check that is not met links its way out when that is among the pages, else says what was tried."""
    edition = Edition(course, tuple(results), words)
    for page in guide.pages:
        result = edition.by_id.get(page.path.removeprefix("joints/").removesuffix(".html"))
        for verdict in result.verdicts if result else ():
            if verdict.instead in edition.by_id:
                assert f'href="{verdict.instead}.html"' in page.body
            elif verdict.tried and verdict.state != "holds":
                assert verdict.tried in page.body


def test_both_units_are_right():
    """Factors of NIST SP 811, app. B, for in, lbf, ksi, lbf·in: 25.4, 4.448222, 6.894757, 112.9848."""
    mm, inch = Measures("mm"), Measures("in")
    assert mm.value(25.4, "mm") == ("25.4 mm", "1 in") and inch.value(25.4, "mm") == ("1 in", "25.4 mm")
    assert mm.value(4.448222, "N", 4).second == "1 lbf"
    assert mm.value(6.894757, "MPa", 4).second == "1 ksi"
    assert mm.value(112.9848, "N·mm", 4).second == "1 lbf·in"
    assert mm.value(0.0174533, "rad", 3) == ("17.5 mrad", "1°")
    assert mm.limits(Band.between(7.951, 7.987)) == ("7.951 to 7.987 mm", "0.3130 to 0.3144 in")
    assert mm.range(0.1, 0.31, "mm").first == "0.1 to 0.31 mm"
    assert mm.value(1, "m/s", 4).second == "196.9 ft/min"  # 1 ft/min is 5.08 mm/s
    assert mm.value(1, "MPa·m/s", 4).second == "28\u2009550 psi·ft/min"  # 145.0377 psi times 196.8504 ft/min
    assert mm.value(0.5, "MPa", 3).second == "72.5 psi" and inch.value(0.5, "MPa", 3).first == "72.5 psi"
    assert mm.value(645.16, "mm²").second == "1 in²" and mm.value(1, "mm²/N", 4).second == "0.006895 in²/lbf"
    assert mm.torque(1129.848).line == "1.1 N·m (10 lbf·in)" and mm.torque(112.9848).line == "110 N·mm (1 lbf·in)"
    assert mm.on_scale(0.980665) == ("100 g", "3.5 oz")  # a hundred grams, of 28.34952 to the ounce


def test_numbers_are_no_finer_than_known():
    """Three digits before the point too; beyond what matters, words."""
    mm = Measures("mm")
    assert mm.value(3428.1, "N·mm").first == "3430 N·mm"
    assert mm.value(7.6e9, "h").first == "over 100\u2009000 h" and mm.value(88_000, "h").first == "88\u2009000 h"
    assert mm.value(14792, "10⁶").first == "over 10\u2009000 million turns"
    assert mm.value(3.15e7, "-").first == "31.5 million" and mm.factor(772).first == "over 100"
    assert mm.sensed(2.9e-5, "MPa·m/s") == ("under 0.0001 MPa·m/s", "under 3 psi·ft/min")
    assert mm.sensed(0.0, "mm").first == "0 mm" and mm.sensed(4e-4, "mm").first == "under 0.001 mm"


def test_small_lengths_are_written_out():
    """No powers of ten for a clearance; a deflection too small to see says so."""
    mm = Measures("mm")
    assert mm.value(0.0056, "mm", 2).second == "0.00022 in"
    assert mm.bend(0.0002) == ("under 0.001 mm", "under 0.0001 in")


def test_a_hole_is_drawn_smaller_by_what_the_machine_adds(course):
    """Drawn hole and bias give the middle of the made hole, for each process that has no class of its own."""
    seen = 0
    for stock in course.stocks.values():
        for process in processes_of(stock, course):
            for fit in FITS if not process.grade else ():
                made = pocket(course.parts["sb-8x12x8"], course, stock, process, fit).made
                middle = (made.band.least + made.band.most) / 2
                assert made.drawn + process.bias == pytest.approx(middle, abs=0.006), (stock.id, process.id)
                seen += 1
    assert seen > 20


def test_a_part_page_names_one_hole_for_each_stock_and_machine(course):
    """Pressed in where the chance of a right fit is four in five, else bonded; the drawn size is the table's."""
    for id in ("sb-8x12x8", "bb-608", "ny-8x12x8"):
        part, seen = course.parts[id], Counter()
        names, rows = first_holes(part, course, Measures("mm"))
        by_name = {process.name: process for process in course.processes.values()}
        for stock in course.stocks.values():
            kind = sum(other.kind == stock.kind for other in course.stocks.values())
            (row,) = [r for r in rows if stock.name in r.stock.split(", ")] or [
                r for r in rows if r.stock == f"any {stock.kind}"
            ]
            assert kind > 1 or stock.name in row.stock
            for name, way in zip(names, row.ways, strict=True):
                process = by_name[name]
                if stock.kind not in process.stocks.split():
                    assert way is None
                    continue
                press = pocket(part, course, stock, process, "press")
                right = press.fit.lasting
                if process.grade:
                    assert (way is None) == (right < 0.5)
                elif id.startswith("ny") or right >= 0.8:
                    assert way.fit == "press" and way.chance <= right
                else:
                    assert way.fit == "bonded"
                if way:
                    one = pocket(part, course, stock, process, way.fit)
                    drawn = float(way.draw.first.removesuffix(" mm"))
                    assert drawn == pytest.approx(one.made.drawn, abs=0.0051)
                    seen[way.fit] += 1
        assert seen["press"] > 5 and (seen["bonded"] > 5) != id.startswith("ny")
        assert len(rows) <= 9


def test_charts_stand_on_their_pages_with_words(guide):
    """Each pair's page shows its wobble and its causes; each chart is described, and tells how it is read."""
    pages = [page for page in guide.pages if page.path.startswith("pairs/")]
    assert len(pages) > 5
    for page in (*pages, next(page for page in guide.pages if page.path == "charts.html")):
        svgs = re.findall(r'<svg class="chart.*?</svg>', page.body, re.S)
        assert svgs and all("<title" in svg and "<desc" in svg for svg in svgs), page.path
        names = re.findall(r'\sid="([^"]+)"', page.body)
        assert len(names) == len(set(names)), page.path
