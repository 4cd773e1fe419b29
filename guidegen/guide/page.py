"""A finished page of the guide, and the guide as a whole, before any site builder has seen them."""

import re
from dataclasses import dataclass, field
from typing import Mapping, NamedTuple


class Heading(NamedTuple):
    """A line of a page's table of contents; `id` stands in the body, `level` is 2 for <h2>."""

    level: int
    id: str
    text: str


@dataclass(frozen=True)
class Page:
    """One page: where it goes, what it is called, its finished HTML.

    `path` is relative to the site and ends in .html; links in `body` are relative to it. `body`
    begins with its own <h1>. Title, description and the texts of `toc` are plain text, not HTML.
    Pages of number tables stay out of the search index (`in_search`): they break it, and they are
    reached by tables and links. `scripts`: files that this page alone loads, in their order.
    """

    path: str
    title: str
    body: str
    toc: tuple[Heading, ...] = ()
    in_search: bool = False
    description: str = ""
    scripts: tuple[str, ...] = ()

    @property
    def anchors(self) -> set[str]:
        """Every id in the body: places that links may name."""
        return set(re.findall(r'\sid="([^"]*)"', self.body))


@dataclass(frozen=True)
class Guide:
    """Everything generated for one course: its pages, and files by their path in the site.

    `styles` and `scripts` are the files that every page loads, hand-written ones too.
    """

    pages: tuple[Page, ...]
    files: Mapping[str, bytes] = field(default_factory=dict)
    styles: tuple[str, ...] = ()
    scripts: tuple[str, ...] = ()


def scrolling_tables(html: str) -> str:
    """The HTML of a hand-written page whose wide tables scroll by themselves and are reached by keys."""
    around = (
        r'<div class="scroll" role="region" aria-label="Table" tabindex="0">'
        r'<table class="written">\1</table></div>'
    )
    return re.sub(r"<table>(.*?)</table>", around, html, flags=re.DOTALL)
