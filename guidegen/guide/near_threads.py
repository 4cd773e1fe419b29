"""Screws and nuts of different systems: where they bind, jam, or go through and do not hold."""

from dataclasses import dataclass

from guidegen.guide.near_sizes import Side, metric_size, near, parts_of
from guidegen.kit import lookup
from guidegen.kit.records import Course, Nut, ShoulderScrew, Thread
from guidegen.theory import mismatch
from guidegen.units import Band

NUT_HEIGHT = 0.8  # of the thread's diameter, where the catalogue has no nut; common practice


@dataclass(frozen=True)
class ThreadMeeting:
    """A screw of one system and a nut of the other; lengths mm."""

    screw: Side
    nut: Side
    pitches: tuple[float, float]  # of screw and nut
    turns: float  # until it jams; 0 where it binds at once
    overlap: float  # share of the ridges' height that bears
    nut_turns: float  # turns of thread in the nut

    @property
    def state(self) -> str:
        """binds at once, jams, goes through: loose and weak, the worst of the three."""
        if self.turns <= 0:
            return "binds at once"
        return "jams" if self.turns < self.nut_turns else "goes through"


def threads_meeting(course: Course) -> list[ThreadMeeting]:
    """Screws of one system in nuts of the other, wherever the catalogue has one of the two threads."""
    found = [
        _meeting(screw, nut)
        for screw in threads_of(course, ShoulderScrew)
        for nut in threads_of(course, Nut)
        if screw[0].unit != nut[0].unit
        and near(screw[0].size, nut[0].size)
        and (screw[0].parts or nut[0].parts)
    ]
    return sorted(found, key=lambda met: (metric_size(met.screw, met.nut), met.screw.words, met.nut.words))


def threads_of(course, kind) -> list[tuple[Side, Thread]]:
    """Every thread of the table, with the parts of a kind that have it."""
    return [
        (_thread_side(name, thread, [part for part in parts_of(course, kind) if part.thread == name]), thread)
        for name, thread in lookup.threads().items()
    ]


def _thread_side(name, thread, parts):
    unit = "mm" if name.startswith("M") else "in"
    return Side(unit, thread.diameter, name, Band.exactly(thread.diameter), tuple(parts))


def _meeting(screw: tuple[Side, Thread], nut: tuple[Side, Thread]) -> ThreadMeeting:
    (screw_side, s), (nut_side, n) = screw, nut
    own, other = (mismatch.pitch_diameter(t.diameter, t.pitch) for t in (s, n))
    turns = 0.0
    if own < other:
        turns = float(mismatch.turns_to_jam(mismatch.flank_room(other, own), n.pitch, s.pitch))
    overlap = float(mismatch.thread_overlap(n.diameter, n.pitch, s.diameter))
    heights = [part.height.typical for part in nut_side.parts if part.kind == "hex"]
    high = max(heights, default=NUT_HEIGHT * n.diameter)
    return ThreadMeeting(screw_side, nut_side, (s.pitch, n.pitch), turns, overlap, high / n.pitch)
