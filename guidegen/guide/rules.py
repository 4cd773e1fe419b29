"""Rules that people have heard, each with where it belongs, the number for this course, and a verdict."""

from dataclasses import dataclass
from functools import cached_property
from typing import Iterator, Literal, NamedTuple

from markupsafe import Markup

from guidegen.guide.edition import Edition
from guidegen.guide.examples import example, link
from guidegen.guide.templates import upper_first
from guidegen.guide.wobble import alone_travel, clearances_alike, seen_travel
from guidegen.joint.records import Result
from guidegen.joint.tightening import tightened
from guidegen.kit.lookup import edge_distance, nut_factor, thread
from guidegen.kit.metals import galvanic_limit, surface
from guidegen.kit.records import NO_METAL, BallBearing, Nut, SleeveBushing
from guidegen.kit.fasteners import hand_force
from guidegen.numbers import percent, show_number
from guidegen.theory import (
    ball,
    beam,
    clamp,
    corrosion,
    freeplay,
    nuts,
    pressfit,
    statics,
)

Says = Literal["true", "half true", "not here"]
PER_THOUSAND = 1e-3  # of the diameter, a fit that machinists learn for steel in steel


class Rule(NamedTuple):
    """A rule as it is heard; where it comes from and holds; what is so here; what to make of it."""

    key: str
    heard: str
    belongs: str
    here: Markup | str
    verdict: Says
    so: str  # what to do


@dataclass(frozen=True)
class Rules:
    """The rules of one guide, told with the numbers of its own joints; those without an example fall away."""

    edition: Edition

    def told(self) -> list[Rule]:
        """All that this course has numbers for, in the order of building a joint."""
        ways = (
            *(self._spacing, self._over_separation, self._overhang, self._two, self._nominal, self._no_play),
            *(self._length, self._thousandth, self._closing, self._kerf, self._tighter, self._pressure_speed),
            *(self._cube, self._wear, self._thrust, self._turning_ring),
            *(self._torque, self._quarter, self._hand, self._stainless),
        )
        return [rule for way in ways for rule in way()]

    def _size(self, mm: float, digits=2) -> str:
        return self.edition.measures.value(mm, "mm", digits).line

    def _value(self, x: float, unit: str, digits=2) -> str:
        return self.edition.measures.value(x, unit, digits).line

    @cached_property
    def bushes(self) -> Result | None:
        """A joint on two like bushes, nothing else in it loose."""
        return example(self.edition, lambda one: _like_pair(one) and not _ball(one))

    @cached_property
    def balls(self) -> Result | None:
        """A joint on two ball bearings with loose rings, nothing else in it loose."""
        return example(self.edition, lambda one: _like_pair(one) and _ball(one) and not one.joint.clamped)

    def _spacing(self) -> Iterator[Rule]:
        one = self.bushes
        if one is None:
            return
        joint, course = one.joint, self.edition.course
        arm, d, L = course.target_arm, joint.shaft.nominal, one.inputs["length_1"].typical
        c = one.quantities["clearance_1"].band

        def travel(times, room):
            span = freeplay.outer_span(times * d, L, L)
            return freeplay.arm_travel(arm, freeplay.bush_pair_tilt(room, room, span, L, L))

        tilt = course.target_travel / (2 * arm)
        needed = max(c.most / tilt - L, L)
        two = self._size(travel(2, c.typical))
        yield Rule(
            "spacing",
            "Set the bearings one and a half to two shaft diameters apart.",
            "Machines with close fits, where it keeps the forces of an overhung load in bounds. It says "
            "nothing "
            "of wobble.",
            Markup(
                "{}: two diameters, {}, between the middles let the tip of a {} arm travel {} at typical "
                "sizes "
                "and {} at the worst. To stay within {} at the worst they must be {} apart."
            ).format(
                link(one),
                self._size(2 * d),
                self._size(arm, 3),
                two,
                self._size(travel(2, c.most)),
                self._size(course.target_travel),
                self._size(needed),
            ),
            "half true",
            "Take the separation from the wobble you can bear, not from the diameter.",
        )

    def _over_separation(self) -> Iterator[Rule]:
        one = self.bushes
        if one is None:
            return
        joint, L = one.joint, one.inputs["length_1"].typical
        span = freeplay.outer_span(joint.separation, L, L)
        c, arm = one.quantities["clearance_1"].typical, joint.arm
        true = freeplay.arm_travel(arm, freeplay.bush_pair_tilt(c, c, span, L, L))
        yield Rule(
            "over-separation",
            "Wobble is clearance over the distance between the bearings.",
            "Two short bearings far apart, or ball bearings, each of which acts in one plane. A bush "
            "guides the "
            "shaft over its whole length.",
            Markup(
                "{}: middles {} apart, outer ends {}. The rule gives {} at the tip, the ends {}: it "
                "overstates by {}."
            ).format(
                link(one),
                self._size(joint.separation),
                self._size(span),
                self._size(true * span / joint.separation),
                self._size(true),
                percent(span / joint.separation - 1),
            ),
            "half true",
            "Measure from the far end of one bush to the far end of the other.",
        )

    def _overhang(self) -> Iterator[Rule]:
        one = example(self.edition, lambda each: _like_pair(each) and each.joint.layout == "A")
        if one is None:
            return
        S, F = one.joint.separation, one.joint.radial
        half, whole = (statics.reaction_2(1.0, F, part * S, S) for part in (0.5, 1.0))
        E, I = one.joint.youngs_modulus, beam.second_moment(one.joint.shaft.shoulder_diameter.typical)
        bends = [beam.overhung_deflection(F, part * S, S, 0.0, E, I) for part in (0.5, 1.0)]
        yield Rule(
            "overhang",
            "Keep the load no farther out than half the distance between the bearings.",
            "Loads and bending: with half, bearing 2 carries one and a half times the load; with the "
            "whole, twice.",
            Markup(
                "{}, {} apart: {} beyond by half push bearing 2 with {}, beyond by the whole with {}; and "
                "the "
                "screw bends {} times as far. The tilt of its free play is the same in both."
            ).format(
                link(one),
                self._size(S),
                self._value(F, "N"),
                self._value(half, "N"),
                self._value(whole, "N"),
                show_number(bends[1] / bends[0], 2),
            ),
            "true",
            "Follow it for load and bending. Against wobble it does nothing: that goes with separation.",
        )

    def _two(self) -> Iterator[Rule]:
        one = self.bushes
        if one is None:
            return
        alone, pair = alone_travel(one), seen_travel(one).typical
        yield Rule(
            "two",
            "Two bearings wobble half as much as one.",
            "Nowhere: the second bearing does not share the wobble, it gives it a longer lever.",
            Markup("{}: one bush alone lets the tip travel {}, both {}: {} times less.").format(
                link(one), self._size(alone), self._size(pair), show_number(alone / pair, 2)
            ),
            "not here",
            "Use two, far apart. One alone needs a bore longer than it is wide, or a load that never tips "
            "it.",
        )

    def _nominal(self) -> Iterator[Rule]:
        found = [one for one in self.edition.results if _ball(one) and one.shares.get("shoulder")]
        if not found:
            return
        one = max(found, key=lambda each: (each.shares["shoulder"], each.id))
        screw = one.joint.shaft
        under = [screw.nominal - size for size in _ends(screw.shoulder_diameter)]
        yield Rule(
            "nominal",
            "A shoulder screw is as thick as its name says.",
            "Nowhere: it is ground under size, so that it goes into a hole of its name.",
            Markup(
                "{}: {} is {} to {} thinner than {}. In this joint on ball bearings that makes {} of the "
                "wobble."
            ).format(
                link(one),
                screw.name,
                self._size(min(under)),
                self._size(max(under)),
                self.edition.measures.exact(screw.nominal).line,
                percent(one.shares["shoulder"]),
            ),
            "not here",
            "Ball bearings do not cure a loose shoulder. Clamp the inner rings, or choose a screw with "
            "closer limits.",
        )

    def _no_play(self) -> Iterator[Rule]:
        one = self.balls
        if one is None:
            return
        bearing = one.joint.bearings[0]
        play, tilt = bearing.internal_clearance, one.quantities["free_tilt_1"].typical
        yield Rule(
            "no-play",
            "A ball bearing has no play.",
            "Bearings that are pushed against each other on purpose. A single one has room inside by "
            "standard.",
            Markup(
                "{}: {} to {} between balls and rings, and alone on its shoulder it tilts by {} each way, "
                "{} at the tip of a {} "
                "arm."
            ).format(
                upper_first(bearing.name),
                *(self._size(size) for size in _ends(play)[::2]),
                self._value(tilt, "rad"),
                self._size(freeplay.arm_travel(100.0, tilt)),
                self._size(100.0, 3),
            ),
            "not here",
            "One ball bearing alone is a ball joint. Two, apart and clamped, are stiff.",
        )

    def _length(self) -> Iterator[Rule]:
        one = self.bushes
        if one is None:
            return
        c, d, arm = (
            one.quantities["clearance_1"].typical,
            one.joint.shaft.nominal,
            self.edition.course.target_arm,
        )
        square, double = (freeplay.arm_travel(arm, freeplay.bush_tilt(c, times * d)) for times in (1, 2))
        yield Rule(
            "length",
            "A bush should be as long as its bore is wide.",
            "Pressure and cooling of bushes that run. Shorter ones press harder, much longer ones bear on "
            "their ends.",
            Markup(
                "With the clearance of {}, {}, one bush so long lets the tip of a {} arm travel {}, one "
                "twice as long {}."
            ).format(link(one), self._size(c), self._size(arm, 3), self._size(square), self._size(double)),
            "half true",
            "It fits bushes in pairs. A joint on a single bush wants it two or three times as long.",
        )

    def _pressed(self, times: float):
        """(stock, hub stress, closure over interference) of a bush pressed by so much of its diameter."""
        bush = self._bush
        if bush is None:
            return []
        course, found = self.edition.course, []
        material = course.materials[bush.material]
        D, d = bush.outside_diameter.typical, bush.free_bore.typical
        for stock in course.stocks.values():
            k_h = pressfit.hub_ratio(2 * edge_distance(stock.kind)[1] * D, D)
            modulus = (stock.modulus_along + stock.modulus_across) / 2
            k_b = pressfit.bush_ratio(D, d)
            p = pressfit.press_pressure(
                times * D, D, k_h, stock.poisson, modulus, k_b, material.poisson, material.youngs_modulus
            )
            closes = pressfit.bore_closure(p, D, d, material.youngs_modulus) / (times * D)
            found.append((stock, pressfit.hub_stress(p, k_h), closes))
        kinds = {}
        for row in found:  # the stiffest of each kind is enough
            best = kinds.setdefault(row[0].kind, row)
            if row[2] > best[2]:
                kinds[row[0].kind] = row
        return list(kinds.values())

    @cached_property
    def _bush(self) -> SleeveBushing | None:
        joint = self.bushes.joint if self.bushes else None
        return next((b for b in joint.bearings if isinstance(b, SleeveBushing)), None) if joint else None

    def _thousandth(self) -> Iterator[Rule]:
        rows = self._pressed(PER_THOUSAND)
        if not rows:
            return
        told = "; ".join(
            f"{stock.name} {self._value(stress, 'MPa')} of {self._value(stock.hoop_limit_long, 'MPa')} "
            f"that it "
            "stands for good"
            for stock, stress, _ in rows
        )
        yield Rule(
            "thousandth",
            "A press fit is one part in a thousand of the diameter.",
            "Steel in steel or cast iron, turned and ground. In soft stock no machine of a workshop hits it.",
            f"{upper_first(self._bush.name)}, "
            f"{self._size(PER_THOUSAND * self._bush.outside_diameter.typical)} "
            f"larger than its hole: {told}. A laser's holes scatter by several times that.",
            "half true",
            "Right for reamed metal. Elsewhere the scatter of the machine decides: make a test strip.",
        )

    def _closing(self) -> Iterator[Rule]:
        rows = self._pressed(PER_THOUSAND)
        if not rows:
            return
        told = ", ".join(f"{stock.name} {percent(closes)}" for stock, _, closes in rows)
        yield Rule(
            "closing",
            "The bore of a bush closes by most of the interference.",
            "Steel housings, for which the common figure of 70 to 100 % was taken.",
            f"{upper_first(self._bush.name)}: of the interference its bore loses in {told}. Soft stock "
            f"gives way "
            "itself.",
            "half true",
            "Expect it in metal; in wood, plastic and prints the bore hardly changes.",
        )

    def _kerf(self) -> Iterator[Rule]:
        process = next((one for one in self.edition.course.processes.values() if one.kerf), None)
        if process is None:
            return
        kerf = process.kerf
        yield Rule(
            "kerf",
            "Take half the kerf off.",
            "The radius. A cut that runs on the drawn line takes half its width from each side of the hole.",
            Markup(
                "{} wide cuts: the diameter grows by the whole {}. Halving it once more makes the hole {} "
                "too large. "
                '<a href="holes.html#kerf">All of it</a>.'
            ).format(self._size(kerf), self._size(kerf), self._size(kerf / 2)),
            "half true",
            "Off the diameter goes the whole width, unless the machine's program takes it off already.",
        )

    def _tighter(self) -> Iterator[Rule]:
        plastics = [stock for stock in self.edition.course.stocks.values() if stock.kind == "plastic"]
        if not plastics:
            return
        stock = min(plastics, key=lambda each: (each.hoop_limit_long / each.hoop_limit_short, each.id))
        yield Rule(
            "tighter",
            "If in doubt, make the press fit tighter.",
            "Metal that yields before it breaks.",
            Markup(
                "{} stands {} for a moment, but only {} for good: what goes in without a sound may craze "
                "weeks later."
            ).format(
                upper_first(stock.name),
                self._value(stock.hoop_limit_short, "MPa"),
                self._value(stock.hoop_limit_long, "MPa"),
            ),
            "not here",
            "If in doubt, make it looser: a loose bearing takes a drop of glue, a cracked plate goes in "
            "the bin.",
        )

    def _pressure_speed(self) -> Iterator[Rule]:
        found = [one for one in self.edition.results if one.quantities.get("pv_1") and one.stack]
        found = [one for one in found if one.quantities["pv_1"].typical]
        if not found:
            return
        one = example(self.edition, lambda each: each in found) or found[0]
        v, pv = one.quantities["sliding_speed"].typical, one.inputs["pv_ceiling_1"].value
        by_pv, limit = pv / v, one.inputs["pressure_ceiling_1"].value
        yield Rule(
            "pressure-speed",
            "Pressure times speed is the number that counts for a bush.",
            "Bushes that run fast and without rest: it stands for the heat.",
            Markup("{} slides at {}: its product alone would allow {}; its material bears {}.").format(
                link(one), self._value(v, "m/s"), self._value(by_pv, "MPa"), self._value(limit, "MPa")
            ),
            "half true",
            "Three limits, each by itself: pressure, speed, and their product. Slow joints are held by "
            "pressure.",
        )

    def _cube(self) -> Iterator[Rule]:
        if self.balls is None:
            return
        life = ball.rating_life(2.0, 1.0) / ball.rating_life(2.0, 2.0)
        yield Rule(
            "cube",
            "Twice the load, half the life.",
            "Bushes, where wear goes with load times path.",
            f"A ball bearing tires {show_number(life, 2)} times sooner under twice the load, a bush wears "
            f"twice as "
            "fast. A ball bearing that swings through a small angle does not tire at all by that "
            "reckoning: its "
            "balls dent or fret their places instead.",
            "half true",
            "Halving the load on a ball bearing is worth more than a bearing twice as good.",
        )

    def _wear(self) -> Iterator[Rule]:
        name = "arm_play_1e6"
        found = [one for one in self.edition.results if name in one.quantities and _like_pair(one)]
        if not found:
            return
        one = example(self.edition, lambda each: each in found) or found[0]
        new, worn = one.quantities["arm_play"].typical, one.quantities[name].band
        yield Rule(
            "wear",
            "Measure the wobble once, when the joint is new.",
            "Joints that seldom move.",
            Markup("{}: {} new, {} after a million cycles at typical wear, {} at the most.").format(
                link(one), self._size(new), self._size(worn.typical), self._size(worn.most)
            ),
            "half true",
            "Ask for the wobble at the end of its time, not on the first day.",
        )

    def _thrust(self) -> Iterator[Rule]:
        if self.balls is None:
            return
        one = self.balls
        rating = one.inputs["static_rating_1"].value
        share = ball.thrust_share(one.joint.bearings[0].nominal)
        yield Rule(
            "thrust",
            "A small ball bearing takes half its static rating from the side.",
            "Bearings of middling size. For light ones and for bores up to 12 mm makers print a quarter; "
            "other pages "
            "print shares of the dynamic rating or of the unused radial load.",
            Markup("{}: static rating {}; {} of it are {}. Judged here by that, shock and all.").format(
                upper_first(one.joint.bearings[0].name),
                self._value(rating, "N", 3),
                percent(float(share)),
                self._value(float(ball.thrust_limit(share, rating)), "N"),
            ),
            "half true",
            "Use the share for its size. A push through the balls while pressing in counts too.",
        )

    def _turning_ring(self) -> Iterator[Rule]:
        if self.balls is None:
            return
        yield Rule(
            "turning-ring",
            "The ring that turns must sit tight.",
            "Shafts that turn under a load that stands still, which is most of what is built.",
            Markup(
                "What counts is which ring the load goes round. In layout A under a fixed load that is the "
                "inner ring; "
                "in layouts B and C, or with a load that turns with the arm, the other one. A swing below "
                "half a turn "
                'goes round neither. <a href="layouts.html">Which layout?</a>'
            ),
            "half true",
            "The ring that goes round under the load sits tight or clamped, the other may be loose.",
        )

    def _torque(self) -> Iterator[Rule]:
        course = self.edition.course
        one = example(self.edition, lambda each: bool(each.joint.plate_on_thread and _nut(each, course)))
        if one is None:
            return
        screw, nut = one.joint.shaft, _nut(one, course)
        alone = tightened(screw, nut, course)
        soft = min(course.stocks.values(), key=lambda stock: (stock.seat_limit, stock.id))
        plate = tightened(screw, nut, course, soft)
        yield Rule(
            "torque",
            "Tighten a nut to the torque of its table.",
            "Steel clamped between steel, where the thread is the weakest.",
            f"{upper_first(screw.name)}: the screw itself bears {self._value(alone.torque, 'N·mm')}. With "
            f"a plate of "
            f"{soft.name} between shoulder and nut it is {self._value(plate.torque, 'N·mm')}; where "
            f"nothing is "
            "clamped, in a fork, none.",
            "not here",
            "Take the torque from the joint's own page.",
        )

    def _quarter(self) -> Iterator[Rule]:
        threads = dict.fromkeys(one.joint.thread.id for one in self.edition.results if one.joint.kit)
        if not threads:
            return
        gaps = ", ".join(
            f"{self._size(float(nuts.gap_of_turn(thread(id).pitch, 0.25)))} on {id}" for id in threads
        )
        yield Rule(
            "quarter",
            "Tighten the nut, then back it off a quarter turn.",
            "A plain bolt through a tube or a hinge, where the nut itself sets the gap.",
            f"A quarter turn opens {gaps}. On a shoulder screw the nut stands on the shoulder's end: "
            f"backed off, it "
            "holds nothing, and the end play stays what the parts make it.",
            "not here",
            "Set the end play with washers and shims, the nut home.",
        )

    def _hand(self) -> Iterator[Rule]:
        course = self.edition.course
        found = example(
            self.edition,
            lambda each: (
                bool(_nut(each, course)) and "clamp_needed" in each.quantities and each.joint.plate_on_thread
            ),
        )
        if found is None:
            return
        nut, screw = _nut(found, course), found.joint.shaft
        across, d = nut.across_flats.typical, thread(screw.thread).diameter
        pinch = hand_force("pinch")
        gives = [
            float(clamp.clamp_of_torque(nuts.finger_torque(force, across), nut_factor(nut.finish).typical, d))
            for force in (pinch.least, pinch.most)
        ]
        needs = found.quantities["clamp_needed"]
        yield Rule(
            "hand",
            "Hand tight is tight enough.",
            "Nuts that clamp nothing, as in a fork.",
            Markup("{} needs {} in the clamp. Fingers give {} to {}, a gentle hand and a strong one.").format(
                link(found), self._value(needs.typical, "N"), *(self._value(force, "N") for force in gives)
            ),
            "not here",
            "Use a wrench where a plate is clamped; feel an insert's own torque first.",
        )

    def _stainless(self) -> Iterator[Rule]:
        course = self.edition.course
        met = {}
        for part in course.parts.values():
            metal = course.materials[part.material].metal
            if metal != NO_METAL:
                met.setdefault(surface(metal, part.finish).name, surface(metal, part.finish).index)
        if not {"zinc", "austenitic steel"} <= met.keys():
            return
        apart = corrosion.galvanic_difference(met["zinc"], met["austenitic steel"])
        yield Rule(
            "stainless",
            "Stainless steel is always the better choice where it is wet.",
            "Joints that are stainless throughout.",
            Markup(
                "A zinc-plated washer on a stainless spacer: {} apart, where {} are let pass in harsh "
                "places. The washer "
                "is eaten first, and fast where it is the smaller. <a "
                'href="surroundings.html#metals">Metals that touch</a>.'
            ).format(f"{apart:.2f} V", f"{galvanic_limit('harsh'):.2f} V"),
            "half true",
            "All of one metal, or nylon between the two, or oil.",
        )


def _ends(band) -> tuple[float, float, float]:
    return band.least, band.typical, band.most


def _ball(result: Result) -> bool:
    return isinstance(result.joint.bearings[0], BallBearing)


def _like_pair(result: Result) -> bool:
    """Whether it turns in two bearings of one kind with the same room, and nothing beside them is loose."""
    pair = result.joint.bearings
    loose = {"cheek_tilt", "arm_tilt"} & result.quantities.keys()
    return (
        len(pair) == 2
        and pair[0] == pair[1]
        and clearances_alike(result)
        and not loose
        and bool(result.stack)
    )


def _nut(result: Result, course) -> Nut | None:
    rows = result.stack.placed if result.stack else ()
    found = (course.parts.get(row.part) for row in rows if row.kind == "nut")
    return next((nut for nut in found if nut), None)
