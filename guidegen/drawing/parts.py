"""Drawings of single parts for a person who holds one: side view half cut, end view, main sizes."""

from guidegen.drawing import profiles
from guidegen.drawing.end_views import end_view, thread_radii
from guidegen.drawing.part_sizes import dimensions
from guidegen.drawing.projection import SYMBOL_HIGH, SYMBOL_LONG, first_angle
from guidegen.drawing.sizes import across_of, describe, edge_of, length_of, sizes_of
from guidegen.drawing.svg import LETTER, Canvas, Spot, lettered, number, outline
from guidegen.kit.lookup import thread
from guidegen.kit.records import BallBearing, Nut, Part, ShoulderScrew

TALLEST = 13  # a part is drawn at most this many letters high
NARROWEST = 4  # a part in a strip takes at least about this many letter heights
UPPER, LOWER = (-1,), (1,)


def part_drawing(part: Part, prefix: str = "p", first: str = "mm") -> str:
    """A part of the kit as inline SVG, one unit 1 mm; `prefix` begins every id, `first` is the unit in front.

    Two views in first-angle arrangement, which the symbol states: from the side, rings and nuts half cut,
    and from the left beside it.
    """
    guess = max(1.5 * LETTER * length_of(part), across_of(part) / TALLEST)
    canvas = lettered(lambda em: _drawn(part, prefix, em, first), guess, LETTER)
    return canvas.svg("part", part.name, describe(part, first))


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


def _drawn(part, prefix, em, first):
    canvas = Canvas(prefix, em)
    canvas.open_group(view="side")
    _side(part, canvas, 0.0)
    canvas.close_group()
    canvas.line("centre", (canvas.left - 0.6 * em, 0), (canvas.right + 0.6 * em, 0))
    x = dimensions(part, canvas, first)
    end_view(part, canvas, x)
    first_angle(canvas, canvas.right - SYMBOL_LONG * em, canvas.bottom + (SYMBOL_HIGH / 2 + 0.6) * em)
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
    fill, edge = canvas.hatch(1, profiles.FINE), edge_of(part)
    if isinstance(part, BallBearing):
        profiles.ball_bearing(canvas, part, at, end, fill, UPPER)
    else:
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
    major, minor = thread_radii(part)
    profiles.nut(canvas, at, end, flat, LOWER, collar)
    wall = [(at, minor), *profiles.nut_half(at, end, flat, collar), (end, minor)]
    canvas.shape("cut", outline([(x, -r) for x, r in wall]), canvas.hatch(1, profiles.FINE))
    canvas.line("thin", (at, -major), (end, -major))
    canvas.reach(end, -flat * profiles.CORNERS / 2)
    return minor
