"""What the calculator starts from: each worked joint as numbers, and answers to prove its arithmetic by."""

import json
from typing import Iterable

from guidegen.guide.edition import Edition
from guidegen.guide.joint_file import DIRECTIONS, joint_data
from guidegen.joint.body import body_of
from guidegen.joint.box import thickness
from guidegen.joint.endplay import GROOVE
from guidegen.joint.inputs import Seat, hole_beside, seats
from guidegen.joint.loaded import PERMISSIBLE
from guidegen.joint.pressing import TIGHT
from guidegen.joint.records import Joint, Result
from guidegen.joint.rolling import LIGHT_SERIES, ratings_by_geometry
from guidegen.joint.specify import INSTRUMENTS, MISMEASURED
from guidegen.joint.strength import FINISH, RELIABILITY
from guidegen.joint.verdicts import SPARE
from guidegen.joint.wear import DECADES, HALF_TURN
from guidegen.kit import lookup
from guidegen.kit.records import Nut, Part, ShoulderScrew, Spacer, Stock, Washer
from guidegen.kit.tables import read_table
from guidegen.theory import ball, strength
from guidegen.units import Band

# What the calculator tells, of each joint that has it; bearings' own carry their number.
TOLD = (
    "seen_tilt tilt arm_play load_play cheek_tilt arm_tilt end_play thrust couple_force shaft_moment "
    "bending_stress deflection sliding_speed cycles_wanted wear_cycles arm_play_1e3 arm_play_1e4 "
    "arm_play_1e5 arm_play_1e6 arm_play_1e7 life_hours endurance_factor start_torque run_torque start_force"
).split()
TOLD_OF_EACH = (
    "clearance fit interference press_pressure hub_stress closure free_tilt preload_margin reaction "
    "bearing_load slope lean_under_load pressure pv edge_factor static_factor rating_life push_force "
    "holding_torque drawn_hole"
).split()
PROOFS = 14  # joints whose answers go with the page


def can_start(result: Result) -> bool:
    """Whether the calculator may start from a joint: its parts go on the screw, its bores are in line."""
    joint = result.joint
    return result.stack is not None and joint.kit is not None and not joint.offset and not joint.measured


def grounds_file(edition: Edition) -> bytes:
    """The script with all that the calculator starts from."""
    return script_of_data("guideGrounds", grounds(edition))


def script_of_data(name: str, data) -> bytes:
    """A script that sets one name of the window to plain data; nothing in it can end the script early."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return f"window.{name}={text.replace('</', '<' + chr(92) + '/')};\n".encode()


def grounds(edition: Edition) -> dict:
    """Joints, their seats, screws, parts and materials, each once; limits; proofs."""
    course, starts = edition.course, [can_start(result) for result in edition.results]
    shared = {name: {} for name in ("seats", "bodies", "files")}
    joints = [
        _ground(result, course, shared) if starts_here else None
        for result, starts_here in zip(edition.results, starts)
    ]
    screws = {result.joint.shaft.id: result.joint.shaft for result in edition.results}
    return {
        "joints": joints,
        **{name: [json.loads(text) for text in found] for name, found in shared.items()},
        "screws": {id: _screw(screw, course) for id, screw in sorted(screws.items())},
        "parts": {
            id: _part(part)
            for id, part in sorted(course.parts.items())
            if not isinstance(part, ShoulderScrew)
        }
        | {id: _plate(stock) for id, stock in sorted(course.stocks.items())},
        "kits": {id: dict(kit.parts) for id, kit in sorted(course.kits.items())},
        "sliding": {id: _sliding(material) for id, material in sorted(course.sliding.items())},
        "thrust": {name: list(column) for name, column in lookup.columns_of("thrust_iso281").items()},
        "checks": _checks(),
        "listed": next(row["about"] for row in read_table("checks").rows if row["quantity"] == "listed"),
        "course": {
            "tilt": course.target_travel / (2 * course.target_arm),
            "start": course.target_start_force * course.target_arm,
            "title": course.title,
        },
        "instruments": INSTRUMENTS,
        "constants": {
            "permissible": PERMISSIBLE,
            "groove": GROOVE,
            "half_turn": HALF_TURN,
            "decades": list(DECADES),
            "slowest": ball.SLOWEST,
            "hour": ball.HOUR,
            "spare": SPARE,
            "tight": TIGHT,
            "mismeasured": MISMEASURED,
            "specimen": strength.SPECIMEN,
            "of_tensile": strength.OF_TENSILE,
            "greatest_limit": strength.GREATEST_LIMIT,
            "megapascal": strength.MEGAPASCAL,
        },
        "directions": DIRECTIONS,
        "proofs": [_proof(n, edition.results[n]) for n in _proved(edition.results, starts)],
    }


def _ground(result: Result, course, shared) -> dict:
    joint, stack = result.joint, result.stack
    body = body_of(joint)
    at = {"shoulder": [], "thread": []}
    for row in stack.placed:
        at[row.on].append(row)
    order = [row for row in at["shoulder"] if row.kind not in ("body", "bearing")]
    middle = stack.z_bearings[0]
    ground = {
        "layout": joint.layout,
        "clamped": joint.clamped,
        "screw": joint.shaft.id,
        "seats": [
            _place(shared["seats"], _seat(*of, joint, course))
            for of in zip(seats(joint, course), joint.housings)
        ],
        "separation": joint.separation,
        "overhang": joint.overhang,
        "radial": joint.radial,
        "axial": joint.axial,
        "shock": joint.shock,
        "direction": joint.direction,
        "arm": joint.arm,
        "motion": [joint.motion.kind, joint.motion.angle, joint.motion.rate, joint.motion.hours],
        "before": [row.part for row in order if not row.within and row.z_to <= middle],
        "inside": [row.part for row in order if row.within],
        "after": [row.part for row in order if not row.within and row.z_to > middle],
        "thread": [row.part for row in at["thread"]],
        "kit": joint.kit.id,
        "body": _place(shared["bodies"], _body(joint, body)),
        "window": list(stack.window),
        "file": _place(shared["files"], _file(result)),
    }
    if joint.plate_on_thread:
        ground["on_thread"] = joint.on_thread.stock.id
    if joint.layout == "C":
        ground["cheek"] = joint.cheeks.stock.id
    if joint.arm_between:
        ground["between"] = joint.arm_plate.stock.id
    for name, band in hole_beside(joint).items():
        ground[name] = _ends(band)
    if stack.arm is not None:
        ground["arm_faces"] = list(stack.arm.faces)
    return ground


def _least_apart(joint: Joint, body) -> float:
    """How near the bearings' middles may come, mm: until bearings or plates meet."""
    if joint.single:
        return 0.0
    widths = sum(thickness(bearing).typical for bearing in joint.bearings) / 2
    if len(body.plates) == 1:
        return widths
    return max(widths, joint.separation - (body.plates[1][0] - body.plates[0][1]))


def _file(result: Result) -> dict:
    """What a joint file says beside what the reader may change."""
    changed = ("title", "separation", "overhang", "load", "arm", "motion", "stack")
    return {key: value for key, value in joint_data(result).items() if key not in changed}


def _place(found: dict[str, int], record: dict) -> int:
    """Where a record stands among those alike, each kept once."""
    return found.setdefault(json.dumps(record), len(found))


def _body(joint: Joint, body) -> dict:
    return {
        "faces": [body.low, body.high, body.inner_low, body.inner_high],
        "length": _ends(body.length),
        "inner": _ends(body.inner),
        "across": list(body.faces),
        "plates": [list(plate) for plate in body.plates],
        "least": _least_apart(joint, body),
        "apart": joint.separation,
    }


def _seat(seat: Seat, housing, joint: Joint, course) -> dict:
    bearing, stock = seat.bearing, housing.stock
    block = joint.body == "block" and not joint.single
    found = {
        "bearing": bearing.id,
        "ball": seat.ball,
        "fit": housing.fit,
        "bores": _ends(seat.bores),
        "outside": _ends(seat.outside),
        "hole": _ends(seat.hole),
        "drawn": seat.drawn,
        "modulus": _ends(seat.housing_modulus),
        "nu_h": seat.housing_poisson,
        "hub": seat.hub,
        "E_b": seat.modulus,
        "nu_b": seat.poisson,
        "length": _ends(seat.length),
        "width": seat.width,
        "wide": _ends(thickness(bearing)),
        "plate": None if block else _ends(stock.thickness),
        "friction": _ends(lookup.press_friction(stock.kind)),
        "hoop": [stock.hoop_limit_short, stock.hoop_limit_long],
    }
    if not seat.ball:
        return found | {"material": bearing.material}
    rated = ratings_by_geometry(bearing, None)
    table = lookup.ball_friction(bearing.closure, bearing.nominal)
    return found | {
        "d_m": bearing.pitch_diameter,
        "D_w": bearing.ball_diameter,
        "Z": bearing.balls,
        "internal": _ends(bearing.internal_clearance),
        "C": bearing.dynamic_rating or rated.dynamic,
        "C_0": bearing.static_rating or rated.static,
        "f_0": rated.f_0,
        "x_t": float(ball.thrust_share(bearing.nominal, bearing.diameter_series in LIGHT_SERIES)),
        **{
            f"{name}_{state}": _ends(getattr(table, f"{name}_{state}"))
            for name in ("friction", "drag", "seal")
            for state in ("start", "run")
        },
    }


def _screw(screw, course) -> dict:
    material, finish = course.materials[screw.material], lookup.surface_finish(FINISH)
    kept, _ = strength.endurance_reliability(RELIABILITY, lookup.columns_of("reliability_ke"))
    return {
        "diameter": _ends(screw.shoulder_diameter),
        "length": _ends(screw.shoulder_length),
        "thread": [screw.thread_length, lookup.thread(screw.thread).diameter],
        "head": [screw.head_diameter.typical, screw.head_height.typical],
        "E": material.youngs_modulus,
        "S_u": material.tensile_stress,
        "a_s": finish.a,
        "b_s": finish.b,
        "k_e": float(kept),
    }


def _part(part: Part) -> list:
    across = part.across_flats if isinstance(part, Nut) else part.outside_diameter
    hole = part.hole.most if isinstance(part, (Washer, Spacer)) else 0.0
    return [_ends(thickness(part)), across.typical, type(part).__name__, hole]


def _plate(stock: Stock) -> list:
    return [_ends(stock.thickness), 0.0, "Stock", 0.0]


def _sliding(material) -> dict:
    limits = {
        "pressure": [material.pressure_design, material.pressure_ceiling],
        "sliding_speed": [material.speed_design / 1000, material.speed_ceiling / 1000],
        "pv": [material.pv_design / 1000, material.pv_ceiling / 1000],
    }
    known = ("friction_start", "friction_run", "wear_rate")
    return limits | {name: _ends(getattr(material, name)) for name in known}


def _checks() -> list[dict]:
    """The checks that the calculator makes, as the table of checks has them."""
    told = {*TOLD, *TOLD_OF_EACH}
    return [
        {key: row[key] for key in ("about", "quantity", "sense", "limit")}
        for row in read_table("checks").rows
        if row["quantity"] in told and row["sense"] in ("least", "most", "ceiling")
    ]


def _proved(results, starts) -> Iterable[int]:
    """A few joints, unlike each other, that the page must reproduce before it shows a number."""
    unlike = {}
    for n, (result, starts_here) in enumerate(zip(results, starts)):
        if starts_here:
            joint = result.joint
            kinds = tuple(type(bearing).__name__ for bearing in joint.bearings)
            unlike.setdefault((joint.layout, joint.clamped, kinds, joint.arm_between, joint.motion.kind), n)
    step = max(1, len(unlike) // PROOFS)
    return sorted(unlike.values())[::step]


def _proof(n: int, result: Result) -> dict:
    told = {*TOLD, *(f"{name}_{k}" for name in TOLD_OF_EACH for k in (1, 2))}
    if result.joint.clamped:  # what is left along the screw is then a matter of samples
        told.discard("end_play")
    return {
        "joint": n,
        "quantities": {
            name: _ends(quantity.band) if quantity.band else quantity.value
            for name, quantity in result.quantities.items()
            if name in told
        },
    }


def _ends(band: Band) -> list[float]:
    return [band.least, band.typical, band.most]
