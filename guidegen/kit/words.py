"""The words that site and sheets share: cautions and glossary."""

from pathlib import Path

from pydantic import BaseModel

from guidegen.errors import BadInput, Mistake
from guidegen.kit.outline import Outline
from guidegen.kit.records import Caution, RawFile, Term, Words
from guidegen.kit.yamlfile import read_yaml

PLACES = (
    "every sheet",
    "press fit",
    "laser cutting",
    "printing",
    "drilling",
    "assembly",
    "moving joint",
    "overhung load",
    "testing",
    "solvents",
    "small parts",
    "ball bearings",
    "bushings",
    "keys and wrenches",
)
_NOTHING = RawFile("", {}, {})  # stands for a file that could not be read, which is told already


class _Caution(BaseModel):
    """One entry of cautions.yaml."""

    title: str
    text: str
    where: tuple
    source: str


class _Term(BaseModel):
    """One entry of glossary.yaml."""

    meaning: str
    also_called: tuple = ()


def words_of(folder: Path, sources) -> Words:
    """Cautions and glossary of a folder; raises BadInput with every mistake of both files."""
    mistakes: list[Mistake] = []
    words = Words(_cautions(folder, sources, mistakes), _glossary(folder, mistakes))
    if mistakes:
        raise BadInput(mistakes)
    return words


def _cautions(folder, sources, mistakes):
    found = {}
    raw = read_yaml(folder / "cautions.yaml", f"{folder.name}/cautions.yaml", mistakes) or _NOTHING
    outline = Outline(raw, mistakes)
    for key in raw.data:
        values = outline.values((key,), _Caution, beside=("where",))
        where = outline.words((key,), "where")
        for place in where or ("nowhere",):
            if place not in PLACES:
                outline.refuse((key, "where"), f'"{place[:60]}"', "one or more of " + ", ".join(PLACES))
        if values and values["source"] not in sources:
            outline.refuse(
                (key, "source"), f'the source "{values["source"]}"', "a key of the program's sources"
            )
        if values:
            found[key] = Caution(key, values["title"], values["text"], where, values["source"])
    return found


def _glossary(folder, mistakes):
    found, taken = {}, {}
    raw = read_yaml(folder / "glossary.yaml", f"{folder.name}/glossary.yaml", mistakes) or _NOTHING
    outline = Outline(raw, mistakes)
    for name in raw.data:
        values = outline.values((name,), _Term, beside=("also_called",))
        also = outline.words((name,), "also_called")
        for word in (name, *also):
            if word.lower() in taken:
                outline.refuse(
                    (name,), f"{word}, which stands under {taken[word.lower()]} too", "each word once"
                )
            taken[word.lower()] = name
        if values:
            found[name] = Term(name, values["meaning"], also)
    return dict(sorted(found.items(), key=lambda item: item[0].lower()))
