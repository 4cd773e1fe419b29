"""Charts read back: lines against a second calculation, words against the picture, and their form."""

import re
import xml.etree.ElementTree as ET
from collections import Counter, defaultdict
from fractions import Fraction
from itertools import combinations, product
from types import SimpleNamespace

import joint_reference
import numpy as np
import pytest
from beam_reference import solved
from hypothesis import given
from hypothesis import strategies as st

from guidegen.guide.charts import CHART_CSS, general_charts, pair_charts
from guidegen.guide.charts.curves import deflection
from guidegen.guide.charts.style import spread
from guidegen.guide.pairs import groups
from guidegen.joint import evaluate, make_joint
from guidegen.units import MM_PER_INCH

pytestmark = pytest.mark.xdist_group("charts")  # drawn once
PIXEL = 0.3  # user units within which a drawn place is right: a thin line is wider


@pytest.fixture(scope="module")
def results():
    """What the guide shows: the joints that the course names itself, and its grid."""
    course = joint_reference.course()
    named = [make_joint(course, raw, id) for id, raw in course.joints.items()]
    return tuple(evaluate(joint, course) for joint in (*named, *joint_reference.worked()))


@pytest.fixture(scope="module")
def made(results):
    course = joint_reference.course()
    return groups(results, course.joints, list(course.kits.values()))


@pytest.fixture(scope="module")
def charts(results, made):
    """All charts of the guide by id; those of a pair with the results they show."""
    course = joint_reference.course()
    found = [chart for group in made for chart in pair_charts(group, course)]
    found += general_charts(results, course)
    assert len({chart.id for chart in found}) == len(found) > 20
    return {chart.id: chart for chart in found}


@pytest.fixture(scope="module")
def pictures(charts):
    return {id: Picture(chart) for id, chart in charts.items()}


@pytest.fixture(scope="module")
def wobbles(pictures, made):
    """(picture, results of its group) of every chart of a pair's wobble."""
    found = [
        (pictures[id], group.worked)
        for group in made
        for id in pictures
        if re.fullmatch(rf"wobble-{group.key}-\d", id)
    ]
    assert len(found) > 8
    return found


class Picture:
    """A chart read back: scales from its ticks, and drawn things in the units of the scales."""

    def __init__(self, chart):
        self.chart, self.root = chart, ET.fromstring(chart.svg)
        self.things = [thing for thing in self.root.iter() if thing.tag not in ("defs", "g")]
        self.shapes = {thing.get("id"): thing for thing in self.root.iter("path") if thing.get("id")}
        ticks = {"bottom": [], "top": [], "left": [], "right": []}
        for mark, label in zip(self.things, self.things[1:]):
            number = _number(label)
            if mark.tag == "use" and number is not None:
                x, y = (float(mark.get(name)) for name in "xy")
                side = _side(mark, label)
                ticks[side].append((number, x if side in ("bottom", "top") else y))
        self.scales = {side: np.polyfit(*zip(*found), 1) for side, found in ticks.items() if len(found) > 1}
        self.ticks = ticks

    def data(self, points, across="bottom", up="left"):
        """Drawn points in the units of two scales."""
        (a, b), (c, d) = self.scales[across], self.scales[up]
        return [((x - b) / a, (y - d) / c) for x, y in points]

    def unit(self, side="left"):
        """How much of a scale a user unit is."""
        return 1 / abs(self.scales[side][0])

    def lines(self, number, width="1.8"):
        """Drawn lines of a number, as points in data."""
        return [
            self.data(_points(thing.get("d")))
            for thing in self.things
            if thing.tag == "path"
            and f"chart-line-{number}" in thing.get("class", "").split()
            and thing.get("stroke-width") == width
            and not thing.get("id")
        ]

    def markers(self, number):
        """Places of a line's markers in data; those that stand in words' line at the top left out."""
        marks = [
            (float(thing.get("x")), float(thing.get("y")))
            for thing in self.things
            if thing.tag == "use" and f"chart-line-{number}" in thing.get("class", "").split()
        ]
        return self.data([place for place in marks if place[1] > 50])

    def bands(self):
        """Outlines of shaded bands: (separations, lower, upper)."""
        for thing in self.things:
            if thing.tag == "use" and "chart-fill-band" in thing.get("class", ""):
                down = float(thing.get("y"))
                outline = self.data(
                    [(x, y + down) for x, y in _points(self.shapes[thing.get("href")[1:]].get("d"))]
                )
                xs = sorted({round(x, 6) for x, _ in outline})
                edges = [[y for x, y in outline if abs(x - at) < 1e-5] for at in xs]
                yield np.array(xs), np.array([min(e) for e in edges]), np.array([max(e) for e in edges])


def _points(path):
    return [tuple(map(float, pair)) for pair in re.findall(r"[ML] (-?[\d.]+) (-?[\d.]+)", path)]


def _number(label):
    words = "".join(label.itertext()) if label.tag == "text" else ""
    return float(words.replace("\u2212", "-")) if re.fullmatch("[\u2212\\d.]+", words) else None


def _side(mark, label):
    dx = float(label.get("x")) - float(mark.get("x"))
    dy = float(label.get("y")) - float(mark.get("y"))
    if abs(dx) < 0.1:
        return "bottom" if dy > 0 else "top"
    return "right" if dx > 0 else "left"


def shown(picture, worked):
    """Results of a group that a wobble chart's title is about; first those in the housing drawn."""
    title = picture.chart.title
    screws = title.partition("; on ")[2].split(", ")
    named = [
        result
        for result in worked
        if result.joint.housings[0].stock.name in title and (not screws[0] or result.joint.shaft.id in screws)
    ]
    counts = Counter(result.joint.housings[0].stock.id for result in named)
    return sorted(named, key=lambda result: -counts[result.joint.housings[0].stock.id])


# what is drawn


def test_markers_are_the_worked_joints(wobbles):
    """Each separation that the kit builds has its marker, at the travel that evaluation gives."""
    for picture, worked in wobbles:
        expected = {
            (round(r.joint.separation, 2), r.quantities["arm_play"].typical) for r in shown(picture, worked)
        }
        drawn = picture.markers(1)
        assert drawn, picture.chart.id
        for x, y in drawn:
            assert any(
                abs(x - apart) < PIXEL * picture.unit("bottom") and abs(y - travel) < PIXEL * picture.unit()
                for apart, travel in expected
            ), (picture.chart.id, x, y)
        assert {round(x) for x, _ in drawn} == {round(apart) for apart, _ in expected}


def test_forks_stand_higher_than_the_line(wobbles):
    """Where the screw moves in a fork's cheeks, the marker is what the joint's page tells: both tilts."""
    seen = 0
    for picture, worked in wobbles:
        expected = [
            (r.joint.separation, 2 * r.joint.arm * r.quantities["seen_tilt"].typical)
            for r in shown(picture, worked)
            if "cheek_tilt" in r.quantities
        ]
        drawn = picture.markers(4)
        assert bool(drawn) == bool(expected)
        for x, y in drawn:
            assert (
                min(np.hypot((x - a) / picture.unit("bottom"), (y - b) / picture.unit()) for a, b in expected)
                < 0.5
            )
        seen += len(drawn)
    assert seen > 10


def test_curves_are_what_a_second_calculation_gives(wobbles):
    """Typical line and edges of the pale band at every fifth separation, by rings and corner points."""
    for picture, worked in wobbles:
        (line,) = picture.lines(1)
        result = shown(picture, worked)[0]
        v, ends = joint_reference.sizes(result), joint_reference.corners(result)
        pale, _ = picture.bands()
        for (apart, typical), low, high in list(zip(line, *pale[1:]))[::5]:
            away = {"separation": apart}
            assert typical == pytest.approx(
                float(joint_reference.play(result.joint, v | away)["arm_play"]), abs=PIXEL * picture.unit()
            )
            corner = joint_reference.play(result.joint, v | ends | away)["arm_play"]
            for drawn, edge in ((low, corner.min()), (high, corner.max())):
                assert drawn == pytest.approx(float(edge), abs=2 * PIXEL * picture.unit()), (
                    picture.chart.id,
                    apart,
                )


def test_sorts_that_share_a_chart_look_alike(wobbles):
    """Another housing under the same line travels the same, to a fiftieth of the limit."""
    together = 0
    for picture, worked in wobbles:
        first, *others = {r.joint.housings[0].stock.id: r for r in shown(picture, worked)[::-1]}.values()
        for other in others:
            for apart in (10.0, 20.0, 30.0):
                pair = []
                for result in (first, other):
                    v, ends = joint_reference.sizes(result), joint_reference.corners(result)
                    travel = [
                        joint_reference.play(result.joint, v | more | {"separation": apart})["arm_play"]
                        for more in ({}, ends)
                    ]
                    pair.append((float(travel[0]), float(travel[1].max())))
                assert pair[0] == pytest.approx(pair[1], abs=0.02)
            together += 1
    assert together


def test_dark_band_holds_nine_of_ten(wobbles):
    """Its edges are the 5th and 95th percentile of 20 000 joints of random sizes, one curve in three."""
    for seed, (picture, worked) in enumerate(wobbles[::3]):
        result = shown(picture, worked)[0]
        drawn = joint_reference.sample(result, 20_000, seed)
        _, (separations, low, high) = picture.bands()
        for n in (8, 30):
            travel = joint_reference.play(
                result.joint, joint_reference.sizes(result) | drawn | {"separation": separations[n]}
            )["arm_play"]
            for edge, percentile in ((low[n], 5), (high[n], 95)):
                assert edge == pytest.approx(
                    np.percentile(travel, percentile), rel=0.03, abs=2 * PIXEL * picture.unit()
                )


def test_bands_hold_their_line_and_points(wobbles):
    """Pale over dark over line, and every marker within, at every separation."""
    for picture, _ in wobbles:
        (xs, least, most), (_, low, high) = picture.bands()
        line = np.array([y for _, y in picture.lines(1)[0]])
        slack = 0.02 * picture.unit()
        for below, above in ((least, low), (low, line), (line, high), (high, most)):
            assert np.all(below <= above + slack), picture.chart.id
        for x, y in picture.markers(1):
            assert np.interp(x, xs, least) - slack <= y <= np.interp(x, xs, most) + slack


def test_one_bearing_alone_and_the_limit_are_level_lines(wobbles):
    """One bearing by the second calculation; the limit is that of the course, at this arm."""
    course = joint_reference.course()
    for picture, worked in wobbles:
        result = shown(picture, worked)[0]
        joint, v = result.joint, joint_reference.sizes(result)
        found = []
        for n in dict.fromkeys(bearing.id for bearing in joint.bearings):
            place = [bearing.id for bearing in joint.bearings].index(n)
            one = SimpleNamespace(bearings=joint.bearings[place:][:1], housings=joint.housings[place:][:1])
            moved = {name[:-1] + "1": size for name, size in v.items() if name.endswith(f"_{place + 1}")}
            sizes = {name: size for name, size in v.items() if name != "separation"} | moved
            found.append(float(joint_reference.play(one, sizes)["arm_play"]))
        drawn = picture.lines(3)
        assert sorted(line[0][1] for line in drawn) == pytest.approx(
            sorted(found), abs=PIXEL * picture.unit()
        )
        assert all(line[0][1] == line[-1][1] for line in drawn)
        limit = course.target_travel * joint.arm / course.target_arm
        level = [
            picture.data(_points(thing.get("d")))
            for thing in picture.things
            if thing.tag == "path" and thing.get("stroke-width") == "1.6"
        ]
        assert [line[0][1] for line in level] == [pytest.approx(limit, abs=PIXEL * picture.unit())]


def test_both_scales_of_a_chart_say_the_same(pictures):
    """Inches opposite millimetres: 25.4 mm to the inch."""
    checked = 0
    for picture in pictures.values():
        for metric, inch in (("bottom", "top"), ("left", "right")):
            if inch not in picture.scales:
                continue
            (a, b), (c, d) = picture.scales[metric], picture.scales[inch]
            assert c / a == pytest.approx(MM_PER_INCH, rel=1e-3), picture.chart.id
            assert b == pytest.approx(d, abs=PIXEL)
            checked += 1
    assert checked > 20


def test_reactions_keep_the_shaft_in_balance(pictures):
    """Forces add up to the load, moments about both bearings to nothing, wherever the load is; statics."""
    picture = pictures["reactions-by-place"]
    (first,), (second,) = picture.lines(1), picture.lines(2)
    assert [x for x, _ in first] == pytest.approx([-1, 2], abs=0.01)
    for (a, one), (_, two) in zip(first, second):
        assert one + two == pytest.approx(1, abs=0.02)
        assert two * 1 == pytest.approx(1 + a, abs=0.02)  # about bearing 1, the separation being 1
        assert one * 1 == pytest.approx(-a, abs=0.02)  # about bearing 2


def test_deflection_is_that_of_a_reference_beam(pictures, results):
    """Against sympy's beam with both senses of the couple, and drawn where it is computed."""
    kits = {result.joint.kit.id for result in results}
    for kit in kits:
        picture = pictures[f"deflection-{kit}"]
        shafts = [
            r.joint
            for r in results
            if r.joint.kit.id == kit and r.joint.layout == "A" and not r.joint.single
            if r.id not in joint_reference.course().joints
        ]
        joint = next(joint for joint in shafts if joint.radial == 20)
        stiffness = joint.youngs_modulus * np.pi * joint.shaft.shoulder_diameter.typical**4 / 64
        built = sorted(joint.separation for joint in shafts)
        for number, apart in ((1, built[0]), (2, built[-1])):
            (line,) = picture.lines(number)
            for x, y in (line[len(line) // 5], line[-1]):
                S, a = Fraction(round(apart, 6)), Fraction(round(x, 4))
                load, couple = ((S + a, Fraction(joint.radial)),), Fraction(joint.axial * joint.arm)
                bent = max(
                    abs(float(solved((Fraction(0), S), load, ((S + a, sense * couple),), (S + a,))[0][0]))
                    / stiffness
                    for sense in (1, -1)
                )
                assert y == pytest.approx(1000 * bent, abs=2 * PIXEL * picture.unit()), (kit, apart, x)
                assert deflection(joint, float(S), [float(a)])[0] == pytest.approx(bent, rel=1e-6)


def test_the_rule_of_thumb_overstates_by_the_length_of_the_bush(pictures, made):
    """Two like bushes: the rule says (S + L)/S times the truth; derived by hand from c/S and c/(S + L)."""
    picture = pictures["rule-of-thumb-bushes"]
    length = float(re.search(r"each ([\d.]+) mm", picture.chart.text_alternative)[1])
    (truth,), (rule,) = picture.lines(1), picture.lines(2)
    for (apart, true), (_, said) in list(zip(truth, rule))[::6]:
        assert said / true == pytest.approx((apart + length) / apart, rel=0.02)


def test_every_pair_of_a_kit_is_on_its_chart(pictures, made):
    """One line a pair of the grid, named beside its end, told apart by dashes and markers too."""
    named = joint_reference.course().joints
    for kit in {group.kit for group in made}:
        picture = pictures[f"wobble-{kit}"]
        pairs = [g for g in made if g.kit == kit and not g.first.single and g.first.id not in named]
        drawn = [
            (thing.get("class"), thing.get("stroke-dasharray"))
            for thing in picture.things
            if thing.tag == "path"
            and thing.get("stroke-width") == "1.8"
            and "chart-line" in thing.get("class", "")
        ]
        assert (
            len(drawn) == len({name for name, _ in drawn}) == len({dash for _, dash in drawn}) == len(pairs)
        )
        words = {"".join(text.itertext()) for text in picture.root.iter("text")}
        assert {
            "two nylon",
            "two bronze",
            "balls, loose",
            "balls, clamped",
            "bronze, ball",
            "limit 1 mm",
        } <= words
        for number, group in enumerate(pairs, 1):
            for x, y in picture.markers(number):
                assert any(
                    abs(r.joint.separation - x) < 0.1
                    and abs(r.quantities["arm_play"].typical - y) < picture.unit()
                    for r in group.worked
                ), group.key


def test_bars_are_as_long_as_the_shares(pictures, made):
    """Each bar's parts are the shares of a worked joint; what takes play away lies left of zero."""
    negative = 0
    for group in made:
        picture = pictures[f"causes-{group.key}"]
        bars = _bars(picture)
        for bar in bars:
            assert any(bar == pytest.approx(_per_cent(r.shares), abs=0.8) for r in group.worked), group.key
            negative += min(bar) < -5
        printed = [
            [float(cell[:-2].replace("\u2212", "-")) for cell in row[1:]] for row in picture.chart.numbers[1:]
        ]
        assert printed == [pytest.approx(bar, abs=0.8) for bar in bars]
        for row in printed:
            assert sum(row) == pytest.approx(100, abs=2)  # each rounded
    assert negative


def _per_cent(shares):
    return [100 * shares[cause] for cause in ("shoulder", "bearing", "housing", "closure", "together")]


def _bars(picture):
    """Signed lengths of the parts of each bar, from the top; parts touch, and one begins at zero."""
    scale, offset = picture.scales["bottom"]
    rows = defaultdict(dict)
    for thing in picture.things:
        if thing.tag == "path" and (found := re.search("chart-fill-([1-5])", thing.get("class", ""))):
            points = _points(thing.get("d"))
            across = [(x - offset) / scale for x, _ in points]
            rows[round(sum(y for _, y in points))][int(found[1])] = min(across), max(across)
    bars = []
    for _, parts in sorted(rows.items()):
        ends = sorted(parts.values())
        assert any(abs(x) < 0.2 for pair in ends for x in pair)
        assert all(abs(before[1] - after[0]) < 0.2 for before, after in zip(ends, ends[1:]))
        signed = {n: left - right if right < 0.2 else right - left for n, (left, right) in parts.items()}
        bars.append([signed.get(number, 0.0) for number in range(1, 6)])
    return bars


# what is said


def test_words_name_the_true_extremes(wobbles):
    """Nearest and farthest, with least and most there, as read from the picture."""
    for picture, _ in wobbles:
        text = picture.chart.text_alternative
        (xs, least, most), _ = picture.bands()
        near = re.search(
            r"middles ([\d.]+) mm .*? typically ([\d.]+) mm .*? within limits ([\d.]+)(?: to ([\d.]+))? mm",
            text,
        )
        values = [float(x) for x in near.groups()]
        line = picture.lines(1)[0]
        for said, drawn, unit in (
            (values[0], xs[0], picture.unit("bottom")),
            (values[1], line[0][1], picture.unit()),
            (values[2], least[0], picture.unit()),
            (values[3], most[0], picture.unit()),
        ):
            assert said == pytest.approx(drawn, rel=0.05, abs=unit), picture.chart.id


def test_words_name_the_separation_from_which_all_is_well(wobbles):
    """The largest travel by the second calculation crosses the limit there, or nowhere."""
    safe = never = 0
    for picture, worked in wobbles:
        result, text = shown(picture, worked)[0], picture.chart.text_alternative
        v, ends = joint_reference.sizes(result), joint_reference.corners(result)
        (xs, _, _), _ = picture.bands()

        def most(apart):
            return joint_reference.play(result.joint, v | ends | {"separation": apart})["arm_play"].max()

        limit = float(re.search(r"Limit: ([\d.]+) mm", text)[1])
        if found := re.search(r"From ([\d.]+) mm .*? apart every joint", text):
            assert most(float(found[1])) == pytest.approx(limit, rel=0.02)
            safe += 1
        elif "No separation drawn keeps every joint under it" in text:
            assert most(xs[-1]) > limit
            never += 1
        else:
            assert "Every joint drawn stays under it" in text and most(xs[0]) <= limit
    assert safe and never


def test_every_chart_says_how_it_is_read(charts):
    """A title, words with numbers in them for those who do not see it, and how to read it."""
    for chart in charts.values():
        assert chart.title and re.search(r"\d", chart.text_alternative)
        assert chart.how_to_read.count(". ") >= 1 and chart.how_to_read.endswith(".")
        root = ET.fromstring(chart.svg)
        assert root.find("title").text == chart.title
        assert root.find("desc").text == chart.text_alternative


# how it stands in a page


def test_nothing_in_a_chart_needs_a_style(charts):
    """Presentation attributes and classes alone, each class in the style sheet; size by the page."""
    for chart in charts.values():
        root = ET.fromstring(chart.svg)
        assert root.get("role") == "img" and root.get("viewBox") and "{" not in root.tag
        assert not {"width", "height", "style"} & set(root.attrib)
        for thing in root.iter():
            assert "style" not in thing.attrib and thing.tag not in ("style", "metadata", "script", "image")
            assert not [name for name in thing.attrib if ":" in name or name.startswith("on")]
            assert "#0000" not in " ".join(thing.attrib.values())
            for name in thing.get("class", "").split():
                assert f".{name} " in CHART_CSS, name
        assert len(chart.svg.encode()) < 22_000, chart.id


def test_charts_share_no_name(charts):
    """Ids begin with the chart's own, are all different, and every reference leads somewhere inside."""
    names = []
    for chart in charts.values():
        own = [thing.get("id") for thing in ET.fromstring(chart.svg).iter() if thing.get("id")]
        assert all(name == chart.id or name.startswith(f"{chart.id}-") for name in own)
        assert set(re.findall(r'(?:url\(#|href="#)([^)"]+)', chart.svg)) <= set(own)
        names += own
    assert len(names) == len(set(names))


def test_same_bytes_twice(charts, made, results):
    """A chart drawn again is the same."""
    course = joint_reference.course()
    again = [*pair_charts(made[0], course), *general_charts(results, course)]
    assert len(again) > 5
    assert [chart for chart in again if charts[chart.id] != chart] == []


MEASURE = """() => [...document.querySelectorAll('svg')].map(svg => {
  const box = r => [r.left, r.top, r.right, r.bottom], outer = box(svg.getBoundingClientRect());
  const texts = [...svg.querySelectorAll('text')];
  return [svg.id, outer, texts.map(t => [t.textContent, box(t.getBoundingClientRect())])];
})"""


@pytest.mark.parametrize("font", ["", "* { font-family: 'DejaVu Sans' !important }"])
def test_words_are_whole_and_apart(charts, browser, font):
    """In a browser: no word leaves its chart, none lies on another, in the page's own and in a wide font."""
    page = browser.new_page(viewport={"width": 400, "height": 800})
    body = "".join(chart.svg for chart in charts.values())
    page.set_content(f"<!doctype html><style>{CHART_CSS} .chart {{ width: 380px }} {font}</style>{body}")
    measured = page.evaluate(MEASURE)
    page.close()
    assert len(measured) == len(charts)
    for id, outer, texts in measured:
        assert len(texts) > 3
        for words, box in texts:
            assert box[0] >= outer[0] and box[1] >= outer[1] - 1, (id, words)
            assert box[2] <= outer[2] and box[3] <= outer[3] + 1, (id, words)
        for (one, a), (other, b) in combinations(texts, 2):
            across = min(a[2], b[2]) - max(a[0], b[0])
            down = min(a[3], b[3]) - max(a[1], b[1])
            assert across < 1 or down < 2, (
                id,
                one,
                other,
            )  # boxes of lines hold room above and below letters


# the colours

# How people see who lack one kind of cone, for linear RGB: Machado, Oliveira and Fernandes 2009; from memory.
CONES = {
    "all three": np.eye(3),
    "no long": [
        [0.152286, 1.052583, -0.204868],
        [0.114503, 0.786281, 0.099216],
        [-0.003882, -0.048116, 1.051998],
    ],
    "no middle": [
        [0.367322, 0.860646, -0.227968],
        [0.280085, 0.672501, 0.047413],
        [-0.01182, 0.04294, 0.968881],
    ],
    "no short": [
        [1.255528, -0.076749, -0.178779],
        [-0.078411, 0.930809, 0.147602],
        [0.004733, 0.691367, 0.3039],
    ],
}
PAPER = {"light": "#ffffff", "dark": "#131a18"}


def palette(scheme):
    blocks = re.findall(r"([^{}]*)\{([^{}]*--chart-1: #[^{}]*)\}", CHART_CSS)
    (block,) = [text for selector, text in blocks if ("slate" in selector) == (scheme == "dark")]
    colours = re.findall(r"--chart-[1-5]: (#[0-9a-f]{6})", block)
    assert len(colours) == 5
    return colours


def linear(colour):
    parts = np.array([int(colour[n : n + 2], 16) for n in (1, 3, 5)]) / 255
    return np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)


def lab(rgb):
    """CIELAB of linear sRGB; IEC 61966-2-1 and ISO/CIE 11664-4, constants from memory."""
    xyz = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]]) @ rgb
    xyz = xyz / (0.9505, 1.0, 1.089)
    f = np.where(xyz > (6 / 29) ** 3, np.cbrt(xyz), xyz * (29 / 6) ** 2 / 3 + 4 / 29)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


@pytest.mark.parametrize("scheme", PAPER)
def test_colours_are_read_and_told_apart(scheme):
    """Contrast at least 4.5 to 1 (WCAG 2.2, 1.4.3), and far apart for eyes that lack one kind of cone."""
    light = lambda colour: linear(colour) @ (0.2126, 0.7152, 0.0722)  # noqa: E731
    for colour in palette(scheme):
        bright, dim = sorted((light(colour), light(PAPER[scheme])), reverse=True)
        assert (bright + 0.05) / (dim + 0.05) >= 4.5, colour
    for (eyes, cones), (one, other) in product(CONES.items(), combinations(palette(scheme), 2)):
        seen = [lab(np.clip(np.array(cones) @ linear(colour), 0, 1)) for colour in (one, other)]
        assert np.linalg.norm(seen[0] - seen[1]) > 15, (eyes, one, other)


# labels


@given(st.lists(st.floats(0, 200), min_size=1, max_size=8), st.floats(1, 20))
def test_labels_move_apart_and_no_farther(places, gap):
    """Enough room between, all inside, in order; those that have room already stay."""
    places = sorted(places)
    moved = spread(places, gap, 0, 200)
    assert all(b - a >= gap - 1e-6 for a, b in zip(moved, moved[1:]))
    assert -1e-9 <= moved[0] and moved[-1] <= 200 + 1e-9
    if all(b - a >= gap for a, b in zip(places, places[1:])):
        assert moved == pytest.approx(places, abs=1e-6)
    elif 2 * gap < places[0] and places[-1] < 200 - gap * len(places):
        assert sum(moved) == pytest.approx(sum(places))  # as far up as down
