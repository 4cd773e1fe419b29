"""The one form in which bad input is reported, and the exceptions that carry it."""

from dataclasses import dataclass


@dataclass(frozen=True, order=True)
class Mistake:
    """One mistake in a file a person edits: where, what was found, what is allowed, what to do."""

    file: str
    place: str
    found: str
    allowed: str
    remedy: str = ""

    def __str__(self):
        text = f"{self.file}, {self.place}: found {self.found}; allowed: {self.allowed}."
        return f"{text} {self.remedy}".rstrip()


class BadInput(Exception):
    """Everything wrong with what was read, all at once."""

    def __init__(self, mistakes):
        self.mistakes = tuple(mistakes)
        super().__init__("\n".join(map(str, self.mistakes)))


class CannotBuild(Exception):
    """Why a joint of these parts cannot be put together; becomes a verdict, never a traceback.

    `why` is a sentence for the reader, `reason` a few words that refusals are counted by.
    """

    def __init__(self, why, reason):
        self.why, self.reason = why, reason
        super().__init__(why)
