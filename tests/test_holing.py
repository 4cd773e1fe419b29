"""Holes of joints and of the tables: chances against sampling, best sizes by trying all, pages against data.

Sources outside the project: thick rings by finite elements, sampling with numpy, distributions of scipy, a
program over straight lines, and published rows of tests/published (test cut: a fabrication class; kerf: a
cutting service; flats: a page on printed holes). Kerfs of 0.05 to 0.5 mm, halved limits: common practice.
"""

import csv
import re
import shutil
from dataclasses import replace
from functools import cache
from itertools import product
from math import inf

import numpy as np
import pytest
from joint_reference import course, some
from ring_reference import pressed as rings_pressed
from scipy import stats
from test_guide import ROOT
from test_holes import binds_in_space

from guidegen.errors import BadInput
from guidegen.guide.drawing_holes import WORKED, drilled, holing
from guidegen.guide.edition import Edition
from guidegen.guide.hole_pages import hole_pages, lines_of
from guidegen.guide.holes import housed, pocket, processes_of, table_path
from guidegen.guide.measures import Measures
from guidegen.guide.zones import FOOT, SLIVER, TOP, Mark, Side, Zone, zones
from guidegen.joint import as_json, evaluate, make_joint
from guidegen.joint.inputs import seats
from guidegen.joint.reach import reach_of
from guidegen.kit.reader import read_course, read_words
from guidegen.kit.records import LEAST_KERF, MOST_KERF
from guidegen.numbers import percent
from guidegen.theory.chances import Bearings
from guidegen.units import Band

TRIED = 200_000
MM = Measures("mm")
CRANK, ROLLER, TABLE, LEVER = "vent-louvre-crank", "hose-guide-roller", "pot-turntable", "mist-flap-lever"


@cache
def named(id):
    return evaluate(make_joint(course(), course().joints[id], id), course())


def near(share, tries=TRIED):
    """Four standard errors of a share found by so many tries, and a little."""
    return 4 * np.sqrt(max(share * (1 - share), 1e-6) / tries) + 1e-4


def value(result, name):
    q = {**result["inputs"], **result["quantities"]}[name]
    return q.get("typical", q.get("value"))


def torque(result, n):
    return next((step["result"] for step in result["steps"] if step["gives"] == f"start_torque_{n}"), 0.0)


def tried(result, n, rng):
    """(interference, what a micron of it brings) of sampled bearings: pressure, closure and hoop stress.

    From the JSON alone: outside diameter anywhere between its limits, hole normal or Student's t, thick rings
    by finite elements; all three grow evenly with interference.
    """
    outside, hole = (result["inputs"][f"{name}_{n}"] for name in ("outside_diameter", "hole"))
    D = rng.uniform(outside["least"], outside["most"], TRIED)
    freedom = result["inputs"].get(f"freedom_{n}", {"value": inf})["value"]
    t = rng.standard_normal(TRIED) if freedom == inf else rng.standard_t(freedom, TRIED)
    tight = D - (hole.get("typical", hole.get("value")) + t * value(result, f"spread_{n}"))
    ball = f"pitch_diameter_{n}" in result["inputs"]
    race = value(result, f"pitch_diameter_{n}") + value(result, f"ball_diameter_{n}") if ball else None
    inside = race or value(result, f"free_bore_{n}")
    pressure, closed, _, hoop = rings_pressed(
        inside,
        value(result, f"outside_diameter_{n}"),
        value(result, f"hub_diameter_{n}"),
        0.001,
        (value(result, f"modulus_{n}"), value(result, f"poisson_{n}")),
        (value(result, f"housing_modulus_{n}"), value(result, f"housing_poisson_{n}")),
    )
    return tight, 1000 * pressure, 1000 * closed, 1000 * hoop


def fits(result):
    """Numbers of the bearings that are pressed in."""
    return [n for n in (1, 2) if f"chance_right_{n}" in result["quantities"]]


@pytest.mark.parametrize("id", [CRANK, ROLLER, TABLE, LEVER])
def test_chances_of_a_joint_by_sampling(id):
    """Loose, right, cracked, strained, closed, from the JSON alone, by torque, stress and closure."""
    result = as_json(named(id))
    rng = np.random.default_rng(5)
    assert fits(result)
    for n in fits(result):
        tight, pressure, closed, hoop = tried(result, n, rng)
        D, q = value(result, f"outside_diameter_{n}"), result["quantities"]
        length = min(value(result, f"width_{n}"), value(result, f"plate_thickness_{n}"))
        holds = value(result, f"press_friction_{n}") * np.pi * D**2 * length * pressure * tight / 2
        cracked = hoop * tight >= value(result, f"hoop_limit_short_{n}")
        loose = ~cracked & (holds < torque(result, n))
        room = named(id).joint.bearings[n - 1]
        delivered = (
            room.internal_clearance.typical
            if f"pitch_diameter_{n}" in result["inputs"]
            else value(result, f"free_bore_{n}") - largest_shoulder(room.nominal)
        )
        strained = ~cracked & ~loose & (hoop * tight >= value(result, f"hoop_limit_long_{n}"))
        found = {
            "loose": loose,
            "cracked": cracked,
            "right": ~loose & ~cracked,
            "closed": closed * tight >= delivered,
            "strained": strained,
        }
        for name, those in found.items():
            ours = q.get(f"chance_{name}_{n}", {"value": 0.0})["value"]
            assert ours == pytest.approx(those.mean(), abs=near(those.mean()) + 2e-3), (id, n, name)


def largest_shoulder(nominal):
    """From the data file itself, read as text."""
    sizes = [
        part.shoulder_diameter.most
        for part in course().parts.values()
        if hasattr(part, "shoulder_diameter") and abs(part.nominal - nominal) < 0.001
    ]
    return max(sizes)


def test_chances_add_to_one_and_are_judged():
    """In every joint tried; the verdict follows the number, and says it."""
    states = set()
    for result in (*some(60), *map(named, course().joints)):
        verdicts = [v for v in result.verdicts if v.about == "hole"]
        pressed = [n for n, housing in enumerate(result.joint.housings, 1) if housing.fit == "press"]
        assert len(verdicts) == len(pressed)
        for n, housing in enumerate(result.joint.housings, 1):
            chances = {
                name: q.value for name, q in result.quantities.items() if re.fullmatch(f"chance_.*_{n}", name)
            }
            assert all(0 <= chance <= 1 for chance in chances.values())
            if housing.fit != "press":
                assert set(chances) == {f"chance_goes_in_{n}"}
                continue
            loose, right, cracked = (chances[f"chance_{name}_{n}"] for name in ("loose", "right", "cracked"))
            assert loose + right + cracked == 1
            verdict = next(v for v in verdicts if v.number == right)
            wanted = "holds" if right >= 0.6 else "take care" if right >= 0.5 else "does not hold"
            assert verdict.state == wanted and percent(right) in verdict.why
            states.add(wanted)
    assert states == {"holds", "take care", "does not hold"}


def test_no_other_size_brings_more_out_right():
    """Every bearing in every stock by every machine that scatters: by trying all, with scipy's normal."""
    grid, checked = np.linspace(-0.2, 0.2, 801), 0
    for stock in course().stocks.values():
        for process in processes_of(stock, course()):
            if process.grade:
                continue
            for part in [part for part in course().parts.values() if housed(part)][::5]:
                one = pocket(part, course(), stock, process, "press")
                outside, most = part.outside_diameter, one.reach.most(stock.kind)
                ends = np.linspace(outside.least, outside.most, 41)[:, None]

                def right(made, ends=ends, most=most, spread=process.spread):
                    deep = stats.norm.cdf((ends - made) / spread) - stats.norm.cdf(
                        (ends - most - made) / spread
                    )
                    return np.trapezoid(deep, axis=0) / (len(ends) - 1)

                best = right(np.array([one.made.drawn + process.bias]))[0]
                assert best >= right(one.made.drawn + process.bias + grid).max() - 1e-9
                assert one.made.band.typical == pytest.approx(one.made.drawn + process.bias)
                checked += 1
    assert checked > 300


def test_what_bounds_a_press_fit_by_finite_elements():
    """At each interference the rings do just what it is named for: room gone, hoop stress at either limit."""
    kinds = set()
    for id, stock in product(("sb-8x12x8", "bb-608", "ny-8x12x8"), course().stocks.values()):
        part, process = course().parts[id], course().processes["drill"]
        one = pocket(part, course(), stock, process, "press")
        edge = {"metal": 2, "plastic": 3, "wood": 4, "print": 2.5}[stock.kind] * part.outside_diameter.typical
        ball = hasattr(part, "pitch_diameter")
        bore = part.bore if ball else getattr(part, "free_bore", None) or part.hole
        inside = part.pitch_diameter + part.ball_diameter if ball else bore.typical
        room = part.internal_clearance.typical if ball else bore.typical - largest_shoulder(part.nominal)
        material, modulus = (
            course().materials[part.material],
            (stock.modulus_along + stock.modulus_across) / 2,
        )
        rings = (inside, part.outside_diameter.typical, 2 * edge)
        made_of = (material.youngs_modulus, material.poisson), (modulus, stock.poisson)

        def pressed(tight, rings=rings, made_of=made_of):
            return rings_pressed(*rings, tight, *made_of)

        assert pressed(one.reach.closes)[1] == pytest.approx(room, rel=1e-3)
        assert pressed(one.reach.cracks)[3] == pytest.approx(stock.hoop_limit_short, rel=1e-3)
        assert pressed(one.reach.strains)[3] == pytest.approx(stock.hoop_limit_long, rel=1e-3)
        lasting = one.reach.strains if stock.kind in ("plastic", "print") else one.reach.cracks
        assert one.reach.most(stock.kind) == min(lasting, one.reach.closes)
        kinds.add(one.made.bound)
    assert kinds == {"closes", "strains", "cracks"}


def test_joint_and_table_take_the_same_hole():
    """A joint whose edge distance is that of the table draws the table's hole, and is made with its band."""
    joint = named(CRANK).joint
    one = pocket(joint.bearings[0], course(), joint.housings[0].stock, joint.housings[0].process, "press")
    edge = 4 * joint.bearings[0].outside_diameter.typical
    far = replace(joint, housings=tuple(replace(housing, edge=edge) for housing in joint.housings))
    result = evaluate(far, course())
    for n in (1, 2):
        assert result.quantities[f"drawn_hole_{n}"].value == pytest.approx(one.made.drawn)
        assert result.inputs[f"hole_{n}"].band == one.made.band


# own machine ------------------------------------------------------------------------------------------------

STRIP = ((12.00, 12.06), (12.05, 12.09), (12.10, 12.17), (16.00, 16.05))


def course_with(folder, *lines, kerf=None, sure=None):
    """A copy of the course's data with measured holes, or with another kerf of the laser."""
    shutil.copytree(ROOT / "data", folder / "data")
    if lines:
        head = ["id,process,drawn,made", "-,-,mm,mm"]
        (folder / "data" / "measured_holes.csv").write_text("\n".join([*head, *lines]) + "\n")
    if kerf:
        path = folder / "data" / "processes.csv"
        rows = list(csv.reader(path.read_text().splitlines()))
        rows[0].insert(-1, "kerf_sure")
        rows[1].insert(-1, "-")
        for row in rows[2:]:
            row.insert(-1, sure if row[0] == "laser" and sure else "")
            if row[0] == "laser":
                row[rows[0].index("kerf")] = kerf
        with path.open("w", newline="") as file:
            csv.writer(file).writerows(rows)
    return read_course(folder)


def test_own_holes_drive_the_joint(tmp_path):
    """Bias is their mean; the chances follow Student's t, by sampling; nothing is called unmeasured."""
    mine = course_with(tmp_path, *(f"s{n},laser,{a},{b}" for n, (a, b) in enumerate(STRIP)))
    off = np.array([made - drawn for drawn, made in STRIP])
    joint = make_joint(mine, mine.joints[CRANK], CRANK)
    result = as_json(evaluate(joint, mine))
    default = as_json(named(CRANK))
    assert value(result, "bias_1") == pytest.approx(off.mean())
    assert value(result, "drawn_hole_1") == pytest.approx(value(default, "drawn_hole_1") - off.mean())
    assert value(result, "spread_1") == pytest.approx(np.sqrt(np.var(off, ddof=1) * (1 + 1 / len(off))))
    assert value(result, "freedom_1") == len(off) - 1
    tight, _, _, hoop = tried(result, 1, np.random.default_rng(8))
    cracked = (hoop * tight >= value(result, "hoop_limit_short_1")).mean()
    assert value(result, "chance_cracked_1") == pytest.approx(cracked, abs=near(cracked) + 1e-3)
    t = stats.t(len(off) - 1, scale=value(result, "spread_1"))  # scipy's own, over the outside diameter
    ends = np.linspace(*(result["inputs"]["outside_diameter_1"][end] for end in ("least", "most")), 4001)
    hole = result["inputs"]["hole_1"]["typical"]
    right = t.cdf(ends - hole) - t.cdf(ends - hole - reach_of(*ring_and_wall(joint, mine)).cracks)
    exact = np.trapezoid(right) / (len(ends) - 1)
    assert value(result, "chance_right_1") == pytest.approx(exact, abs=2e-3)
    told = holing(evaluate(joint, mine), mine, MM)[0]
    assert "not measured" not in str(told) and any(v["about"] == "bores in line" for v in result["verdicts"])


def ring_and_wall(joint, mine):
    seat = seats(joint, mine)[0]
    return seat.ring, seat.wall


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        (["s1,laser,12,12.1"], "two holes at least"),
        (["s1,ream,12,12.01", "s2,ream,12,12.01"], "without a class"),
        (["s1,lathe,12,12.1", "s2,lathe,12,12.1"], "one of"),
        (["s1,laser,12,-1", "s2,laser,12,12.1"], "above 0"),
        (["s1,laser,12,12.1", "s1,laser,12,12.2"], "each id once"),
    ],
)
def test_measured_holes_that_tell_nothing_are_refused(tmp_path, lines, words):
    """One hole, a reamer, an unknown machine, an impossible size, an id twice: told with what is allowed."""
    with pytest.raises(BadInput) as bad:
        course_with(tmp_path, *lines)
    assert any(
        "measured_holes.csv" in mistake.file and words in str(mistake) for mistake in bad.value.mistakes
    )


@pytest.mark.parametrize(
    ("kerf", "taken"),
    [
        ("0.86", False),
        ("0.04", False),
        ("2", False),
        ("0.02 in", False),
        ("0.05", True),
        ("0.5", True),
        ("0.15", True),
    ],
)
def test_a_slipped_decimal_point_is_no_kerf(tmp_path, kerf, taken):
    """0.05 to 0.5 mm: common practice; 0.86 mm is refused with its place, and taken once it is confirmed."""
    assert (LEAST_KERF, MOST_KERF) == (0.05, 0.5)
    if taken:
        assert course_with(tmp_path, kerf=kerf).processes["laser"].kerf == pytest.approx(float(kerf))
        return
    with pytest.raises(BadInput) as bad:
        course_with(tmp_path, kerf=kerf)
    (mistake,) = bad.value.mistakes
    assert mistake.file == "data/processes.csv" and mistake.place.endswith("column kerf")
    assert "0.05 to 0.5 mm" in mistake.allowed and "kerf_sure" in mistake.remedy
    sure = course_with(tmp_path / "sure", kerf=kerf, sure="yes")
    assert sure.processes["laser"].kerf > 0 and sure.processes["laser"].kerf_sure == "yes"


def test_a_plate_thinner_than_its_tolerance(tmp_path):
    """It could be nothing at all: refused; one that is only just there is worked out, its chances finite."""
    for folder, cell in (("none", "0.5 ± 0.6"), ("some", "0.5 ± 0.49")):
        shutil.copytree(ROOT / "data", tmp_path / folder / "data")
        path = tmp_path / folder / "data" / "stock.csv"
        path.write_text(re.sub(r"(birch-ply-6,[^,]*,wood,)6 ± 0.4", rf"\g<1>{cell}", path.read_text()))
    with pytest.raises(BadInput, match="row .*, column thickness"):
        read_course(tmp_path / "none")
    thin = read_course(tmp_path / "some")
    assert thin.stocks["birch-ply-6"].thickness.least == pytest.approx(0.01)
    joint = make_joint(thin, thin.joints[CRANK], CRANK)
    result = evaluate(joint, thin)
    chances = [result.quantities[f"chance_{name}_1"].value for name in ("loose", "right", "cracked")]
    assert sum(chances) == 1 and all(0 <= chance <= 1 for chance in chances)


# bores in line ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("id", [CRANK, "seed-tray-tilter", TABLE])
def test_two_bores_placed_one_by_one(id):
    """Sampled in space from the JSON: half of the stated plus-or-minus is one spread; both lean and miss.

    Round bores by a program over lines; ours replaces them by squares: within three hundredths.
    """
    result = as_json(named(id))
    rng = np.random.default_rng(3)
    slopes = [
        value(result, f"clearance_{n}") / value(result, f"length_{n}")
        if value(result, f"length_{n}")
        else value(result, f"free_tilt_{n}")
        for n in (1, 2)
    ]
    two = Bearings(
        *(value(result, f"clearance_{n}") for n in (1, 2)),
        *(value(result, f"length_{n}") for n in (1, 2)),
        value(result, "separation"),
        *slopes,
    )
    many, bound = 400, {}
    for name, placed in (("chance_binds", 1), ("chance_binds_in_line", 0)):
        places = [placed * value(result, f"place_{n}") / 2 * rng.standard_normal((2, many)) for n in (1, 2)]
        leans = [value(result, f"square_{n}") / 2 * rng.standard_normal((2, many)) for n in (1, 2)]
        bound[name] = binds_in_space(two, places[1] - places[0], *leans).mean()
        assert value(result, name) == pytest.approx(bound[name], abs=0.03 + near(bound[name], many) / 2), (
            id,
            name,
        )
    assert bound["chance_binds_in_line"] <= bound["chance_binds"]


def test_a_stated_offset_leaves_no_chance():
    """Where the file says how far apart the bores lie, and for one bearing, there is no chance to tell."""
    joint = replace(named(CRANK).joint, offset=0.01)
    assert "chance_binds" not in evaluate(joint, course()).quantities
    assert "chance_binds" not in named(LEVER).quantities
    (told,) = (v for v in named(CRANK).verdicts if v.about == "bores in line")  # spreads are not measured:
    lean = named(CRANK).quantities["chance_binds_in_line"].value  # only what is likelier than not is told
    assert told.number is None and told.state == ("holds" if lean <= 0.5 else "take care")


# pages ------------------------------------------------------------------------------------------------------


@cache
def pages():
    return {page.path: page for page in hole_pages(edition())}


@cache
def edition():
    return Edition(course(), (), read_words(ROOT / "shared"))


def text_of(html):
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", html))


def test_a_table_for_every_stock_and_machine():
    """All bearings in each; drawn size and chances as the data say; whose spread it is beside the spread."""
    paths = {
        table_path(stock, p) for stock in course().stocks.values() for p in processes_of(stock, course())
    }
    assert paths == set(pages()) - {"holes.html"} and len(paths) > 40
    wanted = {part.id for part in course().parts.values() if housed(part)}
    for stock in course().stocks.values():
        for process in processes_of(stock, course()):
            body = pages()[table_path(stock, process)].body
            assert set(re.findall(r"parts/([a-z0-9-]+)\.html", body)) == wanted
            assert len(body.encode()) <= 55_000 and "not measured on your machine" in body
            fits = ("press", "slip", "bonded") if not process.grade else ("press", "slip")
            for line in list(lines_of(stock, process, fits, edition()))[::7]:
                one = pocket(line.parts[-1], course(), stock, process, "press")
                shown = body[body.index(f"parts/{line.parts[0].id}.html") :]
                cells = re.findall(r"<td[^>]*>(.*?)</td>", shown[: shown.index("</tr>")])
                assert float(re.search(r"⌀ ([\d.]+) mm", cells[0])[1]) == pytest.approx(
                    one.made.drawn, abs=0.0051
                )
                shares = cells[2:6] if process.tool else cells[1:5]
                assert shares == [percent(chance) for chance in (*one.fit.chances, one.fit.lasting)]


def test_the_overview_shows_the_published_examples():
    """Test cut E303a: 20.14 less 19.76, halved, is 0.19 mm; a whole kerf on diameter, E302; flats, E305."""
    text, kerfs = text_of(pages()["holes.html"].body), set()
    with (ROOT / "tests" / "published" / "fabrication-class.csv").open() as file:
        row = next(
            row for row in csv.DictReader(line for line in file if line[0] != "#") if row["id"] == "E303a"
        )
    assert "20.14" in row["inputs"] and "19.76" in row["inputs"]
    cut = re.search(
        r"published one: hole ([\d.]+) mm .*?, plug ([\d.]+) mm .*?, so the cut is ([\d.]+) mm", text
    )
    assert [float(x) for x in cut.groups()] == [20.14, 19.76, float(row["published"])]
    for kerf, hole, plug, draw, half in re.findall(
        r"(0\.[123][05]0) mm \S+ in" + r" ([\d.]+) mm [\d.]+ in" * 4, text
    ):
        assert float(hole) == pytest.approx(22 + float(kerf)) and float(plug) == pytest.approx(
            22 - float(kerf)
        )
        assert float(draw) == pytest.approx(22 - float(kerf)) and float(half) == pytest.approx(
            22 + float(kerf) / 2
        )
        kerfs.add(kerf)
    assert kerfs == {"0.100", "0.150", "0.200", "0.250", "0.300"}
    flats = text[text.index("16 flats") : text.index("A cut that leans", text.index("16 flats"))]
    rows = re.findall(r"\b(\d+) mm [\d.]+ in" + r" ([\d.]+) mm [\d.]+ in" * 4, flats)
    assert [row[0] for row in rows] == ["5", "8", "12", "16", "22"]
    for d, *lacks in rows:
        sides = [float(d) * (1 - np.cos(np.pi / n)) for n in (16, 32, 64, 96)]
        assert [float(x) for x in lacks] == pytest.approx(sides, rel=0.06)


def test_the_chapter_of_a_joint_says_what_the_numbers_say():
    """Draw, band, chances and tools; a spread that is not the machine's own is called so in the same cell."""
    for id in course().joints:
        (chapter,) = holing(named(id), course(), MM)
        table = chapter.tables[0]
        for row in table.rows:
            drawn = named(id).quantities[row.names[0]].value
            assert float(row.cells[0].first.split()[0]) == pytest.approx(drawn, abs=0.0051)
            reamed = named(id).joint.housings[0].process.grade
            assert reamed or "not measured on your machine" in row.cells[-1].first
            shown = {cell.first for cell in row.cells[1:-1]}
            told = [name for name in row.names if name.startswith("chance")]
            assert shown >= {percent(named(id).quantities[name].value) for name in told[: len(row.cells) - 2]}
        assert "<svg" in table.figure and "<desc" in table.figure
        text = " ".join(chapter.sentences)
        assert "nan" not in text and (reamed or "test strip" in text)
    given = {re.sub("_[12]$", "", step.gives) for step in named(CRANK).steps}
    assert set(WORKED) <= given
    assert any("draw larger" in sentence for sentence in holing(named(CRANK), course(), MM)[0].sentences)
    assert any("draw smaller" in sentence for sentence in holing(named(ROLLER), course(), MM)[0].sentences)


def test_drills_and_reamers_beside_the_wanted_hole():
    """The nearest sizes of the package's tables on both sides, their holes, and their chances by sampling."""
    seat, housing = seats(named(ROLLER).joint, course())[0], named(ROLLER).joint.housings[0]
    found = list(drilled(seat, housing, course()))
    assert [one.tool for one in found] == ["drill 22 mm", "drill 7/8 in", "reamer 22 mm H7", "reamer 7/8 in"]
    rng, reach = np.random.default_rng(2), reach_of(seat.ring, seat.wall)
    D = rng.uniform(seat.outside.least, seat.outside.most, TRIED)
    for one in found:
        spread = (
            0.045 if "drill" in one.tool else one.hole.width / 4
        )  # processes.csv; half of the limits, halved
        tight = D - rng.normal(one.hole.typical, spread, TRIED)
        shares = (
            (tight < 0).mean(),
            ((tight >= 0) & (tight < reach.cracks)).mean(),
            (tight >= reach.cracks).mean(),
        )
        for ours, share in zip(one.chances, shares):
            assert ours == pytest.approx(share, abs=near(share))
    assert found[0].hole.typical == pytest.approx(22.0 + 0.1) and found[2].hole.least == pytest.approx(22.0)


def test_zones_are_drawn_to_scale():
    """Heights of the drawn zones are as their limits; slivers are thick enough to be seen; words agree."""
    side = Side(
        "In the housing",
        12.0,
        (
            Zone("hole", Band(11.88, 12.0, 12.12), Band(11.96, 12.0, 12.04)),
            Zone("bearing", Band(12.023, 12.0285, 12.034)),
            Zone("thin", Band(12.0, 12.0005, 12.001)),
        ),
        (Mark("cracks below", 11.95),),
    )
    svg = str(zones((side,), MM).svg)
    boxes = [
        (float(y), float(h)) for y, h in re.findall(r'<rect[^>]* y="([\d.]+)" [^>]*height="([\d.]+)"', svg)
    ]
    (hole_y, hole), (_, usual), (bearing_y, bearing), (_, thin) = boxes
    per = hole / 0.24
    assert usual / per == pytest.approx(0.08, abs=2e-4) and bearing / per == pytest.approx(0.011, abs=2e-4)
    assert (bearing_y - hole_y) / per == pytest.approx(12.12 - 12.034, abs=2e-4)
    assert thin == pytest.approx(SLIVER, abs=0.01) and thin / per > 0.001
    assert TOP <= hole_y < hole_y + hole <= FOOT
    assert all(
        words in svg for words in ("11.880 to 12.120 mm", "12.023 to 12.034 mm", "cracks below 11.950 mm")
    )
    line = float(re.search(r'chart-line-2"[^>]*d="M[\d.]+ ([\d.]+)h', svg)[1])
    assert (line - hole_y) / per == pytest.approx(12.12 - 11.95, abs=2e-4)
