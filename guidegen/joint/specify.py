"""From a joint file, or the grid, to a joint: every key checked, every mistake told at once."""
import difflib
import re
from dataclasses import dataclass
from typing import Mapping

from guidegen.errors import BadInput, Mistake
from guidegen.joint.records import Housing, Joint, Motion, Plate
from guidegen.kit import lookup
from guidegen.kit.records import BallBearing, Course, ShoulderScrew, SleeveBushing, Spacer
from guidegen.units import EXAMPLES, Band, read_quantity

INSTRUMENTS = {"caliper": 0.02, "micrometer": 0.004, "plug gauge": 0.003}  # ± mm; common practice
KEYS = ("title", "shaft", "bearings", "separation", "overhang", "load", "arm", "motion", "turns", "held", "rings", "body",
        "housing_1", "housing_2", "on_thread", "cheeks", "arm_plate", "offset", "surroundings", "stack", "measured")
NEEDED = ("title", "shaft", "bearings", "load", "arm", "turns", "housing_1")
SIZES = ("shaft", "bore_1", "bore_2", "free_bore_1", "free_bore_2", "outside_diameter_1", "outside_diameter_2", "hole_1", "hole_2")
LARGEST = 1000.0  # mm; a joint larger than this is not of this kind
SERVES = (SleeveBushing, BallBearing)


def make_joint(course: Course, raw, id: str) -> Joint:
    """The joint of a raw joint file; raises BadInput with every mistake in it."""
    return _Reading(course, raw).joint(id)


@dataclass(frozen=True)
class _Wrong(Exception):
    """One mistake while a value is read; kept, so that the rest is read too."""

    keys: tuple
    found: str
    allowed: str
    remedy: str = ""


class _Reading:
    """Reads one joint file; gathers mistakes."""

    def __init__(self, course, raw):
        self.course, self.raw, self.data = course, raw, raw.data
        self.mistakes: list[Mistake] = []

    def joint(self, id) -> Joint:
        if not isinstance(self.data, Mapping):
            raise BadInput([Mistake(str(self.raw.path), "line 1", "no keys", "a joint file: title, shaft, bearings, …")])
        self._known((), self.data, KEYS)
        for key in NEEDED:
            if key not in self.data:
                self._keep(_Wrong((), f"no key {key}", f"a joint file needs {', '.join(NEEDED)}"))
        fields = self._fields(id)
        if not self.mistakes:
            self._agree(fields)
        if self.mistakes:
            raise BadInput(sorted(set(self.mistakes)))
        return Joint(**fields)

    def _fields(self, id):
        take, number = self._take, self._number
        screw = take(self._part, "shaft", kinds=(ShoulderScrew,), what="shoulder screw")
        bearings = take(self._bearings, "bearings") or ()
        housing = take(self._housing, "housing_1")
        housings = (housing,)
        if len(bearings) == 2:
            second = self.data.get("housing_2", "same")
            housings += (housing if second == "same" else take(self._housing, "housing_2"),)
        radial, axial, shock, direction = take(self._load, "load") or (0.0, 0.0, 1.0, "fixed")
        held = take(self._choice, "held", allowed=("thread", "fork"))
        on_thread, cheeks = take(self._plate, "on_thread"), take(self._plate, "cheeks")
        material = self.course.materials[screw.material] if screw else None
        return dict(
            id=id, title=take(self._text, "title"), kit=self._kit(screw), shaft=screw,
            thread=lookup.thread(screw.thread) if screw else None, bearings=bearings,
            separation=take(number, "separation", above=0), overhang=take(number, "overhang"),
            radial=radial, axial=axial, shock=shock, direction=direction, arm=take(number, "arm", above=0),
            motion=take(self._motion, "motion") or Motion("hand"), turns=take(self._choice, "turns", allowed=("shaft", "housing")),
            held=held, rings=take(self._choice, "rings", allowed=("loose", "clamped")) or "loose",
            body=take(self._choice, "body", allowed=("plates", "block")) or "plates", housings=housings,
            on_thread=on_thread, cheeks=(cheeks or on_thread) if held == "fork" else None,
            arm_plate=take(self._plate, "arm_plate") or on_thread, offset=take(number, "offset"),
            gap_tolerance=read_quantity(str(self.course.grid.data["gap_tolerance"]), "length"), youngs_modulus=material and material.youngs_modulus,
            yield_stress=material and material.yield_stress, stack_ids=take(self._ids, "stack"),
            measured=take(self._measured, "measured") or {})

    def _agree(self, f):
        """Keys that need or exclude each other."""
        pair = len(f["bearings"]) == 2
        if pair and f["separation"] is None:
            self._keep(_Wrong((), "no key separation", "the distance between the middles of the two bearings"))
        if not pair and f["separation"] is not None:
            self._keep(_Wrong(("separation",), "a separation with one bearing", "separation only with two bearings", "Remove it."))
        if f["turns"] == "housing" and f["held"] is None:
            self._keep(_Wrong((), "no key held", "thread or fork, when the housing turns"))
        if f["turns"] == "shaft" and f["held"] is not None:
            self._keep(_Wrong(("held",), f["held"], "held only when the housing turns", "Remove it."))
        if f["turns"] == "housing" and f["overhang"] is None:
            self._keep(_Wrong((), "no key overhang", "the distance from bearing 2 to the load, when the housing turns"))
        if f["turns"] == "shaft" and f["overhang"] is None and f["on_thread"] is None:
            self._keep(_Wrong((), "neither overhang nor on_thread", "the arm plate on the thread, or the overhang of the load"))
        if f["held"] == "thread" and f["on_thread"] is None:
            self._keep(_Wrong((), "no key on_thread", "the frame plate clamped on the thread"))
        if f["held"] == "fork" and f["cheeks"] is None:
            self._keep(_Wrong((), "no key cheeks", "the plates of the fork"))
        for n, (bearing, housing) in enumerate(zip(f["bearings"], f["housings"]), 1):
            if housing.edge <= bearing.outside_diameter.most / 2:
                self._keep(_Wrong((f"housing_{n}", "edge"), f"{housing.edge:g} mm from the hole's centre",
                                  f"more than {bearing.outside_diameter.most / 2:.2f} mm, the radius of {bearing.id}"))
        between = f["turns"] == "shaft" and pair and f["overhang"] is not None and f["overhang"] < 0
        if between and f["arm_plate"] is None:
            self._keep(_Wrong((), "no key arm_plate", "the arm that sits on the shoulder between the bearings"))
        if f["turns"] == "shaft" and f["on_thread"] is None and not between and f["overhang"] is not None:
            self._keep(_Wrong((), "no key on_thread", "the arm plate clamped on the thread"))
        if between and f["overhang"] < -f["separation"]:
            self._keep(_Wrong(("overhang",), f"{f['overhang']:g} mm", f"down to −{f['separation']:g} mm (bearing 1)",
                              "Turn the screw round: call the bearing nearer the load bearing 2."))

    # one value of each kind

    def _take(self, read, key, **more):
        if self.data.get(key) is None:
            if key in self.data:
                self._keep(_Wrong((key,), "nothing", "a value", "Write one, or remove the key."))
            return None
        try:
            return read((key,), self.data[key], **more)
        except _Wrong as wrong:
            return self._keep(wrong)

    def _keep(self, wrong: _Wrong):
        line = next((self.raw.lines[wrong.keys[:n]] for n in range(len(wrong.keys), 0, -1) if wrong.keys[:n] in self.raw.lines), 1)
        key = f", {'.'.join(map(str, wrong.keys))}" if wrong.keys else ""
        self.mistakes.append(Mistake(str(self.raw.path), f"line {line}{key}", wrong.found, wrong.allowed, wrong.remedy))

    def _known(self, keys, mapping, allowed):
        for key in mapping:
            if key not in allowed:
                near = difflib.get_close_matches(str(key), allowed, 1)
                self._keep(_Wrong((*keys, key), f"unknown key {_short(key)}", ", ".join(allowed), f"Did you mean {near[0]}?" if near else ""))

    def _mapping(self, keys, value, allowed):
        if not isinstance(value, Mapping):
            raise _Wrong(keys, _short(value), f"keys {', '.join(allowed)}")
        self._known(keys, value, allowed)
        return value

    def _text(self, keys, value):
        if not isinstance(value, str) or not value.strip() or len(value) > 200:
            raise _Wrong(keys, _short(value), "a text of 1 to 200 characters")
        if re.search(r"[\x00-\x1f\x7f\u202a-\u202e\u2066-\u2069]", value):
            raise _Wrong(keys, "control characters", "plain text")
        return value.strip()

    def _number(self, keys, value, dimension="length", above=None, at_least=None, most=None):
        try:
            number = read_quantity(str(value), dimension)
        except ValueError as why:
            raise _Wrong(keys, f"{_short(value)} ({why})", f"such as {EXAMPLES[dimension]}") from None
        most = LARGEST if most is None and dimension == "length" else most
        if above is not None and number <= above or at_least is not None and number < at_least or most is not None and abs(number) > most:
            low = f"above {above:g}" if above is not None else f"at least {at_least:g}" if at_least is not None else ""
            high = f"at most {most:g}" if most is not None else ""
            raise _Wrong(keys, _short(value), " and ".join(filter(None, (low, high))))
        return number

    def _choice(self, keys, value, allowed):
        if value not in allowed:
            raise _Wrong(keys, _short(value), " or ".join(allowed))
        return value

    def _named(self, keys, value, known, what):
        if not isinstance(value, str) or value not in known:
            near = difflib.get_close_matches(str(value), known, 3)
            raise _Wrong(keys, _short(value), f"a {what} of this course", f"Did you mean {' or '.join(near)}?" if near else
                         f"There are: {', '.join(sorted(known)[:12])}.")
        return known[value]

    def _part(self, keys, value, kinds, what):
        known = {id: part for id, part in self.course.parts.items() if isinstance(part, kinds)}
        return self._named(keys, value, known, what)

    def _bearings(self, keys, value):
        if not isinstance(value, (list, tuple)) or not 1 <= len(value) <= 2:
            raise _Wrong(keys, _short(value), "a list of one or two bearings, the one nearest the head first")
        known = {id: part for id, part in self.course.parts.items()
                 if isinstance(part, SERVES) or isinstance(part, Spacer) and part.bush == "yes"}
        return tuple(self._named((*keys, n), one, known, "bearing") for n, one in enumerate(value))

    def _ids(self, keys, value):
        if not isinstance(value, (list, tuple)) or not value or not all(isinstance(v, str) for v in value):
            raise _Wrong(keys, _short(value), "a list of part ids from the head")
        return tuple(value)

    def _plate(self, keys, value):
        value = self._mapping(keys, value, ("stock", "process", "fit"))
        stock = self._named((*keys, "stock"), value.get("stock"), self.course.stocks, "stock")
        fit = self._choice((*keys, "fit"), value.get("fit", "slip"), ("press", "slip", "bonded"))
        return Plate(stock, self._process(keys, value, stock), fit)

    def _process(self, keys, value, stock):
        if "process" not in value:
            fitting = [p for p in self.course.processes.values() if stock.kind in p.stocks.split()]
            if not fitting:
                raise _Wrong(keys, "no key process", "a process", f"No process of this course makes holes in {stock.id}.")
            return min(fitting, key=lambda process: process.id)
        process = self._named((*keys, "process"), value["process"], self.course.processes, "process")
        if stock.kind not in process.stocks.split():
            raise _Wrong((*keys, "process"), f"{process.id} in {stock.id}", f"processes for {stock.kind}: " + ", ".join(
                p.id for p in self.course.processes.values() if stock.kind in p.stocks.split()))
        return process

    def _housing(self, keys, value):
        value = self._mapping(keys, value, ("stock", "process", "fit", "edge", "proud"))
        for needed in ("stock", "process", "fit", "edge"):
            if needed not in value:
                raise _Wrong(keys, f"no key {needed}", "stock, process, fit and edge")
        stock = self._named((*keys, "stock"), value["stock"], self.course.stocks, "stock")
        edge = self._number((*keys, "edge"), value["edge"], above=0)
        return Housing(stock, self._process(keys, value, stock), self._choice((*keys, "fit"), value["fit"], ("press", "slip", "bonded")),
                       edge, self._choice((*keys, "proud"), value.get("proud", "head"), ("head", "thread")))

    def _load(self, keys, value):
        value = self._mapping(keys, value, ("radial", "axial", "shock", "direction"))
        read = lambda key, default, dimension, **bounds: (  # noqa: E731
            self._number((*keys, key), value[key], dimension, **bounds) if key in value else default)
        return (read("radial", 0.0, "force", at_least=0, most=1e5), read("axial", 0.0, "force", at_least=0, most=1e5),
                read("shock", 1.0, "number", at_least=1, most=10),
                self._choice((*keys, "direction"), value.get("direction", "fixed"), ("fixed", "turning with the arm")).split()[0])

    def _motion(self, keys, value):
        value = self._mapping(keys, value, ("kind", "angle", "rate", "speed", "hours"))
        kind = self._choice((*keys, "kind"), value.get("kind"), ("swing", "turn", "hand"))
        if kind == "hand":
            return Motion("hand")
        rate = "rate" if kind == "swing" else "speed"
        for needed in ("angle", rate) if kind == "swing" else (rate,):
            if needed not in value:
                raise _Wrong(keys, f"no key {needed}", f"a {kind} needs {needed}")
        angle = self._number((*keys, "angle"), value["angle"], "angle", above=0, most=6.2832) if kind == "swing" else 0.0
        hours = self._number((*keys, "hours"), value["hours"], "number", at_least=0, most=1e6) if "hours" in value else 0.0
        return Motion(kind, angle, self._number((*keys, rate), value[rate], "rate", above=0, most=1000), hours)

    def _measured(self, keys, value):
        value = self._mapping(keys, value, (*SIZES, "with"))
        instrument = self._choice((*keys, "with"), value.get("with", "caliper"), tuple(INSTRUMENTS))
        error = INSTRUMENTS[instrument]
        sizes = {key: self._number((*keys, key), cell, above=0) for key, cell in value.items() if key in SIZES}
        return {key: Band(size - error, size, size + error) for key, size in sizes.items()}

    def _kit(self, screw):
        return next((kit for _, kit in sorted(self.course.kits.items()) if screw and screw.id in kit.parts), None)


def _short(value):
    text = str(value)
    return text if len(text) <= 60 else text[:57] + "…"
