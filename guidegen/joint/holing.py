"""What comes of a joint's holes: how often a bearing is loose, right, cracks its hole, or the shaft binds."""

from functools import cache
from math import isfinite

from guidegen.joint.findings import Findings
from guidegen.joint.inputs import Seat
from guidegen.joint.play import Guided, Play
from guidegen.joint.reach import goes_in, grip_interference, pressed, reach_of, reached
from guidegen.joint.records import Quantity
from guidegen.joint.rows import first
from guidegen.joint.verdicts import TAKE_CARE_FROM, Yes
from guidegen.kit.lookup import press_friction
from guidegen.kit.records import Process
from guidegen.numbers import percent
from guidegen.theory import chances, grip, holes

BINDS_SELDOM = 0.05  # chance of binding up to which two bores hold (common practice)
MICRON = 1e-3  # mm; sizes of bearings are told apart no finer for the chance that a shaft binds
STRAIGHT = 1e-5  # rad; the same for slopes


def holed(found: Findings, play: Play):
    """Chances of each hole, and of two bores that are placed one by one, by the spread of their machines."""
    for n, seat in enumerate(found.seats, 1):
        _given(found, n, seat)
        if found.joint.housings[n - 1].fit == "press":
            _pressed(found, n, seat)
        else:
            chance = goes_in(seat.outside, seat.hole.typical, seat.scatter)
            found.put_number(f"chance_goes_in_{n}", chance, "-")
    if not found.joint.single and found.joint.offset is None:
        _in_line(found, play)


def _given(found, n, seat):
    """What went in: how the hole is made, and what holds or strains a bearing pressed into it."""
    housing = found.joint.housings[n - 1]
    found.given[f"spread_{n}"] = Quantity("mm", seat.scatter.spread)
    if isfinite(seat.scatter.freedom):
        found.given[f"freedom_{n}"] = Quantity("-", seat.scatter.freedom)
    if not found.joint.single and found.joint.offset is None:
        found.given[f"place_{n}"] = Quantity("mm", housing.process.position)
        found.given[f"square_{n}"] = Quantity("rad", housing.process.squareness)
    if housing.fit == "press":
        found.given |= {
            f"hoop_limit_short_{n}": Quantity("MPa", seat.wall.short),
            f"hoop_limit_long_{n}": Quantity("MPa", seat.wall.long),
            f"press_friction_{n}": Quantity("-", press_friction(housing.stock.kind).typical),
            f"plate_thickness_{n}": Quantity("mm", housing.stock.thickness.typical),
        }


def _pressed(found, n, seat):
    """How often the bearing turns in its hole, sits right, cracks its housing, closes up, or strains it."""
    grips = _grips(found, n, seat)
    if not found.joint.housings[n - 1].process.grade and f"hole_{n}" not in found.joint.measured:
        reach = reached(seat.ring, seat.wall, found.work, f"_{n}")
        found.work(
            holes.best_hole,
            f"wanted_hole_{n}",
            D=seat.outside.typical,
            i_grip=0.0,
            i_crack=reach.most(seat.wall.kind),
        )
    fit = pressed(seat.outside, seat.hole.typical, seat.scatter, grips, reach_of(seat.ring, seat.wall))
    for name, chance in fit.chances._asdict().items():
        found.put_number(f"chance_{name}_{n}", chance, "-")
    found.put_number(f"chance_closed_{n}", fit.closed, "-")
    found.put_number(f"chance_lasting_{n}", fit.lasting, "-")
    if seat.wall.long < seat.wall.short:
        found.put_number(f"chance_strained_{n}", fit.strained, "-")


def _grips(found, n, seat: Seat) -> float:
    """Interference, mm, from which the hole holds the bearing against its own friction; 0 without load."""
    torque = next((step.result for step in found.work.steps if step.gives == f"start_torque_{n}"), 0.0)
    stock = found.joint.housings[n - 1].stock
    length = grip.engaged_length(seat.width, stock.thickness.typical)
    friction = press_friction(stock.kind).typical
    return grip_interference(torque, friction, length, seat.ring, seat.wall, found.work, f"_{n}")


def _in_line(found, play):
    """Chance that the shaft binds: both bores placed one by one, or brought in line by the shaft itself."""
    makers = [housing.process for housing in found.joint.housings]
    bearings = _as_found(play.guided, found.joint.separation)
    found.put_number("chance_binds", _binds(bearings, *map(_place, makers)), "-")
    found.put_number(
        "chance_binds_in_line", _binds(bearings, *((0.0, lean) for _, lean in map(_place, makers))), "-"
    )
    if all(process.measured == "yes" for process in makers):
        found.limits["binds_seldom"] = BINDS_SELDOM
    found.answers["bores_lean"] = _lean(found.quantities["chance_binds_in_line"].value)


def _lean(chance: float) -> Yes:
    """Whether bores that the shaft itself has brought in line mostly let it turn, lean as they may."""
    why = (
        f"even where the shaft brings the bores in line before the plates are tight, their lean binds it in "
        f"{percent(chance)} of such joints: make both in one go, plates clamped together, square to the face"
    )
    seldom = chance <= 1 - TAKE_CARE_FROM
    return Yes(True, seldom, "" if seldom else why)


def _as_found(guided: tuple[Guided, ...], separation: float) -> chances.Bearings:
    """Both bearings at typical sizes, to the micron."""
    rooms, lengths = ([first(getattr(one, name)) for one in guided] for name in ("clearance", "length"))
    slopes = [
        room / length if length else first(one.free_tilt) for one, room, length in zip(guided, rooms, lengths)
    ]
    sizes = (round(x / MICRON) * MICRON for x in (*rooms, *lengths, separation))
    return chances.Bearings(*sizes, *(round(slope / STRAIGHT) * STRAIGHT for slope in slopes))


def _place(process: Process) -> tuple[float, float]:
    """Spread of a bore's place along one direction, mm, and of its lean, rad."""
    return holes.OF_LIMIT * process.position, holes.OF_LIMIT * process.squareness


@cache
def _binds(bearings, one, other) -> float:
    (place_1, lean_1), (place_2, lean_2) = one, other
    return float(chances.binds(bearings, holes.offset_spread(place_1, place_2), lean_1, lean_2))
