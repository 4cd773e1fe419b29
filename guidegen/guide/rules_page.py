"""The page of rules that people have heard, and of numbers to remember."""

from collections import Counter

from guidegen.guide.edition import Edition
from guidegen.guide.numbers_to_remember import numbers_to_remember
from guidegen.guide.page import Heading, Page
from guidegen.guide.rules import Rules
from guidegen.guide.templates import fill

SECTIONS = {"rules": "Rules you may have heard", "numbers": "Numbers to remember"}


def rules_page(edition: Edition) -> Page:
    """Each rule with where it belongs, the number here and a verdict; then the numbers."""
    rules = Rules(edition).told()
    body = fill(
        "rules",
        sections=SECTIONS,
        rules=rules,
        counts=Counter(rule.verdict for rule in rules),
        numbers=numbers_to_remember(edition),
    )
    return Page(
        "rules.html",
        "Is it true what they say?",
        body,
        tuple(Heading(2, *section) for section in SECTIONS.items()),
        in_search=True,
        description="Rules of thumb, each with where it belongs and the number here; numbers to remember.",
    )
