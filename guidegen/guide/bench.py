"""What the words of a build step are about: parts with their numbers in the drawing, bearings, lengths."""

from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

from guidegen.guide.measures import Measures
from guidegen.joint.records import Housing, Placed, Result
from guidegen.kit.records import BallBearing, Course, Nut, Part, SleeveBushing


class Words(NamedTuple):
    """What a step is called, what to do, and what to see or measure before the next one."""

    title: str
    says: str
    check: str


@dataclass(frozen=True)
class Bench:
    """A joint on its way together, and how its numbers are printed."""

    result: Result
    course: Course
    measures: Measures
    numbers: dict[str, int] = field(default_factory=dict)  # of the last step of each name

    @property
    def joint(self):
        return self.result.joint

    @property
    def stack(self):
        return self.result.stack

    @property
    def body(self) -> str:
        """Frame or hub."""
        return next(row.part for row in self.stack.placed if row.kind == "body")

    @cached_property
    def nuts(self) -> list[Nut]:
        """Nuts on the thread, from the head."""
        return [self.course.parts[row.part] for row in self.stack.placed if row.kind == "nut"]

    def row(self, number: int) -> Placed:
        return self.stack.placed[number - 1]

    def length(self, mm: float, digits=3) -> str:
        return self.measures.value(mm, "mm", digits).line

    def size(self, mm: float) -> str:
        return self.measures.drawn(mm).line

    def quantity(self, name: str, digits=2) -> str:
        """The typical value of a quantity; "" where it is not known."""
        found = self.result.quantities.get(name)
        if found is None:
            return ""
        if found.unit == "N·mm":
            return self.measures.torque(found.typical).line
        return self.measures.quantity(found, digits).line

    def bearing(self, n: int) -> Part:
        return self.joint.bearings[n - 1]

    def housing(self, n: int) -> Housing:
        return self.joint.housings[n - 1]

    def is_ball(self, n: int) -> bool:
        return isinstance(self.bearing(n), BallBearing)

    def is_bronze(self, n: int) -> bool:
        return isinstance(self.bearing(n), SleeveBushing)

    def which(self, numbers) -> str:
        """ "the bearing", "bearing 1", "both bearings"."""
        if self.joint.single:
            return "the bearing"
        return f"bearing {numbers[0]}" if len(numbers) == 1 else "both bearings"

    def named(self, rows) -> str:
        """Lines of the stack in order, alike ones in a row told once, with their numbers in the drawing."""
        runs: list[tuple[str, list[int]]] = []
        for number in rows:
            name = self._called(self.row(number))
            if runs and runs[-1][0] == name:
                runs[-1][1].append(number)
            else:
                runs.append((name, [number]))
        return ", ".join(_told(name, found) for name, found in runs)

    @staticmethod
    def _called(row) -> str:
        """A part by its name; a plate also by what it is."""
        if row.kind not in ("plate", "cheek"):
            return row.name
        what = {"cheek": "cheek", "plate": "arm" if row.turns_with in ("arm", "screw") else "frame plate"}
        return f"{what[row.kind]} of {row.name}"


def _told(name, numbers):
    if len(numbers) == 1:
        return f"{name} ({numbers[0]})"
    return f"{len(numbers)} × {name} ({', '.join(map(str, numbers))})"
