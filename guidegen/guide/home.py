"""The first page: by question, each with a short computed answer and the way to the long one."""

from collections import Counter
from typing import NamedTuple, Sequence

from guidegen.guide.choosing import COMPARED, lines_of, times_words, winners
from guidegen.guide.edition import Edition
from guidegen.guide.lasting import motion_words
from guidegen.guide.page import Heading, Page
from guidegen.guide.pairs import Group, fullest_kit, group_of
from guidegen.guide.templates import fill
from guidegen.guide.trials import HOURS, KitTrials
from guidegen.guide.weights import pot_reading
from guidegen.guide.wobble import alone_travel, seen_travel, wanted_travel
from guidegen.joint.records import Result
from guidegen.joint.words import pair_words


def home_page(edition: Edition, made: list[Group], trials: Sequence[KitTrials]) -> Page:
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
        tried=_tried(edition, made, trials),
        pot=pot_reading(edition.measures).short,
        bent=_most_bent(edition.results, named),
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


class TriedAnswers(NamedTuple):
    """Short answers from the trials of one kit."""

    kit: str
    load: float
    motion: str
    choice: list[str]  # which kind is best at what
    lasting: str
    starting: str


def _tried(edition, made, trials) -> TriedAnswers | None:
    """What the trials of the fullest kit say of choosing, lasting and starting: of pairs of like bearings."""
    if not trials:
        return None
    kit = fullest_kit(made, edition.kits)
    one = next((one for one in trials if one.kit == kit), trials[0])
    lines, measures = lines_of(one), edition.measures
    like = [line for line in lines if not line.joint.clamped and len(set(line.joint.bearings)) == 1]
    wanted = f"the {HOURS:g} h wanted"
    lasting = [f"{line.words} last {times_words(line.swings)} {wanted}" for line in like if line.swings]
    dropped = [line for line in like if not line.swings]
    knocks = [f"{line.words} bear {times_words(line.knock)} the load of a drop" for line in dropped]
    starting = [f"{line.words} {measures.value(line.start.typical, 'N', 2).line}" for line in like]
    return TriedAnswers(
        one.kit.title,
        one.loads[COMPARED],
        motion_words(lines[0].tried.trials[COMPARED, "swing"].joint),
        list(winners(lines, measures, edition.course.currency)),
        "; ".join([*lasting, *knocks]),
        "; ".join(starting),
    )


class Bent(NamedTuple):
    """Greatest deflection, mm, of the joints of the tables by the place of their load; what bends more."""

    between: float
    beyond: float
    more: Result | None  # a joint of the course that bends more than all those


def _most_bent(results, named) -> Bent:
    """Which worked joints bend most. `named`: those of the course, which are in no table."""
    bends = {r.id: r.quantities["deflection"].typical for r in results if "deflection" in r.quantities}
    tabled = [r for r in results if r.id in bends and r not in named]
    between, beyond = (
        max((bends[r.id] for r in tabled if (r.joint.overhang > 0) == out), default=0.0)
        for out in (False, True)
    )
    most = max((r for r in named if r.id in bends), key=lambda r: bends[r.id], default=None)
    more = most if most and bends[most.id] > max(between, beyond) else None
    return Bent(between, beyond, more)


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
