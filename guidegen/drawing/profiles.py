"""How each part of a kit looks along its axis: cut, or from outside, by drafting convention.

The axis is y = 0; x is the distance along the screw. `sides` says which halves are drawn: -1 above the
axis, 1 below. Screws and nuts are shown whole, never hatched; very thin parts are filled instead.
"""

from math import cos, pi, sqrt

from guidegen.drawing.svg import Canvas, number, outline
from guidegen.joint.endplay import GROOVE

BOTH = (-1, 1)
FINE, COARSE = 0.3, 0.5  # hatch pitch, letter heights
THIN = 0.22  # parts thinner than this, in letter heights, are filled: no hatch line would show
MINOR = 1.0825  # pitches between major and minor diameter of a 60 degree thread (ISO 68-1)
CORNERS = 1 / cos(pi / 6)  # across corners over across flats of a hexagon
HEAD_EDGE = 0.12  # chamfer of a screw head over its radius; schematic
COLLAR = 0.3  # of a locking nut's height; schematic
SOCKET_DEPTH = 0.55  # of the head height; schematic, the record does not tell


def screw(canvas: Canvas, part, thread, at: float = 0.0):
    """A shoulder screw, the underside of its head at x = `at`, its thread towards greater x."""
    head, top = part.head_diameter.typical / 2, at - part.head_height.typical
    shoulder, face = part.shoulder_diameter.typical / 2, at + part.shoulder_length.typical
    neck, start, end = part.neck_diameter.typical / 2, face + part.neck_width, face + part.thread_length
    major, minor = thread.diameter / 2, (thread.diameter - MINOR * thread.pitch) / 2
    lead, edge = min(major - minor, (end - start) / 3), HEAD_EDGE * head
    upper = [
        (top, head - edge),
        (top + edge, head),
        (at, head),
        (at, shoulder),
        (face, shoulder),
        (face, neck),
        (start, neck),
        (start + lead, major),
        (end - lead, major),
        (end, minor),
    ]
    canvas.shape("solid", outline(_whole(upper)))
    across = ((top + edge, head), (at, head), (face, shoulder), (start, neck), (end - lead, major))
    canvas.shape("thick", "".join(outline([(x, -r), (x, r)], closed=False) for x, r in across))
    canvas.shape("thin", "".join(outline([(start, y), (end, y)], closed=False) for y in (-minor, minor)))
    corner, depth = part.socket * CORNERS / 2, top + SOCKET_DEPTH * part.head_height.typical
    lines = [(depth, -corner), (depth + corner / sqrt(3), 0), (depth, corner)]  # the bottom a drill leaves
    canvas.shape(
        "hidden",
        outline([(top, -corner), *lines, (top, corner)], closed=False)
        + outline([(depth, -corner), (depth, corner)], closed=False)
        + "".join(outline([(top, y), (depth, y)], closed=False) for y in (-corner / 2, corner / 2)),
    )
    canvas.reach(top, -head)
    canvas.reach(end, head)


def nut(canvas: Canvas, z_from: float, z_to: float, across_flats: float, sides=BOTH, collar=False):
    """A hexagon nut seen across its corners; `collar`: of a locking nut, at its far end."""
    half, corner = nut_half(z_from, z_to, across_flats, collar), across_flats * CORNERS / 2
    end = half[3][0]
    lower = [(z_from, 0), *half, (z_to, 0)]
    canvas.shape("solid", outline(_whole(half) if sides == BOTH else [(x, sides[0] * r) for x, r in lower]))
    for side in sides:
        canvas.shape("thick", outline([(z_from, side * corner / 2), (end, side * corner / 2)], closed=False))
        if collar:
            canvas.shape("thick", outline([(end, 0), (end, side * half[3][1])], closed=False))
        canvas.reach(z_from, side * corner)
        canvas.reach(z_to, side * corner)


def nut_half(z_from, z_to, across_flats, collar=False):
    """Points (x, radius) of half a nut's outline across its corners, chamfered at 30 degrees."""
    flat, corner = across_flats / 2, across_flats * CORNERS / 2
    end = z_to - COLLAR * (z_to - z_from) if collar else z_to
    chamfer = min((corner - flat) / sqrt(3), (end - z_from) / 4)
    points = [(z_from, flat), (z_from + chamfer, corner), (end - chamfer, corner), (end, flat)]
    if collar:
        points += [(end, 0.94 * flat), (z_to - chamfer, 0.94 * flat), (z_to, 0.8 * flat)]
    return points


def tube(canvas: Canvas, z_from, z_to, hole, outside, fill, chamfer=0.0, sides=BOTH):
    """A bush, spacer, ring or washer in section."""
    inner, outer = hole / 2, outside / 2
    c = min(chamfer, (z_to - z_from) / 3, (outer - inner) / 3)
    rim = [(z_from, outer - c), (z_from + c, outer), (z_to - c, outer), (z_to, outer - c)]
    wall = [(z_from, inner), *(rim if c else [(z_from, outer), (z_to, outer)]), (z_to, inner)]
    data = "".join(outline([(x, side * y) for x, y in wall]) for side in sides)
    if z_to - z_from < THIN * canvas.em:
        canvas.shape("black", data)
    else:
        canvas.shape("cut", data, fill)
    for side in sides:
        canvas.reach(z_from, side * outer)
        canvas.reach(z_to, side * outer)


def ball_bearing(canvas: Canvas, part, z_from, z_to, fill, sides=BOTH):
    """A ball bearing in section: both rings with their grooves, the ball, shields or seals."""
    inner, outer = part.bore.typical / 2, part.outside_diameter.typical / 2
    low, high = part.inner_land / 2, part.outer_land / 2
    ball, pitch, middle = part.ball_diameter / 2, part.pitch_diameter / 2, (z_from + z_to) / 2
    groove = 2 * GROOVE * ball
    wide = (z_to - z_from) / 2
    opening = [
        min(sqrt(max(groove**2 - depth**2, 0)), 0.9 * wide)
        for depth in (high - (pitch + ball - groove), (pitch - ball + groove) - low)
    ]
    rings = []
    for side in sides:
        both = (outer, high, opening[0], side > 0), (inner, low, opening[1], side < 0)
        for far, land, half, clockwise in both:
            y, arc = number(side * land), f"A{number(groove)} {number(groove)} 0 0 {int(clockwise)}"
            rings.append(
                f"M{number(z_from)} {number(side * far)}H{number(z_to)}V{y}H{number(middle + half)}"
                f"{arc} {number(middle - half)} {y}H{number(z_from)}Z"
            )
    canvas.shape("cut", "".join(rings), fill)
    canvas.shape("solid", "".join(circle(middle, side * pitch, ball) for side in sides))
    if part.closure != "open":
        end = shield_edge(part) if part.closure == "shields" else low  # seals touch the inner ring
        closures = [_closure(part.closure, z_from, z_to, side * high, side * end) for side in sides]
        canvas.shape("black", "".join(closures))
    for side in sides:
        canvas.reach(z_from, side * outer)
        canvas.reach(z_to, side * outer)


def shield_edge(part) -> float:
    """Radius at which a shield stops, short of the inner ring; schematic."""
    return (0.85 * part.inner_land + 0.15 * part.outer_land) / 2


def _closure(closure, z_from, z_to, start, end):
    """Path data of shields or seals on both sides, from the outer ring inwards."""
    wide = z_to - z_from
    inset, thick = 0.09 * wide, (0.07 if closure == "shields" else 0.14) * wide
    return "".join(
        f"M{number(near)} {number(start)}h{number(thick)}V{number(end)}h{number(-thick)}Z"
        for near in (z_from + inset, z_to - inset - thick)
    )


def plate(canvas: Canvas, z_from, z_to, hole, fill, above: float, below: float, goes_on: bool):
    """A plate cut through its hole: broken off at `above`; ending at `below`, or broken off there too."""
    left, right, third = number(z_from), number(z_to), (z_to - z_from) / 3
    wave = min(0.9 * third, 0.6 * canvas.em)
    cut, edges = "", ""
    for side, far, broken in ((-1, above, True), (1, below, goes_on)):
        near, y = number(side * hole / 2), side * far
        side_lines = f"V{number(y)}M{right} {number(y)}V{near}"
        across = f"H{right}"
        if broken:  # a wavy line, thin like every line of a break
            bends = (z_from + third, y - wave), (z_to - third, y + wave)
            across = "C" + " ".join(f"{number(a)} {number(b)}" for a, b in (*bends, (z_to, y)))
        cut += f"M{left} {near}V{number(y)}{across}V{near}Z"
        edges += f"M{right} {near}H{left}{side_lines if broken else f'V{number(y)}H{right}V{near}'}"
    canvas.shape("broken", cut, fill)
    canvas.shape("thick", edges)
    canvas.reach(z_from, -above - wave / 3)
    canvas.reach(z_to, below + wave / 3 * goes_on)


def circle(x, y, radius) -> str:
    """Path data of a circle."""
    r, wide = number(radius), number(2 * radius)
    return f"M{number(x - radius)} {number(y)}a{r} {r} 0 0 0 {wide} 0a{r} {r} 0 0 0 -{wide} 0Z"


def _whole(upper):
    """A closed shape from one half of it, mirrored in the axis."""
    return [(x, -r) for x, r in upper] + [(x, r) for x, r in reversed(upper)]
