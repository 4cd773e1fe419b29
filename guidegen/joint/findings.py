"""What is found out about one joint: each chapter of the evaluation reads it and adds to it."""

from dataclasses import dataclass, field
from functools import cached_property
from typing import Mapping

from guidegen.joint.inputs import Seat, banded, hole_beside, seats
from guidegen.joint.records import ArmPlay, Joint, Quantity
from guidegen.joint.rows import Rows, first
from guidegen.joint.sample import sobol, within
from guidegen.joint.verdicts import Yes
from guidegen.joint.working import Working
from guidegen.kit.records import Course
from guidegen.units import Band


@dataclass
class Findings:
    """Quantities, answers and limits by name, and the worked steps that led to them."""

    joint: Joint
    course: Course
    work: Working = field(default_factory=Working)
    quantities: dict[str, Quantity] = field(default_factory=dict)
    answers: dict[str, Yes] = field(default_factory=dict)
    limits: dict[str, float] = field(default_factory=dict)
    given: dict[str, Quantity] = field(default_factory=dict)  # inputs that a chapter brought in
    rubbing: dict[int, Band] = field(default_factory=dict)  # friction that turns a bearing in its hole, N·mm
    arm: ArmPlay | None = None  # known once the parts are on the screw

    @cached_property
    def seats(self) -> tuple[Seat, ...]:
        """One for each bearing."""
        return seats(self.joint, self.course)

    @cached_property
    def bands(self) -> Mapping[str, Band]:
        """The sizes with limits on which free play depends."""
        return banded(self.joint, self.seats)

    @cached_property
    def beside(self) -> Mapping[str, Band]:
        """The hole beside the bearings through which the shoulder passes with room, if there is one."""
        return hole_beside(self.joint)

    @cached_property
    def beside_arm(self) -> Mapping[str, Band]:
        """Axial play of an arm that slides on the shoulder between the bearings."""
        return {} if self.arm is None else {"arm_room": self.arm.play}

    @cached_property
    def rows(self) -> Rows:
        """Those sizes as columns: typical, corners of the box, points inside."""
        inside = {} if self.arm is None else {"arm_room": _drawn(self.arm)}
        return Rows({**self.bands, **each_hole(self.beside), **self.beside_arm}, inside)

    def put(self, name: str, values, unit: str, among=None):
        """Keep a quantity with its band and likely range; `values` over the rows, or one number."""
        self.quantities[name] = Quantity(
            unit, band=self.rows.band(values, among), likely=self.rows.likely(values, among)
        )

    def put_over(self, rows: Rows, name: str, values, unit: str):
        """The same over other rows than those of the sizes."""
        self.quantities[name] = Quantity(unit, band=rows.band(values), likely=rows.likely(values))

    def put_number(self, name: str, value, unit: str):
        """Keep a quantity that is one number, at typical sizes."""
        self.quantities[name] = Quantity(unit, value=first(value))


def _drawn(arm: ArmPlay):
    """Axial play of an arm at points drawn inside the limits of all parts beside it."""
    gap, *parts = within([arm.gap, *arm.parts], sobol(1 + len(arm.parts)))
    return gap - sum(parts)


def each_hole(beside: Mapping[str, Band]) -> Mapping[str, Band]:
    """One band for each hole that is made: a fork has two cheeks."""
    if "cheek_hole" in beside:
        return {f"cheek_hole_{n}": beside["cheek_hole"] for n in (1, 2)}
    return beside
