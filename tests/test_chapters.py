"""What the page of a joint says beside its numbers: when a load, a motion or a bearing is not there, and of wear."""

import re
from copy import deepcopy
from dataclasses import replace
from functools import cache
from html import unescape

import numpy as np
import pytest
from joint_reference import course, worked

from guidegen.guide.change import changes
from guidegen.guide.edition import Edition
from guidegen.guide.joint_numbers import OF_MAKING, input_rows
from guidegen.guide.left_out import left_out
from guidegen.guide.making import WORKED
from guidegen.guide.measures import Measures
from guidegen.guide.steps import questions_of, sections_of
from guidegen.guide.wobble import wanted_travel
from guidegen.guide.worked import chapters_of, joint_pages
from guidegen.guide.worn_line import FOOT, LEFT, RIGHT, TOP, worn_line, worn_of
from guidegen.joint import evaluate, make_joint
from guidegen.joint.records import STATES, Motion
from guidegen.kit.reader import read_words
from guidegen.kit.records import RawFile
from test_guide import ROOT

HAND = {"kind": "hand"}
SMALL_SWING = {"kind": "swing", "angle": "10 deg", "rate": "30 /min", "hours": 100}
TURN = {"kind": "turn", "speed": "60 rpm", "hours": 100}
MM = Measures("mm")


def load(radial=30, axial=4, direction="fixed"):
    return {"load": {"radial": f"{radial} N", "axial": f"{axial} N", "shock": 1.5, "direction": direction}}


CRANK, TABLE, LEVER = "vent-louvre-crank", "pot-turntable", "mist-flap-lever"
# What was asked for, and sentences that its page must hold.
SPECIAL = {
    "bushes, no load": (CRANK, load(0, 0), (
        "No load is given: nothing presses on the bearings, and nothing bends the screw.",
        "No load presses on a bush: nothing wears.", "Without a load nothing rubs in the bushes",
        "what would follow from one is nought")),
    "balls, no load": (TABLE, load(0, 0), (
        "No load presses on a ball bearing: nothing tires", "A kitchen scale")),
    "nothing along the screw": (CRANK, load(30, 0), (
        "Nothing pushes along the screw: no thrust, no couple.", "For endurance a swing counts as a load")),
    "thrust alone, bushes": (CRANK, load(0, 10), ("its couple alone presses on the bearings",)),
    "thrust alone, balls": (TABLE, load(0, 25), ("its couple alone presses on the bearings",)),
    "bushes by hand": (CRANK, {"motion": HAND}, ("Moved by hand: judged by yield alone", "no wear is told")),
    "balls by hand": (TABLE, {"motion": HAND}, (
        "Moved by hand: judged by yield alone", "no hours to tell; judge by the static factor", "round neither ring")),
    "one bush": (LEVER, {"motion": SMALL_SWING}, (
        "The one bearing must hold a moment of 70.8 N·mm", "its edge is pressed 11.8 times as hard as the mean",
        "counts as worn once its clearance has grown by")),
    "swing of ten degrees": (TABLE, {"motion": SMALL_SWING}, (
        "is judged by the static factor; a rating life is defined from", "Without a rating life there are no hours")),
    "slower than ten turns": (TABLE, {"motion": TURN | {"speed": "2 rpm"}}, ("It makes 2 turns a minute, under 10",)),
    "too heavy": (TABLE, load(4000, 25), ("more than half its dynamic rating",)),
    "too much thrust": (TABLE, load(4, 3000), (
        "too much thrust for a rating life", "the neck alone carries it", "Stress in the neck")),
    "load turns round in the bush": (CRANK, {"motion": TURN} | load(direction="turning with the arm"), (
        "wears it all round: its clearance grows by twice the depth worn", "The load does not go round the screw")),
    "load stands still in the bush": (CRANK, {"motion": TURN}, ("wears it on one side",)),
    "inner ring goes round": (TABLE, load(), ("it is the inner ring that goes round",)),
    "outer ring goes round": (TABLE, load(direction="turning with the arm"), ("it is the outer ring",)),
    "held in a fork": ("seed-tray-tilter", {}, ("The nut stands on the end of the shoulder and clamps nothing but its washer",)),
    "a life beyond asking": (TABLE, {}, ("last over 100 000 h of this motion; wanted: 50 h",)),
}


@cache
def result_of(name):
    base, change, _ = SPECIAL[name]
    raw = course().joints[base]
    return evaluate(make_joint(course(), RawFile(raw.path, deepcopy(raw.data) | change, raw.lines), base), course())


@cache
def pages_of(name):
    result = result_of(name)
    return joint_pages(result, Edition(course(), (result,), read_words(ROOT / "shared")))


def text_of(html):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).replace("\u2009", " ").split())


@pytest.mark.parametrize("name", SPECIAL)
def test_what_is_not_there_is_said(name):
    """A sentence in place of a number that does not apply; never a blank cell, a nought or a NaN."""
    answer, working, *_ = (text_of(page.body) for page in pages_of(name))
    for sentence in SPECIAL[name][2]:
        assert sentence in answer + working, sentence
    for chapter in chapters_of(result_of(name), MM, 1.0):
        for table in chapter.tables:
            for row in table.rows:
                assert len(row.cells) == len(table.heads) and all(cell.first for cell in row.cells), row
        assert chapter.tables or chapter.sentences, chapter.id
    assert not re.search(r"\b(nan|inf|None)\b", answer + working)


def test_four_questions_in_their_order():
    """Room to move, what it carries, how long it lasts, how hard it turns; the working asks the same."""
    for name in SPECIAL:
        result = result_of(name)
        asked = [chapter.id for chapter in chapters_of(result, MM, 1.0)]
        assert asked == ["room", "carries", "lasts", "effort"]
        questions = questions_of(sections_of(result))
        assert sum(len(question.sections) for question in questions) == len(sections_of(result))
        working = [question.id for question in questions]
        assert working == [id for id in (*asked, "keeping") if id in working] and working[:2] == asked[:2]
        places = [pages_of(name).answer.body.index(f'<h3 id="{id}">') for id in asked]
        assert places == sorted(places)


def test_nothing_that_is_left_out_of_the_working_says_more_than_its_sentence():
    """What is left out is nought, the same as what it was made from, or small beside what rules."""
    lots = [(result_of(name), lot) for name in SPECIAL for lot in left_out(result_of(name))]
    assert len({lot.sentence.split(":")[0] for _, lot in lots}) >= 9
    for result, lot in lots:
        steps = {step.gives: step for step in result.steps}
        there = [steps[name] for name in lot.names if name in steps]
        if "no couple" in lot.sentence or "nought" in lot.sentence:
            assert all(step.result == 0 for step in there)
        elif "depth worn" in lot.sentence:
            assert there and all(step.result == step.values["h_w"] for step in there)
        elif "stays as delivered" in lot.sentence:
            assert all(step.result == step.values["G"] for step in there)
        elif "half that" in lot.sentence:
            assert steps["slope_1"].result == pytest.approx(steps["slope_2"].result / 2, abs=1e-15)
        elif "does not rule" in lot.sentence:
            assert steps["shear_factor"].result >= result.quantities["yield_factor"].value
        elif "as above" in lot.sentence:
            assert there and all(f"start_{step.gives[4:]}" in steps for step in there)


def test_the_clamp_force_of_the_sentence_is_that_of_the_torque():
    """The force that is told when new is the step that the torque puts in: what the weaker bears, less two shares."""
    checked = 0
    for name in SPECIAL:
        result = result_of(name)
        steps = {step.gives: step for step in result.steps}
        for lot in left_out(result):
            if found := re.search(r"Just tightened.* ([\d\u2009]+) N", lot.sentence):
                weaker = min(steps["clamp_limit"].result, steps["pressed_limit"].result)
                factor = result.inputs["nut_factor"].band
                force = 0.95 * factor.least / factor.typical * weaker
                assert float(found[1].replace("\u2009", "")) == pytest.approx(force, abs=1)
                assert steps["set_torque"].values["F_i"] == pytest.approx(force)
                assert "clamp_to_set" not in lot.names
                checked += 1
    assert checked > 10


# the figure of wear


@cache
def worn_joints():
    """Bushes that wear, of the grid and of files: narrow bands and wide ones, all round and on one side."""
    moved = [replace(joint, motion=Motion("turn", rate=2.0, hours=500)) for joint in worked()[::40]]
    results = [evaluate(joint, course()) for joint in (*moved, *worked()[20::60])]
    results += [result_of(name) for name in ("one bush", "load turns round in the bush")]
    return tuple(result for result in results if worn_of(result))


def scale(svg, side):
    """Millimetres on the left scale, or inches on the right, by height on the figure: from its printed ticks."""
    anchor = 'text-anchor="end">' if side == "left" else "inches</text>"
    at = f"{LEFT - 6}" if side == "left" else f"{RIGHT + 6}"
    assert anchor in svg
    ticks = [(float(y) - 4, float(text)) for y, text in re.findall(rf'<text x="{at}" y="([\d.]+)">([\d.]+)</text>', svg)]
    assert len(ticks) >= 3
    slope, start = np.polyfit(*zip(*ticks), 1)
    assert [slope * y + start for y, _ in ticks] == pytest.approx([value for _, value in ticks], abs=0.02 * ticks[-1][1])
    return lambda y: slope * y + start


def points(path):
    return [tuple(map(float, pair)) for pair in re.findall(r"(-?[\d.]+) (-?[\d.]+)", path)]


def test_the_figure_of_wear_draws_the_data():
    """Dots, band and wanted line read off against the printed scales: they are the quantities, and the words too."""
    assert len(worn_joints()) > 20
    for result in worn_joints():
        worn, wanted = worn_of(result), wanted_travel(course(), result.joint)
        svg = str(worn_line(worn, wanted, 72_000.0, MM).svg)
        mm, inch = scale(svg, "left"), scale(svg, "right")
        reach = abs(mm(TOP) - mm(FOOT))
        dots = points(re.search(r'class="chart-line-1 dots".*? d="([^"]+)"', svg)[1])
        places = [LEFT + n * (RIGHT - LEFT) / 5 for n in range(len(dots))]  # nought, then 10³ to 10⁷
        assert [x for x, _ in dots] == pytest.approx(places, abs=0.01)
        names = ["arm_play", *(f"arm_play_1e{power}" for power in (3, 4, 5, 6, 7))][: len(dots)]
        bands = [result.quantities[name].band for name in names]
        assert [mm(y) for _, y in dots] == pytest.approx([band.typical for band in bands], abs=0.02 * reach)
        band = points(re.search(r'class="chart-fill-band".*? d="([^"]+)"', svg)[1])
        turn = next(n for n, (one, after) in enumerate(zip(band, band[1:]), 1) if after[0] <= one[0])
        upper, lower = band[:turn], band[turn:][::-1]
        for edge, end in ((upper, "most"), (lower, "least")):
            drawn = np.interp(places, *zip(*edge))
            assert [mm(y) for y in drawn] == pytest.approx([getattr(b, end) for b in bands], abs=0.02 * reach)
        level = float(re.search(r'class="chart-line-2".*? d="M\d+ ([\d.]+)H', svg)[1])
        assert mm(level) == pytest.approx(wanted, abs=0.02 * reach)
        assert inch(level) == pytest.approx(wanted / 25.4, abs=0.02 * reach / 25.4)
        described = re.search(r"<desc[^>]*>(.*?)</desc>", svg)[1]
        for number in (bands[0].typical, bands[0].most, bands[-1].typical, bands[-1].most, wanted):
            assert MM.value(number, "mm", 2).line in described


def test_wear_between_the_decades_grows_evenly():
    """Worn twice as long, a bush has grown twice as much: the curve between two powers of ten is no straight line."""
    worn = worn_of(result_of("load turns round in the bush"))
    curve = worn.at("most")
    for (n, y), (m, z) in zip(worn.at("most"), worn.at("most")[1:]):
        assert m > n and z >= y
    late = [(n, y) for n, y in curve if n >= 1e6]
    slope = (late[-1][1] - late[0][1]) / (late[-1][0] - late[0][0])
    assert len(late) > 5
    assert [y for _, y in late] == pytest.approx([late[0][1] + slope * (n - late[0][0]) for n, _ in late])


def test_the_words_of_wear_say_its_numbers():
    """Cycles until the bush is worn, and those wanted, are those of the results, in words."""
    result = result_of("load stands still in the bush")
    text = text_of(pages_of("load stands still in the bush").answer.body)
    found = re.search(r"worn after typically ([\d.]+) million cycles, nine in ten between ([\d.]+) million", text)
    worn = result.quantities["wear_cycles"]
    assert float(found[1]) == pytest.approx(worn.typical / 1e6, rel=0.05)
    assert float(found[2]) == pytest.approx(worn.likely[0] / 1e6, rel=0.05)
    assert "wanted: 360 000, 100 h of it" in text and 1.0 * 3600 * 100 == 360_000  # 60 rpm for 100 h


# beside it


@pytest.mark.parametrize("motion", [TURN, {"kind": "swing", "angle": "170 deg", "rate": "60 /min", "hours": 100}])
def test_words_of_life_and_of_the_arm_say_their_numbers(motion):
    """Ninety-nine in a hundred: a_1 0.25 (ISO 281:2007 Table 12, from memory); a flat bar by the beam equation."""
    raw = course().joints[TABLE]
    result = evaluate(make_joint(course(), RawFile(raw.path, {**raw.data, "motion": motion, **load(600, 90)}, raw.lines), "x"), course())
    told = [sentence for chapter in chapters_of(result, MM, 1.0) for sentence in chapter.sentences]
    words = " ".join(told).replace("\u2009", "")
    hours = result.quantities["life_hours"].value
    sure = float(re.search(r"Ninety-nine in a hundred last ([\d.]+) h", words)[1])
    assert sure == pytest.approx(0.25 * hours, rel=0.01)
    if motion["kind"] == "swing":
        million = float(re.search(r"there and back, nine in ten last ([\d.]+) million", words)[1])
        assert million == pytest.approx(hours * 3600 / 1e6, rel=0.01)  # one swing a second
    stock, edge = result.joint.on_thread.stock, result.joint.housings[0].edge
    inertia = 2 * edge * stock.thickness.typical**3 / 12
    bend = result.joint.axial * result.joint.arm**3 / (3 * stock.modulus_along * inertia)
    assert float(re.search(r"wide as drawn, bends ([\d.]+) mm", words)[1]) == pytest.approx(bend, rel=0.06)


def test_a_changed_check_and_effort_are_told_with_a_change():
    """Each neighbour whose checks come out otherwise says which; one that starts much harder says by how much."""
    base = result_of("load stands still in the bush")
    heavier = evaluate(replace(base.joint, id="heavier", radial=600.0), course())
    [change] = changes(base, [("load", heavier)], MM)
    worst = [{v.about: v.state for v in reversed(r.verdicts)} for r in (base, heavier)]
    turned = [about for about in worst[1] if worst[0].get(about, worst[1][about]) != worst[1][about]]
    assert turned and all(about in change.does.partition("there: ")[2] for about in turned)
    for state, word in zip(STATES, ("Holds", "Needs care", "Fails")):
        there = [about for about in turned if worst[1][about] == state]
        assert (f"{word} there: {', '.join(there)}." in change.does) == bool(there)
    more = heavier.quantities["start_force"].typical - base.quantities["start_force"].typical
    assert f"Starts with {MM.value(more, 'N', 2).first} more." in change.does
    times = heavier.quantities["wear_cycles"].typical / base.quantities["wear_cycles"].typical
    assert f"Its bushes last {times:.2g} times as many cycles" in change.does


def test_every_input_stands_in_the_table_of_inputs():
    """Design value and ceiling share a row, alike bearings too; left out is what no step of the page puts in."""
    for name in ("load stands still in the bush", "outer ring goes round", "one bush"):
        result = result_of(name)
        words = " ".join(words for words, _ in input_rows(result, MM))
        assert "stay below, never above" in words or not any("design" in key for key in result.inputs)
        merged = sum("_ceiling_" in key for key in result.inputs)
        alike = sum(" and 2" in words for words, _ in input_rows(result, MM))
        apart = [key for key in result.inputs if re.sub("_[12]$", "", key) in OF_MAKING]
        assert len(input_rows(result, MM)) == len(result.inputs) - merged - alike - len(apart)
        kept = {quantity.typical for key, quantity in result.inputs.items() if key not in apart}
        told = {name for part in sections_of(result, WORKED) for line in part.lines for name in line.gives}
        put_in = {value for step in result.steps if step.gives in told for value in step.values.values()}
        assert len(put_in) > 20 and not ({result.inputs[key].typical for key in apart} - kept) & put_in, name
