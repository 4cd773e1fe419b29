"""A joint worked out a second time from its JSON result alone: inputs and stack go in, quantities come out.

Nothing of the program is used. Sizes are numbers, or arrays with one entry for each corner of their limits.
Rings: compatibility of two thick rings. Shaft in its bearings: every corner of what is allowed. Bending: a
beam of finite elements, exact at its nodes.
"""

from itertools import combinations, product

import numpy as np

GROOVE = 0.52  # groove radius over ball diameter; ISO 281
BALL_LEAN = 0.003  # rad; Shigley 9th ed. Table 7-2
MOST_CORNERS = 4096  # a box with more is looked at in so many of them, drawn at random
# What is known between limits and has no part in free play: of materials, nuts and necks.
NO_SIZES = ("wear_rate", "friction", "arm_friction", "start_", "drag", "seal", "nut_factor", "clamp_loss", "neck_diameter")


class Again:
    """What one result should hold."""

    def __init__(self, result: dict):
        self.given, self.stack, self.layout = result["inputs"], result["stack"], result["layout"]
        self.mismatch = result["quantities"].get("ring_mismatch")  # of the rings: drawn at random elsewhere
        self.numbers = (1, 2) if "separation" in self.given else (1,)
        self.clamped = self.given["rings"]["value"] == "clamped"
        self.typical = {name: q.get("typical", q.get("value")) for name, q in self.given.items()}

    def ball(self, n):
        return f"ball_diameter_{n}" in self.given

    def kind(self, kind):
        return [row for row in self.stack if row["kind"] == kind]

    def banded(self):
        """Sizes with limits that are inputs, not results: (name, column) of each draw."""
        found = []
        for name, q in self.given.items():
            computed = name.startswith("free_tilt") or (
                name[:-1] == "bore_" and not self.ball(int(name[-1])) and "measured" not in q
            )
            if "least" not in q or computed or name == "shoulder_length" or name.startswith(NO_SIZES):
                continue
            found += [(name, f"{name}_{n}") for n in (1, 2)] if name == "cheek_hole" else [(name, name)]
        return found

    def corners(self):
        """(sizes with arrays for what has limits, whether every corner is among them)."""
        names, sizes = self.banded(), dict(self.typical)
        if 2 ** len(names) <= MOST_CORNERS:
            ends = np.array(list(product((0, 1), repeat=len(names))), int).T
        else:
            ends = np.random.default_rng(len(names)).integers(0, 2, (len(names), MOST_CORNERS))
        for (name, column), end in zip(names, ends):
            sizes[column] = np.where(end, self.given[name]["most"], self.given[name]["least"])
        return sizes, 2 ** len(names) <= MOST_CORNERS

    # free play

    def play(self, v):
        """Quantities of free play from sizes `v`, and whether the shaft passes."""
        found = {}
        for n in self.numbers:
            found |= self.ball_seat(n, v) if self.ball(n) else self.bush_seat(n, v)
        low, high, at = self.reach(*self.guides(found, v), v)
        passes = high >= low
        low, high = np.where(passes, low, 0), np.where(passes, high, 0)
        found["tilt"] = (high - low) / 2
        found["arm_play"] = v["arm"] * 2 * found["tilt"]
        if at is not None:
            found["load_play"] = np.where(passes, at[1], 0) - np.where(passes, at[0], 0)
        if len(self.numbers) == 2:
            if v["offset"]:
                found["lean"] = (high + low) / 2
            if self.gap(self.typical) >= 0:  # else the bearings overlap
                found["offset_limit"] = self.offset_limit(found, v)
        found["seen_tilt"] = found["tilt"] + self.beside(found, v)
        return found, passes

    def guides(self, found, v):
        """(planes with lowest and highest axis, slopes that ball bearings allow) of bearings with these rooms."""
        bands, slopes = [], []
        for n in self.numbers:
            middle, off = (0.0, 0.0) if n == 1 else (v["separation"], v["offset"])
            room, half = found[f"clearance_{n}"], v[f"length_{n}"] / 2
            if self.ball(n):
                bands.append((middle, off - room / 2, off + room / 2))
                slopes.append(found[f"free_tilt_{n}"])
            else:
                bands += [(middle + side * half, off - room / 2, off + room / 2) for side in (-1, 1)]
        return bands, slopes

    def ring_press(self, n, v, inner):
        """(interference, pressure, closure at `inner`, hoop stress) of bearing n in its housing; diameters."""
        D, outer = v[f"outside_diameter_{n}"], v[f"hub_diameter_{n}"]
        tight = D - v[f"hole_{n}"]
        housing = ((outer**2 + D**2) / (outer**2 - D**2) + v[f"housing_poisson_{n}"]) / v[f"housing_modulus_{n}"]
        bush = ((D**2 + inner**2) / (D**2 - inner**2) - v[f"poisson_{n}"]) / v[f"modulus_{n}"]
        pressure = np.maximum(tight, 0) / D / (housing + bush)
        closure = 2 * pressure * D**2 * inner / (D**2 - inner**2) / v[f"modulus_{n}"]
        return tight, pressure, closure, pressure * (outer**2 + D**2) / (outer**2 - D**2)

    def room_in_housing(self, n, v):
        bonded = v[f"housing_fit_{n}"] == "bonded"
        return 0.0 if bonded else np.maximum(v[f"hole_{n}"] - v[f"outside_diameter_{n}"], 0)

    def bush_seat(self, n, v):
        tight, pressure, closure, hoop = self.ring_press(n, v, v[f"free_bore_{n}"])
        measured = "measured" in self.given[f"bore_{n}"]
        bore = v[f"bore_{n}"] if measured else v[f"free_bore_{n}"] - closure
        fit = bore - v["shaft_diameter"]
        return {
            f"interference_{n}": tight,
            f"press_pressure_{n}": pressure,
            f"hub_stress_{n}": hoop,
            f"closure_{n}": closure,
            f"fit_{n}": fit,
            f"clearance_{n}": np.maximum(fit, 0) + self.room_in_housing(n, v),
        }

    def ball_seat(self, n, v):
        d_m, D_w, bore, d_s = (
            v[f"pitch_diameter_{n}"],
            v[f"ball_diameter_{n}"],
            v[f"bore_{n}"],
            v["shaft_diameter"],
        )
        tight, pressure, closure, hoop = self.ring_press(n, v, d_m + D_w)
        E, nu, race = v[f"modulus_{n}"], v[f"poisson_{n}"], d_m - D_w
        ring = ((race**2 + bore**2) / (race**2 - bore**2) + nu) / E
        inside = np.maximum(d_s - bore, 0) / bore / (ring + (1 - nu) / E)
        growth = 2 * inside * bore**2 * race / (race**2 - bore**2) / E
        left = v[f"internal_clearance_{n}"] - growth - closure
        loose = 0.0 if self.clamped else np.maximum(bore - d_s, 0)
        free = 2 * np.sqrt((2 * GROOVE - 1) * D_w * np.maximum(left, 0)) / d_m + loose / v[f"width_{n}"]
        found = {
            f"interference_{n}": tight,
            f"press_pressure_{n}": pressure,
            f"hub_stress_{n}": hoop,
            f"closure_{n}": closure,
            f"preload_margin_{n}": left,
            f"free_tilt_{n}": free,
            f"clearance_{n}": np.maximum(left, 0) + loose + self.room_in_housing(n, v),
        }
        return found if self.clamped else found | {f"fit_{n}": bore - d_s}

    def reach(self, bands, slopes, v):
        """(least slope, greatest slope, (lowest, highest) at the load plane or None); least > greatest: binds.

        A straight axis y + t·x is bounded by 2 x (bands + slopes) lines in the plane of (y, t).
        """
        lines = [(1.0, z, top) for z, _, top in bands] + [(-1.0, -z, -low) for z, low, _ in bands]
        lines += [(0.0, side, bound) for bound in slopes for side in (1.0, -1.0)]
        plane = None if "overhang" not in v else v.get("separation", 0.0) + v["overhang"]
        shape = np.broadcast_shapes((), *(np.shape(x) for line in lines for x in line))
        low, high = np.full(shape, np.inf), np.full(shape, -np.inf)
        bottom, top = low.copy(), high.copy()
        for (a, b, limit), (c, d, bound) in combinations(lines, 2):
            turn = a * d - b * c
            crosses = np.abs(turn) > 1e-12
            y, t = ((limit * d - bound * b), (a * bound - c * limit)) / np.where(crosses, turn, 1.0)
            for e, f, most in lines:
                crosses = crosses & (e * y + f * t <= most + 1e-12)
            low, high = np.where(crosses, np.minimum(low, t), low), np.where(crosses, np.maximum(high, t), high)
            if plane is not None:
                there = y + t * plane
                bottom = np.where(crosses, np.minimum(bottom, there), bottom)
                top = np.where(crosses, np.maximum(top, there), top)
        return low, high, None if plane is None else (bottom, top)

    def offset_limit(self, found, v):
        """Both bores may part until the shaft, as steep as the stiffer bearing lets it, spans the gap."""
        steep = [
            found[f"free_tilt_{n}"] if self.ball(n) else found[f"clearance_{n}"] / v[f"length_{n}"]
            for n in self.numbers
        ]
        return (found["clearance_1"] + found["clearance_2"]) / 2 + self.gap(v) * np.minimum(*steep)

    def gap(self, v):
        """Distance between the inner faces that guide the shaft."""
        return v["separation"] - (v["length_1"] + v["length_2"]) / 2

    def beside(self, found, v):
        """Tilt of the screw in cheeks, or of an arm on the shoulder, put into `found` and given back."""
        if self.layout == "C" and not self.clamped and self.stack:
            thick = self.kind("cheek")[0]["thickness"]["typical"]
            rooms = [
                np.maximum(v.get(f"cheek_hole_{n}", v["cheek_hole"]) - v["shaft_diameter"], 0) for n in (1, 2)
            ]
            middles = [v["support_1"], v["support_2"]]
            bands = [
                (z + side * thick / 2, -room / 2, room / 2)
                for z, room in zip(middles, rooms)
                for side in (-1, 1)
            ]
            _, found["cheek_tilt"], _ = self.reach(bands, [], {})
            return found["cheek_tilt"]
        if "arm_hole" in v:
            room = np.maximum(v["arm_hole"] - v["shaft_diameter"], 0)
            found["arm_tilt"] = room / v["arm_thickness"]
            if "arm_room" in v:  # and its faces between their neighbours
                across = (v["arm_face_1"] + v["arm_face_2"]) / 2
                found["arm_tilt"] = np.minimum(found["arm_tilt"], np.maximum(v["arm_room"], 0) / across)
            return found["arm_tilt"]
        return 0.0

    # loads

    def loads(self):
        """Reactions, and the bent shaft where the supports are known; None without a load plane."""
        v = self.typical
        if "overhang" not in v:
            return {}
        F, k, a, M = v["radial"], v["shock"], v["overhang"], v["axial"] * v["arm"]
        found = {"thrust": k * v["axial"]}
        if len(self.numbers) == 1:
            found |= {"reaction_1": k * F, "bearing_load_1": k * F}
        else:
            S = v["separation"]
            second = F * (S + a) / S
            found |= {"reaction_1": k * (F - second), "reaction_2": k * second, "couple_force": k * M / S}
            found |= {
                f"bearing_load_{n}": max(abs(found[f"reaction_{n}"] + s * k * M / S) for s in (1, -1))
                for n in self.numbers
            }
        if self.layout == "A" or self.stack:
            found |= self.bent(F, k, a, M)
        return found

    def bent(self, F, k, a, M):
        v = self.typical
        d = v["shaft_diameter"]
        stiffness = v["youngs_modulus"] * np.pi * d**4 / 64
        cases = [self.one_sense(F, a, sense * M, stiffness) for sense in (1, -1)]
        moment = k * max(case[2] for case in cases)
        found = {
            "shaft_moment": moment,
            "bending_stress": moment * (d / 2) / (np.pi * d**4 / 64),
            "deflection": max(abs(case[0]) for case in cases),
        }
        self.greatest_shear = k * max(case[3] for case in cases)
        if not (self.layout == "A" and len(self.numbers) == 1):  # held there: no slope
            for n in self.numbers:
                found[f"slope_{n}"] = max(abs(case[1][n - 1]) for case in cases)
        return found

    def one_sense(self, F, a, M, stiffness):
        """(movement of the load plane, slopes at the bearings, greatest moment, greatest shear), along z."""
        v = self.typical
        if self.layout == "A":
            bearings = [0.0] if len(self.numbers) == 1 else [0.0, v["separation"]]
            at = bearings[-1] + a
            held = [(z, len(bearings) == 1) for z in bearings]
            bent = element_beam(held, [(at, F, M)], [*bearings, at], stiffness)
            return bent.y[at], [bent.slope[z] for z in bearings], bent.moment, bent.shear
        bearings = [(row["from"] + row["to"]) / 2 for row in self.kind("bearing")]
        held = (
            [(v["fixed_at"], True)]
            if self.layout == "B"
            else [(v["support_1"], False), (v["support_2"], False)]
        )
        if len(bearings) == 1:
            loads = [(bearings[0], F, F * a + M)]
        else:
            S = bearings[1] - bearings[0]
            loads = [(bearings[0], -(F * a + M) / S, 0.0), (bearings[1], F + (F * a + M) / S, 0.0)]
        bent = element_beam(held, loads, bearings, stiffness)
        y, slopes = [bent.y[z] for z in bearings], [bent.slope[z] for z in bearings]
        rise = slopes[0] if len(bearings) == 1 else (y[1] - y[0]) / S
        return y[-1] + rise * a, slopes, bent.moment, bent.shear

    def leaning(self, play, loads):
        """Slope of the loaded shaft in each bearing of a pair: bent, and settled against its bearings."""
        if len(self.numbers) == 1 or "slope_1" not in loads:
            return {}
        v, (c_1, c_2) = self.typical, (play["clearance_1"], play["clearance_2"])
        if -v["separation"] <= v["overhang"] < 0:
            settled = abs(c_1 - c_2) / (2 * v["separation"])
        else:
            settled = (c_1 + c_2) / (2 * v["separation"] + v["length_1"] + v["length_2"])
        settled = min(settled, float(play["tilt"]))
        return {f"lean_under_load_{n}": loads[f"slope_{n}"] + settled for n in self.numbers}

    # along the screw

    def axial(self):
        """(numbers, bands as (least, typical, most)) of what fills the screw."""
        if not self.stack:
            return {}, {}
        v, outside = self.typical, [row for row in self.stack if not row.get("within")]
        thread = [row for row in outside if row["on"] == "thread"]
        shoulder = [row for row in outside if row["on"] == "shoulder"]
        face = max(row["to"] for row in shoulder) if self.clamped else v["shoulder_length"]
        numbers = {
            "thread_room": v["shoulder_length"]
            + v["thread_length"]
            - face
            - sum(row["thickness"]["typical"] for row in thread)
        }
        nuts = [row for row in thread if row["kind"] == "nut"]
        start = min((row["from"] for row in nuts), default=0) - v["shoulder_length"]
        lost = max(0.0, v["neck_width"] - start)
        bands = {}
        if nuts:
            bands["nut_engaged"] = [
                sum(row["thickness"][end] for row in nuts) - lost for end in ("least", "typical", "most")
            ]
        if self.clamped:
            numbers["end_play"] = self.two_races(self.mismatch["typical"])
            column = [row for row in self.stack if row["on"] == "shoulder" and row["kind"] != "body"]
            shoulder = self.given["shoulder_length"]
            bands["stands_proud"] = [
                sum(row["thickness"][one] for row in column) - shoulder[other]
                for one, other in (("least", "most"), ("typical", "typical"), ("most", "least"))
            ]
            return numbers, bands
        ends = (("least", "most"), ("typical", "typical"), ("most", "least"))
        bands["end_play"] = [
            self.given["shoulder_length"][one] - sum(row["thickness"][other] for row in shoulder)
            for one, other in ends
        ]
        faces = v["face_diameter_1"] + v["face_diameter_2"]
        bands["face_tilt"] = [max(0.0, play) / (faces / 2) for play in bands["end_play"]]
        return numbers, bands

    def two_races(self, mismatch):
        """How far two clamped bearings move along the shaft: each within its own axial play, one shifted."""
        plays = [
            2
            * np.sqrt(
                (2 * GROOVE - 1)
                * self.typical[f"ball_diameter_{n}"]
                * self.typical[f"internal_clearance_{n}"]
            )
            for n in self.numbers
        ]
        low = max(-plays[0] / 2, -plays[1] / 2 - mismatch)
        return min(plays[0] / 2, plays[1] / 2 - mismatch) - low

    def lean_limit(self, n, play):
        """What a bearing lets the shaft lean; a ring that sits loose on the shoulder leans on it besides."""
        v = self.typical
        if not self.ball(n):
            return play[f"clearance_{n}"] / v[f"length_{n}"]
        loose = 0.0 if self.clamped else max(0.0, v[f"bore_{n}"] - v["shaft_diameter"])
        return BALL_LEAN + loose / v[f"width_{n}"]


class element_beam:
    """A beam of two-node elements between the planes that matter.

    held: (plane, built in?). loads: (plane, force, couple). Gives y and slope by plane, the greatest moment and
    the greatest shear force.
    """

    def __init__(self, held, loads, planes, stiffness):
        held, loads = [(near(z), on) for z, on in held], [(near(z), *load) for z, *load in loads]
        nodes = sorted({*map(near, planes), *(z for z, _ in held), *(z for z, _, _ in loads)})
        at, size = {z: 2 * n for n, z in enumerate(nodes)}, 2 * len(nodes)
        matrix, right = np.zeros((size, size)), np.zeros(size)
        elements = []
        for n, (one, other) in enumerate(zip(nodes, nodes[1:])):
            L = other - one
            block = (
                np.array(
                    [
                        [12, 6 * L, -12, 6 * L],
                        [6 * L, 4 * L**2, -6 * L, 2 * L**2],
                        [-12, -6 * L, 12, -6 * L],
                        [6 * L, 2 * L**2, -6 * L, 4 * L**2],
                    ]
                )
                / L**3
            )
            matrix[2 * n : 2 * n + 4, 2 * n : 2 * n + 4] += block
            elements.append((2 * n, block))
        for z, force, couple in loads:
            right[at[z]] += force
            right[at[z] + 1] += couple
        fixed = {at[z] for z, _ in held} | {at[z] + 1 for z, built_in in held if built_in}
        free = [n for n in range(size) if n not in fixed]
        moved = np.zeros(size)
        if free:
            moved[free] = np.linalg.solve(matrix[np.ix_(free, free)], right[free])
        ends = [block[[1, 3]] @ moved[n : n + 4] for n, block in elements]
        straight_into_the_support = abs(sum(couple for _, _, couple in loads))
        self.moment = max((float(np.max(np.abs(pair))) for pair in ends), default=straight_into_the_support)
        across = [float(abs(block[0] @ moved[n : n + 4])) for n, block in elements]
        self.shear = max(across, default=abs(sum(force for _, force, _ in loads)))
        self.y = {z: moved[at[near(z)]] / stiffness for z in planes}
        self.slope = {z: moved[at[near(z)] + 1] / stiffness for z in planes}


def near(z):
    """Planes closer than a nanometre are one."""
    return round(z, 6)
