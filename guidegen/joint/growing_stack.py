"""End play of a stack whose screw, parts and frame grow by warmth and water."""

from typing import Iterator, NamedTuple

from guidegen.joint.climate import NEVER, STANDOFFS, Climate, Grows, grows
from guidegen.joint.findings import Findings
from guidegen.joint.records import Placed, Quantity, Stack
from guidegen.theory import heat
from guidegen.units import Band

ENDS = ("least", "typical", "most")
NOUGHT = 1e-9  # mm


class Change(NamedTuple):
    """What the end play changes by in a climate, mm, and what does most of it."""

    play: Band
    most_by: str


class Piece(NamedTuple):
    """Something on the shoulder: its length, mm, and by how much it grows."""

    name: str
    length: float
    grows: Grows


def end_play_in(found: Findings, stack: Stack, climate: Climate) -> Change | None:
    """How much the end play changes in a climate, mm; None where damp air changes nothing.

    Keeps `end_play_cold`, `end_play_hot` or `end_play_damp`. A board that swells in thickness is not in it.
    """
    change = (_clamped if found.joint.clamped else _floating)(found, stack, climate)
    if change is not None:
        low, high = stack.end_play_likely
        found.quantities[f"end_play_{climate.name}"] = Quantity(
            "mm",
            band=stack.end_play + change.play,
            likely=(low + change.play.typical, high + change.play.typical),
        )
    return change


def _floating(found, stack: Stack, climate) -> Change | None:
    """The screw grows, and so does all that stands on its shoulder."""
    pieces = list(_column(found, stack, climate))
    if climate.air and not any(piece.grows.water.width for piece in pieces):
        return None
    whole, stacked = _together(pieces, climate)
    screw = found.course.materials[found.joint.shaft.material].expansion * climate.rise
    found.work(
        heat.grown_end_play,
        f"end_play_{climate.name}",
        j=stack.end_play.typical,
        L_s=stack.shoulder,
        e_shaft=screw,
        T_s=whole,
        e_stack=stacked.typical,
    )
    change = (stack.shoulder * screw - whole * getattr(stacked, end) for end in reversed(ENDS))
    return Change(Band(*change), _most(pieces, climate, screw))


def _clamped(found, stack: Stack, climate) -> Change | None:
    """What stands between the inner rings, and what keeps the outer ones apart, no longer match."""
    if climate.air:
        return None
    inside = [row for row in stack.placed if row.within and row.kind != "bearing"]
    pieces = [_piece(found, row, climate) for row in inside]
    whole, inner = _together(pieces, climate)
    stock, apart = found.joint.housings[0].stock, 0.0
    if found.joint.body != "block":
        apart = min(_apart(stack), whole)
    beside = [Piece("", whole - apart, Grows(stock.expansion, NEVER)), Piece("", apart, STANDOFFS)]
    _, outer = _together(beside, climate)
    less, more = sorted((inner.typical, outer.typical))
    later = found.work(  # either way it takes play
        heat.grown_end_play,
        f"end_play_{climate.name}",
        j=stack.end_play.typical,
        L_s=whole,
        e_shaft=less,
        T_s=whole,
        e_stack=more,
    )
    return Change(Band.exactly(later - stack.end_play.typical), _most(pieces, climate, outer.typical))


def _together(pieces, climate) -> tuple[float, Band]:
    """Length of some pieces together, mm, and their mean growth."""
    lengths = [piece.length for piece in pieces]
    growths = [piece.grows.at(climate.rise) for piece in pieces]
    mean = (heat.mean_growth(lengths, [getattr(one, end) for one in growths]) for end in ENDS)
    return sum(lengths), Band(*map(float, mean))


def _most(pieces, climate, beside: float) -> str:
    """The piece that grows farthest apart from what is beside it."""
    return (
        max(pieces, key=lambda piece: piece.length * abs(piece.grows.at(climate.rise).typical - beside)).name
        if pieces
        else "the housing"
    )


def _column(found, stack: Stack, climate) -> Iterator[Piece]:
    """Everything on the shoulder, the body taken apart."""
    for row in stack.placed:
        if row.on == "shoulder" and not row.within:
            if row.kind == "body":
                yield from _body(found, stack, row, climate)
            else:
                yield _piece(found, row, climate)


def _body(found, stack: Stack, row: Placed, climate) -> Iterator[Piece]:
    """The bearings at its ends and what keeps their plates apart; a block grows as its stock does."""
    joint, whole = found.joint, row.thickness.typical
    if joint.body == "block" and not joint.single:
        stock = joint.housings[0].stock
        yield Piece(f"the {stock.name}", whole, grows(stock.expansion, stock.swells, climate))
        return
    apart = 0.0 if joint.single else _apart(stack)
    for bearing in joint.bearings:
        material = found.course.materials[bearing.material]
        growth = grows(material.expansion, material.swells, climate)
        yield Piece(f"the {bearing.name}", (whole - apart) / len(joint.bearings), growth)
    if apart > NOUGHT:
        yield Piece("the standoffs", apart, STANDOFFS)


def _apart(stack: Stack) -> float:
    """Distance between the plates, mm."""
    return max(0.0, stack.plates[-1].z_from - stack.plates[0].z_to)


def _piece(found, row: Placed, climate) -> Piece:
    """A part, or a plate of some stock; across a sheet no table tells what water does."""
    course, length = found.course, row.thickness.typical
    if row.part in course.stocks:
        return Piece(f"the {row.name}", length, Grows(course.stocks[row.part].expansion, NEVER))
    material = course.materials[course.parts[row.part].material]
    return Piece(f"the {row.name}", length, grows(material.expansion, material.swells, climate))
