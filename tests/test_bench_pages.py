"""The pages of the bench: their tables worked out again, their links and words whole, also for a poor
course.
"""

import re
from math import sqrt

import numpy as np
import pytest
from joint_reference import course, some
from scipy.stats import t as student
from test_data import PLAIN_COURSE, ROOT

from guidegen.guide.chains_page import chains_page
from guidegen.guide.edition import Edition
from guidegen.guide.examples import example, named
from guidegen.guide.grids import grid
from guidegen.guide.measuring_page import RULER, leaves, measuring_page, sure_of
from guidegen.guide.stacks_page import stacks_pages
from guidegen.guide.trouble_page import trouble_page
from guidegen.joint import evaluate, make_joint
from guidegen.kit.reader import read_course, read_words

WORDS = read_words(ROOT / "shared")


def pages_of(edition):
    return [*stacks_pages(edition), chains_page(edition), measuring_page(edition), trouble_page(edition)]


@pytest.fixture(scope="module")
def edition():
    own = [evaluate(make_joint(course(), raw, id), course()) for id, raw in course().joints.items()]
    return Edition(course(), (*own, *some(150)), WORDS)


@pytest.fixture(scope="module")
def pages(edition):
    return {page.path: page for page in pages_of(edition)}


def cells(page, label):
    """Rows of the table of this label, each cell as the text of its first unit."""
    table = page.body.partition(f'aria-label="{label}"')[2].partition("</table>")[0]
    rows = re.findall(r"<tr>(.*?)</tr>", table.partition("<tbody>")[2], re.S)
    cut = [re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row, re.S) for row in rows]
    assert cut, label
    return [[re.sub(r"<small>.*?</small>|<[^>]+>", "", cell).strip() for cell in row] for row in cut]


def number(text):
    return float(re.search(r"-?[\d.]+", text.replace("−", "-").replace("\u2009", ""))[0])


def test_pages_are_whole(pages):
    """Headings that the contents name, no name twice, no number gone wrong,
    light enough with what the theme adds.
    """
    for page in pages.values():
        ids = re.findall(r'\sid="([^"]*)"', page.body)
        assert len(ids) == len(set(ids)) and {heading.id for heading in page.toc} <= page.anchors, page.path
        assert not re.search(r"\bnan\b|\binf\b|>None|None<|<script|\sstyle=", page.body), page.path
        assert len(page.body.encode()) < 45_000, page.path
        for root, id in re.findall(r'href="((?:\.\./)?)joints/([^"]+)\.html"', page.body):
            assert root == "../" * page.path.count("/"), page.path


def test_links_lead_to_what_is_there(edition, pages):
    """Joints, parts and places on these very pages."""
    for page in pages.values():
        assert set(re.findall(r'joints/([^"]+)\.html', page.body)) <= set(edition.by_id), page.path
        assert set(re.findall(r'parts/([^"]+)\.html', page.body)) <= set(course().parts), page.path
        for path, place in re.findall(r'href="([^"#]*)#([^"]+)"', page.body):
            target = pages.get(path.removeprefix("../")) if path else page
            assert target is None or place in target.anchors, (page.path, path, place)


def test_a_course_without_joints_still_gets_its_pages():
    """One or two parts of each kind, no joint worked out: nothing is invented, nothing breaks."""
    plain = read_course(PLAIN_COURSE)
    for page in pages_of(Edition(plain, (), WORDS)):
        assert page.body.startswith("<h1>") and "joints/" not in page.body.replace("joints.html", ""), (
            page.path
        )


def test_examples_are_the_courses_own(edition):
    assert [one.id for one in named(edition)] == [id for id in course().joints if id in edition.by_id]
    assert example(edition, lambda one: one.joint.layout == "C").id == "seed-tray-tilter"
    assert example(edition, lambda one: False) is None
    with pytest.raises(ValueError, match="2 cells under 1 heads"):
        grid("poor", "", ("one",), [("a", "b")])


def test_repeated_readings(pages):
    """Student's t from scipy and the plain sum of squares; the page's rows too."""
    for scatter, count in ((0.01, 3), (0.02, 5), (0.04, 10)):
        u = sqrt(0.02**2 / 3 + scatter**2 / count)
        freedom = (count - 1) * (u * sqrt(count) / scatter) ** 4
        assert sure_of(0.02, scatter, count) == pytest.approx(student.ppf(0.975, freedom) * u)
    for row in cells(pages["measuring.html"], "Repeated readings"):
        told = [number(cell) for cell in row]
        for count, sure in zip((3, 5, 10), told[1:]):
            assert sure == pytest.approx(sure_of(0.02, told[0], count), rel=0.05)


def test_rulers_and_leaves(pages):
    """Half a millimetre over twice the arm; leaves in steps of 0.05 beside the ends of a window."""
    for arm, tilt, allowed in cells(pages["measuring.html"], "Arms"):
        assert number(tilt) == pytest.approx(1000 * RULER / 2 / number(arm), rel=0.05)
        assert number(allowed) == pytest.approx(
            course().target_travel * number(arm) / course().target_arm, rel=0.04
        )
    assert leaves(0.05, 0.25) == pytest.approx((0.05, 0.30))
    assert leaves(0.06, 0.26) == pytest.approx((0.10, 0.30))


def test_travel_read_backwards(pages, edition):
    """Span and arm of the crank from its own file: 28 mm and an 8 mm bush, 120 mm; error by drawing."""
    random, made = np.random.default_rng(3), edition.by_id["vent-louvre-crank"].quantities["clearance_1"].band
    rows = cells(pages["trouble.html"], "Travel and clearance")
    assert len(rows) >= 4
    for travel, clearance, sure, says in rows:
        expected = number(travel) * 36 / 240
        assert number(clearance) == pytest.approx(expected, rel=0.04)
        drawn = (
            (number(travel) + random.normal(0, 0.5, 100_000)) * (36 + random.normal(0, 0.5, 100_000)) / 240
        )
        assert number(sure) == pytest.approx(drawn.std(), rel=0.08)
        assert ("worn" in says) == (expected - number(sure) > made.most) or abs(
            expected - number(sure) - made.most
        ) < 0.01
    assert rows[0][3] == "made so" and "worn" in rows[-1][3]


def test_the_pull_gives_back_the_friction(pages):
    """At the pull that bronze takes,
    the friction of the table of bronze comes out; twice the pull, twice that.
    """
    rows = cells(pages["trouble.html"], "Pull and friction")
    frictions = [number(row[2]) for row in rows]
    pulls = [number(row[1]) for row in rows]
    known = course().sliding["oil-bronze"].friction_start
    assert frictions[1] == pytest.approx(known.typical, rel=0.03)
    assert np.array(frictions) / np.array(pulls) == pytest.approx(frictions[1] / pulls[1], rel=0.06)
    assert rows[0][3] == "as it should be" and rows[-1][3] == "something else brakes it"


def test_nut_turns(pages):
    """Fractions of the pitch: M6 has 1 mm, 10-24 and 5/16-18 an inch over their threads to the inch."""
    pitches = {"M6": 1.0, "10-24": 25.4 / 24, "5/16-18": 25.4 / 18}
    rows = cells(pages["stacks.html"], "Turns of the nut")
    assert {row[0] for row in rows} == set(pitches)
    for name, pitch, flat, quarter, half, whole, window in rows:
        for text, share in ((pitch, 1), (flat, 1 / 6), (quarter, 1 / 4), (half, 1 / 2), (whole, 1)):
            assert number(text) == pytest.approx(pitches[name] * share, rel=0.04)
        low, high = map(number, window.split(" to "))
        assert (low, high) == pytest.approx((0.05 / pitches[name] * 360, 0.25 / pitches[name] * 360), abs=0.6)


def test_rings_that_do_not_match(pages):
    """Two 608: play of one from groove and clearance, 2·√(0.04·D_w·G), less what the rings are off."""
    rows = {row[0]: row[1:] for row in cells(pages["stacks.html"], "Rings that do not match")}
    bearing = course().parts["bb-608"]
    own = 2 * sqrt(0.04 * bearing.ball_diameter * bearing.internal_clearance.typical)
    assert number(rows["bb-608"][0]) == pytest.approx(own, rel=0.02)
    for off, text in zip((0.02, 0.05, 0.1, 0.2), rows["bb-608"][1:]):
        assert ("none" in text) == (own < off)
        assert number(text) == pytest.approx(abs(own - off), rel=0.05)


def test_loose_rings_and_nuts(pages):
    """Diameter over clearance, from the limits in the files and the tables of threads."""
    rows = {row[0].partition(" ")[0]: row[1:] for row in cells(pages["chains.html"], "Loose rings")}
    shaft, bore = course().parts["ss-8x25"].shoulder_diameter.typical, course().parts["bb-608"].bore.typical
    assert number(rows["bb-608"][1]) == pytest.approx(bore / (bore - shaft), rel=0.05)
    hole = 22 + 0.021 / 2  # H7 of 22 mm: 0 to +21 micrometres (ISO 286)
    outside = course().parts["bb-608"].outside_diameter.typical
    assert number(rows["bb-608"][3]) == pytest.approx(outside / (hole - outside), rel=0.05)
    nuts = {row[0]: row[1:] for row in cells(pages["chains.html"], "Loose nuts")}
    room = (5.350 + 5.500) / 2 - (5.212 + 5.324) / 2  # M6, 6H and 6g
    assert number(nuts["M6"][1]) == pytest.approx(5.425 / room, rel=0.03)
    assert number(nuts["M6"][2]) == pytest.approx(1000 * room / 5.425, rel=0.03)


def test_nylon_that_swells(pages):
    """Wall volume kept by hand:
    the growth at each dampness from the table, times one and a half with ends held.
    """
    rows = cells(pages["trouble.html"], "Nylon and water")
    start, d, D = number(rows[0][2]), 8.05, 12.0
    assert rows[0][2] == rows[0][3]
    for row in rows[1:]:
        grown = number(row[1]) / 100
        for text, held in ((row[2], 1.0), (row[3], 1.5)):
            left = start - held * grown * (D**2 - d**2) / d
            assert ("seizes" in text) == (left <= 0) or abs(left) < 0.002
            if left > 0.005:
                assert number(text) == pytest.approx(left, abs=0.002)


def test_pressed_bearings_at_their_marks(pages):
    """Thick rings by Lamé's constants:
    hoop stress at the interference told; the last row is where it cracks.
    """
    from joint_reference import squeezed

    stock, bush = course().stocks["birch-ply-6"], course().parts["sb-8x12x8"]
    bronze = course().materials[bush.material]
    rows = cells(pages["trouble.html"], "Pressed in birch-ply-6")
    modulus = (stock.modulus_along + stock.modulus_across) / 2
    for tight, push, stress, says in rows[1:]:
        pressure, _ = squeezed(
            number(tight), bush.free_bore.typical, bush.outside_diameter.typical, 28.0,
            (bronze.youngs_modulus, bronze.poisson), (modulus, stock.poisson),
        )  # fmt: skip
        D, hub = bush.outside_diameter.typical, 28.0
        assert number(stress) == pytest.approx(pressure * (hub**2 + D**2) / (hub**2 - D**2), rel=0.06)
        assert number(push) == pytest.approx(np.pi * 0.35 * D * 6 * pressure, rel=0.06)
    assert "cracks" in rows[-1][3] and number(rows[-1][2]) == pytest.approx(stock.hoop_limit_short, rel=0.04)
    assert rows[0][3] == "falls out"


def test_equal_joints_table(pages):
    for row in cells(pages["chains.html"], "Equal joints"):
        count = int(row[0])
        away = np.arange(1, count + 1)
        assert number(row[1]) == pytest.approx(course().target_travel * away.sum(), rel=0.03)
        assert number(row[2]) == pytest.approx(course().target_travel * np.hypot.reduce(away), rel=0.03)
