"""Which faces touch what they may not, and which holes do not fit what they sit on."""

from itertools import takewhile

from guidegen.joint.body import Body
from guidegen.joint.box import RING_STEP, Box, thickness, touches_inner_ring_only
from guidegen.joint.records import Joint
from guidegen.kit.records import BallBearing, Nut

ON_SHOULDER = 1.0  # how much of the part across the shoulder end must still sit on it, mm


def faults(joint: Joint, box: Box, body: Body, before, inside, after, thread, beyond):
    """A sentence for every fault of a stack of part ids; `beyond`: clamped face past the shoulder end, mm."""
    for part_id in before + inside + after:
        part = box.parts.get(part_id)
        if part is not None and (isinstance(part, Nut) or not box.over_shoulder(part)):
            yield f"{part_id} does not go over the {joint.shaft.nominal:g} mm shoulder"
    yield from _beside_bearings(joint, box, body, before, inside, after)
    yield from _on_thread(joint, box, thread)
    if joint.clamped and after:
        last = box.parts.get(after[-1])
        across = joint.cheeks.stock.thickness if last is None else thickness(last)
        if beyond > across.typical - ON_SHOULDER:
            yield f"{after[-1]} hangs off the shoulder end: less than {ON_SHOULDER:g} mm of it sits on it"
        if beyond <= 0:
            yield "the clamped stack is shorter than the shoulder: the nut stops there and clamps nothing"


def _beside_bearings(joint, box, body, before, inside, after):
    first, last = joint.bearings[0], joint.bearings[-1]
    sides = [(before[::-1], first, body.recessed[0][0]), (after, last, body.recessed[-1][1])]
    if inside:
        sides += [(inside, first, body.recessed[0][1]), (inside[::-1], last, body.recessed[-1][0])]
    for outwards, bearing, depth in sides:
        parts = [box.parts.get(part_id) for part_id in outwards]
        if not isinstance(bearing, BallBearing) or not parts or parts[0] is None:
            continue
        if touches_inner_ring_only(parts[0], bearing):
            yield from _in_recess(parts, bearing, depth)
        else:
            yield _not_on_inner_ring(parts[0], bearing)


def _not_on_inner_ring(part, bearing):
    across = part.outside_diameter.typical
    if across > bearing.inner_land:
        return (
            f"{part.id} ({across:.1f} mm across) drags on the shield or outer ring of {bearing.id}: "
            f"put a ring spacer of at most {bearing.inner_land:.1f} mm between"
        )
    return (
        f"{part.id} ({across:.1f} mm across) is too small to push the inner ring of {bearing.id}: "
        f"at least {bearing.nominal + RING_STEP:.1f} mm"
    )


def _in_recess(parts, bearing, depth):
    """Rings beside a bearing that its plate stands beyond must reach out of the plate's hole."""
    rings = list(takewhile(lambda part: part and touches_inner_ring_only(part, bearing), parts))
    if 0 < depth and sum(thickness(ring).typical for ring in rings) <= depth and len(rings) < len(parts):
        yield (
            f"the plate stands {depth:.1f} mm beyond {bearing.id}, and the next part rubs on it: "
            "put longer ring spacers between"
        )


def _on_thread(joint, box, thread):
    """Nuts of the screw's own thread, washers that go over it, and nothing that rubs on a nut."""
    parts = [box.parts.get(part_id) for part_id in thread]
    nuts = [part for part in parts if isinstance(part, Nut)]
    if not nuts:
        yield "no nut holds the screw"
    for nut in nuts:
        if nut.thread != joint.shaft.thread:
            yield f"{nut.id} has the thread {nut.thread}, the screw has {joint.shaft.thread}"
    for part in parts:
        if part is not None and part not in nuts and part.hole.least < joint.thread.diameter:
            yield f"{part.id} does not go over the thread {joint.thread.id}"
    if nuts and parts[0] is nuts[0] and joint.layout == "C":
        yield "the nut rubs on the cheek: put a small washer between"
