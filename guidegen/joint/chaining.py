"""Joints one after another: what each adds to the wobble at the end, and what is likely of all."""

from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple, Sequence

import numpy as np

from guidegen.joint.assembly import assembled
from guidegen.joint.findings import Findings
from guidegen.joint.records import Joint, Result
from guidegen.joint.sample import SEED, likely_range
from guidegen.joint.wobble import holes, loose, seen
from guidegen.kit.records import Course
from guidegen.theory.chain import chain_travel, chain_travel_root
from guidegen.theory.freeplay import arm_travel
from guidegen.units import Band


@dataclass
class _Sampled(Findings):
    """Findings that keep each quantity at the points inside the box too."""

    inside: dict[str, np.ndarray] = field(default_factory=dict)

    def put(self, name, values, unit, among=None):
        super().put(name, values, unit, among)
        self.inside[name] = self.rows.inside(values)


def sampled_tilt(joint: Joint, course: Course) -> np.ndarray:
    """Whole tilt each way, rad, of 4096 joints whose sizes lie anywhere within their limits alike."""
    found = _Sampled(joint, course)
    stack = assembled(found)
    overhang = joint.overhang if stack is None else stack.z_load - stack.z_bearings[-1]
    holes(found)
    play = loose(found, overhang)
    seen(found, play, () if stack is None else stack.cheeks)
    return found.inside["seen_tilt"]


class Link(NamedTuple):
    """A joint of a chain, and the straight distance from it to the end, mm."""

    result: Result
    reach: float

    @property
    def tilt(self) -> Band:
        """Whole tilt each way, rad."""
        return self.result.quantities["seen_tilt"].band

    @property
    def travel(self) -> Band:
        """Total travel that it alone gives the end, mm."""
        return Band(
            *(arm_travel(self.reach, tilt) for tilt in (self.tilt.least, self.tilt.typical, self.tilt.most))
        )


@dataclass(frozen=True)
class Chain:
    """Joints from the one held in the hand, or on the bench, to the one at the end."""

    links: tuple[Link, ...]
    course: Course

    @property
    def reach(self) -> float:
        """From the first joint to the end, mm."""
        return self.links[0].reach

    def summed(self, end: str) -> float:
        """Travel at the end, mm, all joints leaning one way, then the other; end: least, typical or most."""
        travel = 0.0
        for link in self.links:
            travel = chain_travel(travel, getattr(link.tilt, end), link.reach)
        return travel

    def rooted(self, end: str) -> float:
        """Travel at the end, mm, by the root of the sum of squares."""
        travel = 0.0
        for link in self.links:
            travel = chain_travel_root(travel, getattr(link.tilt, end), link.reach)
        return float(travel)

    @cached_property
    def sampled(self) -> np.ndarray:
        """Travel at the end, mm, of 4096 chains, each joint out of its own bag of parts."""
        random = np.random.default_rng(SEED)
        return sum(
            arm_travel(link.reach, random.permutation(sampled_tilt(link.result.joint, self.course)))
            for link in self.links
        )

    @property
    def likely(self) -> tuple[float, float]:
        """Nine chains in ten lie between."""
        return likely_range(self.sampled)


def stretched(results: Sequence[Result], course: Course) -> Chain:
    """The joints in one line, each at the end of the arm before it, each with its own arm."""
    arms = [result.joint.arm for result in results]
    return Chain(tuple(Link(result, sum(arms[n:])) for n, result in enumerate(results)), course)
