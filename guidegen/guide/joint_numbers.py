"""The numbers of a joint as its page tells them: play, shares of causes, checks, inputs."""

from guidegen.guide.chapters import BAND_HEADS, Chapter, Table, band_row
from guidegen.guide.measures import Both, Measures
from guidegen.guide.names import CAUSES, quantity_words
from guidegen.guide.wobble import band_of, clearances_alike, seen_travel
from guidegen.joint.records import Result
from guidegen.units import Band

PLAY = (
    "arm_play",
    "tilt",
    "seen_tilt",
    "clearance_1",
    "clearance_2",
    "load_play",
    "end_play",
    "ring_mismatch",
    "stands_proud",
)
DESIGN, CEILING = "_design", "_ceiling"
OF_MAKING = {  # inputs of what the page of the making works out: chances of holes, holding, torque of the nut
    *("spread", "freedom", "place", "square"),
    *("hoop_limit_short", "hoop_limit_long", "press_friction", "plate_thickness"),
    *("expansion", "housing_expansion", "screw_expansion", "coldest", "warmest"),
    *("water_growth", "housing_water_growth"),
    *("stiffness_lost", "bush_stiffness_lost", "running_torque", "proof_stress", "stress_area", "seat_limit"),
}


def room_chapter(result: Result, measures: Measures) -> Chapter:
    """Room to move: each with its least, typical, most and likely range."""
    rows, extra = [], extra_play(result)
    for name in PLAY:
        if name not in result.quantities or name == "clearance_2" and clearances_alike(result):
            continue
        if name == "seen_tilt" and not extra:
            continue
        rows.append(band_row(result, name, measures, _play_words(name, result, extra)))
    arm = measures.value(result.joint.arm, "mm").line
    caption = f"Over the limits of every part. Likely: nine in ten. Arm {arm}."
    table = Table("Play", caption, BAND_HEADS, tuple(rows))
    return Chapter("room", "Room to move", (table,), tuple(_all_together(result, extra, measures)))


def _play_words(name, result, extra) -> str:
    """What a row of the table of play is called, where that is not what it is called elsewhere."""
    if name == "clearance_1" and clearances_alike(result):
        return "clearance of each bearing"
    if name == "clearance_1" and result.joint.single:
        return "clearance of the bearing"
    if name == "tilt" and result.joint.single:
        return "tilt each way"
    return "wobble at the arm by the bearings alone, total travel" if name == "arm_play" and extra else ""


def _all_together(result, extra, measures):
    """The wobble that is judged, where more than the bearings lets the arm move."""
    if extra:
        seen = seen_travel(result)
        typical, most = (measures.value(mm, "mm", 2).line for mm in (seen.typical, seen.most))
        yield f"Beside the bearings {extra[0]} lets the arm tip travel: {typical} in all, at most {most}."


def input_rows(result: Result, measures: Measures) -> list[tuple[str, Both]]:
    """(words, value) of each input of the working, its bearing a bare number; equal ones of both stand once.

    Left out is what only goes into the page of the making.
    """
    rows: dict[tuple, str] = {}
    for name, quantity in result.inputs.items():
        stem, _, number = name.rpartition("_")
        if (stem if number in ("1", "2") else name) in OF_MAKING:
            continue
        words, given = quantity_words(name), _given(quantity, measures)
        if stem.endswith(CEILING):  # told with its design value, in one row
            continue
        if stem.endswith(DESIGN):
            ceiling = result.inputs[name.replace(DESIGN, CEILING)].value
            words = f"{quantity_words(name.replace(DESIGN, ''))}: stay below, never above"
            given = measures.range(quantity.value, ceiling, quantity.unit, 3)
        key = (stem if number in ("1", "2") else name, given)
        rows[key] = f"{rows[key]} and {number}" if key in rows else words
    return [(words.replace(", bearing ", " "), given) for (_, given), words in rows.items()]


def _given(quantity, measures: Measures) -> Both:
    """An input as the table of inputs prints it: a size with its limits, or one number."""
    band = band_of(quantity)
    if quantity.unit == "mm":
        return measures.limits(band)
    if band.width:
        return measures.range(band.least, band.most, quantity.unit, 3)
    return measures.value(band.typical, quantity.unit, 4)


def share_rows(result: Result) -> list[tuple[str, int]]:
    """Bars of the shares of causes, in per cent; those that change nothing are left out."""
    shown = [(CAUSES[cause], round(100 * share)) for cause, share in result.shares.items()]
    return [(words, percent) for words, percent in shown if percent]


def extra_play(result: Result) -> tuple[str, Band] | None:
    """Play beside the bearings' own: (words, tilt) of fork cheeks or of an arm on the shoulder."""
    for name, words in (
        ("cheek_tilt", "the screw in the fork's cheeks"),
        ("arm_tilt", "the arm on the shoulder, between its neighbours"),
    ):
        if name in result.quantities:
            return words, result.quantities[name].band
    return None
