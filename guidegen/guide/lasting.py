"""How long a joint lasts, as its page tells it: bushes wear, ball bearings dent and tire."""

from math import degrees
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
from guidegen.guide.measures import Measures
from guidegen.guide.names import quantity_words
from guidegen.guide.reasons import EDGE, at_edge
from guidegen.guide.templates import upper_first
from guidegen.guide.worn_line import worn_line, worn_of
from guidegen.joint.records import Joint, Result
from guidegen.joint.wear import turns_round
from guidegen.kit.lookup import columns_of
from guidegen.kit.records import BallBearing
from guidegen.numbers import said, show_number
from guidegen.theory.ball import SLOWEST, reliability_factor, reliable_life, swing_life

SURE = 99  # per cent of bearings that a reader may want to be sure of
STEMS = {"shock_pressure": "pressure", "pressure": "pressure", "sliding_speed": "sliding_speed", "pv": "pv"}
STATIC_WANTED = "Static factor: 2 wanted, 3 to run smoothly after a drop."
RATINGS = {"dynamic_rating": "ISO 281", "static_rating": "ISO 76"}


def lasting_chapter(result: Result, measures: Measures, wanted: float) -> Chapter:
    """Limits, wear and the growth of wobble of bushes; ratings and life of balls. `wanted`: wobble, mm."""
    balls = [n for n, bearing in enumerate(result.joint.bearings, 1) if isinstance(bearing, BallBearing)]
    bushes = [n for n in range(1, len(result.joint.bearings) + 1) if n not in balls]
    tables = (
        _bush_table(result, bushes, measures),
        *_worn_table(result, measures, wanted),
        _ball_table(result, balls, measures),
    )
    sentences = (*_bush_says(result, bushes, measures), *_ball_says(result, balls, measures))
    return Chapter("lasts", "How long it lasts", present(tables), sentences)


def motion_words(joint: Joint) -> str:
    """How the joint moves, in a few words."""
    motion = joint.motion
    if motion.kind == "hand":
        return "moved by hand"
    per_minute = show_number(60 * motion.rate, 3)
    if motion.kind == "turn":
        return f"turning {per_minute} times a minute"
    return f"swinging through {show_number(degrees(motion.angle), 3)}° and back, {per_minute} times a minute"


def _worn_table(result, measures, wanted) -> Iterator[Table]:
    """Wobble after so many cycles, with its figure, where bushes wear."""
    worn = worn_of(result)
    if worn:
        figure = worn_line(worn, wanted, step_result(result, "cycles_wanted"), measures)
        caption = "Wobble at the arm as the bushes wear, bearings alone."
        rows = _worn_rows(result, worn, measures)
        yield Table("Worn", caption, ENDS, rows, what="Cycles", figure=figure.svg, figure_says=figure.says)


def _worn_rows(result, worn, measures) -> tuple[Row, ...]:
    """Wobble after so many cycles; neighbours that print alike share a row."""
    rows: list[Row] = []
    for name, cycles in worn.cycles.items():
        cells, count = ends_of(result, name, measures), said(cycles, "-") if cycles else "new"
        if rows and rows[-1].cells == cells:
            first = rows[-1].words.partition(" to ")[0]
            rows[-1] = Row((*rows[-1].names, name), f"{first} to {count}", cells)
        else:
            rows.append(Row((name,), count, cells))
    return tuple(rows)


def _bush_table(result, bushes, measures):
    rows = []
    for stem, limit in STEMS.items():
        for n in bushes:
            name = f"{stem}_{n}" if f"{stem}_{n}" in result.quantities else stem
            quantity = result.quantities.get(name)
            if quantity and quantity.value and not any(name in row.names for row in rows):
                limits = (result.inputs[f"{limit}_{end}_{n}"] for end in ("design", "ceiling"))
                cells = (measures.sensed(quantity.value, quantity.unit), *map(measures.quantity, limits))
                words = EDGE if stem == "pressure" and at_edge(result) else quantity_words(name)
                rows.append(Row((name,), words, cells))
    caption = f"Bushes, {motion_words(result.joint)}: design value and ceiling of the material."
    return Table("Bushes", caption, ("here", "stay below", "never above"), folded(rows, result.joint.single))


def _bush_says(result, bushes, measures) -> Iterator[str]:
    if not bushes:
        return
    joint, quantities = result.joint, result.quantities
    if "edge_factor_1" in quantities:  # of a bush that is alone
        times = show_number(quantities["edge_factor_1"].value, 3)
        yield (
            f"The load lies off the middle of the bush: its edge is pressed {times} times as hard as the "
            "mean. The material's limits are for the mean; the edge is held to them too, on the safe side."
        )
    if why := reason(result, "edge"):
        yield f"Edge: {why}."
    if not any(quantities[f"pressure_{n}"].value for n in bushes if f"pressure_{n}" in quantities):
        yield "No load presses on a bush: nothing wears."
    elif joint.motion.kind == "hand":
        yield "Moved by hand: too slow to run warm, too seldom to count its cycles; no wear is told."
    elif "wear_cycles" not in quantities:
        yield "The shaft has no room in its bush, and had none before pressing: no wear is told."
    else:
        yield from _wear(result, measures)


def _wear(result, measures):
    """Cycles until a bush is worn, against those wanted, and which side of the bush wears."""
    joint, worn = result.joint, result.quantities["wear_cycles"]
    typical, low, high, least = (
        measures.value(x, "-", 2).first for x in (worn.typical, *worn.likely, worn.band.least)
    )
    likely = f"nine in ten between {low} and {high}" if worn.likely[0] >= 1 else f"nine in ten within {high}"
    worst = f"at worst after {least}" if worn.band.least >= 1 else "at worst at once"
    wanted = limits_of(result).get("wear")
    told = f"; wanted: {said(wanted, '-')}, {show_number(joint.motion.hours, 3)} h of it" if wanted else ""
    yield f"A bush counts as worn once its clearance has grown by {_worn_by(result, measures)}."
    yield (
        f"It is worn after typically {typical} cycles, {likely}, {worst}{told}. Wear rates scatter that much."
    )
    if turns_round(joint):
        how, grown = "turns round in the bush and wears it all round", "twice the depth worn"
    else:
        how, grown = "stands still in the bush and wears it on one side", "the depth worn"
    yield f"The load {how}: its clearance grows by {grown}."


def _worn_by(result, measures) -> str:
    """The growth that counts as worn, of the bush that is worn first, and where it comes from."""
    lasting = [step for step in result.steps if step.formula == "wear_cycles"]
    n = min(lasting, key=lambda step: step.result).gives[-1]
    room = next(step for step in result.steps if step.gives == f"wear_room_{n}")
    doubled = room.result <= room.values["c"] * (1 + 1e-9)
    whence = "its own size, that is, doubled" if doubled else "what the bush had before it was pressed in"
    return f"{measures.value(room.result, 'mm', 2).line}, {whence}"


def _ball_table(result, balls, measures):
    rows = []
    steps = {step.gives for step in result.steps}
    for stem, standard in RATINGS.items():
        for n in balls:
            name = f"{stem}_{n}"
            whence = f"by {standard} from its balls" if name in steps else "the part's own catalogue value"
            words = quantity_words(name).replace(",", f" ({whence}),")
            if name in result.inputs:
                rows.append(Row((name,), words, (measures.quantity(result.inputs[name]),)))
    for stem in ("static_factor", "rating_life"):
        for n in balls:
            name = f"{stem}_{n}"
            if name not in result.quantities:
                continue
            value = result.quantities[name].value
            cell = measures.factor(value) if stem == "static_factor" else measures.value(value, "10⁶")
            rows.append(Row((name,), quantity_words(name), (cell,)))
    caption = f"Ball bearings, {motion_words(result.joint)}. {STATIC_WANTED}"
    return Table("Ball bearings", caption, ("value",), folded(rows, result.joint.single), flat=True)


def _ball_says(result, balls, measures) -> Iterator[str]:
    """Hours against those wanted, or why there are none."""
    if not balls:
        return
    joint, quantities = result.joint, result.quantities
    if not any(f"static_factor_{n}" in quantities for n in balls):
        yield "No load presses on a ball bearing: nothing tires, there is no life to tell."
        return
    refused = [upper_first(why) for about in ("life", "swing") if (why := reason(result, about))]
    if "life_hours" in quantities:
        wanted = limits_of(result).get("life")
        told = f"; wanted: {said(wanted, 'h')}" if wanted else ""
        hours = said(quantities["life_hours"].value, "h")
        yield f"Nine in ten such bearings last {hours} of this motion{told}."
        yield from _surer(result, balls, hours)
    elif refused:
        yield from (f"{why}." for why in refused)
    elif joint.motion.kind == "hand":
        yield "Moved by hand: no hours to tell; judge by the static factor."
    elif _rate(result) < SLOWEST:
        turns, least = show_number(60 * _rate(result), 2), show_number(60 * SLOWEST)
        yield f"It makes {turns} turns a minute, under {least}: no hours to tell; judge by the static factor."
    else:
        yield "The load along the screw alone tires no bearing here: no life to tell."


def _surer(result, balls, hours) -> Iterator[str]:
    """Hours that more of them last, where it says more; of a swing, how many swings nine in ten last."""
    factor, _ = reliability_factor(SURE, columns_of("a1_iso281"))
    sure = said(reliable_life(float(factor), result.quantities["life_hours"].value), "h")
    if sure != hours:
        yield f"Ninety-nine in a hundred last {sure}."
    if result.joint.motion.kind == "swing" and sure != hours:
        life = min(q.value for name, q in result.quantities.items() if name.startswith("rating_life"))
        overlap = max(step_result(result, f"outer_overlap_{n}") or 0.0 for n in balls)
        swings = float(swing_life(life, result.joint.motion.angle, overlap))
        yield f"In swings there and back, nine in ten last {said(swings, '-')}."


def _rate(result):
    """Turns a second that the motion is worth."""
    motion = result.joint.motion
    return motion.rate if motion.kind == "turn" else step_result(result, "swing_turn_rate") or 0.0
