"""Records from the keys of a YAML file, every mistake of every key told with its line."""

from typing import Mapping

from guidegen.kit.cells import Unreadable
from guidegen.kit.records import Kit, RawFile, Settings, Source
from guidegen.kit.rows import ID_FORM, Ids, fields_of, in_order, is_id
from guidegen.kit.spreadsheet import nearest
from guidegen.kit.textfile import Review


class Outline:
    """One YAML file being taken apart; its mistakes go to a list."""

    def __init__(self, raw: RawFile, mistakes: list):
        self.raw, self.mistakes, self._review = raw, mistakes, Review(raw.path, mistakes)

    def refuse(self, way, found, allowed, remedy=""):
        self._review.refuse(self.raw.place(*way), found, allowed, remedy)

    def mapping(self, way) -> Mapping:
        """The mapping that stands at `way`; an empty one, with the mistake told, when none does."""
        found = self.raw.data
        for key in way:
            found = found[key]
        if isinstance(found, Mapping):
            return found
        self.refuse(way, f"{_what(found)} under {way[-1]}", "key: value lines below it, indented")
        return {}

    def words(self, way, key) -> tuple[str, ...]:
        """A list of words under a key; () when there is none."""
        found = self.mapping(way).get(key) or []
        if isinstance(found, list) and all(isinstance(word, str) and word for word in found):
            return tuple(found)
        self.refuse((*way, key), f"{_what(found)} under {key}", "a list of words: [one, two]")
        return ()

    def values(self, way, record, beside=()) -> dict | None:
        """The fields of a record from the mapping at `way`; None when any is wrong.

        beside: keys that the caller takes.
        """
        before = len(self.mistakes)
        fields, found = fields_of(record), self.mapping(way)
        if len(self.mistakes) > before:
            return None
        fields = {name: field for name, field in fields.items() if name not in ("id", *beside)}
        values = {}
        for key, value in found.items():
            if key in beside:
                continue
            if key not in fields:
                self.refuse(
                    (*way, key),
                    f'an unknown key "{key[:60]}"',
                    ", ".join((*fields, *beside)),
                    nearest(key, fields),
                )
            elif isinstance(value, (Mapping, list)):
                self.refuse((*way, key), f"{_what(value)} under {key}", "one value after the colon")
            else:
                self._value(way, key, value, fields[key], values)
        for key in (k for k, field in fields.items() if field.required and k not in found):
            self.refuse(way, f"no {key}" + (f" under {way[-1]}" if way else ""), f"a line {key}: …")
        return values if len(self.mistakes) == before else None

    def _value(self, way, key, value, field, values):
        try:
            value = field.read("" if value is None else str(value))
        except Unreadable as wrong:
            self.refuse((*way, key), f"{wrong.found} for {key}", wrong.allowed, wrong.remedy)
        else:
            if value is not None:
                values[key] = value


def settings_of(outline: Outline, places: Ids) -> dict | None:
    """What course.yaml says, as fields of the course; it stands in one of the `places`."""
    values = outline.values((), Settings)
    if values and values["temperature_least"] > values["temperature_most"]:
        outline.refuse(
            ("temperature_least",),
            f"{values['temperature_least']:g} °C, above temperature_most",
            "the lower temperature here",
            "Swap the two.",
        )
    if values and places.complete and values["surroundings"] not in places:
        outline.refuse(
            ("surroundings",),
            f'the surroundings "{values["surroundings"][:60]}"',
            "an id in data/surroundings.csv",
            nearest(values["surroundings"], places),
        )
    return values


def sources_of(outline: Outline, already: Mapping) -> dict[str, Source]:
    """The sources of a file by key; `already` holds those of the package, which a course does not change."""
    found = {}
    for key in outline.raw.data:
        if not is_id(key):
            outline.refuse((key,), f'the source key "{key[:60]}"', ID_FORM)
        if key in already:
            outline.refuse((key,), f"the source {key}, which comes with the program", "a key of your own")
        if values := outline.values((key,), Source):
            found[key] = Source(id=key, **values)
    return found


def kits_of(outline: Outline, parts: Ids) -> dict[str, Kit]:
    """The kits of a file by id, their parts among `parts`."""
    found = {}
    for key in outline.raw.data:
        if not is_id(key):
            outline.refuse((key,), f'the kit id "{key[:60]}"', ID_FORM)
        values = outline.values((key,), Kit, beside=("parts",))
        counts = _counts(outline, key, parts)
        if values and counts:
            found[key] = Kit(id=key, parts=in_order(counts), **values)
    return found


def _counts(outline, kit, parts):
    counts = {}
    if "parts" not in outline.mapping((kit,)):
        outline.refuse((kit,), f"no parts under {kit}", "parts: and below it one line a part, id: count")
        return counts
    for part, count in outline.mapping((kit, "parts")).items():
        if type(count) is not int or count <= 0:
            outline.refuse(
                (kit, "parts", part),
                f"{_what(count)} of {part[:60]}",
                "a whole number above 0",
                "Leave the line out when the kit has none.",
            )
        elif part in parts:
            counts[part] = count
        elif parts.complete:
            outline.refuse(
                (kit, "parts", part),
                f'an unknown part "{part[:60]}"',
                "an id in data/parts/",
                nearest(part, parts),
            )
    return counts


def _what(value):
    """A value as a person would name it."""
    if isinstance(value, Mapping):
        return "further keys"
    if isinstance(value, list):
        return "a list"
    return "nothing" if value is None else f'"{str(value)[:60]}"'
