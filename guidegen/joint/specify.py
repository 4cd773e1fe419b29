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
KEYS = (
    "title",
    "shaft",
    "bearings",
    "separation",
    "overhang",
    "load",
    "arm",
    "motion",
    "turns",
    "held",
    "rings",
    "body",
    "housing_1",
    "housing_2",
    "on_thread",
    "cheeks",
    "arm_plate",
    "offset",
    "surroundings",
    "stack",
    "measured",
)
NEEDED = ("title", "shaft", "bearings", "load", "arm", "turns", "housing_1")
SIZES = (
    "shaft",
    "bore_1",
    "bore_2",
    "free_bore_1",
    "free_bore_2",
    "outside_diameter_1",
    "outside_diameter_2",
    "hole_1",
    "hole_2",
)
LARGEST = 1000.0  # mm; a joint larger than this is not of this kind
STRONGEST = 1e5  # N
SHOCKS = (1, 10)  # times the steady load
WHOLE_TURN = 6.2832  # rad; a swing goes no farther
FASTEST = 1000  # 1/s
LONGEST = 1e6  # h
FINEST = 6  # decimals of a millimetre or newton that are kept; anything smaller is nothing
MISMEASURED = 0.5  # mm; a size farther than this from the part's own is of another part, or a slip
SERVES = (SleeveBushing, BallBearing)
FITS = ("press", "slip", "bonded")
PLATE_FITS = ("slip", "bonded")  # nothing in a kit grips a smooth shoulder


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
            raise BadInput(
                [Mistake(str(self.raw.path), "line 1", "no keys", "a joint file: title, shaft, bearings, …")]
            )
        self._known((), self.data, KEYS)
        for key in NEEDED:
            if key not in self.data:
                self._keep(_Wrong((), f"no key {key}", f"a joint file needs {', '.join(NEEDED)}"))
        fields = self._fields(id)
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
            id=id,
            title=take(self._text, "title"),
            kit=self._kit(screw),
            shaft=screw,
            thread=lookup.thread(screw.thread) if screw else None,
            bearings=bearings,
            separation=take(number, "separation", above=0),
            overhang=take(number, "overhang"),
            radial=radial,
            axial=axial,
            shock=shock,
            direction=direction,
            arm=take(number, "arm", above=0),
            motion=take(self._motion, "motion") or Motion("hand"),
            turns=take(self._choice, "turns", allowed=("shaft", "housing")),
            held=held,
            rings=take(self._choice, "rings", allowed=("loose", "clamped")) or "loose",
            body=take(self._choice, "body", allowed=("plates", "block")) or "plates",
            housings=housings,
            on_thread=on_thread,
            cheeks=(cheeks or on_thread) if held == "fork" else None,
            arm_plate=take(self._plate, "arm_plate") or on_thread,
            offset=take(number, "offset"),
            place=self._place(),
            gap_tolerance=read_quantity(str(self.course.grid.data["gap_tolerance"]), "length"),
            youngs_modulus=material and material.youngs_modulus,
            yield_stress=material and material.yield_stress,
            stack_ids=take(self._ids, "stack"),
            measured=take(self._measured, "measured") or {},
        )

    def _agree(self, f):
        """Keys that need or exclude each other."""
        if f["bearings"]:
            self._distances_agree(f, len(f["bearings"]) == 2)
        if f["turns"]:
            self._layout_agrees(f)
        if f["shaft"]:
            self._measures_agree(f)
        for n, (bearing, housing) in enumerate(zip(f["bearings"], f["housings"]), 1):
            outside = f["measured"].get(f"outside_diameter_{n}", bearing.outside_diameter).most
            if housing and housing.edge <= outside / 2:
                self._keep(
                    _Wrong(
                        (f"housing_{n}", "edge"),
                        f"{housing.edge:g} mm from the hole's centre",
                        f"more than {outside / 2:.2f} mm, the radius of {bearing.id}",
                    )
                )

    def _measures_agree(self, f):
        """A measured size belongs to a part that is there, and is near what that part should be."""
        near = {"shaft": f["shaft"].shoulder_diameter.typical}
        for n, bearing in enumerate(f["bearings"], 1):
            near[f"bore_{n}"] = near[f"free_bore_{n}"] = bearing.nominal
            if isinstance(bearing, BallBearing) and f"free_bore_{n}" in f["measured"]:
                found = f"free_bore_{n} of a ball bearing"
                keys = ("measured", f"free_bore_{n}")
                self._keep(_Wrong(keys, found, f"bore_{n}", "A ball bearing has one bore."))
            near[f"hole_{n}"] = near[f"outside_diameter_{n}"] = bearing.outside_diameter.typical
        for name, size in f["measured"].items():
            if name in near and abs(size.typical - near[name]) > MISMEASURED:
                self._keep(
                    _Wrong(
                        ("measured", name),
                        f"{size.typical:g} mm",
                        f"within {MISMEASURED:g} mm of {near[name]:.2f} mm",
                        "Measure again, or name the part that it is.",
                    )
                )

    def _distances_agree(self, f, pair):
        if pair and "separation" not in self.data:
            self._keep(
                _Wrong((), "no key separation", "the distance between the middles of the two bearings")
            )
        for keys in _of_a_second_bearing(self.data) if not pair else ():
            found, allowed = f"{keys[-1]} with one bearing", f"{keys[-1]} only with two bearings"
            self._keep(_Wrong(keys, found, allowed, "Remove it."))
        if not (f["turns"] == "shaft" and pair and f["separation"] and (f["overhang"] or 0) < 0):
            return
        if "arm_plate" not in self.data and "on_thread" not in self.data:
            self._keep(
                _Wrong((), "no key arm_plate", "the arm that sits on the shoulder between the bearings")
            )
        if f["overhang"] < -f["separation"]:
            self._keep(
                _Wrong(
                    ("overhang",),
                    f"{f['overhang']:g} mm",
                    f"down to −{f['separation']:g} mm (bearing 1)",
                    "Turn the screw round: call the bearing nearer the load bearing 2.",
                )
            )

    def _layout_agrees(self, f):
        given, between = self.data, (f["overhang"] or 0) < 0 and len(f["bearings"]) == 2
        if f["turns"] == "shaft":
            if f["held"]:
                self._keep(_Wrong(("held",), f["held"], "held only when the housing turns", "Remove it."))
            if "on_thread" not in given and not between:
                self._keep(_Wrong((), "no key on_thread", "the arm plate clamped on the thread"))
            return
        if "held" not in given:
            self._keep(_Wrong((), "no key held", "thread or fork, when the housing turns"))
        if "overhang" not in given:
            self._keep(
                _Wrong(
                    (), "no key overhang", "the distance from bearing 2 to the load, when the housing turns"
                )
            )
        if f["held"] == "thread" and "on_thread" not in given:
            self._keep(_Wrong((), "no key on_thread", "the frame plate clamped on the thread"))
        if f["held"] == "fork" and not {"cheeks", "on_thread"} & set(given):
            self._keep(_Wrong((), "no key cheeks", "the plates of the fork"))

    # one value of each kind

    def _take(self, read, key, **more):
        if self.data.get(key) is None:
            if key in self.data:
                self._keep(_Wrong((key,), "nothing", "a value", "Write one, or remove the key."))
            return None
        return self._try(read, (key,), self.data[key], **more)

    def _try(self, read, keys, value, **more):
        """The value read; a mistake is kept, and gives None."""
        try:
            return read(keys, value, **more)
        except _Wrong as wrong:
            return self._keep(wrong)

    def _keep(self, wrong: _Wrong):
        line = next(
            (
                self.raw.lines[wrong.keys[:n]]
                for n in range(len(wrong.keys), 0, -1)
                if wrong.keys[:n] in self.raw.lines
            ),
            1,
        )
        key = f", {'.'.join(map(str, wrong.keys))}" if wrong.keys else ""
        self.mistakes.append(
            Mistake(str(self.raw.path), f"line {line}{key}", wrong.found, wrong.allowed, wrong.remedy)
        )

    def _known(self, keys, mapping, allowed):
        for key in mapping:
            if key not in allowed:
                near = difflib.get_close_matches(str(key), allowed, 1)
                self._keep(
                    _Wrong(
                        (*keys, key),
                        f"unknown key {_short(key)}",
                        ", ".join(allowed),
                        f"Did you mean {near[0]}?" if near else "",
                    )
                )

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
        if dimension in ("length", "force"):
            number = round(number, FINEST)
        most = LARGEST if most is None and dimension == "length" else most
        if (
            above is not None
            and number <= above
            or at_least is not None
            and number < at_least
            or most is not None
            and abs(number) > most
        ):
            low = (
                f"above {above:g}"
                if above is not None
                else f"at least {at_least:g}"
                if at_least is not None
                else ""
            )
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
            raise _Wrong(
                keys,
                _short(value),
                f"a {what} of this course",
                f"Did you mean {' or '.join(near)}?"
                if near
                else f"There are: {', '.join(sorted(known)[:12])}.",
            )
        return known[value]

    def _part(self, keys, value, kinds, what):
        known = {id: part for id, part in self.course.parts.items() if isinstance(part, kinds)}
        return self._named(keys, value, known, what)

    def _bearings(self, keys, value):
        if not isinstance(value, (list, tuple)) or not 1 <= len(value) <= 2:
            raise _Wrong(keys, _short(value), "a list of one or two bearings, the one nearest the head first")
        known = {
            id: part
            for id, part in self.course.parts.items()
            if isinstance(part, SERVES) or isinstance(part, Spacer) and part.bush == "yes"
        }
        found = [
            self._try(self._named, (*keys, n), one, known=known, what="bearing")
            for n, one in enumerate(value)
        ]
        return tuple(found) if all(found) else ()

    def _ids(self, keys, value):
        if not isinstance(value, (list, tuple)) or not value or not all(isinstance(v, str) for v in value):
            raise _Wrong(keys, _short(value), "a list of part ids from the head")
        return tuple(value)

    def _plate(self, keys, value):
        value = self._mapping(keys, value, ("stock", "process", "fit"))
        stock = self._try(
            self._named, (*keys, "stock"), value.get("stock"), known=self.course.stocks, what="stock"
        )
        fit = self._try(self._choice, (*keys, "fit"), value.get("fit", "slip"), allowed=PLATE_FITS)
        return Plate(
            stock, self._try(self._process, (*keys, "process"), value.get("process"), stock=stock), fit
        )

    def _process(self, keys, value, stock):
        """The process of a hole; without a name, the first that works on the stock."""
        fitting = [
            p.id for p in self.course.processes.values() if stock is None or stock.kind in p.stocks.split()
        ]
        if value is None and fitting:
            return self.course.processes[min(fitting)]
        process = self._named(keys, value, self.course.processes, "process")
        if process.id not in fitting:
            raise _Wrong(
                keys, f"{process.id} in {stock.id}", f"processes for {stock.kind}: {', '.join(fitting)}"
            )
        return process

    def _housing(self, keys, value):
        value = self._mapping(keys, value, ("stock", "process", "fit", "edge", "proud"))
        missing = [needed for needed in ("stock", "process", "fit", "edge") if needed not in value]
        if missing:
            raise _Wrong(keys, f"no key {' and no key '.join(missing)}", "stock, process, fit and edge")
        stock = self._try(
            self._named, (*keys, "stock"), value["stock"], known=self.course.stocks, what="stock"
        )
        process = self._try(self._process, (*keys, "process"), value["process"], stock=stock)
        fit = self._try(self._choice, (*keys, "fit"), value["fit"], allowed=FITS)
        proud = self._try(
            self._choice, (*keys, "proud"), value.get("proud", "head"), allowed=("head", "thread")
        )
        edge = self._try(self._number, (*keys, "edge"), value["edge"], above=0)
        return Housing(stock, process, fit, edge, proud) if edge else None

    def _load(self, keys, value):
        value = self._mapping(keys, value, ("radial", "axial", "shock", "direction"))
        forces = [
            self._inner(keys, value, key, 0.0, dimension="force", at_least=0, most=STRONGEST)
            for key in ("radial", "axial")
        ]
        shock = self._inner(keys, value, "shock", 1.0, dimension="number", at_least=SHOCKS[0], most=SHOCKS[1])
        direction = self._try(
            self._choice,
            (*keys, "direction"),
            value.get("direction", "fixed"),
            allowed=("fixed", "turning with the arm"),
        )
        return (*forces, shock, (direction or "fixed").split()[0])

    def _inner(self, keys, value, key, default, **bounds):
        return self._try(self._number, (*keys, key), value[key], **bounds) if key in value else default

    def _motion(self, keys, value):
        value = self._mapping(keys, value, ("kind", "angle", "rate", "speed", "hours"))
        kind = self._choice((*keys, "kind"), value.get("kind"), ("swing", "turn", "hand"))
        if kind == "hand":
            return Motion("hand")
        needed = ("angle", "rate") if kind == "swing" else ("speed",)
        missing = [key for key in needed if key not in value]
        if missing:
            raise _Wrong(
                keys, f"no key {' and no key '.join(missing)}", f"a {kind} needs {' and '.join(needed)}"
            )
        angle = self._inner(keys, value, "angle", 0.0, dimension="angle", above=0, most=WHOLE_TURN)
        hours = self._inner(keys, value, "hours", 0.0, dimension="number", at_least=0, most=LONGEST)
        return Motion(
            kind,
            angle,
            self._inner(keys, value, needed[-1], 0.0, dimension="rate", above=0, most=FASTEST),
            hours,
        )

    def _measured(self, keys, value):
        value = self._mapping(keys, value, (*SIZES, "with"))
        instrument = self._choice((*keys, "with"), value.get("with", "caliper"), tuple(INSTRUMENTS))
        error = INSTRUMENTS[instrument]
        sizes = {
            key: self._try(self._number, (*keys, key), value[key], above=error)
            for key in SIZES
            if key in value
        }
        return {key: Band(size - error, size, size + error) for key, size in sizes.items() if size}

    def _place(self):
        """Where it stands: the place named, else the course's own, which has the course's temperatures."""
        course = self.course
        own = course.places[course.surroundings].model_copy(
            update={end: getattr(course, end) for end in ("temperature_least", "temperature_most")}
        )
        known = course.places | {own.id: own}
        return self._take(self._named, "surroundings", known=known, what="place") or own

    def _kit(self, screw):
        return next(
            (kit for _, kit in sorted(self.course.kits.items()) if screw and screw.id in kit.parts), None
        )


def _of_a_second_bearing(data):
    """The keys of a joint file that say something of a second bearing."""
    measured = data.get("measured")
    sizes = [key for key in SIZES if key.endswith("_2") and isinstance(measured, Mapping) and key in measured]
    return [(key,) for key in ("separation", "housing_2", "offset") if key in data] + [
        ("measured", key) for key in sizes
    ]


def _short(value):
    text = " ".join(str(value).split()) or "nothing"
    return text if len(text) <= 60 else text[:57] + "…"
