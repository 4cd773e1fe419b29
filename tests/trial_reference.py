"""What a joint with its load beyond the bearings bears and does, by handbook arithmetic from its JSON alone.

Nothing of the program is used. Only for pairs in layout A under a load fixed to the frame: the worse sense of
the couple then loads both bearings most.
"""

from math import pi

FIRST_ROW = 0.19, 2.30  # e and Y of ISO 281 Table 3 for f0·Fa/C0 up to 0.172


class Trial:
    """`result`: one result of the JSON list. motion: ("swing", rad, 1/s) or ("turn", turns a second)."""

    def __init__(self, result: dict, motion, hours):
        self.given, self.motion, self.hours = result["inputs"], motion, hours
        self.v = {name: q.get("typical", q.get("value")) for name, q in self.given.items()}
        self.clearances = {n: result["quantities"][f"clearance_{n}"]["typical"] for n in (1, 2)}
        self.bushes = [n for n in (1, 2) if f"wear_rate_{n}" in self.v]
        self.balls = [n for n in (1, 2) if n not in self.bushes]

    def radial(self, n, apart=None):
        """Steady load of a bearing; moments about the other one."""
        v = self.v
        S = apart or v["separation"]
        about_other = {1: v["overhang"], 2: v["overhang"] + S}[n]
        return (v["radial"] * about_other + v["axial"] * v["arm"]) / S

    # bushes

    def pressure(self, n):
        return self.radial(n) / (self.v["shaft_diameter"] * self.v[f"length_{n}"])

    def speed(self):
        """mm/s"""
        kind, *size = self.motion
        return self.v["shaft_diameter"] * (size[0] * size[1] if kind == "swing" else pi * size[0])

    @property
    def rate(self):
        return self.motion[-1]

    def growth(self, n, rate=None):
        """Of the clearance in one cycle: 4/π of the mean, as a cosine of the angle presses there."""
        rate = self.v[f"wear_rate_{n}"] if rate is None else rate
        return 4 / pi * rate * self.pressure(n) * self.speed() / self.rate

    def cycles_to_wear(self):
        """Until the clearance has doubled, or grown by what bore and shaft had before pressing, if that is more."""
        before = {n: self.v[f"free_bore_{n}"] - self.v["shaft_diameter"] for n in self.bushes}
        return min(max(self.clearances[n], before[n]) / self.growth(n) for n in self.bushes)

    def travel(self, cycles):
        """Wobble at the arm of two bushes after so many cycles: play over the span of their outer ends."""
        v = self.v
        c_1, c_2 = (self.clearances[n] + cycles * self.growth(n) for n in (1, 2))
        span = v["separation"] + (v["length_1"] + v["length_2"]) / 2
        return 2 * v["arm"] * min((c_1 + c_2) / 2 / span, c_1 / v["length_1"], c_2 / v["length_2"])

    # ball bearings

    def equivalent(self, n, apart=None):
        radial, axial = self.radial(n, apart), self.v["axial"]
        e, Y = FIRST_ROW
        return radial if axial <= e * radial else max(radial, 0.56 * radial + Y * axial)

    def life(self, n):
        """Million turns."""
        return (self.v[f"dynamic_rating_{n}"] / self.equivalent(n)) ** 3

    def hours_of_life(self):
        return min(self.life(n) for n in self.balls) * 1e6 / (3600 * self.rate)

    # both

    def knock(self):
        """How many times the load with shock the worse bearing bears."""
        k = self.v["shock"]
        borne = [self.v[f"pressure_ceiling_{n}"] / (k * self.pressure(n)) for n in self.bushes]
        for n in self.balls:
            radial, axial = k * self.radial(n), k * self.v["axial"]
            borne.append(self.v[f"static_rating_{n}"] / max(radial, 0.6 * radial + 0.5 * axial))
        return min(borne)

    def start_force(self, end="typical", apart=None):
        """At the arm, with friction at one end of what is known of it."""
        v, pick = self.v, lambda name: self.given[name].get(end, self.given[name].get("value"))
        torque, faces = 0.0, [0.0]
        for n in (1, 2):
            if n in self.bushes:
                torque += pick(f"start_friction_{n}") * self.radial(n, apart) * v["shaft_diameter"] / 2
                mean = (v[f"face_diameter_{n}"] + v[f"free_bore_{n}"]) / 4
                faces.append(pick(f"start_friction_{n}") * v["axial"] * mean)
            else:
                rolled = pick(f"start_friction_{n}") * self.equivalent(n, apart) * v[f"bore_{n}"] / 2
                torque += rolled + pick(f"start_drag_{n}") * v[f"pitch_diameter_{n}"] ** 3
                torque += pick(f"start_seal_{n}")
        return (torque + max(faces)) / v["arm"]
