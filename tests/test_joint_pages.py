"""What the pages of joints say: counts, reasons in both units, forces that add up, rows that tell joints apart."""

import re
from collections import Counter
from dataclasses import replace
from functools import cache
from html import unescape

import pytest
from joint_reference import course, some, worked
from test_data import ROOT

from guidegen.guide.carrying import couple_words
from guidegen.guide.edition import Edition
from guidegen.guide.home import home_page
from guidegen.guide.joint_pages import group_pages
from guidegen.guide.layouts import layouts_page
from guidegen.guide.listing import rows_of
from guidegen.guide.measures import Measures
from guidegen.guide.pairs import group_of, groups
from guidegen.guide.reasons import checks_of, chosen_end_play, headline
from guidegen.guide.worked import chapters_of, joint_pages
from guidegen.joint import evaluate, make_joint
from guidegen.joint.stack import resolve
from guidegen.kit.reader import read_words
from guidegen.units import Band

MM = Measures("mm")
# Exact by definition, as NIST SP 811, appendix B, gives them: 25.4 mm; 0.45359237 kg times 9.80665 m/s².
INCH, POUND = 25.4, 0.45359237 * 9.80665
PER = {
    "in": INCH, "lbf": POUND, "lbf·in": POUND * INCH, "psi": POUND / INCH**2, "ksi": 1000 * POUND / INCH**2,
    "ft/min": 12 * INCH / 60_000, "psi·ft/min": POUND / INCH**2 * 12 * INCH / 60_000,
}  # in the metric unit that stands before the brackets
NUMBER = r"−?\d[\d\u2009.]*"
PAIR = re.compile(rf"({NUMBER}) (?:mm|N·mm|N|MPa·m/s|MPa|m/s) \(({NUMBER}) ([^)\d]*)\)")
LEVER, LAMP, TABLE = "mist-flap-lever", "swing-arm-lamp", "pot-turntable"


@cache
def named(id):
    return evaluate(make_joint(course(), course().joints[id], id), course())


@cache
def sample():
    return (*(named(id) for id in course().joints), *some(60))


@cache
def edition():
    return Edition(course(), sample(), read_words(ROOT / "shared"))


@cache
def body_of(id):
    return joint_pages(edition().by_id[id], edition()).answer.body


def text_of(html):
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


def number(text):
    return float(text.replace("−", "-").replace("\u2009", ""))


def half(text):
    """Half a unit of the last digit that is printed; of a whole number its zeros may be rounded."""
    digits = text.lstrip("−").replace("\u2009", "")
    decimals = len(digits.partition(".")[2]) or len(digits.rstrip("0")) - len(digits)
    return 0.5 * 10.0**-decimals


def test_the_headline_counts_the_rows_that_are_shown():
    """As many bullets as it says need care or fail, of as many checks as the table lists; in good English."""
    seen = Counter()
    for result in sample():
        body = body_of(result.id)
        top = re.search(r'id="verdict">(.*?)</div>', body, re.DOTALL)[1]
        told = text_of(re.search(r"</b>\s*<p>(.*?)</p>", top, re.DOTALL)[1])
        table = body[body.index('<h2 id="checks">') :]
        rows = table[: table.index("</table>")].count('<tr><th scope="row">')
        counts = [int(n) for n in re.findall(r"(\d+) (?:of|checks hold|need)", told)]
        assert not re.search(r"\b1 (of \d+ checks )?(need|fail)\b|\b[2-9]\d* (of \d+ checks )?(needs|fails)\b", told)
        if result.state == "holds":
            assert counts == [rows] and "<li>" not in top
        else:
            rows += top.count("<li>") - 1  # told on top, and named in one row of the table
            assert sum(counts) == top.count("<li>") and f"of {rows} checks" in told, told
        seen[result.state] += 1
    assert min(seen.values()) > 3 and len(seen) == 3


def test_one_needs_and_two_need():
    """The grammar of the headline, for every number of checks."""
    def line(*states):
        checks = [checks_of(named(TABLE), course(), MM)[0]] * len(states)
        told = [one._replace(verdict=replace(one.verdict, state=state)) for one, state in zip(checks, states)]
        return headline(told, "")

    care, fail = "take care", "does not hold"
    assert line("holds", "holds") == "All 2 checks hold at the worst sizes."
    assert line("holds", care) == "1 of 2 checks needs care:"
    assert line("holds", care, care) == "2 of 3 checks need care:"
    assert line(fail, "holds") == "1 of 2 checks fails:"
    assert line(fail, fail, care) == "2 of 3 checks fail, 1 needs care:"


def test_an_end_play_below_zero_is_not_called_held_at_the_worst_sizes():
    """Where unmeasured parts may pinch the headline says that the washers must be chosen; else it does not."""
    checked = 0
    for result in sample():
        if result.stack is None or result.state != "holds":
            continue
        told = text_of(body_of(result.id)).partition("checks hold at the worst sizes")[2]
        assert (result.stack.end_play.least < 0) == told.startswith(", end play only once washers and spacers"), told
        roomy = replace(result, stack=replace(result.stack, end_play=Band(0.01, 0.2, 0.4)))
        assert chosen_end_play(result, MM) and chosen_end_play(roomy, MM) == ""
        checked += 1
    assert checked > 5


def test_reasons_tell_both_units_in_plain_decimals():
    """Each number in brackets is the one before it, by the factors of NIST SP 811; no power of ten, no "10 °"."""
    pairs = 0
    for result in sample():
        for check in checks_of(result, course(), MM):
            assert not re.search(r"× 10|10[⁰¹²³⁴⁵⁶⁷⁸⁹⁻]|\d °(?!C)", check.why), check.why
            for metric, other, unit in PAIR.findall(check.why):
                per = PER[unit]
                off = abs(number(metric) - per * number(other))
                assert off <= (half(metric) + per * half(other)) * (1 + 1e-9), (check.why, metric, other)
                pairs += 1
    assert pairs > 1500


def test_the_wobble_is_told_where_the_course_asks_for_it():
    """Travel of the tip is twice the arm times the tilt; the limit is the course's, at this arm."""
    for result in sample():
        [why] = [check.why for check in checks_of(result, course(), MM) if check.verdict.name == "seen_tilt"]
        tilt, arm = result.quantities["seen_tilt"], result.joint.arm
        travel, limit = (re.search(rf"{words} ({NUMBER}) mm", why)[1] for words in (r"screw:", "at most"))
        assert abs(number(travel) - 2 * arm * tilt.typical) <= half(travel) * (1 + 1e-9)
        assert abs(number(limit) - course().target_travel * arm / course().target_arm) <= half(limit)
        mrad = re.search(rf"each way: ({NUMBER}) mrad", why)[1]
        assert abs(number(mrad) - 1000 * tilt.typical) <= half(mrad) * (1 + 1e-9)
        assert ("the course's 1 mm at 100 mm" in why) == (arm != course().target_arm)


def test_edge_and_mean_of_a_bush_that_is_alone_are_two_rows():
    """The edge is so many times the mean as the page says; the mean is the load over its projected area."""
    result = named(LEVER)
    [lasts] = [chapter for chapter in chapters_of(result, MM, 1.0) if chapter.id == "lasts"]
    rows = {row.words: row.cells[0].first for row in lasts.tables[0].rows}
    mean, edge = (rows[f"{what} of the bush, with shock" if what != "mean" else "mean pressure on the bush, with shock"]
                  for what in ("mean", "pressure at the edge"))
    assert number(edge.split()[0]) / number(mean.split()[0]) == pytest.approx(
        result.quantities["edge_factor_1"].value, rel=0.02)
    joint, length, shaft = result.joint, result.inputs["length_1"].typical, result.inputs["shaft_diameter"].typical
    plain = joint.shock * joint.radial / (length * shaft)
    assert result.quantities["shock_pressure_1"].value == pytest.approx(plain, rel=1e-9)
    [why] = [check.why for check in checks_of(result, course(), MM) if check.verdict.about == "pressure"]
    assert why.startswith("pressure at the edge of the bush")


def test_the_sentence_on_the_couple_makes_up_the_difference():
    """Reaction and couple together are the worst load; the couple is the load along the screw times arm over span."""
    checked = 0
    for result in sample():
        joint, told = result.joint, couple_words(result, MM)
        assert bool(told) == bool(joint.axial and joint.radial and not joint.single and result.stack), result.id
        if told:
            force = joint.shock * joint.axial * joint.arm / joint.separation
            shown = re.search(rf"couple: ({NUMBER}) N", told)[1]
            assert abs(number(shown) - force) <= half(shown) * (1 + 1e-9)
            for n in (1, 2):
                load, reaction = (result.quantities[f"{name}_{n}"].value for name in ("bearing_load", "reaction"))
                assert load == pytest.approx(abs(reaction) + force, rel=1e-9)
            checked += 1
    assert checked > 30


def test_a_title_names_the_place_of_the_load_that_is_drawn():
    """An arm between the bearings stands where its stack puts it, in title, inputs and drawing."""
    between = [joint for joint in worked() if joint.arm_between]
    assert len(between) > 50
    for joint in between:
        stack = resolve(joint, course().parts)
        assert stack.z_load - stack.z_bearings[-1] == pytest.approx(joint.overhang, abs=1e-6), joint.id
        place = abs(joint.overhang) / (1 if joint.kit.units == "mm" else INCH)
        said = re.search(r"load ([\d.]+) (?:mm|in) inside", joint.title)[1]
        assert abs(number(said) - place) <= half(said) * (1 + 1e-9), joint.title


def test_rows_of_a_table_tell_their_joints_apart():
    """No two joints with the same bearings read alike; a bonded arm is told from one that slides."""
    results = [evaluate(joint, course()) for joint in worked() if joint.arm_between]
    rows = list(zip(results, rows_of(results, MM)))
    told = Counter((group_of(result.joint), *row[2:7]) for result, row in rows)
    assert max(told.values()) == 1
    for result, row in rows:
        assert ("bonded arm" in row.layout) == result.joint.arm_bonded != ("sliding arm" in row.layout)
    assert {result.joint.arm_bonded for result in results} == {True, False}


def test_tables_head_their_units_and_count_in_good_english():
    """Numbers without a unit stand under a head that has it; "1 holds", "2 hold"."""
    made = groups(edition().results, course().joints, edition().kits)
    for page in group_pages(edition(), made):
        heads = re.findall(r'<th scope="col">(.*?)</th>', page.body[page.body.index("sortable") :])
        assert [head for head in heads if head.endswith(", mm")] and [head for head in heads if head.endswith(", N")]
        counted = re.findall(r'<b class="state \w+">(\d+) (\w+)', page.body)
        assert counted and all((word in ("holds", "needs", "does")) == (n == "1") for n, word in counted)


def test_layouts_say_why_bearings_carry_more_than_is_drawn():
    """Under each drawing of a pair with a load along the screw."""
    page = layouts_page(edition())
    assert page.body.count("add a couple") == page.body.count("<figure") > 1


def test_the_first_page_claims_no_less_than_the_joints_bend():
    """The greatest deflections that it names are not passed by any joint of the tables."""
    results = [result for result in sample() if "deflection" in result.quantities]
    made = groups(edition().results, course().joints, edition().kits)
    told = text_of(home_page(edition(), made, ()).body).partition("Will the screw bend?")[2].partition("Moment")[0]
    claims = [number(found) for found in re.findall(rf"({NUMBER}) mm \(", told)][:3]
    tabled = [result for result in results if result.id not in course().joints]
    for claim, out in zip(claims, (False, True)):
        most = max(r.quantities["deflection"].value for r in tabled if (r.joint.overhang > 0) == out)
        assert claim == pytest.approx(most, rel=0.06)
    assert claims[2] == pytest.approx(named(LAMP).quantities["deflection"].value, rel=0.06)
    assert claims[2] == pytest.approx(max(r.quantities["deflection"].value for r in results), rel=0.06)


def test_the_motion_stands_on_top():
    """A number that depends on the motion is on a page that tells it."""
    for result in sample():
        where = text_of(re.search(r'<p class="where">(.*?)</p>', body_of(result.id), re.DOTALL)[1])
        motion = result.joint.motion
        words = {"hand": "moved by hand", "turn": "turning", "swing": "swinging through"}[motion.kind]
        assert words in where
