"""The two pages of a worked joint: the answer with a drawing, numbers and reasons; and its working."""

from typing import NamedTuple

from guidegen.drawing import section
from guidegen.guide.change import changes, differences, housing_words, load_place
from guidegen.guide.edition import Edition
from guidegen.guide.hazards import cautions_by_place
from guidegen.guide.holes import holes_of
from guidegen.guide.joint_numbers import (
    checks_of,
    counts_of,
    extra_play,
    input_rows,
    load_rows,
    play_rows,
    share_rows,
)
from guidegen.guide.names import LAYOUTS, TURNS_WITH
from guidegen.guide.page import Heading, Page
from guidegen.guide.pairs import group_of
from guidegen.guide.steps import sections_of
from guidegen.guide.templates import fill, ready, upper_first
from guidegen.guide.wobble import alone_travel, overhang_of, seen_travel, wanted_travel
from guidegen.joint.records import Result

ROOT = "../"
CONTENTS = (
    ("drawing", "Section"),
    ("numbers", "Numbers"),
    ("why", "Why it wobbles"),
    ("checks", "Checks"),
    ("change", "Change one thing"),
    ("stack", "Stack, in order"),
    ("working", "Working"),
)


class Parts(NamedTuple):
    """The pages of one joint: what it comes to, and how that is worked out."""

    answer: Page
    working: Page


def joint_pages(result: Result, edition: Edition) -> Parts:
    """Both pages of one joint."""
    steps = sections_of(result)
    return Parts(_answer(result, edition, steps), _working(result, edition, steps))


def _answer(result, edition, steps) -> Page:
    joint, course, measures = result.joint, edition.course, edition.measures
    near = changes(result, edition.near.get(result.id, ()), measures)
    housing = housing_words(joint)
    sections = [entry for entry in CONTENTS if near or entry[0] != "change"]
    body = fill(
        "worked",
        root=ROOT,
        joint=joint,
        result=result,
        course=course,
        cite=edition.citing(ROOT),
        housing=housing,
        layout=LAYOUTS[joint.layout],
        place=load_place(joint, overhang_of(result), lambda mm: measures.value(mm, "mm").line),
        measures=measures,
        holes=holes_of(result, course, measures),
        drawing=ready(section(result)),
        sections=dict(sections),
        play=play_rows(result, measures),
        loads=load_rows(result, measures),
        seen=seen_travel(result),
        alone=None if joint.single else alone_travel(result),
        wanted=wanted_travel(course, joint),
        shares=share_rows(result),
        extra=extra_play(result),
        near=near,
        place_of=_places(steps),
        working=f"{ROOT}working/{result.id}.html",
        input_count=len(result.inputs),
        instead={
            v.instead: differences(joint, edition.by_id[v.instead].joint, measures)
            for v in result.verdicts
            if v.instead in edition.by_id
        },
        window=None if result.stack is None else measures.range(*result.stack.window, "mm"),
        counts=counts_of(result.verdicts),
        checks=checks_of(result.verdicts),
        turns_with=TURNS_WITH if joint.layout == "A" else TURNS_WITH | {"arm": "hub with the arm"},
        group=group_of(joint),
        cautions=cautions_by_place(result, edition),
    )
    return Page(
        path=f"joints/{result.id}.html",
        title=f"{joint.title}, {housing}",
        body=body,
        toc=tuple(Heading(2, place, title) for place, title in sections),
        description=f"{upper_first(result.state)}: {joint.title}, in {housing}.",
    )


def _working(result, edition, steps) -> Page:
    joint = result.joint
    body = fill(
        "working",
        root=ROOT,
        joint=joint,
        result=result,
        course=edition.course,
        cite=edition.citing(ROOT),
        housing=housing_words(joint),
        steps=steps,
        inputs=input_rows(result, edition.measures),
    )
    contents = [Heading(2, part.model, part.title) for part in steps]
    return Page(
        path=f"working/{result.id}.html",
        title=f"Working: {joint.title}, {housing_words(joint)}",
        body=body,
        toc=(*contents, Heading(2, "inputs", "Inputs")),
        description=f"Every number of the {joint.title} step by step.",
    )


def _places(steps) -> dict[str, str]:
    """Where on the page of the working each number is worked out."""
    return {name: f"s-{line.gives[0]}" for part in steps for line in part.lines for name in line.gives}
