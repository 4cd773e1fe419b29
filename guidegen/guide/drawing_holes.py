"""The holes of a joint as its page tells them: what to draw, what comes of it, other tools, how to try it."""

from dataclasses import dataclass
from math import ceil
from typing import Iterator

from guidegen.guide.chapters import Chapter, Row, Table, folded, present
from guidegen.guide.holes import UNMEASURED
from guidegen.guide.measures import Both, Measures
from guidegen.guide.zones import Mark, Side, Zone, zones
from guidegen.joint.inputs import SPREADS, Seat, round_nominal, seats, shaft_hole, thread_hole
from guidegen.joint.reach import Scatter, goes_in, half_of, pressed, reach_of
from guidegen.joint.records import Housing, Plate, Result
from guidegen.kit.lookup import band_of_class, drills_beside, reamers_beside
from guidegen.kit.records import Course, Process
from guidegen.numbers import percent
from guidegen.theory.chances import ENOUGH, Chances, err_towards
from guidegen.theory.holes import across_flats, narrow_side
from guidegen.units import Band

WORKED = (  # the steps behind these numbers, by the names of what they give
    "closing_pressure",
    "closing_interference",
    "strain_pressure",
    "strain_interference",
    "crack_pressure",
    "crack_interference",
    "grip_pressure",
    "grip_interference",
    "wanted_hole",
)
BESIDE = {"drill": drills_beside, "reamer": reamers_beside}
CHANCES = ("loose", "right", "cracked")
LASTING = "right and lasting"
STRIP_STEPS = (
    0.02,
    0.05,
    0.1,
)  # mm, from hole to hole of a test strip; the first that is no finer than the spread
STRIP = range(-2, 3)
FEW_FLATS, MANY_FLATS = 32, 96
TOLD = 0.02  # a chance from which on it is told
IN_LINE = {
    "plates": "Put the shaft through both bearings before the screws between the plates are tight: then only "
    "the lean of the bores counts, and it binds {} of the time. Bores made in one go through both plates, "
    "clamped together, lie in line.",
    "block": "Were they in line, their lean alone would bind it {} of the time. Bores made in one go, from "
    "one side of the block, lie in line.",
}
BOUNDS = {
    "closes": "pressing in takes all the room inside the bearing",
    "strains": "the housing bears it for a moment, but not for good",
    "cracks": "the housing cracks",
}


@dataclass(frozen=True)
class Drilled:
    """A hole that a drill or reamer of one size makes, and what comes of a bearing in it."""

    tool: str
    hole: Band
    chances: tuple[float, ...] | None  # of a press fit: loose, right, cracked, right and lasting
    goes_in: float | None


def holing(result: Result, course: Course, measures: Measures) -> tuple[Chapter, ...]:
    """The chapter of the holes to draw."""
    known = list(zip(range(1, 3), seats(result.joint, course), result.joint.housings))
    pressed_in = [one for one in known if one[2].fit == "press"]
    others = [one for one in known if one[2].fit != "press"]
    tables = (
        *(_table(result, group, measures, n) for n, group in enumerate((pressed_in, others)) if group),
        _beside(result, measures),
        *_tools(known, course, measures),
    )
    told = present(tables)
    if told:
        figure = zones(_sides(result, *known[0]), measures)
        told = (told[0]._replace(figure=figure.svg, figure_says=figure.says), *told[1:])
    return (Chapter("holes", "The holes to draw", told, tuple(_sentences(result, known, course, measures))),)


def _table(result, group, measures, other) -> Table:
    """What to draw for each bearing held in one way, and how often that comes out how."""
    rows = []
    for n, seat, housing in group:
        names = ("goes_in",) if other else CHANCES
        quantities = {f"chance_{name}_{n}": result.quantities.get(f"chance_{name}_{n}") for name in names}
        cells = [Both(percent(q.value) if q else "", "") for q in quantities.values()]
        words = f"{seat.bearing.name} in {housing.stock.name}, bearing {n}"
        made = (measures.drawn(seat.drawn), *cells, _becomes(seat, housing, measures))
        rows.append(Row((f"drawn_hole_{n}", *quantities), words, made))
    heads = ("draw", *(("goes in by hand",) if other else CHANCES), "comes out at")
    how = "slipped or bonded in" if other else "pressed in"
    return Table(
        f"Holes, {how}",
        f"Bearings {how}: the circle to draw, and what comes of it.",
        heads,
        folded(rows, result.joint.single),
    )


def _becomes(seat: Seat, housing: Housing, measures) -> Both:
    """A hole as made; with a spread that is not the machine's own, that stands beside it."""
    made = measures.limits(seat.hole)
    if housing.process.grade or housing.process.measured == "yes":
        return made
    return Both(f"{made.first}; spread {UNMEASURED}", made.second)


def _beside(result, measures) -> Table:
    """The other holes on the screw: for the shoulder, and for the thread in the plate that the nut clamps."""
    joint, rows = result.joint, []
    found: list[tuple[str, str, Plate]] = []
    if joint.layout == "C":
        found.append(("cheek_hole", "shoulder through a cheek", joint.cheeks))
    if joint.arm_between:
        found.append(("arm_hole", "shoulder through the arm", joint.arm_plate))
    for name, words, plate in found:
        rows.append((name, words, plate, shaft_hole(joint.shaft.nominal, plate)))
    if joint.plate_on_thread:
        made = thread_hole(joint.thread.id, "fine", joint.on_thread.process)
        rows.append(
            ("clamped_hole", f"{joint.thread.id} thread through the clamped plate", joint.on_thread, made)
        )
    return Table(
        "Other holes",
        "Other holes on the screw: these must only let it through.",
        ("draw", "comes out at"),
        tuple(
            Row(
                (name,),
                f"{words}, {plate.stock.name}, {plate.process.name}",
                (measures.drawn(made.drawn), measures.limits(made.band)),
            )
            for name, words, plate, made in rows
        ),
    )


def _tools(known, course, measures) -> Iterator[Table]:
    """The nearest drills and reamers for each bearing, with the fit that each gives."""
    told = []
    for n, seat, housing in known:
        found = tuple(drilled(seat, housing, course))
        if not found or (found, housing.fit) in told:
            continue
        told.append((found, housing.fit))
        heads = (*((*CHANCES, LASTING) if housing.fit == "press" else ("goes in by hand",)), "makes")
        rows = tuple(
            Row((f"tool_{n}",), one.tool, (*_shares(one), measures.limits(one.hole))) for one in found
        )
        words = f"Nearest drills and reamers for the {seat.bearing.name}, and the fit that each gives."
        yield Table(f"Tools, bearing {n}", words, heads, rows, what="Tool")


def _shares(one: Drilled) -> tuple[Both, ...]:
    shares = (one.goes_in,) if one.chances is None else one.chances
    return tuple(Both(percent(float(share)), "") for share in shares)


def drilled(seat: Seat, housing: Housing, course: Course) -> Iterator[Drilled]:
    """What the drills and reamers on both sides of the wanted hole make of it, the smallest first."""
    for process in course.processes.values():
        if process.tool and housing.stock.kind in process.stocks.split():
            beside = BESIDE[process.tool](seat.wanted - process.bias)
            for tool in dict.fromkeys(filter(None, beside)):
                hole, scatter = _made_by(tool, process)
                name = f"{process.tool} {tool.name}{' in' * (tool.series == 'fractional')}"
                if housing.fit == "press":
                    reach = reach_of(seat.ring, seat.wall)
                    fit = pressed(seat.outside, hole.typical, scatter, 0.0, reach)
                    yield Drilled(name, hole, (*fit.chances, fit.lasting), None)
                else:
                    yield Drilled(name, hole, None, goes_in(seat.outside, hole.typical, scatter))


def _made_by(tool, process: Process) -> tuple[Band, Scatter]:
    """The hole that a tool makes, and how it scatters."""
    if process.grade:
        band = band_of_class(tool.diameter, process.grade)
        return band, Scatter(half_of(band))
    middle, far = tool.diameter + process.bias, SPREADS * process.spread
    return Band(middle - far, middle, middle + far), Scatter(process.spread)


def _sides(result, n, seat: Seat, housing) -> tuple[Side, ...]:
    """The zones of bearing 1: in its housing, and on the shoulder."""
    mean, spread = seat.hole.typical, seat.scatter.spread
    marks: list[Mark] = []
    if housing.fit == "press":
        reach = reach_of(seat.ring, seat.wall)
        bound = reach.bound(seat.wall.kind)
        short = {"closes": "bore closes below", "strains": "strained below", "cracks": "cracks below"}
        marks.append(Mark(short[bound], seat.outside.typical - reach.most(seat.wall.kind)))
    usual = Band(max(seat.hole.least, mean - spread), mean, min(seat.hole.most, mean + spread))
    housed = Side(
        "In the housing",
        round_nominal(seat.bearing),
        (Zone("hole\nas made", seat.hole, usual), Zone("bearing,\noutside", seat.outside)),
        tuple(marks),
    )
    bore = result.inputs[f"bore_{n}"]
    shaft = result.inputs["shaft_diameter"]
    fitted = (
        Zone("bore,\npressed in" if housing.fit == "press" and not seat.ball else "bore", _band(bore)),
        Zone("shoulder", _band(shaft)),
    )
    return housed, Side("On the shaft", result.joint.shaft.nominal, fitted)


def _band(quantity) -> Band:
    return quantity.band or Band.exactly(quantity.value)


# what to say ------------------------------------------------------------------------------------------------


def _sentences(result, known, course, measures) -> Iterator[str]:
    told: dict[str, list[int]] = {}
    for n, seat, housing in known:
        said = list(
            _of_press(result, n, seat, housing, measures) if housing.fit == "press" else _of_others(housing)
        )
        said += [strip_words(seat, housing, measures), *_of_process(seat, housing, measures)]
        for sentence in filter(None, said):
            told.setdefault(sentence, []).append(n)
    for sentence, bearings in told.items():
        yield sentence if len(bearings) == len(known) else f"Bearing {bearings[0]}: {sentence}"
    yield from _of_both(result, measures)


def _of_press(result, n, seat: Seat, housing, measures) -> Iterator[str]:
    """Where a press fit is aimed, which way to err, and what to do where no size will do."""
    reach, kind = reach_of(seat.ring, seat.wall), seat.wall.kind
    most, tight = reach.most(kind), seat.outside.typical - seat.hole.typical
    ends = f"From {_mm(most, measures)} of interference on, {BOUNDS[reach.bound(kind)]}"
    if housing.process.grade:
        lies = f"{_mm(tight, measures)} smaller than" if tight > 0 else f"{_mm(-tight, measures)} larger than"
        yield f"A reamer has its own size: its mean hole is {lies} the mean bearing. {ends}."
    else:
        yield f"{ends}; the hole is aimed half way there, {_mm(tight, measures)} under the mean bearing."
    chances = Chances(*(result.quantities[f"chance_{name}_{n}"].value for name in CHANCES))
    strained = result.quantities.get(f"chance_strained_{n}")
    if strained and strained.value > TOLD:
        yield (
            f"Of all holes, {percent(strained.value)} hold at first but strain the {housing.stock.name} "
            f"above {measures.value(seat.wall.long, 'MPa').line}, more than it stands for good: it may crack "
            "or let go with time."
        )
    closed = result.quantities[f"chance_closed_{n}"].value
    if closed > TOLD:
        lost = "it feels notchy" if seat.ball else "no larger shoulder of its size then goes in"
        yield f"In {percent(closed)} of the holes pressing in takes all the room inside the bearing: {lost}."
    lasting = result.quantities[f"chance_lasting_{n}"].value
    if chances.right - lasting > TOLD:
        yield (
            f"All told, {percent(lasting)} hold, let the largest shoulder turn and last; “right” counts "
            "only those that neither turn in their hole nor crack it."
        )
    if not housing.process.grade:
        yield _err(seat, measures)
    if chances.right < ENOUGH:
        yield (
            "More come out wrong than right, whatever the drawn size: ream the hole, bond the bearing into a "
            "larger one, or hold it by a lip, a flange or the heads of screws."
            if not housing.process.grade
            else "This reamer suits another fit: take one from the table, bond the bearing, or hold it by a "
            "lip."
        )


def _err(seat, measures) -> str:
    """Which way to err by one step of a test strip, with what that does."""
    step = strip_step(seat)
    reach = reach_of(seat.ring, seat.wall)

    def at(off):
        return pressed(seat.outside, seat.hole.typical + off, seat.scatter, 0.0, reach)

    smaller, larger = at(-step), at(step)
    closes = reach.bound(seat.wall.kind) == "closes" and smaller.closed > smaller.chances.cracked
    ruined = f"{percent(smaller.closed)} close up" if closes else f"{percent(smaller.chances.cracked)} crack"
    done = (
        f"{_mm(step, measures)} smaller, {ruined}; as much larger, {percent(larger.chances.loose)} are loose"
    )
    if closes or err_towards(smaller.chances) == "larger":
        return f"If you must err, draw larger: {done}, and a loose one takes a drop of glue."
    return f"If you must err, draw smaller: {done}; a tight hole can be opened, a loose one cannot be closed."


def _of_others(housing) -> Iterator[str]:
    if housing.fit == "bonded":
        yield (
            "Bonded: the hole is drawn so that the bearing goes in with room for a film of glue. Glue the "
            "seat, not the ring's edge, and keep it out of the bearing."
        )
    else:
        yield (
            "Slipped in: it goes in and out by hand. Where it does not go in, open the hole with fine paper; "
            "do not drive the bearing in."
        )


def strip_step(seat: Seat) -> float:
    """From hole to hole of a test strip, mm: no finer than the machine scatters."""
    return next((step for step in STRIP_STEPS if step >= seat.scatter.spread), STRIP_STEPS[-1])


def strip_words(seat: Seat, housing: Housing, measures) -> str:
    """The first step at the machine: the size above, then a row of holes about it; "" for a reamer."""
    if housing.process.grade:
        return ""
    step = strip_step(seat)
    sizes = [measures.drawn(ceil((seat.drawn + k * step) * 100 - 0.5) / 100).first for k in STRIP]
    numbers = ", ".join(size.split()[0] for size in sizes[:-1])
    keep = (
        "keep the smallest that the vice presses it into without a crack or a white edge, that holds it, and "
        "in which it still turns freely on the screw"
        if housing.fit == "press"
        else "keep the smallest that it drops into"
    )
    return (
        f"First draw the size above. Then a test strip of the same sheet, on the same day: {numbers} and "
        f"{sizes[-1]}; try a bearing in each and {keep}. Measure all five with a pin or caliper: their mean "
        "of made less drawn is your bias, their scatter your spread; write them into measured_holes.csv."
    )


def _of_process(seat: Seat, housing: Housing, measures) -> Iterator[str]:
    """What a laser or a printer does to a hole beside its bias."""
    process, stock = housing.process, housing.stock
    if process.kerf and process.squareness:
        wide = seat.hole.typical
        lost = wide - narrow_side(wide, stock.thickness.typical, process.squareness)
        yield (
            f"A laser's cut leans: at {measures.value(process.squareness, 'rad', 2).second} the hole is "
            f"{_mm(float(lost), measures)} narrower on the far side of this sheet. "
            f"{'Press in' if housing.fit == 'press' else 'Put it in'} from the wide side."
        )
    if stock.kind == "print" and not process.tool:
        few, many = (
            _mm(seat.drawn - across_flats(seat.drawn, flats), measures) for flats in (FEW_FLATS, MANY_FLATS)
        )
        yield (
            f"A circle sent to the printer as {FEW_FLATS} flats lacks {few} across them, as {MANY_FLATS} "
            f"flats {many}: export it fine. Leave a relief behind the seat, a lead-in, and a hole to push "
            "the bearing out."
        )


def _of_both(result, measures) -> Iterator[str]:
    """Whether two bores placed one by one let the shaft through, and how to assemble so that they do."""
    one, in_line = (result.quantities.get(name) for name in ("chance_binds", "chance_binds_in_line"))
    if not one:
        return
    lasting = [result.quantities.get(f"chance_lasting_{n}") for n in (1, 2)]
    if all(lasting):
        both = lasting[0].value * lasting[1].value
        yield f"Both bearings of a joint come out right, and stay so, in {percent(both)} of the joints."
    makers = dict.fromkeys(housing.process for housing in result.joint.housings)
    placed = " and ".join(
        f"“{p.name}” (place ± {_mm(p.position, measures)}, square within "
        f"{measures.value(p.squareness, 'rad', 2).second}{'' if p.measured == 'yes' else '; ' + UNMEASURED})"
        for p in makers
    )
    yield (
        f"Two bores placed one by one, by {placed}, bind the shaft {percent(one.value)} of the time, at "
        "typical sizes. " + IN_LINE[result.joint.body].format(percent(in_line.value))
    )


def _mm(mm, measures) -> str:
    return measures.value(mm, "mm", 2).line
