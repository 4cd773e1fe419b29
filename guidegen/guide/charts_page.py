"""The page of charts: what holds for all pairs, and the way to the charts of each."""

from typing import NamedTuple

from guidegen.guide.charts import Chart, general_charts
from guidegen.guide.edition import Edition
from guidegen.guide.page import Heading, Page
from guidegen.guide.pairs import Group, sample_of
from guidegen.guide.templates import fill
from guidegen.guide.wobble import seen_travel


class Chapter(NamedTuple):
    """Charts of one kind under one heading; the beginning of their ids says which."""

    key: str
    title: str
    charts: list[Chart]


CHAPTERS = {
    "wobble": "Wobble against separation",
    "rule-of-thumb": "The rule of thumb",
    "causes": "Where it comes from",
    "reactions": "Reactions",
    "deflection": "Deflection",
}


def charts_page(edition: Edition, made: list[Group]) -> Page:
    """A table of all pairs at like joints, then the charts that compare them."""
    drawn = general_charts(edition.results, edition.course)
    chapters = [
        Chapter(key, title, [chart for chart in drawn if chart.id.startswith(key)])
        for key, title in CHAPTERS.items()
    ]
    chapters = [chapter for chapter in chapters if chapter.charts or chapter.key == "wobble"]
    samples = {group.key: sample_of(group) for group in made if not group.first.single}
    kits = [
        (kit, [group for group in made if group.kit == kit.id and group.key in samples])
        for kit in edition.kits
    ]
    body = fill(
        "charts",
        chapters=chapters,
        kits=[(kit, own) for kit, own in kits if own],
        measures=edition.measures,
        course=edition.course,
        samples={key: (result, seen_travel(result)) for key, result in samples.items()},
    )
    return Page(
        "charts.html",
        "How far does it wobble?",
        body,
        tuple(Heading(2, chapter.key, chapter.title) for chapter in chapters),
        in_search=True,
        description="Charts: wobble against separation, its causes, reactions and deflection.",
    )
