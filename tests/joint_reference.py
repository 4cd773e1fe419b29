"""Free play of a whole joint, written a second time: rings by Lamé's constants, the shaft by corner points.

Takes the sizes a result lists as inputs, as numbers or as arrays, and nothing else of the program but which
bearings are balls and which are bonded.
"""

from functools import cache
from itertools import combinations, product
from pathlib import Path

import numpy as np

from guidegen.joint import evaluate, expand
from guidegen.joint.records import Joint, Result
from guidegen.kit.reader import read_course
from guidegen.kit.records import BallBearing

GROOVE = 0.52
PLAY_DEPENDS_ON = {
    "shaft_diameter", "free_bore", "bore", "outside_diameter", "hole", "length", "internal_clearance",
    "housing_modulus",
}
ROOT = Path(__file__).parent.parent


@cache
def course():
    return read_course(ROOT)


@cache
def worked() -> tuple[Joint, ...]:
    return tuple(expand(course())[0])


@cache
def some(number=50) -> tuple[Result, ...]:
    """Results of so many worked joints, spread over all of them."""
    joints = worked()
    assert len(joints) > 2 * number
    return tuple(evaluate(joints[round(n)], course()) for n in np.linspace(0, len(joints) - 1, number))


def ring(inner, outer, p_inner, p_outer, r, E, nu):
    """Outward movement at radius r of a thick ring (plane stress) with pressure inside and outside."""
    A = (p_inner * inner**2 - p_outer * outer**2) / (outer**2 - inner**2)
    B = (p_inner - p_outer) * inner**2 * outer**2 / (outer**2 - inner**2)
    return r / E * ((1 - nu) * A + (1 + nu) * B / r**2)


def squeezed(tight, inner, joint, outer, bush, housing):
    """(pressure, closure of the inner bore) of a ring pressed into another; diameters, (E, nu)."""
    yields = ring(joint / 2, outer / 2, 1.0, 0.0, joint / 2, *housing) - ring(
        inner / 2, joint / 2, 0.0, 1.0, joint / 2, *bush
    )
    pressure = np.maximum(tight, 0) / 2 / yields
    return pressure, -2 * ring(inner / 2, joint / 2, 0.0, pressure, inner / 2, *bush)


def grown(tight, bore, raceway, material):
    """Growth of a raceway whose ring is tight on a solid shaft of the same material."""
    E, nu = material
    yields = ring(bore / 2, raceway / 2, 1.0, 0.0, bore / 2, E, nu) + (1 - nu) * bore / 2 / E
    pressure = np.maximum(tight, 0) / 2 / yields
    return 2 * ring(bore / 2, raceway / 2, pressure, 0.0, raceway / 2, E, nu)


def play(joint: Joint, v) -> dict:
    """Quantities by name, from sizes `v` by the names of a result's inputs."""
    found, walls = {}, []
    for n, (bearing, housing) in enumerate(zip(joint.bearings, joint.housings), 1):
        outside, hole, shaft = v[f"outside_diameter_{n}"], v[f"hole_{n}"], v["shaft_diameter"]
        middle = 0.0 if n == 1 else v["separation"]
        gap = 0.0 if housing.fit == "bonded" else np.maximum(hole - outside, 0)
        material, around = (
            (v[f"modulus_{n}"], v[f"poisson_{n}"]),
            (v[f"housing_modulus_{n}"], v[f"housing_poisson_{n}"]),
        )
        if isinstance(bearing, BallBearing):
            races = [v[f"pitch_diameter_{n}"] + side * v[f"ball_diameter_{n}"] for side in (-1, 1)]
            pressure, closure = squeezed(
                outside - hole, races[1], outside, v[f"hub_diameter_{n}"], material, around
            )
            bore = v[f"bore_{n}"]
            inside = np.maximum(
                v[f"internal_clearance_{n}"] - grown(shaft - bore, bore, races[0], material) - closure, 0
            )
            clamped = v["rings"] == "clamped"
            room = inside + gap + (0.0 if clamped else np.maximum(bore - shaft, 0))
            excess = 2 * GROOVE * v[f"ball_diameter_{n}"] - v[f"ball_diameter_{n}"]
            free = 2 * np.sqrt(excess * inside) / v[f"pitch_diameter_{n}"]
            free = free if clamped else free + np.maximum(bore - shaft, 0) / v[f"width_{n}"]
            walls += [(0.0, 1.0, free), (middle, 0.0, room / 2)]
            found[f"free_tilt_{n}"] = free
        else:
            pressure, closure = squeezed(
                outside - hole, v[f"free_bore_{n}"], outside, v[f"hub_diameter_{n}"], material, around
            )
            room = np.maximum(v[f"free_bore_{n}"] - closure - shaft, 0) + gap
            walls += [(middle + side * v[f"length_{n}"] / 2, 0.0, room / 2) for side in (-1, 1)]
        found |= {
            f"clearance_{n}": room,
            f"closure_{n}": closure,
            f"press_pressure_{n}": pressure,
            f"interference_{n}": outside - hole,
        }
    plane = v.get("separation", 0.0) + v["overhang"]
    found["tilt"], top = reach(walls, plane)
    return found | {"arm_play": 2 * v["arm"] * found["tilt"], "load_play": 2 * top}


def reach(walls, plane):
    """(greatest slope, greatest height at a plane) of straight axes y0 + t·z between walls on both sides.

    walls: (z, 0, height each way) or (0, 1, slope each way). Every corner of what is allowed is looked at.
    """
    rules = [
        ((0.0 if slope else 1.0, 1.0 if slope else z), side, limit)
        for z, slope, limit in walls
        for side in (1, -1)
    ]
    tilt, height = 0.0, 0.0
    for ((a, b), side, limit), ((c, d), other, bound) in combinations(rules, 2):
        turn = a * d - b * c
        parallel = np.abs(turn) < 1e-12
        turn = np.where(parallel, 1.0, turn)
        y0, t = (side * limit * d - other * bound * b) / turn, (a * other * bound - c * side * limit) / turn
        allowed = ~parallel
        for (e, f), _, most in rules[::2]:
            allowed = allowed & (np.abs(e * y0 + f * t) <= most + 1e-12)
        tilt = np.maximum(tilt, np.where(allowed, t, 0.0))
        height = np.maximum(height, np.where(allowed, y0 + t * plane, 0.0))
    return tilt, height


def banded(result: Result) -> dict:
    """Inputs of a result that have limits, are no result themselves, and on which free play depends."""
    computed = ("free_tilt_1", "free_tilt_2", "bore_1", "bore_2")
    return {
        name: q.band
        for name, q in result.inputs.items()
        if q.band is not None
        and name.rstrip("_12") in PLAY_DEPENDS_ON
        and (name not in computed or f"internal_clearance_{name[-1]}" in result.inputs and "bore" in name)
    }


def sizes(result: Result, drawn=None) -> dict:
    """All inputs at their typical values, those in `drawn` replaced."""
    plain = {name: q.typical for name, q in result.inputs.items()}
    return plain | {"rings": result.joint.rings} | (drawn or {})


def corners(result: Result) -> dict:
    """Every corner of the box of inputs with limits, as arrays."""
    bands = banded(result)
    ends = np.array(list(product((0, 1), repeat=len(bands)))).T
    return {name: np.where(end, band.most, band.least) for (name, band), end in zip(bands.items(), ends)}


def sample(result: Result, number, seed) -> dict:
    """Random sizes, uniform between their limits."""
    rng = np.random.default_rng(seed)
    return {name: rng.uniform(band.least, band.most, number) for name, band in banded(result).items()}
