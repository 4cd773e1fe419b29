"""Which keys and wrenches a kit or a joint needs: one of each size, and two wrenches for a pair of nuts."""

from typing import Literal, Mapping, NamedTuple

from guidegen.kit.lookup import OutsideTable
from guidegen.kit.records import Nut, Part, ShoulderScrew
from guidegen.kit.tables import read_table
from guidegen.units import read_quantity

EXACT = {"key": 0.01, "wrench": 0.06}  # mm from the size of the tool; a nut may be a little over it


class HandTool(NamedTuple):
    """A hexagon key or a wrench of one size, how many of it at once, and the parts that it turns."""

    kind: Literal["key", "wrench"]
    size: float  # across flats, mm
    name: str  # as sold: "4 mm", "5/32 in"
    count: int
    parts: tuple[str, ...]


def tools_for(parts: Mapping[str, Part], counts: Mapping[str, int]) -> tuple[HandTool, ...]:
    """The fewest tools that turn everything in a kit, or in one joint, keys first, small before large.

    counts: part ids and how many there are. Each fastener gets the tool of just its own size: one of the
    other system turns before it bears, or slips. Raises OutsideTable for a size that no tool is sold in.
    """
    turned: dict[tuple, list[str]] = {}
    for id in counts:
        part = parts[id]
        if isinstance(part, ShoulderScrew):
            turned.setdefault(_sold("key", part.socket, id), []).append(id)
        elif isinstance(part, Nut):
            turned.setdefault(_sold("wrench", part.across_flats.most, id), []).append(id)
    found = [
        HandTool(kind, size, name, 2 if _jammed([(parts[id], counts[id]) for id in ids]) else 1, tuple(ids))
        for (kind, size, name), ids in turned.items()
    ]
    return tuple(sorted(found))


def _sold(kind, size, part):
    """(kind, size, name) of the tool nearest to a size, which must be as good as the same."""
    sold = [row["size"] for row in read_table("sold_sizes").rows if row["kind"] == kind]
    name = min(sold, key=lambda text: abs(read_quantity(text, "length") - size))
    found = read_quantity(name, "length")
    if abs(found - size) > EXACT[kind]:
        raise OutsideTable(f"no {kind} of {size:g} mm for {part}; the nearest sold is {name}")
    return kind, found, name


def _jammed(nuts) -> bool:
    """Whether a thin nut can be jammed against another one of its thread, so that two wrenches are needed."""
    threads = {part.thread for part, _ in nuts if isinstance(part, Nut) and part.kind == "thin"}
    return any(
        sum(count for part, count in nuts if part.thread == thread and part.kind in ("thin", "hex")) > 1
        for thread in threads
    )
