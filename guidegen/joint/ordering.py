"""What to buy for a class: what each team gets, spares, and whole packs."""

from typing import Mapping, NamedTuple

from guidegen.kit.records import Course, Part
from guidegen.theory.cost import packs, spares_of_loss, spares_of_share


class Order(NamedTuple):
    """One line of a shopping list."""

    part: Part
    per_team: int
    teams: int
    spares: int

    @property
    def needed(self) -> int:
        """Pieces that the class needs, spares with them."""
        return self.teams * self.per_team + self.spares

    @property
    def packs(self) -> int:
        return packs(self.needed, self.part.pack)

    @property
    def pieces(self) -> int:
        """Pieces in the packs that are bought."""
        return self.packs * self.part.pack

    @property
    def price(self) -> float:
        """What the packs cost, at the price of a piece."""
        return self.pieces * self.part.price


def orders(per_team: Mapping[str, int], course: Course) -> tuple[Order, ...]:
    """The shopping list of a class whose teams each get so many of each part.

    Spares: the share that the course buys on top, or what so sure lasts the term at its rate of loss, if
    that is more.
    """
    lines = []
    for id, count in per_team.items():
        handed_out = course.teams * count
        spares = max(spares_of_share(handed_out, course.spares), spares_of_loss(handed_out, course.loss))
        lines.append(Order(course.parts[id], count, course.teams, spares))
    return tuple(lines)
