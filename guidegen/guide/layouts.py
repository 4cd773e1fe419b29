"""The ways to hold a shaft, each shown by a worked joint."""

from collections import Counter
from typing import NamedTuple

from markupsafe import Markup

from guidegen.drawing import section
from guidegen.guide.carrying import couple_words
from guidegen.guide.edition import Edition
from guidegen.guide.page import Heading, Page
from guidegen.guide.templates import fill, ready
from guidegen.joint.records import STATES, Result


class Arrangement(NamedTuple):
    """A way to hold the shaft, with a worked joint that shows it."""

    key: str
    result: Result
    drawing: Markup
    couple: str  # why its bearings carry more than the reactions drawn


def layouts_page(edition: Edition) -> Page:
    """The ways to hold a shaft, each shown by a worked joint."""
    shown = [
        Arrangement(key, result, ready(section(result, f"s{n}")), couple_words(result, edition.measures))
        for n, (key, result) in enumerate(_examples(edition))
        if result
    ]
    titles = {
        "layout-a": "A: the shaft turns, load beyond the bearings",
        "between": "A: the shaft turns, load between the bearings",
        "layout-b": "B: the hub turns, screw held at its thread",
        "layout-c": "C: the hub turns in a fork",
    }
    body = fill(
        "layouts",
        shown=shown,
        titles=titles,
        measures=edition.measures,
        overhung=edition.cautions("overhung load"),
        moving=edition.cautions("moving joint"),
        counts=Counter((r.joint.layout, r.joint.arm_between) for r in edition.results),
    )
    return Page(
        "layouts.html",
        "Which layout?",
        body,
        tuple(Heading(2, s.key, titles[s.key]) for s in shown),
        in_search=True,
        description="Straddle or overhung, shaft turning or hub turning: what each does.",
    )


def _examples(edition):
    wanted = {
        "layout-a": ("A", False),
        "between": ("A", True),
        "layout-b": ("B", False),
        "layout-c": ("C", False),
    }
    for key, (layout, between) in wanted.items():
        found = [
            r
            for r in edition.results
            if r.stack
            and not r.joint.single
            and not r.joint.clamped
            and (r.joint.layout, r.joint.arm_between) == (layout, between)
        ]
        yield (
            key,
            min(
                found,
                key=lambda r: (
                    STATES.index(r.state),
                    edition.course.units_first != r.joint.kit.units,
                    len(r.stack.placed),
                    r.id,
                ),
                default=None,
            ),
        )
