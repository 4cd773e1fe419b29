"""The order of parts on a screw as a joint file lists it, checked before anything is put in its place."""

from guidegen.errors import CannotBuild
from guidegen.joint.body import Body
from guidegen.joint.box import thickness
from guidegen.joint.records import Joint
from guidegen.kit.records import Nut, Spacer, Washer


def listed_order(joint: Joint, parts, body: Body):
    """Part ids before, between and after the bearings and on the thread, from the list from the head.

    Raises CannotBuild for what is no part of a stack, for bearings or plates missing or out of place,
    and for more between floating bearings than goes between them.
    """
    ids, names = list(joint.stack_ids), [bearing.id for bearing in joint.bearings]
    plate, where = _plate_of(joint)
    for part_id in ids:
        known = part_id in names or part_id == plate or isinstance(parts.get(part_id), (Washer, Spacer, Nut))
        if not known:
            raise CannotBuild(
                f"the stack names {part_id}, which is no washer, spacer, nut, bearing or plate of this joint",
                "unknown part in the stack",
            )
    at = [n for n, part_id in enumerate(ids) if part_id in names]
    if [ids[n] for n in at] != names:
        raise CannotBuild(
            f"the stack does not hold {' and '.join(names)} once each, in this order",
            "bearings not in the stack",
        )
    before, inside, rest = ids[: at[0]], ids[at[0] + 1 : at[-1]], ids[at[-1] + 1 :]
    end = next((n for n, part_id in enumerate(rest) if _on_thread(joint, parts, part_id)), len(rest))
    if joint.layout == "C" and plate in rest:
        end = rest.index(plate) + 1
    order = tuple(map(tuple, (before, inside, rest[:end], rest[end:])))
    if not _plates_in_place(joint, plate, *order):
        raise CannotBuild(f"the stack must hold {plate} as {where}", "plate missing or out of place")
    _fits_between(joint, parts, body, inside)
    return order


def _plate_of(joint):
    """The plate that the stack must hold, and where, in words."""
    if joint.layout == "C":
        return joint.cheeks.stock.id, "the cheeks: first under the head, and last on the shoulder"
    if joint.arm_between:
        return joint.arm_plate.stock.id, "the arm, between the bearings"
    return joint.on_thread.stock.id, "the clamped plate, first on the thread"


def _on_thread(joint, parts, part_id):
    """Whether a part lies beyond the shoulder end: a plate, a nut, or a washer with a smaller hole."""
    part = parts.get(part_id)
    return part is None or isinstance(part, Nut) or part.hole.most < joint.shaft.shoulder_diameter.least


def _plates_in_place(joint, plate, before, inside, after, thread):
    found = [[n for n, part in enumerate(ids) if part == plate] for ids in (before, inside, after, thread)]
    if joint.layout == "C":
        return found == [[0], [], [len(after) - 1], []]
    if joint.arm_between:
        return [len(places) for places in found] == [0, 1, 0, 0]
    return found == [[], [], [], [0]]


def _fits_between(joint, parts, body, inside):
    """What stands on the shoulder between bearings that float must be shorter than the gap."""
    taken = sum(
        thickness(parts[part_id]).typical if part_id in parts else joint.arm_plate.stock.thickness.typical
        for part_id in inside
    )
    gap = body.inner_high - body.inner_low
    if not joint.clamped and taken > gap:
        raise CannotBuild(
            f"what stands between the bearings is {taken:.2f} mm long, the gap only {gap:.2f} mm",
            "stack longer than the gap",
        )
