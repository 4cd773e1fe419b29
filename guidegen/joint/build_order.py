"""The order in which a joint goes together at the bench, read from its resolved stack.

What a step says, and what is checked before the next one, are words and belong to the guide; here stands
what comes to its place when, which side it goes in from, what cannot be undone, where the hand is in danger.
"""

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Iterator, Literal, Mapping

from guidegen.joint.records import BodyPlate, Joint, Placed, Plate, Stack
from guidegen.kit.records import BallBearing, Part, Process, SleeveBushing, Stock

FLUSH = 1e-6  # mm
SOFT = ("plastic", "print")  # stocks that solvents craze
LONE = ("hex", "thin")  # nuts that nothing keeps when there is but one
WAYS = {"laser": ("laser-materials", "laser-fire"), "print": ("printing",), "drill": ("drilling",)}
Undo = Literal["yes", "with loss", "no"]


@dataclass(frozen=True)
class Build:
    """One step at the bench."""

    does: str  # the key of its words
    rows: tuple[
        int, ...
    ] = ()  # what comes to its place: lines of the stack, counted from 1 as in the drawing
    at: tuple[int, ...] = ()  # the bearings it is about
    side: Literal["", "head", "thread"] = ""  # from which a bearing goes in
    tools: tuple[str, ...] = ()
    undo: Undo = "yes"
    cautions: tuple[str, ...] = ()  # ids of the shared warnings
    number: int = 0


def steps(joint: Joint, stack: Stack, parts: Mapping[str, Part]) -> tuple[Build, ...]:
    """Every step from the parts on the bench to the first try; each part of the stack comes once."""
    bench = _Bench(joint, stack, parts)
    order = (build for stage in STAGES for build in stage(bench))
    return tuple(replace(build, number=n) for n, build in enumerate(order, 1))


def way_of_making(process: Process) -> str:
    """What makes a hole: "laser", "print" or "drill"; of drills and reamers the warnings are the same."""
    name = process.name.lower()
    return next((way for way in ("laser", "print") if way in name), "drill")


@dataclass(frozen=True)
class _Bench:
    """A joint and its stack, with what the stages ask of them."""

    joint: Joint
    stack: Stack
    parts: Mapping[str, Part]

    @cached_property
    def lines(self) -> tuple[tuple[int, Placed], ...]:
        return tuple(enumerate(self.stack.placed, 1))

    @cached_property
    def body(self) -> tuple[int, Placed]:
        return next(line for line in self.lines if line[1].kind == "body")

    @cached_property
    def before(self) -> tuple[int, ...]:
        """What lies between the head and the body."""
        return self._where(lambda row: self._outside(row) and row.z_to <= self.body[1].z_from + FLUSH)

    @cached_property
    def after(self) -> tuple[int, ...]:
        """What lies on the shoulder beyond the body."""
        return self._where(lambda row: self._outside(row) and row.z_from >= self.body[1].z_to - FLUSH)

    @cached_property
    def inside(self) -> tuple[int, ...]:
        """What stands between the bearings."""
        return self._where(lambda row: row.within and row.kind != "bearing")

    @cached_property
    def bearings(self) -> tuple[int, ...]:
        return self._where(lambda row: row.kind == "bearing")

    @cached_property
    def on_thread(self) -> tuple[int, ...]:
        return self._where(lambda row: row.on == "thread")

    @cached_property
    def nuts(self) -> tuple[int, ...]:
        return self._where(lambda row: row.kind == "nut")

    @cached_property
    def whole(self) -> bool:
        """Whether the body is one piece: a block, or one plate."""
        return self.joint.single or self.joint.body == "block"

    @cached_property
    def stocks(self) -> tuple[Stock, ...]:
        """What the plates are made of."""
        return tuple(plate.stock for plate in (*self.joint.housings, *self.plates.values()))

    @cached_property
    def plates(self) -> dict[str, Plate]:
        """The plates beside the housings, by the step that makes their holes."""
        joint = self.joint
        found = {
            "cheek holes": joint.cheeks,
            "arm hole": joint.arm_plate if joint.arm_between else None,
            "plate hole": joint.on_thread if joint.plate_on_thread else None,
        }
        return {does: plate for does, plate in found.items() if plate}

    def row(self, line: int) -> Placed:
        return self.stack.placed[line - 1]

    def housing(self, n: int):
        return self.joint.housings[n - 1]

    def plate(self, n: int) -> BodyPlate:
        """What a bearing sits in."""
        return next(plate for plate in self.stack.plates if plate.bearing in (0, n))

    def liquids(self, *stocks: Stock) -> tuple[str, ...]:
        """The warning of liquids that craze plastic, where there is some."""
        return ("acrylic-solvents",) * any(stock.kind in SOFT for stock in stocks)

    def _where(self, wanted):
        return tuple(n for n, row in self.lines if wanted(row))

    @staticmethod
    def _outside(row):
        return row.on == "shoulder" and not row.within and row.kind != "body"


def _laid_out(bench: _Bench) -> Iterator[Build]:
    yield Build("lay out", cautions=("small-parts",))


def _holes(bench) -> Iterator[Build]:
    """A hole for each bearing, alike ones in one step; then the hole of plate, cheeks or arm."""
    joint = bench.joint
    alike: dict[tuple, list[int]] = {}
    for n, (housing, bearing) in enumerate(zip(joint.housings, joint.bearings), 1):
        alike.setdefault((housing.stock.id, housing.process.id, housing.fit, bearing.id), []).append(n)
    for numbers in alike.values():
        process = bench.housing(numbers[0]).process
        yield Build("seat hole", at=tuple(numbers), tools=_tools(process), cautions=_dangers(process))
    for does, plate in bench.plates.items():
        yield Build(does, tools=_tools(plate.process), cautions=_dangers(plate.process))


def _tools(process):
    return (process.tool or way_of_making(process),)


def _dangers(process):
    return WAYS[way_of_making(process)]


def _seats(bench) -> Iterator[Build]:
    """Each bearing into its hole; one that is glued goes in dry, and is glued when all lines up.

    What stands between the bearings of a block goes in after the first: past both nothing larger comes.
    """
    for n, line in enumerate(bench.bearings, 1):
        if n == 2 and bench.inside and bench.joint.body == "block":
            yield Build("fill the block", bench.inside)
        yield _seated(bench, n, line)


def _seated(bench, n, line) -> Build:
    fit, bearing = bench.housing(n).fit, bench.joint.bearings[n - 1]
    side, proud = _entry(bench, n, line)
    if fit != "press":
        rows, does = ((line,), "slip in") if fit == "slip" else ((), "set in dry")
        return Build(does, rows, (n,), side)
    ball = isinstance(bearing, BallBearing)
    return Build(
        "press till it stops" if proud else "press flush",
        (line,),
        (n,),
        side,
        ("vice",),
        "with loss" if ball else "no",
        ("press-fit", *_of_bearing(bearing), *bench.liquids(bench.housing(n).stock)),
    )


def _of_bearing(bearing):
    """The warning that goes with a kind of bearing."""
    if isinstance(bearing, BallBearing):
        return ("press-ring",)
    return ("oil-bronze",) * isinstance(bearing, SleeveBushing)


def _entry(bench, n, line) -> tuple[str, bool]:
    """The side from which a bearing goes in, and whether it goes on until a flat under the plate stops it.

    A bearing longer than its plate goes in from where it stands out; a shorter one from where it ends flush.
    """
    row, plate = bench.row(line), bench.plate(n)
    flush = {
        "head": abs(plate.z_from - row.z_from) <= FLUSH,
        "thread": abs(plate.z_to - row.z_to) <= FLUSH,
    }
    outside = "thread" if n == 2 else "head"
    if plate.bearing == 0 or flush["head"] == flush["thread"]:
        return outside, False
    longer = row.z_to - row.z_from > plate.z_to - plate.z_from
    return ("head" if flush["thread"] == longer else "thread"), longer


def _tries(bench) -> Iterator[Build]:
    """The screw by itself, before anything hides the bearings; alike ones in one step."""
    alike: dict[str, list[int]] = {}
    for n, bearing in enumerate(bench.joint.bearings, 1):
        alike.setdefault(bearing.id, []).append(n)
    for numbers in alike.values():
        warned = (*_of_bearing(bench.joint.bearings[numbers[0] - 1]), "bore-wiping")
        yield Build("try the screw", at=tuple(numbers), tools=("pin",), cautions=warned)


def _plates_joined(bench) -> Iterator[Build]:
    if not bench.whole:
        yield Build("join the plates", at=(1, 2), cautions=("bore-wiping",))


def _glued(bench) -> Iterator[Build]:
    """The bearings that are bonded in, once all has been dry on the screw."""
    numbers = [n for n, housing in enumerate(bench.joint.housings, 1) if housing.fit == "bonded"]
    if not numbers:
        return
    bushes = [bench.joint.bearings[n - 1] for n in numbers]
    stocks = [bench.housing(n).stock for n in numbers]
    warned = dict.fromkeys(w for b in bushes if isinstance(b, SleeveBushing) for w in _of_bearing(b))
    yield Build(
        "glue in",
        tuple(bench.bearings[n - 1] for n in numbers),
        tuple(numbers),
        tools=("glue",),
        undo="no",
        cautions=(*bench.liquids(*stocks), *warned),
    )


def _upright(bench) -> Iterator[Build]:
    yield Build("stand the screw up", bench.before)


def _body_on(bench) -> Iterator[Build]:
    body, _ = bench.body
    if bench.inside and bench.joint.body != "block":
        yield Build("push through", (body, *bench.inside), cautions=("bore-wiping",))
    else:
        yield Build("put the body on", (body,))


def _beyond(bench) -> Iterator[Build]:
    if bench.after:
        yield Build("thread the rest", bench.after)


def _fills(bench) -> Iterator[Build]:
    """Whether the stack fills the shoulder as it should, before anything is tightened."""
    if bench.joint.clamped:
        yield Build("see it stand out", tools=("caliper",))
    else:
        yield Build("measure the end play", tools=("feeler gauge",))


def _plate_on(bench) -> Iterator[Build]:
    plates = tuple(line for line in bench.on_thread if bench.row(line).kind == "plate")
    if plates:
        yield Build("put the plate on", plates)


def _nuts_on(bench) -> Iterator[Build]:
    rest = tuple(line for line in bench.on_thread if bench.row(line).kind != "plate")
    if rest:
        yield Build("run the nut on", rest)


def _tightened(bench) -> Iterator[Build]:
    """By what the nut is there for: to clamp a plate, to hold the rings together, or only to stay."""
    joint = bench.joint
    if not bench.nuts:
        return
    plate = joint.plate_on_thread
    warned = ("ball-end-keys", *bench.liquids(*([joint.on_thread.stock] if plate else ())))
    if len(bench.nuts) > 1:
        yield Build("jam the nuts", tools=("key", "wrench", "second wrench"), cautions=warned)
    else:
        does = "tighten" if plate else "hold the rings" if joint.clamped else "tighten by hand"
        yield Build(does, tools=("key", "wrench"), cautions=warned)


def _kept(bench) -> Iterator[Build]:
    """One plain nut alone shakes loose; thread locker keeps it where no plastic is near."""
    if len(bench.nuts) == 1 and bench.parts[bench.row(bench.nuts[0]).part].kind in LONE:
        if bench.liquids(*bench.stocks):
            yield Build("watch the nut", cautions=bench.liquids(*bench.stocks))
        else:
            yield Build("lock the nut", tools=("thread locker",), undo="with loss")


def _arm_glued(bench) -> Iterator[Build]:
    """Last of all: glue on the shoulder locks the screw in the frame for good."""
    if bench.joint.arm_bonded:
        stocks = (bench.joint.arm_plate.stock, *(housing.stock for housing in bench.joint.housings))
        yield Build("glue the arm", tools=("glue",), undo="no", cautions=bench.liquids(*stocks))


def _tried(bench) -> Iterator[Build]:
    beyond = ("overhung",) * overhung(bench.joint, bench.stack)
    yield Build("first try", cautions=("first-test", "pinch", *beyond))


def _finished(bench) -> Iterator[Build]:
    bushes = tuple(
        n for n, bearing in enumerate(bench.joint.bearings, 1) if isinstance(bearing, SleeveBushing)
    )
    yield Build("oil and count", at=bushes, cautions=("small-parts",))


def overhung(joint: Joint, stack: Stack) -> bool:
    """Whether the load lies beyond what holds the screw: bearing 2, or the inner faces of a fork's cheeks."""
    if joint.layout != "C":
        return stack.z_load > stack.z_bearings[-1]
    first, last = (row for row in stack.placed if row.kind == "cheek")
    return not first.z_to - FLUSH <= stack.z_load <= last.z_from + FLUSH


STAGES = (
    _laid_out,
    _holes,
    _seats,
    _tries,
    _plates_joined,
    _glued,
    _upright,
    _body_on,
    _beyond,
    _fills,
    _plate_on,
    _nuts_on,
    _tightened,
    _kept,
    _arm_glued,
    _tried,
    _finished,
)
