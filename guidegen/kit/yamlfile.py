"""A YAML file as plain mappings, lists, words and numbers, with the line of every key.

The file is read event by event, so nothing in it can make the program build, repeat or run anything:
no tags, no anchors, no aliases, one document, few levels. Words stay words: yes, no and dates are text;
only plain decimal numbers become numbers, and only true, false, null and ~ are special.
"""

import re
from pathlib import Path

import yaml

from guidegen.errors import BadInput, Mistake
from guidegen.kit.records import RawFile
from guidegen.kit.textfile import Review, read_text

LARGEST = 200_000  # bytes
DEEPEST = 8  # levels of mappings and lists
LONGEST_NUMBER = 25  # characters; anything longer stays text
_WHOLE = re.compile(r"[-+]?(?:0|[1-9]\d*)")
_DECIMAL = re.compile(r"[-+]?(?:\d+\.\d*|\.\d+|\d+(?=[eE]))(?:[eE][-+]?\d{1,2})?")
_SPECIAL = {"true": True, "false": False, "null": None, "~": None, "": None}
_PLAIN = "key: value lines, indented with spaces"


class _TooDeep(Exception):
    """A level too many was opened on `line`."""

    def __init__(self, line):
        self.line = line
        super().__init__()


def read_yaml(path: Path, name: str, mistakes: list[Mistake]) -> RawFile | None:
    """The file at `path`, called `name` in mistakes; None when it is no plain YAML mapping."""
    review = Review(name, mistakes)
    text = read_text(path, review, LARGEST)
    if text is None:
        return None
    before = len(mistakes)
    for number, line in enumerate(text.splitlines(), 1):
        if re.match(r" *\t", line):
            review.refuse(f"line {number}", "a tab in the indentation", "spaces")
    if len(mistakes) == before:
        tree = _Tree(review)
        try:
            tree.build(yaml.parse(text, Loader=yaml.SafeLoader))
        except yaml.MarkedYAMLError as wrong:
            mark = wrong.problem_mark or wrong.context_mark
            review.refuse(
                f"line {mark.line + 1}",
                f"what is not YAML ({wrong.problem})",
                _PLAIN,
                'Put text that holds ": " or begins with a sign in double quotes.',
            )
        except yaml.reader.ReaderError as wrong:
            line = text[: wrong.position].count("\n") + 1
            review.refuse(
                f"line {line}", f"a character ({wrong.character:#x}) that YAML forbids", "printable text"
            )
        except _TooDeep as wrong:
            review.refuse(
                f"line {wrong.line}",
                f"more than {DEEPEST} levels",
                f"at most {DEEPEST} levels of mappings and lists",
            )
        else:
            if not isinstance(tree.data, dict) and len(mistakes) == before:
                review.refuse("line 1", "no keys at the top level", _PLAIN)
    return RawFile(name, tree.data, tree.lines) if len(mistakes) == before else None


def read_yaml_alone(path: Path) -> RawFile:
    """One file by itself; raises BadInput with all its mistakes."""
    mistakes = []
    found = read_yaml(path, str(path), mistakes)
    if mistakes:
        raise BadInput(mistakes)
    return found


class _Tree:
    """Data and lines of one document, built from the parser's events."""

    def __init__(self, review):
        self.review, self.data, self.lines = review, None, {}

    def build(self, events):
        documents = 0
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                documents += 1
                if documents > 1:
                    self._refuse(event, "a second document (---)", "one document a file")
                    return
            elif isinstance(event, yaml.NodeEvent):
                self.data = self._node(event, events, ())

    def _node(self, event, events, way):
        line = event.start_mark.line + 1
        self.lines.setdefault(way, line)
        if len(way) > DEEPEST:
            raise _TooDeep(line)
        if event.anchor is not None:
            kind = "an alias (*" if isinstance(event, yaml.AliasEvent) else "an anchor (&"
            self._refuse(event, f"{kind}{event.anchor[:40]})", "everything written out")
        if getattr(event, "tag", None) is not None:
            self._refuse(event, f"a tag ({event.tag[:40]})", "plain words, numbers, lists and keys")
        if isinstance(event, yaml.MappingStartEvent):
            return self._mapping(events, way)
        if isinstance(event, yaml.SequenceStartEvent):
            return self._sequence(events, way)
        return _scalar(event) if isinstance(event, yaml.ScalarEvent) else None

    def _mapping(self, events, way):
        found, firsts = {}, {}
        for event in events:
            if isinstance(event, yaml.MappingEndEvent):
                return found
            line = event.start_mark.line + 1
            key = event.value if isinstance(event, yaml.ScalarEvent) else None
            if not key:
                self._refuse(event, "a key that is not a word", "one word or number before the colon")
                key = f"key on line {line}"
                self._skip(event, events, way)
            elif event.anchor is not None or event.tag is not None:
                self._refuse(event, "a key with a tag or an anchor", "one word or number before the colon")
            if key in found:
                self._refuse(
                    event,
                    f"the key {key[:60]} again; it stands on line {firsts[key]} already",
                    "each key once",
                )
            firsts.setdefault(key, line)
            self.lines.setdefault(way + (key,), line)
            found[key] = self._node(next(events), events, way + (key,))
        return found

    def _sequence(self, events, way):
        found = []
        for event in events:
            if isinstance(event, yaml.SequenceEndEvent):
                break
            found.append(self._node(event, events, way + (len(found),)))
        return found

    def _skip(self, event, events, way):
        """Pass over a key that is itself a mapping or a list."""
        if isinstance(event, yaml.CollectionStartEvent):
            self._node(event, events, way + ("",))

    def _refuse(self, event, found, allowed):
        self.review.refuse(f"line {event.start_mark.line + 1}", found, allowed)


def _scalar(event):
    """A scalar as text, whole number, decimal number, or one of true, false, null."""
    text = event.value
    if event.style is not None or len(text) > LONGEST_NUMBER:
        return text
    if text in _SPECIAL:
        return _SPECIAL[text]
    if _WHOLE.fullmatch(text):
        return int(text)
    return float(text) if _DECIMAL.fullmatch(text) else text
