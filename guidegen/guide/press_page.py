"""Press fits of every bearing in every stock: one page to begin with, and one for each size of shaft."""

from typing import Iterator, NamedTuple

from guidegen.guide.edition import Edition
from guidegen.guide.grids import Grid, grid
from guidegen.guide.holding import apart_words
from guidegen.guide.holes import Pocket, housed, pocket, processes_of
from guidegen.guide.measures import Both, Measures
from guidegen.guide.page import Heading, Page
from guidegen.guide.templates import fill, upper_first
from guidegen.joint.climate import water_growth
from guidegen.joint.gripping import Held, held, press_of
from guidegen.joint.pressing import IN_KIND
from guidegen.kit.lookup import edge_distance, press_friction, stress_relaxation
from guidegen.kit.records import BallBearing, Course, Part, Process, SleeveBushing, Stock
from guidegen.numbers import percent, show_number
from guidegen.theory.grip import alike_all_ways
from guidegen.theory.heat import MEASURED_AT, loosening_rise
from guidegen.units import Band

COLDEST, WARMEST = -40.0, 120.0  # °C, beyond which no place of a course lies
HUMIDITIES = (30.0, 68.0, 80.0, 95.0, 100.0)  # per cent
SHORT = {"pla": "PLA", "mdf": "MDF"}
KINDS = ("metal", "plastic", "wood", "print")
ENDS = ("least", "typical", "most")
HEADS = (
    "in, made by",
    "edge",
    "touches over",
    "interference",
    "pushed in by, mostly to",
    "holds at first, in a year",
    "wall strained at first, in a year",
    "wall stands at once, for good",
    "comes out right",
    "grips",
)


class Fit(NamedTuple):
    """A bearing pressed into a stock at the edge distance wanted there, by the machine that suits it best."""

    stock: Stock
    process: Process
    pocket: Pocket
    edge: float
    touch: float  # length over which they touch, mm
    interference: Band
    held: Held
    from_to: tuple[float, float]  # °C between which the mean bearing grips the mean hole


def press_pages(edition: Edition) -> Iterator[Page]:
    """What there is to know of press fits, then the bearings of each size of shaft in every stock."""
    sizes = sorted({round(part.nominal, 3) for part in edition.course.parts.values() if housed(part)})
    yield _overview(edition, sizes)
    for size in sizes:
        yield _of_size(edition, size, sizes)


def size_path(nominal: float) -> str:
    """Where the press fits of one size of shaft stand."""
    return f"press/{round(nominal * 1000)}.html"


def bearings_of(course: Course, size: float) -> list[Part]:
    """The bearings for one size of shaft: bushes, ball bearings, then spacers that serve as bushes."""
    order = (SleeveBushing, BallBearing)
    found = [part for part in course.parts.values() if housed(part) and round(part.nominal, 3) == size]
    return sorted(found, key=lambda p: (order.index(type(p)) if type(p) in order else 2, p.id))


def fit_of(part: Part, course: Course, stock: Stock) -> Fit | None:
    """A bearing in a stock, by the process that makes most of its holes come out right; None without any."""
    tried = [
        (process, pocket(part, course, stock, process, "press")) for process in processes_of(stock, course)
    ]
    if not tried:
        return None
    process, one = max(tried, key=lambda each: each[1].fit.lasting)
    edge = edge_distance(stock.kind)[1] * part.outside_diameter.typical
    bores = (
        part.free_bore if isinstance(part, SleeveBushing) else getattr(part, "hole", part.outside_diameter)
    )
    material = course.materials[part.material]
    hole, outside = one.made.band, part.outside_diameter
    press = press_of(part, outside, bores, hole, stock, edge, material)
    tight = Band(outside.least - hole.most, outside.typical - hole.typical, outside.most - hole.least)
    touch = min(press.length.typical, stock.thickness.typical)
    warm = grips_between(outside, hole, material, stock)
    return Fit(stock, process, one, edge, touch, tight, held(press), warm)


def grips_between(outside: Band, hole: Band, material, stock: Stock) -> tuple[float, float]:
    """Temperatures between which the mean bearing is larger than the mean hole, °C; equal ones for never."""
    apart = hole.typical * stock.expansion - outside.typical * material.expansion
    tight = outside.typical > hole.typical
    if not apart:
        return (COLDEST, WARMEST) if tight else (MEASURED_AT, MEASURED_AT)
    rise = float(loosening_rise(outside.typical, hole.typical, material.expansion, stock.expansion))
    at = min(max(MEASURED_AT + rise, COLDEST), WARMEST)
    return (COLDEST, at) if apart > 0 else (at, WARMEST)


def _of_size(edition: Edition, size: float, sizes) -> Page:
    course, measures = edition.course, edition.measures
    lines: dict[tuple, list[Part]] = {}
    for part in bearings_of(course, size):
        fits = (fit_of(part, course, stock) for stock in course.stocks.values())
        rows = tuple(_row(fit, measures) for fit in fits if fit)
        lines.setdefault((rows, apart_words(part, measures)), []).append(part)
    told = [(parts, _table(parts, rows), apart) for (rows, apart), parts in lines.items()]
    title = f"Press fits for a shaft of {measures.exact(size).first}"
    body = fill(
        "press_size",
        root="../",
        title=title,
        told=told,
        others=[(measures.exact(other).first, size_path(other)) for other in sizes if other != size],
        cautions=edition.cautions("press fit", about={"ball bearings", "bushings"}),
    )
    heads = tuple(Heading(2, parts[0].id, upper_first(parts[0].name)) for parts, _, _ in told)
    return Page(size_path(size), title, body, heads, description=f"{title}: every bearing in every stock.")


def _table(parts: list[Part], rows) -> Grid:
    caption = (
        "Middle of the hole as far from the edge as wanted there, typical sizes; interference: all sizes"
    )
    return grid(f"{parts[0].name}, pressed", caption, HEADS, rows)


def _row(fit: Fit, measures: Measures) -> tuple:
    """One stock: edge, length, interference, force, torque and stress at first and later, chance, warmth."""
    stock, quantities = fit.stock, fit.held.quantities
    tight = fit.interference
    estimate = "" if alike_all_ways(stock.kind) else ", an estimate"

    def at_first_and_later(name, unit):
        first, later = (quantities[f"{name}{when}"].typical for when in ("", "_later"))
        return _pair(first, later, unit, measures)

    force = quantities["push_force"]
    return (
        f"{upper_first(stock.name)}{estimate}; {fit.process.name}",
        measures.value(fit.edge, "mm", 2),
        measures.value(fit.touch, "mm", 2),
        measures.range(tight.least, tight.most, "mm"),
        _pair(force.typical, force.likely[1], "N", measures),
        at_first_and_later("holding_torque", "N·mm"),
        at_first_and_later("hub_stress", "MPa"),
        _pair(stock.hoop_limit_short, stock.hoop_limit_long, "MPa", measures),
        percent(fit.pocket.fit.chances.right),
        _degrees(*fit.from_to),
    )


def _pair(one: float, other: float, unit: str, measures: Measures) -> Both:
    """Two numbers of one kind, the unit said once."""
    (a, a_2), (b, b_2) = (measures.value(x, unit, 2) for x in (one, other))
    return Both(_joined(a, b), _joined(a_2, b_2))


def _joined(one: str, other: str) -> str:
    if one == other:
        return one
    (number, unit), (_, other_unit) = one.rsplit(" ", 1), other.rsplit(" ", 1)
    return f"{number}, {other}" if unit == other_unit else f"{one}, {other}"


def _degrees(low: float, high: float) -> str:
    """Between which temperatures the mean bearing is held."""
    if low >= high:
        return "never"
    if low <= COLDEST and high >= WARMEST:
        return f"from {_of(COLDEST)} to {_of(WARMEST)} °C"
    return f"up to {_of(high)} °C" if low <= COLDEST else f"from {_of(low)} °C on"


def _of(degrees: float) -> str:
    return show_number(round(degrees), 3)


def _overview(edition: Edition, sizes) -> Page:
    course, measures = edition.course, edition.measures
    sections = {
        "sizes": "Which shaft?",
        "holds": "What makes a press hold",
        "time": "What time takes",
        "edge": "How far from the edge",
        "warm": "Cold, warm and damp",
        "apart": "How it comes apart again",
    }
    body = fill(
        "press_fits",
        sections=sections,
        sizes=[
            (
                measures.exact(size).line,
                size_path(size),
                [p.id for p in bearings_of(course, size)],
                _kits(edition, size),
            )
            for size in sizes
        ],
        friction=_bands("friction", press_friction, measures),
        relaxed=_relaxed(),
        edges=_edges(),
        swelling=_swelling(course),
        cautions=edition.cautions("press fit", about={"ball bearings", "bushings"}),
    )
    return Page(
        "press-fits.html",
        "How tight does it press?",
        body,
        tuple(Heading(2, key, title) for key, title in sections.items()),
        in_search=True,
        description="Press fits: force, torque, stress; what time, warmth and water take; how to undo them.",
    )


def _kits(edition: Edition, size: float) -> list[str]:
    """Kits with a bearing of this size."""
    ids = {part.id for part in bearings_of(edition.course, size)}
    return [kit.title for kit in edition.kits if ids & set(kit.parts)]


def _bands(label, of, measures) -> Grid:
    """A published band for each kind of stock."""
    rows = [
        (upper_first(IN_KIND[kind]), *(show_number(getattr(of(kind), end)) for end in ENDS)) for kind in KINDS
    ]
    return grid(label, "Friction between a bearing and its hole, dry (common practice)", ("in", *ENDS), rows)


def _relaxed() -> Grid:
    """Share of the grip that is lost in a day and a year."""
    rows = []
    for kind in (*KINDS, "nylon", "acetal"):
        day, year = (stress_relaxation(kind, after) for after in ("day", "year"))
        told = [
            f"{percent(x.typical)} ({percent(x.least)} to {percent(x.most)})" if x.most else "nothing"
            for x in (day, year)
        ]
        rows.append(
            (
                upper_first(IN_KIND.get(kind, f"a {kind} bush" if kind == "nylon" else f"an {kind} bush")),
                *told,
            )
        )
    return grid(
        "Relaxation",
        "Share of the stiffness, and so of the grip, that is lost",
        ("in", "in a day", "in a year"),
        rows,
    )


def _edges() -> Grid:
    rows = [(upper_first(IN_KIND[kind]), *map(show_number, reversed(edge_distance(kind)))) for kind in KINDS]
    caption = "Middle of the hole to the nearest edge, in hole diameters (common practice)"
    return grid("Edges", caption, ("in", "keep", "at least"), rows)


def _swelling(course: Course) -> Grid:
    """How much materials grow from the air of a room to that of the course's places."""
    names = dict.fromkeys(
        one.swells for one in (*course.materials.values(), *course.stocks.values()) if one.swells
    )
    rows = []
    for name in names:
        cells = [water_growth(name, Band.exactly(humidity)) for humidity in HUMIDITIES]
        rows.append(
            (
                SHORT.get(name, upper_first(name)),
                *(f"{show_number(100 * cell.typical, 2)} %" for cell in cells),
            )
        )
    return grid(
        "Water",
        "Growth by water as a share of length, against air of a room; board along the sheet",
        ("of", *(f"{h:g} % humidity" if h < 100 else "under water" for h in HUMIDITIES)),
        rows,
    )
