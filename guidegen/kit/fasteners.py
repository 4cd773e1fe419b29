"""What the published tables say of nuts and of the hand that tightens them."""

from typing import NamedTuple

from guidegen.kit.cells import read_size
from guidegen.kit.lookup import named_row
from guidegen.kit.tables import read_table
from guidegen.units import Band, read_quantity


class PitchDiameters(NamedTuple):
    """Limits of the pitch diameter of a screw and of a nut of the usual class, mm, before plating."""

    screw: Band
    nut: Band


def pitch_diameters(thread: str) -> PitchDiameters:
    """Limits of both threads: their difference lets a nut shift along its screw. ISO 965-1; ASME B1.1."""
    row = named_row("thread_limits", id=thread)
    return PitchDiameters(read_size(row["screw"]), read_size(row["nut"]))


def crest_diameter(thread: str) -> Band:
    """Limits of a bolt's outside diameter over its thread, mm, before plating. ISO 965-1; ASME B1.1."""
    return read_size(named_row("thread_crests", id=thread)["bolt"])


def locking_torque(thread: str) -> float | None:
    """Greatest torque, N·mm, that the insert of a new locking nut takes to run on; None: not known."""
    for row in read_table("locking_torque").rows:
        if row["id"] == thread:
            return read_quantity(row["most"], "moment")
    return None


def hand_force(how: str) -> Band:
    """Force of one hand, N; how: pinch (finger against thumb) or pull (square to a wrench or key)."""
    return _band(named_row("hand_forces", how=how))


def jam_share() -> Band:
    """Share of the tightening torque that the thin nut of a pair gets first."""
    return _band(read_table("jam_share").rows[0])


def _band(row):
    return Band(*(float(row[end]) for end in ("least", "typical", "most")))
