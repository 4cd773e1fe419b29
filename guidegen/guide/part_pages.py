"""Pages about parts: which one is this, its limits, where it is used; and what is in each kit."""

from typing import Iterator, NamedTuple

from guidegen.drawing import kit_strip, part_drawing
from guidegen.guide.edition import Edition
from guidegen.guide.holes import hole_rows, housed
from guidegen.guide.measures import Both, Measures
from guidegen.guide.names import COLUMNS, KINDS, kind_words
from guidegen.guide.page import Heading, Page
from guidegen.guide.templates import fill, ready, upper_first
from guidegen.kit.records import BallBearing, Part, ShoulderScrew, SleeveBushing
from guidegen.units import Band

NOT_SIZES = {"id", "name", "source", "price", "material", "finish"}
LENGTHS = {
    "nominal",
    "thread_length",
    "neck_width",
    "socket",
    "chamfer",
    "ball_diameter",
    "pitch_diameter",
    "inner_land",
    "outer_land",
}
SHOWN_JOINTS = 12  # of those that use a part


class Limit(NamedTuple):
    """One size of a part: what it is, its limits, and whose word they are."""

    words: str
    value: Both
    source: str


def part_pages(edition: Edition) -> Iterator[Page]:
    """The index of parts, a page for each part that is in a kit, and the page of kits."""
    parts = [part for part in edition.course.parts.values() if edition.kits_with(part)]
    yield _index(parts, edition)
    yield from (_page(part, edition) for part in parts)
    yield _kits(edition)


def limits_of(part: Part, measures: Measures) -> list[Limit]:
    """Every size and property of a part, in the order of its columns."""
    rows = []
    for column in type(part).model_fields:
        if column not in NOT_SIZES:
            value = getattr(part, column)
            shown = (
                measures.limits(value)
                if isinstance(value, Band)
                else measures.value(value, "mm")
                if column in LENGTHS
                else Both(str(value), "")
            )
            rows.append(Limit(COLUMNS.get(column, column.replace("_", " ")), shown, part.source_of(column)))
    return rows


def _page(part: Part, edition: Edition) -> Page:
    uses = edition.uses(part)
    course, measures = edition.course, edition.measures
    holes = hole_rows(part, course, measures) if housed(part) else []
    contents = [("sizes", "Sizes"), *[("holes", "Hole to draw")] * bool(holes), ("used", "Where it is used")]
    body = fill(
        "part",
        root="../",
        part=part,
        kind=kind_words(part),
        drawing=ready(part_drawing(part)),
        limits=limits_of(part, measures),
        kits=edition.kits_with(part),
        cite=edition.citing("../"),
        course=course,
        material=course.materials[part.material],
        holes=holes,
        uses=uses[:SHOWN_JOINTS],
        use_count=len(uses),
        cautions=_cautions(part, edition),
    )
    return Page(
        f"parts/{part.id}.html",
        f"{upper_first(part.name)} ({part.id})",
        body,
        tuple(Heading(2, *entry) for entry in contents),
        in_search=True,
        description=f"{upper_first(part.name)}: sizes with limits, where it is used.",
    )


def _cautions(part, edition):
    concerns = ["bushings"] * isinstance(part, SleeveBushing) + ["ball bearings"] * isinstance(
        part, BallBearing
    )
    places = ["press fit"] * housed(part) + ["keys and wrenches"] * isinstance(part, ShoulderScrew)
    return edition.cautions(*places, *concerns, about=concerns)


def _index(parts, edition: Edition) -> Page:
    """The parts of each kit by kind, drawn in a row, with the sizes that tell them apart."""
    kits, contents = [], []
    for kit in edition.kits:
        contents.append(Heading(2, kit.id, kit.title))
        groups = []
        for record, title in KINDS.items():
            own = [part for part in parts if isinstance(part, record) and part.id in kit.parts]
            if own:
                key = f"{kit.id}-{record.__name__.lower()}"
                contents.append(Heading(3, key, upper_first(title)))
                groups.append(
                    (
                        key,
                        upper_first(title),
                        ready(kit_strip(own, key)),
                        _told_apart_by(record),
                        [(part, _main(part, edition.measures), kit.parts[part.id]) for part in own],
                    )
                )
        kits.append((kit, groups))
    return Page(
        "parts.html",
        "Which part is this?",
        fill("parts", kits=kits),
        tuple(contents),
        in_search=True,
        description="Every part of the kits, drawn to scale, with what a caliper should read.",
    )


def _told_apart_by(record) -> list[str]:
    """What a caliper tells parts of a kind apart by, the first three of their sizes with limits."""
    sizes = [column for column, field in record.model_fields.items() if field.annotation is Band]
    return [COLUMNS[column] for column in sizes[:3]]


def _main(part: Part, measures: Measures) -> list[Both]:
    """The sizes of a part that tell it from its like, in that order."""
    bands = [
        getattr(part, column) for column, field in type(part).model_fields.items() if field.annotation is Band
    ]
    return [measures.limits(band) for band in bands[:3]]


def _kits(edition: Edition) -> Page:
    course = edition.course
    kits = [(kit, [(course.parts[id], count) for id, count in kit.parts.items()]) for kit in edition.kits]
    body = fill(
        "kits", course=course, kits=kits, cite=edition.citing(""), cautions=edition.cautions("small parts")
    )
    return Page(
        "kits.html",
        "What is in the kit?",
        body,
        tuple(Heading(2, kit.id, kit.title) for kit, _ in kits),
        in_search=True,
        description="What one team gets, part by part.",
    )
