"""The table of worked joints: one row a joint, in a form that can be sorted."""

from typing import NamedTuple

from guidegen.guide.change import arm_words
from guidegen.guide.measures import Measures
from guidegen.guide.templates import upper_first
from guidegen.guide.wobble import overhang_of, seen_travel
from guidegen.joint.records import STATES, Result
from guidegen.joint.words import pair_words
from guidegen.numbers import MINUS, TIMES


class Row(NamedTuple):
    """A joint in a table."""

    id: str
    bearings: str
    brief: str  # what tells it from joints with the same bearings
    screw: str
    layout: str
    housing: str
    cells: tuple[tuple[str, str], ...]  # value to sort by where the text does not begin with it, and the text
    state: str
    rank: int  # of the state, for sorting


def unit_of(unit: str, measures: Measures) -> str:
    """The unit that a column of such numbers is in: that of the course, for its head."""
    return measures.value(1, unit).first.partition(" ")[2]


def rows_of(results, measures: Measures) -> list[Row]:
    """The results as rows, in their order."""
    return [_row(result, measures) for result in results]


def _row(result: Result, measures: Measures) -> Row:
    joint, wobble = result.joint, seen_travel(result)
    starts = result.quantities.get("start_force")
    cells = [_cell(x, "mm", 2, measures) for x in (wobble.typical, wobble.most)]
    cells += [_cell(x, "mm", 3, measures) for x in (joint.separation, overhang_of(result))]
    cells.append(_cell(joint.radial, "N", 3, measures))
    cells.append(_cell(starts and starts.typical, "N", 2, measures))
    ids = " and ".join(dict.fromkeys(bearing.id for bearing in joint.bearings))
    arm = f", {arm_words(joint)}" if joint.arm_between else ""
    apart = "" if joint.single else f"{measures.length(joint.separation)} apart, "
    return Row(
        result.id,
        f"{upper_first(pair_words(joint))}, {ids}",
        f"{apart}layout {joint.layout}{arm} on {joint.shaft.id}",
        joint.shaft.id,
        f"{joint.layout}{arm}",
        ", ".join(dict.fromkeys(f"{h.stock.id} {h.fit}" for h in joint.housings)),
        tuple(cells),
        result.state,
        STATES.index(result.state),
    )


def _cell(value, unit, digits, measures):
    if value is None:
        return "-1", "–"
    text = measures.value(value, unit, digits).first.removesuffix(f" {unit_of(unit, measures)}")
    return ("", text) if _begins_with_its_number(text) else (f"{value:.5g}", text)


def _begins_with_its_number(text):
    """Whether the text sorts by itself: a number, and no power of ten behind it."""
    return text.lstrip(MINUS)[:1].isdigit() and TIMES not in text
