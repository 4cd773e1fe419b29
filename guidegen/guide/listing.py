"""The table of worked joints: one row a joint, in a form that can be sorted."""

from typing import NamedTuple

from guidegen.guide.measures import Measures
from guidegen.guide.templates import upper_first
from guidegen.guide.wobble import overhang_of, seen_travel
from guidegen.joint.records import STATES, Result
from guidegen.joint.words import pair_words


class Row(NamedTuple):
    """A joint in a table; `cells` are (value to sort by, text)."""

    id: str
    bearings: str
    brief: str  # what tells it from joints with the same bearings
    screw: str
    layout: str
    housing: str
    cells: tuple[tuple[str, str], ...]
    state: str
    rank: int  # of the state, for sorting


def rows_of(results, measures: Measures) -> list[Row]:
    """The results as rows, in their order."""
    return [_row(result, measures) for result in results]


def _row(result: Result, measures: Measures) -> Row:
    joint, wobble = result.joint, seen_travel(result)
    bends = result.quantities.get("deflection")
    cells = [_cell(x, "mm", 2, measures) for x in (wobble.typical, wobble.most)]
    cells += [_cell(x, "mm", 3, measures) for x in (joint.separation, overhang_of(result))]
    cells.append(_cell(joint.radial, "N", 3, measures))
    cells.append(
        _cell(None, "mm", 2, measures)
        if bends is None
        else (f"{bends.typical:.5g}", measures.bend(bends.typical).first)
    )
    ids = " and ".join(dict.fromkeys(bearing.id for bearing in joint.bearings))
    apart = "" if joint.single else f"{measures.length(joint.separation)} apart, "
    return Row(
        result.id,
        f"{upper_first(pair_words(joint))}, {ids}",
        f"{apart}layout {joint.layout} on {joint.shaft.id}",
        joint.shaft.id,
        joint.layout + ", arm between" * joint.arm_between,
        ", ".join(dict.fromkeys(f"{h.stock.id} {h.fit}" for h in joint.housings)),
        tuple(cells),
        result.state,
        STATES.index(result.state),
    )


def _cell(value, unit, digits, measures):
    if value is None:
        return "-1", "–"
    return f"{value:.5g}", measures.value(value, unit, digits).first
