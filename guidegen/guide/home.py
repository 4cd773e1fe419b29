"""The first page: by question, each with a short computed answer and the way to the long one."""

from collections import Counter

from guidegen.guide.edition import Edition
from guidegen.guide.page import Heading, Page
from guidegen.guide.pairs import Group, group_of
from guidegen.guide.templates import fill
from guidegen.guide.wobble import alone_travel, seen_travel, wanted_travel
from guidegen.joint.records import Result
from guidegen.joint.words import pair_words


def home_page(edition: Edition, made: list[Group]) -> Page:
    """Greets, answers, warns, and says how to read a state."""
    course = edition.course
    named = [edition.by_id[id] for id in course.joints if id in edition.by_id]
    near, far = _closest_and_farthest(made)
    body = fill(
        "home",
        course=course,
        measures=edition.measures,
        results=edition.results,
        counts=Counter(result.state for result in edition.results),
        groups=made,
        near=near,
        far=far,
        near_wobble=near and seen_travel(near).typical,
        far_wobble=far and seen_travel(far).typical,
        alone=near and alone_travel(near),
        near_key=near and group_of(near.joint),
        near_words=near and pair_words(near.joint),
        named=[(r, seen_travel(r), wanted_travel(course, r.joint)) for r in named],
        scope=edition.cautions("every sheet"),
        kits=edition.kits,
        kinds=len({part for kit in course.kits.values() for part in kit.parts}),
    )
    contents = [
        Heading(2, "questions", "By question"),
        *[Heading(2, "named", "Joints of this course")] * bool(named),
        Heading(2, "reading", "How to read a page"),
        Heading(2, "care", "Before you build"),
    ]
    return Page(
        "index.html",
        "What do you want to know?",
        body,
        tuple(contents),
        in_search=True,
        description=f"{course.title}: joints from a small kit of bearing parts, worked out.",
    )


def _closest_and_farthest(made) -> tuple[Result | None, Result | None]:
    """Two joints of the largest group that differ in the separation alone: the closest and the farthest."""
    pairs = [group for group in made if not group.first.single]
    if not pairs:
        return None, None
    lines: dict[tuple, list[Result]] = {}
    for result in max(pairs, key=lambda group: len(group.worked)).worked:
        joint = result.joint
        if joint.layout != "C" and not joint.arm_between:  # no play but the bearings' own
            lines.setdefault((joint.layout, joint.shaft.id, joint.radial, joint.housings), []).append(result)
    if not lines:
        return None, None
    line = max(lines.values(), key=lambda found: (len({r.joint.separation for r in found}), found[0].id))
    line = sorted(line, key=lambda r: (r.joint.separation, r.joint.overhang))
    return line[0], line[-1]
