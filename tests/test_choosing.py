"""Choosing by trial, and from weight to load: the pages' numbers against arithmetic from the joints' data."""

import re
from collections import Counter
from dataclasses import fields
from pathlib import Path

import joint_reference
import numpy as np
import pint
import pytest
from html5lib import parse
from trial_reference import Trial

from guidegen.guide import choosing, weights
from guidegen.guide.charts_page import chart_pages
from guidegen.guide.choosing import choosing_page, lines_of, nearest_limit, trial_files, winners
from guidegen.guide.edition import Edition
from guidegen.guide.home import home_page
from guidegen.guide.joint_pages import group_pages, table_page
from guidegen.guide.measures import Measures
from guidegen.guide.pairs import groups
from guidegen.guide.trials import kit_trials
from guidegen.guide.weights import weights_page
from guidegen.joint import as_json, evaluate, make_joint
from guidegen.kit.reader import read_joint_file, read_words

pytestmark = pytest.mark.xdist_group("choosing")
SWING, TURN = ("swing", np.pi / 3, 0.1), ("turn", 0.5)  # 60°, 6 a minute; 30 turns a minute
HOURS, WANTED = 200, 200 * 360  # swings in 200 h
SHARED = Path(__file__).parent.parent / "shared"


@pytest.fixture(scope="module")
def edition():
    """The named joints, and those of the grid whose shaft turns with the load beyond the bearings."""
    course = joint_reference.course()
    named = [make_joint(course, raw, id) for id, raw in course.joints.items()]
    grid = [joint for joint in joint_reference.worked() if joint.layout == "A" and not joint.straddle]
    results = tuple(evaluate(joint, course) for joint in (*named, *grid))
    return Edition(course, results, read_words(SHARED))


@pytest.fixture(scope="module")
def made(edition):
    return groups(edition.results, edition.course.joints, edition.kits)


@pytest.fixture(scope="module")
def trials(edition, made):
    return kit_trials(edition.kits, made, edition.course)


@pytest.fixture(scope="module")
def page(edition, made, trials):
    return choosing_page(edition, made, trials)


def trial(tried, load, motion):
    return Trial(as_json(tried.trials[load, motion]), {"swing": SWING, "turn": TURN}[motion], HOURS)


def tables(body):
    """Every table of a page: (caption, head cells, rows of cells), as plain text."""
    root = parse(f"<!doctype html><body>{body}", treebuilder="etree", namespaceHTMLElements=False)
    for table in root.iter("table"):
        rows = [[text(cell) for cell in row] for row in table.iter("tr")]
        yield text(table.find("caption")), rows[0], rows[1:]


def text(element):
    return " ".join("".join(element.itertext()).split())


def creeps(kind):
    """Whether the load goes round an inner ring that sits loose: it creeps, and no life is told of it."""
    return "ball bearing" in kind and "clamped" not in kind


def number(words):
    """The first number of a cell."""
    return float(re.search(r"[−\d.]+", words.replace("\u2009", ""))[0].replace("−", "-"))


# which joints stand for their kinds


def test_the_kinds_of_a_kit_differ_in_nothing_but_their_bearings(edition, trials):
    """Bronze, balls loose and clamped, nylon: one screw, housing, fit, separation, arm plate and load."""
    assert {one.kit.id for one in trials} == set(edition.course.kits)
    for one in trials:
        assert [tried.kind.words for tried in one.tried][:4] == [
            "two bronze bushings",
            "two ball bearings, rings loose",
            "two ball bearings, rings clamped",
            "two nylon bushings",
        ]
        first = one.tried[0].joint
        for tried in one.tried:
            own = {"bearings", "rings", "id", "title", "overhang"}
            told = {
                field.name
                for field in fields(first)
                if getattr(first, field.name) != getattr(tried.joint, field.name)
            }
            assert told <= own, (one.kit.id, tried.kind.words, told - own)
            assert tried.joint.layout == "A" and not tried.joint.straddle
            assert {(h.stock.kind, h.fit) for h in tried.joint.housings} == {("metal", "press")}
            assert all(result.stack for result in tried.trials.values())
            counts = Counter(row.part for row in tried.trials["light", "swing"].stack.placed if row.kind != "plate")
            counts.subtract({part: counts[part] for part in counts if part not in one.kit.parts})
            assert all(n <= one.kit.parts[part] for part, n in counts.items() if n), tried.kind.words
        planes = [tried.trials["light", "swing"].inputs["overhang"].value for tried in one.tried]
        assert max(planes) - min(planes) < 1.0, one.kit.id  # mm; spacers come in steps


def test_the_nearest_worked_joint_is_named_with_what_it_differs_in(edition, page, trials):
    """In the table of inputs: none with these bearings in the same housing is nearer in separation."""
    told = [row for caption, _, rows in tables(page.body) if ": screw " in caption for row in rows]
    linked = re.findall(r'href="joints/([^"]+)\.html" aria-label="[^"]*">worked joint', page.body)
    for one in trials:
        for tried in one.tried:
            near, joint = tried.nearest.joint, tried.joint
            assert near.bearings == joint.bearings and near.rings == joint.rings
            same = [
                result.joint
                for result in tried.kind.groups[0].worked
                if result.joint.housings[0].stock == joint.housings[0].stock and result.joint.shaft == joint.shaft
                and result.joint.layout == "A" and not result.joint.straddle and result.stack
                and result.joint.housings[0].fit == joint.housings[0].fit
            ]
            if same and tried.kind.groups[0].worked:
                least = min(abs(other.separation - joint.separation) for other in same)
                assert abs(near.separation - joint.separation) <= least + 3  # mm; the load plane counts too
                assert near.housings[0].stock == joint.housings[0].stock, near.id
    for row, id in zip(told, linked, strict=True):
        near = next(r.joint for r in edition.results if r.id == id)
        assert ("plywood" in row[5]) == ("ply" in near.housings[0].stock.id), row
        if "apart" in row[5]:
            said = float(re.search(r"([\d.]+) mm \([^)]+\) apart", row[5])[1])
            assert said == pytest.approx(near.separation, abs=0.06)
    assert len(told) == sum(len(one.tried) for one in trials)


def test_loads_are_those_of_the_kit(trials, made):
    """Light and heavy are the least and the greatest of its worked joints; medium is round, between them."""
    for one in trials:
        worked = [r.joint.radial for group in made if group.kit == one.kit.id for r in group.worked]
        light, medium, heavy = one.loads.values()
        assert light == min(worked) and heavy == max(*worked, 4 * light)
        assert 1.3 * light < medium < heavy / 1.3 and medium / 10 ** np.floor(np.log10(medium)) % 1 == 0


def test_a_trial_changes_load_motion_and_shock_alone(trials):
    """Everything else stays: wobble when new and stack are the same in every trial of a kind."""
    for one in trials:
        for tried in one.tried:
            first = tried.trials["light", "swing"]
            for (load, motion), result in tried.trials.items():
                assert result.joint.radial == one.loads[load] and result.joint.shock == 3
                assert result.joint.motion.kind == motion and result.joint.motion.hours == HOURS
                assert result.quantities["arm_play"] == first.quantities["arm_play"]
                assert result.stack.placed == first.stack.placed


# what the page tells


def test_compared_numbers_are_those_of_the_handbook(edition, trials, page):
    """Wobble new and worn, force to start, life and wear against what is wanted, knock, price: row by row."""
    compared = [rows for caption, _, rows in tables(page.body) if caption.startswith("Compared at")]
    assert len(compared) == len(trials)
    for one, rows in zip(trials, compared):
        assert [row[0].lower() for row in rows] == [tried.kind.words for tried in one.tried]
        for tried, row in zip(one.tried, rows):
            swing, turn = trial(tried, "medium", "swing"), trial(tried, "medium", "turn")
            _, new, most, worn, start, scale, swings, turns, knock, price = row
            play = tried.trials["light", "turn"].quantities["arm_play"].band
            assert number(new) == pytest.approx(play.typical, rel=0.06)
            assert number(most) == pytest.approx(play.most, rel=0.06)
            assert number(start) == pytest.approx(swing.start_force(), rel=0.06)
            assert number(scale) == pytest.approx(1000 * swing.start_force() / 9.80665, rel=0.06)
            assert_times(knock, swing.knock())
            if not swing.bushes:
                assert worn == "as new" and swings == "see knock"
                if creeps(tried.kind.words):  # the load goes round the inner ring, which creeps: no life is told
                    assert turns == "see knock"
                else:
                    assert_times(turns, turn.hours_of_life() / HOURS)
                continue
            if not swing.balls:
                assert number(worn) == pytest.approx(swing.travel(1e5), rel=0.06)
                assert_times(swings, swing.cycles_to_wear() / WANTED)
                assert_times(turns, turn.cycles_to_wear() / (HOURS * 3600 * 0.5))
            assert float(price) == pytest.approx(sum(b.price for b in tried.joint.bearings), abs=0.006)


def assert_times(cell, expected):
    if cell.startswith("over"):
        assert expected > number(cell)
    else:
        assert number(cell) == pytest.approx(expected, rel=0.06), cell


def test_winners_are_the_best_by_the_numbers(trials, edition):
    """Each sentence names the kind with the best number, and by how much the next is behind."""
    measures = Measures("mm")
    for one in trials:
        told = list(winners(lines_of(one), measures, "EUR"))
        assert len(told) == 6
        swing = {t.kind.words: trial(t, "medium", "swing") for t in one.tried}
        turn = {t.kind.words: trial(t, "medium", "turn") for t in one.tried}
        new = {t.kind.words: t.trials["light", "turn"].quantities["arm_play"].typical for t in one.tried}
        prices = {t.kind.words: sum(b.price for b in t.joint.bearings) for t in one.tried}

        def lasting(words):
            found = turn[words]
            wear = [found.cycles_to_wear() / (HOURS * 1800)] if found.bushes else []
            return min(wear + ([found.hours_of_life() / HOURS] if found.balls else []))

        ranks = (
            (told[0], new, 1),
            (told[2], {words: found.start_force() for words, found in swing.items()}, 1),
            (told[3], {words: lasting(words) for words in turn if not creeps(words)}, -1),
            (told[4], {words: found.knock() for words, found in swing.items()}, -1),
            (told[5], prices, 1),
        )
        for sentence, numbers, sense in ranks:
            ranked = sorted(numbers, key=lambda words: sense * numbers[words])
            best, second = numbers[ranked[0]], numbers[ranked[1]]
            times = max(best, second) / min(best, second)
            winner, _, rest = sentence.partition("; next ")
            if times > 1.001:
                assert winner.split(": ")[1].startswith(f"{ranked[0]}, "), sentence
            if "hardly different" in rest:
                assert times < 1.11, sentence
            else:
                assert rest.startswith(f"{ranked[1]}, "), sentence
                assert number(rest.removeprefix(f"{ranked[1]}, ")) == pytest.approx(times, rel=0.06), sentence
            if "; last " in rest:
                assert rest.partition("; last ")[2].startswith(f"{ranked[-1]}, "), sentence


def test_cells_name_what_comes_nearest_to_its_limit(trials):
    """State by the bearings' own checks, and the one of that state with the largest share of its limit."""
    seen = Counter()
    for one in trials:
        for tried in one.tried:
            for (load, _), result in tried.trials.items():
                cell = nearest_limit(result, choosing.STILL)
                seen[cell.state] += 1
                found = trial(tried, load, "swing")
                if "start force" in cell.why and cell.state == "holds":
                    most = found.start_force("most")
                    assert number(cell.why.split("start force ")[1]) == pytest.approx(100 * most, rel=0.06)
                    assert most <= 1
                if cell.why.startswith("knock"):
                    assert number(cell.why) == pytest.approx(100 * 2 / found.knock(), rel=0.06)
    assert seen["holds"] > 20 and seen["does not hold"] > 2


def test_every_number_leads_to_its_inputs(page):
    """Cells lead to the row of inputs of their kind, which leads to the worked joint and a file."""
    places = set(re.findall(r'id="(in-[^"]+)"', page.body))
    assert len(places) > 12 and set(re.findall(r'href="#(in-[^"]+)"', page.body)) == places
    assert len(re.findall(r'href="#in-', page.body)) >= 10 * len(places)
    for place in places:
        assert f'href="choose/{place.removeprefix("in-")}.yaml"' in page.body


def test_joint_files_work_the_trials_out_again(edition, trials, tmp_path):
    """Each file, read as a student's joint file, gives the same numbers and the same stack."""
    files = trial_files(trials)
    assert len(files) == sum(len(one.tried) for one in trials) and all(
        path.startswith("choose/") for path in files
    )
    tried = [
        (tried, result)
        for one in trials
        for tried in one.tried
        for result in [tried.trials["medium", "swing"]]
    ]
    for (path, content), (_, result) in zip(files.items(), tried):
        file = tmp_path / path.replace("/", "-")
        file.write_bytes(content)
        again = evaluate(make_joint(edition.course, read_joint_file(file), "again"), edition.course)
        assert [row.part for row in again.stack.placed] == [row.part for row in result.stack.placed], path
        for name in (
            "arm_play",
            "arm_play_1e5",
            "start_force",
            "wear_cycles",
            "static_factor_2",
            "bending_stress",
        ):
            assert (name in again.quantities) == (name in result.quantities), (path, name)
            if name in result.quantities:
                typical = result.quantities[name].typical
                assert again.quantities[name].typical == pytest.approx(typical, rel=1e-6), (path, name)


def test_common_practice_is_marked(page):
    """What water and dust do, and the trade's rules, say that they have no source."""
    assert page.body.count("common practice") >= 2
    for word in ("rust", "swells", "washes the oil out"):
        assert word in page.body


# from weight to load

PLACES = {"midway": -0.5, "at bearing 2": 0.0, "half a separation beyond": 0.5, "one separation beyond": 1.0}
UNITS = {"N·mm": "N*mm", "lbf·in": "lbf*inch"}


def test_weights_are_those_of_physics(edition):
    """Every cell of the tables, from its mass and its arm, by a library's units and standard gravity."""
    units, cells = pint.UnitRegistry(), 0
    for caption, heads, rows in tables(weights_page(edition).body):
        if heads[0] != "Mass":
            continue
        for mass, *row in rows:
            weight = (units(mass.replace("lb", "pound").replace("oz", "ounce")) * units.standard_gravity).to(
                "N"
            )
            for head, cell in zip(heads[1:], row, strict=True):
                expected = _expected(caption, head, weight.magnitude, units)
                printed = re.findall(r"(−?[\d.]+) (N·mm|lbf·in|N|lbf)(?: |$)", cell)
                assert len(printed) == 2, cell
                for size, unit in printed:
                    value = float(size.replace("−", "-")) * units(UNITS.get(unit, unit))
                    found = value.to("N*mm" if "·" in unit else "N").magnitude
                    assert found == pytest.approx(expected, rel=6e-3, abs=1e-12), (caption, mass, head)
                    cells += 1
    assert cells > 500


def _expected(caption, head, weight, units):
    """N, or N·mm, that a cell should hold; by balance of forces and moments."""
    if head == "Weight":
        return weight
    place, _, bearing = head.partition(": ")
    if place in PLACES:
        return weight * (1 + PLACES[place] if bearing == "bearing 2" else -PLACES[place])
    arm = units(" ".join(head.split()[:2])).to("mm").magnitude
    if "times arm" in caption:
        return weight * arm
    distance = re.search(r"([\d.]+ (?:mm|in)) \([^)]+\) (?:apart|from the axis)", caption)
    return weight * arm / units(distance[1]).to("mm").magnitude


def test_the_pot_and_the_tray_are_read_right(edition):
    """By hand: 500 g at 120 mm, 4.903 N, 588.4 N·mm; 1 kg at 150 mm, 9.807 N, 1471 N·mm, 14.71 N held."""
    pot = weights.pot_reading(edition.measures)
    told = " ".join(pot.sentences)
    for words in ("4.9 N (", "588 N·mm (5.21 lbf·in)", "29.4 N (", "6 times the weight", "14.7 N ("):
        assert words in told, words
    assert pot.lines == ["load: {radial: 0 N, axial: 4.9 N}", "arm: 120 mm"]
    tray = weights.tray_reading(edition.measures)
    told = " ".join(tray.sentences)
    for words in ("9.81 N (", "19.6 N (", "4.9 N (", "1470 N·mm (", "14.7 N ("):
        assert words in told, words


def test_a_dropped_weight_is_cautioned_against(edition):
    """The page says that a drop presses with several times the weight, and shows the cautions."""
    body = weights_page(edition).body
    assert "several times" in body and 'class="caution"' in body and "shock" in body


def test_falls_press_as_energy_says(edition):
    """What the weight gives up on its way down, the spring under it takes up: k·y²/2 = W·(h + y), k = W/give."""
    (heads, rows) = next((h, r) for _, h, r in tables(weights_page(edition).body) if h[0] == "Falls")
    for fall, *factors in rows:
        for head, factor in zip(heads[1:], factors, strict=True):
            give, height = number(head), number(fall)
            down = np.roots([1 / (2 * give), -1, -height]).max()
            assert number(factor) == pytest.approx(down / give, rel=0.06), (fall, head)


# the other pages of this room


def test_home_answers_with_the_numbers_of_the_trials(edition, made, trials):
    """Carrying, lasting, starting and weighing: in the fullest kit of the course's own units."""
    body = home_page(edition, made, trials).body
    own = [one for one in trials if one.kit.units == edition.course.units_first]
    counts = Counter(r.joint.kit.id for r in edition.results if r.id not in edition.course.joints)
    fullest = max(own, key=lambda one: counts[one.kit.id])
    answers = {head: cell for _, _, rows in tables(body) for head, cell, *_ in rows}
    starts, lasts = answers["How hard is it to start turning?"], answers["Will it carry and last?"]
    for tried in fullest.tried:
        found = trial(tried, "medium", "swing")
        if tried.kind.words in ("two bronze bushings", "two nylon bushings"):
            force = re.search(rf"{tried.kind.words} ([\d.]+) N", starts)
            assert float(force[1]) == pytest.approx(found.start_force(), rel=0.06)
            times = re.search(rf"{tried.kind.words} last (.+?) ×", lasts)
            assert_times(f"{times[1]} ×", found.cycles_to_wear() / WANTED)
    assert "4.9 N" in next(cell for head, cell in answers.items() if head.startswith("From weight to load"))
    for link in ("charts/lasting.html", "charts/starting.html", "weights.html", "choose.html"):
        assert f'href="{link}"' in body


def test_the_table_of_joints_tells_what_starts_them(edition, made):
    """The last number of each row is the force at the arm, and sorts as a number."""
    body = table_page(edition, made).body
    rows = [row for _, heads, rows in tables(body) if "Starts at, N" in heads for row in rows]
    place = next(heads for _, heads, _ in tables(body) if "Starts at, N" in heads).index("Starts at, N")
    grid = [
        r
        for kit in edition.kits
        for r in edition.results
        if r.joint.kit == kit and r.id not in edition.course.joints
    ]
    assert len(rows) == len(grid) > 200
    for row, result in zip(rows, grid):
        assert number(row[place]) == pytest.approx(result.quantities["start_force"].typical, rel=0.06)
    for kit in edition.kits:
        assert f'id="kit-{kit.id}"' in body and f'href="#kit-{kit.id}"' in body


def test_pages_of_charts_and_pairs_are_light(edition, made, trials):
    """Charts stand on pages by chapter; none, and no pair's page, is heavier than a phone likes."""
    pages = [*chart_pages(edition, made, trials), *group_pages(edition, made)]
    assert len(pages) > 30
    for page in pages:
        assert len(page.body.encode()) < (250_000 if page.path.startswith("charts") else 150_000), page.path
    overview = pages[0]
    assert overview.path == "charts.html"
    for anchor in (
        "wobble",
        "rule-of-thumb",
        "causes",
        "reactions",
        "deflection",
        "life",
        "pv",
        "wear",
        "start",
    ):
        assert anchor in overview.anchors, anchor
        assert any(anchor in page.anchors for page in pages[1:5])


def test_an_arm_without_a_column_is_reckoned_from_its_neighbour(edition):
    """500 g at 100 mm: 4.903325 N times 100 mm, which is twice the cell of 500 g at 50 mm in the table."""
    body = weights_page(edition).body
    said = re.search(r"500 g at 100 mm .*? is twice 500 g at 50 mm .*?: ([\d.]+) N·mm", body)
    assert float(said[1]) == pytest.approx(0.5 * 9.80665 * 100, rel=3e-3)
    table = next(t for t in tables(body) if t[0].startswith("Weight times arm"))
    row = next(row for row in table[2] if row[0] == "500 g")
    assert 2 * number(row[1]) == pytest.approx(float(said[1]), rel=5e-3)


def test_weights_lead_to_worked_joints_of_their_kind(edition):
    """The pot to a joint whose load lies along the shaft, the tray to one whose load lies across it."""
    by_id = {result.id: result.joint for result in edition.results}
    found = re.findall(r'A worked one.*?href="joints/([^"]+)\.html"', weights_page(edition).body, re.S)
    upright, level = (by_id[id] for id in found)
    assert upright.axial > upright.radial and level.radial > level.axial
    assert level.radial == max(by_id[id].radial for id in edition.course.joints)
