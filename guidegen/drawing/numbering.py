"""Part numbers on a line above a section, in stack order, and the arm in its place among them."""

from typing import NamedTuple

from guidegen.drawing.annotations import millimetres, spread
from guidegen.drawing.svg import Canvas, Spot
from guidegen.joint.records import Stack

RADIUS, APART = 0.78, 0.2  # of a number's ring and the gap between two, letter heights
FAR = 4.5  # numbers further than this from their parts use two rows, letter heights
IN_TWO_ROWS = 0.98  # from one number to the next when they use two rows, letter heights
CROWDED = 16  # with more parts than this no number is given twice


class _Mark(NamedTuple):
    """What stands above, and the point on the section that it belongs to."""

    x: float
    y: float
    words: str
    is_number: bool
    wide: float


def number_parts(canvas: Canvas, stack: Stack, points_of, arm: float, top: float):
    """Draw the numbers above `top`; points_of(placed): where the lines to a part's number end."""
    em = canvas.em
    marks = _marks(canvas, stack, points_of, arm, top)
    wanted = [mark.x for mark in marks]
    # to the right there is room as far as the words of the load below reach
    low, high = canvas.left - 0.5 * em, canvas.right + 2.5 * em
    middles = spread(wanted, [mark.wide for mark in marks], APART * em, low, high)
    two_rows = _farthest(middles, wanted) > FAR * em
    if two_rows:  # every other number moves up a row, so each needs only little more than half the room
        spared = (2 * RADIUS + APART - IN_TWO_ROWS) * em
        wide = [mark.wide - spared if mark.is_number else mark.wide + spared for mark in marks]
        middles = spread(wanted, wide, APART * em, low, high)
    elbow = top - 0.4 * em
    foot = elbow - max(0.4 * em, min(2 * em, 0.5 * _farthest(middles, wanted)))
    upper = False
    for middle, mark in zip(middles, marks):
        if mark.is_number:
            _balloon(canvas, mark, middle, elbow, foot, upper)
            upper = two_rows and not upper
        else:
            _arm(canvas, mark, middle, elbow, foot)
            upper = False


def _marks(canvas, stack, points_of, arm, top):
    """From left to right; a frame of two plates has its number at each while there is room."""
    each = 2 if len(stack.placed) <= CROWDED else 1
    ring = 2 * RADIUS * canvas.em
    marks = [
        _Mark(x, y, str(n), True, ring)
        for n, placed in enumerate(stack.placed, 1)
        for x, y in points_of(placed)[:each]
    ]
    words = f"arm\n{millimetres(arm, 1)}"
    wide = 2 * canvas.box_of(words, Spot(0, 0)).right + 0.3 * canvas.em
    return sorted([*marks, _Mark(stack.z_load, top, words, False, wide)], key=lambda mark: mark.x)


def _farthest(middles, wanted):
    return max(abs(middle - want) for middle, want in zip(middles, wanted))


def _balloon(canvas, mark, middle, elbow, foot, upper):
    """A line up from the part, slanting between elbow and foot, to the number."""
    em = canvas.em
    y = foot - RADIUS * em - (2 * RADIUS + 0.25) * em * upper
    turn = [(middle, foot)] if upper else []
    canvas.line("thin", (mark.x, mark.y), (mark.x, elbow), *turn, (middle, y))
    canvas.line("dot", (mark.x, mark.y), (mark.x, mark.y))
    canvas.balloon(middle, y, RADIUS * em, mark.words)


def _arm(canvas, mark, middle, elbow, foot):
    """The way the arm points, and its length."""
    canvas.line("dim", (middle, foot), (mark.x, elbow))
    canvas.head("dim", mark.x, elbow - 0.1 * canvas.em, 0, -1)
    box = canvas.box_of(mark.words, Spot(middle, 0))
    canvas.write(mark.words, Spot(middle, foot - box.bottom), "dim-text")
