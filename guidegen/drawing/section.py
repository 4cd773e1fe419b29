"""The section of a joint along its screw, true to scale, with its dimensions, forces and part numbers."""
from guidegen.drawing import profiles
from guidegen.drawing.annotations import dimension, millimetres, newton_millimetres, newtons, spread
from guidegen.drawing.svg import HEAD_LONG, Canvas, Spot, lettered, number
from guidegen.joint.records import Result
from guidegen.kit.records import BallBearing, SleeveBushing

LETTER = 0.0305  # letter height over drawing width: 10 px on a phone 340 px wide
WIDEST = 1.25  # width over height a drawing has at least
NO_OVERHANG = 0.05  # the load plane goes through the bearing, mm
MINUS, SUBSCRIPT = "−", "₀₁₂"
PLATES = ("plate", "cheek")
BALLOON, APART = 0.78, 0.2  # radius of a part number's ring and the gap between two, letter heights
FAR = 4.5  # part numbers further than this from their parts use two rows, letter heights
IN_TWO_ROWS = 0.98  # from one part number to the next when they use two rows, letter heights
CROWDED = 16  # from this many parts on, no number is given twice
NO_FORCE = 0.005  # of the largest force: too small to draw


def section(result: Result, prefix: str = "s") -> str:
    """The joint cut along its screw, as inline SVG: one unit is 1 mm, x is z of the stack.

    `prefix` begins every id, so that several drawings can stand on one page. "" when nothing can be built.
    """
    if result.stack is None:
        return ""
    canvas = lettered(lambda em: _Section(result, prefix, em).canvas, _first_guess(result), LETTER)
    return canvas.svg("section", f"Section of {result.joint.title}", describe(result))


def _first_guess(result):
    """A letter height that mostly suits at once: about seven wide stand beside a joint, fourteen above and below."""
    long = result.stack.thread_end + result.joint.shaft.head_height.typical
    return max(long * LETTER / (1 - 7.2 * LETTER), 2 * _widest(result) * LETTER * WIDEST / (1 - 14 * LETTER * WIDEST))


def _widest(result):
    """Radius of the widest part that is shown whole."""
    nut = profiles.CORNERS
    across = [p.outside * (nut if p.kind == "nut" else 1) for p in result.stack.placed if p.kind not in (*PLATES, "body")]
    return max([result.joint.shaft.head_diameter.typical, *across]) / 2


class _Section:
    """One section being drawn with letters of a given height."""

    def __init__(self, result: Result, prefix: str, em: float):
        self.result, self.joint, self.stack, self.em = result, result.joint, result.stack, em
        self.canvas = Canvas(prefix, em)
        self.cut_off = _widest(result) + 1.1 * em  # plates are broken off here
        self._parts()
        self.top, self.bottom = self.canvas.top, self.canvas.bottom
        self._axis()
        self._numbers()
        self._gap()
        self._dimensions(self._forces())

    def _parts(self):
        """Every part in its place, the screw first."""
        canvas, joint, stack = self.canvas, self.joint, self.stack
        canvas.open_group(part=joint.shaft.id, **_reach(-joint.shaft.head_height.typical, stack.thread_end))
        profiles.screw(canvas, joint.shaft, joint.thread)
        canvas.close_group()
        bearings = list(joint.bearings)
        for n, placed in enumerate(stack.placed):
            canvas.open_group(part=placed.part, **_reach(placed.z_from, placed.z_to))
            if placed.kind == "body":
                self._body()
            elif placed.kind == "bearing":
                self._bearing(bearings.pop(0), placed)
            elif placed.kind == "nut":
                profiles.nut(canvas, placed.z_from, placed.z_to, placed.outside)
            elif placed.kind in PLATES:
                self._plate(placed.z_from, placed.z_to, placed.hole, placed.outside / 2, 1)
            else:
                profiles.tube(canvas, placed.z_from, placed.z_to, placed.hole, placed.outside,
                              canvas.hatch((-1) ** n, profiles.FINE))
            canvas.close_group()

    def _body(self):
        for plate in self.stack.plates:
            self.canvas.open_group(plate=str(plate.bearing), **_reach(plate.z_from, plate.z_to))
            self._plate(plate.z_from, plate.z_to, plate.hole, plate.edge, -1)
            self.canvas.close_group()

    def _plate(self, z_from, z_to, hole, edge, lean):
        profiles.plate(self.canvas, z_from, z_to, hole, self.canvas.hatch(lean, profiles.COARSE), self.cut_off,
                       min(edge, self.cut_off), edge > self.cut_off)

    def _bearing(self, part, placed):
        fill = self.canvas.hatch(1, profiles.FINE)
        if isinstance(part, BallBearing):
            profiles.ball_bearing(self.canvas, part, placed.z_from, placed.z_to, fill)
        else:
            profiles.tube(self.canvas, placed.z_from, placed.z_to, placed.hole, placed.outside, fill,
                          part.chamfer if isinstance(part, SleeveBushing) else 0.0)

    def _axis(self):
        em, canvas = self.em, self.canvas
        canvas.line("centre", (canvas.left - 0.8 * em, 0), (canvas.right + 0.8 * em, 0))

    def _numbers(self):
        """Part numbers in stack order on a line above, and the arm in its place among them."""
        canvas, em = self.canvas, self.em
        twice = len(self.stack.placed) <= CROWDED  # a frame of two plates has its number at each
        marks = [(*point, str(n)) for n, placed in enumerate(self.stack.placed, 1)
                 for point in self._pointed_at(placed)[: 1 + twice]]
        marks.append((self.stack.z_load, self.top, f"arm\n{millimetres(self.joint.arm, 1)}"))
        marks.sort(key=lambda mark: mark[0])
        wanted = [mark[0] for mark in marks]
        ring = 2 * BALLOON * em
        wide = [ring if words.isdigit() else 2 * canvas.box_of(words, Spot(0, 0)).right + 0.3 * em for _, _, words in marks]
        # to the right there is room as far as the words of the load below
        low, high = canvas.left - 0.5 * em, canvas.right + 2.5 * em
        middles = spread(wanted, wide, APART * em, low, high)
        two_rows = max(abs(x - want) for x, want in zip(middles, wanted)) > FAR * em
        if two_rows:  # every other number moves up a row, so each needs only little more than half the room
            spared = ring - IN_TWO_ROWS * em + APART * em
            wide = [w - spared if words.isdigit() else w + spared for w, (_, _, words) in zip(wide, marks)]
            middles = spread(wanted, wide, APART * em, low, high)
        slant = max(0.4 * em, min(2 * em, 0.5 * max(abs(x - want) for x, want in zip(middles, wanted))))
        elbow = self.top - 0.4 * em
        foot = elbow - slant
        self._balloons(marks, middles, elbow, foot, two_rows)

    def _balloons(self, marks, middles, elbow, foot, two_rows):
        """Lines up from the parts, slanting between elbow and foot, to the numbers above."""
        canvas, em, upper = self.canvas, self.em, False
        for middle, (x, y, words) in zip(middles, marks):
            if words.isdigit():
                up = foot - BALLOON * em - (2 * BALLOON + 0.25) * em * upper
                canvas.line("thin", (x, y), (x, elbow), *([(middle, foot)] if upper else []), (middle, up))
                canvas.line("dot", (x, y), (x, y))
                canvas.balloon(middle, up, BALLOON * em, words)
                upper = two_rows and not upper
            else:
                self._arm(middle, x, foot, elbow, words)
                upper = False

    def _arm(self, middle, x, foot, elbow, words):
        """The load plane as a chain line, and the way the arm points."""
        canvas, em = self.canvas, self.em
        canvas.line("dim", (middle, foot), (x, elbow))
        canvas.head("dim", x, elbow - 0.1 * em, 0, -1)
        box = canvas.box_of(words, Spot(middle, 0))
        canvas.write(words, Spot(middle, foot - box.bottom), "dim-text")

    def _pointed_at(self, placed):
        """Where the lines to a part's number end: inside the part, or on the rim of one too thin for a dot."""
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
        return [(middle, -(placed.outside / 2 if long < 0.4 * em else (placed.hole + placed.outside) / 4))]

    def _gap(self):
        """The end play, where it is: under the head."""
        first = self.stack.placed[0]
        if first.touches_before or first.z_from <= 0:
            return
        canvas, em = self.canvas, self.em
        tip = first.z_from / 2, self.joint.shaft.head_diameter.typical / 2
        words = f"gap\n{millimetres(self.stack.end_play.typical)}"
        box = canvas.place(words, [Spot(-0.6 * em, tip[1] + (1.9 + more) * em, "end") for more in (0, 0.5, 1)], "dim-text")
        corner = -0.75 * em, tip[1] + 0.85 * em
        canvas.line("dim", (corner[0], box.top), corner, tip)
        canvas.head("dim", *tip, 0.66, -0.75)

    def _forces(self):
        """Load and reactions as they act on the shaft, below the section; gives how far down they reach."""
        canvas, em, start = self.canvas, self.em, self.bottom + 0.5 * self.em
        acting = list(self._acting())
        largest = max(abs(force) for _, force, _ in acting)
        forces = [one for one in acting if abs(one[1]) > NO_FORCE * largest]
        arrows = []
        for x, force, words in forces:
            begin = max([start] + [end + 0.4 * em for other, _, end, _ in arrows if abs(other - x) < 1.2 * em])
            end = begin + (1.8 + 2 * abs(force) / largest) * em
            tip, tail, way = (end, begin, 1) if force > 0 else (begin, end, -1)
            canvas.line("force", (x, tail), (x, tip - way * HEAD_LONG * em))
            canvas.head("force", x, tip, 0, way)
            canvas.keep_clear(x - 0.4 * em, begin, x + 0.4 * em, end)
            arrows.append((x, begin, end, words))
        if self._couple():
            self._turning(self.stack.z_bearings[0], 1 if self.stack.z_load >= self.stack.z_bearings[0] else -1)
        deepest = start
        for x, begin, end, words in arrows:
            sides = [(0.65, "start"), (-0.65, "end")]
            if x == min(arrow[0] for arrow in arrows):
                sides.reverse()
            spots = [Spot(x + away * em, begin + 0.9 * em, anchor) for away, anchor in sides] + [Spot(x, end + em)]
            deepest = max(deepest, end, canvas.place(words, spots, "force-text").bottom)
        return deepest

    def _turning(self, x, way):
        """An arrow round the axis; way 1 is against the clock."""
        canvas, r = self.canvas, min(1.3 * self.em, 0.75 * self.joint.shaft.nominal / 2)
        near, end = x - 0.6 * way * r, (x - 0.8 * way * r, 0.6 * r)
        canvas.curve("force", f"M{number(x + 0.6 * way * r)} {number(0.8 * r)}A{number(r)} {number(r)} 0 1 {way < 0:d} "
                              f"{number(x - way * r)} 0")
        canvas.head("force", *end, 0.1 * way, 1)

    def _acting(self):
        """(z, size downwards, words) of the load and of each reaction."""
        joint, stack, found = self.joint, self.stack, self.result.quantities
        load = joint.radial * joint.shock
        words = f"F {newtons(load)}"
        yield stack.z_load, load, words if joint.shock == 1 else f"{words}\n{newtons(joint.radial)} × {joint.shock:g}"
        for n, z in enumerate(stack.z_bearings, 1):
            if f"reaction_{n}" in found:
                size = found[f"reaction_{n}"].typical
                couple = f"\nM {newton_millimetres(self._couple())}" if self._couple() else ""
                yield z, -size, f"{'R' if joint.single else 'R' + SUBSCRIPT[n]} {newtons(size)}{couple}"

    def _couple(self):
        """Moment that one bearing alone must give the shaft, N·mm; 0 where two share it."""
        found = self.result.quantities.get("shaft_moment")
        return found.typical if found and self.joint.single and self.joint.layout == "A" else 0.0

    def _dimensions(self, below):
        """Separation, overhang and shoulder length, with their extension lines."""
        canvas, em, stack = self.canvas, self.em, self.stack
        z, load, row, foot = stack.z_bearings, stack.z_load, below + 1.5 * em, below
        if len(z) == 2:
            canvas.keep_clear(load - 0.1 * em, row - em, load + 0.1 * em, row)
            dimension(canvas, *z, row, f"S {millimetres(z[1] - z[0])}", ("end", "start"))
            foot = row + 0.4 * em
            row += (1.8 if load >= z[1] else 1.7) * em
        if abs(load - z[-1]) > NO_OVERHANG:
            beyond = load > z[-1]
            row = foot - 0.4 * em if beyond and len(z) == 2 else row  # in line with the separation
            words = f"a {millimetres(load - z[-1], 1)}".replace("-", MINUS)
            dimension(canvas, z[-1], load, row, words, ("start", "end") if beyond else ("end", "start"))
            foot = row + 0.4 * em
            row += 1.8 * em
        wide = [p.outside / 2 + 0.4 * em for p in stack.placed if p.kind == "bearing"]
        for x, half in zip((*z, load), (*wide, 0.4 * em - self.top)):
            canvas.line("centre", (x, -half), (x, foot))
        dimension(canvas, 0, stack.shoulder, row, f"shoulder {millimetres(stack.shoulder)}")
        canvas.line("dim", (0, self.joint.shaft.head_diameter.typical / 2 + 0.3 * em), (0, row + 0.4 * em))
        canvas.line("dim", (stack.shoulder, self.joint.shaft.nominal / 2), (stack.shoulder, row + 0.4 * em))


def _reach(z_from, z_to):
    return {"from": number(z_from), "to": number(z_to)}


def describe(result: Result) -> str:
    """What the section shows, in words: order of the parts, distances, loads and reactions."""
    joint, stack = result.joint, result.stack
    z = stack.z_bearings
    order = "; ".join(f"{n} {placed.name}" for n, placed in enumerate(stack.placed, 1))
    said = [f"Section along the screw {joint.shaft.name}, true to scale, its head on the left. From the head: {order}."]
    if len(z) == 2:
        said.append(f"The middles of the bearings are {millimetres(z[1] - z[0])} apart.")
    away = stack.z_load - z[-1]
    last = "bearing 2" if len(z) == 2 else "the bearing"
    side = "beyond" if away >= 0 else "on the head side of"
    said.append(f"The load plane lies {millimetres(abs(away), 1)} {side} the middle of {last}."
                if abs(away) > NO_OVERHANG else f"The load plane goes through the middle of {last}.")
    shock = "" if joint.shock == 1 else f" ({newtons(joint.radial)} times {joint.shock:g} for shock)"
    said.append(f"The load is {newtons(joint.radial * joint.shock)}{shock}, square to the screw; "
                f"the arm is {millimetres(joint.arm, 1)} long.")
    if joint.axial:
        said.append(f"At its end {newtons(joint.axial)} act along the screw.")
    for n in range(1, len(z) + 1):
        found = result.quantities.get(f"reaction_{n}")
        if found is not None:
            way = "against" if found.typical >= 0 else "along with"
            said.append(f"Bearing {n} pushes with {newtons(found.typical)} {way} the load.")
    said.append(f"The shoulder is {millimetres(stack.shoulder)} long.")
    said.append("The nut clamps the inner rings." if joint.clamped else
                f"The gap under the head, the end play, is {millimetres(stack.end_play.typical)}.")
    return " ".join(said)
