"""What all pages of one guide are composed from."""

from collections import Counter
from dataclasses import dataclass
from functools import cached_property
from typing import Collection, Mapping

from guidegen.guide.citing import Citing
from guidegen.guide.measures import Measures
from guidegen.joint.near import neighbours
from guidegen.joint.records import Result
from guidegen.kit.records import Caution, Course, Kit, Part, Words

# Places of warnings that concern one kind of part or way of making only.
CONCERNS = frozenset({"ball bearings", "bushings", "solvents", "laser cutting", "printing", "drilling"})


@dataclass(frozen=True)
class Edition:
    """A course, its evaluated joints and the shared words; what pages ask of them."""

    course: Course
    results: tuple[Result, ...]
    words: Words

    @cached_property
    def measures(self) -> Measures:
        return Measures(self.course.units_first)

    @cached_property
    def by_id(self) -> Mapping[str, Result]:
        return {result.id: result for result in self.results}

    @cached_property
    def near(self) -> Mapping[str, list[tuple[str, Result]]]:
        """Neighbours of each worked joint; joints without a kit have none."""
        return neighbours(result for result in self.results if result.joint.kit)

    def citing(self, root: str) -> Citing:
        """Links to sources from a page at `root`."""
        return Citing(self.course.sources, root)

    @cached_property
    def kits(self) -> list[Kit]:
        """The kits, those in the course's own units first, then those with more worked joints."""
        worked = Counter(result.joint.kit.id for result in self.results if result.joint.kit)
        own = self.course.units_first
        return sorted(self.course.kits.values(), key=lambda kit: (kit.units != own, -worked[kit.id], kit.id))

    def cautions(self, *places: str, about: Collection[str] = CONCERNS) -> list[Caution]:
        """The warnings that belong at any of these places, each once.

        `about`: what is there at all; a warning about something else that it names is left out.
        """
        return [
            caution
            for caution in self.words.cautions.values()
            if set(places) & set(caution.where) and CONCERNS & set(caution.where) <= set(about)
        ]

    @cached_property
    def users(self) -> Mapping[str, list[Result]]:
        """Worked joints by the id of each part on their screw, and of the screw."""
        found: dict[str, list[Result]] = {}
        for result in self.results:
            for id in parts_of(result):
                found.setdefault(id, []).append(result)
        return found

    def kits_with(self, part: Part) -> list[tuple[Kit, int]]:
        """The kits that hold a part, and how many of it."""
        return [(kit, kit.parts[part.id]) for kit in self.kits if part.id in kit.parts]


def parts_of(result: Result) -> set[str]:
    """Ids of everything in a joint's stack, and of its screw."""
    placed = () if result.stack is None else result.stack.placed
    return {
        result.joint.shaft.id,
        *(bearing.id for bearing in result.joint.bearings),
        *(row.part for row in placed),
    }
