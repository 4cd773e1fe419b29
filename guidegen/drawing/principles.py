"""Sketches of a principle, not to scale: jaws in a hole, a pin that rolls in one, joints in a row."""

from math import cos, radians, sin
from typing import Sequence

from guidegen.drawing.annotations import dimension
from guidegen.drawing.svg import Canvas, Spot, number, outline

HOLE = 30.0  # radius of a hole in a sketch
PARTED = 0.8  # of that radius, half the opening of the jaws
SMALLER = 0.8  # radius of a pin over that of its hole
LONG = 150.0  # of a chain from its first joint to its end
OPEN = 34.0  # half the height at the end of a cone that takes all of the travel
HIGH = 15.0  # of a joint's number over the line


def _circle(radius: float, x=0.0, y=0.0) -> str:
    r = number(radius)
    left, right, at = number(x - radius), number(x + radius), number(y)
    return f"M{left} {at}A{r} {r} 0 1 1 {right} {at}A{r} {r} 0 1 1 {left} {at}Z"


def jaws_in_hole() -> str:
    """Two jaws with flats opened in a round hole: the reading is a side, the hole the diagonal."""
    canvas = Canvas("jaws", 3.6)
    half, flat = HOLE * PARTED, HOLE * (1 - PARTED**2) ** 0.5
    canvas.curve("thick", _circle(HOLE))
    canvas.reach(-HOLE, -HOLE)
    canvas.reach(HOLE, HOLE)
    for side in (-1, 1):
        edge, back = side * half, side * (half - 9)
        canvas.shape(
            "cut",
            outline([(edge, -flat), (edge, flat), (back, flat), (back, -flat)]),
            canvas.hatch(side, 0.7),
        )
        canvas.line("dim", (edge, flat), (edge, HOLE + 9))
    canvas.line("centre", (-HOLE - 4, 0), (HOLE + 4, 0))
    canvas.line("thin", (-half, -flat), (half, flat))
    dimension(canvas, -half, half, HOLE + 8, "reading")
    canvas.line("thin", (half, -flat), (HOLE + 9, -flat))
    canvas.line("thin", (half, flat), (HOLE + 9, flat))
    canvas.line("dim", (HOLE + 8, -flat), (HOLE + 8, flat))
    for way in (-1, 1):
        canvas.head("dim", HOLE + 8, way * flat, 0, way)
    canvas.write("flat", Spot(HOLE + 10, 1.6, "start"))
    canvas.place("hole: the diagonal", [Spot(0, -HOLE - 3)])
    words = (
        "The corners of the jaws lie on the hole. What the caliper reads is a side of their rectangle; "
        "the hole is its diagonal."
    )
    return canvas.svg("part", "The flats of inside jaws in a round hole", words)


def rolling_pin() -> str:
    """A pin pressed against one side of its hole, and which way it turns when the load goes round."""
    canvas = Canvas("rolling", 3.6)
    pin = SMALLER * HOLE
    down = HOLE - pin
    canvas.curve("thick", _circle(HOLE))
    canvas.curve("thick", _circle(pin, 0, down))
    for y in (-HOLE - 9, HOLE + 9):
        canvas.reach(0, y)
    canvas.line("centre", (-HOLE - 4, 0), (HOLE + 4, 0))
    canvas.line("centre", (0, -HOLE - 4), (0, HOLE + 4))
    _turned(canvas, "force", HOLE + 5, 0, (115, 55))
    canvas.write("load goes round", Spot(HOLE * 0.62, HOLE + 10, "start"), "force-text")
    _turned(canvas, "dim", 0.55 * pin, down, (200, 340))
    canvas.write("pin turns back", Spot(0, down + 0.2 * pin))
    canvas.line("force", (0, HOLE + 17), (0, HOLE + 6))
    canvas.head("force", 0, HOLE + 17, 0, 1)
    words = (
        "A pin smaller than its hole is pressed against the hole's lower side. The load goes round "
        "counter-clockwise; the pin, rolling on the hole, turns slowly clockwise."
    )
    return canvas.svg("part", "A loose pin rolls in its hole", words)


def _turned(canvas, layer, radius, y, ends):
    """An arc with an arrowhead at its last end; angles in degrees, clockwise on the page from the right."""
    first, last = (radians(end) for end in ends)
    steps = [first + (last - first) * n / 24 for n in range(25)]
    points = [(radius * cos(angle), y + radius * sin(angle)) for angle in steps]
    canvas.line(layer, *points)
    way = 1 if last > first else -1
    canvas.head(layer, *points[-1], -way * sin(last), way * cos(last))


def joints_in_row(names: Sequence[str], reaches: Sequence[float], shares: Sequence[float]) -> str:
    """Joints along a line to scale, each with the cone in which it moves the end.

    reaches: from each joint to the end; shares: of each in the travel at the end, which set the cones.
    """
    canvas = Canvas("chain", 4.8)
    scale = LONG / reaches[0]
    end = LONG
    canvas.line("thick", (0, 0), (end, 0))
    for n, (name, reach, share) in enumerate(zip(names, reaches, shares)):
        x, high = end - reach * scale, OPEN * share
        canvas.line("thin", (x, 0), (end, -high))
        canvas.line("thin", (x, 0), (end, high))
        canvas.shape("solid", outline([(x - 2.5, -6), (x + 2.5, -6), (x + 2.5, 6), (x - 2.5, 6)]))
        canvas.line("centre", (x, -10), (x, 10))
        canvas.balloon(x, -HIGH, 0.9 * canvas.em, f"{n + 1}")
    canvas.line("dim", (end + 3, -OPEN * max(shares)), (end + 3, OPEN * max(shares)))
    for way in (-1, 1):
        canvas.head("dim", end + 3, way * OPEN * max(shares), 0, way)
    canvas.write("end", Spot(end + 5, 1.6, "start"))
    canvas.reach(-4, 0)
    told = "; ".join(f"{n}: {name}" for n, name in enumerate(names, 1))
    words = (
        f"Joints in a line, places to scale: {told}. Each cone is as high at the end as that joint moves it."
    )
    return canvas.svg("part", "Each joint lifts everything beyond it", words)
