"""The section of a joint along its screw, true to scale, with its dimensions, forces and part numbers."""

from guidegen.drawing import profiles
from guidegen.drawing.annotations import dimension, millimetres
from guidegen.drawing.caption import NO_OVERHANG, describe
from guidegen.drawing.forces import force_arrows
from guidegen.drawing.numbering import number_parts
from guidegen.drawing.svg import LETTER, Canvas, Spot, lettered, number
from guidegen.joint.records import Result
from guidegen.kit.records import BallBearing, SleeveBushing

PLATES = ("plate", "cheek")
MINUS = "−"
ROW = 1.8  # from one dimension line to the next, letter heights


def section(result: Result, prefix: str = "s") -> str:
    """The joint cut along its screw, as inline SVG: one unit is 1 mm, x is z of the stack.

    `prefix` begins every id, so that several drawings can stand on one page. "" when nothing can be built.
    """
    if result.stack is None:
        return ""
    canvas = lettered(lambda em: _Section(result, prefix, em).canvas, _first_guess(result), LETTER)
    return canvas.svg("section", f"Section of {result.joint.title}", describe(result))


def _first_guess(result):
    """A letter height that mostly suits at once: some letters stand beside a joint, more above and below."""
    long = result.stack.thread_end + result.joint.shaft.head_height.typical
    by_length = long * LETTER / (1 - 7.2 * LETTER)
    by_height = 2.5 * _widest(result) * LETTER / (1 - 17.5 * LETTER)
    return max(by_length, by_height)


def _widest(result):
    """Radius of the widest part that is shown whole."""
    whole = [placed for placed in result.stack.placed if placed.kind not in (*PLATES, "body")]
    across = [p.outside * (profiles.CORNERS if p.kind == "nut" else 1) for p in whole]
    return max([result.joint.shaft.head_diameter.typical, *across]) / 2


class _Section:
    """One section, drawn with letters of a given height."""

    def __init__(self, result: Result, prefix: str, em: float):
        self.joint, self.stack, self.em = result.joint, result.stack, em
        self.canvas = canvas = Canvas(prefix, em)
        self.cut_off = _widest(result) + 1.1 * em  # plates are broken off here
        self._parts()
        top, bottom = canvas.top, canvas.bottom
        canvas.line("centre", (canvas.left - 0.8 * em, 0), (canvas.right + 0.8 * em, 0))
        number_parts(canvas, self.stack, self._pointed_at, self.joint.arm, top)
        self._gap()
        self._dimensions(top, force_arrows(canvas, result, bottom))

    def _parts(self):
        """Every part in its place, the screw first."""
        canvas, joint, stack = self.canvas, self.joint, self.stack
        canvas.open_group(part=joint.shaft.id, **_ends(-joint.shaft.head_height.typical, stack.thread_end))
        profiles.screw(canvas, joint.shaft, joint.thread)
        canvas.close_group()
        bearings = iter(joint.bearings)
        for n, placed in enumerate(stack.placed):
            ends = placed.z_from, placed.z_to
            canvas.open_group(part=placed.part, **_ends(*ends))
            if placed.kind == "body":
                self._body()
            elif placed.kind == "bearing":
                self._bearing(next(bearings), placed)
            elif placed.kind == "nut":
                profiles.nut(canvas, *ends, placed.outside)
            elif placed.kind in PLATES:
                self._plate(*ends, placed.hole, placed.outside / 2, 1)
            else:
                fill = canvas.hatch((-1) ** n, profiles.FINE)  # neighbours lean different ways
                profiles.tube(canvas, *ends, placed.hole, placed.outside, fill)
            canvas.close_group()

    def _body(self):
        for plate in self.stack.plates:
            self.canvas.open_group(plate=str(plate.bearing), **_ends(plate.z_from, plate.z_to))
            self._plate(plate.z_from, plate.z_to, plate.hole, plate.edge, -1)
            self.canvas.close_group()

    def _plate(self, z_from, z_to, hole, edge, lean):
        fill = self.canvas.hatch(lean, profiles.COARSE)
        below = min(edge, self.cut_off)
        profiles.plate(self.canvas, z_from, z_to, hole, fill, self.cut_off, below, edge > self.cut_off)

    def _bearing(self, part, placed):
        canvas, ends, fill = self.canvas, (placed.z_from, placed.z_to), self.canvas.hatch(1, profiles.FINE)
        if isinstance(part, BallBearing):
            profiles.ball_bearing(canvas, part, *ends, fill)
        else:
            chamfer = part.chamfer if isinstance(part, SleeveBushing) else 0.0
            profiles.tube(canvas, *ends, placed.hole, placed.outside, fill, chamfer)

    def _pointed_at(self, placed):
        """Where lines to a part's number end: inside the part, or on the rim of one too thin for a dot."""
        em, long = self.em, placed.z_to - placed.z_from
        middle, high = (placed.z_from + placed.z_to) / 2, 0.8 * em - self.cut_off
        if placed.kind == "body":  # clear of the mid-plane of the bearing inside
            shortest = min(p.z_to - p.z_from for p in self.stack.placed if p.kind == "bearing")
            return [(p.z_from + 0.25 * min(p.z_to - p.z_from, shortest), high) for p in self.stack.plates]
        if placed.kind in PLATES:
            return [(placed.z_from + 0.25 * long, high)]
        if placed.kind == "bearing":
            return [(middle + 0.22 * long, -0.47 * placed.outside)]
        if placed.kind == "nut":
            return [(middle, -0.4 * placed.outside)]
        return [(middle, -placed.outside / 2 if long < 0.4 * em else -(placed.hole + placed.outside) / 4)]

    def _gap(self):
        """The end play, where it is: under the head."""
        first = self.stack.placed[0]
        if first.touches_before or first.z_from <= 0:
            return
        canvas, em = self.canvas, self.em
        tip = first.z_from / 2, self.joint.shaft.head_diameter.typical / 2
        words = f"gap\n{millimetres(self.stack.end_play.typical)}"
        box = canvas.place(words, [Spot(-0.6 * em, tip[1] + 1.9 * em, "end")], "dim-text")
        corner = -0.75 * em, tip[1] + 0.85 * em
        canvas.line("dim", (corner[0], box.top), corner, tip)
        canvas.head("dim", *tip, 0.66, -0.75)

    def _dimensions(self, top, below):
        """Separation, overhang and shoulder length below the forces, with their extension lines."""
        canvas, em, stack, load = self.canvas, self.em, self.stack, self.stack.z_load
        rows = iter([below + 1.5 * em + n * ROW * em for n in range(3)])
        row = None
        if len(stack.z_bearings) == 2:
            first, last = stack.z_bearings
            row = next(rows)
            canvas.keep_clear(load - 0.1 * em, row - em, load + 0.1 * em, row)  # for the load plane's line
            dimension(canvas, first, last, row, f"S {millimetres(last - first)}", ("end", "start"))
        last, beyond = stack.z_bearings[-1], load > stack.z_bearings[-1]
        if abs(load - last) > NO_OVERHANG:
            row = row if row and beyond else next(rows)  # in line with the separation where it follows that
            words = f"a {millimetres(load - last, 1)}".replace("-", MINUS)
            dimension(canvas, last, load, row, words, ("start", "end") if beyond else ("end", "start"))
        foot = row + 0.4 * em if row else below
        bearings = [placed for placed in stack.placed if placed.kind == "bearing"]
        for z, placed in zip(stack.z_bearings, bearings):
            canvas.line("centre", (z, -placed.outside / 2 - 0.4 * em), (z, foot))
        canvas.line("centre", (load, top - 0.4 * em), (load, foot))
        row = next(rows)
        dimension(canvas, 0, stack.shoulder, row, f"shoulder {millimetres(stack.shoulder)}")
        under_head = self.joint.shaft.head_diameter.typical / 2 + 0.3 * em
        for z, start in ((0, under_head), (stack.shoulder, self.joint.shaft.nominal / 2)):
            canvas.line("dim", (z, start), (z, row + 0.4 * em))


def _ends(z_from, z_to):
    return {"from": number(z_from), "to": number(z_to)}
