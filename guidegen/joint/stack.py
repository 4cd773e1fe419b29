"""The resolved stack of a joint: what sits where on the screw, found in the kit or taken as given."""

from dataclasses import replace

from guidegen.errors import CannotBuild
from guidegen.joint import fill
from guidegen.joint.body import body_of, face_of
from guidegen.joint.box import Box, thickness
from guidegen.joint.endplay import Axial, Column, axial_clamped, axial_floating, own_axial_play
from guidegen.joint.faces import ON_SHOULDER, faults
from guidegen.joint.listed import listed_order
from guidegen.joint.records import ArmPlay, BodyPlate, Joint, Placed, Stack
from guidegen.kit.lookup import clearance_hole
from guidegen.kit.records import BallBearing, Nut, Spacer, Washer
from guidegen.units import Band

METAL_WINDOW = (0.05, 0.25)  # end play aimed at, mm; common practice
SOFT_WINDOW = (0.10, 0.40)  # the same with a wooden or printed body
OVERHANG_WITHIN = 0.5  # how near the load plane must come to the one asked for, mm
PROTRUDES = (0.1, 0.6)  # how far a clamped stack stands beyond the shoulder end, mm
RINGS_WITHIN = 0.02  # how closely spacers between clamped inner rings match the outer rings, mm
RING_CLEAR = 0.5  # how far a ring spacer comes out of the hole of a plate that stands beyond its bearing, mm
ENGAGED = 0.8  # of the thread diameter, on full thread; common practice
SPARE_PITCHES = 1.2  # thread beyond the nut that leaves something to spare
NUT_WAYS = (
    ("locking",),
    ("low locking",),
    ("thin", "hex"),
    ("hex",),
    ("thin", "thin"),
    ("thin",),
)  # best first; of a pair the thin one within: the outer nut takes the load


def resolve(joint: Joint, parts) -> Stack:
    """The stack of `joint` from the parts of its kit; raises CannotBuild with the reason."""
    if joint.clamped and not all(isinstance(b, BallBearing) for b in joint.bearings):
        raise CannotBuild("a bushing in a clamped stack locks the joint", "bushing clamped")
    if joint.clamped and joint.single:
        raise CannotBuild("one bearing alone has nothing to be clamped against", "single clamped")
    assembly = _Assembly(joint, parts)
    if not joint.stack_ids:
        return assembly.placed(*assembly.found())
    order = listed_order(joint, parts, assembly.body)
    assembly.box.use(*joint.stack_ids)
    stack = assembly.placed(*order)
    at = stack.z_load - stack.z_bearings[-1]
    if joint.overhang is not None and abs(at - joint.overhang) > OVERHANG_WITHIN:
        raise CannotBuild(
            f"the stack puts the load plane at {at:.1f} mm, not at {joint.overhang:g} mm",
            "load plane not reachable",
        )
    return stack


class _Assembly:
    """One joint being put together: first the order of part ids, then their places."""

    def __init__(self, joint: Joint, parts):
        self.joint, self.parts = joint, parts
        self.box = Box(parts, joint.kit.parts if joint.kit else None, joint.shaft)
        self.box.set_aside([bearing.id for bearing in joint.bearings])
        self.body = body_of(joint)
        self.shoulder = joint.shaft.shoulder_length.typical
        self.window = (
            SOFT_WINDOW if any(h.stock.kind in ("wood", "print") for h in joint.housings) else METAL_WINDOW
        )
        self.stocks = {p.stock.id: p.stock for p in (joint.on_thread, joint.cheeks, joint.arm_plate) if p}
        self.cheeks = (joint.cheeks.stock.id,) if joint.layout == "C" else ()

    def found(self):
        """Part ids before, between and after the bearings and on the thread, found in the kit."""
        joint = self.joint
        thread, inside = self._thread(), self._inside()
        start, refused = self.box.left.copy(), None
        (head_side, _), (_, thread_side) = self.body.recessed[0], self.body.recessed[-1]
        last_reach = max(thread_side, PROTRUDES[1] + ON_SHOULDER if joint.clamped else 0)
        for ring_2 in self._rings(joint.bearings[-1], last_reach):
            found = []
            for ring_1 in self._rings(joint.bearings[0], head_side):
                self.box.left = start.copy()
                if not self.box.holds(*ring_1, *ring_2):
                    continue
                first, last = self._beside(ring_1), self._beside(ring_2)
                try:
                    found.append((*self._outside(first[::-1], last), self.box.left))
                except CannotBuild as why:
                    refused = refused or why  # what the shortest rings meet is what a person meets first
            if found:  # the shortest ring beside bearing 2 keeps the load near; then the fewest parts
                before, after, self.box.left = min(found, key=lambda way: len(way[0]) + len(way[1]))
                return self.cheeks + before, inside, after + self.cheeks, thread
        raise refused or CannotBuild(
            "the kit has too few ring spacers to lie beside both bearings", "too few parts"
        )

    def _rings(self, bearing, reach):
        """Ids of the ring spacers that may lie beside a bearing, the shortest first; none beside a bush.

        reach: how long they must be at least, mm, to come out of a plate that stands beyond the bearing.
        """
        if not isinstance(bearing, BallBearing):
            return [()]
        return [(ring.id,) for ring in self.box.rings_for(bearing, reach + RING_CLEAR if reach > 0 else 0)]

    def _beside(self, ring):
        """What lies beside a bearing, from the bearing outwards, taken out of the box."""
        self.box.take(*ring)
        if self.joint.clamped:
            return ring
        washer = self.box.large_washer().id
        self.box.take(washer)
        return (*ring, washer)

    def _outside(self, first, last):
        """Those of `first` and `last` with the fillers that leave the wanted end play."""
        joint = self.joint
        fixed = self._length(first + last + 2 * self.cheeks) + self.body.length.typical
        low, high = self._leftover(fixed)
        if high < 0:
            play = "" if joint.clamped else f", and must float by at least {self.window[0]:g} mm"
            raise CannotBuild(
                f"a {self.shoulder:.2f} mm shoulder is too short: "
                f"body, washers and rings take {fixed:.2f} mm{play}",
                "shoulder too short",
            )
        if joint.after_parts is not None:
            self.box.take(*joint.after_parts)
            extra = self._length(joint.after_parts)
            found = fill.fewest(self.box.fillers(), low - extra, high - extra)
            self.box.take(*(found or ()))
            pair = found is not None and (found, joint.after_parts)
        elif joint.layout == "A" and joint.overhang is not None and not joint.arm_between:
            pair = self._placed_arm(low, high, last)
        else:
            found = fill.fewest(self.box.fillers(), low, high)
            self.box.take(*(found or ()))
            pair = found is not None and (found, ())
        if not pair:
            raise CannotBuild(
                f"the kit's fillers do not add to between {max(low, 0):.2f} and {high:.2f} mm, "
                f"which the {self.shoulder:g} mm shoulder needs",
                "nothing fills the shoulder",
            )
        return pair[0] + first, last + pair[1]

    def _leftover(self, fixed):
        """Range of filler length that leaves the end play window, or the clamped protrusion."""
        free = self.shoulder - fixed
        if self.joint.clamped:
            return free + PROTRUDES[0], free + PROTRUDES[1]
        return free - self.window[1], free - self.window[0]

    def _placed_arm(self, low, high, last):
        """Fillers before and after that put the arm's middle where the joint file wants it."""
        least = (
            self.body.high
            - (self.joint.separation or 0)
            + self._length(last)
            + self._length([self.joint.on_thread.stock.id]) / 2
        )
        fillers, wanted = self.box.fillers(), self.joint.overhang - least
        pair = self._near(fillers, low, high, wanted)
        if pair:
            self.box.take(*pair[0], *pair[1])
            return pair
        nearest = fill.nearest_in_two(fillers, low, high, wanted)
        reached = "" if nearest is None else f"; the nearest that can be built is {least + nearest:.1f} mm"
        raise CannotBuild(
            f"no stack puts the load plane at {self.joint.overhang:g} mm{reached}", "load plane not reachable"
        )

    def _near(self, fillers, low, high, wanted):
        if wanted < -OVERHANG_WITHIN:
            return None
        return fill.fewest_in_two(
            fillers, low, high, wanted - OVERHANG_WITHIN, wanted + OVERHANG_WITHIN, wanted
        )

    def _inside(self):
        """What stands on the shoulder between the bearings, taken out of the box."""
        joint = self.joint
        if joint.arm_between:
            return self._around_arm()
        if not joint.clamped:
            return ()
        between, fillers = self.body.outer_rings.typical, self.box.fillers(joint.bearings)
        within = (RINGS_WITHIN, self._clamped_play())
        found = next(filter(None, (fill.fewest(fillers, between - w, between + w) for w in within)), None)
        if found is None:
            raise CannotBuild(
                f"the kit's ring spacers do not add to {between:.2f} mm between the inner rings",
                "no spacers between the rings",
            )
        self.box.take(*found)
        return found

    def _around_arm(self):
        """The arm between the bearings with what holds it in its place; it lies against bearing 2's side.

        In a clamped stack its spacers match the distance of the outer rings, and it turns with the screw.
        """
        joint, body, arm = self.joint, self.body, self.joint.arm_plate.stock
        sides = zip(joint.bearings, (body.recessed[0][1], body.recessed[1][0]))
        first, last = (self._beside(self._rings(bearing, reach)[0]) for bearing, reach in sides)
        gap = body.outer_rings.typical if joint.clamped else body.inner_high - body.inner_low
        free = gap - self._length(first + last + (arm.id,))
        middle = joint.separation + joint.overhang
        wanted = body.inner_high - middle - arm.thickness.typical / 2 - self._length(last)
        fillers = self.box.fillers()
        spares = (self.window,)
        if joint.clamped:
            fillers = self.box.fillers(joint.bearings)
            spares = tuple((-within, within) for within in (RINGS_WITHIN, self._clamped_play()))
        ways = (self._near(fillers, free - most, free - least, wanted) for least, most in spares)
        pair = next(filter(None, ways), None) if free >= 0 else None
        if not pair:
            raise CannotBuild(
                f"nothing in the kit holds the arm {-joint.overhang:g} mm before bearing 2",
                "arm between bearings not reachable",
            )
        self.box.take(*pair[0], *pair[1])
        return first + pair[0] + (arm.id,) + pair[1] + last[::-1]

    def _clamped_play(self):
        """Mismatch of spacers and outer rings that takes all axial play of two clamped bearings, mm."""
        return sum(own_axial_play(b, b.internal_clearance.typical) for b in self.joint.bearings) / 2

    def _thread(self):
        """What goes on the thread: the clamped plate, a small washer, the best nut or pair of nuts."""
        joint, nuts = self.joint, self.box.nuts(self.joint.thread)
        ways = [
            way
            for way in NUT_WAYS
            if all(kind in nuts and self.box.left[nuts[kind].id] >= way.count(kind) for kind in way)
        ]
        if not ways:
            raise CannotBuild(f"the kit has no nut for {joint.thread.id}", "no nut")
        plate = (joint.on_thread.stock.id,) if joint.plate_on_thread else ()
        found = [
            plate + (washer.id,) + tuple(nuts[kind].id for kind in way)
            for way in ways
            for washer in self.box.small_washers(joint.thread)
        ]
        best = max(found, key=lambda ids: self._suits(ids) + (-found.index(ids),))
        self.box.take(*best[len(plate) :])
        return best

    def _suits(self, on_thread):
        """How well nuts suit: enough of them on full thread, and enough thread beyond them."""
        room = (self.joint.shaft.thread_length - self._length(on_thread)) / self.joint.thread.pitch
        grips = self._engaged(on_thread, 0.0).least >= ENGAGED * self.joint.thread.diameter
        return grips and room >= 1, min(room, SPARE_PITCHES)

    def _engaged(self, on_thread, beyond) -> Band:
        """Nut height past the screw's neck; `beyond`: clamped face past the shoulder end, mm."""
        nuts = [part for part in on_thread if isinstance(self.parts.get(part), Nut)]
        before = beyond + self._length(on_thread) - self._length(nuts)
        lost = max(0.0, self.joint.shaft.neck_width - before)
        return sum((self._band(part) for part in nuts), Band.exactly(0.0)).shifted(-lost)

    def _length(self, part_ids):
        return sum(self._band(part).typical for part in part_ids)

    def _band(self, part_id) -> Band:
        part = self.parts.get(part_id)
        return thickness(part) if part else self.stocks[part_id].thickness

    def placed(self, before, inside, after, thread) -> Stack:
        """The stack with every part in its place. A floating stack lies against the shoulder end."""
        joint, body = self.joint, self.body
        loose = self.shoulder - self._length(before + after) - body.length.typical
        if loose < 0 and not joint.clamped:
            raise CannotBuild(
                f"the stack is {-loose:.2f} mm longer than the shoulder", "stack longer than the shoulder"
            )
        start = 0.0 if joint.clamped else loose
        at_body = start + self._length(before)
        middle = at_body - body.low
        z_bearings = (middle,) if joint.single else (middle, middle + joint.separation)
        end = at_body + body.length.typical
        face = end + self._length(after) if joint.clamped else self.shoulder
        rows = self._run(before, start, "shoulder") + self._body_rows(inside, at_body, z_bearings)
        rows += self._run(after, end, "shoulder") + self._run(thread, face, "thread")
        axial = self._axial(before, inside, after)
        thread_end = self.shoulder + joint.shaft.thread_length
        return Stack(
            placed=_touching(rows, "" if start > 0 else "head"),
            plates=self._plates(middle),
            z_bearings=z_bearings,
            z_load=self._load_plane(rows, z_bearings),
            z_face=face,
            shoulder=self.shoulder,
            thread_end=thread_end,
            end_play=axial.end_play,
            end_play_likely=axial.likely,
            at_typical=axial.at_typical,
            chance_pinched=axial.chance_pinched,
            chance_fits=axial.chance_fits,
            window=axial.window,
            clamped=axial.clamped,
            arm=self._arm_play(inside),
            face_diameters=None if joint.clamped else self._face_diameters(before, after),
            thread_room=thread_end - face - self._length(thread),
            nut_engaged=self._engaged(thread, face - self.shoulder),
            faults=tuple(faults(joint, self.box, body, before, inside, after, thread, face - self.shoulder)),
        )

    def _load_plane(self, rows, z_bearings):
        arm = next((row for row in rows if row.turns_with == "arm" and row.kind == "plate"), None)
        return (arm.z_from + arm.z_to) / 2 if arm else z_bearings[-1] + (self.joint.overhang or 0.0)

    def _run(self, part_ids, z, on, within=""):
        """Rows for parts that follow one another from z on."""
        rows = []
        for part_id in part_ids:
            rows.append(self._row(part_id, z, on, within))
            z = rows[-1].z_to
        return rows

    def _body_rows(self, inside, at, z_bearings):
        """The frame or hub, its bearings, and what stands between them."""
        joint = self.joint
        name, turns = ("frame", "frame") if joint.turns == "shaft" else ("hub", "arm")
        bearings = [self._bearing(b, z, name, turns) for b, z in zip(joint.bearings, z_bearings)]
        edge = bearings[-1].z_from if joint.clamped else at + self.body.inner_high - self.body.low
        between = self._run(inside, edge - self._length(inside), "shoulder", name) if inside else []
        whole = Placed(
            name,
            name,
            "body",
            at,
            at + self.body.length.typical,
            "shoulder",
            turns,
            "",
            self.body.length,
            joint.shaft.nominal,
            max(self.body.faces),
        )
        return [whole, bearings[0], *between, *bearings[1:]]

    def _row(self, part_id, z, on, within):
        joint, part, band = self.joint, self.parts.get(part_id), self._band(part_id)
        if part is None:
            kind, turns = (
                ("cheek", "frame")
                if part_id in self.cheeks
                else ("plate", "arm" if joint.turns == "shaft" else "frame")
            )
            hole = joint.shaft.nominal if on == "shoulder" else clearance_hole(joint.thread.id).fine
            return Placed(
                part_id,
                self.stocks[part_id].name,
                kind,
                z,
                z + band.typical,
                on,
                turns,
                "",
                band,
                hole,
                2 * joint.housings[0].edge,
                within,
            )
        kind = part.kind if isinstance(part, Spacer) else "washer" if isinstance(part, Washer) else "nut"
        hole, outside = (
            (joint.thread.diameter, part.across_flats)
            if kind == "nut"
            else (part.hole.typical, part.outside_diameter)
        )
        return Placed(
            part_id,
            part.name,
            kind,
            z,
            z + band.typical,
            on,
            "screw",
            "",
            band,
            hole,
            outside.typical,
            within,
        )

    def _bearing(self, part, middle, within, turns):
        half = thickness(part).typical / 2
        return Placed(
            part.id,
            part.name,
            "bearing",
            middle - half,
            middle + half,
            "shoulder",
            turns,
            "",
            thickness(part),
            bore_of(part).typical,
            part.outside_diameter.typical,
            within,
        )

    def _plates(self, middle):
        joint = self.joint
        numbers = (0,) if joint.body == "block" and not joint.single else (1, 2)
        return tuple(
            BodyPlate(
                housing.stock.id,
                middle + low,
                middle + high,
                bearing.outside_diameter.typical,
                housing.edge,
                number,
            )
            for number, (low, high), housing, bearing in zip(
                numbers, self.body.plates, joint.housings, joint.bearings
            )
        )

    def _axial(self, before, inside, after) -> Axial:
        joint = self.joint
        kept, chosen = self._staying(before, after)
        bands = [self._band(p) for p in before + after]
        if joint.clamped:
            between = [self._band(p) for p in inside]
            standing = [*between, *(thickness(b) for b in joint.bearings)]
            column = Column(
                joint.shaft.shoulder_length,
                bands + standing,
                kept + standing,
                self._choice((), chosen),
                PROTRUDES,
            )
            choice = self._choice(joint.bearings, inside)
            return axial_clamped(joint.bearings, between, self.body.outer_rings, choice, column)
        return axial_floating(
            joint.shaft.shoulder_length,
            self.body.length,
            bands,
            kept,
            self._choice((), chosen),
            self.window,
        )

    def _arm_play(self, inside) -> ArmPlay | None:
        """Of an arm that slides on the shoulder. What lies beside it may tilt too: smallest faces count."""
        joint = self.joint
        if not joint.arm_between or joint.arm_bonded or joint.clamped:
            return None
        at = next(n for n, part in enumerate(inside) if part in self.stocks)
        own = 2 * joint.housings[0].edge  # as it is drawn
        sides = zip((inside[:at], inside[at + 1 :]), joint.bearings)
        faces = (
            min(own, face_of(bearing), *(self.parts[part].outside_diameter.typical for part in side))
            for side, bearing in sides
        )
        return ArmPlay(self.body.inner, tuple(self._band(part) for part in inside), tuple(faces))

    def _staying(self, before, after):
        """(bands of what stays whichever fillers are chosen, ids of the fillers), of what lies outside."""
        joint = self.joint
        mine = [n for n, part in enumerate(before) if part in self.parts][-self._kept(joint.bearings[0]) :]
        last = [n for n, part in enumerate(after) if part in self.parts][: self._kept(joint.bearings[-1])]
        kept = [p for n, p in enumerate(before) if n in mine or p in self.stocks]
        kept += [p for n, p in enumerate(after) if n in last or p in self.stocks]
        chosen = list(before + after)
        for part in kept:
            chosen.remove(part)
        return [self._band(p) for p in kept], chosen

    def _kept(self, bearing):
        """Parts that stay beside a bearing whichever fillers are chosen: washer, ring for a ball bearing."""
        return 2 if isinstance(bearing, BallBearing) and not self.joint.clamped else 1

    def _choice(self, rings_for, used):
        """All fillers that may be chosen once the parts are measured: those left and those used."""
        counts = {f.part: f for f in self.box.fillers(rings_for)}
        for part in used:
            left = counts.get(part) or fill.filler(part, self._length([part]), 0)
            counts[part] = left._replace(count=left.count + 1)
        return tuple(counts[part] for part in sorted(counts))

    def _face_diameters(self, before, after):
        """Smallest mating face on each side of the body, between the parts that float."""
        head = self.joint.shaft.head_diameter.typical
        low, high = (
            [self.parts[part].outside_diameter.typical for part in ids if part in self.parts]
            for ids in (before, after)
        )
        return min(head, self.body.faces[0], *low), min(self.body.faces[1], *high)


def bore_of(part):
    """The hole of a bearing as it comes out of the box."""
    if isinstance(part, BallBearing):
        return part.bore
    return part.hole if isinstance(part, Spacer) else part.free_bore


def _touching(rows, before):
    """Rows with the part each one touches on its side of the head."""
    done = []
    for row in rows:
        done.append(replace(row, touches_before=before))
        if not row.within:
            before = row.part
    return tuple(done)
