"""Numbers worked backwards: from what is read on a joint to what must be so in it."""

from dataclasses import dataclass
from math import ceil
from typing import NamedTuple

from guidegen.guide.edition import Edition
from guidegen.guide.grids import Grid, grid
from guidegen.guide.measures import Both
from guidegen.guide.measuring_page import RULER, SCALE, grams_force
from guidegen.guide.wobble import seen_travel
from guidegen.joint.creep import inner_ring_goes_round
from guidegen.joint.reach import reach_of, ring_of, wall_of
from guidegen.joint.records import Result
from guidegen.kit.lookup import press_friction, swelling
from guidegen.kit.records import BallBearing
from guidegen.numbers import show_number
from guidegen.theory.clearance import interference
from guidegen.theory.freeplay import clearance_from_travel, outer_span
from guidegen.theory.friction import friction_of_pull
from guidegen.theory.grip import engaged_length, push_force
from guidegen.theory.heat import (
    growth_in,
    held_swelling,
    humidity_of,
    relaxed_swelling,
    seizing_growth,
    swollen_clearance,
)
from guidegen.theory.measuring import clearance_uncertainty
from guidegen.theory.precession import loads_to_walk, pin_walk, ring_walk
from guidegen.theory.pressfit import bush_ratio, hub_ratio, hub_stress, press_pressure
from guidegen.theory.stack import filler_wanted
from guidegen.units import Band

SPAN_ERROR = 0.5  # ± mm, of a span measured with a ruler; common practice
ARM_ERROR = 1.0  # ± mm, of an arm; common practice
READINGS = 8  # of a table of travels, at most
TWICE = 2.0  # the most travel that a joint is made with; a table of travels goes so far
PULLS = (0.5, 1.0, 1.5, 2.0, 3.0)  # of the typical pull
PLAYS = (0.0, 0.5, 1.0, 1.5, 3.0)  # of the upper end of the end play aimed at
DAMP = (0.0, 50.0, 68.0, 85.0, 100.0)  # relative humidity, per cent


class Walked(NamedTuple):
    """The ring of a joint that the load goes round, at the most room that its limits allow."""

    ring: str  # inner or outer
    room: float  # mm
    turns: float  # of the load until it is once round; 0 where it has no room
    minutes: float


@dataclass(frozen=True)
class Backwards:
    """Tables of readings for joints of one guide."""

    edition: Edition

    @property
    def measures(self):
        return self.edition.measures

    def mm(self, x: float, digits=2) -> str:
        """A length in both units, in one line."""
        return self.measures.value(x, "mm", digits).line

    def travels(self, result: Result) -> Grid:
        """Clearance of each of two like bushes from the travel read at the arm of a joint."""
        joint, made = result.joint, result.quantities["clearance_1"].band
        lengths = (result.inputs["length_1"].typical, result.inputs["length_2"].typical)
        span = float(outer_span(joint.separation, *lengths))
        farthest = TWICE * seen_travel(result).most
        step = RULER * max(1, ceil(farthest / RULER / READINGS))
        rows = []
        for n in range(1, ceil(farthest / step) + 1):
            travel = n * step
            clearance = float(clearance_from_travel(travel, span, joint.arm))
            errors = (travel, RULER, span, SPAN_ERROR, joint.arm, ARM_ERROR)
            sure = float(clearance_uncertainty(clearance, *errors))
            rows.append(
                (
                    self.measures.value(travel, "mm"),
                    self.measures.value(clearance, "mm", 2),
                    self.measures.value(sure, "mm", 2).after("±"),
                    _judged(clearance, sure, made),
                )
            )
        caption = (
            f"{joint.title}: arm {self.mm(joint.arm, 3)}, span {self.mm(span, 3)}; as made "
            f"{self.measures.range(made.least, made.most, 'mm').line} of clearance"
        )
        heads = ("travel read", "clearance of each bush", "sure within", "what it says")
        return grid("Travel and clearance", caption, heads, rows)

    def pulls(self, result: Result) -> Grid | None:
        """Friction of both bushes from the pull at the arm of a joint."""
        steps = {step.gives: step.values for step in result.steps}
        bushes = [steps[f"start_torque_{n}"] for n in (1, 2) if f"start_torque_{n}" in steps]
        face = next((steps[name] for name in steps if name.startswith("start_face_torque")), {})
        if not bushes or "F_r" not in bushes[0]:
            return None
        pressed, d_s = sum(abs(one["F_r"]) for one in bushes), bushes[0]["d_s"]
        known = result.inputs["start_friction_1"].band
        rows = []
        for times in PULLS:
            pull = times * result.quantities["start_force"].band.typical
            mu = float(
                friction_of_pull(
                    pull, result.joint.arm, pressed, d_s, face.get("F_a", 0.0), face.get("r_m", 0.0)
                )
            )
            off = mu * grams_force(SCALE) / pull
            rows.append(
                (
                    self.measures.on_scale(pull),
                    self.measures.value(pull, "N", 2),
                    f"{show_number(mu, 2)} ± {show_number(off, 1)}",
                    "as it should be" if known.least <= mu <= known.most else _brakes(mu, known),
                )
            )
        caption = (
            f"{result.joint.title}: pull at {self.mm(result.joint.arm, 3)}; its bushes start with a friction "
            f"of {show_number(known.least, 2)} to {show_number(known.most, 2)}"
        )
        return grid(
            "Pull and friction",
            caption,
            ("on the scale", "force", "friction, all of it", "what it says"),
            rows,
        )

    def plays(self, result: Result) -> Grid:
        """What to add or take out for the end play measured."""
        low, high = result.stack.window
        rows = []
        for share in PLAYS:
            play = share * high
            ends = [float(filler_wanted(play, end)) for end in (high, low)]
            rows.append((self.measures.value(play, "mm", 2), self._fillers(ends, play, low, high)))
        caption = f"{result.joint.title}: {self.measures.range(low, high, 'mm').line} aimed at"
        return grid("End play and filler", caption, ("end play measured", "do"), rows)

    def _fillers(self, ends, play, low, high) -> str:
        if low <= play <= high:
            return "leave it"
        least, most = sorted(abs(end) for end in ends)
        told = self.measures.range(least, most, "mm").line
        return (
            f"add {told}" if play > high else f"pinches: take out at least {self.mm(low)} and measure again"
        )

    def pressed(self, result: Result) -> Grid:
        """Pressure, push force and hoop stress of bearing 1 of a joint by the interference measured."""
        bearing, housing = result.joint.bearings[0], result.joint.housings[0]
        ring, wall = ring_of(bearing, self.edition.course), wall_of(housing.stock, housing.edge)
        reach = reach_of(ring, wall)
        width = bearing.width if isinstance(bearing, BallBearing) else bearing.length
        length = engaged_length(width.typical, housing.stock.thickness.typical)
        friction, k_h = press_friction(housing.stock.kind).typical, hub_ratio(wall.hub, ring.outside)
        k_b = bush_ratio(ring.outside, ring.inside)
        rows = []
        marks = {0.0, reach.cracks / 2, *(end for end in reach if end < reach.cracks), reach.cracks}
        for tight in sorted(marks):
            p = press_pressure(
                tight, ring.outside, k_h, wall.poisson, wall.modulus, k_b, ring.poisson, ring.modulus
            )
            rows.append(
                (
                    self.measures.size(float(interference(ring.outside, ring.outside - tight))),
                    self.measures.value(float(push_force(friction, ring.outside, length, p)), "N", 2),
                    self.measures.value(float(hub_stress(p, k_h)), "MPa", 2),
                    _strained(tight, reach, wall.kind, bearing),
                )
            )
        caption = (
            f"{bearing.name} in {housing.stock.name}, {self.mm(housing.edge, 3)} from the nearest edge; "
            f"stands {self.measures.value(wall.long, 'MPa', 2).line} for good, "
            f"{self.measures.value(wall.short, 'MPa', 2).line} for a moment"
        )
        heads = ("interference", "pushes out with", "hoop stress", "what it says")
        return grid(f"Pressed in {housing.stock.id}", caption, heads, rows)

    def walked(self, result: Result) -> Walked:
        """How fast the loose ring of bearing 1 may walk."""
        bearing, found = result.joint.bearings[0], result.quantities
        if inner_ring_goes_round(result.joint):
            ring, room = "inner", max(0.0, found["fit_1"].band.most)
            walk = float(ring_walk(room, bearing.bore.typical))
        else:
            ring, room = "outer", max(0.0, -found["interference_1"].band.least)
            walk = float(pin_walk(room, bearing.outside_diameter.typical))
        turns = float(loads_to_walk(1.0, walk)) if walk else 0.0
        return Walked(ring, room, turns, turns / result.joint.motion.rate / 60)

    def swollen(self, result: Result) -> Grid:
        """Clearance left of a nylon bush that has taken up water."""
        c, d, D = _nylon(result)
        at, grown = swelling("nylon", "typical")
        rows = []
        for damp in DAMP:
            e = float(growth_in(damp, at, grown))
            left = [
                float(swollen_clearance(c, grows(e, d, D))) for grows in (relaxed_swelling, held_swelling)
            ]
            rows.append((f"{damp:g} %", f"{show_number(100 * e, 2)} %", *map(self._left, left)))
        caption = (
            f"{result.joint.bearings[0].name}, {self.mm(c)} of clearance when dry as moulded; after months "
            "in a hole that does not give"
        )
        heads = ("air, or water (100 %)", "grows by", "left, ends free", "left, ends held")
        return grid("Nylon and water", caption, heads, rows)

    def seizes(self, result: Result) -> float:
        """Humidity, per cent, at which a nylon bush with its ends held seizes; endless where none does."""
        return float(humidity_of(seizing_growth(*_nylon(result)), *swelling("nylon", "typical")))

    def _left(self, clearance: float) -> Both | str:
        return self.measures.value(clearance, "mm", 2) if clearance > 0 else "none: it seizes"


def _nylon(result: Result) -> tuple[float, float, float]:
    """Clearance, bore and outside diameter of bearing 1 at typical sizes, mm."""
    inputs = result.inputs
    return (
        result.quantities["clearance_1"].typical,
        inputs["bore_1"].typical,
        inputs["outside_diameter_1"].typical,
    )


def _judged(clearance: float, sure: float, made: Band) -> str:
    if clearance - sure > made.most:
        return "more than any is made with: worn, or a hole too large"
    if clearance + sure < made.least:
        return "less than any is made with: read again"
    if clearance > made.most:
        return "perhaps more than any is made with: use a longer arm"
    return "made so"


def _brakes(mu: float, known: Band) -> str:
    return "something else brakes it" if mu > known.most else "easier than expected: is all the load on it?"


def _strained(tight: float, reach, kind: str, bearing) -> str:
    """What an interference does to housing and bearing."""
    if not tight:
        return "falls out"
    if tight >= reach.cracks:
        told = "yields" if kind == "metal" else "cracks"
    else:
        lasting = "creeps with time" if kind == "wood" else "crazes or creeps with time"
        told = lasting if tight >= reach.strains else "stands it"
    if tight < reach.closes:
        return told
    full = (
        "balls pressed together"
        if isinstance(bearing, BallBearing)
        else "bore closed on the largest shoulder"
    )
    return f"{told}; {full}"
