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
from trial_reference import Trial

from guidegen.guide.charts import CHART_CSS, general_charts, pair_charts
from guidegen.guide.charts.bending import bends
from guidegen.guide.charts.curves import deflection
from guidegen.guide.charts.style import spread, tick_words, ticks
from guidegen.guide.kinds import kinds_of
from guidegen.guide.pairs import groups
from guidegen.guide.trials import kit_trials
from guidegen.joint import as_json, evaluate, make_joint

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
def trials(made):
    """The kinds of pairs of each kit at like joints, under each load and motion."""
    course = joint_reference.course()
    return kit_trials(course.kits.values(), made, course)


@pytest.fixture(scope="module")
def charts(made, trials):
    """All charts of the guide by id; those of a pair with the results they show."""
    course = joint_reference.course()
    found = [chart for group in made for chart in pair_charts(group, course)]
    found += general_charts(made, trials, course)
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
        self.box = _frame(self.things)
        self.ticks = _ticks(self.things, self.box)
        self.logarithmic = _by_ratio(self.ticks)
        self.scales = {
            side: np.polyfit(
                [np.log10(x) if side in self.logarithmic else x for x, _ in found], [y for _, y in found], 1
            )
            for side, found in self.ticks.items()
            if len(found) > 1
        }

    def data(self, points, across="bottom", up="left"):
        """Drawn points in the units of two scales."""
        (a, b), (c, d) = self.scales[across], self.scales[up]
        places = [((x - b) / a, (y - d) / c) for x, y in points]
        return [
            (10**x if across in self.logarithmic else x, 10**y if up in self.logarithmic else y)
            for x, y in places
        ]

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
        """Places of a line's markers in data; those along the top and in the key under the chart left out."""
        marks = [
            (float(thing.get("x")), float(thing.get("y")))
            for thing in self.things
            if thing.tag == "use" and f"chart-line-{number}" in thing.get("class", "").split()
        ]
        return self.data([place for place in marks if 50 < place[1] < self.box[3] + 10])

    def key(self):
        """The key under the chart: number of each sample of a line, its dashes, its marker, its words."""
        under = [t for t in self.things if t.tag == "path" and t.get("stroke-width") == "2"]
        marks = {
            (round(float(t.get("x"))), round(float(t.get("y")))): t.get("href") for t in self.things if t.tag == "use"
        }
        texts = {
            (round(float(t.get("x"))), round(float(t.get("y")))): "".join(t.itertext()) for t in self.root.iter("text")
        }
        for sample in under:
            (left, y), (right, _) = _points(sample.get("d"))
            beside = min(
                (place for place in texts if place[0] >= right and abs(place[1] - y) < 8),
                key=lambda place: place[0],
            )
            middle = round((left + right) / 2), round(y)
            marker = next((m for place, m in marks.items() if np.hypot(*np.subtract(place, middle)) < 2), None)
            yield sample.get("class"), sample.get("stroke-dasharray"), marker, texts[beside]

    def bands(self, role="band"):
        """Outlines of shaded bands, also of those that leave the picture: (x, lower, upper)."""
        for thing in self.things:
            if (
                f"chart-fill-{role}" not in thing.get("class", "").split()
                or "fill-opacity" not in thing.attrib
            ):
                continue
            if thing.tag == "use":
                points, down = _points(self.shapes[thing.get("href")[1:]].get("d")), float(thing.get("y"))
            else:
                points, down = _points(thing.get("d")), 0.0
            outline = self.data([(x, y + down) for x, y in points])
            xs = sorted({float(f"{x:.6g}") for x, _ in outline})
            edges = [[y for x, y in outline if abs(x / at - 1) < 1e-5] for at in xs]
            yield np.array(xs), np.array([min(e) for e in edges]), np.array([max(e) for e in edges])


def _points(path):
    return [tuple(map(float, pair)) for pair in re.findall(r"[ML] (-?[\d.]+) (-?[\d.]+)", path)]


RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹", "0123456789")


def _number(label):
    words = "".join(label.itertext()) if label.tag == "text" else ""
    if power := re.fullmatch("10([⁰¹²³⁴⁵⁶⁷⁸⁹]+)", words):
        return 10.0 ** int(power[1].translate(RAISED))
    return float(words.replace("\u2212", "-")) if re.fullmatch("[\u2212\\d.]+", words) else None


def _frame(things):
    """Left, right, top, bottom of the axes: the rectangle round them, or the lowest long level line."""
    for thing in things:
        points = _points(thing.get("d", "")) if thing.tag == "path" else []
        if len(points) == 5 and points[0] == points[-1] and thing.get("stroke") == "currentColor":
            (left, bottom), (right, top) = points[0], points[2]
            if bottom - top > 100:
                return left, right, top, bottom
    level = [_points(t.get("d", "")) for t in things if t.tag == "path" and t.get("stroke-width") == "0.8"]
    (left, bottom), (right, _) = max(
        (p for p in level if len(p) == 2 and p[0][1] == p[1][1]), key=lambda p: p[0][1]
    )
    return left, right, 0.0, bottom


def _ticks(things, box):
    """Numbers of each side with the places of their ticks: short strokes outward from the frame."""
    left, right, top, bottom = box
    sides = {"bottom": [], "top": [], "left": [], "right": []}
    for thing in things:
        if thing.tag != "path" or thing.get("stroke-width") != "0.8" or thing.get("stroke") != "currentColor":
            continue
        points = _points(thing.get("d", ""))
        for (x, y), (x_2, y_2) in zip(points[::2], points[1::2]):
            for side, edge in (("bottom", bottom), ("top", top)):
                if abs(x - x_2) < 0.01 and 3 < abs(y - y_2) < 4 and abs(y - edge) < 0.1:
                    sides[side].append(x)
            for side, edge in (("left", left), ("right", right)):
                if abs(y - y_2) < 0.01 and 3 < abs(x - x_2) < 4 and abs(x - edge) < 0.1:
                    sides[side].append(y)
    numbers = {"bottom": [], "top": [], "left": [], "right": []}
    for label in things:
        if (number := _number(label)) is not None:
            x, y = float(label.get("x")), float(label.get("y"))
            side = "bottom" if y > bottom + 8 else "top" if y < top - 3 else "left" if x < left else "right"
            numbers[side].append((number, x if side in ("bottom", "top") else y))
    for side, found in numbers.items():
        assert len(found) == len(sides[side]), (side, found, sides[side])
        found.sort(key=lambda pair: pair[1])
        slack = 5 if side in ("left", "right") else 1  # a line of words stands a little below its middle
        for (_, at), place in zip(found, sorted(sides[side])):
            assert abs(at - place) < slack, (side, found, sides[side])
    return {
        side: [(number, place) for (number, _), place in zip(found, sorted(sides[side]))]
        for side, found in numbers.items()
    }


OPPOSITE = {"bottom": "top", "top": "bottom", "left": "right", "right": "left"}


def _by_ratio(ticks):
    """Sides along which equal steps are equal ratios; two ticks cannot tell, and go with those opposite."""
    sides = {side for side, found in ticks.items() if len(found) > 2 and _ratios_even(*np.array(found).T)}
    return sides | {side for side, found in ticks.items() if len(found) == 2 and OPPOSITE[side] in sides}


def _ratios_even(numbers, places):
    if min(numbers) <= 0:
        return False
    steps = [np.diff(scale) / np.diff(places) for scale in (np.log(numbers), numbers)]
    uneven = [np.ptp(step) / abs(step.mean()) for step in steps]
    assert min(uneven) < 0.01, (numbers, places)  # one or the other
    return uneven[0] < uneven[1]


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
        for n in (4, 16):
            travel = joint_reference.play(
                result.joint, joint_reference.sizes(result) | drawn | {"separation": separations[n]}
            )["arm_play"]
            slack = 2 * PIXEL * picture.unit()
            for edge, percentile in ((low[n], 5), (high[n], 95)):  # of 4096 points, known to a hundredth
                below, above = np.percentile(travel, [percentile - 1, percentile + 1])
                assert 0.98 * below - slack < edge < 1.02 * above + slack, (picture.chart.id, percentile)


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


# How much of a chart's first unit is one of that opposite, and on which side: NIST SP 811, app. B, for in,
# lbf, ksi, ft/min and the gram-force; the others are chosen by the charts and said on them.
PER_OTHER = {
    "inches": (25.4, "right"),
    "1/1000 inch": (25.4, "right"),
    "pounds-force, lbf": (4.448222, "top"),
    "1000 lbf/in², ksi": (6.894757, "right"),
    "feet a minute": (5.08e-3, "top"),
    "grams on a kitchen scale": (9.80665e-3, "right"),
    "hours at 6 swings a minute": (360.0, "top"),
    "hours at 30 turns a minute": (1.8e-3, "right"),
}


def _per_other(words, side):
    """The factor of the unit that a chart names on a side; inches stand on either."""
    named = [
        factor
        for word, (factor, where) in PER_OTHER.items()
        if word != "inches" and word in words and where == side
    ]
    assert named or "inches" in words
    return named[0] if named else PER_OTHER["inches"][0]


def test_both_scales_of_a_chart_say_the_same(pictures):
    """The other unit opposite the first, by factors printed elsewhere."""
    checked = 0
    for picture in pictures.values():
        words = {"".join(text.itertext()) for text in picture.root.iter("text")}
        for metric, other in (("bottom", "top"), ("left", "right")):
            if other not in picture.scales:
                continue
            one = _per_other(words, other)
            (a, b), (c, d) = picture.scales[metric], picture.scales[other]
            assert (metric in picture.logarithmic) == (other in picture.logarithmic), picture.chart.id
            if metric in picture.logarithmic:
                assert c == pytest.approx(a, rel=5e-3) and (d - b) / a == pytest.approx(
                    np.log10(one), abs=0.01
                )
            else:
                assert c / a == pytest.approx(one, rel=1e-3), picture.chart.id
                assert b == pytest.approx(d, abs=PIXEL)
            checked += 1
    assert checked > 100


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


@pytest.mark.parametrize("what", ["deflection", "stress"])
def test_bending_by_layout_is_that_of_a_reference_beam(pictures, made, what):
    """Shaft in two bearings, hub on a cantilever, hub in a fork: sympy's beam, both senses of the couple."""
    seen = Counter()
    for kit in {group.kit for group in made}:
        picture = pictures[f"{what}-layouts-{kit}"]
        results = [result for group in made if group.kit == kit for result in group.worked]
        for number, line in enumerate(bends(results), 1):
            joint = line.result.joint
            (drawn,) = picture.lines(number)
            for x, y in (drawn[0], drawn[len(drawn) // 3], drawn[-1]):
                bent, moment = by_reference(joint, line.result.stack, Fraction(round(x, 3)))
                stress = 32 * joint.shock * moment / np.pi / joint.shaft.shoulder_diameter.typical**3
                expected = 1000 * bent if what == "deflection" else stress
                assert y == pytest.approx(expected, rel=0.01, abs=2 * PIXEL * picture.unit()), (
                    kit,
                    joint.layout,
                    x,
                )
            seen[joint.layout] += 1
    assert set(seen) == {"A", "B", "C"}


def by_reference(joint, stack, a):
    """(movement of the load plane, mm, greatest moment, N·mm) under the steady load at a beyond bearing 2."""
    S, F = Fraction(round(joint.separation, 6)), Fraction(joint.radial)
    stiffness = joint.youngs_modulus * np.pi * joint.shaft.shoulder_diameter.typical**4 / 64
    bent, moments = [], []
    for sense in (1, -1):
        M = sense * Fraction(joint.axial) * Fraction(joint.arm)
        if joint.layout == "A":
            at = S + a
            (y,), _, moment = solved((Fraction(0), S), ((at, F),), ((at, M),), (at,))
        else:
            z = [Fraction(round(place, 6)) for place in stack.z_bearings]
            held = tuple(Fraction(round(place, 6)) for place in stack.cheeks)
            if joint.layout == "B":
                face = Fraction(round(stack.z_face, 6))
                z, held = [face - place for place in z], (Fraction(0),)
            forces = (z[0], -F * a / S - M / S), (z[1], F * (1 + a / S) + M / S)
            (one, two), _, moment = solved(held, forces, (), tuple(z))
            y = two + (two - one) * a / S
        bent.append(abs(float(y)) / stiffness)
        moments.append(float(moment))
    return max(bent), max(moments)


def test_any_pair_of_like_bushes_tilts_by_its_span(pictures):
    """c/(S + L) over c/S is S/(S + L), over c/L it is L/(S + L); by hand."""
    picture = pictures["rule-of-thumb-any-pair"]
    (by_rule,), (by_one,) = picture.lines(1), picture.lines(2)
    assert by_rule[0][0] == pytest.approx(1, abs=0.02) and by_rule[-1][0] > 7
    for (ratio, rule), (_, one) in zip(by_rule, by_one):
        assert rule == pytest.approx(ratio / (ratio + 1), abs=0.005)
        assert one == pytest.approx(1 / (ratio + 1), abs=0.005)


def test_life_falls_with_the_third_power_of_the_load(pictures, trials):
    """Lines end at half the dynamic rating; strokes stand at half the static one; marks are joints'."""
    course, marked = joint_reference.course(), 0
    for one in trials:
        picture = pictures[f"life-{one.kit.id}"]
        ratings = {
            (part.dynamic_rating, part.static_rating)
            for part in (course.parts[id] for id in one.kit.parts)
            if hasattr(part, "dynamic_rating") and part.dynamic_rating
        }
        strokes = [
            picture.data(_points(thing.get("d")))[0][0]
            for thing in picture.things
            if thing.tag == "path" and thing.get("stroke-width") == "2.4"
        ]
        drawn = [picture.lines(number)[0] for number in range(1, len(strokes) + 1)]
        for line, stroke in zip(drawn, strokes):
            dynamic = 2 * line[-1][0]
            static = 2 * stroke
            assert any((dynamic, static) == pytest.approx(both, rel=0.02) for both in ratings)
            for load, life in line:
                assert life == pytest.approx((dynamic / load) ** 3, rel=0.05)
        reference = [life for tried in one.tried for life in lives(tried)]
        for number in range(1, len(drawn) + 1):
            for load, life in picture.markers(number):
                assert any((load, life) == pytest.approx(known, rel=0.06) for known in reference)
                marked += 1
    assert marked > 20


def reference_of(result, motion):
    """A trial worked out by handbook arithmetic."""
    moved = {"swing": ("swing", np.pi / 3, 0.1), "turn": ("turn", 0.5)}[motion]
    return Trial(as_json(result), moved, 200)


def lives(tried):
    """(equivalent load, million turns) of each ball bearing of a kind in its trials."""
    for (_, motion), result in tried.trials.items():
        found = reference_of(result, motion)
        yield from ((found.equivalent(n), found.life(n)) for n in found.balls)


def test_bushes_are_marked_where_they_work(pictures, trials):
    """Corners of both borders are the material's limits; marks of like joints are worked out by hand."""
    course, marked = joint_reference.course(), 0
    for id in ("oil-bronze", "nylon-66"):
        picture, material = pictures[f"pv-{id}"], course.sliding[id]
        for number, end in ((1, "design"), (2, "ceiling")):
            p, v, pv = (getattr(material, f"{name}_{end}") for name in ("pressure", "speed", "pv"))
            border = [corner for (start, *_) in [picture.lines(number)] for corner in start]
            corners = [(pv / p / 1000, p), (v / 1000, pv / v)]
            for corner in corners:
                assert any(corner == pytest.approx(place, rel=0.03) for place in border), (id, end)
        for number, motion in ((2, "swing"), (3, "turn")):
            known = []
            for one in trials:
                for tried in one.tried:
                    for (_, moved), result in tried.trials.items():
                        if moved == motion:
                            found = reference_of(result, motion)
                            own = [n for n in found.bushes if result.joint.bearings[n - 1].material == id]
                            known += [(found.speed() / 1000, found.pressure(n)) for n in own]
            for place in picture.markers(number):
                assert any(place == pytest.approx(each, rel=0.03) for each in known), (id, motion, place)
                marked += 1
    assert marked > 20


def test_wobble_of_worn_pairs_rises_as_their_clearance(pictures, trials):
    """Lines of like bushes at every third point, and where clearance has doubled, by handbook arithmetic."""
    checked = 0
    for one in trials:
        picture, clearance = pictures[f"wear-{one.kit.id}"], pictures[f"wear-clearance-{one.kit.id}"]
        bush = 0
        for number, tried in enumerate(one.tried, 1):
            result = tried.trials["heavy", "swing"]
            (line,) = picture.lines(number)
            found = reference_of(result, "swing")
            if not found.bushes:
                assert line[0][1] == pytest.approx(line[-1][1]), "no wear is counted for ball bearings"
                continue
            if found.balls:
                continue
            for cycles, travel in line[::3]:
                assert travel == pytest.approx(found.travel(cycles), rel=0.03)
            bush += 1
            (grown,) = clearance.lines(bush)
            for cycles, room in grown[::5]:
                if room < clearance.data([(0, clearance.box[2])])[0][1]:
                    expected = found.clearances[2] + cycles * found.growth(2)
                    assert room == pytest.approx(expected, rel=0.04, abs=2 * PIXEL * clearance.unit())
            for cycles, room in clearance.markers(bush):
                assert room == pytest.approx(2 * found.clearances[2], abs=PIXEL * clearance.unit())
                assert cycles == pytest.approx(found.clearances[2] / found.growth(2), rel=0.05)
                checked += 1
    assert checked >= 3


def test_force_to_start_falls_with_separation(pictures, trials):
    """Lines at every third separation, edges of the bands, and markers, by handbook arithmetic."""
    for one in trials:
        picture = pictures[f"start-{one.kit.id}"]
        for number, tried in enumerate(one.tried, 1):
            result = tried.trials["medium", "swing"]
            found = reference_of(result, "swing")
            (line,) = picture.lines(number)
            assert all(before[1] > after[1] for before, after in zip(line, line[1:]))
            for apart, force in line[::3]:
                assert force == pytest.approx(found.start_force(apart=apart), rel=0.03), (one.kit.id, number)
            ((apart, force),) = picture.markers(number)
            assert apart == pytest.approx(result.joint.separation, abs=0.2)
            assert force == pytest.approx(found.start_force(), rel=0.03)
            for separations, low, high in picture.bands(number):
                for n in (0, 7):
                    assert high[n] == pytest.approx(found.start_force("most", separations[n]), rel=0.03)
                    assert low[n] == pytest.approx(found.start_force("least", separations[n]), rel=0.03)


def test_words_of_the_new_charts_hold_their_numbers(charts, trials):
    """How often nylon takes the force of balls, and doubled clearance, read back from the words."""
    for one in trials:
        text = charts[f"start-{one.kit.id}"].text_alternative
        times = float(re.search(r"about ([\d.]+) times", text)[1])
        forces = [
            reference_of(t.trials["medium", "swing"], "swing").start_force(
                apart=float(re.search(r"bearings ([\d.]+) mm", text)[1])
            )
            for t in one.tried
        ]
        assert max(forces) / min(forces) == pytest.approx(times, rel=0.05)
        limit = re.search(r"wants at most ([\d.]+) N", text)
        assert float(limit[1]) == joint_reference.course().target_start_force


def test_the_rule_of_thumb_overstates_by_the_length_of_the_bush(pictures, made):
    """Two like bushes: the rule says (S + L)/S times the truth; derived by hand from c/S and c/(S + L)."""
    picture = pictures["rule-of-thumb-bushes"]
    length = float(re.search(r"each ([\d.]+) mm", picture.chart.text_alternative)[1])
    (truth,), (rule,) = picture.lines(1), picture.lines(2)
    for (apart, true), (_, said) in list(zip(truth, rule))[::6]:
        assert said / true == pytest.approx((apart + length) / apart, rel=0.02)


def test_every_pair_of_a_kit_is_on_a_chart(charts, pictures, made):
    """One line a kind of pair, named in the key, told apart by dashes too; sizes by family."""
    for kit in {group.kit for group in made}:
        kinds = [kind for kind in kinds_of(made, kit) if not kind.single][:5]
        picture = pictures[f"wobble-{kit}"]
        assert len(_lines_drawn(picture)) == len(kinds)
        words = {"".join(text.itertext()) for text in picture.root.iter("text")}
        assert {
            "two nylon",
            "two bronze",
            "balls, loose",
            "balls, clamped",
            "bronze, ball",
            "limit 1 mm",
        } <= words
        for number, kind in enumerate(kinds, 1):
            _markers_are_worked(picture, number, kind.groups[0].worked)
        of_kit = [chart for id, chart in charts.items() if re.fullmatch(f"wobble-{kit}(-bushes|-balls)?", id)]
        told = " ".join(chart.text_alternative for chart in of_kit)
        for group in made:
            if group.kit == kit and not group.first.single:
                for bearing in group.first.bearings:
                    assert bearing.id in told, group.key
        for family in (pictures.get(f"wobble-{kit}-{name}") for name in ("bushes", "balls")):
            if family:
                numbers = _lines_drawn(family)
                own = [result for group in made if group.kit == kit for result in group.worked]
                for number in range(1, len(numbers) + 1):
                    _markers_are_worked(family, number, own)


def test_the_key_names_the_lines_drawn(pictures, made):
    """Under a chart of kinds each line once, in its own colour, dashes and marker, by the pair's words."""
    for kit in {group.kit for group in made}:
        for id in (f"wobble-{kit}", f"start-{kit}", f"wear-{kit}"):
            picture = pictures[id]
            key = {words: (name, dash, marker) for name, dash, marker, words in picture.key()}
            drawn = _lines_drawn(picture)
            lines = {words: look for words, look in key.items() if "chart-line" in (look[0] or "")}
            assert {look[0] for look in lines.values()} == {name for name, _ in drawn}, id
            for name, dash in drawn:
                ((_, said, marker),) = [look for look in lines.values() if look[0] == name]
                assert (said is None) == (dash is None), (id, name)
                if dash:
                    ratio = [float(a) / float(b) for a, b in zip(said.split(","), dash.split(","))]
                    assert max(ratio) == pytest.approx(min(ratio), rel=0.02), (id, name)
                if not id.startswith("wear"):
                    shapes = [t.get("href") for t in picture.things if t.tag == "use" and name in t.get("class", "")]
                    assert marker and set(shapes) == {marker}, (id, name)
            assert len(lines) == len(drawn) >= 4


def test_a_chart_says_the_one_thing_to_see(charts, pictures, trials):
    """A sentence of its own beside each chart; where it holds a number, that number is in the picture."""
    for chart in charts.values():
        assert chart.to_see.endswith(".") and 20 < len(chart.to_see) < 240, chart.id
    assert "2 times the load" in charts["reactions-by-place"].to_see  # R2/F = 1 + a/S at a = S
    bends = pictures["deflection-mm8"]
    line = bends.lines(2) or bends.lines(1)
    ys = [y for x, y in line[0] if x <= 0], [y for x, y in line[0] if x > 0]
    said = float(re.search(r"([\d.]+) times", bends.chart.to_see)[1])
    assert said == pytest.approx(max(ys[1]) / max(ys[0]), rel=0.1)
    for one in trials:
        chart = charts[f"wear-{one.kit.id}"]
        more = float(re.search(r"at most ([\d.]+) %", chart.to_see)[1])
        kind = re.search(r"\((.*)\)", chart.to_see)[1]
        tried = next(t for t in one.tried if t.kind.words == kind)
        found = reference_of(tried.trials["heavy", "swing"], "swing")
        grown = found.travel(200 * 360) / found.travel(0)  # 200 h of 6 swings a minute
        assert 100 * (grown - 1) == pytest.approx(more, rel=0.1), chart.id


def _lines_drawn(picture):
    """Colours of a chart's lines; no two share colour or dashes."""
    drawn = [
        (thing.get("class"), thing.get("stroke-dasharray"))
        for thing in picture.things
        if thing.tag == "path"
        and thing.get("stroke-width") == "1.8"
        and "chart-line" in thing.get("class", "")
    ]
    assert len(drawn) == len({name for name, _ in drawn}) == len({dash for _, dash in drawn}), (
        picture.chart.id
    )
    return drawn


def _markers_are_worked(picture, number, worked):
    marks = picture.markers(number)
    assert marks, (picture.chart.id, number)
    for x, y in marks:
        assert any(
            abs(r.joint.separation - x) < 2 * PIXEL * picture.unit("bottom")
            and abs(r.quantities["arm_play"].typical - y) < 2 * PIXEL * picture.unit()
            for r in worked
            if not r.joint.single
        ), (picture.chart.id, number, x, y)


def test_bars_are_as_long_as_the_shares(pictures, made):
    """Each bar's parts are the shares of a worked joint; what takes play away lies left of zero.

    The longest bars reach from edge to edge: no room is lost.
    """
    negative = 0
    for group in made:
        picture = pictures[f"causes-{group.key}"]
        bars = _bars(picture)
        scale, offset = picture.scales["bottom"]
        least, most = ((x - offset) / scale for x in picture.box[:2])
        right, left = (max(sum(x for x in bar if x * side > 0) * side for bar in bars) for side in (1, -1))
        assert (least, most) == (pytest.approx(-left, abs=1.5), pytest.approx(max(100, right), abs=1.5))
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


def test_same_bytes_twice(charts, made, trials):
    """A chart drawn again is the same."""
    course = joint_reference.course()
    again = [*pair_charts(made[0], course), *general_charts(made, trials, course)]
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


@pytest.mark.parametrize(
    "low, high, numbers",
    [
        (0, 10, [0, 2, 4, 6, 8, 10]),
        (0.03, 0.11, [0.04, 0.06, 0.08, 0.1]),
        (-30, 30, [-30, -20, -10, 0, 10, 20, 30]),
    ],
)
def test_ticks_are_round_and_inside(low, high, numbers):
    """Even scales in steps of 1, 2, 2.5 or 5."""
    assert ticks(low, high, 7) == pytest.approx(numbers)


def test_ticks_of_decades():
    """Logarithmic scales by 1, 2, 5 where there is room, else by powers of ten."""
    assert ticks(0.9, 30, 7, True) == pytest.approx([1, 2, 5, 10, 20])
    assert ticks(1, 1e6, 7, True) == pytest.approx([1, 10, 100, 1e3, 1e4, 1e5, 1e6])
    assert ticks(1, 1e12, 7, True) == pytest.approx([1, 100, 1e4, 1e6, 1e8, 1e10, 1e12])
    assert [tick_words(x) for x in (-2.5, 0.1 + 0.2, 1000.0, 1e4, 1e12)] == [
        "−2.5",
        "0.3",
        "1000",
        "10⁴",
        "10¹²",
    ]


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
