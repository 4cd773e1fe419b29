"""Which fillers to pick once the parts are measured, and which separations of bearings a kit can fill."""

from dataclasses import dataclass
from functools import cached_property
from typing import Iterator, NamedTuple, Sequence

from guidegen.errors import CannotBuild
from guidegen.joint import fill
from guidegen.joint.box import Box, thickness
from guidegen.joint.records import Placed, Result
from guidegen.joint.stack import METAL_WINDOW
from guidegen.kit.records import BallBearing, Course, Kit, ShoulderScrew
from guidegen.theory.stack import end_play
from guidegen.units import Band

NEAR = 1e-6  # mm; ranges nearer than this touch


class Choice(NamedTuple):
    """What to put in where the room measured lies between two numbers, mm; None: no parts of the kit do."""

    low: float
    high: float
    parts: fill.Fill | None
    left: tuple[float, float]  # end play that remains at both ends


def choices(fillers, least: float, most: float, window: tuple[float, float]) -> list[Choice]:
    """Rows for every room from `least` to `most`, mm: the fewest parts that leave a play within the window.

    Of equally few, the thickest: they serve the longest range. Room below the window's lower end has no row.
    """
    sums = fill.reachable(fillers, fill.roof_over(most))
    parts = sorted((count, -total, counts) for total, (count, counts) in sums.items())
    low, high = window
    found, at = [], max(least, low)
    while at < most - NEAR:
        fits = (row for row in parts if low - NEAR <= at + row[1] / fill.GRAIN < high - NEAR)
        best = next(fits, None)
        if best is None:
            ahead = [total / fill.GRAIN + low for total in sums if total / fill.GRAIN + low > at]
            end = min([most, *ahead])
            found.append(Choice(at, end, None, (0.0, 0.0)))
        else:
            taken = -best[1] / fill.GRAIN
            end = min(most, taken + high)
            found.append(Choice(at, end, _named(fillers, best[2]), (at - taken, end - taken)))
        at = end
    return found


def _named(fillers, counts) -> fill.Fill:
    chosen = [one for one, n in zip(fillers, counts) for _ in range(n)]
    return tuple(one.part for one in sorted(chosen, key=lambda one: (-one.grains, one.part)))


@dataclass(frozen=True)
class Filled:
    """A floating stack taken apart: what stays, what was chosen to fill it, what may be chosen."""

    result: Result
    course: Course

    @property
    def window(self) -> tuple[float, float]:
        """End play aimed at, mm."""
        return self.result.stack.window

    @cached_property
    def sides(self) -> tuple[list[Placed], list[Placed]]:
        """What lies on the shoulder before and beyond the body, from the body outwards."""
        placed = self.result.stack.placed
        body = next(n for n, row in enumerate(placed) if row.kind == "body")
        outside = [
            [row for row in rows if row.on == "shoulder" and not row.within]
            for rows in (placed[:body], placed[body + 1 :])
        ]
        return outside[0][::-1], outside[1]

    @cached_property
    def chosen(self) -> tuple[str, ...]:
        """Ids of the fillers: all parts but the washer, and the ring of a ball bearing, beside the body."""
        return tuple(row.part for row in self._fillers())

    def _fillers(self) -> Iterator[Placed]:
        bearings = self.result.joint.bearings
        for side, bearing in zip(self.sides, (bearings[0], bearings[-1])):
            parts = [row for row in side if row.part in self.course.parts]
            yield from parts[2 if isinstance(bearing, BallBearing) else 1 :]

    @cached_property
    def room(self) -> Band:
        """End play without any filler, mm, by the limits of all that stays."""
        chosen = list(self.chosen)
        kept = []
        for row in (*self.sides[0], *self.sides[1]):
            if row.part in chosen:
                chosen.remove(row.part)
            else:
                kept.append(row.thickness)
        body = next(row.thickness for row in self.result.stack.placed if row.kind == "body")
        total, shoulder = sum(kept, body), self.result.joint.shaft.shoulder_length
        return Band(
            end_play(shoulder.least, total.most),
            end_play(shoulder.typical, total.typical),
            end_play(shoulder.most, total.least),
        )

    @cached_property
    def fillers(self) -> tuple[fill.Filler, ...]:
        """Fillers of the kit that are not needed elsewhere in the joint."""
        joint = self.result.joint
        box = Box(self.course.parts, joint.kit.parts if joint.kit else None, joint.shaft)
        box.set_aside([bearing.id for bearing in joint.bearings])
        kept = [row.part for row in self.result.stack.placed if row.part in self.course.parts]
        for part in (*self.chosen, *(bearing.id for bearing in joint.bearings)):
            kept.remove(part)
        box.use(*kept)
        return box.fillers()

    def choices(self, spare: float = 0.0) -> list[Choice]:
        """What to pick for each room measured; `spare`: of the window kept at both ends, mm."""
        low, high = self.window
        return choices(self.fillers, self.room.least, self.room.most, (low + spare, high - spare))


class Span(NamedTuple):
    """Separations, mm, that can be filled without a break."""

    least: float
    most: float


def separations(
    kit: Kit, screw: ShoulderScrew, bearings: Sequence, course: Course, window=METAL_WINDOW
) -> list[Span]:
    """Separations of two bearings that a kit's fillers bring to a play within the window, at typical sizes.

    Floating stacks with all fillers outside the bearings, which are flush with their plates or stand
    outwards. Raises CannotBuild where washers or rings are missing.
    """
    box = Box(course.parts, kit.parts, screw)
    ids = [bearing.id for bearing in bearings]
    if not box.holds(*ids):
        raise CannotBuild(f"the kit has too few of {ids[0]}", "too few parts")
    box.set_aside(ids)
    taken = 0.0
    for bearing in bearings:
        beside = box.rings_for(bearing)[:1] if isinstance(bearing, BallBearing) else []
        for part in (*beside, box.large_washer()):
            box.take(part.id)
            taken += thickness(part).typical
    widths = [thickness(bearing).typical for bearing in bearings]
    free = screw.shoulder_length.typical - taken - sum(widths) / 2  # separation, fillers and play share it
    closest = sum(widths) / 2
    longest = free - window[0] - closest
    if longest < 0:
        return []
    sums = fill.reachable_sums(box.fillers(), fill.roof_over(longest))
    spans = [
        Span(max(closest, free - total - window[1]), free - total - window[0])
        for total in sums[::-1]
        if total <= longest
    ]
    return joined(spans)


def joined(spans: Sequence[Span]) -> list[Span]:
    """Ranges that touch or overlap as one; they come in rising order."""
    found: list[Span] = []
    for span in spans:
        if found and span.least <= found[-1].most + NEAR:
            found[-1] = Span(found[-1].least, max(found[-1].most, span.most))
        else:
            found.append(span)
    return found


def between_rings(kit: Kit, bearing: BallBearing, screw: ShoulderScrew, course: Course, most_parts: int):
    """Separations of two clamped ball bearings by spacers between their inner rings: {mm: part ids}.

    At typical sizes, with at most so many spacers, as far as the bearings and the spacers leave the screw's
    shoulder longer than themselves. Shims are left out: they trim what these leave.
    """
    box = Box(course.parts, kit.parts, screw)
    box.set_aside([bearing.id])
    fillers = [one for one in box.fillers((bearing, bearing)) if course.parts[one.part].kind != "shim"]
    width = thickness(bearing).typical
    room = screw.shoulder_length.typical - 2 * width
    if room < 0:
        return {}
    sums = fill.reachable(tuple(fillers), fill.roof_over(room))
    return {
        width + total / fill.GRAIN: _named(fillers, counts)
        for total, (number, counts) in sorted(sums.items())
        if number <= most_parts and total / fill.GRAIN <= room
    }
