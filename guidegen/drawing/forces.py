"""Load and reactions as arrows below a section, pointing as they act on the shaft."""

from guidegen.drawing.annotations import newton_millimetres, newtons
from guidegen.drawing.svg import HEAD_LONG, Canvas, Spot, number
from guidegen.joint.records import Result

SUBSCRIPT = "₀₁₂"
NO_FORCE = 0.005  # of the largest force: too small to draw
SHORTEST, LONGER = 1.8, 2.0  # arrow lengths, letter heights: the least, and how much longer the largest is
SAME_LINE = 1.2  # arrows nearer than this stand below each other, letter heights


def force_arrows(canvas: Canvas, result: Result, bottom: float) -> float:
    """Draw the arrows below `bottom`; gives how far down they and their words reach."""
    em, start = canvas.em, bottom + 0.5 * canvas.em
    acting = list(_acting(result))
    largest = max(abs(force) for _, force, _ in acting)
    drawn = []
    for x, force, words in acting:
        if abs(force) > NO_FORCE * largest:
            in_line = [end for other, _, end, _ in drawn if abs(other - x) < SAME_LINE * em]
            begin = max([start, *(end + 0.4 * em for end in in_line)])
            end = begin + (SHORTEST + LONGER * abs(force) / largest) * em
            _arrow(canvas, x, begin, end, force > 0)
            drawn.append((x, begin, end, words))
    if couple_of(result):
        z = result.stack.z_bearings[0]
        _turning(canvas, z, result.joint.shaft.nominal / 2, 1 if result.stack.z_load >= z else -1)
    first = min((x for x, *_ in drawn), default=0)
    deepest = start
    for x, begin, end, words in drawn:
        base = begin + 0.9 * em
        spots = [Spot(x + 0.65 * em, base, "start"), Spot(x - 0.65 * em, base, "end")]
        if x == first:
            spots.reverse()
        deepest = max(deepest, end, canvas.place(words, [*spots, Spot(x, end + em)], "force-text").bottom)
    return deepest


def couple_of(result: Result) -> float:
    """Moment that one bearing alone must give the shaft, N·mm; 0 where two share it or a hub carries it."""
    found = result.quantities.get("shaft_moment")
    return found.typical if found and result.joint.single and result.joint.layout == "A" else 0.0


def _acting(result):
    """(z, size downwards, words) of the load and of each reaction; a positive reaction opposes the load."""
    joint, stack = result.joint, result.stack
    load = joint.radial * joint.shock
    made_of = "" if joint.shock == 1 else f"\n{newtons(joint.radial)} × {joint.shock:g}"
    yield stack.z_load, load, f"F {newtons(load)}{made_of}"
    couple = couple_of(result)
    turning = f"\nM {newton_millimetres(couple)}" if couple else ""
    for n, z in enumerate(stack.z_bearings, 1):
        if found := result.quantities.get(f"reaction_{n}"):
            name = "R" if joint.single else f"R{SUBSCRIPT[n]}"
            yield z, -found.typical, f"{name} {newtons(found.typical)}{turning}"


def _arrow(canvas, x, begin, end, down):
    em = canvas.em
    tip, tail, way = (end, begin, 1) if down else (begin, end, -1)
    canvas.line("force", (x, tail), (x, tip - way * HEAD_LONG * em))
    canvas.head("force", x, tip, 0, way)
    canvas.keep_clear(x - 0.4 * em, begin, x + 0.4 * em, end)


def _turning(canvas, x, shaft, way):
    """An arrow round the axis, within the shaft; way 1 is against the clock."""
    r = min(1.3 * canvas.em, 0.75 * shaft)
    ends = f"M{number(x + 0.6 * way * r)} {number(0.8 * r)}", f"{number(x - way * r)} 0"
    canvas.curve("force", f"{ends[0]}A{number(r)} {number(r)} 0 1 {int(way < 0)} {ends[1]}")
    canvas.head("force", x - 0.8 * way * r, 0.6 * r, 0.1 * way, 1)
