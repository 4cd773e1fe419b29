"""Turns templates into the HTML of page bodies; every text that is put in is escaped."""

import re
from functools import cache
from pathlib import Path
from typing import Iterable

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

FOLDER = Path(__file__).parent / "templates"
_SENTENCE = re.compile(r"(?<=\.) (?=[A-Z])")
_INDENT = re.compile(r"\s*\n\s*")


@cache
def _environment():
    made = Environment(
        loader=FileSystemLoader(FOLDER),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
        auto_reload=False,
    )
    made.filters["upper_first"] = upper_first
    made.filters["said_once"] = said_once
    return made


def fill(template: str, **values) -> str:
    """The HTML of a template with these values, without the indentation it is written with."""
    return _INDENT.sub("\n", _environment().get_template(f"{template}.html.j2").render(values)).strip()


def exists(template: str) -> bool:
    """Whether there is a template of this name."""
    return (FOLDER / f"{template}.html.j2").is_file()


def ready(html: str) -> Markup:
    """Finished HTML of our own making, not to be escaped again."""
    return Markup(html)


def upper_first(text: str) -> str:
    """The text with its first letter a capital."""
    return text[:1].upper() + text[1:]


def said_once(texts: Iterable[str]) -> list[str]:
    """Texts that stand below one another, without the sentences that one before has said."""
    said: set[str] = set()
    kept = []
    for text in texts:
        new = [sentence for sentence in _SENTENCE.split(text) if sentence not in said]
        said.update(new)
        if new:
            kept.append(" ".join(new))
    return kept
