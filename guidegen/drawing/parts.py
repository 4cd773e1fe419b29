"""Drawings of single parts for a person who holds one: side view half cut, end view, main sizes."""
from math import cos, pi, sin

from guidegen.drawing import profiles
from guidegen.drawing.annotations import both_units, dimension, upright
from guidegen.drawing.sizes import across_of, describe, length_of, sizes_of
from guidegen.drawing.svg import LETTER, Canvas, Spot, lettered, number, outline
from guidegen.kit.lookup import thread
from guidegen.kit.records import BallBearing, Nut, Part, ShoulderScrew, SleeveBushing

TALLEST = 13  # a part is drawn at most this many letters high
NARROWEST = 4  # a part in a strip takes at least about this many letter heights
UPPER, LOWER = (-1,), (1,)
CORNER = 0.06  # rounding of a ball bearing's rings over its width; schematic
CHAMFERED = 0.97  # chamfer circle of a nut over its size across flats; schematic
ROW = 1.9  # from one dimension line to the next, letter heights


def part_drawing(part: Part, prefix: str = "p") -> str:
    """A part of the kit as inline SVG, one unit 1 mm; `prefix` begins every id."""
    guess = max(1.5 * LETTER * length_of(part), across_of(part) / TALLEST)
    canvas = lettered(lambda em: _drawn(part, prefix, em), guess, LETTER)
    return canvas.svg("part", part.name, describe(part))


def kit_strip(parts, prefix: str = "k") -> str:
    """Side views of several parts in a row, all to the same scale, numbered from 1; "" for none."""
    parts = list(parts)
    if not parts:
        return ""
    share = min(LETTER, 1 / (NARROWEST * len(parts)))
    canvas = lettered(lambda em: _row(parts, prefix, em), share * sum(map(length_of, parts)), share)
    names = "; ".join(f"{n} {part.name}" for n, part in enumerate(parts, 1))
    return canvas.svg("strip", "Parts side by side, to one scale", f"From left to right: {names}.")


def _row(parts, prefix, em):
    canvas, at, base = Canvas(prefix, em), 0.0, max(map(across_of, parts)) / 2 + 1.2 * em
    for n, part in enumerate(parts, 1):
        end = at + length_of(part)
        canvas.open_group(part=part.id, **{"from": number(at), "to": number(end)})
        _side(part, canvas, at + (part.head_height.typical if isinstance(part, ShoulderScrew) else 0))
        canvas.close_group()
        canvas.line("centre", (at - 0.5 * em, 0), (end + 0.5 * em, 0))
        canvas.write(str(n), Spot((at + end) / 2, base))
        at = max(end, at + 1.5 * em) + 1.5 * em
    return canvas


def _drawn(part, prefix, em):
    canvas = Canvas(prefix, em)
    _side(part, canvas, 0.0)
    canvas.line("centre", (canvas.left - 0.6 * em, 0), (canvas.right + 0.6 * em, 0))
    if isinstance(part, ShoulderScrew):
        _screw_sizes(part, canvas)
    elif isinstance(part, Nut):
        _nut_sizes(part, canvas)
    else:
        _ring_sizes(part, canvas)
    return canvas


def _side(part, canvas, at):
    """The side view from x = `at`: above the axis cut, below it from outside; a screw is shown whole."""
    if isinstance(part, ShoulderScrew):
        profiles.screw(canvas, part, thread(part.thread), at)
        return
    inner = _nut_side(part, canvas, at) if isinstance(part, Nut) else _ring_side(part, canvas, at)
    for x in (at, at + length_of(part)):  # the faces, seen through the hole
        canvas.line("thick", (x, 0), (x, -inner))


def _ring_side(part, canvas, at):
    """Draws both halves of a ring; gives the radius of its hole."""
    end, radius, inner = at + length_of(part), across_of(part) / 2, sizes_of(part)[0][1] / 2
    fill = canvas.hatch(1, profiles.FINE)
    if isinstance(part, BallBearing):
        edge = CORNER * length_of(part)
        profiles.ball_bearing(canvas, part, at, end, fill, UPPER)
    else:
        edge = part.chamfer if isinstance(part, SleeveBushing) else 0.0
        profiles.tube(canvas, at, end, 2 * inner, 2 * radius, fill, edge, UPPER)
    rim = [(at, radius - edge), (at + edge, radius), (end - edge, radius), (end, radius - edge)]
    canvas.shape("solid", outline([(at, 0), *rim, (end, 0)]))
    canvas.reach(at, radius)
    if edge:
        canvas.line("thin", (at + edge, 0), (at + edge, radius))
        canvas.line("thin", (end - edge, 0), (end - edge, radius))
    return inner


def _nut_side(part, canvas, at):
    """Draws both halves of a nut; gives the radius of its threaded hole."""
    end, flat, collar = at + part.height.typical, part.across_flats.typical, "locking" in part.kind
    major, minor = _thread_radii(part)
    profiles.nut(canvas, at, end, flat, LOWER, collar)
    wall = [(at, minor), *profiles.nut_half(at, end, flat, collar), (end, minor)]
    canvas.shape("cut", outline([(x, -r) for x, r in wall]), canvas.hatch(1, profiles.FINE))
    canvas.line("thin", (at, -major), (end, -major))
    canvas.reach(end, -flat * profiles.CORNERS / 2)
    return minor


def _thread_radii(nut):
    screw_thread = thread(nut.thread)
    major = screw_thread.diameter / 2
    return major, major - profiles.MINOR * screw_thread.pitch / 2


def _ring_sizes(part, canvas):
    """Sizes and end view of a ring: outside to the left, hole to the right, length below."""
    em, end = canvas.em, length_of(part)
    (_, inner), (_, outer), _ = sizes_of(part)
    left, right = -1.2 * em, end + 1.2 * em
    for y in (-outer / 2, outer / 2):
        canvas.line("dim", (0, y), (left - 0.4 * em, y))
    upright(canvas, left, -outer / 2, outer / 2, "⌀" + both_units(outer, "\n"), "end")
    canvas.line("dim", (end, -inner / 2), (right + 0.4 * em, -inner / 2))
    words = upright(canvas, right, -inner / 2, 0, "⌀" + both_units(inner, "\n"), "start", half=True)
    _length_below(part, canvas)
    x = words.right + em + outer / 2
    rings = [(outer / 2, inner / 2)]
    if isinstance(part, BallBearing):
        rings = [(outer / 2, part.outer_land / 2), (part.inner_land / 2, inner / 2)]
        if part.closure == "open":
            canvas.shape("solid", _balls(part, x))
        elif part.closure == "shields":
            canvas.curve("thin", profiles.circle(x, 0, profiles.shield_edge(part)))
    if isinstance(part, SleeveBushing):
        canvas.curve("thin", profiles.circle(x, 0, outer / 2 - part.chamfer))
    canvas.shape("solid", "".join(profiles.circle(x, 0, radius) for ring in rings for radius in ring))
    _cross(canvas, x, outer / 2)


def _balls(part, x):
    """Path data of the balls seen along the axis."""
    pitch, ball = part.pitch_diameter / 2, part.ball_diameter / 2
    turns = [2 * pi * n / part.balls for n in range(part.balls)]
    return "".join(profiles.circle(x + pitch * sin(turn), -pitch * cos(turn), ball) for turn in turns)


def _nut_sizes(part, canvas):
    """Sizes and end view of a nut: thread to the left, height and size across flats below."""
    em, flat, corner = canvas.em, part.across_flats.typical / 2, across_of(part) / 2
    major, minor = _thread_radii(part)
    canvas.line("dim", (-1.6 * em, -major), (0, -major))
    canvas.head("dim", 0, -major, 1, 0)
    canvas.write(part.thread, Spot(-1.9 * em, 0.35 * em - major, "end"), "dim-text")
    row = _length_below(part, canvas) + ROW * em
    x = length_of(part) + 1.5 * em + corner
    canvas.curve("thick", outline(_hexagon(x, flat)) + profiles.circle(x, 0, minor))
    r = number(major)  # an inside thread is three quarters of a circle, by convention
    three_quarters = f"M{number(x)} -{r}A{r} {r} 0 1 0 {number(x + major)} 0"
    canvas.curve("thin", profiles.circle(x, 0, CHAMFERED * flat) + three_quarters)
    for side in (-flat, flat):
        canvas.line("dim", (x + side, flat / 2), (x + side, row + 0.4 * em))
    dimension(canvas, x - flat, x + flat, row, both_units(2 * flat), ("end", "start"))
    _cross(canvas, x, corner)


def _length_below(part, canvas):
    """The length of a ring or nut below its side view; gives the line it stands on."""
    em, end, radius = canvas.em, length_of(part), across_of(part) / 2
    row = radius + 1.7 * em
    for x in (0, end):
        canvas.line("dim", (x, radius + 0.3 * em), (x, row + 0.4 * em))
    dimension(canvas, 0, end, row, both_units(end))
    return row


def _cross(canvas, x, radius):
    """Centre lines of an end view."""
    far = radius + 0.6 * canvas.em
    canvas.line("centre", (x - far, 0), (x + far, 0))
    canvas.line("centre", (x, -far), (x, far))


def _hexagon(x, flat):
    """Corners of a hexagon about (x, 0), one of them on top; `flat`: half of its size across flats."""
    corner = flat * profiles.CORNERS
    turns = [pi / 6 + n * pi / 3 for n in range(6)]
    return [(x + corner * cos(turn), corner * sin(turn)) for turn in turns]


def _screw_sizes(part, canvas):
    """Sizes and end view of a shoulder screw: diameters to the left and above, lengths below."""
    em, head, high = canvas.em, part.head_diameter.typical / 2, part.head_height.typical
    radius, shoulder = part.shoulder_diameter.typical / 2, part.shoulder_length.typical
    end, beside = shoulder + part.thread_length, -high - 1.2 * em
    for y in (-head, head):
        canvas.line("dim", (-high, y), (beside - 0.4 * em, y))
    upright(canvas, beside, -head, head, "⌀" + both_units(2 * head, "\n"), "end")
    first = head + 1.7 * em
    right, left = ("start", "end"), ("end", "start")
    lengths = (0, shoulder, right), (shoulder, end, left), (-high, 0, right)
    for n, (start, stop, leans) in enumerate(lengths):
        dimension(canvas, start, stop, first + n * ROW * em, both_units(stop - start), leans)
    for x, y, rows in ((-high, head, 2), (0, head, 2), (shoulder, radius, 1), (end, radius, 1)):
        canvas.line("dim", (x, y + 0.3 * em), (x, first + (rows * ROW + 0.4) * em))
    line, major = -head - 0.5 * em, thread(part.thread).diameter / 2
    on_shoulder, on_thread = 0.45 * shoulder, shoulder + 0.7 * part.thread_length
    diameters = (on_shoulder, -radius, "⌀" + both_units(2 * radius)), (on_thread, -major, part.thread)
    for x, y, words in diameters:
        canvas.line("dim", (x, y), (x, line))
        canvas.head("dim", x, y, 0, 1)
        canvas.place(words, [Spot(x, line - 0.3 * em), Spot(x, line - 1.6 * em)], "dim-text")
    x = end + 1.5 * em + head
    canvas.curve("thick", profiles.circle(x, 0, head) + outline(_hexagon(x, part.socket / 2)))
    canvas.curve("thin", profiles.circle(x, 0, (1 - profiles.HEAD_EDGE) * head))
    _cross(canvas, x, head)
    below = [Spot(x, first + drop * em) for drop in (0.2, 1.6)]
    canvas.place("socket\n" + both_units(part.socket, "\n"), below, "dim-text")
