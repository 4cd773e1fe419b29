"""The symbol that tells on which side of a side view its end view stands (ISO 5456-2)."""

from guidegen.drawing.profiles import circle
from guidegen.drawing.svg import Canvas, outline

SYMBOL_HIGH, SYMBOL_LONG = 1.2, 3.6  # letter heights
WIDE, NARROW = SYMBOL_HIGH / 2, SYMBOL_HIGH / 4  # radii of the cone's ends
CONE = 1.3  # length of the cone, letter heights


def first_angle(canvas: Canvas, x: float, y: float):
    """A cone cut short, its narrow end on the left, and to its right what is seen from the left."""
    em = canvas.em
    cone = [(0, -NARROW), (CONE, -WIDE), (CONE, WIDE), (0, NARROW)]
    rings = x + (SYMBOL_LONG - WIDE) * em
    canvas.open_group(symbol="first-angle")
    canvas.shape(
        "thick",
        outline([(x + a * em, y + b * em) for a, b in cone])
        + circle(rings, y, WIDE * em)
        + circle(rings, y, NARROW * em),
    )
    canvas.close_group()
    half = (WIDE + 0.2) * em
    lines = (
        (-0.2 * em, 0, (CONE + 0.2) * em, 0),
        (rings - x - half, 0, rings - x + half, 0),
        (rings - x, -half, rings - x, half),
    )
    for from_x, from_y, to_x, to_y in lines:
        canvas.line("centre", (x + from_x, y + from_y), (x + to_x, y + to_y))
    canvas.keep_clear(x - 0.2 * em, y - half, rings + half, y + half)
