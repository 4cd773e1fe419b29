"""Drawings are true to the stack, keep their lettering apart, and say in words what they show."""
import re
from dataclasses import replace
from functools import cache
from math import dist
from pathlib import Path
from xml.etree import ElementTree

import matplotlib
import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

from guidegen.drawing import DRAWING_CSS, kit_strip, life_size, part_drawing, section, small_outline
from guidegen.drawing.annotations import newtons, spread
from guidegen.drawing.svg import number
from guidegen.joint import evaluate, expand, make_joint
from guidegen.joint.records import Quantity
from guidegen.kit.lookup import thread
from guidegen.kit.reader import read_course
from guidegen.kit.records import BallBearing, Nut, ShoulderScrew, SleeveBushing, Spacer, Washer

ROOT = Path(__file__).parent.parent
NS = "{http://www.w3.org/2000/svg}"
HOSTILE = '</title><script>alert(1)</script>&"\'<b>\x00\x1b\ud800'
ROUNDED = 0.0051  # mm, coordinates are written to 0.01
MAIN_SIZES = {
    ShoulderScrew: ("shoulder_diameter", "shoulder_length", "head_diameter", "head_height"),
    SleeveBushing: ("free_bore", "outside_diameter", "length"), BallBearing: ("bore", "outside_diameter", "width"),
    Spacer: ("hole", "outside_diameter", "length"), Washer: ("hole", "outside_diameter", "thickness"),
    Nut: ("across_flats", "height"),
}
ELEMENTS = {"svg", "g", "path", "circle", "text", "tspan", "title", "desc", "defs", "pattern"}
PHONE, SMALLEST = 340, 10  # CSS pixels: width of a drawing on a phone, least letter height there


@cache
def course():
    return read_course(ROOT)


@cache
def joints():
    """One joint of every kind the demo has, the most crowded of each; every tenth of the grid; the named ones."""
    kinds, grid = {}, sorted(expand(course())[0], key=lambda j: j.id)
    for joint in grid:
        straddles = joint.overhang is not None and joint.overhang < 0
        kind = (joint.layout, joint.rings, joint.single, straddles, joint.body, tuple(b.id for b in joint.bearings))
        kinds.setdefault(kind, joint)
        kinds[kind] = max(kinds[kind], joint, key=lambda j: (len(j.stack_ids or ()), j.shaft.shoulder_length.typical))
    named = [make_joint(course(), raw, id) for id, raw in course().joints.items()]
    return {joint.id: joint for joint in [*named, *kinds.values(), *grid[::10]]}


@cache
def results():
    found = {id: evaluate(joint, course()) for id, joint in joints().items()}
    return {id: result for id, result in found.items() if result.stack is not None}


@cache
def drawn():
    return {id: read(section(result)) for id, result in results().items()}


def read(text):
    """The drawing as a tree; fails when it is not well-formed XML."""
    return ElementTree.fromstring(text.replace("<svg ", f'<svg xmlns="{NS[1:-1]}" ', 1))


def points(data):
    """Where the strokes of path data end (M L H V A C Z and their relative forms)."""
    x = y = 0.0
    for letter, numbers in re.findall(r"([A-Za-z])([^A-Za-z]*)", data):
        values = [float(n) for n in re.findall(r"-?(?:\d+\.?\d*|\.\d+)", numbers)]
        size = {"M": 2, "L": 2, "H": 1, "V": 1, "A": 7, "C": 6, "Z": 0}[letter.upper()]
        assert (len(values) % size if size else len(values)) == 0, data
        for k in range(0, len(values), size or 1):
            *_, last = step = values[k:k + size]
            from_x, from_y = (x, y) if letter.islower() else (0, 0)
            if letter in "Hh":
                x = from_x + last
            elif letter in "Vv":
                y = from_y + last
            else:
                x, y = from_x + step[-2], from_y + last
            yield x, y


def extent(element):
    """(least x, greatest x) of every shape in an element."""
    found = [x for path in element.iter(f"{NS}path") for x, _ in points(path.get("d"))]
    return min(found), max(found)


@cache
def advances(bold):
    """Letter widths of DejaVu Sans, one of the widest faces a browser falls back to."""
    name = "DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"
    font = TTFont(Path(matplotlib.get_data_path()) / "fonts" / "ttf" / name)
    widths, map_ = font["hmtx"], font.getBestCmap()
    return {chr(code): widths[glyph][0] / font["head"].unitsPerEm for code, glyph in map_.items()}


def boxes(svg):
    """(words, left, top, right, bottom) of every line of lettering at its largest, from the font's own widths."""
    em = float(svg.find(f"{NS}g").get("font-size"))
    parents = {child: parent for parent in svg.iter() for child in parent}
    for text in svg.iter(f"{NS}text"):
        group = parents[text]
        x, y = float(text.get("x")), float(text.get("y"))
        y += em * float((text.get("dy") or "0").removesuffix("em"))
        lines = [(text.text, y)]
        for line in text.iter(f"{NS}tspan"):
            y += em * float(line.get("dy").removesuffix("em"))
            lines.append((line.text, y))
        for words, base in lines:
            wide = em * sum(advances(group.get("class") == "force-text").get(letter, 1.0) for letter in words)
            left = x - wide * {"start": 0, "middle": 0.5, "end": 1}[group.get("text-anchor")]
            yield words, left, base - 0.74 * em, left + wide, base + 0.02 * em  # figures and capitals: no descender


def view_box(svg):
    left, top, wide, high = map(float, svg.get("viewBox").split())
    return left, top, left + wide, top + high


def parts():
    return [part for _, part in sorted(course().parts.items())]


def all_drawings():
    yield from drawn().items()
    for part in parts():
        yield part.id, read(part_drawing(part))
        yield f"{part.id} at life size", read(life_size(part))
    yield "strip", read(kit_strip(parts()))


def test_demo_has_every_kind_of_joint():
    """What follows is only worth something when it has seen them all."""
    seen = {(r.joint.layout, "clamped" * r.joint.clamped, "single" * r.joint.single, "straddle" * r.joint.straddle)
            for r in results().values()}
    assert {("A", "", "", ""), ("A", "clamped", "", ""), ("A", "", "single", ""), ("A", "", "", "straddle"),
            ("B", "", "", ""), ("B", "clamped", "", ""), ("B", "", "", "straddle"), ("C", "", "", "straddle")} <= seen
    assert {r.joint.body for r in results().values()} == {"plates", "block"}
    assert max(len(r.stack.placed) for r in results().values()) > 18
    assert len(results()) >= 50
    assert max(r.stack.shoulder for r in results().values()) >= 50
    assert any(p.kind == "shim" for r in results().values() for p in r.stack.placed)


def test_faces_lie_where_the_stack_puts_them():
    """Read back from the shapes: every part begins and ends at its z, to the hundredth that is written."""
    for id, result in results().items():
        svg = drawn()[id]
        origin = float(svg.get("data-origin"))
        screw, *groups = [group for group in svg.iter(f"{NS}g") if group.get("data-part")]
        assert [group.get("data-part") for group in groups] == [placed.part for placed in result.stack.placed]
        for group, placed in zip(groups, result.stack.placed):
            low, high = extent(group)
            if placed.kind == "body":
                low, high = min(low, bearing_ends(result)[0]), max(high, bearing_ends(result)[1])
            assert low - origin == pytest.approx(placed.z_from, abs=ROUNDED), placed
            assert high - origin == pytest.approx(placed.z_to, abs=ROUNDED), placed
            assert float(group.get("data-from")) == pytest.approx(placed.z_from, abs=ROUNDED)
            assert float(group.get("data-to")) == pytest.approx(placed.z_to, abs=ROUNDED)
        plates = [group for group in svg.iter(f"{NS}g") if group.get("data-plate")]
        assert len(plates) == len(result.stack.plates)
        for group, plate in zip(plates, result.stack.plates):
            assert extent(group) == pytest.approx((plate.z_from + origin, plate.z_to + origin), abs=ROUNDED)
        head = result.joint.shaft.head_height.typical
        assert extent(screw) == pytest.approx((origin - head, origin + result.stack.thread_end), abs=ROUNDED)


def bearing_ends(result):
    """A body reaches from the outermost face of its bearings or plates to the other."""
    bearings = [placed for placed in result.stack.placed if placed.kind == "bearing"]
    return bearings[0].z_from, bearings[-1].z_to


def test_rings_have_their_diameters():
    """Washers, spacers, rings, shims and bearings are as wide as they are, above and below the axis."""
    for id, result in results().items():
        groups = [group for group in drawn()[id].iter(f"{NS}g") if group.get("data-part")][1:]
        for group, placed in zip(groups, result.stack.placed):
            if placed.kind in ("washer", "spacer", "ring", "shim", "bearing"):
                radii = [y for path in group.iter(f"{NS}path") for _, y in points(path.get("d"))]
                assert max(radii) == pytest.approx(placed.outside / 2, abs=ROUNDED)
                assert min(radii) == pytest.approx(-placed.outside / 2, abs=ROUNDED)
                assert min(map(abs, radii)) == pytest.approx(placed.hole / 2, abs=ROUNDED)


def test_force_arrows_point_the_true_way():
    """Load and reactions stand at their planes; a positive reaction points against the load."""
    for id, result in results().items():
        svg = drawn()[id]
        heads = next(path for path in svg.iter(f"{NS}path") if path.get("class") == "head force-head").get("d")
        tips = [[float(n) for n in re.findall(r"-?[\d.]+", head)] for head in heads.split("Z") if head]
        forces = [(result.stack.z_load, 1.0)]
        for n, z in enumerate(result.stack.z_bearings, 1):
            size = result.quantities[f"reaction_{n}"].typical
            if abs(size) > 0.02 * result.joint.radial:
                forces.append((z, -size))
        for z, force in forces:
            along = [tip for tip in tips if tip[0] == pytest.approx(z, abs=ROUNDED)]
            assert any((tip[1] - tip[3]) * force > 0 for tip in along), (id, z, force)


def test_part_numbers_follow_the_stack():
    """Every number from 1 to the last is there, in the order met from the head."""
    for id, result in results().items():
        svg, placed = drawn()[id], result.stack.placed
        balloons = next(group for group in svg.iter(f"{NS}g") if group.get("class") == "balloon")
        found = [(float(text.get("x")), int(text.text)) for text in balloons.iter(f"{NS}text")]
        assert {n for _, n in found} == set(range(1, len(placed) + 1))
        body = next(n for n, row in enumerate(placed, 1) if row.kind == "body")
        order = [n for _, n in sorted(found)]
        order = order[: order.index(body) + 1] + [n for n in order[order.index(body) + 1:] if n != body]
        assert order == list(range(1, len(placed) + 1))
        rings = [(float(c.get("cx")), float(c.get("cy")), float(c.get("r"))) for c in balloons.iter(f"{NS}circle")]
        for k, (x, y, r) in enumerate(rings):
            assert all((x - a) ** 2 + (y - b) ** 2 > (r + s) ** 2 for a, b, s in rings[:k])


def check_lettering(id, svg):
    """No words are clipped or cover other words, by the widths of a wide face that browsers use."""
    left, top, right, bottom = view_box(svg)
    words = list(boxes(svg))
    assert words, id
    for k, (text, *box) in enumerate(words):
        assert left <= box[0] and top <= box[1] and box[2] <= right and box[3] <= bottom, (id, text)
        for other, *beside in words[:k]:
            apart = box[2] <= beside[0] or beside[2] <= box[0] or box[3] <= beside[1] or beside[3] <= box[1]
            assert apart, (id, text, other)


def test_lettering_stays_inside_and_apart():
    """Every word of every drawing can be read."""
    for id, svg in all_drawings():
        check_lettering(id, svg)


def test_shapes_stay_inside():
    """Nothing drawn is clipped."""
    for id, svg in all_drawings():
        left, top, right, bottom = view_box(svg)
        patterns = {path for pattern in svg.iter(f"{NS}pattern") for path in pattern.iter(f"{NS}path")}
        for path in set(svg.iter(f"{NS}path")) - patterns:
            for x, y in points(path.get("d")):
                assert left <= x <= right and top <= y <= bottom, (id, path.get("class"))


def test_lettering_can_be_read_on_a_phone():
    """At least 10 px high when the drawing is as wide as a phone; common practice."""
    for id, svg in [*drawn().items(), *((part.id, read(part_drawing(part))) for part in parts())]:
        left, _, right, _ = view_box(svg)
        assert float(svg.find(f"{NS}g").get("font-size")) / (right - left) * PHONE >= SMALLEST, id


def test_drawings_are_small():
    """A page has room for them: sections under 16 kB, most under 10, parts under 4, their outlines under 2."""
    sizes = sorted(len(section(result).encode()) for result in results().values())
    assert sizes[-1] < 16_000 and sizes[len(sizes) // 2] < 10_500
    assert max(len(part_drawing(part).encode()) for part in parts()) < 4_000
    assert max(len(life_size(part).encode()) for part in parts()) < 2_200
    assert max(len(small_outline(part).encode()) for part in parts()) < 1_200


def test_looks_come_from_the_style_sheet():
    """No style attributes or scripts, no colours; every class used is described."""
    classes = set()
    for id, svg in all_drawings():
        for element in svg.iter():
            assert not {"style", "stroke", "color", "href"} & set(element.attrib), id
            assert element.get("fill", "url(#").startswith("url(#"), id
            assert element.tag.removeprefix(NS) in ELEMENTS
            classes |= set(element.get("class", "").split())
    unstyled = {"strip", "label", "dim-text", "dim-head", "drawing"}
    assert {name for name in classes if not re.search(rf"\.{name}\b", DRAWING_CSS)} <= unstyled


def test_two_drawings_stand_on_one_page():
    """Ids begin with the prefix, none comes twice, and every reference finds its own drawing."""
    result = next(iter(results().values()))
    seen = set()
    for text in (section(result, "one"), section(result, "two"), part_drawing(parts()[0], "three"),
                 kit_strip(parts(), "four"), life_size(parts()[0], "five")):
        svg = read(text)
        ids = [element.get("id") for element in svg.iter() if element.get("id")]
        assert len(ids) == len(set(ids)) and not seen & set(ids)
        assert len({id.split("-")[0] for id in ids}) == 1
        wanted = set(re.findall(r"url\(#([^)]+)\)", text)) | set(svg.get("aria-labelledby").split())
        assert wanted <= set(ids)
        seen |= set(ids)


def test_words_say_what_the_figure_says():
    """The text alternative names every part in order, the distances, the load and both reactions."""
    result = results()["vent-louvre-crank"]
    svg = drawn()["vent-louvre-crank"]
    assert svg.get("role") == "img" and result.joint.title in svg.find(f"{NS}title").text
    said = svg.find(f"{NS}desc").text
    at = [said.index(f"{n} {placed.name}") for n, placed in enumerate(result.stack.placed, 1)]
    assert at == sorted(at)
    assert f"{result.joint.separation:g} mm apart" in said
    assert "45 N (30 N times 1.5 for shock)" in said
    assert f"Bearing 1 pushes with {newtons(result.quantities['reaction_1'].typical)} along with the load" in said
    assert f"Bearing 2 pushes with {newtons(result.quantities['reaction_2'].typical)} against the load" in said
    shown = {text.text for text in svg.iter(f"{NS}text")}
    assert {f"S {result.joint.separation:g} mm", "F 45 N", "gap"} <= shown


def test_names_cannot_break_out():
    """A part or joint may be called anything: it stays words."""
    result = next(iter(results().values()))
    placed = tuple(replace(row, part=HOSTILE, name=HOSTILE) for row in result.stack.placed)
    shaft = result.joint.shaft.model_copy(update={"id": HOSTILE, "name": HOSTILE})
    joint = replace(result.joint, title=HOSTILE, shaft=shaft)
    text = section(replace(result, joint=joint, stack=replace(result.stack, placed=placed)), 'x"><script>')
    svg = read(text)
    assert "<script" not in text and "\x00" not in text and "<b>" not in text
    kept = HOSTILE.replace("\x00", "").replace("\x1b", "").replace("\ud800", "")
    assert kept in svg.find(f"{NS}title").text
    assert kept in {group.get("data-part") for group in svg.iter(f"{NS}g")}
    text.encode("utf-8")
    for part in parts():
        for drawing in (part_drawing, life_size):
            read(drawing(part.model_copy(update={"name": HOSTILE}), '"'))


def test_what_cannot_be_built_has_no_section():
    """No stack, no drawing; and no reactions, no reaction arrows."""
    result = results()["vent-louvre-crank"]
    assert section(replace(result, stack=None)) == ""
    bare = [text.text for text in read(section(replace(result, quantities={}))).iter(f"{NS}text")]
    assert "F 45 N" in bare and not [text for text in bare if text.startswith("R")]


@pytest.mark.parametrize("sizes", [(1e-9, 1e9), (0.0, 0.0), (-123456.0, 3.3333)])
def test_odd_forces_still_fit(sizes):
    """Very large, very small and absent reactions keep the lettering apart and inside."""
    result = results()["vent-louvre-crank"]
    named = {f"reaction_{n}": Quantity("N", value=size) for n, size in enumerate(sizes, 1)}
    check_lettering(sizes, read(section(replace(result, quantities=named))))


def test_part_drawings_carry_both_units():
    """Main sizes stand beside the part in millimetres and inches, in the figure and in words."""
    for part in parts():
        svg = read(part_drawing(part))
        words = " ".join(" ".join(text.itertext()) for text in svg.iter(f"{NS}text"))
        desc = svg.find(f"{NS}desc").text
        for name in MAIN_SIZES[type(part)]:
            size = getattr(part, name).typical
            for shown in (words, desc):
                assert f"{size:.2f} mm" in shown and f"{size / 25.4:.3f} in" in shown, (part.id, name)
        if isinstance(part, (ShoulderScrew, Nut)):
            assert part.thread in words


def test_the_unit_of_the_course_stands_in_front():
    """In the figure and in words, on every part."""
    for part in parts():
        for first in ("mm", "in"):
            svg = read(part_drawing(part, first=first))
            said = [" ".join(text.itertext()) for text in svg.iter(f"{NS}text")] 
            said.append(svg.find(f"{NS}desc").text.partition("to scale:")[2])
            both = [text for text in said if re.search(r"[\d.]+ mm", text) and re.search(r"[\d.]+ in", text)]
            assert both
            for text in both:
                places = [text.index(f" {unit}") for unit in ("mm", "in")]
                assert (places[0] < places[1]) is (first == "mm"), (part.id, text)


ALONG = {ShoulderScrew: "shoulder_length", SleeveBushing: "length", BallBearing: "width", Spacer: "length",
         Washer: "thickness", Nut: "height"}
HOLE = {SleeveBushing: "free_bore", BallBearing: "bore", Spacer: "hole", Washer: "hole"}
CIRCLE = re.compile(r"M([-.\d]+) ([-.\d]+)a([.\d]+) [.\d]+ 0 0 0 [.\d]+ 0a")


def view(svg, name):
    """The group of one view."""
    (group,) = [group for group in svg.iter(f"{NS}g") if group.get("data-view") == name]
    return group


def circles(group):
    """(x, y, radius) of every circle of a view."""
    found = []
    for path in group.iter(f"{NS}path"):
        for x, y, radius in CIRCLE.findall(path.get("d")):
            found.append((float(x) + float(radius), float(y), float(radius)))
    return found


def across(part):
    """Diameter of a part, of a nut its size across flats."""
    name = {ShoulderScrew: "head_diameter", Nut: "across_flats"}.get(type(part), "outside_diameter")
    return getattr(part, name).typical


def test_every_side_view_measures_what_the_data_say():
    """Length and greatest diameter of each part, cut or from outside, read back from its outline."""
    for part in parts():
        long = getattr(part, ALONG[type(part)]).typical
        if isinstance(part, ShoulderScrew):
            long += part.head_height.typical + part.thread_length
        wide = across(part) / (0.8660254 if isinstance(part, Nut) else 1)
        for drawing in (part_drawing, life_size):
            found = [p for path in view(read(drawing(part)), "side").iter(f"{NS}path") for p in points(path.get("d"))]
            xs, ys = zip(*found)
            assert max(xs) - min(xs) == pytest.approx(long, abs=2 * ROUNDED), part.id
            assert max(ys) - min(ys) == pytest.approx(wide, abs=2 * ROUNDED), part.id


def test_every_end_view_measures_what_the_data_say():
    """Outside, hole, lands, balls, socket and hexagon, read back from circles and corners."""
    for part in parts():
        for drawing in (part_drawing, life_size):
            group = view(read(drawing(part)), "end")
            rings = circles(group)
            radii = [radius for *_, radius in rings]
            corners = [p for path in group.iter(f"{NS}path") for piece in re.findall(r"M[^Ma]+Z", path.get("d"))
                       for p in points(piece)]
            x, y, _ = max(rings, key=lambda ring: ring[2])
            if isinstance(part, (ShoulderScrew, Nut)):
                flats = part.socket if isinstance(part, ShoulderScrew) else part.across_flats.typical
                assert len(corners) == 6
                middle = [sum(place) / 6 for place in zip(*corners)]
                assert middle == pytest.approx((x, y), abs=0.011)
                for corner in corners:
                    assert dist(corner, middle) == pytest.approx(flats / 3**0.5, abs=0.01)
                assert max(a for a, _ in corners) - min(a for a, _ in corners) == pytest.approx(flats, abs=0.011)
            if not isinstance(part, Nut):
                assert max(radii) == pytest.approx(across(part) / 2, abs=ROUNDED), part.id
            if type(part) in HOLE:
                assert min(radii) == pytest.approx(getattr(part, HOLE[type(part)]).typical / 2, abs=ROUNDED)
            if isinstance(part, Nut):
                drill = thread(part.thread).diameter - 1.0825 * thread(part.thread).pitch  # ISO 68-1
                assert min(radii) == pytest.approx(drill / 2, abs=ROUNDED)
            if isinstance(part, BallBearing):
                for land in (part.inner_land, part.outer_land):
                    assert any(radius == pytest.approx(land / 2, abs=ROUNDED) for radius in radii)
            assert all(ring[:2] == pytest.approx((x, y), abs=0.011) for ring in rings)


def test_an_open_bearing_shows_its_balls():
    """As many as there are, on their circle, side by side."""
    bearing = next(part for part in parts() if isinstance(part, BallBearing)).model_copy(update={"closure": "open"})
    rings = circles(view(read(part_drawing(bearing)), "end"))
    x, y, _ = max(rings, key=lambda ring: ring[2])
    balls = [ring for ring in rings if ring[2] == pytest.approx(bearing.ball_diameter / 2, abs=ROUNDED)]
    assert len(balls) == bearing.balls
    for a, b, _ in balls:
        assert dist((a, b), (x, y)) == pytest.approx(bearing.pitch_diameter / 2, abs=0.02)


def test_the_arrangement_is_the_one_its_symbol_states():
    """First angle: what is seen from the left, a screw's socket, stands on the right; so does the symbol's cone."""
    for part in parts():
        svg = read(part_drawing(part))
        side, end = view(svg, "side"), view(svg, "end")
        right = max(x for path in side.iter(f"{NS}path") for x, _ in points(path.get("d")))
        assert min(x - radius for x, _, radius in circles(end)) > right, part.id
        if isinstance(part, ShoulderScrew):
            widest = [x for path in side.iter(f"{NS}path") for x, y in points(path.get("d"))
                      if abs(y) > part.shoulder_diameter.typical / 2 + 0.1]
            assert max(widest) == pytest.approx(0, abs=ROUNDED)  # the head is the left end
        (symbol,) = [group for group in svg.iter(f"{NS}g") if group.get("data-symbol") == "first-angle"]
        data = symbol.find(f"{NS}path").get("d")
        cone = list(points(re.match(r"[^Z]*Z", data)[0]))
        heights = [max(y for x, y in cone if x == edge) - min(y for x, y in cone if x == edge)
                   for edge in (min(x for x, _ in cone), max(x for x, _ in cone))]
        assert heights[0] < heights[1]
        rings = circles(symbol)
        assert sorted(2 * radius for *_, radius in rings) == pytest.approx(heights, abs=0.03)
        assert min(x - radius for x, _, radius in rings) > max(x for x, _ in cone)
        assert "first-angle" in svg.find(f"{NS}desc").text


def test_outlines_are_at_life_size():
    """A unit of the drawing is a millimetre of the page; the bars are as long as they say."""
    for part in parts():
        for text in (life_size(part), small_outline(part)):
            svg = read(text)
            left, top, right, bottom = view_box(svg)
            assert svg.get("width") == f"{number(right - left)}mm" and svg.get("height") == f"{number(bottom - top)}mm"
        svg = read(life_size(part))
        bars = next(path for path in svg.findall(f"{NS}g/{NS}path") if path.get("class") == "thick").get("d")
        lines = [list(points(line)) for line in re.findall(r"M[^M]+", bars)]
        lengths = [abs(b[0] - a[0]) + abs(b[1] - a[1]) for a, b in lines]
        across_, upright = lines[lengths.index(max(lengths))], sorted(lines, key=lambda l: abs(l[1][1] - l[0][1]))[-1]
        assert across_[1][0] - across_[0][0] == pytest.approx(50, abs=0.01) and across_[0][1] == across_[1][1]
        assert upright[1][1] - upright[0][1] == pytest.approx(25.4, abs=0.01) and upright[0][0] == upright[1][0]
        shown = {text.text for text in svg.iter(f"{NS}text")}
        assert shown == {"50 mm", "1 in"}
        assert right - left < 125  # mm: the longest shoulder screw of the catalogue
        assert 'aria-hidden="true"' in small_outline(part) and "<title" not in small_outline(part)


def test_a_nut_and_a_screw_measure_up():
    """Across corners is across flats over cos 30 degrees; the thread's crests lie on its nominal diameter."""
    nut = next(part for part in parts() if isinstance(part, Nut))
    heights = [y for path in read(part_drawing(nut)).iter(f"{NS}path") if path.get("class") in ("solid", "cut")
               for _, y in points(path.get("d"))]
    assert max(heights) == pytest.approx(nut.across_flats.typical / 2 / 0.8660254, abs=ROUNDED)
    screw = next(part for part in parts() if isinstance(part, ShoulderScrew))
    solid = next(path for path in read(part_drawing(screw)).iter(f"{NS}path") if path.get("class") == "solid")
    radii = {round(abs(y), 2) for _, y in points(solid.get("d"))}
    for size in (thread(screw.thread).diameter, screw.shoulder_diameter.typical, screw.head_diameter.typical,
                 screw.neck_diameter.typical):
        assert any(radius == pytest.approx(size / 2, abs=ROUNDED) for radius in radii)


def test_a_strip_has_one_scale():
    """Every part of a strip is as long as it is, one after another without touching."""
    chosen = parts()
    svg = read(kit_strip(chosen))
    assert [text.text for text in svg.iter(f"{NS}text")] == [str(n) for n in range(1, len(chosen) + 1)]
    groups = [group for group in svg.iter(f"{NS}g") if group.get("data-part")]
    assert [group.get("data-part") for group in groups] == [part.id for part in chosen]
    ends = [extent(group) for group in groups]
    for part, (low, high) in zip(chosen, ends):
        last = {ShoulderScrew: "head_height", SleeveBushing: "length", BallBearing: "width", Spacer: "length",
                Washer: "thickness", Nut: "height"}[type(part)]
        long = getattr(part, last).typical
        if isinstance(part, ShoulderScrew):
            long += part.shoulder_length.typical + part.thread_length
        assert high - low == pytest.approx(long, abs=2 * ROUNDED), part.id
    assert all(high < low for (_, high), (low, _) in zip(ends, ends[1:]))
    assert kit_strip([]) == ""


def test_parts_of_another_kind_are_refused():
    """A sheet of plywood has no part drawing."""
    with pytest.raises(TypeError):
        part_drawing(next(iter(course().stocks.values())))


@given(st.floats(-1e5, 1e5))
def test_numbers_are_short_and_true(value):
    """Two decimals at most, no needless sign or zero, never more than half a hundredth off."""
    text = number(value)
    assert float(text) == pytest.approx(value, abs=ROUNDED)
    assert not re.search(r"^-?0\.|\.\d\d\d|\.$|\.\d*0$|^-0$|e", text)


@given(st.lists(st.tuples(st.floats(-50, 50), st.floats(0.5, 8)), min_size=1, max_size=25), st.floats(0, 1))
def test_numbers_above_a_drawing_stand_apart_and_in_order(things, gap):
    """Spread keeps order, keeps apart, stays within its room where it can, and moves nothing that has room."""
    things.sort()
    wanted, widths = zip(*things)
    middles = spread(wanted, widths, gap, -60, 60)
    for (a, wide), (b, beside) in zip(zip(middles, widths), zip(middles[1:], widths[1:])):
        assert b - a >= (wide + beside) / 2 + gap - 1e-6
    if sum(widths) + gap * len(widths) <= 120:
        assert middles[0] - widths[0] / 2 >= -60 - 1e-6 and middles[-1] + widths[-1] / 2 <= 60 + 1e-6
    if all(b - a >= (v + w) / 2 + gap for (a, v), (b, w) in zip(things, things[1:])):
        assert middles == pytest.approx(wanted, abs=1e-6)
