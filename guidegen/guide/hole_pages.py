"""Pages of holes: how to draw, cut and try one; and a table for every stock and process."""

from math import radians
from typing import Iterator, NamedTuple

from guidegen.guide.edition import Edition
from guidegen.guide.holes import UNMEASURED, Pocket, housed, pocket, processes_of, table_path
from guidegen.guide.measures import Both, Measures
from guidegen.guide.names import FITS
from guidegen.guide.page import Heading, Page
from guidegen.guide.seating import tools_for
from guidegen.guide.templates import fill
from guidegen.guide.zones import Mark, Side, Zone, zones
from guidegen.joint.inputs import Series, round_nominal, shaft_hole, thread_hole
from guidegen.joint.records import Plate
from guidegen.kit.lookup import edge_distance
from guidegen.kit.records import (
    LEAST_KERF,
    MOST_KERF,
    BallBearing,
    Part,
    Process,
    ShoulderScrew,
    SleeveBushing,
    Spacer,
    Stock,
)
from guidegen.numbers import percent, show_number
from guidegen.theory.clearance import drawn_hole
from guidegen.theory.holes import (
    across_flats,
    facet_count,
    kerf_of_cuts,
    kerf_of_plug,
    narrow_side,
    raw_hole,
    raw_plug,
)
from guidegen.units import Band

SERIES: tuple[Series, ...] = ("fine", "medium", "coarse")
OPENING = 22.0  # mm, of the examples
KERFS = (0.1, 0.15, 0.2, 0.25, 0.3)  # mm
TEST_PIECE = 20.14, 19.76  # mm, hole and plug of a published test cut
MANY_CUTS = 2.0, 10  # mm of gap that so many cuts leave together
READING = 0.02  # mm, that a caliper may be off
DIAMETERS = (5.0, 8.0, 12.0, 16.0, 22.0)  # mm
FLATS = (16, 32, 64, 96)
CHORD = 0.5  # mm, of a printed circle in straight pieces of one length
SHEETS = (3.0, 6.0, 10.0)  # mm
LEANS = (0.3, 0.6, 1.0)  # degrees
HOUSED = {SleeveBushing: "Bush", BallBearing: "Ball bearing", Spacer: "Spacer as a bush"}
EXAMPLE = "sb-8x12x8", "birch-ply-6", "laser"


class Line(NamedTuple):
    """Bearings that take the same hole, and what to draw for each way to hold them."""

    parts: list[Part]
    words: str
    outside: Both
    cells: list["Cell | None"]


class Cell(NamedTuple):
    """What to draw, and the chances of it."""

    draw: Both
    chances: tuple[str, ...]
    tool: str  # sold nearest to it; "" where none is used


class Through(NamedTuple):
    """A hole that a shoulder or a thread must only go through: what to draw, and what comes of it."""

    what: str
    draws: list[tuple[Both, Both]]


def hole_pages(edition: Edition) -> Iterator[Page]:
    """The page on holes, then a table for every stock and process."""
    yield _overview(edition)
    for stock in edition.course.stocks.values():
        for process in processes_of(stock, edition.course):
            yield _table(stock, process, edition)


def _overview(edition: Edition) -> Page:
    course, measures = edition.course, edition.measures
    sections = {
        "tables": "Tables by stock and machine",
        "strip": "First the nominal size, then a test strip",
        "kerf": "The width of a laser's cut",
        "prints": "Printed holes",
        "taper": "A cut that leans",
        "chances": "Loose, right, cracked",
        "err": "Which way to err",
    }
    body = fill(
        "holes",
        sections=sections,
        stocks=[
            (stock, [(p, table_path(stock, p)) for p in processes_of(stock, course)])
            for stock in course.stocks.values()
        ],
        measures=measures,
        processes=[(p, machine_words(p, measures)) for p in course.processes.values()],
        kerf=_kerf(measures),
        flats=_flats(measures),
        leans=_leans(measures),
        example=_example(edition),
        cautions=edition.cautions("laser cutting", "printing", "drilling", "press fit"),
    )
    return Page(
        "holes.html",
        "What hole do I draw?",
        body,
        tuple(Heading(2, key, title) for key, title in sections.items()),
        in_search=True,
        description="The circle to draw for a bearing, a shoulder or a thread; laser cuts and printed holes.",
    )


def machine_words(process: Process, measures: Measures) -> tuple[str, str, str]:
    """(bias, spread with whose it is, width of the cut) of a process."""
    whose = "" if process.measured == "yes" else f", {UNMEASURED}"
    if process.grade:
        return "", f"class {process.grade}{whose}", ""
    bias, spread = measures.value(process.bias, "mm", 2).line, measures.value(process.spread, "mm", 2).line
    return bias, f"{spread}{whose}", measures.value(process.kerf, "mm", 2).line if process.kerf else ""


def _kerf(measures) -> dict:
    """Numbers about the width of the cut: the opening by it, how it is measured, and what is plausible."""
    hole, plug = TEST_PIECE
    gap, cuts = MANY_CUTS
    return {
        "opening": measures.size(OPENING).line,
        "rows": [
            (
                measures.size(k),
                *(
                    measures.size(float(x))
                    for x in (
                        raw_hole(OPENING, k),
                        raw_plug(OPENING, k),
                        drawn_hole(OPENING, k),
                        OPENING - k / 2 + k,
                    )
                ),
            )
            for k in KERFS
        ],
        "test": [measures.size(x).line for x in (hole, plug, float(kerf_of_plug(hole, plug)))],
        "many": [measures.size(gap).line, str(cuts), measures.size(float(kerf_of_cuts(gap, cuts))).line],
        "off": [measures.value(READING * share, "mm", 2).line for share in (1.0, 1 / cuts)],
        "plausible": measures.range(LEAST_KERF, MOST_KERF, "mm").line,
    }


def _flats(measures) -> dict:
    """How much a circle of so many flats lacks across them."""
    return {
        "counts": FLATS,
        "chord": measures.value(CHORD, "mm", 2).line,
        "rows": [
            (
                measures.exact(d),
                [measures.value(float(d - across_flats(d, n)), "mm", 2) for n in FLATS],
                show_number(float(facet_count(d, CHORD)), 2),
            )
            for d in DIAMETERS
        ],
    }


def _leans(measures) -> dict:
    """How much narrower a hole is on the far side of a sheet."""
    lost = [[OPENING - float(narrow_side(OPENING, t, radians(lean))) for lean in LEANS] for t in SHEETS]
    return {
        "leans": [f"{lean:g}°" for lean in LEANS],
        "rows": [
            (measures.exact(t), [measures.value(x, "mm", 2) for x in row]) for t, row in zip(SHEETS, lost)
        ],
    }


def _example(edition: Edition) -> dict | None:
    """A hole of the course told in full: its zones, its chances; None in a course without it."""
    part, stock, process = EXAMPLE
    course, measures = edition.course, edition.measures
    if not (part in course.parts and stock in course.stocks and process in course.processes):
        return None
    bearing, sheet, machine = course.parts[part], course.stocks[stock], course.processes[process]
    one = pocket(bearing, course, sheet, machine, "press")
    mean, spread = one.made.band.typical, one.made.scatter.spread
    side = Side(
        f"{bearing.name} in {sheet.name}",
        round_nominal(bearing),
        (
            Zone("hole\nas made", one.made.band, Band(mean - spread, mean, mean + spread)),
            Zone("bearing,\noutside", bearing.outside_diameter),
        ),
        (Mark("cracks below", bearing.outside_diameter.typical - one.reach.cracks),),
    )
    figure = zones((side,), measures)
    return {
        "svg": figure.svg,
        "says": figure.says,
        "bearing": bearing.name,
        "stock": sheet.name,
        "process": machine.name,
        "draw": measures.drawn(one.made.drawn).line,
        "chances": [percent(chance) for chance in one.fit.chances],
        "cracks": measures.value(one.reach.cracks, "mm", 2).line,
        "path": table_path(sheet, machine),
    }


# a table ----------------------------------------------------------------------------------------------------


def _table(stock: Stock, process: Process, edition: Edition) -> Page:
    course, measures = edition.course, edition.measures
    title = f"Holes in {stock.name}: {process.name}"
    fits = tuple(FITS) if not process.grade else ("press", "slip")
    least, wanted = edge_distance(stock.kind)
    places = {"laser": ("laser cutting",), "print": ("printing",)}
    how = next((where for word, where in places.items() if word in process.name.lower()), ("drilling",))
    body = fill(
        "hole_table",
        root="../",
        title=title,
        stock=stock,
        process=process,
        machine=machine_words(process, measures),
        place=measures.value(process.position, "mm", 2).line,
        square=measures.value(process.squareness, "rad", 2).second,
        fits=[(fit, FITS[fit]) for fit in fits],
        lines=list(lines_of(stock, process, fits, edition)),
        shoulders=_shoulders(stock, process, edition),
        threads=_threads(process, edition),
        series=SERIES,
        edge=(show_number(wanted, 2), show_number(least, 2)),
        others=[(p, table_path(stock, p)) for p in processes_of(stock, course) if p is not process],
        measures=measures,
        cautions=edition.cautions(*how, "press fit", about={*how, "ball bearings"}),
    )
    return Page(
        table_path(stock, process),
        title,
        body,
        (Heading(2, "bearings", "Bearings"), Heading(2, "through", "Shoulders and threads")),
        description=f"What to draw in {stock.name} for every bearing, shoulder and thread: {process.name}.",
    )


def lines_of(stock: Stock, process: Process, fits, edition: Edition) -> Iterator[Line]:
    """Every bearing of the course, those that take the same holes in one line, the smallest first."""
    course, found = edition.course, {}
    for part in filter(housed, course.parts.values()):
        told = tuple(pocket(part, course, stock, process, fit) for fit in fits)
        key = HOUSED[type(part)], part.outside_diameter, told
        found.setdefault(key, []).append(part)
    for (kind, outside, told), parts in sorted(
        found.items(), key=lambda item: (item[0][1].typical, item[0][0])
    ):
        cells = [_cell(one, edition.measures, process) for one in told]
        yield Line(parts, kind, edition.measures.limits(outside), cells)


def _cell(one: Pocket, measures, process) -> Cell:
    shares = (one.goes_in,) if one.fit is None else (*one.fit.chances, one.fit.lasting)
    sold = [tools_for(one.made.drawn, process, units)[-1] for units in ("mm", "in") if process.tool]
    return Cell(measures.drawn(one.made.drawn), tuple(map(percent, shares)), " or ".join(sold))


def _shoulders(stock, process, edition) -> list[Through]:
    """The hole that a shoulder passes through, by nominal diameter."""
    screws = [part for part in edition.course.parts.values() if isinstance(part, ShoulderScrew)]
    sizes = sorted({screw.nominal for screw in screws})
    made = [shaft_hole(size, Plate(stock, process)) for size in sizes]
    measures = edition.measures
    return [
        Through(measures.exact(size).line, [(measures.drawn(one.drawn), measures.limits(one.band))])
        for size, one in zip(sizes, made)
    ]


def _threads(process, edition) -> list[Through]:
    """Clearance holes over the threads of the course's screws, fine, medium and coarse."""
    screws = [part for part in edition.course.parts.values() if isinstance(part, ShoulderScrew)]
    measures, told = edition.measures, []
    for thread in dict.fromkeys(screw.thread for screw in sorted(screws, key=lambda screw: screw.nominal)):
        made = [thread_hole(thread, series, process) for series in SERIES]
        told.append(Through(thread, [(measures.drawn(one.drawn), measures.limits(one.band)) for one in made]))
    return told
