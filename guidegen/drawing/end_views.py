"""Parts seen along their axis from the left: the head of a screw, the face of a ring or nut."""

from functools import singledispatch
from math import cos, pi, sin

from guidegen.drawing import profiles
from guidegen.drawing.sizes import across_of, edge_of, sizes_of
from guidegen.drawing.svg import Canvas, number, outline
from guidegen.kit.lookup import thread
from guidegen.kit.records import BallBearing, Nut, Part, ShoulderScrew, SleeveBushing

CHAMFERED = 0.97  # chamfer circle of a nut over its size across flats; schematic


def end_view(part: Part, canvas: Canvas, x: float, y: float = 0.0, centred=True):
    """The part seen from the left, about (x, y), with its centre lines."""
    radius = across_of(part) / 2
    canvas.open_group(view="end")
    _seen(part, canvas, x, y)
    canvas.close_group()
    far = radius + 0.6 * canvas.em if centred else radius
    canvas.reach(x - far, y - far)
    canvas.reach(x + far, y + far)
    for across, up in ((far, 0.0), (0.0, far)) if centred else ():
        canvas.line("centre", (x - across, y - up), (x + across, y + up))


def thread_radii(nut: Nut) -> tuple[float, float]:
    """Radius of a nut's thread at its crests on the screw, and of the hole they leave, mm."""
    screw_thread = thread(nut.thread)
    major = screw_thread.diameter / 2
    return major, major - profiles.MINOR * screw_thread.pitch / 2


def hexagon(x: float, y: float, flat: float) -> list[tuple[float, float]]:
    """Corners of a hexagon about (x, y), one of them on top; `flat`: half of its size across flats."""
    corner = flat * profiles.CORNERS
    turns = [pi / 6 + n * pi / 3 for n in range(6)]
    return [(x + corner * cos(turn), y + corner * sin(turn)) for turn in turns]


@singledispatch
def _seen(part, canvas, x, y):
    """A plain ring."""
    inner, outer = (size / 2 for _, size in sizes_of(part)[:2])
    canvas.shape("solid", profiles.circle(x, y, outer) + profiles.circle(x, y, inner))


@_seen.register
def _(part: SleeveBushing, canvas, x, y):
    inner, outer = part.free_bore.typical / 2, part.outside_diameter.typical / 2
    canvas.shape("solid", profiles.circle(x, y, outer) + profiles.circle(x, y, inner))
    canvas.shape("thin", profiles.circle(x, y, outer - edge_of(part)))


@_seen.register
def _(part: BallBearing, canvas, x, y):
    inner, outer = part.bore.typical / 2, part.outside_diameter.typical / 2
    if part.closure == "open":
        canvas.shape("solid", _balls(part, x, y))
    elif part.closure == "shields":
        canvas.shape("thin", profiles.circle(x, y, profiles.shield_edge(part)))
    radii = outer, part.outer_land / 2, part.inner_land / 2, inner
    canvas.shape("solid", "".join(profiles.circle(x, y, radius) for radius in radii))


def _balls(part, x, y):
    """Path data of the balls."""
    pitch, ball = part.pitch_diameter / 2, part.ball_diameter / 2
    turns = [2 * pi * n / part.balls for n in range(part.balls)]
    return "".join(profiles.circle(x + pitch * sin(turn), y - pitch * cos(turn), ball) for turn in turns)


@_seen.register
def _(part: Nut, canvas, x, y):
    flat = part.across_flats.typical / 2
    major, minor = thread_radii(part)
    canvas.shape("solid", outline(hexagon(x, y, flat)) + profiles.circle(x, y, minor))
    r = number(major)  # an inside thread is three quarters of a circle, by convention
    three_quarters = f"M{number(x)} {number(y - major)}A{r} {r} 0 1 0 {number(x + major)} {number(y)}"
    canvas.shape("thin", profiles.circle(x, y, CHAMFERED * flat) + three_quarters)


@_seen.register
def _(part: ShoulderScrew, canvas, x, y):
    head = part.head_diameter.typical / 2
    canvas.shape("solid", profiles.circle(x, y, head) + outline(hexagon(x, y, part.socket / 2)))
    canvas.shape("thin", profiles.circle(x, y, (1 - profiles.HEAD_EDGE) * head))
