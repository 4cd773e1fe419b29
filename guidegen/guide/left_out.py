"""Worked steps that say nothing new, and the sentence that stands on the page for each lot of them."""

from collections import Counter
from typing import Iterator, NamedTuple

from guidegen.guide.chapters import step_result
from guidegen.guide.models import model_of
from guidegen.joint.records import Result
from guidegen.numbers import said, show_number
from guidegen.theory.declare import FORMULAS


class LeftOut(NamedTuple):
    """Steps, by the names of what they give, that one sentence replaces; the model it stands under."""

    names: frozenset[str]
    model: str
    sentence: str


# Where nothing is pressed, what would follow from pressure is not worked out.
NO_PRESSURE = {
    "press_pressure": (
        ("hub_ratio", "bush_ratio", "ring_ratio", "press_pressure", "closure", "bore"),
        "Nothing presses on the bearing in its hole: no pressure, no closure, its bore stays",
    ),
    "ring_pressure": (
        ("inner_ring_ratio", "ring_pressure", "growth"),
        "The inner ring slides on the shaft: it does not grow",
    ),
}
ALONG = ("axial_couple", "couple_force", "thrust", "thrust_entry_1", "thrust_entry_2")
RUBBING = ("mu", "mu_f", "tau_0", "T_0", "T_l")
UNLOADED = ("statics", "beam", "sliding", "ball", "friction", "strength", "clamp")  # of their steps, most


def left_out(result: Result) -> list[LeftOut]:
    """All that the page of the working says in a sentence."""
    rules = [_no_pressure, _as_delivered, _counted, _no_load, _no_hours, _clamp_force]
    if _loaded(result):
        rules += [_half_slope, _one_sided, _worn, _shear, _running]
    return [lot for rule in rules for lot in rule(result)]


def _no_pressure(result) -> Iterator[LeftOut]:
    idle = []
    for step in result.steps:
        stem, _, number = step.gives.rpartition("_")
        if stem in NO_PRESSURE and step.result == 0:
            names, sentence = NO_PRESSURE[stem]
            idle.append((frozenset(f"{name}_{number}" for name in names), sentence, number))
    often = Counter(sentence for _, sentence, _ in idle)
    for names, sentence, number in idle:
        everywhere = often[sentence] == len(result.joint.bearings)
        yield LeftOut(names, "clearance", sentence + ("." if everywhere else f", at bearing {number}."))


def _as_delivered(result) -> Iterator[LeftOut]:
    """Internal clearance that no tight ring takes anything of."""
    for n in range(1, len(result.joint.bearings) + 1):
        name = f"mounted_clearance_{n}"
        taken = (step_result(result, f"{stem}_{n}") for stem in ("growth", "closure"))
        if step_result(result, name) is not None and not any(taken):
            says = f"The internal clearance of bearing {n} stays as delivered."
            yield LeftOut(frozenset({name}), "clearance", says)


def _counted(result) -> Iterator[LeftOut]:
    """Bore less shaft, where the clearance counts it anyhow."""
    names = frozenset(step.gives for step in result.steps if step.formula == "shaft_fit" and step.result >= 0)
    if names:
        yield LeftOut(names, "clearance", "Bore less shaft is one of the terms of the clearance.")


def _worn(result) -> Iterator[LeftOut]:
    """What counts as worn, where it is no more than the clearance once again."""
    rooms = [step for step in result.steps if step.formula == "wear_room"]
    names = frozenset(step.gives for step in rooms if step.result <= step.values["c"] * (1 + 1e-9))
    if names:
        which = "A bush" if len(names) == len(rooms) else f"The bush of bearing {min(names)[-1]}"
        yield LeftOut(names, "sliding", f"{which} counts as worn once its clearance has doubled.")


def _half_slope(result) -> Iterator[LeftOut]:
    if any(step.formula == "overhung_slope_1" for step in result.steps):
        yield LeftOut(frozenset({"slope_1"}), "beam", "At bearing 1 the slope is half that at bearing 2.")


def _one_sided(result) -> Iterator[LeftOut]:
    names = frozenset(step.gives for step in result.steps if step.formula == "one_sided_growth")
    if names:
        says = "The load stands still in the bush: its clearance grows by the depth worn, no more."
        yield LeftOut(names, "sliding", says)


def _no_load(result) -> Iterator[LeftOut]:
    if _loaded(result):
        if not result.joint.axial:
            says = "Nothing pushes along the screw: no couple, no thrust."
            yield LeftOut(frozenset(ALONG), "statics", says)
        return
    zero = [step for step in result.steps if step.result == 0]
    nought = frozenset(step.gives for step in zero if model_of(FORMULAS[step.formula]) in UNLOADED)
    yield LeftOut(nought, "statics", "No load is given: what would follow from one is nought.")


def _loaded(result):
    return bool(result.joint.radial or result.joint.axial)


def _no_hours(result) -> Iterator[LeftOut]:
    """Turns of a swing count for hours only."""
    if "life_hours" not in result.quantities and step_result(result, "swing_turns") is not None:
        says = "Without a rating life there are no hours to work out from the turns that a swing is worth."
        yield LeftOut(frozenset({"swing_turns", "swing_turn_rate"}), "ball", says)


def _shear(result) -> Iterator[LeftOut]:
    factor = step_result(result, "shear_factor")
    if factor is not None:  # else it is what sets the factor on yield
        says = f"In shear the shoulder bears {show_number(factor, 2)} times its load; that does not rule."
        yield LeftOut(frozenset({"shear_stress", "shear_factor"}), "strength", says)


def _clamp_force(result) -> Iterator[LeftOut]:
    """What the torque gives when new is what it was set for."""
    force = step_result(result, "clamp_at_first")
    if force is not None:
        says = (
            f"Just tightened, and with the middle nut factor, it clamps with {said(force, 'N', 4)}; why that "
            "much stands on the page by which it is made."
        )
        yield LeftOut(frozenset({"clamp_at_first"}), "clamp", says)


def _running(result) -> Iterator[LeftOut]:
    """The parts of the torque to keep turning, worked as those to start it with the same loads."""
    steps = {step.gives: step for step in result.steps}
    parts = {name: f"start_{name[4:]}" for name in steps if name.startswith("run_") and name != "run_torque"}
    if parts and all(_same_but_rubbing(steps[name], steps.get(start)) for name, start in parts.items()):
        says = "To keep it turning, each part is worked as above, with the inputs' running coefficients."
        yield LeftOut(frozenset(parts), "friction", says)


def _same_but_rubbing(step, other):
    """Whether two steps differ in nothing but what is known of friction."""
    if other is None or step.formula != other.formula:
        return False
    return all(value == other.values[name] for name, value in step.values.items() if name not in RUBBING)
