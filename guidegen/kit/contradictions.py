"""Where a record contradicts itself, its standard or plain geometry.

Each finding is (column, found, allowed) and then, where it helps, what to do.
"""

from functools import singledispatch
from math import pi

from guidegen.kit.lookup import (
    OutsideTable,
    clearance_group,
    limits_of_class,
    thread,
    threads,
)
from guidegen.kit.metals import finishes
from guidegen.kit.records import (
    LEAST_KERF,
    MOST_KERF,
    NO_METAL,
    BallBearing,
    Material,
    Nut,
    Process,
    Record,
    ShoulderScrew,
    SleeveBushing,
    SlidingMaterial,
    Spacer,
    Stock,
    Surroundings,
    Washer,
)

NEAR_NOMINAL = 0.2  # mm; a size further from its nominal is another part
LOOSEST_SPACER = 1.5  # mm over nominal
STOCK_KINDS = ("metal", "plastic", "wood", "print")


@singledispatch
def contradictions(record: Record):
    """What is wrong with a record although each of its cells is right."""
    yield from ()


def _inside_outside(hole, outside, column):
    if hole.most >= outside.least:
        yield (
            column,
            f"a {column.replace('_', ' ')} up to {hole.most:g} mm",
            f"less than the outside diameter ({outside.least:g} mm at least)",
        )


def _near_nominal(column, size, nominal):
    if abs(size.typical - nominal) > NEAR_NOMINAL:
        yield (
            column,
            f"{size.typical:g} mm in the middle of its limits",
            f"within {NEAR_NOMINAL:g} mm of the nominal {nominal:g} mm",
        )


def _known_thread(name):
    if name not in threads():
        yield "thread", f'"{name}"', "one of " + ", ".join(threads())


@contradictions.register
def _screw(screw: ShoulderScrew):
    yield from _near_nominal("shoulder_diameter", screw.shoulder_diameter, screw.nominal)
    if screw.head_diameter.least <= screw.shoulder_diameter.most:
        yield (
            "head_diameter",
            f"{screw.head_diameter.least:g} mm at least",
            f"more than the shoulder ({screw.shoulder_diameter.most:g} mm at most)",
        )
    if screw.neck_width >= screw.thread_length:
        yield (
            "neck_width",
            f"{screw.neck_width:g} mm",
            f"less than the thread length ({screw.thread_length:g} mm), which counts the neck",
        )
    if screw.socket >= screw.head_diameter.least:
        yield (
            "socket",
            f"{screw.socket:g} mm across flats",
            f"less than the head ({screw.head_diameter.least:g} mm)",
        )
    yield from _known_thread(screw.thread)
    if screw.thread in threads():
        across = thread(screw.thread).diameter
        if across >= screw.shoulder_diameter.least:
            yield (
                "thread",
                f"{screw.thread}, {across:g} mm across",
                f"a thread smaller than the shoulder ({screw.shoulder_diameter.least:g} mm at least)",
            )
        if screw.neck_diameter.most >= across:
            yield (
                "neck_diameter",
                f"{screw.neck_diameter.most:g} mm at most",
                f"less than the thread ({screw.thread}, {across:g} mm)",
            )


@contradictions.register
def _bushing(bush: SleeveBushing):
    yield from _near_nominal("free_bore", bush.free_bore, bush.nominal)
    yield from _inside_outside(bush.free_bore, bush.outside_diameter, "free_bore")
    wall = (bush.outside_diameter.least - bush.free_bore.most) / 2
    if wall > 0 and bush.chamfer >= min(wall, bush.length.least / 2):
        yield "chamfer", f"{bush.chamfer:g} mm", f"less than the wall ({wall:g} mm) and half the length"


@contradictions.register
def _bearing(bearing: BallBearing):
    yield from _near_nominal("bore", bearing.bore, bearing.nominal)
    yield from _inside_outside(bearing.bore, bearing.outside_diameter, "bore")
    try:
        group = clearance_group(bearing.nominal, bearing.clearance_group)
    except OutsideTable as wrong:
        yield "clearance_group", str(wrong), "a group of ISO 5753-1, CN as a rule, or MC1 to MC6"
    else:
        clearance = bearing.internal_clearance
        if clearance.least < group.least - 1e-9 or clearance.most > group.most + 1e-9:
            yield (
                "internal_clearance",
                f"{clearance.least:g} to {clearance.most:g} mm",
                f"within group {bearing.clearance_group}: {group.least:g} to {group.most:g} mm",
                "Leave the cell empty to take the group's.",
            )
    ratings = {name: getattr(bearing, name) for name in ("dynamic_rating", "static_rating")}
    for column in (name for name, rating in ratings.items() if rating is None and any(ratings.values())):
        yield column, "no rating beside the other one", "both ratings of one catalogue, or neither"
    yield from _balls(bearing)


def _balls(bearing):
    """Balls on their circle, then the lands beside it; one mistake at most is told, as each makes others."""
    bore, outside = bearing.bore.typical, bearing.outside_diameter.typical
    ball, circle = bearing.ball_diameter, bearing.pitch_diameter
    if ball >= (outside - bore) / 2:
        yield (
            "ball_diameter",
            f"{ball:g} mm",
            f"less than the section of the bearing, {(outside - bore) / 2:g} mm",
        )
    elif not bore < circle - ball < circle + ball < outside:
        yield (
            "pitch_diameter",
            f"{circle:g} mm",
            f"a circle on which balls of {ball:g} mm stay between bore and outside diameter",
        )
    elif bearing.balls * ball >= pi * circle:
        yield (
            "balls",
            f"{bearing.balls} of {ball:g} mm",
            f"as many as go side by side on a {circle:g} mm circle",
        )
    elif not bearing.bore.most < bearing.inner_land < circle:
        yield (
            "inner_land",
            f"{bearing.inner_land:g} mm",
            f"between the bore ({bearing.bore.most:g} mm) and the pitch circle ({circle:g} mm)",
        )
    elif not circle < bearing.outer_land < bearing.outside_diameter.least:
        yield (
            "outer_land",
            f"{bearing.outer_land:g} mm",
            f"between the pitch circle ({circle:g} mm) and the outside diameter",
        )


@contradictions.register
def _spacer(spacer: Spacer):
    yield from _inside_outside(spacer.hole, spacer.outside_diameter, "hole")
    if not spacer.nominal - NEAR_NOMINAL <= spacer.hole.typical <= spacer.nominal + LOOSEST_SPACER:
        yield (
            "hole",
            f"{spacer.hole.typical:g} mm in the middle of its limits",
            f"at most {LOOSEST_SPACER:g} mm over the nominal {spacer.nominal:g} mm",
        )


@contradictions.register
def _washer(washer: Washer):
    yield from _inside_outside(washer.hole, washer.outside_diameter, "hole")


@contradictions.register
def _nut(nut: Nut):
    yield from _known_thread(nut.thread)
    if nut.thread in threads() and nut.across_flats.least <= thread(nut.thread).diameter:
        yield (
            "across_flats",
            f"{nut.across_flats.least:g} mm at least",
            f"more than the thread ({thread(nut.thread).diameter:g} mm)",
        )


@contradictions.register
def _material(material: Material):
    if material.yield_stress > material.tensile_stress:
        yield (
            "yield_stress",
            f"{material.yield_stress:g} MPa",
            f"at most the tensile strength ({material.tensile_stress:g} MPa)",
        )
    yield from _known_metal(material.metal)


def _known_metal(name):
    if name != NO_METAL and name not in finishes():
        yield "metal", f'"{name[:60]}"', f"{NO_METAL}, or one of " + ", ".join(finishes())


@contradictions.register
def _sliding(material: SlidingMaterial):
    for limit, unit in (("pressure", "MPa"), ("speed", "mm/s"), ("pv", "MPa*mm/s")):
        design, ceiling = (getattr(material, f"{limit}_{end}") for end in ("design", "ceiling"))
        if design > ceiling:
            yield (
                f"{limit}_design",
                f"{design:g} {unit}",
                f"at most {limit}_ceiling ({ceiling:g} {unit})",
                "Swap the two.",
            )
    greatest = material.pressure_ceiling * material.speed_ceiling
    if material.pv_ceiling > greatest:
        yield (
            "pv_ceiling",
            f"{material.pv_ceiling:g} MPa*mm/s",
            f"at most what both other ceilings allow together ({greatest:g} MPa*mm/s)",
        )


@contradictions.register
def _stock(stock: Stock):
    if stock.hoop_limit_long > stock.hoop_limit_short:
        yield (
            "hoop_limit_long",
            f"{stock.hoop_limit_long:g} MPa",
            f"at most the short-time limit ({stock.hoop_limit_short:g} MPa)",
        )
    if (stock.kind == "metal") != (stock.metal != NO_METAL):
        allowed = "one of " + ", ".join(finishes()) if stock.kind == "metal" else NO_METAL
        yield "metal", f"{stock.metal} for a stock of kind {stock.kind}", allowed
        return
    yield from _known_metal(stock.metal)
    if stock.finish not in finishes().get(stock.metal, (stock.finish,)):
        yield "finish", f'{stock.metal} with the finish "{stock.finish[:60]}"', _finishes_of(stock.metal)


def _finishes_of(metal):
    return "one of " + ", ".join(finishes()[metal])


@contradictions.register
def _process(process: Process):
    kinds = process.stocks.split()
    for kind in kinds:
        if kind not in STOCK_KINDS or kinds.count(kind) > 1:
            yield (
                "stocks",
                f'"{kind[:60]}"',
                "each of these at most once, spaces between: " + ", ".join(STOCK_KINDS),
            )
            break
    if process.kerf and process.kerf_sure != "yes" and not LEAST_KERF <= process.kerf <= MOST_KERF:
        yield (
            "kerf",
            f"a cut {process.kerf:g} mm wide",
            f"{LEAST_KERF:g} to {MOST_KERF:g} mm, as sheet cutters cut",
            "Is the decimal point in its place, and is it the whole width, not half? Measure it once "
            "more; if it stays so, write yes in the column kerf_sure.",
        )
    if not process.grade:
        return
    try:
        limits_of_class(10, process.grade)
    except OutsideTable as wrong:
        yield "grade", str(wrong), "an ISO 286 hole class such as H7, or -"
    else:
        if process.grade != process.grade.upper():
            yield "grade", f"{process.grade}, a shaft class", "an ISO 286 hole class such as H7, or -"
    if process.bias or process.spread:
        yield (
            "grade",
            f"{process.grade} beside a bias or spread",
            "bias 0 and spread 0 where a grade is given, or no grade",
        )


@contradictions.register
def _place(place: Surroundings):
    if place.temperature_least > place.temperature_most:
        yield (
            "temperature_least",
            f"{place.temperature_least:g} °C, above temperature_most",
            "the lower temperature here",
            "Swap the two.",
        )
    if place.harshness != "harsh" and (place.salts != "none" or place.wet in ("splashed", "soaked")):
        why = f"{place.salts} about" if place.salts != "none" else f"a {place.wet} joint"
        yield "harshness", f"{place.harshness} with {why}", "harsh"
    elif place.harshness == "controlled" and place.wet == "damp":
        yield "harshness", "controlled in a damp place", "normal or harsh"
