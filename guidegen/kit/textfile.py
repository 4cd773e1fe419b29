"""The text of a file that a person edits, or what is wrong with the file."""

from dataclasses import dataclass
from pathlib import Path

from guidegen.errors import Mistake


@dataclass(frozen=True)
class Review:
    """A file being read: what it is called in mistakes, and the list they go to."""

    name: str
    mistakes: list[Mistake]

    def refuse(self, place, found, allowed, remedy=""):
        self.mistakes.append(Mistake(self.name, place, found, allowed, remedy))


def read_text(path: Path, review: Review, largest: int) -> str | None:
    """The text of a UTF-8 file of at most `largest` bytes; None, the mistake told, if it cannot be had."""

    def refuse(found, allowed, remedy="", place="file"):
        review.refuse(place, found, allowed, remedy)

    if not path.is_file():
        refuse("no such file", "a file of this name", "Add it, or copy it from the demo course.")
        return None
    try:
        if (size := path.stat().st_size) > largest:
            refuse(f"{size} bytes", f"at most {largest} bytes", "Is this the right file?")
            return None
        content = path.read_bytes()
    except OSError as wrong:
        refuse(f"a file that cannot be opened ({wrong.strerror})", "a file that may be read")
        return None
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as wrong:
        line = content[: wrong.start].count(b"\n") + 1
        refuse(
            f"a byte ({content[wrong.start]:#04x}) that is not UTF-8 text",
            "text saved as UTF-8",
            "Save it again, choosing the encoding UTF-8.",
            f"line {line}",
        )
        return None
    if "\0" in text:
        refuse("a zero byte", "plain text", "Is this a spreadsheet's own file? Export it as CSV, UTF-8.")
        return None
    if not text.strip():
        refuse("an empty file", "at least its first line")
        return None
    return text
