"""How to measure a joint and its parts at the bench, what should be read, and how sure a reading is."""

from dataclasses import dataclass
from functools import cache
from math import ceil, floor
from statistics import mean, stdev

from guidegen.drawing.principles import jaws_in_hole
from guidegen.guide.edition import Edition
from guidegen.guide.examples import link, named
from guidegen.guide.grids import Grid, grid
from guidegen.guide.measures import GRAM, TO, Both
from guidegen.guide.page import Heading, Page
from guidegen.guide.readings import CALIPER, JAW_FLATS, MICROMETER, PIN, pins, reading, shown
from guidegen.guide.templates import fill, ready
from guidegen.guide.wobble import seen_travel
from guidegen.kit.records import BallBearing, ShoulderScrew, SleeveBushing, Spacer
from guidegen.theory import measuring
from guidegen.theory.clearance import shaft_fit
from guidegen.theory.freeplay import arm_travel
from guidegen.theory.statics import STANDARD_GRAVITY, weight
from guidegen.units import Band

RULER = 0.5  # ± mm, read by eye at the tip of an arm; common practice
SCALE = 1.0  # ± g, of a kitchen scale; common practice
LEAF = 0.05  # mm, steps of a set of feeler gauges; common practice
ARMS = (50.0, 100.0, 200.0, 300.0)  # mm
REPEATS = (3, 5, 10)
SCATTERS = (0.5, 1.0, 2.0)  # of repeated readings, in errors of the instrument
SURE = 0.95  # of what is told so is so
TOLD = 2.0  # errors of an instrument; what is smaller than so many it hardly tells
EVEN = 1e-6  # of a step; a size this near to one lies on it
COARSE = 0.5  # of a clearance; an error above it tells little
OFFS = (0.01, -0.01, 0.0, 0.02, -0.01)  # mm, of five invented readings from the one that should be read
CONTENTS = (
    ("wobble", "Wobble, with a ruler"),
    ("end-play", "End play, with feeler leaves"),
    ("start", "Force to start, with a kitchen scale"),
    ("bores", "Bores, with a caliper"),
    ("clearance", "Clearance, as a difference"),
    ("sure", "How sure is a reading?"),
)
BORES = {SleeveBushing: "free_bore", BallBearing: "bore", Spacer: "hole"}


@cache
def student_factor(freedom: float) -> float:
    """Standard uncertainties either way between which the true size lies 95 times in 100."""
    from scipy.special import stdtrit

    return float(stdtrit(freedom, (1 + SURE) / 2))


def sure_of(instrument: float, scatter: float, readings: int) -> float:
    """Range either way, mm, of the mean of so many readings."""
    u = measuring.reading_uncertainty(instrument, scatter, readings)
    freedom = measuring.effective_freedom(u, scatter, readings)
    return float(measuring.sure_within(student_factor(float(freedom)), u))


def measuring_page(edition: Edition) -> Page:
    """Tables for ruler, feeler leaf, kitchen scale and caliper, for the joints and kits at hand."""
    bench = _Bench(edition)
    body = fill(
        "measuring",
        measures=edition.measures,
        titles=dict(CONTENTS),
        arms=bench.arms(),
        wobbles=bench.wobbles(),
        plays=bench.plays(),
        starts=bench.starts(),
        bores=bench.bores(),
        clearances=bench.clearances(),
        repeats=bench.repeats(),
        worked=bench.worked(),
        jaws=ready(jaws_in_hole()),
        ruler=edition.measures.value(RULER, "mm").line,
        scale=edition.measures.on_scale(grams_force(SCALE)).line,
        target=bench.target,
        flats=edition.measures.range(JAW_FLATS.least, JAW_FLATS.most, "mm").line,
        errors={
            name: edition.measures.value(error, "mm").line
            for name, error in (("caliper", CALIPER), ("micrometer", MICROMETER), ("pin", PIN))
        },
        moving=edition.cautions("moving joint"),
        testing=edition.cautions("testing"),
    )
    return Page(
        "measuring.html",
        "How do I measure it?",
        body,
        tuple(Heading(2, *entry) for entry in CONTENTS),
        in_search=True,
        description="Wobble, end play, force to start, bores, clearances: how to measure, how sure.",
    )


def grams_force(grams: float) -> float:
    """Force, N, under which a scale shows so many grams."""
    return weight(grams * GRAM, STANDARD_GRAVITY)


@dataclass(frozen=True)
class _Bench:
    edition: Edition

    @property
    def measures(self):
        return self.edition.measures

    @property
    def target(self) -> Both:
        """Tilt each way that the course allows."""
        course = self.edition.course
        return self.measures.value(course.target_travel / (2 * course.target_arm), "rad", 2)

    def arms(self) -> Grid:
        """What a ruler can tell at arms of different length."""
        course = self.edition.course
        rows = [
            (
                self.measures.value(arm, "mm"),
                self.measures.value(measuring.least_tilt_seen(RULER, arm), "rad", 2),
                self.measures.value(arm_travel(arm, course.target_travel / (2 * course.target_arm)), "mm", 2),
            )
            for arm in ARMS
        ]
        heads = ("arm", "least tilt each way that shows", "travel that the course allows")
        return grid("Arms", "A longer arm is a finer instrument: clamp a stick to a short one", heads, rows)

    def wobbles(self) -> Grid:
        rows = []
        for result in named(self.edition):
            travel = seen_travel(result)
            rows.append(
                (
                    link(result),
                    self.measures.value(result.joint.arm, "mm"),
                    self.measures.range(travel.least, travel.most, "mm"),
                    self.measures.value(travel.typical, "mm", 2),
                    self._ruler(result.joint.arm, travel.typical),
                )
            )
        heads = ("joint", "arm", "should travel", "typically", "the ruler")
        return grid("Travel at the tip", "What should be read at the tip, from end to end", heads, rows)

    def _ruler(self, arm, travel) -> str:
        """Whether a ruler tells this travel, or from which arm on it would."""
        if travel >= TOLD * RULER or not travel:
            return "tells it" if travel else "nothing to tell"
        longer = self.measures.value(arm * TOLD * RULER / travel, "mm", 2).line
        return f"too coarse: lengthen the arm to {longer}"

    def plays(self) -> Grid:
        rows = []
        for result in named(self.edition):
            stack = result.stack
            if stack.clamped is None:
                low, high = stack.window
                goes, stops = leaves(low, high)
                rows.append(
                    (
                        link(result),
                        self._play(stack.end_play),
                        self.measures.range(low, high, "mm"),
                        self.measures.value(goes, "mm"),
                        self.measures.value(stops, "mm"),
                    )
                )
        heads = ("joint", "as parts come", "wanted", "leaf that must go in", "leaf that must not")
        return grid(
            "End play", "The gap between screw head and stack, all pushed towards the nut", heads, rows
        )

    def _play(self, play: Band) -> Both:
        if play.least >= 0:
            return self.measures.range(play.least, play.most, "mm")
        most = self.measures.value(play.most, "mm", 2)
        return Both(f"pinched{TO}{most.first}", f"{most.second}")

    def starts(self) -> Grid:
        rows = []
        for result in named(self.edition):
            force = result.quantities.get("start_force")
            if force:
                least, most = (self.measures.on_scale(x) for x in (force.band.least, force.band.most))
                rows.append(
                    (
                        link(result),
                        self.measures.value(result.joint.arm, "mm"),
                        self.measures.value(force.typical, "N", 2),
                        Both(f"{least.first}{TO}{most.first}", f"{least.second}{TO}{most.second}"),
                        self._scale(result.joint.arm, force.band.typical),
                    )
                )
        heads = ("joint", "pulled at", "typically", "on the scale", "the scale")
        return grid("Force to start", "Pull square to the arm until it starts", heads, rows)

    def _scale(self, arm, force) -> str:
        """Whether a kitchen scale tells this force, or at which radius it would."""
        if force >= TOLD * grams_force(SCALE):
            return "tells it"
        nearer = self.measures.value(arm * force / (TOLD * grams_force(SCALE)), "mm", 2).line
        return f"too coarse: pull at {nearer}"

    def bores(self) -> Grid:
        rows = []
        for kit in self.edition.kits:
            seen = set()
            for part in (self.edition.course.parts[id] for id in kit.parts):
                column = BORES.get(type(part))
                if not column or isinstance(part, Spacer) and part.bush != "yes":
                    continue
                read = reading(column, getattr(part, column))
                if read.low_by is None or (key := (type(part), read.limits)) in seen:
                    continue
                seen.add(key)
                goes, stops = pins(read.limits, self.measures)
                rows.append(
                    (
                        ready(f'<a href="parts/{part.id}.html">{part.id}</a>'),
                        self.measures.limits(read.limits),
                        self.measures.range(read.low_by.least, read.low_by.most, "mm"),
                        shown(read.least, read.most, self.measures),
                        goes,
                        stops,
                    )
                )
        heads = (
            "part",
            "bore",
            "jaws read low by",
            "caliper shows",
            "pin that must go in",
            "pin that must not",
        )
        return grid("Bores of the kits", "Bores of the kits, before pressing in", heads, rows)

    def clearances(self) -> Grid:
        """What a clearance measured as bore less shoulder is worth."""
        rough = float(measuring.difference_uncertainty(CALIPER, CALIPER))
        fine = float(measuring.difference_uncertainty(PIN, MICROMETER))
        rows = []
        for kit in self.edition.kits:
            parts = [self.edition.course.parts[id] for id in kit.parts]
            screw = next((part for part in parts if isinstance(part, ShoulderScrew)), None)
            kinds: dict[tuple, tuple] = {}
            for part in parts:
                column = BORES.get(type(part))
                if screw and column and not (isinstance(part, Spacer) and part.bush != "yes"):
                    kinds.setdefault((type(part), getattr(part, column)), (part, getattr(part, column)))
            for part, bore in kinds.values():
                shaft = screw.shoulder_diameter
                room = Band(
                    shaft_fit(bore.least, shaft.most),
                    shaft_fit(bore.typical, shaft.typical),
                    shaft_fit(bore.most, shaft.least),
                )
                rows.append(
                    (
                        f"{part.id} on {screw.id}",
                        self.measures.limits(room),
                        self._worth(rough, room),
                        self._worth(fine, room),
                    )
                )
        heads = (
            "pair",
            "clearance before pressing",
            "both by caliper",
            "pin in the bore, micrometer on the shoulder",
        )
        return grid("Clearances", "A difference is less sure than either of its readings", heads, rows)

    def _worth(self, error, room) -> str:
        coarse = error > COARSE * room.typical
        return f"± {self.measures.value(error, 'mm', 2).line}" + (": tells little" if coarse else "")

    def repeats(self) -> Grid:
        """A caliper's readings repeated, by how much they scatter."""
        rows = [
            (
                self.measures.value(scatter * CALIPER, "mm"),
                *(
                    self.measures.value(sure_of(CALIPER, scatter * CALIPER, count), "mm", 2)
                    for count in REPEATS
                ),
            )
            for scatter in SCATTERS
        ]
        heads = ("readings scatter by", *(f"{count} readings: sure within ±" for count in REPEATS))
        return grid(
            "Repeated readings", "A caliper: 95 means in 100 come so near to the true size", heads, rows
        )

    def worked(self) -> dict | None:
        """Five invented readings of a bush of the first kit that has one, taken apart."""
        parts = (self.edition.course.parts[id] for kit in self.edition.kits for id in kit.parts)
        bush = next((part for part in parts if isinstance(part, SleeveBushing)), None)
        if bush is None:
            return None
        flat, digits = JAW_FLATS.typical, 2
        true = round(float(measuring.jaw_reading(bush.free_bore.typical, flat)), digits)
        readings = [round(true + off, digits) for off in OFFS]
        middle, scatter = mean(readings), stdev(readings)
        hole = float(measuring.hole_of_reading(middle, flat))
        return {
            "part": bush,
            "readings": ", ".join(f"{one:.2f}" for one in readings),
            "count": len(readings),
            "mean": self.measures.size(middle).line,
            "scatter": self.measures.value(scatter, "mm", 2).line,
            "flat": self.measures.value(flat, "mm").line,
            "hole": self.measures.size(hole).line,
            "sure": self.measures.value(sure_of(CALIPER, scatter, len(readings)), "mm", 2).line,
            "limits": self.measures.limits(bush.free_bore).line,
        }


def leaves(low: float, high: float) -> tuple[float, float]:
    """Of feeler leaves: the thinnest at least `low`, which must go in, and the thinnest above `high`, mm."""
    return ceil(low / LEAF - EVEN) * LEAF, (floor(high / LEAF + EVEN) + 1) * LEAF
