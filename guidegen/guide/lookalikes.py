"""Which parts a part is mistaken for, and what tells them apart.

Of every part three sizes are compared, those a person looks at. Two parts of one shape look alike when
at least two of the three nearly coincide and the third does not differ much. What tells them apart is
then sought among all sizes that a caliper reaches, then in the thread, then in what the eye sees.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import Iterable, Mapping

from guidegen.guide.families import ALONG, FIRST, HOLES, length_of
from guidegen.guide.readings import CALIPER, INSIDE, MICROMETER, PIN, Reading, readings_of
from guidegen.kit.lookup import thread
from guidegen.kit.records import Material, Nut, Part, ShoulderScrew

NEAR_SHARE, NEAR = 0.06, 0.6  # of the size, and mm: readings nearer than both look the same
ENOUGH = 2  # of the three sizes
OTHERWISE = 1 / 3  # of the larger: a size that differs by more than this is seen at once
HEAVIER = 1.1  # times the density: feels like another material
SLENDER = {"neck_diameter"}  # hard to reach with a caliper: tells nothing apart
SEEN = ("finish", "closure")  # columns that the eye tells
UNSEEN = ("clearance_group",)  # columns that neither eye nor caliper tells
PLACES = ("across", "hole", "along")
HARDEST = ("nothing", "fine gauge", "eye", "thread", "caliper")  # ways to tell, the hardest first


@dataclass(frozen=True)
class Sizes:
    """What is compared of one part."""

    part: Part
    readings: Mapping[str, Reading]  # by place, "across", "hole" or "along", else by column
    thread: str  # "" without
    density: float

    @property
    def shape(self) -> str:
        """Parts of different shapes are not mistaken for each other."""
        return {ShoulderScrew: "screw", Nut: "nut"}.get(type(self.part), "ring")

    @cached_property
    def looked_at(self) -> tuple[tuple[float, float], ...]:
        """Least and greatest reading of the three sizes that are looked at, mm."""
        windows = [(found.least, found.most) for found in map(self.readings.get, PLACES) if found]
        across = thread(self.thread).diameter if self.thread else 0.0
        return tuple(windows + [(across, across)] * bool(self.thread))


@dataclass(frozen=True)
class Tell:
    """One size of two parts: how well it tells them apart; mm."""

    own: Reading
    other: Reading

    @cached_property
    def gap(self) -> float:
        """Between the readings of a caliper; 0 where they overlap."""
        return gap(*((found.least, found.most) for found in (self.own, self.other)))

    @cached_property
    def fine_gap(self) -> float:
        """Between the readings of a micrometer, in a hole of gauge pins."""
        error = PIN if self.own.face == INSIDE else MICROMETER
        return gap(*((f.limits.least - error, f.limits.most + error) for f in (self.own, self.other)))

    @property
    def apart(self) -> float:
        """Between the middles, for how wide the readings are: sorts sizes that overlap."""
        wide = self.own.limits.width + self.other.limits.width + 4 * CALIPER
        return abs(self.own.limits.typical - self.other.limits.typical) / wide


@dataclass(frozen=True)
class Alike:
    """A part that another one is mistaken for."""

    own: Sizes
    other: Sizes
    tell: Tell  # the size that tells best

    @property
    def id(self) -> str:
        return self.other.part.id

    @property
    def threads(self) -> bool:
        """Whether the threads differ."""
        return self.own.thread != self.other.thread

    @property
    def heavier(self) -> float:
        """How many times as dense the denser one is."""
        light, heavy = sorted((self.own.density, self.other.density))
        return heavy / light

    @cached_property
    def seen(self) -> tuple[str, ...]:
        """Columns that differ so that the eye, or the hand, tells."""
        kinds = {"locking" in getattr(sizes.part, "kind", "") for sizes in (self.own, self.other)}
        by_kind = ("kind",) * (len(kinds) > 1)  # a locking nut has a collar
        return ("material",) * (self.heavier > HEAVIER) + by_kind + self._differing(SEEN)

    @cached_property
    def unseen(self) -> tuple[str, ...]:
        """Columns that differ so that neither eye nor caliper tells."""
        return self._differing(UNSEEN)

    def _differing(self, columns):
        own, other = self.own.part, self.other.part
        return tuple(
            column
            for column in columns
            if hasattr(own, column)
            and hasattr(other, column)
            and getattr(own, column) != getattr(other, column)
        )

    @cached_property
    def by(self) -> str:
        """What it takes to tell them apart: one of HARDEST."""
        if self.tell.gap > 0:
            return "caliper"
        if self.threads:
            return "thread"
        if self.seen:
            return "eye"
        return "fine gauge" if self.tell.fine_gap > 0 else "nothing"


def sizes_of(part: Part, materials: Mapping[str, Material]) -> Sizes:
    """The sizes of a part by what they are, so that parts of different kinds can be compared."""
    kind = type(part)
    places = {FIRST[kind]: "across", HOLES.get(kind, ""): "hole", ALONG[kind]: "along"}
    found = {places.get(one.column, one.column): one for one in readings_of(part)}
    return Sizes(part, found, getattr(part, "thread", ""), materials[part.material].density)


def lookalikes(sizes: Sizes, all_sizes: Iterable[Sizes]) -> list[Alike]:
    """The parts that a part is mistaken for, the hardest to tell first."""
    found = [
        Alike(sizes, other, _best_tell(sizes, other))
        for other in all_sizes
        if other.part.id != sizes.part.id and other.shape == sizes.shape and look_alike(sizes, other)
    ]
    return sorted(found, key=lambda alike: (HARDEST.index(alike.by), alike.tell.gap, alike.id))


def look_alike(one: Sizes, other: Sizes) -> bool:
    """Whether two of the three sizes that are looked at nearly coincide, and none differs by much."""
    pairs = list(zip(one.looked_at, other.looked_at, strict=True))
    if any(gap(*pair) > OTHERWISE * max(map(max, pair)) for pair in pairs):
        return False
    return sum(nearly_coincide(*pair) for pair in pairs) >= ENOUGH


def nearly_coincide(one: tuple[float, float], other: tuple[float, float]) -> bool:
    """Whether two ranges of readings overlap, or lie too close for the eye."""
    return gap(one, other) <= min(NEAR, NEAR_SHARE * (sum(one) + sum(other)) / 4)


def gap(one: tuple[float, float], other: tuple[float, float]) -> float:
    """Distance between two ranges; 0 where they overlap."""
    return max(0.0, other[0] - one[1], one[0] - other[1])


def _best_tell(one: Sizes, other: Sizes) -> Tell:
    shared = [place for place in one.readings if place in other.readings and place not in SLENDER]
    tells = [Tell(one.readings[place], other.readings[place]) for place in shared]
    return max(tells, key=lambda tell: (tell.gap, tell.fine_gap, tell.apart))


def grouped(alike: Iterable[Alike]) -> list[list[Alike]]:
    """Look-alikes that are told in the same way and differ among themselves in length alone, together."""
    groups: dict[tuple, list[Alike]] = {}
    for one in alike:
        groups.setdefault((one.by, one.tell.own.column, *_kind(one.other)), []).append(one)
    return [sorted(group, key=lambda one: length_of(one.other.part)) for group in groups.values()]


def _kind(sizes):
    """All that a part shares with its like of other lengths."""
    part = sizes.part
    words = (getattr(part, column, "") for column in ("material", "kind", *SEEN, *UNSEEN))
    limits = (
        (found.limits.least, found.limits.most) for place, found in sizes.readings.items() if place != "along"
    )
    return type(part), sizes.thread, *words, *limits
