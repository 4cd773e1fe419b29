"""The kit box while a joint is being put together: which parts fit where, and how many are left."""

from collections import Counter

from guidegen.errors import CannotBuild
from guidegen.joint.fill import Filler, filler
from guidegen.kit.records import BallBearing, Nut, Part, ShoulderScrew, SleeveBushing, Spacer, Washer
from guidegen.units import Band

CATALOGUE_COUNT = 4  # of each part of the screw's own size, when it belongs to no kit
SLACK = 1.2  # a hole more than this over the shoulder centres nothing, mm
RING_STEP = 2.0  # a ring beside a ball bearing stands at least this over the bore, mm; common practice


def thickness(part: Part) -> Band:
    """How much of the screw a part takes up."""
    match part:
        case Spacer() | SleeveBushing():
            return part.length
        case Washer():
            return part.thickness
        case BallBearing():
            return part.width
        case Nut():
            return part.height
    raise TypeError(f"{part.id} does not go on a screw")


class Box:
    """Parts left for one joint. Taking a part lowers its count; `CannotBuild` when there is none."""

    def __init__(self, parts, counts, screw: ShoulderScrew):
        self.parts, self.screw = parts, screw
        counts = counts or {p: CATALOGUE_COUNT for p, part in parts.items() if _goes_with(part, screw)}
        self.left = Counter({part: counts[part] for part in sorted(counts)})

    def take(self, *ids):
        for part in ids:
            self.left[part] -= 1
            if self.left[part] < 0:
                raise CannotBuild(f"the kit has too few of {part}", "too few parts")

    def set_aside(self, ids):
        """Keep these for bearings: none of their kind stays a filler. CannotBuild when there are too few."""
        for part in ids:
            if part in self.left and self.left[part] < ids.count(part):
                raise CannotBuild(f"the kit has too few of {part}", "too few parts")
        for part in ids:
            self.left[part] = 0

    def use(self, *ids):
        """Take what is there of these parts; a person may own more of them than the kit holds."""
        for part in ids:
            self.left[part] = max(0, self.left[part] - 1)

    def holds(self, *ids) -> bool:
        """Whether all these parts are left, each as often as it is named."""
        return all(self.left[part] >= ids.count(part) for part in ids)

    def over_shoulder(self, part) -> bool:
        """Whether a part slides on the shoulder and is still guided by it."""
        room = part.hole.least - self.screw.shoulder_diameter.most
        return 0 <= room and part.hole.typical - self.screw.nominal <= SLACK

    def large_washer(self) -> Washer:
        """The thinnest large washer that goes over the shoulder."""
        return self._first(
            "large washer", lambda p: isinstance(p, Washer) and p.kind == "large" and self.over_shoulder(p)
        )

    def rings_for(self, bearing: BallBearing, at_least=0.0) -> list[Spacer]:
        """Ring spacers that touch only the inner ring of `bearing`, the shortest first."""
        return self._all(
            f"ring spacer beside {bearing.id}",
            lambda p: (
                isinstance(p, Spacer)
                and p.kind == "ring"
                and self.over_shoulder(p)
                and touches_inner_ring_only(p, bearing)
                and p.length.typical >= at_least
            ),
        )

    def small_washers(self, thread) -> list[Washer]:
        """Small washers over the thread that cannot slide onto the shoulder, the thickest first."""
        return self._all(
            "small washer",
            lambda p: (
                isinstance(p, Washer)
                and p.kind == "small"
                and thread.diameter <= p.hole.least < self.screw.shoulder_diameter.least
            ),
        )[::-1]

    def nuts(self, thread) -> dict[str, Nut]:
        """One nut of each kind for the thread."""
        found = {}
        for part in self._here():
            if isinstance(part, Nut) and part.thread == thread.id:
                found.setdefault(part.kind, part)
        return found

    def fillers(self, rings_for: tuple[BallBearing, ...] = ()) -> tuple[Filler, ...]:
        """Everything left that may fill the shoulder; beside ball bearings what clears the outer ring."""
        return tuple(
            filler(part.id, thickness(part).typical, self.left[part.id])
            for part in self._here()
            if (isinstance(part, Spacer) or isinstance(part, Washer) and part.kind == "large")
            and self.over_shoulder(part)
            and all(touches_inner_ring_only(part, b) for b in rings_for)
        )

    def _here(self):
        return [self.parts[part] for part, count in self.left.items() if count > 0]

    def _first(self, what, fits):
        return self._all(what, fits)[0]

    def _all(self, what, fits):
        """Parts left that fit, the thinnest first; CannotBuild when there is none."""
        found = sorted((p for p in self._here() if fits(p)), key=lambda p: (thickness(p).typical, p.id))
        if not found:
            raise CannotBuild(
                f"the kit has no {what} left for {self.screw.id}", f"no {what.split(' beside')[0]}"
            )
        return found


def _goes_with(part: Part, screw: ShoulderScrew) -> bool:
    """Whether someone without a kit would get this for the screw: of fillers, those of its own size only."""
    return part.nominal == screw.nominal if isinstance(part, Spacer) else not isinstance(part, ShoulderScrew)


def touches_inner_ring_only(part, bearing: BallBearing) -> bool:
    """Whether a part that turns with the screw stays clear of shield and outer ring."""
    return bearing.nominal + RING_STEP <= part.outside_diameter.typical <= bearing.inner_land
