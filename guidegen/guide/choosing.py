"""Bushing, ball bearing or nylon: the kinds of bearings side by side, at like joints."""

from typing import NamedTuple

from guidegen.guide.edition import Edition
from guidegen.guide.page import Heading, Page
from guidegen.guide.pairs import Group, sample_of
from guidegen.guide.templates import fill
from guidegen.guide.wobble import alone_travel, seen_travel
from guidegen.joint.records import Result
from guidegen.units import Band


class Choice(NamedTuple):
    """One kind of bearings at a like joint, for the page on choosing."""

    group: Group
    result: Result
    wobble: Band
    alone: float | None
    price: float
    causes: str


def choosing_page(edition: Edition, made: list[Group]) -> Page:
    """Bushing, ball bearing or nylon: one like joint for each kind of bearings."""
    kits = []
    for kit in edition.kits:
        choices = [_choice(group) for group in made if group.kit == kit.id]
        if choices:
            kits.append((kit, choices))
    body = fill("choose", kits=kits, measures=edition.measures, course=edition.course)
    return Page(
        "choose.html",
        "Bushing, ball bearing or nylon?",
        body,
        tuple(Heading(2, kit.id, kit.title) for kit, _ in kits)
        + (Heading(2, "words", "What the numbers leave out"),),
        in_search=True,
        description="The kinds of bearings side by side, at like joints.",
    )


def _choice(group):
    result = sample_of(group)
    joint = result.joint
    largest = max(result.shares, key=lambda cause: result.shares[cause], default="")
    return Choice(
        group,
        result,
        seen_travel(result),
        None if joint.single else alone_travel(result),
        sum(bearing.price for bearing in joint.bearings),
        largest,
    )
