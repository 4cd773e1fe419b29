"""The pages of charts: an overview with one chart of each chapter, and the chapters in full."""

from typing import Iterator, NamedTuple, Sequence

from guidegen.guide.charts import Chart, general_charts
from guidegen.guide.edition import Edition
from guidegen.guide.page import Heading, Page
from guidegen.guide.pairs import Group, fullest_kit, sample_of
from guidegen.guide.templates import fill
from guidegen.guide.trials import KitTrials
from guidegen.guide.wobble import seen_travel


class Chapter(NamedTuple):
    """Charts of one kind under one heading; the beginning of their ids says which."""

    key: str
    title: str
    says: str
    method: tuple[str, ...] = ()  # models of the method pages


class Part(NamedTuple):
    """A page of charts: the chapters that answer one question."""

    path: str
    title: str
    chapters: tuple[Chapter, ...]


PARTS = (
    Part(
        "charts/wobble.html",
        "How far does it wobble?",
        (
            Chapter(
                "wobble",
                "Wobble against separation",
                "Two bearings guide a shaft better than one, and better the farther apart they are.",
                ("freeplay",),
            ),
            Chapter(
                "rule-of-thumb",
                "The rule of thumb",
                "Clearance over separation says too much for bushes, most where they stand close.",
                ("freeplay",),
            ),
            Chapter("causes", "Where it comes from", "Which part to change first.", ("clearance",)),
        ),
    ),
    Part(
        "charts/loads.html",
        "What do the bearings carry, and does the screw bend?",
        (
            Chapter(
                "reactions",
                "Reactions",
                "Between the bearings each carries a part of the load; beyond them bearing 2 carries more "
                "than all "
                "of it.",
                ("statics",),
            ),
            Chapter(
                "deflection",
                "Deflection",
                "How far the load plane moves because the screw bends, between the bearings and beyond them.",
                ("beam",),
            ),
            Chapter(
                "stress",
                "Bending stress",
                "What the screw feels with the load at the same places, layout beside layout.",
                ("beam", "strength"),
            ),
        ),
    ),
    Part(
        "charts/lasting.html",
        "Will the bearings last?",
        (
            Chapter(
                "life",
                "Life of ball bearings",
                "How many turns a load allows, which load may dent the grooves, and where no life can be "
                "told.",
                ("ball",),
            ),
            Chapter(
                "pv",
                "Pressure and speed of bushes",
                "A bush bears so much pressure, so much speed, and so much of both together.",
                ("sliding",),
            ),
            Chapter(
                "wear",
                "Wear",
                "Clearance grows with every swing, and the wobble with it.",
                ("sliding",),
            ),
        ),
    ),
    Part(
        "charts/starting.html",
        "How hard is it to start turning?",
        (
            Chapter(
                "start",
                "Force to start",
                "What a finger, or a kitchen scale, must push at the end of a balanced arm.",
                ("friction",),
            ),
        ),
    ),
)
CHAPTERS = {chapter.key: chapter for part in PARTS for chapter in part.chapters}


def chart_pages(edition: Edition, made: list[Group], trials: Sequence[KitTrials]) -> Iterator[Page]:
    """The overview, then one page for each question that charts answer."""
    drawn = general_charts(made, trials, edition.course)
    yield _overview(edition, made, drawn)
    for part in PARTS:
        chapters = [(chapter, own) for chapter in part.chapters if (own := charts_of(chapter.key, drawn))]
        yield Page(
            part.path,
            part.title,
            fill("chart_chapters", root="../", title=part.title, chapters=chapters),
            tuple(Heading(2, chapter.key, chapter.title) for chapter, _ in chapters),
            in_search=True,
            description="Charts: " + ", ".join(chapter.title.lower() for chapter, _ in chapters) + ".",
        )


def charts_of(key: str, drawn: Sequence[Chart]) -> list[Chart]:
    """The charts of a chapter."""
    return [chart for chart in drawn if chart.id.startswith(key)]


def _overview(edition, made, drawn):
    """A table of all pairs at like joints, then the first chart of each chapter of the fullest kit."""
    samples = {group.key: sample_of(group) for group in made if not group.first.single}
    kits = [
        (kit, [group for group in made if group.kit == kit.id and group.key in samples])
        for kit in edition.kits
    ]
    kit = fullest_kit(made, edition.kits)
    shown = [
        (
            part,
            [
                (chapter, _for(kit, own))
                for chapter in part.chapters
                if (own := charts_of(chapter.key, drawn))
            ],
        )
        for part in PARTS
    ]
    body = fill(
        "charts",
        parts=shown,
        kits=[(kit, own) for kit, own in kits if own],
        measures=edition.measures,
        course=edition.course,
        samples={key: (result, seen_travel(result)) for key, result in samples.items()},
    )
    return Page(
        "charts.html",
        "Charts: what changes with what?",
        body,
        (
            *(Heading(2, chapter.key, chapter.title) for _, chapters in shown for chapter, _ in chapters),
            Heading(2, "pairs", "All pairs"),
        ),
        in_search=True,
        description="Charts of wobble, loads, bending, life, wear and friction, and a table of all pairs.",
    )


def _for(kit, charts):
    """The chart of a chapter that shows a kit, or the first."""
    return next((chart for chart in charts if chart.id.endswith(f"-{kit.id}")), charts[0])
