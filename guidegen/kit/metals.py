"""What the published tables say of metals that touch, of their own rust, of what water and solvents do."""

from functools import cache
from typing import Mapping, NamedTuple

from guidegen.kit.lookup import OutsideTable, named_row
from guidegen.kit.tables import read_table


class Said(NamedTuple):
    """One sentence of a table, and its source."""

    says: str
    source: str


class OwnRust(NamedTuple):
    """What the air does to a metal by itself: the state of a verdict, one sentence, its source."""

    state: str
    says: str
    source: str


class Surface(NamedTuple):
    """What another metal meets: its anodic index, V below gold; None where a film insulates it."""

    name: str
    index: float | None
    source: str


@cache
def finishes() -> Mapping[str, tuple[str, ...]]:
    """The metals whose own rust is in the tables, each with its finishes."""
    found: dict[str, dict[str, None]] = {}
    for row in read_table("own_rust").rows:
        found.setdefault(row["metal"], {})[row["finish"]] = None
    return {metal: tuple(of) for metal, of in found.items()}


@cache
def surface(metal: str, finish: str) -> Surface:
    """The surface that another metal meets: the plating of a plated part, else the metal itself.

    Black oxide, oil and passive films are no surface of their own (MIL-DTL-14072F, 3.13.1).
    """
    rows = {row["surface"]: row for row in read_table("anodic_index").rows}
    row = rows.get(finish) or rows.get(metal)
    if row is None:
        raise OutsideTable(f"no metal {metal} in anodic_index; there are {', '.join(rows)}")
    return Surface(row["surface"], float(row["index"]) if row["index"] else None, row["source"])


@cache
def galvanic_limit(harshness: str) -> float:
    """How far apart the anodic indices of two metals that touch may be, V."""
    return float(named_row("galvanic_limits", harshness=harshness)["limit"])


@cache
def own_rust(metal: str, finish: str, air: str) -> OwnRust:
    """What the air of a place does to a metal; air: controlled, normal, harsh or soaked."""
    row = named_row("own_rust", metal=metal, finish=finish, air=air)
    return OwnRust(row["state"], row["says"], row["source"])


@cache
def effect(agent: str, thing: str) -> Said:
    """What an agent does to a part: one sentence.

    agent: water, salt mist, fertiliser mist, alcohol, degreaser, dust, paper or wood. thing: oil bronze,
    nylon, acrylic, plywood, or a ball bearing by its closure: open, shields, seals.
    """
    row = named_row("agents", agent=agent, thing=thing)
    return Said(row["says"], row["source"])
