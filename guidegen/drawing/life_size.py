"""Outlines at life size, to lay a part on, with bars that tell whether screen or printer keeps the size."""

from functools import singledispatch

from guidegen.drawing import profiles
from guidegen.drawing.end_views import end_view
from guidegen.drawing.sizes import across_of, edge_of, length_of
from guidegen.drawing.svg import Canvas, Spot, outline
from guidegen.kit.lookup import thread
from guidegen.kit.records import Nut, Part, ShoulderScrew
from guidegen.units import MM_PER_INCH

LETTERS = 3.3  # mm high: 9 point, what a sheet of paper needs
SMALL = 2.4  # mm; sets the width of lines where nothing is written
BAR, UPRIGHT = 50.0, MM_PER_INCH  # lengths of the bars, mm
WIDEST = 92.0  # mm; what stands side by side on a phone
GAP = 5.0  # mm between outlines
BESIDE = 16.0  # mm that the upright bar takes with its words
TICK = 1.6  # mm, half of the line across the end of a bar


def life_size(part: Part, prefix: str = "l") -> str:
    """A part from the side and from the left at life size, with a bar of 50 mm and an upright one of 1 in."""
    canvas = Canvas(prefix, LETTERS)
    beside, radius = _outlines(part, canvas, GAP + BESIDE), across_of(part) / 2
    left, foot = canvas.left, canvas.top + UPRIGHT
    if beside:  # the bar across goes below, the upright one to the right
        x, y = max(canvas.right, left + BAR) + GAP, max(canvas.bottom + 2 * GAP, foot)
    else:  # both go beside the lower outline
        left += 2 * radius + GAP
        x, y, foot = left + BAR + GAP, 2 * radius + GAP, radius + GAP + UPRIGHT
    _bar(canvas, (left, y), (left + BAR, y))
    canvas.write(f"{BAR:g} mm", Spot(left + BAR / 2, y - 0.4 * LETTERS))
    _bar(canvas, (x, foot - UPRIGHT), (x, foot))
    canvas.write("1 in", Spot(x + TICK, foot - UPRIGHT / 2 + 0.35 * LETTERS, "start"))
    words = (
        f"Outlines of {part.name} from the side and from the left, at life size, to lay the part on. "
        f"The bar across is {BAR:g} mm, the upright one 1 in, where screen or printer keep the size."
    )
    return canvas.svg("life", f"{part.name} at life size", words, life_size=True)


def small_outline(part: Part) -> str:
    """A part from the side and from the left at life size, to stand beside words that name it."""
    canvas = Canvas("", SMALL)
    _outlines(part, canvas, 0.0, centred=False)
    return canvas.svg("life small", "", life_size=True)


def _outlines(part, canvas, spared, centred=True):
    """Draws both outlines, side by side where a phone is wide enough with `spared` mm left; gives whether."""
    radius = across_of(part) / 2
    canvas.open_group(view="side")
    _from_outside(part, canvas)
    canvas.close_group()
    left, right = canvas.left, canvas.right
    beside = right - left + GAP + 2 * radius + spared <= WIDEST
    x, y = (right + GAP + radius, 0.0) if beside else (left + radius, 2 * radius + GAP)
    end_view(part, canvas, x, y, centred)
    return beside


@singledispatch
def _from_outside(part, canvas):
    """A ring seen from the side, from x = 0."""
    end, radius, edge = length_of(part), across_of(part) / 2, edge_of(part)
    upper = [(0, radius - edge), (edge, radius), (end - edge, radius), (end, radius - edge)]
    if not edge:
        upper = [(0, radius), (end, radius)]
    canvas.shape("solid", outline([(x, -r) for x, r in upper] + [(x, r) for x, r in reversed(upper)]))
    for x in (edge, end - edge) if edge else ():
        canvas.shape("thin", outline([(x, -radius), (x, radius)], closed=False))
    canvas.reach(0, -radius)
    canvas.reach(end, radius)


@_from_outside.register
def _(part: ShoulderScrew, canvas):
    profiles.screw(canvas, part, thread(part.thread))


@_from_outside.register
def _(part: Nut, canvas):
    profiles.nut(canvas, 0.0, part.height.typical, part.across_flats.typical, collar="locking" in part.kind)


def _bar(canvas, start, end):
    """A line with ticks at its ends, the length between the ticks."""
    across, up = (TICK, 0) if start[0] == end[0] else (0, TICK)
    canvas.line("thick", start, end)
    for at_x, at_y in (start, end):
        canvas.line("thick", (at_x - across, at_y - up), (at_x + across, at_y + up))
