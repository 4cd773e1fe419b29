"""What charts draw: curves from the formulas that work the joints out, one input moved along its range."""

from dataclasses import dataclass
from typing import Sequence

import numpy as np

from guidegen.guide.wobble import alone_travel
from guidegen.joint.box import thickness
from guidegen.joint.inputs import banded, seats
from guidegen.joint.play import free_play
from guidegen.joint.records import Joint, Result
from guidegen.joint.rows import Rows
from guidegen.joint.working import Working
from guidegen.kit.records import Course
from guidegen.theory import beam, statics
from guidegen.units import Band

POINTS = 25  # of a curve


@dataclass(frozen=True)
class WobbleCurve:
    """Travel at the arm, mm, over separation, mm, by the bearings alone."""

    separations: np.ndarray
    bands: tuple[Band, ...]
    alone: float  # with bearing 1 alone

    def at(self, separation: float) -> Band:
        """The band at the drawn separation nearest to one."""
        return self.bands[int(np.argmin(np.abs(self.separations - separation)))]


def touching(joint: Joint) -> float:
    """Least separation, mm: the bearings side by side."""
    return sum(thickness(bearing).typical for bearing in joint.bearings) / 2


def wobble_over_separation(result: Result, course: Course, farthest: float) -> WobbleCurve:
    """The wobble of a pair from side by side to `farthest`, over all its limits; all else as in its joint."""
    joint = result.joint
    seated = seats(joint, course)
    rows = Rows(banded(joint, seated))
    separations = np.geomspace(touching(joint), farthest, POINTS)
    bands = tuple(rows.band(_play(joint, seated, rows.columns, apart).arm_play) for apart in separations)
    return WobbleCurve(separations, bands, alone_travel(result))


def _play(joint, seated, columns, separation):
    return free_play(
        Working(),
        seated,
        columns,
        separation=float(separation),
        overhang=None,
        arm=joint.arm,
        offset=joint.offset or 0.0,
        clamped=joint.clamped,
    )


def reactions_over_place(places: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Reactions of bearings 1 and 2 over the load; places are beyond bearing 2, in separations."""
    return statics.reaction_1(1.0, 1.0, places, 1.0), statics.reaction_2(1.0, 1.0, places, 1.0)


def deflection_over_place(joint: Joint, separation: float, places: Sequence[float]) -> np.ndarray:
    """Deflection under the steady load, mm, of a shaft in two bearings; places in mm beyond bearing 2."""
    inertia = beam.second_moment(joint.shaft.shoulder_diameter.typical)
    couple = statics.axial_couple(joint.axial, joint.arm)
    shared = {"F": joint.radial, "S": separation, "M_a": couple, "E_s": joint.youngs_modulus, "I": inertia}
    return np.array(
        [
            beam.overhung_deflection(a=a, **shared)
            if a >= 0
            else beam.straddle_deflection(p_1=separation + a, q_1=-a, **shared)
            for a in places
        ]
    )
