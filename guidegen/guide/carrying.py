"""What a joint carries, as its page tells it: forces, bending, what screw and nut bear."""

from typing import Iterator

from guidegen.guide.chapters import (
    ENDS,
    Chapter,
    Row,
    Table,
    ends_of,
    folded,
    limits_of,
    present,
    reason,
    step_result,
)
from guidegen.guide.measures import Both, Measures
from guidegen.guide.names import quantity_words
from guidegen.joint.records import Joint, Result
from guidegen.joint.strength import tires
from guidegen.joint.wear import HALF_TURN
from guidegen.theory.clamp import arm_deflection, arm_stress

FORCES = ("reaction_1", "reaction_2", "bearing_load_1", "bearing_load_2", "thrust")
SHAFT = (
    "shaft_moment",
    "bending_stress",
    "shear_stress",
    "neck_stress",
    "yield_factor",
    "endurance_factor",
    "deflection",
    "thread_room",
)
FACTORS = ("yield_factor", "endurance_factor")
NUT = {"clamp_given": "clamp", "seat_pressure": "seat", "clamp_torque": "clamp torque"}  # and their checks
AT_LEAST = ("clamp_given", "clamp_torque")
# The steps behind the torque of the nut, by the names of what they give: told where the nut is tightened.
WORKED = ("clamp_limit", "pressed_limit", "clamp_to_set", "set_torque")
UNASKED = Both("nothing asked", "")


def carried_chapter(result: Result, place: str, measures: Measures) -> Chapter:
    """Reactions, worst loads, moment, stress, factors, deflection, and the nut. `place`: of the load."""
    joint = result.joint
    loaded = bool(joint.radial or joint.axial)
    shown = [name for name in (*FORCES, *SHAFT) if name in result.quantities and _shown(result, name)]
    rows = [_row(result, name, measures) for name in shown]
    under = [f"{measures.value(joint.radial, 'N').line} radial, {place}"] * bool(joint.radial)
    under += [f"{measures.value(joint.axial, 'N').line} along the screw at the arm"] * bool(joint.axial)
    caption = f"Under {', and '.join(under)}" if loaded else "Without a load"
    if loaded and joint.shock != 1:
        caption += f"; forces, moment and stress × {joint.shock:g} for shock"
    nut = [
        Row((name,), quantity_words(name), (*ends_of(result, name, measures, 3), wanted))
        for name, wanted in _wanted_of_the_nut(result, measures)
    ]
    holds = "What the nut holds; friction of the thread scatters."
    tables = (
        Table("Loads", f"{caption}.", ("value",), folded(rows, joint.single), flat=True),
        Table("The nut", holds, (*ENDS, "wanted"), tuple(nut)),
    )
    return Chapter("carries", "What it carries", present(tables), tuple(_sentences(result, loaded, measures)))


def ruling(result: Result) -> str:
    """What sets the factor on yield, of bending, shear and neck the least; "" for bending."""
    steps = {step.gives: step.formula for step in result.steps}
    if steps.get("yield_factor") == "shear_factor":
        return "in shear"
    return "of the neck" if "bending_factor" in steps and "yield_factor" in steps else ""


def _shown(result, name):
    if name == "shear_stress":
        return ruling(result) == "in shear"
    return name == "thread_room" or result.quantities[name].typical != 0


def _row(result, name, measures):
    quantity, words = result.quantities[name], quantity_words(name)
    if name == "deflection":
        cell = measures.bend(quantity.typical)
    elif name in FACTORS:
        cell = measures.factor(quantity.typical)
        words += f" {ruling(result)}".rstrip() * (name == "yield_factor")
    else:
        cell = measures.quantity(quantity)
    return Row((name,), words, (cell,))


def _wanted_of_the_nut(result, measures) -> Iterator[tuple[str, Both]]:
    limits = limits_of(result)
    for name, about in NUT.items():
        if name in result.quantities:
            sense, limit = "at least" if name in AT_LEAST else "at most", limits.get(about)
            unit = result.quantities[name].unit
            yield name, measures.value(limit, unit).after(sense) if limit else UNASKED


def _sentences(result, loaded, measures) -> Iterator[str]:
    joint = result.joint
    if not loaded:
        yield "No load is given: nothing presses on the bearings, and nothing bends the screw."
    elif not joint.axial:
        yield "Nothing pushes along the screw: no thrust, no couple."
    elif not joint.radial:
        yield "The load along the screw is all: its couple alone presses on the bearings, either way."
    if told := couple_words(result, measures):
        yield told
    moment = step_result(result, "bearing_moment")
    if joint.single and moment:
        yield (
            f"The one bearing must hold a moment of {measures.value(moment, 'N·mm').line} as well; "
            "a pair would turn it into two forces."
        )
    yield from _arm_bends(joint, measures)
    yield from _tiring(result, loaded)
    yield from _nut(result, measures)


def _arm_bends(joint: Joint, measures) -> Iterator[str]:
    """What the arm itself gives way under the load along the screw, a flat bar as wide as it is drawn."""
    arm = joint.arm_plate if joint.arm_between else joint.on_thread if joint.layout == "A" else None
    wide = 2 * joint.housings[0].edge
    hole = joint.shaft.nominal if joint.arm_between else joint.thread.diameter
    if arm is None or not joint.axial or wide <= hole:
        return
    stock, thick = arm.stock, arm.stock.thickness.typical
    y = arm_deflection(joint.axial, joint.arm, stock.modulus_along, wide, thick)
    sigma = arm_stress(joint.shock, joint.axial, joint.arm, wide, hole, thick)
    width, stress = measures.value(wide, "mm").line, measures.value(sigma, "MPa", 2).line
    bends = measures.bend(y).line
    shock = ", with shock" if joint.shock != 1 else ""
    yield (
        f"The arm itself, {stock.name}, {width} wide as drawn, bends {bends} at its end under "
        f"the load along the screw; {stress} at its hole{shock}. A wider or thicker arm bends less."
    )


def couple_words(result: Result, measures: Measures) -> str:
    """Why a bearing of a pair carries more than its reaction; "" without a load along the screw."""
    joint, force = result.joint, result.quantities.get("couple_force")
    if force is None or not force.value or not joint.radial:
        return ""
    along, arm = measures.value(joint.axial, "N").line, measures.value(joint.arm, "mm").line
    shock = ", with shock," if joint.shock != 1 else ""
    return (
        f"Reactions, here and in the drawing, are those of the radial load alone. The {along} along the "
        f"screw at the arm, {arm} off the axis, add a couple: {measures.value(force.value, 'N').line}{shock} "
        "at each bearing, one way or the other. Both together make the worst radial load."
    )


def _tiring(result, loaded) -> Iterator[str]:
    """Whether the load goes round the screw, or why only yield is told."""
    motion = result.joint.motion
    if "endurance_factor" in result.quantities:
        if motion.kind == "swing" and motion.angle < HALF_TURN:
            yield "For endurance a swing counts as a load that goes round the screw: that is the safe side."
    elif loaded and "yield_factor" in result.quantities:
        if motion.kind == "hand":
            yield "Moved by hand: judged by yield alone, not by fatigue."
        elif tires(result.joint):
            yield "Nothing bends the screw to and fro: judged by yield alone."
        else:
            yield "The load does not go round the screw: judged by yield alone, nothing tires it."
    elif loaded:
        yield "Where the screw is held is not known: no moment, no stress."


def _nut(result, measures) -> Iterator[str]:
    quantities, joint = result.quantities, result.joint
    if "set_torque" in quantities:
        torque, by = measures.torque(quantities["set_torque"].value).line, _bears_least(result)
        if kept_by_insert(result):
            yield _felt(result, torque, by, measures)
        else:
            yield f"Set the nut to {torque}, as much as {by} bears; with time the clamp loses force."
        if joint.layout == "C":
            yield (
                "The nut presses both cheeks on the rings between them. The fork must let it: one cheek "
                "gives along the screw, or the cheeks stand just so far apart."
            )
        if "neck_stress" in quantities:
            yield "With time the clamped face opens under this load, and the neck alone carries it."
    elif why := reason(result, "clamp"):
        yield f"Nothing to clamp: {why}."
    elif result.stack is not None and not joint.plate_on_thread:
        yield (
            "The nut stands on the end of the shoulder and clamps nothing but its washer: "
            "it only keeps the screw in."
        )


def kept_by_insert(result: Result) -> bool:
    """Whether a locking nut holds the joint, which takes a torque just to run on."""
    return any(step.gives == "set_torque" and step.about for step in result.steps)


def _felt(result, torque, by, measures):
    running = result.inputs.get("running_torque")
    takes = (
        f"of a new nut up to {measures.torque(running.value).line}, of a used one less"
        if running
        else "no table here tells how much for this thread"
    )
    return (
        f"Turn the locking nut on and feel what its insert takes ({takes}); tighten by {torque} beyond that, "
        f"as much as {by} bears. With time the clamp loses force."
    )


def _bears_least(result):
    """Screw, or what is pressed: what sets how hard the nut may be tightened."""
    screw, pressed = (
        next(step for step in result.steps if step.gives == name) for name in ("clamp_limit", "pressed_limit")
    )
    return f"the {pressed.about.rpartition(': ')[2]}" if pressed.result < screw.result else "the screw"
