"""Pages about parts: which one is this, what it is mistaken for, its limits, where it is used."""

from typing import Iterator, NamedTuple

from guidegen.drawing import kit_strip, life_size, part_drawing
from guidegen.guide.edition import Edition
from guidegen.guide.families import Family, families
from guidegen.guide.first_holes import first_holes
from guidegen.guide.holes import housed
from guidegen.guide.lookalikes import Sizes, sizes_of
from guidegen.guide.measured_page import measured_page
from guidegen.guide.measures import Both, Measures
from guidegen.guide.names import COLUMNS, KINDS, kind_words
from guidegen.guide.page import Heading, Page
from guidegen.guide.pairs import Group, group_of
from guidegen.guide.parts_overview import parts_overview
from guidegen.guide.readings import CALIPER, INSIDE, JAW_FLATS, MICROMETER, Reading, pins, readings_of, shown
from guidegen.guide.telling import telling
from guidegen.guide.templates import fill, ready, upper_first
from guidegen.joint.records import STATES
from guidegen.kit.lookup import thread
from guidegen.kit.records import BallBearing, Cell, Part, ShoulderScrew, SleeveBushing, Spacer
from guidegen.units import Band

NOT_SIZES = {"id", "name", "source", "price", "pack", "material", "finish"}


class Limit(NamedTuple):
    """One size or property of a part: what it is, its limits, and whose word they are."""

    column: str
    words: str
    value: Both
    source: str


class Read(NamedTuple):
    """What a caliper should read on one size of a part."""

    column: str
    words: str
    value: Both
    face: str
    low_by: Both | None  # what inside jaws read too little
    pins: tuple[Both, Both] | None  # that goes in, that does not


class Use(NamedTuple):
    """Worked joints with the same bearings that a part is used in."""

    group: Group
    count: int
    states: list[tuple[str, int]]


def part_pages(edition: Edition, made: list[Group]) -> Iterator[Page]:
    """The page of all parts, the table to measure by, a page for each part, and the page of kits."""
    parts = list(edition.course.parts.values())
    found = families(parts)
    yield parts_overview(found, edition)
    yield measured_page(found, edition)
    sizes = {part.id: sizes_of(part, edition.course.materials) for part in parts}
    by_key = {group.key: group for group in made}
    for family in found:
        yield from (_page(part, family, sizes, by_key, edition) for part in family.parts)
    yield _kits(edition)


def limits_of(part: Part, measures: Measures) -> list[Limit]:
    """Every size and property of a part that has a value, in the order of its columns."""
    columns = ((column, getattr(part, column)) for column in type(part).model_fields)
    return [
        Limit(column, _words(column), _shown(part, column, value, measures), part.source_of(column))
        for column, value in columns
        if column not in NOT_SIZES and value not in (None, "")
    ]


def _words(column):
    return COLUMNS.get(column, column.replace("_", " "))


def _shown(part, column, value, measures) -> Both:
    if isinstance(value, Band):
        return measures.limits(value)
    cell = next((mark for mark in type(part).model_fields[column].metadata if isinstance(mark, Cell)), None)
    if column == "thread":
        return Both(
            f"{value}, {measures.exact(thread(value).diameter).line} across, pitch "
            f"{measures.exact(thread(value).pitch).line}",
            "",
        )
    if cell and cell.dimension == "length":
        return measures.exact(value)
    if cell and cell.dimension == "force":
        return measures.value(value, "N", 4)
    return Both(str(value), "")


def reads_of(part: Part, measures: Measures) -> list[Read]:
    """What a caliper should read, size by size."""
    return [_read(found, measures) for found in readings_of(part)]


def _read(found: Reading, measures) -> Read:
    low_by = found.low_by and measures.limits(found.low_by)
    pair = pins(found.limits, measures) if found.face == INSIDE else None
    value = shown(found.least, found.most, measures)
    return Read(found.column, found.words, value, found.face, low_by, pair)


def _page(part: Part, family: Family, sizes: dict[str, Sizes], by_key, edition: Edition) -> Page:
    course, measures = edition.course, edition.measures
    holes = first_holes(part, course, measures) if housed(part) else []
    uses = _uses(part, by_key, edition)
    body = fill(
        "part",
        root="../",
        part=part,
        family=family,
        kind=kind_words(part),
        cut=not isinstance(part, ShoulderScrew),
        drawing=ready(part_drawing(part, first=measures.first)),
        outline=ready(life_size(part)),
        reads=reads_of(part, measures),
        blunt=_listed([found.words for found in readings_of(part) if found.blunt]),
        thread=thread(part.thread) if hasattr(part, "thread") else None,
        caliper=measures.value(CALIPER, "mm", 1),
        micrometer=measures.value(MICROMETER, "mm", 1),
        flats=measures.range(JAW_FLATS.least, JAW_FLATS.most, "mm"),
        telling=telling(sizes[part.id], sizes.values(), course.materials, measures),
        limits=limits_of(part, measures),
        kits=edition.kits_with(part),
        cite=edition.citing("../"),
        course=course,
        measures=measures,
        material=course.materials[part.material],
        holes=holes,
        nylon=isinstance(part, Spacer),
        uses=uses,
        use_count=sum(use.count for use in uses),
        cautions=_cautions(part, edition),
    )
    contents = [
        ("read", "What should a caliper read?"),
        ("alike", "What is it mistaken for?"),
        ("life", "At life size"),
        ("sizes", "Sizes and their sources"),
        ("used", "Where it is used"),
        *[("holes", "Which hole to draw first")] * bool(holes),
    ]
    return Page(
        f"parts/{part.id}.html",
        f"{upper_first(part.name)} ({part.id})",
        body,
        tuple(Heading(2, *entry) for entry in contents),
        in_search=True,
        description=f"{upper_first(part.name)}: what a caliper reads, what it is mistaken for, its limits.",
    )


def _listed(words):
    """ "bore, width and length"; "" for none."""
    *rest, last = words or [""]
    return " and ".join(filter(None, [", ".join(rest), last]))


def _uses(part, by_key, edition) -> list[Use]:
    """The groups of worked joints with the part, those with most of them first."""
    found: dict[str, list[str]] = {}
    for result in edition.users.get(part.id, ()):
        found.setdefault(group_of(result.joint), []).append(result.state)
    uses = [
        Use(by_key[key], len(states), [(state, states.count(state)) for state in STATES if state in states])
        for key, states in found.items()
    ]
    return sorted(uses, key=lambda use: (-use.count, use.group.key))


def _cautions(part, edition):
    concerns = ["bushings"] * isinstance(part, SleeveBushing) + ["ball bearings"] * isinstance(
        part, BallBearing
    )
    places = ["press fit"] * housed(part) + ["keys and wrenches"] * isinstance(part, ShoulderScrew)
    return edition.cautions(*places, *concerns, about=concerns)


def _kits(edition: Edition) -> Page:
    """What each kit holds, drawn in a row kind by kind, with counts and prices."""
    course = edition.course
    kits = []
    for kit in edition.kits:
        groups = []
        for record, title in KINDS.items():
            rows = [
                (course.parts[id], n) for id, n in kit.parts.items() if isinstance(course.parts[id], record)
            ]
            if rows:
                key = f"{kit.id}-{record.__name__.lower()}"
                strip = ready(kit_strip([part for part, _ in rows], key))
                groups.append((key, upper_first(title), strip, rows))
        price = sum(course.parts[id].price * count for id, count in kit.parts.items())
        kits.append((kit, groups, price))
    body = fill(
        "kits", course=course, kits=kits, cite=edition.citing(""), cautions=edition.cautions("small parts")
    )
    return Page(
        "kits.html",
        "What is in the kit?",
        body,
        tuple(Heading(2, kit.id, kit.title) for kit in edition.kits),
        in_search=True,
        description="What one team gets, part by part.",
    )
