"""What charts draw: the same functions that work a joint out, with one of its inputs moved along a range."""

from dataclasses import dataclass, fields, replace
from functools import cached_property

import numpy as np

from guidegen.guide.pairs import Group
from guidegen.guide.wobble import seen_travel
from guidegen.joint.box import thickness
from guidegen.joint.inputs import banded, seats
from guidegen.joint.loads import bent
from guidegen.joint.play import free_play, guide, tilt_of
from guidegen.joint.records import Joint, Result
from guidegen.joint.rows import Rows, first
from guidegen.joint.working import Working
from guidegen.kit.records import Course
from guidegen.theory import freeplay, statics
from guidegen.units import Band

POINTS = 22  # of a wobble curve: straight between them it strays less than a line is wide
PLACES = 121  # of the load along the shaft
FARTHEST = 1.35  # times the widest separation that the kit builds: how far a curve goes on
ALIKE = 0.02  # curves that nowhere differ by more than this share of the limit share a chart
OVERHUNG = 2.0  # separations beyond bearing 2 to which reactions are drawn


@dataclass(frozen=True)
class Travel:
    """Total travel at the arm, mm: smallest, likely (90 of 100 joints), typical, largest."""

    least: float
    low: float
    typical: float
    high: float
    most: float


@dataclass(frozen=True)
class WobbleCurve:
    """Wobble of a pair over its separation, by the bearings alone, with the worked joints that lie on it."""

    results: tuple[Result, ...]
    separations: np.ndarray  # mm
    travels: tuple[Travel, ...]
    alone: tuple[Travel, ...]  # with bearing 1 alone, and with bearing 2 alone where it is another part

    @property
    def joint(self) -> Joint:
        return self.results[0].joint

    def along(self, name: str) -> np.ndarray:
        """One of least, low, typical, high, most at every separation of the curve."""
        return np.array([getattr(travel, name) for travel in self.travels])

    @cached_property
    def built(self) -> dict[float, Travel]:
        """Travel at each separation that the kit builds, as the worked joints have it."""
        found = {}
        for result in sorted(self.results, key=lambda result: result.joint.separation):
            play = result.quantities["arm_play"]
            found.setdefault(round(result.joint.separation, 2), _travel(play.band, play.likely))
        return found

    @cached_property
    def with_fork(self) -> list[tuple[float, float]]:
        """(separation, typical travel) where the screw moves in its fork's cheeks too."""
        return sorted(
            {
                (round(result.joint.separation, 2), round(seen_travel(result).typical, 6))
                for result in self.results
                if "cheek_tilt" in result.quantities
            }
        )

    @cached_property
    def with_arm(self) -> list[float]:
        """Typical travel where the arm is loose on the shoulder between the bearings."""
        return sorted(
            seen_travel(result).typical for result in self.results if "arm_tilt" in result.quantities
        )

    def within(self, limit: float) -> float | None:
        """Least separation, mm, from which on every joint within its limits stays under `limit`; or None."""
        most = self.along("most")
        over = np.flatnonzero(most > limit)
        if not len(over):
            return float(self.separations[0])
        at = over[-1]
        if at + 1 == len(self.separations):
            return None
        pair = slice(at, at + 2)
        return float(np.interp(-limit, -most[pair], self.separations[pair]))


def sorts(group: Group, course: Course) -> list[list[Result]]:
    """The worked joints of a group, those with the same sizes and housings together; largest lot first."""
    found: dict[tuple, list[Result]] = {}
    for result in group.worked:
        found.setdefault(_sizes(result.joint, course), []).append(result)
    return sorted(found.values(), key=len, reverse=True)


def wobble_curves(group: Group, course: Course) -> list[WobbleCurve]:
    """The curves of a group of pairs: one for each sort, those that look alike taken together."""
    farthest = FARTHEST * max(result.joint.separation for result in group.worked)
    curves: list[WobbleCurve] = []
    for results in sorts(group, course):
        curve = wobble_over_separation(results, course, farthest)
        like = next((n for n, other in enumerate(curves) if _alike(curve, other, course)), None)
        if like is None:
            curves.append(curve)
        else:
            curves[like] = replace(curves[like], results=(*curves[like].results, *curve.results))
    return curves


def wobble_over_separation(results: list[Result], course: Course, farthest: float) -> WobbleCurve:
    """Wobble from side by side to `farthest` mm, all else as in the joint of these results."""
    joint = results[0].joint
    nearest = sum(thickness(bearing).typical for bearing in joint.bearings) / 2
    separations = np.geomspace(nearest, max(farthest, nearest), POINTS)
    alone: dict[str, Joint] = {}
    for bearing, housing in zip(joint.bearings, joint.housings):
        alone.setdefault(
            bearing.id, replace(joint, bearings=(bearing,), housings=(housing,), separation=None)
        )
    return WobbleCurve(
        tuple(results),
        separations,
        tuple(_swept(joint, course, map(float, separations))),
        tuple(_alone(one, course) for one in alone.values()),
    )


def _swept(joint, course, separations):
    """Travel at each separation, over all limits of the joint's inputs."""
    seated = seats(joint, course)
    rows = Rows(banded(joint, seated))
    guided = tuple(guide(Working(), n, seat, rows.columns, joint.clamped) for n, seat in enumerate(seated, 1))
    for apart in separations:
        travel = freeplay.arm_travel(joint.arm, tilt_of(guided, apart, joint.offset or 0.0))
        yield _travel(rows.band(travel), rows.likely(travel))


def _alone(joint, course):
    """Travel of a joint with one bearing, over all limits of its inputs."""
    seated = seats(joint, course)
    rows = Rows(banded(joint, seated))
    play = free_play(
        Working(),
        seated,
        rows.columns,
        separation=None,
        overhang=None,
        arm=joint.arm,
        offset=0.0,
        clamped=joint.clamped,
    )
    return _travel(rows.band(play.arm_play), rows.likely(play.arm_play))


def _travel(band: Band, likely) -> Travel:
    return Travel(band.least, likely[0], band.typical, likely[1], band.most)


def _sizes(joint, course):
    """What decides the free play of a pair, but its separation."""
    seated = seats(joint, course)
    return (
        tuple(sorted(banded(joint, seated).items())),
        tuple((seat.bonded, seat.hub, seat.housing_poisson) for seat in seated),
        joint.arm,
        joint.offset,
        joint.clamped,
    )


def _alike(curve, other, course):
    reach = ALIKE * course.target_travel * curve.joint.arm / course.target_arm
    return curve.joint.arm == other.joint.arm and all(
        np.abs(curve.along(field.name) - other.along(field.name)).max() <= reach for field in fields(Travel)
    )


def alike_lines(curves: list[WobbleCurve], course: Course) -> list[list[WobbleCurve]]:
    """Curves of other pairs, those together whose typical lines no reader could tell apart."""
    lines: list[list[WobbleCurve]] = []
    for curve in curves:
        like = next((line for line in lines if _same_line(line[0], curve, course)), None)
        if like is None:
            lines.append([curve])
        else:
            like.append(curve)
    return lines


def _same_line(one, other, course):
    """Whether two typical lines run together where both kits' separations are built."""
    if one.joint.clamped != other.joint.clamped:
        return False
    apart = np.linspace(min(one.built), one.separations[-1], POINTS)
    lines = (np.interp(apart, curve.separations, curve.along("typical")) for curve in (one, other))
    return (
        np.ptp(list(lines), axis=0).max() <= ALIKE * course.target_travel * one.joint.arm / course.target_arm
    )


def rule_of_thumb(curve: WobbleCurve) -> np.ndarray:
    """Travel, mm, if each bush guided in its middle plane alone: clearance over separation."""
    play = [first(curve.results[0].quantities[f"clearance_{n}"].typical) for n in (1, 2)]
    tilt = freeplay.ball_pair_tilt(*play, curve.separations, np.inf, np.inf)
    return freeplay.arm_travel(curve.joint.arm, tilt)


def reactions(places: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Reactions of bearings 1 and 2 over the load; places are beyond bearing 2, in separations."""
    return statics.reaction_1(1.0, 1.0, places, 1.0), statics.reaction_2(1.0, 1.0, places, 1.0)


def deflection(joint: Joint, separation: float, places: np.ndarray) -> np.ndarray:
    """Deflection at the load, mm, of a shaft that turns in two bearings; places in mm beyond bearing 2.

    The couple of the axial load may turn either way: the larger deflection counts, as on worked pages.
    """
    shaft = replace(joint, separation=separation)
    couple = statics.axial_couple(joint.axial, joint.arm)
    diameter = joint.shaft.shoulder_diameter.typical
    return np.array([bent(Working(), shaft, None, float(a), couple, diameter).deflection for a in places])
