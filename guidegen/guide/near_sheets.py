"""Sheets and plates beside the thicknesses of the other system."""

from dataclasses import dataclass

from guidegen.guide.near_sizes import EVEN, OTHER, near
from guidegen.guide.own_units import unit_of
from guidegen.kit import lookup
from guidegen.kit.records import Course, Stock


@dataclass(frozen=True)
class Sheet:
    """A sheet of the course beside a thickness of the other system."""

    stock: Stock
    unit: str
    other: float  # mm
    thicker: float  # how much the other is thicker than the middle of this one, mm

    @property
    def state(self) -> str:
        """looks the same, thicker, thinner."""
        if self.stock.thickness.least - EVEN <= self.other <= self.stock.thickness.most + EVEN:
            return "looks the same"
        return "thicker" if self.thicker > 0 else "thinner"


def sheets_beside(course: Course) -> list[Sheet]:
    """Sheets of the course beside thicknesses of the other system."""
    found = []
    for stock in course.stocks.values():
        unit, middle = unit_of(stock), stock.thickness.typical
        others = lookup.sold_sizes("sheet", OTHER[unit]) if stock.kind != "print" else ()
        found += [Sheet(stock, unit, other, other - middle) for other in others if near(other, middle)]
    return sorted(found, key=lambda sheet: (sheet.stock.thickness.typical, sheet.stock.id, sheet.other))
