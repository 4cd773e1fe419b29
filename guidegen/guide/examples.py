"""Real joints by which a page shows how it is done: those the course names, else worked ones of the grid."""

from typing import Callable

from markupsafe import Markup

from guidegen.guide.edition import Edition
from guidegen.joint.records import STATES, Result


def named(edition: Edition) -> list[Result]:
    """Joints that the course names itself and that can be built, in its order."""
    found = (edition.by_id[id] for id in edition.course.joints if id in edition.by_id)
    return [result for result in found if result.stack]


def example(edition: Edition, fits: Callable[[Result], bool]) -> Result | None:
    """The first named joint that fits; else the best worked one; None where there is none."""
    own = (result for result in named(edition) if fits(result))
    worked = (result for result in edition.results if result.stack and fits(result))
    best = next(own, None)
    return best or min(worked, key=lambda one: (STATES.index(one.state), one.id), default=None)


def link(result: Result, words: str = "", root: str = "") -> Markup:
    """A link to the page of a joint; `root` leads from the page to the top of the site."""
    return Markup('<a href="{}joints/{}.html">{}</a>').format(root, result.id, words or result.joint.title)
