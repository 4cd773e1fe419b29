"""Which faces touch what they may not, and which holes do not fit what they sit on."""

from guidegen.joint.box import RING_STEP, Box, touches_inner_ring_only
from guidegen.joint.records import Joint
from guidegen.kit.records import BallBearing, Nut

ON_SHOULDER = 1.0  # how much of the part across the shoulder end must still sit on it, mm


def faults(joint: Joint, box: Box, before, inside, after, thread, beyond):
    """A sentence for every fault of a stack of part ids; `beyond`: clamped face past the shoulder end, mm."""
    for part_id in before + inside + after:
        part = box.parts.get(part_id)
        if part is not None and (isinstance(part, Nut) or not box.over_shoulder(part)):
            yield f"{part_id} does not go over the {joint.shaft.nominal:g} mm shoulder"
    yield from _beside_bearings(joint, box, before, inside, after)
    yield from _at_nut(joint, box, thread)
    if joint.clamped and after:
        last = box.parts.get(after[-1])
        length = (
            last.length.typical
            if hasattr(last, "length")
            else joint.cheeks.stock.thickness.typical
            if last is None
            else 0
        )
        if beyond > length - ON_SHOULDER:
            yield f"{after[-1]} hangs off the shoulder end: less than {ON_SHOULDER:g} mm of it sits on it"
        if beyond <= 0:
            yield "the clamped stack is shorter than the shoulder: the nut stops there and clamps nothing"


def _beside_bearings(joint, box, before, inside, after):
    sides = [(before[-1:], joint.bearings[0]), (after[:1], joint.bearings[-1])]
    if inside:
        sides += [(inside[:1], joint.bearings[0]), (inside[-1:], joint.bearings[-1])]
    for beside, bearing in sides:
        part = box.parts.get(beside[0]) if beside else None
        if part is None or not isinstance(bearing, BallBearing) or touches_inner_ring_only(part, bearing):
            continue
        across = part.outside_diameter.typical
        if across > bearing.inner_land:
            yield (
                f"{part.id} ({across:.1f} mm across) drags on the shield or outer ring of {bearing.id}: "
                f"put a ring spacer of at most {bearing.inner_land:.1f} mm between"
            )
        else:
            yield (
                f"{part.id} ({across:.1f} mm across) is too small to push the inner ring of {bearing.id}: "
                f"at least {bearing.nominal + RING_STEP:.1f} mm"
            )


def _at_nut(joint, box, thread):
    if not any(isinstance(box.parts.get(p), Nut) for p in thread):
        yield "no nut holds the screw"
    elif isinstance(box.parts.get(thread[0]), Nut) and joint.layout == "C":
        yield "the nut rubs on the cheek: put a small washer between"
