"""The pages of a worked joint: the answer with drawing, numbers and reasons; its working; how it is made."""

from typing import NamedTuple

from guidegen.drawing import section
from guidegen.guide.carrying import carried_chapter
from guidegen.guide.change import changes, differences, housing_words, load_place
from guidegen.guide.chapters import Chapter
from guidegen.guide.edition import Edition
from guidegen.guide.effort import effort_chapter
from guidegen.guide.hazards import cautions_by_place
from guidegen.guide.holes import holes_of
from guidegen.guide.joint_numbers import (
    extra_play,
    input_rows,
    room_chapter,
    share_rows,
)
from guidegen.guide.lasting import lasting_chapter, motion_words
from guidegen.guide.making import WORKED, fits_page, making_page
from guidegen.guide.measures import Measures
from guidegen.guide.names import LAYOUTS, TURNS_WITH
from guidegen.guide.page import Heading, Page
from guidegen.guide.pairs import group_of
from guidegen.guide.reasons import checks_of, chosen_end_play, headline, ways_out
from guidegen.guide.steps import questions_of, sections_of
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
    """The pages of one joint: what it comes to and how it is made, and how each is worked out."""

    answer: Page
    working: Page
    making: Page
    fits: Page


def joint_pages(result: Result, edition: Edition) -> Parts:
    """The four pages of one joint."""
    steps = sections_of(result, WORKED)
    answer, working = _answer(result, edition, steps), _working(result, edition, steps)
    return Parts(answer, working, making_page(result, edition), fits_page(result, edition))


def _answer(result, edition, steps) -> Page:
    joint, course, measures = result.joint, edition.course, edition.measures
    near = changes(result, edition.near.get(result.id, ()), measures)
    housing = housing_words(joint)
    sections = [entry for entry in CONTENTS if near or entry[0] != "change"]
    wanted = wanted_travel(course, joint)
    told, checks = chapters_of(result, measures, wanted), checks_of(result, course, measures)
    chosen = chosen_end_play(result, measures)
    body = fill(
        "worked",
        root=ROOT,
        joint=joint,
        result=result,
        course=course,
        cite=edition.citing(ROOT),
        housing=housing,
        layout=LAYOUTS[joint.layout],
        motion=motion_words(joint),
        measures=measures,
        holes=holes_of(result, course, measures),
        drawing=ready(section(result)),
        sections=dict(sections),
        chapters=told,
        seen=seen_travel(result),
        alone=None if joint.single else alone_travel(result),
        wanted=wanted,
        shares=share_rows(result),
        extra=extra_play(result),
        near=near,
        place_of=places_of(result, steps),
        working=f"{ROOT}working/{result.id}.html",
        making=f"{ROOT}making/{result.id}.html",
        instead={
            v.instead: differences(joint, edition.by_id[v.instead].joint, measures)
            for v in result.verdicts
            if v.instead in edition.by_id
        },
        ways=ways_out(checks),
        own_duty=result.id in course.joints,
        window=None if result.stack is None else measures.range(*result.stack.window, "mm"),
        headline=headline(checks, chosen),
        checks=checks,
        chosen=chosen,
        upkeep=[v.about for v in result.verdicts if v.state != v.counts_as],
        turns_with=TURNS_WITH if joint.layout == "A" else TURNS_WITH | {"arm": "hub with the arm"},
        group=group_of(joint),
        cautions=cautions_by_place(result, edition),
    )
    return Page(
        path=f"joints/{result.id}.html",
        title=f"{joint.title}, {housing}",
        body=body,
        toc=tuple(_contents(sections, told)),
        description=f"{upper_first(result.state)}: {joint.title}, in {housing}.",
    )


def _working(result, edition, steps) -> Page:
    joint, questions = result.joint, questions_of(steps)
    body = fill(
        "working",
        root=ROOT,
        joint=joint,
        result=result,
        cite=edition.citing(ROOT),
        housing=housing_words(joint),
        questions=questions,
        inputs=input_rows(result, edition.measures),
    )
    contents = [Heading(2, question.id, question.title) for question in questions]
    return Page(
        path=f"working/{result.id}.html",
        title=f"Working: {joint.title}",
        body=body,
        toc=(*contents, Heading(2, "inputs", "Inputs")),
        description="Every number step by step, and what went in.",
    )


def chapters_of(result: Result, measures: Measures, wanted: float) -> list[Chapter]:
    """What a joint comes to in numbers, by question. `wanted`: total wobble at the arm, mm."""
    place = load_place(result.joint, overhang_of(result), lambda mm: measures.value(mm, "mm").line)
    return [
        room_chapter(result, measures),
        carried_chapter(result, place, measures),
        lasting_chapter(result, measures, wanted),
        effort_chapter(result, measures),
    ]


def _contents(sections, chapters):
    for place, title in sections:
        yield Heading(2, place, title)
        if place == "numbers":
            yield from (Heading(3, chapter.id, chapter.title) for chapter in chapters)


def places_of(result, steps) -> dict[str, str]:
    """Where on the page of the working each number is worked out."""
    places = {name: f"s-{line.gives[0]}" for part in steps for line in part.lines for name in line.gives}
    if "wear_cycles_1" in places or "wear_cycles_2" in places:
        places["wear_cycles"] = places.get("wear_cycles_1") or places["wear_cycles_2"]
    return places
