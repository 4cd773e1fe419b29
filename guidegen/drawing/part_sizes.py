"""Dimension lines of a single part's drawing, and where its end view finds room."""

from functools import singledispatch

from guidegen.drawing.annotations import both_units, dimension, upright
from guidegen.drawing.end_views import thread_radii
from guidegen.drawing.sizes import across_of, length_of, sizes_of
from guidegen.drawing.svg import Canvas, Spot
from guidegen.kit.lookup import thread
from guidegen.kit.records import Nut, ShoulderScrew

ROW = 1.9  # from one dimension line to the next, letter heights


@singledispatch
def dimensions(part, canvas: Canvas, first: str) -> float:
    """Draws the sizes round a side view that begins at x = 0; gives the x of the end view's middle.

    Of a ring: outside to the left, hole to the right, length below.
    """
    em, end = canvas.em, length_of(part)
    (_, inner), (_, outer), _ = sizes_of(part)
    left, right = -1.2 * em, end + 1.2 * em
    for y in (-outer / 2, outer / 2):
        canvas.line("dim", (0, y), (left - 0.4 * em, y))
    upright(canvas, left, -outer / 2, outer / 2, "⌀" + both_units(outer, "\n", first), "end")
    canvas.line("dim", (end, -inner / 2), (right + 0.4 * em, -inner / 2))
    words = upright(canvas, right, -inner / 2, 0, "⌀" + both_units(inner, "\n", first), "start", half=True)
    _length_below(part, canvas, first)
    return words.right + em + outer / 2


@dimensions.register
def _(part: Nut, canvas, first):
    """Thread to the left, height below, size across flats below the end view."""
    em, flat, corner = canvas.em, part.across_flats.typical / 2, across_of(part) / 2
    major, _ = thread_radii(part)
    canvas.line("dim", (-1.6 * em, -major), (0, -major))
    canvas.head("dim", 0, -major, 1, 0)
    canvas.write(part.thread, Spot(-1.9 * em, 0.35 * em - major, "end"), "dim-text")
    row = _length_below(part, canvas, first) + ROW * em
    x = length_of(part) + 1.5 * em + corner
    for side in (-flat, flat):
        canvas.line("dim", (x + side, flat / 2), (x + side, row + 0.4 * em))
    dimension(canvas, x - flat, x + flat, row, both_units(2 * flat, first=first), ("end", "start"))
    return x


@dimensions.register
def _(part: ShoulderScrew, canvas, first):
    """Head to the left, diameters above, lengths below, socket below the end view."""
    em, head, high = canvas.em, part.head_diameter.typical / 2, part.head_height.typical
    radius, shoulder = part.shoulder_diameter.typical / 2, part.shoulder_length.typical
    end, beside = shoulder + part.thread_length, -high - 1.2 * em
    for y in (-head, head):
        canvas.line("dim", (-high, y), (beside - 0.4 * em, y))
    upright(canvas, beside, -head, head, "⌀" + both_units(2 * head, "\n", first), "end")
    row = head + 1.7 * em
    right, left = ("start", "end"), ("end", "start")
    lengths = (0, shoulder, right), (shoulder, end, left), (-high, 0, right)
    for n, (start, stop, leans) in enumerate(lengths):
        dimension(canvas, start, stop, row + n * ROW * em, both_units(stop - start, first=first), leans)
    for x, y, rows in ((-high, head, 2), (0, head, 2), (shoulder, radius, 1), (end, radius, 1)):
        canvas.line("dim", (x, y + 0.3 * em), (x, row + (rows * ROW + 0.4) * em))
    _diameters_above(part, canvas, first)
    x = end + 1.5 * em + head
    below = [Spot(x, row + drop * em) for drop in (0.2, 1.6)]
    canvas.place("socket\n" + both_units(part.socket, "\n", first), below, "dim-text")
    return x


def _diameters_above(part, canvas, first):
    """Arrows from above onto shoulder, neck and thread, each with its words."""
    em, shoulder, radius = canvas.em, part.shoulder_length.typical, part.shoulder_diameter.typical / 2
    neck, major = part.neck_diameter.typical / 2, thread(part.thread).diameter / 2
    line = -part.head_diameter.typical / 2 - 0.5 * em
    pointed_at = (
        (0.45 * shoulder, radius, "⌀" + both_units(2 * radius, first=first), 0),
        (shoulder + 0.7 * part.thread_length, major, part.thread, 0),
        (shoulder + part.neck_width / 2, neck, "neck ⌀" + both_units(2 * neck, first=first), 1),
    )
    for x, r, words, rows_up in pointed_at:
        top = line - 1.4 * rows_up * em
        canvas.line("dim", (x, -r), (x, top))
        canvas.head("dim", x, -r, 0, 1)
        spots = [Spot(x, top - (0.3 + 1.3 * n) * em) for n in range(3)]
        canvas.place(words, spots, "dim-text")


def _length_below(part, canvas, first):
    """The length of a ring or nut below its side view; gives the line it stands on."""
    em, end, radius = canvas.em, length_of(part), across_of(part) / 2
    row = radius + 1.7 * em
    for x in (0, end):
        canvas.line("dim", (x, radius + 0.3 * em), (x, row + 0.4 * em))
    dimension(canvas, 0, end, row, both_units(end, first=first))
    return row
