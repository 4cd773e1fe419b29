"""The tables of worked joints: all of them, and those with the same bearings with their charts."""

from collections import Counter
from typing import Iterator

from guidegen.guide.charts import pair_charts
from guidegen.guide.charts_page import CHAPTERS, charts_of
from guidegen.guide.edition import Edition
from guidegen.guide.lasting import motion_words
from guidegen.guide.listing import rows_of, unit_of
from guidegen.guide.page import Heading, Page
from guidegen.guide.pairs import Group
from guidegen.guide.templates import fill

CHARTED = ("wobble", "causes")


def table_page(edition: Edition, made: list[Group]) -> Page:
    """Every worked joint in one table a kit."""
    kits = [
        (
            kit,
            rows_of(
                [r for r in edition.results if r.joint.kit == kit and r.id not in edition.course.joints],
                edition.measures,
            ),
        )
        for kit in edition.kits
    ]
    kits = [(kit, rows) for kit, rows in kits if rows]
    named = [edition.by_id[id] for id in edition.course.joints if id in edition.by_id]
    body = fill(
        "joints",
        results=edition.results,
        counts=Counter(r.state for r in edition.results),
        motions=Counter(motion_words(r.joint) for r in edition.results).most_common(2),
        groups=made,
        kits=kits,
        named=named,
        units=_units(edition),
    )
    contents = [Heading(2, "named", "Joints of this course")] * bool(named)
    contents += [Heading(2, f"kit-{kit.id}", kit.title) for kit, _ in kits]
    return Page(
        "joints.html",
        "All worked joints",
        body,
        tuple(contents),
        in_search=True,
        description="Every joint that the kits can build, in a table that can be sorted.",
    )


def _units(edition) -> tuple[str, ...]:
    """Of the columns of lengths and of forces."""
    return tuple(unit_of(unit, edition.measures) for unit in ("mm", "N"))


def group_pages(edition: Edition, made: list[Group]) -> Iterator[Page]:
    """For each kind of bearings its charts and its joints."""
    for group in made:
        drawn = pair_charts(group, edition.course)
        chapters = [(key, CHAPTERS[key].title, charts_of(key, drawn)) for key in CHARTED]
        chapters = [chapter for chapter in chapters if chapter[2]]
        body = fill(
            "pair",
            root="../",
            group=group,
            kit=edition.course.kits[group.kit],
            chapters=chapters,
            rows=rows_of(group.results, edition.measures),
            units=_units(edition),
            counts=Counter(result.state for result in group.results),
        )
        contents = [Heading(2, key, title) for key, title, _ in chapters] + [
            Heading(2, "joints", "Worked joints")
        ]
        yield Page(
            f"pairs/{group.key}.html",
            group.title,
            body,
            tuple(contents),
            in_search=True,
            description=f"{group.title}: how the wobble falls with separation, and every worked joint.",
        )
