"""What a loaded and moving joint bears, worked out a second time from its JSON result alone.

Adds to `result_reference` how its bearings are rated, how its bushes wear, what turns it and what its nut
holds. Written from the published formulas; nothing of the program is used, and its tables are typed again.
"""

import numpy as np
from result_reference import Again

# Entry f0·Fa/C0, e, Y: ISO 281, Table 3, radial contact groove ball bearings; X = 0.56.
ENTRY = (0.172, 0.345, 0.689, 1.03, 1.38, 2.07, 3.45, 5.17, 6.89)
WHERE_IT_COUNTS = (0.19, 0.22, 0.26, 0.28, 0.30, 0.34, 0.38, 0.42, 0.44)
HOW_MUCH = (2.30, 1.99, 1.71, 1.55, 1.45, 1.31, 1.15, 1.04, 1.00)
LIGHT = ("8", "9", "0", "1")  # diameter series of ISO 15
# Larger over smaller diameter, A and b of K_t = A·(r/d)^b, round bar with fillet in bending: Peterson.
STEP = (1.01, 1.02, 1.03, 1.05, 1.07, 1.10, 1.20, 1.50, 2.00, 3.00, 6.00)
PETERSON_A = (
    *(0.91938, 0.96048, 0.98061, 0.98137, 0.97527, 0.95120, 0.97098, 0.93836, 0.90879, 0.89334, 0.87868),
)
PETERSON_B = (
    *(-0.17032, -0.17711, -0.18381, -0.19653, -0.20958, -0.23757, -0.21796, -0.25759, -0.28598, -0.30860),
    -0.33243,
)
SHARP = 2.7  # at a fillet of unknown radius: Shigley, from memory
HALF_TURN = np.pi
SLOWEST = 10 / 60  # turns a second below which a rating life says nothing: common practice
DECADES = (3, 4, 5, 6, 7)
FACE_FRICTION = 0.15  # dry, of the clamped face: common practice


class Moving(Again):
    """What one result should hold; `unsaid`: inputs by name that its JSON leaves out."""

    def __init__(self, result: dict, unsaid=None):
        super().__init__(result)
        said = {name: q["value"] for name, q in self.given.items() if "value" in q}
        self.said = dict(unsaid or {}) | said
        self.motion, self.angle, self.rate, self.hours = (
            self.said.get(name) for name in ("motion", "swing_angle", "rate", "hours")
        )
        self.balls = [n for n in self.numbers if self.ball(n)]
        self.bushes = [n for n in self.numbers if not self.ball(n)]
        self.new, self.passes = self.play(self.typical)

    # loads of the bearings, steady

    def forces(self, sense):
        """Radial force of each bearing, by number, for one sense of the couple, without shock."""
        v = self.typical
        F, a, M = v["radial"], v["overhang"], sense * v["axial"] * v["arm"]
        if len(self.numbers) == 1:
            return {1: abs(F)}
        second = (F * (v["separation"] + a) + M) / v["separation"]
        nothing = 1e-12 * (F + abs(second))  # what rounding leaves of a bearing right opposite the load
        return {n: abs(force) if abs(force) > nothing else 0.0 for n, force in ((1, F - second), (2, second))}

    def worst(self, n):
        return max(self.forces(sense)[n] for sense in (1, -1))

    def alone_with(self):
        """Moment, steady, on a bearing that is alone."""
        v = self.typical
        return v["radial"] * abs(v["overhang"]) + v["axial"] * v["arm"] if len(self.numbers) == 1 else 0.0

    def goes_round_the_bush(self):
        """Whether the load goes round in the bush or outer ring, as seen from there."""
        if self.motion == "swing" and self.angle < HALF_TURN:
            return False
        turning = self.typical["load_direction"] == "turning"
        return turning if self.layout == "A" else not turning

    def goes_round_the_screw(self):
        """Whether the load goes round the screw; a short swing counts, to be safe."""
        turning = self.typical["load_direction"] == "turning"
        return self.motion != "hand" and (not turning if self.layout == "A" else turning)

    # how the load goes round

    def swept(self, steps=720):
        """Angle of what turns, rad, over one cycle: there and back, or once round."""
        if self.motion == "swing":
            there = np.linspace(-self.angle / 2, self.angle / 2, steps // 2 + 1)
            return np.concatenate([there, there[-2::-1]])
        return np.linspace(0, 2 * np.pi, steps + 1)

    def load_seen_from(self, what):
        """Angle of the load over one cycle as seen from the "screw" or from the "body" with the bearings."""
        turned = self.swept()
        load = turned if self.typical["load_direction"] == "turning" else 0 * turned
        return load - turned if (what == "screw") == (self.layout == "A") else load

    def growth_by_motion(self, n, rate, points=720):
        """Growth of a bush's clearance in one cycle: wear of each point of its bore, summed over the motion."""
        v, round_about = self.typical, np.arange(points) * 2 * np.pi / points
        on_load = lambda at: np.maximum(np.cos(round_about - at), 0)  # noqa: E731
        arc = v["shaft_diameter"] / 2 * 2 * np.pi / points
        greatest = self.worst(n) / (v[f"length_{n}"] * arc * np.sum(on_load(0) * np.cos(round_about)))
        turned, load = self.swept(), self.load_seen_from("body")
        worn = np.zeros(points)
        for slid, at in zip(np.abs(np.diff(turned)) * v["shaft_diameter"] / 2, (load[1:] + load[:-1]) / 2):
            worn += rate * greatest * on_load(at) * slid
        return float(np.max(worn + np.roll(worn, points // 2)))

    # ball bearings

    def entry(self, n):
        return self.typical[f"f0_{n}"] * self.typical["axial"] / self.typical[f"static_rating_{n}"]

    def equivalent(self, n, radial):
        """Radial load that tires as fast as this one with the axial load."""
        axial = self.typical["axial"]
        e, Y = (np.interp(self.entry(n), ENTRY, column) for column in (WHERE_IT_COUNTS, HOW_MUCH))
        return radial if axial <= e * radial else max(radial, 0.56 * radial + Y * axial)

    def needed_swing(self, n):
        """Swing from which the balls leave no gap on the outer groove."""
        slender = 1 - self.typical[f"ball_diameter_{n}"] / self.typical[f"pitch_diameter_{n}"]
        return 4 * np.pi / (self.typical[f"balls_{n}"] * slender)

    def refused(self, n):
        heavy = self.equivalent(n, self.worst(n)) > 0.5 * self.typical[f"dynamic_rating_{n}"]
        return heavy or self.entry(n) > ENTRY[-1]

    def rolls(self, n):
        return self.motion != "swing" or self.angle >= self.needed_swing(n)

    def thrust_limit(self):
        """The weaker bearing's: either may be the one that stops the shaft."""

        def share(n):
            small = self.typical[f"bore_{n}"] <= 12.0
            return 0.25 if small or self.said[f"diameter_series_{n}"] in LIGHT else 0.5

        return min(share(n) * self.typical[f"static_rating_{n}"] for n in self.balls)

    def rolling(self):
        found, v, lives = {}, self.typical, {}
        for n in self.balls:
            radial, k = self.worst(n), v["shock"]
            standing = max(k * radial, 0.6 * k * radial + 0.5 * k * v["axial"])
            if standing > 0:
                found[f"static_factor_{n}"] = v[f"static_rating_{n}"] / standing
            P = self.equivalent(n, radial)
            if P == 0:
                continue
            lives[n] = None if self.refused(n) or not self.rolls(n) else (v[f"dynamic_rating_{n}"] / P) ** 3
        found |= {f"rating_life_{n}": life for n, life in lives.items() if life}
        if lives and all(lives.values()) and self.turn_rate() >= SLOWEST:
            found["life_hours"] = min(lives.values()) * 1e6 / (self.turn_rate() * 3600)
        return found

    def turn_rate(self):
        """Turns a second that the motion is worth."""
        swung = (self.angle or 0) / np.pi * (self.rate or 0)
        return {"hand": 0.0, "turn": self.rate, "swing": swung}[self.motion]

    def has_no_life(self, n):
        """Whether a bearing turns fast and far enough for a rating life, and carries too much for one."""
        return self.refused(n) and self.rolls(n) and self.turn_rate() >= SLOWEST

    def rings_held(self, play):
        """Whether each ring that goes round under the load is tight, bonded or clamped, at sizes of `play`."""
        if self.motion == "hand" or self.motion == "swing" and self.angle < HALF_TURN:
            return True
        if self.goes_round_the_bush():  # and so round the outer ring
            return all(
                np.all(play[f"interference_{n}"] > 0) or self.typical[f"housing_fit_{n}"] == "bonded"
                for n in self.balls
            )
        return self.clamped or all(np.all(play[f"fit_{n}"] < 0) for n in self.balls)

    # bushes

    def speed(self):
        """Mean sliding speed, mm/s."""
        d = self.typical["shaft_diameter"]
        if self.motion == "hand":
            return 0.0
        return d * self.rate * (np.pi if self.motion == "turn" else self.angle)

    def sliding(self):
        found, v, d = {}, self.typical, self.typical["shaft_diameter"]
        for n in self.bushes:
            area = d * v[f"length_{n}"]
            mean, moment = self.worst(n) / area, self.alone_with()
            peak = runs_at = mean
            if moment:
                off = moment / (self.worst(n) * v["length_1"]) if self.worst(n) else np.inf
                if off <= 0.4:
                    factor = 1 + 6 * off if off <= 1 / 6 else 4 / 3 / (1 - 2 * off)
                    peak = factor * mean
                else:  # a pair two thirds of the length apart; each end loaded like a triangle
                    near = moment / (2 * v["length_1"] / 3) + self.worst(n) / 2
                    runs_at = near / (area / 3)
                    peak = 2 * runs_at
                    factor = max(peak / mean, 20 / 3) if mean else None
                    peak = factor * mean if mean else peak
                if factor is not None:
                    found["edge_factor_1"] = factor
                    found["shock_pressure_1"] = v["shock"] * mean
            found[f"pressure_{n}"] = v["shock"] * peak
            if self.speed():
                found[f"pv_{n}"] = runs_at * self.speed() / 1000
        if self.bushes and self.speed():
            found["sliding_speed"] = self.speed() / 1000
            if self.hours:
                found["cycles_wanted"] = self.rate * 3600 * self.hours
        return found

    def grows(self, n, v, rate):
        """Growth of the clearance of a bush in one cycle; `rate`: volume worn per force and way, mm²/N."""
        way = v["shaft_diameter"] * (self.angle if self.motion == "swing" else np.pi)
        pressure = self.worst(n) / (v["shaft_diameter"] * v[f"length_{n}"])
        if self.goes_round_the_bush():
            return 2 * 4 / np.pi**2 * rate * pressure * way
        return 4 / np.pi * rate * pressure * way

    def worn(self, play, v, rates):
        """(cycles until the worse bush is worn or None, function: cycles -> travel at the arm).

        play: rooms by name at sizes v; rates: wear rate of each bush, by number.
        """
        grows = {n: self.grows(n, v, rates[n]) for n in self.bushes}
        least = {n: self.typical[f"free_bore_{n}"] - self.typical["shaft_diameter"] for n in self.bushes}
        rooms = {n: np.maximum(play[f"clearance_{n}"], least[n]) for n in self.bushes}
        loose = {n: max(self.new[f"clearance_{n}"], least[n]) > 0 for n in self.bushes}
        cycles = [rooms[n] / grows[n] for n in self.bushes if np.all(grows[n] > 0) and loose[n]]

        def travel(number):
            rooms = play | {f"clearance_{n}": play[f"clearance_{n}"] + number * grows[n] for n in self.bushes}
            low, high, _ = self.reach(*self.guides(rooms, v), {})
            return v["arm"] * np.maximum(high - low, 0)

        return (np.minimum.reduce(np.broadcast_arrays(*cycles)) if cycles else None), travel

    def decades(self):
        """Powers of ten of cycles up to which no bush is worn through its wall, at typical sizes."""
        v, kept, rates = self.typical, [], self.wear_rates("typical")
        for power in DECADES:
            for n in self.bushes:
                wall = (v[f"outside_diameter_{n}"] - v[f"free_bore_{n}"]) / 2
                if 10**power * self.grows(n, v, rates[n]) > wall:
                    return kept
            kept.append(power)
        return kept

    def wear_rates(self, end):
        return {n: self.given[f"wear_rate_{n}"][end] for n in self.bushes}

    def wears(self):
        return self.motion != "hand" and bool(self.bushes) and "overhang" in self.typical

    # turning

    def torque(self, prefix, pick):
        """Torque about the axis; `pick`: input name -> coefficient. The worse sense of the couple counts."""
        v, senses = self.typical, []
        for sense in (1, -1):
            total = 0.0
            for n, radial in self.forces(sense).items():
                mu = pick(f"{prefix}friction_{n}")
                if n in self.bushes:
                    total = total + mu * self.pressed(n, radial) * v["shaft_diameter"] / 2
                else:
                    rolled = 0.5 * mu * self.equivalent(n, radial) * v[f"bore_{n}"]
                    drag = pick(f"{prefix}drag_{n}") * v[f"pitch_diameter_{n}"] ** 3
                    total = total + rolled + drag + pick(f"{prefix}seal_{n}")
            senses.append(total)
        faces = [
            pick(f"{prefix}friction_{n}") * v["axial"] * (self.face(n) + v[f"free_bore_{n}"]) / 4
            for n in self.bushes
        ]
        return np.maximum(*senses) + (np.maximum.reduce(np.broadcast_arrays(*faces)) if faces else 0.0)

    def grip(self, end):
        """Torque at which an arm loose on the shoulder slips: dry friction of its radial load on the journal."""
        return self.given["arm_friction"][end] * self.typical["radial"] * self.typical["shaft_diameter"] / 2

    def torques(self, prefix):
        """Torque with every coefficient at its least, typical and most."""
        ends = ("least", "typical", "most")
        return [float(self.torque(prefix, lambda name: self.given[name][end])) for end in ends]

    def pressed(self, n, radial):
        """All that a bush presses on the shaft: its force, or that of both ends, on opposite sides."""
        moment = self.alone_with()
        length = self.typical[f"length_{n}"]
        return 3 * moment / length if moment > 0.4 * radial * length else radial

    def face(self, n):
        """Diameter of the end face beside a bush."""
        return self.typical.get(f"face_diameter_{n}", self.typical[f"outside_diameter_{n}"])

    # the screw and what its nut clamps

    def strength(self, loads):
        found, v = {}, self.typical
        if "shaft_moment" not in loads:
            return found
        d, yields = v["shaft_diameter"], []
        if loads["bending_stress"] > 0:
            yields.append(v["yield_stress"] / loads["bending_stress"])
        force = self.greatest_shear
        if force > 1e-9 * (1 + v["radial"]):  # rounding of the finite elements
            found["shear_stress"] = 4 / 3 * force / (np.pi / 4 * d**2)
            yields.append(v["yield_stress"] / np.sqrt(3) / found["shear_stress"])
        if loads["bending_stress"] > 0 and self.goes_round_the_screw():
            S_u = v["tensile_stress"]
            limit = min(0.5 * S_u, 700.0) * min(1, 1.58 * S_u**-0.085) * min(1, (d / 7.62) ** -0.107) * 0.814
            found["endurance_factor"] = limit / loads["bending_stress"]
        if "clamped_face" in self.given:
            found |= self.clamp()
            if "neck_stress" in found:
                yields.append(v["yield_stress"] / found["neck_stress"])
        if yields:
            found["yield_factor"] = min(yields)
        return found

    def face_moment(self):
        v = self.typical
        M = v["axial"] * v["arm"]
        if self.layout == "A":
            plate = self.kind("plate")[0]
            return v["shock"] * (v["radial"] * (plate["to"] - plate["from"]) / 2 + M)
        last = self.kind("bearing")[-1]
        from_face = v["fixed_at"] - (last["from"] + last["to"]) / 2 - v["overhang"]
        return v["shock"] * (v["radial"] * abs(from_face) + M)

    def clamp(self):
        """Numbers; what has a band is given by `clamp_ends`."""
        v = self.typical
        if self.layout == "C":  # the cheeks hold the screw, clamped or not
            return {"set_torque": self.set_torque()}
        D, hole, moment = v["clamped_face"], v["clamped_hole"], self.face_moment()
        needed = 8 * moment * D / (D**2 + hole**2)
        found = {"clamp_needed": needed, "set_torque": self.set_torque()}
        if self.kind("plate")[0]["on"] == "shoulder":  # an arm in the stack: its moment is not the neck's
            return found
        K, lost = v["nut_factor"], v["clamp_loss"]
        tight = found["set_torque"] / (K * v["thread_diameter"])
        if tight * (1 - lost) < needed:
            neck = self.given["neck_diameter"]["least"]
            found["neck_stress"] = self.neck_factor(neck) * 32 * moment / (np.pi * neck**3)
            found["neck_stress"] += tight / (np.pi / 4 * neck**2)
        return found

    def neck_factor(self, neck):
        fillet = self.said.get("neck_fillet")
        if not fillet:
            return SHARP
        step = self.said["step_from"] / neck
        A, b = (np.interp(step, STEP, column) for column in (PETERSON_A, PETERSON_B))
        return max(1.0, A * (fillet / neck) ** b)

    def set_torque(self):
        """Torque at which neck, thread and seat have a twentieth to spare with the slipperiest thread."""
        v, neck = self.typical, self.given["neck_diameter"]["least"]
        screw = 0.75 * v["proof_stress"] * min(np.pi / 4 * neck**2, v["stress_area"])
        seat = v["seat_limit"] * self.seat_area()
        return 0.95 * min(screw, seat) * self.given["nut_factor"]["least"] * v["thread_diameter"]

    def seat_area(self):
        """Of the ring on which the weakest part is pressed; where none is named, of the clamped face."""
        ring = "pressed" if "pressed_face" in self.typical else "clamped"
        return np.pi / 4 * (self.typical[f"{ring}_face"] ** 2 - self.typical[f"{ring}_hole"] ** 2)

    def clamp_of(self, K, lost):
        """(kept force, first pressure, torque passed on) for a nut factor and a share lost."""
        v = self.typical
        first = self.set_torque() / (K * v["thread_diameter"])
        kept = first * (1 - lost)
        passed = FACE_FRICTION * kept * (v["clamped_face"] + v["clamped_hole"]) / 4
        return {"clamp_given": kept, "seat_pressure": first / self.seat_area(), "clamp_torque": passed}

    def clamp_ends(self):
        """(least, typical, most) of what depends on nut factor and loss."""
        K, lost = self.given["nut_factor"], self.given["clamp_loss"]
        ends = [
            self.clamp_of(K[a], lost[b])
            for a, b in (("most", "most"), ("typical", "typical"), ("least", "least"))
        ]
        return {name: [end[name] for end in ends] for name in ends[0]}
