"""The page of inch sizes beside metric ones: what goes in, rattles, jams or slips, with the room it has."""

from collections import Counter
from math import degrees
from typing import Iterator, Mapping, NamedTuple, Sequence

from guidegen.guide.edition import Edition
from guidegen.guide.families import families, noun_of
from guidegen.guide.measures import Measures
from guidegen.guide.near_chance import scale_words
from guidegen.guide.near_fits import (
    Meeting,
    meetings,
    outsides_in_holes,
    shafts_in_bores,
    shafts_in_drilled,
    washers_over,
)
from guidegen.guide.near_sheets import Sheet, sheets_beside
from guidegen.guide.near_sizes import EVEN, NEAR, NEAR_SHARE, OTHER, Side
from guidegen.guide.near_threads import ThreadMeeting, threads_meeting
from guidegen.guide.near_tools import Hexagon, keys_in_sockets, nuts_in_wrenches
from guidegen.guide.own_units import said_size
from guidegen.guide.page import Heading, Page
from guidegen.guide.templates import fill
from guidegen.numbers import percent, show_number
from guidegen.theory.mismatch import slipping_opening
from guidegen.units import Band

SLIP = float(slipping_opening(1.0))  # opening over size across flats at which a hexagon goes right round
SAYS = {
    "shafts": "A bush is taken as it comes: pressing in closes its bore a little more.",
    "drilled": "The hole is as large as the drill is called. A drilled hole comes out a little larger, "
    "more in wood and soft plastic: what is a little too large here may then go in, and what rattles, "
    "rattles more.",
    "seats": "The hole is right for a bearing of its own size (H7). A bearing that goes in with room turns "
    "in its seat, unless it is bonded.",
    "washers": "A washer may lie loose; but the more it can shift, the less of it is under the head or nut.",
    "threads": "They do not belong together, not even where a nut goes on: it then holds by part of its "
    "ridges and strips. Where it binds or jams, do not force it. Reckoned at nominal sizes: real threads "
    "have a little more room, so a nut may run a turn further.",
    "keys": "At nominal sizes, without wear. The more a key turns before it bears, the sooner it rounds the "
    f"socket; at {show_number(SLIP, 4)} times its own size it goes right round.",
    "wrenches": "A nut has some free turn in a wrench of its own size too: the smaller, the better.",
    "sheets": "Plates are part of the stack: what one is thicker, the gap loses, once for each plate.",
}


class Place(NamedTuple):
    """One side of a pair, with the way to its parts."""

    words: str
    limits: str  # an inch size in mm where it has none, or several
    links: list[tuple[str, str]]  # address, what the parts there are called


class Row(NamedTuple):
    """A pair: the two sides, how far they are apart, what happens."""

    one: Place
    other: Place
    apart: str
    state: str
    why: str


class Chapter(NamedTuple):
    """Pairs of one kind."""

    key: str
    title: str
    says: str
    heads: tuple[str, str]
    rows: list[Row]

    @property
    def states(self) -> list[tuple[str, int]]:
        """How many pairs go which way, the commonest first."""
        return Counter(row.state for row in self.rows).most_common()


def near_sizes_page(edition: Edition) -> Page:
    """Every pair of sizes of the two systems that comes close, by what meets."""
    chapters = [*_fitting(edition), *_turning(edition), _sheets(edition)]
    body = fill(
        "near_sizes",
        chapters=chapters,
        near=edition.measures.value(NEAR, "mm", 2),
        share=NEAR_SHARE,
        scale=scale_words(),
        cite=edition.citing(""),
    )
    return Page(
        "near-sizes.html",
        "Inch or millimetre?",
        body,
        tuple(Heading(2, chapter.key, chapter.title) for chapter in chapters),
        in_search=True,
        description="Inch and metric sizes that come close: which go in, rattle, jam or slip.",
    )


def _fitting(edition: Edition) -> Iterator[Chapter]:
    """What goes into what."""
    course, measures, places = edition.course, edition.measures, _places(edition)
    for key, title, heads, shared, found in (
        ("shafts", "Shoulders in bores", ("Shoulder", "Bores"), "inside", shafts_in_bores),
        ("drilled", "Shoulders in drilled holes", ("Shoulder", "Drill"), "inside", shafts_in_drilled),
        (
            "seats",
            "Bearings in the other's hole",
            ("Bearings", "Hole made for"),
            "outside",
            outsides_in_holes,
        ),
        ("washers", "Washers over the other's screw", ("Goes through", "Washers"), "inside", washers_over),
    ):
        rows = [_fit_row(met, shared, places, measures) for met in meetings(found(course), shared)]
        yield Chapter(key, title, SAYS[key], heads, rows)


def _turning(edition: Edition) -> Iterator[Chapter]:
    """What is screwed on, or turned by a tool."""
    course, measures, places = edition.course, edition.measures, _places(edition)
    for key, title, heads, found, row_of in (
        ("threads", "Threads", ("Screw", "Nut"), threads_meeting, _thread_row),
        ("keys", "Hexagon keys in sockets", ("Key", "Socket"), keys_in_sockets, _hexagon_row),
        ("wrenches", "Wrenches on nuts", ("Nut", "Wrench"), nuts_in_wrenches, _hexagon_row),
    ):
        yield Chapter(
            key, title, SAYS[key], heads, [row_of(pair, places, measures) for pair in found(course)]
        )


def _sheets(edition: Edition) -> Chapter:
    rows = [_sheet_row(sheet, edition.measures) for sheet in sheets_beside(edition.course)]
    return Chapter("sheets", "Sheets and plates", SAYS["sheets"], ("Sheet", "Beside"), rows)


def _places(edition: Edition) -> Mapping[str, tuple[str, str]]:
    """Address of every part's family, and what its parts are called."""
    found = families(edition.course.parts.values())
    return {
        part.id: (f"parts.html#{family.key}", noun_of(family.first))
        for family in found
        for part in family.parts
    }


def _place(sides: Sequence[Side], places, measures: Measures) -> Place:
    """Sides of one size; each kind of part links to its first family."""
    first = sides[0]
    limits = {measures.limits(side.limits).line for side in sides if side.limits.width}
    links = {noun: address for side in reversed(sides) for address, noun in _families(side, places)}
    words = first.words if len(sides) == 1 else said_size(first.size, first.unit)
    exact = f"{first.size:.6g} mm" if first.unit == "in" else ""
    return Place(
        words, *limits if len(limits) == 1 else (exact,), [(a, noun) for noun, a in sorted(links.items())]
    )


def _families(side: Side, places):
    return reversed([places[part.id] for part in side.parts])


def _apart(one: Side, other: Side, measures: Measures) -> str:
    return measures.size(abs(one.size - other.size)).line


def _fit_row(met: Meeting, shared: str, places, measures: Measures) -> Row:
    sides = {
        name: [getattr(met.first, name)] if name == shared else [getattr(fit, name) for fit in met.fits]
        for name in ("inside", "outside")
    }
    inside, outside = (_place(side, places, measures) for side in sides.values())
    return Row(
        inside,
        outside,
        _apart(met.first.inside, met.first.outside, measures),
        met.first.state,
        _room(met, measures),
    )


def _room(met: Meeting, measures: Measures) -> str:
    """The room in words, with what is loose or too large about it."""
    (least, most), state = met.room, met.first.state
    if state == "does not go in":
        return f"{measures.limits(Band.between(-most, -least)).line} too large"
    if least < 0:
        tight, loose = (measures.size(abs(x)).line for x in (least, most))
        return f"from {tight} too large to {loose} of room; {_of_pairs(*met.chance)} together"
    room = f"{measures.limits(Band.between(least, most)).line} of room"
    if state == "goes in":
        return room
    return f"{room}; a free running fit has up to {measures.size(met.first.loosest).line}"


def _of_pairs(least: float, most: float) -> str:
    """How many of all pairs go together."""
    low, high = percent(least), percent(most)
    return f"{low} of pairs go" if low == high else f"{low} to {high} of pairs go"


def _thread_row(met: ThreadMeeting, places, measures: Measures) -> Row:
    screw, nut = met.pitches
    step = f"{measures.size(abs(screw - nut)).line} a turn out of step"
    if met.state == "binds at once":
        why = "the screw's flanks are too large"
    elif met.state == "jams":
        why = f"after {show_number(met.turns, 2)} turns of the nut's {show_number(met.nut_turns, 2)}"
    else:
        why = f"loose, on {show_number(100 * min(met.overlap, 1.0), 2)} % of the height of its ridges"
    return Row(
        _place([met.screw], places, measures),
        _place([met.nut], places, measures),
        _apart(met.screw, met.nut, measures),
        met.state,
        f"{why}; {step}",
    )


def _hexagon_row(pair: Hexagon, places, measures: Measures) -> Row:
    return Row(
        _place([pair.inside], places, measures),
        _place([pair.outside], places, measures),
        _apart(pair.inside, pair.outside, measures),
        pair.state,
        _turn(pair, measures),
    )


def _turn(pair: Hexagon, measures: Measures) -> str:
    """How far it turns before it bears, or how much it is too large."""
    limits, opening = pair.inside.limits, pair.outside.size
    if pair.state == "does not go on":
        return f"{measures.limits(limits.shifted(-opening)).line} too large"
    if pair.turns is None:
        return "goes right round"
    least, most = (f"{degrees(turn):.1f}" for turn in pair.turns)
    free = f"{most}°" if least == most else f"{least} to {most}°"
    ratio = show_number(opening / limits.least, 4)
    goes = f"{_of_pairs(pair.chance, pair.chance)} on; " if limits.most > opening + EVEN else ""
    return f"{goes}turns {free} each way before it bears; at most {ratio} times its size"


def _sheet_row(sheet: Sheet, measures: Measures) -> Row:
    stock, band = sheet.stock, sheet.stock.thickness
    other = Place(f"{said_size(sheet.other, OTHER[sheet.unit])} sheet", "", [])
    size = measures.size(abs(sheet.thicker)).line
    why = f"{size} {'more' if sheet.thicker > 0 else 'less'} than the middle of this one"
    if sheet.state == "looks the same":
        why = f"it lies within this one's limits: measure each sheet; {why}"
    return Row(Place(stock.name, measures.limits(band).line, []), other, size, sheet.state, why)
