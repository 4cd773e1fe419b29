"""Part pages read back: their numbers against the data's own cells, their advice against brute force."""

import itertools
import math
import re
from functools import cache

import html5lib
import numpy as np
import pytest
from conftest import ROOT
from pressfit import fit
from read_parts import INCH, rows
from test_browser import DESK, PHONE, findings, wider_than_the_window
from test_mismatch import fits_turned

from guidegen.guide import near_fits, near_sheets, near_sizes, near_threads, near_tools
from guidegen.guide.edition import Edition, parts_of
from guidegen.guide.families import families
from guidegen.guide.lookalikes import lookalikes, sizes_of
from guidegen.guide.measures import Measures
from guidegen.guide.near_sizes_page import near_sizes_page
from guidegen.guide.own_units import inches, round_size, said_size, unit_of
from guidegen.guide.pairs import group_of, groups
from guidegen.guide.part_pages import part_pages
from guidegen.guide.readings import pins, reading
from guidegen.joint import Worked, make_joint
from guidegen.kit.lookup import threads
from guidegen.kit.reader import read_course, read_words
from guidegen.kit.records import BallBearing, Nut, ShoulderScrew, SleeveBushing, Spacer
from guidegen.units import Band

CALIPER = 0.02  # mm either way; common practice
FLATS = (0.3, 0.5)  # mm, of inside jaws; common practice
INSIDE = {"free_bore", "bore", "hole"}
LOOKED_AT = {  # the sizes that a person looks at, by the file of the part
    "shoulder_screws": ("shoulder_diameter", "shoulder_length"),
    "sleeve_bushings": ("outside_diameter", "free_bore", "length"),
    "ball_bearings": ("outside_diameter", "bore", "width"),
    "spacers": ("outside_diameter", "hole", "length"),
    "washers": ("outside_diameter", "hole", "thickness"),
    "nuts": ("across_flats", "height"),
}
SHAPES = {"shoulder_screws": "screw", "nuts": "nut"}
BODY, PAGE = 45_000, 60_000  # bytes


@cache
def course():
    return read_course(ROOT)


@cache
def edition():
    return Edition(course(), (), read_words(ROOT / "shared"))


@cache
def pages():
    """All pages of the room by path."""
    made = [*part_pages(edition(), []), near_sizes_page(edition())]
    return {page.path: page for page in made}


@cache
def tree(path):
    return html5lib.parse(pages()[path].body, namespaceHTMLElements=False)


def text_of(element):
    return " ".join("".join(element.itertext()).split())


def cells(row):
    return [*row.iter("th"), *row.iter("td")]


def printed(cell, unit):
    """Numbers that a cell prints in a unit, with half a unit of their last digit."""
    found = re.search(rf"([\d.]+)(?: to ([\d.]+))? {unit}\b", text_of(cell))
    numbers = [text for text in found.groups() if text]
    return [(float(text), 0.5 * 10.0 ** -len(text.partition(".")[2])) for text in numbers]


def part_rows():
    """(raw row, page tree) of every part."""
    for id, row in rows(ROOT).items():
        yield row, tree(f"parts/{id}.html")


# sizes


def test_every_part_of_the_catalogue_has_a_page():
    """Kits hold some of them; a course that buys others finds them too. Paths are the parts' ids."""
    assert {f"parts/{id}.html" for id in rows(ROOT)} == {
        path for path in pages() if path.startswith("parts/")
    }
    assert {"parts.html", "kits.html", "near-sizes.html", "measured.html"} <= set(pages())
    assert len(rows(ROOT)) > 50


def test_every_number_equals_its_cell():
    """Limits and values of every part to half a thousandth of a millimetre and half a ten-thousandth of an inch; words as they stand."""
    checked = 0
    for row, page in part_rows():
        shown = {line.get("data-size"): line for line in page.iter("tr") if line.get("data-size")}
        for column in set(row) - {"id", "name", "source", "material", "finish"}:
            if not row[column].strip("- ") or (column == "pack" and row[column] == "1"):  # sold singly
                assert column not in shown or column == "internal_clearance", (row["id"], column)
                continue
            value = cells(shown[column])[1]
            unit = row.units[column]
            if unit in ("mm", "in"):
                for said, factor in (("mm", 1.0), ("in", INCH)):
                    wanted = sorted({round(end / factor, 9) for end in row.limits(column)})
                    found = printed(value, said)
                    assert len(found) == len(wanted), (row["id"], column, text_of(value))
                    for (number, _), true in zip(found, wanted):
                        fine = 0.0005 if said == "mm" else 0.00005
                        assert abs(number - true) <= fine * (1 + 1e-6), (row["id"], column, number, true)
            elif unit == "N":
                ((number, half),) = printed(value, "N")
                assert abs(number - float(row[column])) <= half
            elif column == "price":
                assert text_of(value).startswith(f"{float(row[column]):.2f} ")
            else:
                assert row[column] in text_of(value)
            checked += 1
    assert checked > 7 * len(rows(ROOT))


def test_every_number_names_its_source():
    """Each cell links the source its row gives; what is from memory says so in the table."""
    marked = 0
    for row, page in part_rows():
        for line in page.iter("tr"):
            if column := line.get("data-size"):
                cell = cells(line)[2]
                (link,) = cell.iter("a")
                assert link.get("href") == f"../sources.html#{row.source(column)}", (row["id"], column)
                memory = row.source(column).startswith("memory")
                assert bool([bold for bold in cell.iter("b") if bold.get("class") == "memory"]) is memory
                assert memory is text_of(cell).startswith("From memory")
                marked += memory
    assert marked > 20


# readings


def window(row, column):
    """Least and greatest reading of a caliper on a size, from the cell's own limits and plain geometry."""
    low, high = row.limits(column)
    if column in INSIDE and low > FLATS[1]:
        low, high = (
            2 * math.sqrt((d / 2) ** 2 - (w / 2) ** 2) for d, w in ((low, FLATS[1]), (high, FLATS[0]))
        )
    return low - CALIPER, high + CALIPER


def test_what_a_caliper_should_read():
    """Limits widened by the caliper, holes read too small by the flats, rounded outward to the caliper's steps."""
    checked = 0
    for row, page in part_rows():
        for line in page.iter("tr"):
            if column := line.get("data-read"):
                low, high = window(row, column)
                for unit, factor, step in (("mm", 1.0, 0.01), ("in", INCH, 0.0005)):
                    (least, _), (most, _) = printed(cells(line)[1], unit)
                    assert least <= max(low / factor, 0) + 1e-9 and most >= high / factor - 1e-9, (
                        row["id"],
                        column,
                    )
                    assert low / factor - least < step and most - high / factor < step
                    assert (least / step) == pytest.approx(round(least / step))
                checked += 1
        sized = {
            column
            for column in row
            if row.units[column] == "mm"
            and row[column].strip("- ")
            and row.limits(column)[0] < row.limits(column)[1]
        } - {"internal_clearance"}
        assert {line.get("data-read") for line in page.iter("tr")} - {None} == sized, row["id"]
    assert checked > 3 * len(rows(ROOT))


def test_a_go_pin_enters_every_hole_and_a_stop_pin_none():
    """Of every hole of the catalogue, in both units; and they are the nearest such pins."""
    for row, _ in part_rows():
        for column in INSIDE & set(row):
            low, high = row.limits(column)
            goes, stops = pins(Band.between(low, high), Measures("mm"))
            for text_goes, text_stops, factor, step in zip(goes, stops, (1.0, INCH), (0.01, 0.001)):
                go, stop = (float(text.split()[0]) * factor for text in (text_goes, text_stops))
                assert go <= low + 1e-9 and low - go < step * factor
                assert stop > high - 1e-9 and stop - high <= step * factor + 1e-9
            said = text_of(tree(f"parts/{row['id']}.html"))
            assert f"one of {goes.line} goes in, one of {stops.line} does not" in said


def test_a_caliper_that_is_too_coarse_is_said_to_be():
    """Where the limits lie within the caliper's own error, and only there, a finer instrument is asked for."""
    for row, page in part_rows():
        text = text_of(page)
        blunt = [
            line.get("data-read")
            for line in page.iter("tr")
            if line.get("data-read")
            and np.subtract(*row.limits(line.get("data-read"))[::-1]) < 2 * CALIPER - 1e-12
        ]
        assert ("micrometer" in text.partition("What is it mistaken for?")[0]) is bool(blunt), row["id"]


# look-alikes


def three(row):
    """The sizes that a person looks at: readings, and the thread's diameter where there is one."""
    found = [window(row, column) for column in LOOKED_AT[row.kind]]
    if row.get("thread"):
        found.append((threads()[row["thread"]].diameter,) * 2)
    return found


def apart(one, other):
    return max(0.0, other[0] - one[1], one[0] - other[1])


def expected_alike(row, other):
    """The rule in words, coded again: two of three nearly coincide, none differs by more than a third."""
    if SHAPES.get(row.kind, "ring") != SHAPES.get(other.kind, "ring"):
        return False
    pairs = list(zip(three(row), three(other)))
    close = sum(apart(a, b) <= min(0.6, 0.06 * (sum(a) + sum(b)) / 4) + 1e-9 for a, b in pairs)
    return close >= 2 and all(apart(a, b) <= max(*a, *b) / 3 + 1e-9 for a, b in pairs)


@cache
def all_sizes():
    return {part.id: sizes_of(part, course().materials) for part in course().parts.values()}


@cache
def alike(id):
    return lookalikes(all_sizes()[id], all_sizes().values())


def test_look_alikes_are_those_of_the_rule():
    """Every pair of the catalogue, from the raw cells; each page lists them or counts them."""
    found = 0
    for id, row in rows(ROOT).items():
        wanted = {other for other, raw in rows(ROOT).items() if other != id and expected_alike(row, raw)}
        assert {one.id for one in alike(id)} == wanted, id
        page = tree(f"parts/{id}.html")
        listed = [line.get("data-alike") for line in page.iter("tr") if line.get("data-alike")]
        left = re.search(r"And (\d+) more, easier", text_of(page))
        assert set(listed) <= wanted and len(listed) + int(left[1] if left else 0) == len(wanted), id
        found += len(wanted)
    assert found > 100


def test_looking_alike_goes_both_ways():
    """If one is mistaken for the other, the other is for the one, and it takes the same to tell."""
    for id in rows(ROOT):
        for one in alike(id):
            back = next(other for other in alike(one.id) if other.id == id)
            assert (one.by, one.tell.gap) == (back.by, pytest.approx(back.tell.gap)), (id, one.id)


def moved(part, column, by):
    band = getattr(part, column)
    return part.model_copy(update={"id": "made", column: band.shifted(by)})


@pytest.mark.parametrize(
    "id, column, other",
    [
        ("sb-8x12x8", "outside_diameter", "length"),
        ("ny-8x12x8", "hole", "length"),
        ("wl-8", "thickness", "hole"),
        ("ss-8x40", "shoulder_length", "shoulder_diameter"),
        ("nut-m6", "across_flats", "height"),
    ],
)
def test_the_rule_holds_on_both_sides_of_its_bounds(id, column, other):
    """A size moved until readings lie just within, and just beyond, what the eye takes for the same."""
    part = course().parts[id]
    materials = course().materials
    own = sizes_of(part, materials)

    def is_alike(made):
        return "made" in {one.id for one in lookalikes(own, [sizes_of(made, materials)])}

    second = moved(part, other, 0.25 * getattr(part, other).typical)  # one size differs already
    base = reading(column, getattr(part, column))
    width = base.most - base.least

    def close(by):
        gap = by - width
        return gap <= min(0.6, 0.06 * (base.limits.typical + by / 2))

    bound = next(by for by in np.arange(width, width + 1, 1e-4) if not close(by))
    if getattr(part, other).typical * 0.25 > 0.6 + 4 * CALIPER:
        assert is_alike(moved(second, column, bound - 0.004))
        assert not is_alike(moved(second, column, bound + 0.004))
    far = (base.limits.typical + width) / (2 / 3)  # a third of the larger one
    step = far - base.limits.typical
    assert is_alike(moved(part, column, 0.9 * step - width))
    assert not is_alike(moved(part, column, 1.1 * step + width))


def test_a_caliper_is_only_named_where_it_tells():
    """Readings of both lie apart, also as printed; and where nothing tells, every size of both overlaps."""
    seen = {}
    for id, row in rows(ROOT).items():
        for one in alike(id):
            other = rows(ROOT)[one.id]
            columns = [
                (found.column, one.other.readings[place].column)
                for place, found in one.own.readings.items()
                if place in one.other.readings and found.column != "neck_diameter"
            ]
            gaps = [apart(window(row, a), window(other, b)) for a, b in columns]
            assert (one.by == "caliper") is (max(gaps) > 1e-9), (id, one.id)
            if one.by == "caliper":
                assert one.tell.gap == pytest.approx(max(gaps), abs=1e-6)
            if one.by in ("nothing", "fine gauge"):
                assert row.get("thread") == other.get("thread") and row["finish"] == other["finish"]
                assert row.get("closure") == other.get("closure") or row.kind != other.kind
            seen.setdefault(one.by, (id, one.id))
    assert {"caliper", "nothing", "eye", "thread"} <= set(seen)


def test_known_confusions_are_told():
    """Cases every bench knows: f9 and h8 shoulders, 5/16 in and 8 mm, a C3 bearing, nuts of one wrench."""
    assert next(one.by for one in alike("ss-8x40") if one.id == "ss-8x40-h8") == "nothing"
    page = text_of(tree("parts/ss-8x40.html"))
    assert (
        "Nothing for sure" in page and "this one under 7.95 mm" in page and "the other over 8.01 mm" in page
    )
    for group in ("ss-8x25 ss-516x100", "bb-608 bb-608-c3", "nut-m8 nut-516", "bb-608 bb-r6"):
        first, *others = group.split()
        if set(group.split()) <= set(rows(ROOT)):
            assert set(others) <= {one.id for one in alike(first)}, group


def test_a_reading_said_to_be_sure_is_sure():
    """Parts drawn at random within limits, read with every error a caliper may have: none contradicts the page."""
    random = np.random.default_rng(3)
    checked = 0
    for id, row in rows(ROOT).items():
        page = tree(f"parts/{id}.html")
        for line in page.iter("tr"):
            sure = re.findall(r"(this one|the other) (under|over) ([\d.]+) mm", text_of(line))
            if not line.get("data-alike") or not sure:
                continue
            other = rows(ROOT)[line.get("data-alike")]
            one = next(found for found in alike(id) if found.id == other["id"])
            for which, side, bound in sure:
                raw, column = (
                    (other, one.tell.other.column) if which == "this one" else (row, one.tell.own.column)
                )
                sizes = random.uniform(*raw.limits(column), 2000)
                if column in INSIDE:
                    sizes = np.sqrt(sizes**2 - random.uniform(*FLATS, 2000) ** 2)
                shown = sizes + random.uniform(-CALIPER, CALIPER, 2000)
                assert (
                    not (shown < float(bound)).any() if side == "under" else not (shown > float(bound)).any()
                )
                checked += 1
    assert checked > 5


# inch beside metric


def raw_of(side):
    return [rows(ROOT)[part.id] for part in side.parts]


def near(one, other):
    return abs(one - other) <= min(0.75, 0.06 * max(one, other)) + 1e-9


def test_which_unit_a_part_was_made_in():
    """Told from its sizes alone: the unit that its cells are written in."""
    for part in course().parts.values():
        assert unit_of(part) == ("in" if rows(ROOT)[part.id].inch else "mm"), part.id
    assert (inches(31.75), inches(9.525), inches(6.0)) == ("1-1/4 in", "3/8 in", "0.2362 in")
    assert said_size(6.5, "mm") == "6.5 mm" and said_size(25.4, "in") == "1 in"
    assert round_size(Band.between(25.0, 25.25), "mm") == "25 mm"
    assert round_size(Band.between(31.62, 31.88), "in") == "1-1/4 in"
    assert round_size(Band.between(0.09, 0.11), "mm") == "0.1 mm"


def nominal(row):
    return row.limits("nominal")[0]


def test_shafts_and_bores_go_in_as_the_limits_say():
    """Every shoulder and bore of the two systems: all four corners of the limits give the room and the verdict."""
    screws = [row for row in rows(ROOT).values() if row.kind == "shoulder_screws"]
    bores = [
        (row, next(iter(INSIDE & set(row))))
        for row in rows(ROOT).values()
        if row.kind in ("sleeve_bushings", "ball_bearings", "spacers")
    ]
    wanted = {}
    for screw, (bore, column) in itertools.product(screws, bores):
        if screw.inch != bore.inch and near(nominal(screw), nominal(bore)):
            room = [h - s for h in bore.limits(column) for s in screw.limits("shoulder_diameter")]
            wanted[screw["id"], bore["id"]] = min(room), max(room)
    found = {}
    for one in near_fits.shafts_in_bores(course()):
        loosest = fit("H9/d9", one.outside.size)
        most = (loosest.hole_es_um - loosest.shaft_ei_um) / 1000
        for screw, bore in itertools.product(raw_of(one.inside), raw_of(one.outside)):
            found[screw["id"], bore["id"]] = one
            low, high = wanted[screw["id"], bore["id"]]
            assert (one.room.least, one.room.most) == pytest.approx((low, high), abs=1e-6)
            state = (
                "does not go in"
                if high < 0
                else "goes in sometimes"
                if low < 0
                else "rattles"
                if low > most
                else "may rattle"
                if high > most
                else "goes in"
            )
            said = "goes in sometimes" if one.room.least < 0 <= one.room.most else one.state
            assert said == state and one.state.endswith("goes in") >= (low < 0 <= high), (screw["id"], bore["id"])
    assert set(found) == set(wanted)


def test_bearings_fit_the_other_hole_as_the_limits_say():
    """Outside diameters against H7 of the other system's nominal size, by corners of the limits."""
    checked = 0
    for one in near_fits.outsides_in_holes(course()):
        hole = fit("H7/h6", one.outside.size)
        low, high = (one.outside.size + deviation / 1000 for deviation in (hole.hole_ei_um, hole.hole_es_um))
        for row in raw_of(one.inside):
            room = [h - d for h in (low, high) for d in row.limits("outside_diameter")]
            assert (one.room.least, one.room.most) == pytest.approx((min(room), max(room)), abs=1e-6)
            assert row.inch == (one.inside.unit == "in") != (one.outside.unit == "in")
            checked += 1
    assert checked > 4


def test_fits_between_random_limits_are_judged_as_they_happen():
    """A thousand pairs drawn within made limits: the verdict says what happened to all, some or none of them."""
    random = np.random.default_rng(5)
    states = set()
    for _ in range(300):
        shaft, hole = (Band.between(*sorted(8 + random.uniform(-0.2, 0.4, 2))) for _ in range(2))
        inside, outside = near_sizes.Side("mm", 8, "a", shaft), near_sizes.Side("in", 7.94, "b", hole)
        room = Band.between(hole.least - shaft.most, hole.most - shaft.least)
        judged = near_fits.Fit(inside, outside, room, 0.112)
        ends = [(a, b) for a in (shaft.least, shaft.most) for b in (hole.least, hole.most)]
        drawn = [
            (random.uniform(shaft.least, shaft.most), random.uniform(hole.least, hole.most))
            for _ in range(200)
        ]
        loose = np.array([b - a for a, b in ends + drawn])
        states.add(judged.state)
        if judged.state == "does not go in":
            assert (loose < 0).all()
        elif judged.room.least < 0:
            assert (loose < 0).any() and (loose >= 0).any()
            many = random.uniform((shaft.least, hole.least), (shaft.most, hole.most), (20_000, 2))
            share = (many[:, 1] >= many[:, 0]).mean()  # scatters by 0.004 of itself at most
            assert judged.chance == pytest.approx(share, abs=0.015)
            words = {"hardly ever": (0, 0.05), "sometimes": (0.05, 0.5), "mostly": (0.5, 0.95), "nearly always": (0.95, 1)}
            low, high = words[judged.state.removesuffix(" goes in")]
            assert low - 0.015 <= share <= high + 0.015
        else:
            assert (loose >= 0).all()
            assert {
                "goes in": (loose <= 0.112).all(),
                "rattles": (loose > 0.112).all(),
                "may rattle": (loose > 0.112).any() and (loose <= 0.112).any(),
            }[judged.state]
    assert len(states) == 8


def test_a_quarter_inch_hole_is_told_of():
    """A 1/4 in drill, 6.35 mm: the 6 mm shoulder rattles in its hole, the 6.5 mm one does not go in."""
    told = {
        (one.inside.size, one.outside.size): one.state
        for one in near_fits.shafts_in_drilled(course())
        if one.inside.unit == "mm"
    }
    found = {(round(a, 3), round(b, 3)): state for (a, b), state in told.items()}
    assert found[6.0, 6.35] == "rattles" and found[6.5, 6.35] == "does not go in"
    table = next(t for t in tree("near-sizes.html").iter("table") if "drilled" in text_of(t.find("caption")))
    assert "6.35 mm" in text_of(table)


def test_washers_are_laid_over_the_other_screws():
    """Room of each over shoulder or thread, by corners; each washer serves the largest of its own that goes in."""
    found = near_fits.washers_over(course())
    assert found
    for one in found:
        for row in raw_of(one.outside):
            small = row["kind"] == "small"
            low, high = row.limits("hole")
            if small:
                ends = (threads()[one.inside.words].diameter,) * 2
                own = max(
                    t.diameter
                    for name, t in threads().items()
                    if name.startswith("M") is not row.inch and t.diameter <= low
                )
            else:
                ends = raw_of(one.inside)[0].limits("shoulder_diameter")
                own = max(
                    nominal(screw)
                    for screw in rows(ROOT).values()
                    if screw.kind == "shoulder_screws" and screw.inch == row.inch and nominal(screw) <= low
                )
            room = [h - s for h in (low, high) for s in ends]
            assert (one.room.least, one.room.most) == pytest.approx((min(room), max(room)), abs=1e-6)
            assert one.outside.size == pytest.approx(own)


def test_threads_of_two_systems():
    """Pitch diameters, room and turns reckoned again from 60 degree geometry; the cases the bench knows."""
    met = {(one.screw.words, one.nut.words): one for one in near_threads.threads_meeting(course())}
    used = {row["thread"] for row in rows(ROOT).values() if row.get("thread")}
    wanted = {
        (a, b)
        for a, b in itertools.permutations(threads(), 2)
        if a.startswith("M") is not b.startswith("M") and near(threads()[a].diameter, threads()[b].diameter)
    }
    screws = {row["thread"] for row in rows(ROOT).values() if row.kind == "shoulder_screws"}
    nuts = {row["thread"] for row in rows(ROOT).values() if row.kind == "nuts"}
    assert set(met) == {(a, b) for a, b in wanted if a in screws or b in nuts} and used
    for (screw, nut), one in met.items():
        s, n = threads()[screw], threads()[nut]
        high = math.sqrt(3) / 2  # of the sharp triangle, over the pitch
        between = (n.diameter - 0.75 * high * n.pitch) - (s.diameter - 0.75 * high * s.pitch)
        if between <= 0:
            assert one.state == "binds at once", (screw, nut)
            continue
        turns = between * math.tan(math.radians(30)) / abs(n.pitch - s.pitch)
        assert one.turns == pytest.approx(turns)
        assert one.state == ("jams" if turns < one.nut_turns else "goes through")
    states = {
        ("M6", "1/4-20"): "jams",
        ("5/16-18", "M8"): "jams",
        ("M8", "5/16-18"): "binds at once",
        ("10-32", "M5"): "goes through",
    }
    assert all(met[pair].state == state for pair, state in states.items() if pair in met)


def test_hexagons_turn_as_far_as_polygons_do():
    """Keys in sockets and nuts in wrenches, turned as polygons at both ends of their limits."""
    pairs = near_tools.keys_in_sockets(course()) + near_tools.nuts_in_wrenches(course())
    assert len(pairs) > 3
    for pair in pairs:
        opening, limits = pair.outside.size, pair.inside.limits
        fits = [size <= opening + 1e-9 for size in (limits.least, limits.most)]
        if fits[0] != fits[1]:
            share = (opening - limits.least) / (limits.most - limits.least)
            word = next(w for end, w in ((0.05, "hardly ever"), (0.5, "sometimes"), (0.95, "mostly"), (1, "nearly always")) if share <= end)
            assert pair.state == f"{word} goes on", (pair.inside.words, pair.outside.words, share)
        else:
            assert pair.state == ("goes on" if fits[0] else "does not go on"), (pair.inside.words, pair.outside.words)
        if pair.state != "does not go on":
            for turn, size in zip(reversed(pair.turns), (limits.least, limits.most)):
                if size <= opening:
                    assert fits_turned(opening, size, 0.999 * turn)
                    assert not fits_turned(opening, size, 1.001 * turn + 1e-5)
                else:
                    assert turn == 0
        assert pair.inside.unit != pair.outside.unit and near(pair.inside.size, opening)


def test_a_hexagon_in_far_too_large_an_opening_slips():
    """From two over root three times its size on it goes right round, and is said to slip."""
    nut = near_sizes.Side("mm", 10, "nut", Band.between(9.8, 10.0))
    for opening, state in (
        (10.0, "goes on"),
        (11.3, "goes on"),
        (11.6, "slips"),
        (12.0, "slips"),
        (9.7, "does not go on"),
    ):
        wrench = near_sizes.Side("in", opening, "wrench", Band.exactly(opening))
        assert near_tools._hexagon(nut, wrench).state == state, opening
        assert all(fits_turned(opening, 9.8, math.radians(t)) for t in range(0, 60, 5)) is (state == "slips")


def test_sheets_beside_the_other_thickness():
    """A thickness within a sheet's limits looks the same; else it is thicker or thinner, by that much."""
    found = near_sheets.sheets_beside(course())
    assert any(sheet.state == "looks the same" for sheet in found) and any(
        s.state == "thicker" for s in found
    )
    for sheet in found:
        low, high = sheet.stock.thickness.least, sheet.stock.thickness.most
        state = (
            "looks the same" if low <= sheet.other <= high else "thicker" if sheet.other > high else "thinner"
        )
        assert sheet.state == state and near(sheet.other, (low + high) / 2)


def test_the_page_of_near_sizes_prints_every_verdict():
    """A row for each meeting, with the room of all its parts in both units; its links lead to families."""
    page = tree("near-sizes.html")
    body = pages()["parts.html"].body
    for address in (link.get("href") for link in page.iter("a")):
        if address.startswith("parts.html#"):
            assert f'id="{address.partition("#")[2]}"' in body
    tables = [table for table in page.iter("table") if "near" in table.get("class")]
    fits = near_fits.meetings(near_fits.shafts_in_bores(course()), "inside")
    lines = [line for line in tables[0].iter("tr") if line.find("td") is not None] if fits else []
    assert len(lines) == len(fits)
    for line, met in zip(lines, fits):
        low = min(fit.room.least for fit in met.fits)
        high = max(fit.room.most for fit in met.fits)
        said = text_of(cells(line)[2])
        assert said.lower().startswith(met.first.state)
        numbers = [float(text) for text in re.findall(r"([\d.]+)(?= mm| to [\d.]+ mm)", said)][:2]
        assert sorted(numbers) == pytest.approx(sorted(map(abs, (low, high))), abs=0.0006)
        inch = [float(text) for text in re.findall(r"([\d.]+)(?= in\b| to [\d.]+ in\b)", said)][:2]
        assert sorted(inch) == pytest.approx(sorted(abs(x) / INCH for x in (low, high)), abs=0.00006)


# all parts, kits, use


def test_every_part_is_in_one_family_and_on_the_page_of_all():
    """Members of a family differ in their length alone; each part is linked once, each family is an anchor."""
    found = families(course().parts.values())
    members = [part.id for family in found for part in family.parts]
    assert sorted(members) == sorted(rows(ROOT))
    for family in found:
        along = LOOKED_AT[rows(ROOT)[family.first.id].kind][-1]
        for part in family.parts:
            cells_of = [
                {
                    key: cell
                    for key, cell in rows(ROOT)[id].items()
                    if key not in ("id", "name", "price", "source", along)
                }
                for id in (family.first.id, part.id)
            ]
            for key in cells_of[0]:
                one, other = (rows(ROOT)[id] for id in (family.first.id, part.id))
                if one.units[key] == "mm" and one[key]:
                    assert one.limits(key) == pytest.approx(other.limits(key), abs=1e-9)
                else:
                    assert one[key] == other[key]
    page = tree("parts.html")
    links = [link.get("href") for link in page.iter("a") if link.get("href").startswith("parts/")]
    assert sorted(links) == sorted(f"parts/{id}.html" for id in rows(ROOT))
    assert [item.get("id") for item in page.iter("li") if item.get("id")] == [
        family.key
        for kind in (ShoulderScrew, SleeveBushing, BallBearing, Spacer)
        for family in found
        if isinstance(family.first, kind)
    ] + [family.key for kind in ("Washer", "Nut") for family in found if type(family.first).__name__ == kind]


def test_a_reading_leads_to_the_part():
    """Both tables rise; every size of every family stands in one; 7.97 mm leads to the 8 mm shoulder screws."""
    tables = list(tree("measured.html").iter("table"))
    hits = []
    for table in tables:
        lines = [line for line in table.iter("tr") if line.find("td") is not None]
        lows = [printed(cells(line)[1], "mm")[0][0] for line in lines]
        assert lows == sorted(lows)
        for line in lines:
            (low, _), (high, _) = printed(cells(line)[1], "mm")
            if low <= 7.97 <= high:
                hits.append(text_of(line))
    count = len(families(course().parts.values()))
    holes = sum(
        not isinstance(family.first, (ShoulderScrew, Nut)) for family in families(course().parts.values())
    )
    assert [len([row for row in table.iter("tr") if row.find("td") is not None]) for table in tables] == [
        count,
        holes,
    ]
    assert any(re.search(r"shoulder diameter.*shoulder screw 8 mm", hit.lower()) for hit in hits), hits
    assert any("ball bearing 608" in hit.lower() for hit in hits)


def test_kits_count_and_add_up():
    """Pieces and price of each kit from its file and the parts' own cells."""
    text = text_of(tree("kits.html"))
    for kit in course().kits.values():
        price = sum(float(rows(ROOT)[id]["price"]) * count for id, count in kit.parts.items())
        assert f"{len(kit.parts)} kinds of part, {sum(kit.parts.values())} pieces, {price:.2f} " in text


def test_a_page_counts_the_joints_that_use_its_part():
    """By the bearings of the joints, each group linked once with as many joints as hold the part."""
    worked = Worked(course())
    results = [worked.result(make_joint(course(), raw, id)) for id, raw in course().joints.items()]
    results += [worked.result(joint) for joint in worked.joints[::40]]
    made = groups(results, course().joints, edition().kits)
    bodies = {
        page.path: page.body for page in part_pages(Edition(course(), tuple(results), edition().words), made)
    }
    used = 0
    for id in rows(ROOT):
        users = [result for result in results if id in parts_of(result)]
        page = html5lib.parse(bodies[f"parts/{id}.html"], namespaceHTMLElements=False)
        links = {
            link.get("href"): line
            for line in page.iter("tr")
            for link in line.iter("a")
            if link.get("href").startswith("../pairs/")
        }
        keys = {group_of(result.joint) for result in users}
        assert set(links) == {f"../pairs/{key}.html" for key in keys}, id
        for key in keys:
            count = sum(group_of(result.joint) == key for result in users)
            assert text_of(cells(links[f"../pairs/{key}.html"])[1]) == str(count)
        used += bool(users)
    assert used > 10


# weight, and the built site


def test_bodies_are_light_and_plain():
    """Below 45 kB before the theme's share; no styles, no scripts; ids once."""
    for path, page in pages().items():
        if path.startswith("parts/"):
            assert len(page.body.encode()) < BODY, path
        assert not re.search(r"<script|<style|\sstyle=|\son[a-z]+=|src=|http", page.body), path
        names = re.findall(r'\sid="([^"]*)"', page.body)
        assert len(names) == len(set(names)), path
        assert {heading.id for heading in page.toc} <= set(names), path


def test_built_part_pages_stay_below_sixty_kilobytes(site):
    """With everything the theme adds."""
    sizes = {path.name: path.stat().st_size for path in (site / "parts").glob("*.html")}
    assert len(sizes) == len(rows(ROOT)) and max(sizes.values()) < PAGE


def test_no_row_of_readings_has_a_gap_on_a_phone(site, visit):
    """Rows are as high as their words: at most eight short lines, none wider than the window."""
    page = visit(site / "measured.html", width=PHONE)
    rows = page.locator("article tbody tr").evaluate_all(
        "rows => rows.map(row => [row.getBoundingClientRect().height, row.getBoundingClientRect().right])"
    )
    line = page.locator("article tbody td").first.evaluate("cell => parseFloat(getComputedStyle(cell).lineHeight)")
    assert len(rows) > 50 and max(high for high, _ in rows) < 8 * line
    assert max(right for _, right in rows) <= PHONE


def test_what_happens_to_near_sizes_is_seen_on_a_phone(site, visit):
    """Both sides and the verdict stand within the window, without scrolling sideways."""
    page = visit(site / "near-sizes.html", width=PHONE)
    rights = page.locator("table.near td:nth-child(3)").evaluate_all(
        "cells => cells.map(cell => cell.getBoundingClientRect().right)"
    )
    assert len(rights) > 50 and max(rights) <= PHONE


def test_life_size_is_life_size_on_the_screen(site, visit):
    """In a browser 1 mm is 96/25.4 pixels, whatever the width of the window."""
    for id in ("bb-608", "ss-8x60"):
        for width in (DESK, PHONE):
            page = visit(site / "parts" / f"{id}.html", width=width)
            box = page.locator("svg.life").bounding_box()
            view = [float(text) for text in page.locator("svg.life").get_attribute("viewBox").split()]
            assert box["width"] == pytest.approx(view[2] * 96 / 25.4, abs=0.5)
            assert box["height"] == pytest.approx(view[3] * 96 / 25.4, abs=0.5)


@pytest.mark.parametrize("name", ["parts", "measured", "near-sizes", "kits", "parts/ss-8x40", "parts/nut-m6"])
@pytest.mark.parametrize("scheme, width", [("light", PHONE), ("dark", DESK)])
def test_everybody_can_read_them(site, visit, name, scheme, width):
    """No serious accessibility finding, nothing wider than the window."""
    page = visit(site / f"{name}.html", scheme, width)
    assert findings(page) == []
    assert wider_than_the_window(page) <= 0
