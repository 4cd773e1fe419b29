"""The page by which a joint is made: parts with prices, tools, order of assembly, holes, fits, upkeep."""

from itertools import chain
from typing import NamedTuple

from guidegen.guide.bench import Bench
from guidegen.guide.building import told_steps
from guidegen.guide.carrying import WORKED as OF_NUT
from guidegen.guide.change import housing_words
from guidegen.guide.chapters import Chapter
from guidegen.guide.drawing_holes import WORKED as OF_HOLES
from guidegen.guide.drawing_holes import holing
from guidegen.guide.edition import Edition
from guidegen.guide.holding import WORKED as OF_HOLDING
from guidegen.guide.holding import holding
from guidegen.guide.keeping import WORKED as OF_KEEPING
from guidegen.guide.keeping import keeping
from guidegen.guide.measures import Both
from guidegen.guide.page import Heading, Page
from guidegen.guide.seating import hole_tools, judged
from guidegen.guide.steps import sections_apart
from guidegen.guide.templates import fill
from guidegen.joint.build_order import steps
from guidegen.joint.inputs import seats, shaft_hole, thread_hole
from guidegen.joint.records import Result
from guidegen.joint.spending import GRAM, bought, mass_of
from guidegen.kit.records import Part
from guidegen.kit.tools import tools_for
from guidegen.theory.statics import STANDARD_GRAVITY, weight

ROOT = "../"
CHAPTERS = (
    holing,
    holding,
    keeping,
)  # each gives the chapters of one question from a result, its course and measures
WORKED = frozenset(chain(OF_HOLES, OF_HOLDING, OF_NUT, OF_KEEPING))  # names of the steps behind their numbers
TOOL_WORDS = {
    "vice": "vice with soft jaws",
    "pin": "pin of the shoulder's size",
    "feeler gauge": "feeler gauge",
    "caliper": "caliper with a depth rod",
    "laser": "laser cutter",
    "print": "printer",
    "glue": "glue",
    "thread locker": "thread locker, medium",
}
KINDS = {"key": "hexagon key", "wrench": "wrench"}


class Bought(NamedTuple):
    """A line of the parts list; `numbers`: where the part stands in the drawing."""

    numbers: str
    part: Part
    count: int
    mass: Both
    measured: bool  # whether it is to be measured before it is chosen


def making_page(result: Result, edition: Edition) -> Page:
    """How one joint is made; of one that cannot be built, its holes and what else is known."""
    joint, course, measures = result.joint, edition.course, edition.measures
    built = result.stack is not None
    told = told_steps(result, edition) if built else []
    chapters = [chapter for of in CHAPTERS for chapter in of(result, course, measures)]
    warned = {caution.id for step in told for caution in step.cautions}
    body = fill(
        "making",
        root=ROOT,
        result=result,
        joint=joint,
        course=course,
        measures=measures,
        housing=housing_words(joint),
        cite=edition.citing(ROOT),
        bought=parts_list(result, edition) if built else [],
        stocks=_stocks(joint),
        whole=_scale(result.quantities["mass"].value * GRAM, measures) if built else None,
        tools=tools_of(result, edition) if built else [],
        steps=told,
        final=[step.number for step in told if step.undo],
        chapters=chapters,
        foot=[caution for caution in edition.cautions("every sheet") if caution.id not in warned],
    )
    return Page(
        path=f"making/{result.id}.html",
        title=f"Make it: {joint.title}",
        body=body,
        toc=tuple(_contents(built, chapters)),
        description=f"Parts, tools and order of assembly: {joint.title}, in {housing_words(joint)}.",
    )


def fits_page(result: Result, edition: Edition) -> Page:
    """How the numbers of the making are worked out: holes, fits, nut."""
    joint, worked = result.joint, sections_apart(result, WORKED)
    body = fill(
        "fits",
        root=ROOT,
        result=result,
        joint=joint,
        housing=housing_words(joint),
        cite=edition.citing(ROOT),
        worked=worked,
    )
    return Page(
        path=f"fits/{result.id}.html",
        title=f"Holes, fits and nut of the {joint.title}",
        body=body,
        toc=tuple(Heading(2, part.model, part.title) for part in worked),
        description=f"Holes, fits and nut worked out: {joint.title}, in {housing_words(joint)}.",
    )


def _contents(built, chapters: list[Chapter]):
    if built:
        yield from (
            Heading(2, *entry) for entry in (("parts", "Parts"), ("tools", "Tools"), ("order", "Order"))
        )
    yield from (Heading(2, chapter.id, chapter.title) for chapter in chapters)


def parts_list(result: Result, edition: Edition) -> list[Bought]:
    """The bought parts of a joint, the screw first, then from the head."""
    course, rows = edition.course, list(enumerate(result.stack.placed, 1))
    choose = judged(result, "end play") != "holds"
    lines = []
    for part, count in bought(result.joint, result.stack, course).items():
        places = [(n, row) for n, row in rows if row.part == part.id]
        measured = choose and any(row.on == "shoulder" and not row.within for _, row in places)
        mass = _scale(mass_of(part, course), edition.measures)
        lines.append(Bought(", ".join(str(n) for n, _ in places), part, count, mass, measured))
    return lines


def _scale(mass, measures) -> Both:
    """A mass, t, as a scale shows it."""
    return measures.on_scale(weight(mass, STANDARD_GRAVITY))


def _stocks(joint) -> list[str]:
    """Sheet and prints that the joint needs beside bought parts."""
    plates = (joint.cheeks, joint.arm_plate if joint.arm_between else None, joint.on_thread)
    plates = [plate for plate in plates if plate and (plate is not joint.on_thread or joint.plate_on_thread)]
    return list(dict.fromkeys(one.stock.name for one in (*joint.housings, *plates)))


def tools_of(result: Result, edition: Edition) -> list[str]:
    """The fewest tools that make and put together a joint, each by name and size."""
    joint, course = result.joint, edition.course
    counts = {part.id: n for part, n in bought(joint, result.stack, course).items()}
    turned = [
        f"{'2 × ' * (tool.count > 1)}{KINDS[tool.kind]} {tool.name}"
        for tool in tools_for(course.parts, counts)
    ]
    used = chain.from_iterable(build.tools for build in steps(joint, result.stack, course.parts))
    others = [TOOL_WORDS[tool] for tool in dict.fromkeys(used) if tool in TOOL_WORDS]
    return list(dict.fromkeys([*turned, *_cutters(result, edition), *others]))


def _cutters(result, edition):
    """Drills and reamers of every hole."""
    joint = result.joint
    bench = Bench(result, edition.course, edition.measures)
    holes = [(seat.drawn, h.process) for seat, h in zip(seats(joint, edition.course), joint.housings)]
    if joint.cheeks:
        holes.append((shaft_hole(joint.shaft.nominal, joint.cheeks).drawn, joint.cheeks.process))
    if joint.arm_between:
        holes.append((shaft_hole(joint.shaft.nominal, joint.arm_plate).drawn, joint.arm_plate.process))
    if joint.plate_on_thread:
        process = joint.on_thread.process
        holes.append((thread_hole(joint.thread.id, "fine", process).drawn, process))
    return [tool for drawn, process in holes for tool in hole_tools(bench, drawn, process)]
