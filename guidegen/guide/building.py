"""The order of assembly in words: each step, what to check before the next, and whether it can be undone."""

from typing import Callable, NamedTuple

from guidegen.guide import seating
from guidegen.guide.bench import Bench, Words
from guidegen.guide.edition import Edition
from guidegen.guide.wobble import seen_travel
from guidegen.joint.build_order import LONE, Build, steps
from guidegen.joint.records import Result
from guidegen.joint.stack import PROTRUDES
from guidegen.kit.fasteners import hand_force, jam_share
from guidegen.kit.records import Caution
from guidegen.numbers import percent
from guidegen.theory.nuts import finger_torque, jam_torque

UNDO = {
    "yes": "",
    "with loss": "Comes apart only with loss.",
    "no": "Cannot be undone.",
}


class Told(NamedTuple):
    """A step as the page tells it; warnings that have stood further up are not told again."""

    number: int
    words: Words
    undo: str  # "" where it comes apart again
    cautions: list[Caution]


def told_steps(result: Result, edition: Edition) -> list[Told]:
    """The order of assembly of a joint that can be built."""
    builds = steps(result.joint, result.stack, edition.course.parts)
    numbers = {build.does: build.number for build in builds}
    bench, said, told = Bench(result, edition.course, edition.measures, numbers), set(), []
    for build in builds:
        fresh = [id for id in dict.fromkeys(build.cautions) if id not in said]
        said |= set(fresh)
        found = [edition.words.cautions[id] for id in fresh]
        told.append(Told(build.number, WORDS[build.does](bench, build), _undo(bench, build), found))
    return told


def _undo(bench, build) -> str:
    words = UNDO[build.undo]
    if build.undo == "with loss" and build.rows:
        words += " Leave a hole behind the bearing to push it out by."
    elif build.undo == "no" and build.does.startswith("press"):
        words += " Pressed out, the bush is no longer its size."
    return words


def _upright(bench: Bench, build: Build) -> Words:
    says = "Stand the screw on its head."
    if build.rows:
        says += f" Thread on, in this order: {bench.named(build.rows)}."
    return Words("Stand the screw up", says, "Order and pieces as in the drawing.")


def _body_on(bench, build) -> Words:
    says = f"Put the {bench.body} ({build.rows[0]}) with its bearings over the screw, bearing 1 first."
    if bench.joint.single:
        says = f"Put the {bench.body} ({build.rows[0]}) with its bearing over the screw."
    return Words(f"Put the {bench.body} on", says, "It turns freely on the screw.")


def _pushed_through(bench, build) -> Words:
    body, *inside = build.rows
    says = (
        f"Hold between the bearings, in this order from bearing 1: {bench.named(inside)}. Push the screw "
        f"through bearing 1, through them, and through bearing 2 of the {bench.body} ({body})."
    )
    return Words(
        f"Push the screw through the {bench.body}",
        f"{says} They cannot go in later.",
        "All of them sit on the shoulder.",
    )


def _beyond(bench, build) -> Words:
    says = f"Thread on, in this order: {bench.named(build.rows)}."
    if bench.joint.layout == "C":
        says += (
            " A fork made in one piece does not come apart: hold everything between its cheeks in this "
            "order, and push the screw through all at once."
        )
    return Words("Thread on the rest of the shoulder", says, "Order and pieces as in the drawing.")


def _end_play(bench, build) -> Words:
    window = bench.measures.range(*bench.stack.window, "mm").line
    gap = bench.length(bench.stack.end_play.typical, 2)
    says = (
        "Hold the small washer flat on the end of the shoulder, push everything against it, and try the gap "
        f"under the head with a feeler gauge. Parts of typical size leave {gap}."
    )
    check = f"{window}. Less: it may jam when warm or wet; more: it rattles. Exchange a shim."
    return Words("Measure the end play", says, check)


def _stands_out(bench, build) -> Words:
    out = bench.length(bench.stack.z_face - bench.stack.shoulder, 2)
    low, high = PROTRUDES
    says = f"The last part should stand {out} beyond the shoulder's end: then the nut presses on the rings."
    check = f"{bench.measures.range(low, high, 'mm').line}, by the depth rod of a caliper."
    return Words("See that the stack stands out", says, check)


def _plate_on(bench, build) -> Words:
    what = "arm" if bench.joint.turns == "shaft" else "frame plate"
    on = "the last part" if bench.joint.clamped else "the end of the shoulder"
    says = f"Put the {bench.named(build.rows)} over the thread, flat on {on}, and turn it to its place."
    return Words(f"Put the {what} on", says, "Held against the light: no gap.")


def _nuts_on(bench, build) -> Words:
    says = f"Run on by hand: {bench.named(build.rows)}."
    check = f"Beyond the nut {bench.length(bench.stack.thread_room, 2)} of thread is left."
    if bench.nuts and bench.nuts[-1].kind not in LONE:
        says += " A locking nut goes by hand up to its insert only, then with the wrench."
        check += " The thread must come through the insert."
    return Words("Run the nut on" if len(bench.nuts) < 2 else "Run the nuts on", says, check)


def _tightened(bench, build) -> Words:
    """The torque that clamps the plate, at the wrench."""
    title, check = "Tighten", "The plate has not turned with the nut; the joint still turns freely."
    set_to = bench.quantity("set_torque")
    if not set_to:
        return Words(
            title, "Key in the head, wrench on the nut: there is no face to clamp, see the checks.", check
        )
    says = f"Key in the head, wrench on the nut: tighten to {set_to}."
    if bench.nuts[-1].kind not in LONE:
        says = f"Key in the head, wrench on the nut. The clamp wants {set_to}, {_insert(bench)}."
    return Words(title, says, check)


def _insert(bench) -> str:
    """What the insert of a locking nut adds at the wrench: felt, never a fixed sum."""
    running = bench.result.inputs.get("running_torque")
    if running is None:
        return "and the insert some more: feel how much while the nut runs free, and add it"
    more = bench.measures.torque(running.typical).line
    return (
        f"and the insert of a new nut takes up to {more} more: feel how much while the nut runs free, "
        "and add that"
    )


def _rings_held(bench, build) -> Words:
    says = f"{_home(bench)} until rings and cheeks hold one another and nothing can be shifted by hand."
    if set_to := bench.quantity("set_torque"):
        says += f" Beyond what an insert takes, no more than {set_to}: screw and cheeks bear that."
    return Words("Tighten till the rings hold", says, "It turns smoothly, no drag, no tick.")


def _by_hand(bench, build) -> Words:
    beyond = ", beyond what the insert takes to turn" * (bench.nuts[-1].kind not in LONE)
    says = (
        f"{_home(bench)} until it stands on the end of the shoulder, then no harder than {_fingers(bench)}"
        f"{beyond}. It clamps nothing here and only keeps the screw in."
    )
    return Words(
        "Tighten by hand",
        says,
        f"The end play of step {bench.numbers['measure the end play']} is still there.",
    )


def _home(bench):
    locking = bench.nuts[-1].kind not in LONE
    return (
        "Key in the head, turn the nut on with the wrench" if locking else "Run the nut on with your fingers"
    )


def _fingers(bench) -> str:
    """What finger and thumb put on the nut."""
    pinch, across = hand_force("pinch"), bench.nuts[-1].across_flats.typical
    torque = bench.measures.torque(finger_torque(pinch.typical, across)).line
    return f"finger and thumb can, about {torque}"


def _jammed(bench, build) -> Words:
    """Two nuts against each other: the inner one first, held still."""
    share, torque = jam_share(), bench.result.quantities.get("set_torque")
    inner, outer = bench.nuts[-2:]
    if torque:
        first = bench.measures.torque(jam_torque(share.typical, torque.typical)).line
        says = f"First the {inner.name} to {first}, {percent(share.typical)} of the torque. "
        rest = f" to {bench.measures.torque(torque.typical).line}"
    else:
        says, rest = f"First the {inner.name} home, {_fingers(bench)}. ", ", hand tight and a little"
    says += f"Hold it with one wrench and tighten the {outer.name} against it with the other{rest}."
    check = (
        "The plate has not turned."
        if torque
        else "The end play is still there: jamming shifts the inner nut."
    )
    return Words("Jam the two nuts", says, check)


def _locked(bench, build) -> Words:
    says = (
        "One plain nut holds by friction alone and shakes loose. When all is right, take it off, put one "
        "drop of medium thread locker on the thread, and tighten again as before. Or draw a line across nut "
        "and plate, and look at it before each use."
    )
    return Words("Keep the nut from coming loose", says, "The line is straight. Thread locker sets in a day.")


def _watched(bench, build) -> Words:
    says = (
        "One plain nut holds by friction alone and shakes loose, and thread locker would craze the plastic. "
        "Draw a line across nut and plate; better, take a locking nut."
    )
    return Words("Watch the nut", says, "The line is straight, before each use.")


def _arm_glued(bench, build) -> Words:
    says = (
        "Slide the arm to its place, clean the shoulder under it, put glue between arm and shoulder, and "
        "wipe off what comes out before it reaches a bearing. From now on the screw is locked in the frame."
    )
    return Words(
        "Glue the arm to the shoulder", says, "Angle and end play as wanted, until the glue has set."
    )


def _first_try(bench, build) -> Words:
    joint, travel = bench.joint, seen_travel(bench.result)
    says = "Turn it by hand through its whole travel, unloaded."
    if joint.radial or joint.axial:
        loads = [f"{bench.measures.value(joint.radial, 'N').line} radial"] * bool(joint.radial)
        loads += [f"{bench.measures.value(joint.axial, 'N').line} along the screw"] * bool(joint.axial)
        says += f" Then load it in steps, up to {' and '.join(loads)}."
    says += (
        f" Move the arm's tip to and fro, {bench.length(joint.arm)} from the screw, and measure its travel."
    )
    check = f"Travel about {bench.length(travel.typical, 2)}, at most {bench.length(travel.most, 2)}."
    if force := bench.quantity("start_force"):
        check += f" It starts to turn under about {force} at the tip."
    return Words("First try", says, check)


def _finished(bench, build) -> Words:
    says = "Count the pieces that are left back into the kit."
    if build.at:
        says = f"One drop of oil on {bench.which(build.at)}; wipe off what runs out. {says}"
        if len(build.at) < len(bench.joint.bearings):
            says = says.replace(bench.which(build.at), f"the bronze bush ({bench.which(build.at)})")
    return Words("Oil and count" if build.at else "Count", says, "Kit and list agree.")


WORDS: dict[str, Callable[[Bench, Build], Words]] = {
    "lay out": seating.laid_out,
    "seat hole": seating.seat_hole,
    "plate hole": seating.plate_hole,
    "cheek holes": seating.cheek_holes,
    "arm hole": seating.arm_hole,
    "set in dry": seating.set_in,
    "slip in": seating.set_in,
    "press till it stops": seating.pressed_in,
    "press flush": seating.pressed_in,
    "fill the block": seating.block_filled,
    "try the screw": seating.tried,
    "join the plates": seating.joined,
    "glue in": seating.glued,
    "stand the screw up": _upright,
    "put the body on": _body_on,
    "push through": _pushed_through,
    "thread the rest": _beyond,
    "measure the end play": _end_play,
    "see it stand out": _stands_out,
    "put the plate on": _plate_on,
    "run the nut on": _nuts_on,
    "tighten": _tightened,
    "hold the rings": _rings_held,
    "tighten by hand": _by_hand,
    "jam the nuts": _jammed,
    "lock the nut": _locked,
    "watch the nut": _watched,
    "glue the arm": _arm_glued,
    "first try": _first_try,
    "oil and count": _finished,
}
