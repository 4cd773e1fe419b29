"""Drawings of single parts for a person who holds one: side view, half of it cut, end view, main sizes."""
from functools import singledispatch
from math import cos, pi, sin

from guidegen.drawing import profiles
from guidegen.drawing.annotations import both_units, dimension, upright
from guidegen.drawing.svg import Canvas, Spot, lettered, outline
from guidegen.kit.lookup import thread
from guidegen.kit.records import BallBearing, Nut, Part, ShoulderScrew, SleeveBushing, Spacer, Washer

LETTER = 0.0305  # letter height over drawing width: 10 px on a phone 340 px wide
TALLEST = 13  # a part is drawn at most this many letters high
UPPER, LOWER = (-1,), (1,)
CORNER = 0.06  # rounding of a ball bearing's rings over its width; schematic


def part_drawing(part: Part, prefix: str = "p") -> str:
    """A part of the kit as inline SVG, one unit 1 mm; `prefix` begins every id."""
    guess = max(1.5 * LETTER * _long(part), _across(part) / TALLEST)
    canvas = lettered(lambda em: _drawn(part, prefix, em), guess, LETTER)
    return canvas.svg("part", part.name, describe(part))


def kit_strip(parts, prefix: str = "k") -> str:
    """Side views of several parts in a row, all to the same scale, numbered from 1."""
    def drawn(em):
        canvas, at = Canvas(prefix, em), 0.0
        low = max(_across(part) for part in parts) / 2 + 1.2 * em
        for n, part in enumerate(parts, 1):
            start = at + (part.head_height.typical if isinstance(part, ShoulderScrew) else 0)
            _side(part, canvas, start)
            middle = at + _long(part) / 2
            canvas.line("centre", (at - 0.5 * em, 0), (at + _long(part) + 0.5 * em, 0))
            canvas.write(str(n), Spot(middle, low))
            at += max(_long(part), 1.5 * em) + 1.5 * em
        return canvas

    parts = list(parts)
    if not parts:
        return ""
    share = min(3 * LETTER, 0.25 / len(parts))  # each takes at least three letter heights
    canvas = lettered(drawn, share * sum(map(_long, parts)), share)
    names = "; ".join(f"{n} {part.name}" for n, part in enumerate(parts, 1))
    return canvas.svg("strip", "Parts side by side, to one scale", f"From left to right: {names}.")


def describe(part: Part) -> str:
    """What the drawing shows, in words."""
    sizes = ", ".join(f"{name} {both_units(size)}" for name, size in _sizes(part))
    return f"Side view and end view of {part.name}, to scale: {sizes}."


@singledispatch
def _sizes(part):
    """(name, mm) of the main sizes."""
    raise TypeError(f"no drawing for {type(part).__name__}")


@_sizes.register
def _(part: ShoulderScrew):
    return [("shoulder diameter", part.shoulder_diameter.typical), ("shoulder length", part.shoulder_length.typical),
            ("thread length", part.thread_length), ("head diameter", part.head_diameter.typical),
            ("head height", part.head_height.typical), ("hexagon socket", part.socket)]


@_sizes.register
def _(part: SleeveBushing):
    return [("bore before pressing", part.free_bore.typical), ("outside diameter", part.outside_diameter.typical),
            ("length", part.length.typical)]


@_sizes.register
def _(part: BallBearing):
    return [("bore", part.bore.typical), ("outside diameter", part.outside_diameter.typical), ("width", part.width.typical)]


@_sizes.register
def _(part: Spacer):
    return [("hole", part.hole.typical), ("outside diameter", part.outside_diameter.typical), ("length", part.length.typical)]


@_sizes.register
def _(part: Washer):
    return [("hole", part.hole.typical), ("outside diameter", part.outside_diameter.typical),
            ("thickness", part.thickness.typical)]


@_sizes.register
def _(part: Nut):
    return [("thread", thread(part.thread).diameter), ("across flats", part.across_flats.typical), ("height", part.height.typical)]


def _long(part):
    """Length along the axis, mm."""
    if isinstance(part, ShoulderScrew):
        return part.head_height.typical + part.shoulder_length.typical + part.thread_length
    return _sizes(part)[2][1]


def _across(part):
    """Greatest distance across the axis, mm."""
    if isinstance(part, ShoulderScrew):
        return part.head_diameter.typical
    return _sizes(part)[1][1] * (profiles.CORNERS if isinstance(part, Nut) else 1)


def _drawn(part, prefix, em):
    canvas = Canvas(prefix, em)
    _side(part, canvas, 0.0)
    canvas.line("centre", (canvas.left - 0.6 * em, 0), (canvas.right + 0.6 * em, 0))
    (_screw_sizes if isinstance(part, ShoulderScrew) else _ring_sizes)(part, canvas)
    return canvas


def _side(part, canvas, at):
    """The side view: above the axis cut, below it from outside; a screw is shown whole."""
    if isinstance(part, ShoulderScrew):
        profiles.screw(canvas, part, thread(part.thread), at)
        return
    long, radius = _long(part), _across(part) / 2
    end, fill = at + long, canvas.hatch(1, profiles.FINE)
    if isinstance(part, Nut):
        _nut_side(part, canvas, at, end, fill)
        return
    inner = _sizes(part)[0][1] / 2
    edge = part.chamfer if isinstance(part, SleeveBushing) else CORNER * long if isinstance(part, BallBearing) else 0
    below = [(at, 0), (at, radius - edge), (at + edge, radius), (end - edge, radius), (end, radius - edge), (end, 0)]
    canvas.shape("solid", outline(below))
    if edge:
        canvas.line("thin", (at + edge, 0), (at + edge, radius))
        canvas.line("thin", (end - edge, 0), (end - edge, radius))
    if isinstance(part, BallBearing):
        profiles.ball_bearing(canvas, part, at, end, fill, UPPER)
    else:
        profiles.tube(canvas, at, end, 2 * inner, 2 * radius, fill, edge, UPPER)
    for x in (at, end):
        canvas.line("thick", (x, 0), (x, -inner))


def _nut_side(part, canvas, at, end, fill):
    screw_thread, flat, collar = thread(part.thread), part.across_flats.typical, "locking" in part.kind
    major = screw_thread.diameter / 2
    minor = major - profiles.MINOR * screw_thread.pitch / 2
    profiles.nut(canvas, at, end, flat, LOWER, collar)
    wall = [(at, minor), *profiles.nut_half(at, end, flat, collar), (end, minor)]
    canvas.shape("cut", outline([(x, -r) for x, r in wall]), fill)
    canvas.line("thin", (at, -major), (end, -major))
    for x in (at, end):
        canvas.line("thick", (x, 0), (x, -minor))
    canvas.reach(end, -flat * profiles.CORNERS / 2)


def _ring_sizes(part, canvas):
    """Sizes and end view of everything that is a ring."""
    em, long, across = canvas.em, _long(part), _across(part)
    (_, inner), (_, outer), _ = _sizes(part)
    row = across / 2 + 1.7 * em
    if isinstance(part, Nut):
        right = long + 0.5 * em
        canvas.line("dim", (-1.6 * em, -inner / 2), (0, -inner / 2))
        canvas.head("dim", 0, -inner / 2, 1, 0)
        canvas.write(part.thread, Spot(-1.9 * em, 0.35 * em - inner / 2, "end"), "dim-text")
    else:
        left, right = -1.2 * em, long + 1.2 * em
        for y in (-outer / 2, outer / 2):
            canvas.line("dim", (0, y), (left - 0.4 * em, y))
        upright(canvas, left, -outer / 2, outer / 2, f"⌀{both_units(outer, chr(10))}", "end")
        canvas.line("dim", (long, -inner / 2), (right + 0.4 * em, -inner / 2))
        right = upright(canvas, right, -inner / 2, 0, f"⌀{both_units(inner, chr(10))}", "start", half=True).right
    middle = right + em + across / 2
    for x in (0, long):
        canvas.line("dim", (x, across / 2 + 0.3 * em), (x, row + 0.4 * em))
    dimension(canvas, 0, long, row, both_units(long), ("start", "end"))
    _end_view(part, canvas, middle)
    canvas.reach(middle + across / 2, across / 2)
    if isinstance(part, Nut):
        row += 1.9 * em
        for x in (middle - outer / 2, middle + outer / 2):
            canvas.line("dim", (x, outer / 4), (x, row + 0.4 * em))
        dimension(canvas, middle - outer / 2, middle + outer / 2, row, both_units(outer), ("end", "start"))


def _end_view(part, canvas, x):
    """The part seen along its axis."""
    em, (inner, outer) = canvas.em, (size / 2 for _, size in _sizes(part)[:2])
    if isinstance(part, Nut):
        screw_thread, flat = thread(part.thread), outer
        canvas.curve("thick", outline(hexagon(x, flat, pi / 6)))
        canvas.curve("thin", profiles.circle(x, 0, 0.97 * flat))
        canvas.curve("thick", profiles.circle(x, 0, inner - profiles.MINOR * screw_thread.pitch / 2))
        canvas.curve("thin", f"M{x:.2f} {-inner:.2f}A{inner:.2f} {inner:.2f} 0 1 0 {x + inner:.2f} 0")  # three quarters
        outer = flat * profiles.CORNERS
    else:
        rings = [(outer, inner)]
        if isinstance(part, BallBearing):
            rings = [(outer, part.outer_land / 2), (part.inner_land / 2, inner)]
            if part.closure == "open":
                turns = [2 * pi * n / part.balls for n in range(part.balls)]
                pitch = part.pitch_diameter / 2
                canvas.shape("solid", "".join(profiles.circle(x + pitch * sin(a), -pitch * cos(a), part.ball_diameter / 2)
                                              for a in turns))
        canvas.shape("solid", "".join(profiles.circle(x, 0, radius) for ring in rings for radius in ring))
        if isinstance(part, BallBearing) and part.closure == "shields":
            canvas.curve("thin", profiles.circle(x, 0, profiles.shield_edge(part)))
        if isinstance(part, SleeveBushing):
            canvas.curve("thin", profiles.circle(x, 0, outer - part.chamfer))
    canvas.line("centre", (x - outer - 0.6 * em, 0), (x + outer + 0.6 * em, 0))
    canvas.line("centre", (x, -outer - 0.6 * em), (x, outer + 0.6 * em))


def hexagon(x, flat, turned=0.0):
    """Corners of a hexagon about (x, 0), `flat` half of its size across flats."""
    return [(x + flat * profiles.CORNERS * cos(turned + n * pi / 3), flat * profiles.CORNERS * sin(turned + n * pi / 3))
            for n in range(6)]


def _screw_sizes(part, canvas):
    """Sizes and end view of a shoulder screw."""
    em = canvas.em
    head, high, shoulder = part.head_diameter.typical / 2, part.head_height.typical, part.shoulder_length.typical
    end, radius = shoulder + part.thread_length, part.shoulder_diameter.typical / 2
    left = -high - 1.2 * em
    for y in (-head, head):
        canvas.line("dim", (-high, y), (left - 0.4 * em, y))
    upright(canvas, left, -head, head, f"⌀{both_units(2 * head, chr(10))}", "end")
    first = head + 1.7 * em
    for n, (start, stop, leans) in enumerate(((0, shoulder, ("start", "end")), (shoulder, end, ("end", "start")),
                                              (-high, 0, ("start", "end")))):
        dimension(canvas, start, stop, first + 1.9 * em * n, both_units(stop - start), leans)
    for x, y, rows in ((-high, head, 2), (0, head, 2), (shoulder, radius, 1), (end, radius, 1)):
        canvas.line("dim", (x, y + 0.3 * em), (x, first + (1.9 * rows + 0.4) * em))
    line = -head - 0.5 * em
    for x, y, words in ((0.45 * shoulder, -radius, f"⌀{both_units(2 * radius)}"),
                        (shoulder + 0.7 * part.thread_length, -thread(part.thread).diameter / 2, part.thread)):
        canvas.line("dim", (x, y), (x, line))
        canvas.head("dim", x, y, 0, 1)
        canvas.place(words, [Spot(x, line - 0.3 * em), Spot(x, line - 1.6 * em)], "dim-text")
    middle = end + 1.5 * em + head
    canvas.curve("thick", profiles.circle(middle, 0, head) + outline(hexagon(middle, part.socket / 2, pi / 6)))
    canvas.curve("thin", profiles.circle(middle, 0, (1 - profiles.HEAD_EDGE) * head))
    canvas.line("centre", (middle - head - 0.6 * em, 0), (middle + head + 0.6 * em, 0))
    canvas.line("centre", (middle, -head - 0.6 * em), (middle, head + 0.6 * em))
    canvas.reach(middle + head, head)
    words = f"socket\n{both_units(part.socket, chr(10))}"
    canvas.place(words, [Spot(middle, first + 0.2 * em), Spot(middle, first + 2 * em)], "dim-text")
