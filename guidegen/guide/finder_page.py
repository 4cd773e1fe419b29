"""The pages that search the worked joints in the reader's own browser: by need, and by filters."""

from collections import Counter
from typing import NamedTuple

from guidegen.guide.edition import Edition
from guidegen.guide.lasting import motion_words
from guidegen.guide.page import Heading, Page
from guidegen.guide.templates import fill
from guidegen.joint.records import Joint
from guidegen.numbers import show_number

JOINTS, TYPED = "assets/joints.js", "assets/typed.js"
FIND = (JOINTS, TYPED, "assets/tradeoff.js", "assets/need.js")
FINDER = (JOINTS, TYPED, "assets/finder.js")
SCRIPTS = tuple(dict.fromkeys(FIND[1:] + FINDER[1:]))  # those that are files of their own
MOST_MOTIONS = 2  # of the motions worked out, those told


class WorkedFor(NamedTuple):
    """What the worked joints have in common, and so what a need cannot ask for, in words."""

    place: str  # where they stand
    shock: str
    push: str  # load along the screw of most of them
    motions: list[str]


def finder_pages(edition: Edition, of: dict) -> list[Page]:
    """By need, and by filters; both say without a script where the plain tables are. `of`: the columns."""
    common = dict(
        root="",
        course=edition.course,
        measures=edition.measures,
        count=len(edition.results),
        choices={choice["key"]: choice for choice in of["choices"]},
        of=of,
        worked_for=_worked_for(edition),
        scope=edition.cautions("every sheet"),
    )
    return [
        Page(
            "find.html",
            "Which joint does my job?",
            fill("find", **common),
            (
                Heading(2, "need-title", "What it must do"),
                Heading(2, "results", "What does it"),
                Heading(2, "meant", "What is taken for granted"),
            ),
            in_search=True,
            description="Say what a joint must do, and see which worked joints do it, best first.",
            scripts=FIND,
        ),
        Page(
            "finder.html",
            "Filter and compare all joints",
            fill("finder", **common),
            (Heading(2, "filters", "Filters"), Heading(2, "remain", "What remains")),
            in_search=True,
            description="All worked joints: filter, sort, find the nearest to your numbers, compare.",
            scripts=FINDER,
        ),
    ]


def _worked_for(edition: Edition) -> WorkedFor:
    joints = [result.joint for result in edition.results]
    push, at = _commonest((joint.axial, joint.arm) for joint in joints)
    value = edition.measures.value
    motions = Counter(map(motion_words, joints)).most_common(MOST_MOTIONS)
    return WorkedFor(
        _place(joints),
        show_number(_commonest(joint.shock for joint in joints)),
        f"{value(push, 'N').line} at an arm of {value(at, 'mm').line}",
        [words for words, _ in motions],
    )


def _commonest(found):
    return Counter(found).most_common(1)[0][0]


def _place(joints: list[Joint]) -> str:
    places = list(dict.fromkeys(joint.place.name for joint in joints))
    if len(places) == 1:
        return f"All of them stand in the {places[0]}"
    return f"They stand in different places, most in the {_commonest(j.place.name for j in joints)}"
