"""What happens in a joint: quantities with bands, shares of causes, verdicts, worked steps."""

import numpy as np

from guidegen.errors import CannotBuild
from guidegen.joint import play as playing
from guidegen.joint.endplay import own_axial_play
from guidegen.joint.inputs import banded, seats, shaft_hole, without
from guidegen.joint.loads import bent, carried
from guidegen.joint.records import Joint, Quantity, Result, Stack
from guidegen.joint.rows import Rows, first
from guidegen.joint.sample import likely_range, sobol, within
from guidegen.joint.stack import ENGAGED, resolve
from guidegen.joint.verdicts import Yes, verdicts
from guidegen.joint.working import Working
from guidegen.kit.records import Course
from guidegen.theory import freeplay
from guidegen.theory import stack as axial
from guidegen.theory.clearance import drawn_hole
from guidegen.units import Band

CAUSES = ("shoulder", "bearing", "housing", "closure")
PERMISSIBLE = 0.003  # rad, slope of the shaft in a ball bearing; Shigley 9th ed. Table 7-2, upper end


def evaluate(joint: Joint, course: Course) -> Result:
    """Everything about one joint. What cannot be built becomes a verdict with the reason."""
    return _Evaluation(joint, course).result()


class _Evaluation:
    def __init__(self, joint: Joint, course: Course):
        self.joint, self.course, self.work = joint, course, Working()
        self.quantities: dict[str, Quantity] = {}
        self.pressed: dict[int, Quantity] = {}  # bores of bushes after pressing
        self.answers: dict[str, Yes] = {}
        self.limits = {
            "target_tilt": course.target_travel / (2 * course.target_arm),
            "pitch": joint.thread.pitch,
            "nut_grip": ENGAGED * joint.thread.diameter,
        }
        self.seats = seats(joint, course)
        self.bands = banded(joint, self.seats)
        self.hole_beside = _hole_beside(joint)
        self.rows = Rows(self.bands | _each_hole(self.hole_beside))

    def result(self) -> Result:
        joint, stack = self.joint, self._stack()
        self.cheeks = (
            ()
            if stack is None
            else [(row.z_from + row.z_to) / 2 for row in stack.placed if row.kind == "cheek"]
        )
        overhang = joint.overhang if stack is None else stack.z_load - stack.z_bearings[-1]
        self._holes()
        play = self._free_play(overhang)
        shares = self._shares(play.tilt)
        if stack is not None:
            self._axial(stack)
        if overhang is not None:
            self._loads(stack, overhang, play)
        self._arm_and_cheeks(play)
        judged = verdicts(self.quantities, self.answers, self.limits)
        return Result(
            joint,
            stack,
            self._inputs(overhang, stack),
            self.quantities,
            shares,
            judged,
            tuple(self.work.steps),
        )

    def _put(self, name, values, unit, banded=True, among=None):
        """Keep a quantity: with its band and likely range, or as one number."""
        if banded:
            self.quantities[name] = Quantity(
                unit, band=self.rows.band(values, among), likely=self.rows.likely(values, among)
            )
        else:
            self.quantities[name] = Quantity(unit, value=first(values))

    def _stack(self) -> Stack | None:
        joint = self.joint
        try:
            stack = resolve(joint, self.course.parts)
        except CannotBuild as refused:
            self.answers["buildable"] = Yes(False, False, refused.why)
            return None
        alone = (
            joint.single
            and self.seats[0].ball
            and (joint.axial * joint.arm or joint.radial * (stack.z_load - stack.z_bearings[0]))
        )
        self.answers["buildable"] = Yes(
            not alone,
            not alone,
            "one ball bearing alone carries no couple: it tips under this load" if alone else "",
        )
        self.answers["faces"] = Yes(
            not stack.faults, not stack.faults, "; ".join(dict.fromkeys(stack.faults))
        )
        if joint.stack_ids:
            self._judge_listed(stack)
        return stack

    def _judge_listed(self, stack: Stack):
        """A stack that the joint file lists is judged as it lies there, at typical sizes."""
        (low, high), play = stack.window, stack.end_play.typical
        fits = low - 1e-9 <= play <= high + 1e-9
        why = f"the listed parts leave {play:.2f} mm of end play; wanted: {low:.2f} to {high:.2f} mm"
        self.answers["listed"] = Yes(fits, fits, "" if fits else why)

    def _holes(self):
        for n, seat in enumerate(self.seats, 1):
            drawn = (
                self.work(drawn_hole, f"drawn_hole_{n}", D_m=seat.wanted, b=seat.bias)
                if seat.bias or seat.drawn == seat.wanted
                else seat.drawn
            )
            self._put(f"drawn_hole_{n}", drawn, "mm", banded=False)

    def _free_play(self, overhang):
        joint = self.joint
        play = playing.free_play(
            self.work,
            self.seats,
            self.rows.columns,
            separation=joint.separation,
            overhang=overhang,
            arm=joint.arm,
            offset=joint.offset or 0.0,
            clamped=joint.clamped,
        )
        for n, (seat, one) in enumerate(zip(self.seats, play.guided), 1):
            self._put(f"clearance_{n}", one.clearance, "mm")
            if not (joint.clamped and seat.ball):
                self._put(f"fit_{n}", one.fit, "mm")
            self._put(f"interference_{n}", one.interference, "mm")
            self._put(f"press_pressure_{n}", one.pressure, "MPa")
            self._put(f"hub_stress_{n}", one.hub_stress, "MPa")
            self._put(f"closure_{n}", one.closure, "mm")
            if not seat.ball:
                self.pressed[n] = Quantity(
                    "mm", band=self.rows.band(one.bore), likely=self.rows.likely(one.bore)
                )
            else:
                self._put(f"preload_margin_{n}", one.preload, "mm")
                self._put(f"free_tilt_{n}", one.free_tilt, "rad")
        self._put("tilt", play.tilt, "rad")
        if play.lean is not None:
            self._put("lean", play.lean, "rad", among=np.broadcast_to(play.binds <= 0, np.shape(play.lean)))
        self._put("arm_play", play.arm_play, "mm")
        if play.load_play is not None:
            self._put("load_play", play.load_play, "mm")
        if play.offset_limit is not None:
            self._put("offset_limit", play.offset_limit, "mm")
        if joint.offset:
            self.limits["offset"] = abs(joint.offset)
            box = np.atleast_1d(play.binds)[: 1 + self.rows.corners]
            passes, always = bool(box[0] <= 0), bool(np.all(box <= 0))
            when = "" if not passes else ", at the worst sizes within their limits,"
            why = f"with the bores {abs(joint.offset):g} mm apart{when} no straight shaft passes through both"
            self.answers["binds"] = Yes(passes, always, "" if always else why)
        return play

    def _shares(self, tilt):
        """Share of each cause in the typical tilt: what its removal alone takes away, and what remains."""
        whole = first(tilt)
        if whole <= 0:
            return {}
        shares = {}
        for cause in CAUSES:
            bands = without(cause, self.bands, self.seats, self.joint.shaft.nominal)
            typical = {name: band.typical for name, band in bands.items()}
            left = playing.free_play(
                Working(),
                self.seats,
                typical,
                separation=self.joint.separation,
                overhang=None,
                arm=self.joint.arm,
                offset=self.joint.offset or 0.0,
                clamped=self.joint.clamped,
            ).tilt
            shares[cause] = (whole - first(left)) / whole
        return shares | {"together": 1 - sum(shares.values())}

    def _axial(self, stack: Stack):
        put, work, joint = self.quantities, self.work, self.joint
        put["end_play"] = Quantity("mm", band=stack.end_play, likely=stack.end_play_likely)
        if joint.clamped:
            between = sum(
                row.thickness.typical for row in stack.placed if row.within and row.kind != "bearing"
            )
            rings = joint.separation - sum(seat.width for seat in self.seats) / 2
            P_1, P_2 = (own_axial_play(b, b.internal_clearance.typical) for b in joint.bearings)
            work(axial.clamped_end_play, "end_play", P_1=P_1, P_2=P_2, H_i=between, H_o=rings)
        else:
            taken = sum(
                row.thickness.typical for row in stack.placed if row.on == "shoulder" and not row.within
            )
            play = work(axial.end_play, "end_play", L_s=stack.shoulder, T_s=taken)
            if play >= 0:
                D_1, D_2 = stack.face_diameters
                work(freeplay.face_tilt, "face_tilt", j=play, D_1=D_1, D_2=D_2)
                ends = (
                    max(0.0, j) for j in (stack.end_play.least, stack.end_play.typical, stack.end_play.most)
                )
                put["face_tilt"] = Quantity(
                    "rad",
                    band=Band(*(freeplay.face_tilt(j, D_1, D_2) for j in ends)),
                    likely=tuple(freeplay.face_tilt(max(0.0, j), D_1, D_2) for j in stack.end_play_likely),
                )
        put["chance_pinched"] = Quantity("-", value=stack.chance_pinched)
        put["chance_fits"] = Quantity("-", value=stack.chance_fits)
        on_thread = sum(row.thickness.typical for row in stack.placed if row.on == "thread")
        work(axial.thread_room, "thread_room", l_t=stack.thread_end - stack.z_face, T_t=on_thread)
        put["thread_room"] = Quantity("mm", value=stack.thread_room)
        self._nuts(stack)

    def _nuts(self, stack: Stack):
        heights = [row.thickness for row in stack.placed if row.kind == "nut"]
        if not heights:
            return
        sampled = sum(within(heights, sobol(len(heights)))) - sum(height.least for height in heights)
        likely = likely_range(stack.nut_engaged.least + sampled)
        self.quantities["nut_engaged"] = Quantity("mm", band=stack.nut_engaged, likely=likely)

    def _loads(self, stack, overhang, play):
        joint, work = self.joint, self.work
        if stack is not None and joint.layout == "A" and joint.plate_on_thread:
            work(
                axial.arm_overhang,
                "overhang",
                z_f=stack.z_face,
                z_2=stack.z_bearings[-1],
                t_p=joint.on_thread.stock.thickness.typical,
            )
        load = carried(work, joint, overhang)
        for n, (reaction, worst) in enumerate(zip(load.reactions, load.loads), 1):
            self._put(f"reaction_{n}", reaction, "N", banded=False)
            self._put(f"bearing_load_{n}", worst, "N", banded=False)
        if not joint.single:
            self._put("couple_force", load.couple_force, "N", banded=False)
        self._put("thrust", load.thrust, "N", banded=False)
        shaft = bent(work, joint, stack, overhang, load.couple, first(self.rows.columns["shaft_diameter"]))
        if shaft is None:
            return
        self._put("shaft_moment", shaft.moment, "N·mm", banded=False)
        self._put("bending_stress", shaft.stress, "MPa", banded=False)
        self._put("deflection", shaft.deflection, "mm", banded=False)
        if shaft.yield_factor is not None:
            self._put("yield_factor", shaft.yield_factor, "-", banded=False)
        for n, slope in enumerate(shaft.slopes, 1):
            self._put(f"slope_{n}", slope, "rad", banded=False)
        if not joint.single:
            rest = playing.settled(work, play, joint.separation, joint.straddle)
            for n, (slope, one, seat) in enumerate(zip(shaft.slopes, play.guided, self.seats), 1):
                self._put(f"lean_under_load_{n}", slope + rest, "rad", banded=False)
                self.limits[f"lean_limit_{n}"] = (
                    PERMISSIBLE if seat.ball else first(one.clearance) / first(one.length)
                )

    def _arm_and_cheeks(self, play):
        """Play of what the screw itself sits in: fork cheeks, or an arm on the shoulder."""
        seen = play.tilt
        if self.cheeks and "cheek_hole" in self.hole_beside:
            seen = seen + self._in_cheeks()
        elif "arm_hole" in self.hole_beside:
            seen = seen + self._in_arm()
        self._put("seen_tilt", seen, "rad")

    def _in_cheeks(self):
        thick, columns = self.joint.cheeks.stock.thickness.typical, self.rows.columns
        room = [np.maximum(0, columns[f"cheek_hole_{n}"] - columns["shaft_diameter"]) for n in (1, 2)]
        span = freeplay.outer_span(self.cheeks[-1] - self.cheeks[0], thick, thick)
        tilt = self.work(
            freeplay.bush_pair_tilt, "cheek_tilt", c_1=room[0], c_2=room[1], B=span, L_1=thick, L_2=thick
        )
        self._put("cheek_tilt", tilt, "rad")
        return tilt

    def _in_arm(self):
        columns, thick = self.rows.columns, self.joint.arm_plate.stock.thickness.typical
        room = np.maximum(0, columns["arm_hole"] - columns["shaft_diameter"])
        tilt = self.work(freeplay.bush_tilt, "arm_tilt", c=room, L=thick)
        self._put("arm_tilt", tilt, "rad")
        return tilt

    def _inputs(self, overhang, stack):
        joint = self.joint
        inputs = {
            "arm": Quantity("mm", joint.arm),
            "radial": Quantity("N", joint.radial),
            "axial": Quantity("N", joint.axial),
            "shock": Quantity("-", joint.shock),
            "offset": Quantity("mm", joint.offset or 0.0),
            "youngs_modulus": Quantity("MPa", joint.youngs_modulus),
            "yield_stress": Quantity("MPa", joint.yield_stress),
        }
        if joint.separation is not None:
            inputs["separation"] = Quantity("mm", joint.separation)
        if overhang is not None:
            inputs["overhang"] = Quantity("mm", overhang)
        for name, band in {**self.bands, **self.hole_beside}.items():
            unit = "MPa" if "modulus" in name else "mm"
            inputs[name] = Quantity(unit, band=band) if band.width else Quantity(unit, value=band.typical)
        if "arm_hole" in self.hole_beside:
            inputs["arm_thickness"] = Quantity("mm", joint.arm_plate.stock.thickness.typical)
        return inputs | self._seat_inputs() | self._held_inputs(stack) | self._axial_inputs(stack)

    def _seat_inputs(self):
        found = {}
        for n, (seat, housing) in enumerate(zip(self.seats, self.joint.housings), 1):
            found |= {
                f"width_{n}": Quantity("mm", seat.width),
                f"hub_diameter_{n}": Quantity("mm", seat.hub),
                f"housing_poisson_{n}": Quantity("-", seat.housing_poisson),
                f"modulus_{n}": Quantity("MPa", seat.modulus),
                f"poisson_{n}": Quantity("-", seat.poisson),
                f"bias_{n}": Quantity("mm", seat.bias),
            }
            if seat.ball:
                free = self.quantities[f"free_tilt_{n}"]
                found |= {
                    f"length_{n}": Quantity("mm", 0.0),
                    f"ball_diameter_{n}": Quantity("mm", seat.bearing.ball_diameter),
                    f"pitch_diameter_{n}": Quantity("mm", seat.bearing.pitch_diameter),
                    f"free_tilt_{n}": free,
                }
            elif seat.pressed is None:
                found[f"bore_{n}"] = self.pressed[n]
        return found

    def _axial_inputs(self, stack):
        if stack is None:
            return {}
        screw, thread = self.joint.shaft, self.joint.thread
        found = {
            "shoulder_length": Quantity("mm", band=screw.shoulder_length),
            "thread_length": Quantity("mm", screw.thread_length),
            "neck_width": Quantity("mm", screw.neck_width),
            "thread_diameter": Quantity("mm", thread.diameter),
            "pitch": Quantity("mm", thread.pitch),
        }
        for n, across in enumerate(stack.face_diameters or (), 1):
            found[f"face_diameter_{n}"] = Quantity("mm", across)
        return found

    def _held_inputs(self, stack):
        if stack is None:
            return {}
        if self.joint.layout == "B":
            return {"fixed_at": Quantity("mm", stack.z_face)}
        if self.joint.layout == "C":
            return {"support_1": Quantity("mm", self.cheeks[0]), "support_2": Quantity("mm", self.cheeks[-1])}
        return {f"support_{n}": Quantity("mm", z) for n, z in enumerate(stack.z_bearings, 1)}


def _hole_beside(joint: Joint) -> dict[str, Band]:
    """The hole through which the shoulder passes with room: in both cheeks of a fork, or in an arm on it."""
    if joint.clamped:
        return {}
    if joint.layout == "C":
        return {"cheek_hole": shaft_hole(joint, joint.cheeks)}
    if joint.arm_between and joint.arm_plate.fit != "bonded":
        return {"arm_hole": shaft_hole(joint, joint.arm_plate)}
    return {}


def _each_hole(beside):
    """The same, one band for each hole that is made."""
    if "cheek_hole" in beside:
        return {f"cheek_hole_{n}": beside["cheek_hole"] for n in (1, 2)}
    return beside
