"""How tight the bearings of a joint sit, and what cold, warmth and damp do: two chapters on its making."""

from typing import Iterator

from guidegen.guide.chapters import ENDS, Chapter, Row, Table, ends_of, folded, present, reason, step_result
from guidegen.guide.measures import MANY_TIMES, Measures
from guidegen.guide.names import FITS, quantity_words
from guidegen.guide.templates import upper_first
from guidegen.joint.climate import KEPT_AT, Climate, climates
from guidegen.joint.inputs import Seat, seats
from guidegen.joint.records import Housing, Result
from guidegen.kit.lookup import press_friction, stress_relaxation
from guidegen.kit.records import BallBearing, Course, Part
from guidegen.numbers import percent, show_number
from guidegen.theory.grip import (
    alike_all_ways,
    floor_hole,
    hoop_pressure,
    push_force,
    push_pin,
    push_pin_circle,
)
from guidegen.theory.heat import MEASURED_AT, slipping_rise
from guidegen.theory.holes import closing_pressure
from guidegen.theory.pressfit import hub_ratio

GRIP = (
    "interference",
    "push_force",
    "holding_torque",
    "holding_torque_later",
    "hub_stress",
    "hub_stress_later",
)
ROOMS = tuple(f"{what}_{when}" for what in ("clearance", "interference") for when in ("cold", "hot", "damp"))
PLAYS = ("end_play_cold", "end_play_hot", "end_play_damp")
GROWING = ("bearing_growth", "housing_growth", "screw_growth", "shaft", "bore", "bore_free", "swelling")
WORKED = frozenset(  # the steps behind these numbers, by the names of what they give
    {
        *GRIP,
        *("press_pressure_later", "housing_later", "bush_later", "engaged_length"),
        *("spinning_torque", "hold_factor", "hold_factor_later", "edge_ratio", "seizing_growth"),
        *ROOMS,
        *PLAYS,
        *(
            f"{what}_{when}"
            for what in (*GROWING, "press_pressure", "closure", "mounted_clearance")
            for when in ("cold", "hot", "damp")
        ),
    }
) - {"interference"}
BY_HAND, IN_VICE = 100.0, 4000.0  # N, that thumbs and a small bench vice push with; common practice
WARMEST_OVEN = 150.0  # K that a metal plate may be warmed by for pressing; common practice
SLIPS_IN = 0.01  # mm, of gap that a warmed hole should leave; common practice
LEDGE = 0.8  # mm, that the floor of a blind seat leaves all round; common practice


def holding(result: Result, course: Course, measures: Measures) -> tuple[Chapter, ...]:
    """The chapters on how tight the bearings sit, and on warmth, cold and damp."""
    known = list(zip(range(1, 3), seats(result.joint, course), result.joint.housings))
    tight = _table(result, GRIP, "Fit", "How tight, over the limits of all sizes and of friction.", measures)
    room = _table(result, ROOMS, "Weather", "What warmth, cold and damp leave of it.", measures)
    plays = _table(result, PLAYS, "End play", "End play of unmeasured parts then.", measures)
    weather = climates(result.joint)
    return (
        Chapter("tight", "How tight", present((tight,)), tuple(_tight(result, known, measures))),
        Chapter(
            "weather",
            "Hot, cold and wet",
            present((room, plays)),
            tuple(_weather(result, known, course, weather, measures)),
        ),
    )


def _table(result: Result, names, label, caption, measures) -> Table:
    """Quantities of one or both bearings, or of the stack, with their bands."""
    pressed = {n for n, housing in enumerate(result.joint.housings, 1) if housing.fit == "press"}
    wanted = (of for name in names for of in (f"{name}_1", f"{name}_2", name))
    rows = (
        Row((of,), quantity_words(of), ends_of(result, of, measures))
        for of in wanted
        if of in result.quantities and (names is not GRIP or int(of[-1]) in pressed)
    )
    return Table(label, caption, ENDS, folded(rows, result.joint.single))


def _tight(result: Result, known, measures) -> Iterator[str]:
    """How each bearing is held, pushed in and taken out again; what is alike of both, once."""
    told: dict[str, list[int]] = {}
    for n, seat, housing in known:
        of = _of_press if housing.fit == "press" else _of_others
        for sentence in of(result, n, seat, housing, measures):
            told.setdefault(sentence, []).append(n)
    for sentence, bearings in told.items():
        alone = len(bearings) < len(known)
        yield f"Bearing {bearings[0]}: {sentence[0].lower()}{sentence[1:]}" if alone else sentence
    if why := reason(result, "edge distance"):
        yield f"{why[0].upper()}{why[1:]}."


def _of_press(result, n, seat: Seat, housing: Housing, measures) -> Iterator[str]:
    stock = housing.stock
    force = result.quantities[f"push_force_{n}"].band
    if not force.most:
        yield "At none of these sizes does the hole grip the bearing: it is pressed in by name only."
        return
    with_what = f"{tool_for(force.typical)}: {_said(force.typical, 'N', measures)}"
    yield f"Press it in {with_what}. {square_words(seat)}"
    stops, why = _stopping_force(result, n, seat, stock)
    if force.typical < stops < force.most:
        yield (
            f"Stop where it takes more than about {_said(stops, 'N', measures)}: the hole is too small "
            f"then, {why}. Open it a little."
        )
    if not alike_all_ways(stock.kind):
        why = "has a grain" if stock.kind == "wood" else "lies in layers"
        yield f"An estimate: {stock.name} {why}, and the rings reckoned here are alike all round."
    yield from _holds(result, n)
    yield _fades(stock)
    rise = warm_in(seat, stock)
    if rise:
        yield (
            f"Warmed by {show_number(rise, 2)} K more than the bearing, to about "
            f"{show_number(MEASURED_AT + rise, 2)} °C, the plate lets a middling one slip in with "
            f"{_said(SLIPS_IN, 'mm', measures)} to spare, without force. Wear gloves: it burns."
        )
    yield f"To take it apart: {apart_words(seat.bearing, measures)}"


def _stopping_force(result, n, seat: Seat, stock) -> tuple[float, str]:
    """What pushes a bearing into a hole so small that its wall cracks or its bore closes, N; and which."""
    length = step_result(result, f"engaged_length_{n}") or seat.width
    ring = seat.ring
    cracks = hoop_pressure(stock.hoop_limit_short, hub_ratio(seat.hub, seat.outside.typical))
    closes = closing_pressure(ring.room, ring.outside, ring.inside, ring.modulus)
    why = "and its wall near cracking" if cracks <= closes else "and all room inside the bearing is taken"
    friction = press_friction(stock.kind).typical
    return push_force(friction, seat.outside.typical, length, min(cracks, closes)), why


def _holds(result, n) -> Iterator[str]:
    """How many times its own friction a bearing is held against."""
    now, then = (result.quantities.get(f"hold_factor{when}_{n}") for when in ("", "_later"))
    if now and now.typical:
        yield (
            f"Its own friction, with shock, would turn it in the hole: the press holds {_times(now.typical)} "
            f"times as much, after a year {_times(then.typical)} times."
        )


def _times(factor: float) -> str:
    return f"over {MANY_TIMES}" if factor > MANY_TIMES else show_number(factor, 2)


def _fades(stock) -> str:
    """What creep takes of a press with time."""
    if stock.kind == "metal":
        return f"{upper_first(stock.name)} hardly creeps: the press stays."
    day, year = (stress_relaxation(stock.kind, after) for after in ("day", "year"))
    said = (
        f"{upper_first(stock.name)} creeps: of its stiffness {percent(day.typical)} is gone in a day, "
        f"{percent(year.typical)} in a year ({percent(year.least)} to {percent(year.most)}), and of the grip "
        "about as much."
    )
    return said + " In a closed car in the sun a print can let go within hours." * (stock.kind == "print")


def _of_others(result, n, seat: Seat, housing: Housing, measures) -> Iterator[str]:
    """A bearing that is not pressed in."""
    if housing.fit == "bonded":
        yield (
            f"{FITS['bonded'].capitalize()}: nothing is squeezed. The film of glue holds it; how strong glue "
            "is, no table here tells. Roughen and degrease the seat, and test one before you trust it."
        )
        yield f"To take it apart, if the glue lets go: {apart_words(seat.bearing, measures)}"
    else:
        yield (
            f"{FITS['slip'].capitalize()}: nothing in the fit holds it. Give it a lip, a plate on each side, "
            "the heads of screws over its face, or a drop of glue on the seat."
        )


def tool_for(force: float) -> str:
    """What pushes with such a force, N."""
    if force <= BY_HAND:
        return "by hand"
    return "with a vice with soft jaws" if force <= IN_VICE else "under an arbor press"


def square_words(seat: Seat) -> str:
    """How to start and what to push on."""
    if seat.ball:
        return "Push on the outer ring alone, never through the balls; start it square."
    return "Start it square by its chamfer, a pin of the shoulder's size through the bore."


def warm_in(seat: Seat, stock) -> float | None:
    """How much warmer a metal plate alone must be for a middling bearing to slip in, K; None if no use."""
    if stock.kind != "metal" or seat.outside.typical <= seat.hole.typical:
        return None
    rise = float(
        slipping_rise(seat.outside.typical, seat.hole.typical, g_slip=SLIPS_IN, alpha_h=stock.expansion)
    )
    return rise if rise <= WARMEST_OVEN else None


def apart_words(bearing: Part, measures) -> str:
    """How a bearing comes out again: from behind, or through holes in the floor of a blind seat."""
    outside, land = bearing.outside_diameter.typical, land_of(bearing)
    pin, circle = (float(of(outside, land)) for of in (push_pin, push_pin_circle))
    face = "outer ring" if isinstance(bearing, BallBearing) else "end"
    hole = float(floor_hole(outside, LEDGE))
    through = (
        f"a hole of {_said(hole, 'mm', measures)} in it lets a drift reach the {face}"
        if hole > land
        else f"no single hole in it reaches the {face}"
    )
    return (
        f"push on the {face} from behind with a tube. A seat with a floor needs knock-out holes: {through}; "
        f"or two or three holes on a circle of {_said(circle, 'mm', measures)} take pins up to "
        f"{_said(pin, 'mm', measures)}."
    )


def land_of(bearing: Part) -> float:
    """What a drift must stay outside of, mm: the outer land of a ball bearing, the bore of a bush."""
    if isinstance(bearing, BallBearing):
        return bearing.outer_land
    return (bearing.free_bore if hasattr(bearing, "free_bore") else bearing.hole).typical


def _weather(result, known, course: Course, weather, measures) -> Iterator[str]:
    """Where it stands, what goes wrong there, and what is not reckoned."""
    cold, hot, damp = weather
    yield (
        f"It stands here: {result.joint.place.name}, {_degrees(cold)} to {_degrees(hot)} °C, "
        f"{show_number(damp.air.least)} to {show_number(damp.air.most)} % humidity. Sizes hold at "
        f"{MEASURED_AT:g} °C (ISO 1) and in air of {show_number(KEPT_AT)} % humidity; "
        "standoffs are taken as steel."
    )
    for about in ("heat", "water"):
        said = reason(result, about)
        if said:
            yield f"{said[0].upper()}{said[1:]}."
    swells = [seat for _, seat, _ in known if course.materials[seat.bearing.material].swells]
    if swells:
        yield (
            "A wall that swells in its hole has nowhere to go but inwards. Reckoned is the worst: all "
            "squeeze crept away, the ends held. Thin walls take days to drink, 6 mm of nylon months; dried "
            "again, the bush is loose."
        )
    if any(housing.stock.kind == "wood" for _, _, housing in known):
        yield (
            "That boards swell is in no number here: several per cent of their thickness in damp air. Set "
            "the end play where the joint stands, and look at it again after a wet month."
        )


def _degrees(climate: Climate) -> str:
    return show_number(MEASURED_AT + climate.rise)


def _said(x: float, unit: str, measures) -> str:
    return measures.value(x, unit, 2).line
