"""A plain bolt with a tube over it, in place of a shoulder screw: what that costs in wobble."""

from dataclasses import dataclass
from functools import cached_property
from typing import Iterator

import numpy as np

from guidegen.joint.sample import sobol, within
from guidegen.kit.fasteners import crest_diameter
from guidegen.kit.lookup import OutsideTable, threads
from guidegen.kit.records import Course, Kit, ShoulderScrew, SleeveBushing, Spacer, Thread
from guidegen.theory.clearance import off_centre, shaft_fit
from guidegen.theory.freeplay import bush_pair_tilt, bush_tilt, seen_tilt
from guidegen.units import Band

ALIKE = 0.02  # mm; outside of a tube and bore of a bush that are of one size


@dataclass(frozen=True)
class Tubed:
    """Two bushes at the ends of a tube on a bolt, beside the same on the shoulder of a screw.

    Bores as they are before pressing, as in bonded bushes. Clearances mm, tilts rad each way.
    """

    tube: Spacer
    thread: Thread
    bolt: Band
    bush: SleeveBushing
    screw: ShoulderScrew

    @property
    def on_shoulder(self) -> Band:
        """Clearance of the bush on the shoulder."""
        return _room(self.bush.free_bore, self.screw.shoulder_diameter)

    @property
    def on_tube(self) -> Band:
        """Clearance of the bush on the tube; below zero it does not go on."""
        return _room(self.bush.free_bore, self.tube.outside_diameter)

    @property
    def in_tube(self) -> Band:
        """Clearance of the bolt in the tube."""
        return _room(self.tube.hole, self.bolt)

    @cached_property
    def _fits(self) -> np.ndarray:
        """Clearance of bush and tube at sizes anywhere within their limits alike."""
        return shaft_fit(*within([self.bush.free_bore, self.tube.outside_diameter], sobol(2)))

    @property
    def goes_on(self) -> float:
        """Share of tubes and bushes that go together."""
        return float(np.mean(self._fits >= 0))

    @property
    def going_on(self) -> float:
        """Clearance that half of those that go together stay below; 0 where none do."""
        together = self._fits[self._fits >= 0]
        return float(np.median(together)) if len(together) else 0.0

    def pair_tilt(self, clearance: float) -> float:
        """Tilt in both bushes, their outer faces at the ends of the tube."""
        guided, length = self.tube.length.typical, self.bush.length.typical
        return float(bush_pair_tilt(clearance, clearance, guided, length, length))

    @property
    def shoulder_tilt(self) -> float:
        """Typical tilt on the shoulder screw."""
        return self.pair_tilt(self.on_shoulder.typical)

    @property
    def clamped_tilt(self) -> float:
        """Tilt with the tube clamped by head and nut: the bushes' own, of a middling tube that goes in."""
        return self.pair_tilt(self.going_on)

    @property
    def tube_tilt(self) -> Band:
        """Tilt of a tube that is not clamped, on its bolt."""
        length = self.tube.length.typical
        return Band(
            *(bush_tilt(c, length) for c in (self.in_tube.least, self.in_tube.typical, self.in_tube.most))
        )

    @property
    def loose_tilt(self) -> float:
        """Typical tilt with the tube loose on the bolt: both one after the other."""
        return seen_tilt(self.clamped_tilt, self.tube_tilt.typical)

    @property
    def off_centre(self) -> Band:
        """How far a clamped tube may stand off the middle of its bolt, mm."""
        return Band(*(off_centre(c) for c in (self.in_tube.least, self.in_tube.typical, self.in_tube.most)))


def _room(hole: Band, inside: Band) -> Band:
    return Band(
        shaft_fit(hole.least, inside.most),
        shaft_fit(hole.typical, inside.typical),
        shaft_fit(hole.most, inside.least),
    )


def tubed(kit: Kit, course: Course) -> Iterator[Tubed]:
    """For each size of tube in a kit, the longest, on the thickest bolt that goes through it.

    Only where the catalogue has a bush, short enough that two stand on it, and a shoulder screw of its
    outside.
    """
    tubes: dict[float, Spacer] = {}
    for part in (course.parts[id] for id in kit.parts):
        if isinstance(part, Spacer) and part.kind == "spacer" and part.bush == "no":
            best = tubes.get(part.nominal, part)
            tubes[part.nominal] = max(best, part, key=lambda one: one.length.typical)
    for tube in tubes.values():
        thread, bush, screw = _bolt(tube), _bush(tube, course), _screw(tube, course)
        if thread and bush and screw:
            yield Tubed(tube, thread, crest_diameter(thread.id), bush, screw)


def _bolt(tube) -> Thread | None:
    through = [one for one in threads().values() if one.diameter < tube.hole.least and _known(one)]
    return max(through, key=lambda one: (one.diameter, one.pitch), default=None)


def _known(thread) -> bool:
    try:
        return crest_diameter(thread.id) is not None
    except OutsideTable:
        return False


def _bush(tube, course) -> SleeveBushing | None:
    outside, length = tube.outside_diameter.typical, tube.length.typical
    found = [
        part
        for part in course.parts.values()
        if isinstance(part, SleeveBushing)
        and abs(part.nominal - outside) < ALIKE
        and 2 * part.length.typical <= length + ALIKE
    ]
    return min(found, key=lambda part: (part.length.typical, part.id), default=None)


def _screw(tube, course) -> ShoulderScrew | None:
    outside, length = tube.outside_diameter.typical, tube.length.typical
    found = [
        part
        for part in course.parts.values()
        if isinstance(part, ShoulderScrew) and abs(part.nominal - outside) < ALIKE
    ]
    return min(found, key=lambda part: (abs(part.shoulder_length.typical - length), part.id), default=None)
