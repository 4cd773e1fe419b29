"""The page of rules and of numbers to remember: its numbers against hand formulas, its links, its verdicts.

Outside the project: lever and beam formulas of any strength-of-materials text, written out here; pitches of ISO 261
and ASME B1.1 (M6 1 mm, 5/16-18 and 10-24 as their names say); expansion of aluminium 23.6 µm/(m·K) (common handbook
value); standard gravity 9.80665 m/s² (exact). The rules themselves are common practice without a source.
"""

import re
from dataclasses import replace
from functools import cache

import pytest
from joint_reference import course, some

from guidegen.guide.edition import Edition
from guidegen.guide.numbers_to_remember import numbers_to_remember
from guidegen.guide.rules import Rules
from guidegen.guide.rules_page import rules_page
from guidegen.joint import evaluate, make_joint
from guidegen.kit.reader import read_words
from test_data import ROOT

NUMBER = r"([\d.]+)"


@cache
def edition():
    named = [evaluate(make_joint(course(), raw, id), course()) for id, raw in course().joints.items()]
    return Edition(course(), (*named, *some(60)), read_words(ROOT / "shared"))


@cache
def rules():
    return {rule.key: rule for rule in Rules(edition()).told()}


def said(key):
    """What a rule says here, without markup."""
    return re.sub("<[^>]+>", "", str(rules()[key].here))


def result(key):
    """The joint that a rule is told on."""
    return edition().by_id[re.search(r'joints/([^"]+)\.html', str(rules()[key].here))[1]]


def amount(about):
    return next(number.amount.first for number in numbers_to_remember(edition()) if about in number.about)


def millimetres(text):
    return [float(x) for x in re.findall(NUMBER + " mm", text)]


def test_all_rules_are_told_each_with_a_verdict_and_what_to_do():
    assert len(rules()) == 20 and {rule.verdict for rule in rules().values()} == {"true", "half true", "not here"}
    for rule in rules().values():
        assert rule.heard.endswith(".") and rule.so.endswith(".") and rule.belongs.endswith(".")
        assert re.search(r"\d|layout", str(rule.here)), rule.key
        assert not re.search(r"\b(nan|inf|None)\b", str(rule.here))


def test_spacing_is_what_the_worst_clearance_asks():
    """Two like bushes lean by clearance over the length from end to end; solved for the travel wanted."""
    one = result("spacing")
    room, length, arm = one.quantities["clearance_1"].band, one.inputs["length_1"].typical, 100.0
    d = one.joint.shaft.nominal
    typical, worst = (2 * arm * c / (2 * d + length) for c in (room.typical, room.most))
    needed = 2 * arm * room.most / 1.0 - length
    found = millimetres(said("spacing"))
    assert found == pytest.approx([2 * d, arm, typical, worst, 1.0, needed], rel=0.05)


def test_clearance_over_separation_overstates_by_the_length_of_a_bush():
    one = result("over-separation")
    S, L = one.joint.separation, one.inputs["length_1"].typical
    assert f"by {round(100 * L / S)} %" in said("over-separation")


def test_overhang_by_lever_and_beam():
    """R2 = F (1 + a/S); a shaft beyond two supports bends by F a² (S + a)/(3 E I)."""
    one = result("overhang")
    S, F = one.joint.separation, one.joint.radial
    half, whole = ((a**2 * (S + a)) for a in (S / 2, S))
    told = said("overhang")
    assert [float(x) for x in re.findall(NUMBER + " N ", told)] == pytest.approx([F, 1.5 * F, 2 * F], rel=0.01)
    assert f"{whole / half:.2g} times as far" in told


def test_a_part_in_a_thousand_by_thick_rings():
    """Lamé's rings written out: bronze in acrylic, the nearest edge three diameters off."""
    bush = next(b for b in result("spacing").joint.bearings)
    D, d = bush.outside_diameter.typical, bush.free_bore.typical
    acrylic = course().stocks["cast-acrylic-3"]
    bronze = course().materials[bush.material]
    rim = 2 * 3 * D
    k_h, k_b = (rim**2 + D**2) / (rim**2 - D**2), (D**2 + d**2) / (D**2 - d**2)
    give = (k_h + acrylic.poisson) / acrylic.modulus_along + (k_b - bronze.poisson) / bronze.youngs_modulus
    stress = 1e-3 / give * k_h
    found = float(re.search(f"{acrylic.name} {NUMBER} MPa", said("thousandth"))[1])
    assert found == pytest.approx(stress, rel=0.03)


def test_the_kerf_goes_off_the_diameter_whole():
    kerf = next(process.kerf for process in course().processes.values() if process.kerf)
    assert millimetres(said("kerf")) == pytest.approx([kerf, kerf, kerf / 2])


def test_a_quarter_turn_is_a_quarter_of_the_pitch():
    told = said("quarter")
    for thread, pitch in (("M6", 1.0), ("5/16-18", 25.4 / 18), ("10-24", 25.4 / 24)):
        if f"on {thread}" in told:
            assert float(re.search(f"{NUMBER} mm [^,]*on {thread}", told)[1]) == pytest.approx(pitch / 4, rel=0.02)
    assert "on M6" in told


def test_numbers_to_remember_by_hand():
    """Lever, weight, expansion, pitch; each has a range for which it holds."""
    assert float(amount("1 mrad").split()[0]) == pytest.approx(2 * 100 * 1e-3)
    assert float(amount("same tip").split()[0]) == pytest.approx(2 * 100 * 0.05 / 40)
    assert float(amount("Weight of 100 g").split()[0]) == pytest.approx(0.1 * 9.80665, rel=0.01)
    assert float(amount("aluminium").split()[0]) == pytest.approx(100 * 23.6e-6 * 10, rel=0.03)
    assert float(amount("flat of a nut on M6").split()[0]) == pytest.approx(1 / 6, rel=0.03)
    assert amount("twice the load") == "1/8"
    least, _, most = amount("Nylon").split()[:3]
    assert 1 < float(least) <= float(most) < 3  # handbooks: 2 to 3 % from dry to wet through, some of it in room air
    assert all(number.holds and number.amount.first for number in numbers_to_remember(edition()))


def test_a_course_without_such_joints_tells_fewer_rules():
    """What has no example falls away; the page still stands."""
    few = replace(edition(), results=tuple(one for one in edition().results if one.joint.single)[:2])
    told = {rule.key for rule in Rules(few).told()}
    assert "kerf" in told and not {"spacing", "two", "overhang", "cube"} & told
    assert "Numbers to remember" in rules_page(few).body
    assert rules_page(replace(edition(), results=())).body.count("<h3") >= 2


def test_the_page_counts_its_verdicts():
    body = rules_page(edition()).body
    assert f"Of {len(rules())} rules" in body
    assert body.count('class="state ') == len(rules())
