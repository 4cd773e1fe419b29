"""Joint files drawn at random that move in every way, under loads from none to more than they bear."""

import random
from functools import cache

from drawn_joints import drawn, evaluated, leave_one_out, listed, measured
from joint_reference import course
from moving_reference import Moving

from guidegen.errors import BadInput
from guidegen.joint import as_json
from guidegen.kit.records import ShoulderScrew


def motion(rng):
    """Small and large swings, slow and fast turning, by hand."""
    kind = rng.choice(["small", "large", "slow", "fast", "hand"])
    hours = {"hours": rng.choice([0, rng.randint(1, 5000)])}
    if kind == "hand":
        return {"kind": "hand"}
    if kind in ("small", "large"):
        angle = rng.uniform(1, 90) if kind == "small" else rng.choice([180, rng.uniform(90, 359)])
        rate = f"{rng.uniform(0.5, 90):.3f} /min"
        return {"kind": "swing", "angle": f"{angle:.3f} deg", "rate": rate} | hours
    speed = rng.uniform(0.2, 9.9) if kind == "slow" else rng.choice([10, rng.uniform(10, 1500)])
    return {"kind": "turn", "speed": f"{speed:.4f} rpm"} | hours


def load(rng):
    """Forces from nothing to beyond what the largest bearing bears; either kind alone among them."""
    newtons = lambda least, most: f"{10 ** rng.uniform(least, most):.4g} N"  # noqa: E731
    return {
        "radial": rng.choice(["0 N", newtons(0, 2), newtons(0, 2), newtons(0, 2), newtons(2, 4)]),
        "axial": rng.choice(["0 N", newtons(-1, 1), newtons(-1, 1), newtons(-1, 1), newtons(1, 3.5)]),
        "shock": rng.choice([1, 1.5, 3]),
        "direction": rng.choice(["fixed", "turning with the arm"]),
    }


def moving(seed) -> dict:
    """The mapping of a joint file of one kit's parts; most can be built, some cannot, a few are wrong."""
    rng, parts = random.Random(seed), course().parts
    kit = rng.choice(sorted(course().kits.values(), key=lambda kit: kit.id))
    screws = sorted(id for id in kit.parts if isinstance(parts[id], ShoulderScrew))
    seats = sorted(id for id in kit.parts if id.startswith(("sb", "bb", "ny")))
    file = drawn(seed)
    pair = rng.choices(seats, k=2)
    pair = [pair[0]] * 2 if rng.random() < 0.5 else pair
    file["bearings"] = pair[: len(file["bearings"])]
    file["shaft"] = rng.choice(screws[len(screws) // 2 :] if len(file["bearings"]) == 2 else screws)
    file |= {"title": f"Moving {seed}", "load": load(rng), "motion": motion(rng)}
    file.pop("rings", None)
    if len(file["bearings"]) == 2 and all(id.startswith("bb") for id in pair):
        file["rings"] = rng.choice(["loose", "clamped"])
        if file["rings"] == "clamped":
            widths = sum(parts[id].width.typical for id in pair) / 2
            file["separation"] = f"{widths + rng.choice([10, 15, 20]):.3f} mm"
    if "measured" in file:
        file["measured"] = measured(rng, file)
    return file


@cache
def all_moving(number) -> tuple:
    """(mapping, result or BadInput) of so many joint files, some with the stack found listed in them."""
    files = [moving(seed) for seed in range(number)]
    found = [(file, evaluated(file)) for file in files]
    built = [(file, result) for file, result in found if getattr(result, "stack", None)]
    again = [file | {"stack": listed(result)} for file, result in built[::4]]
    short = [file | {"stack": leave_one_out(listed(result))} for file, result in built[1::4]]
    return tuple(found) + tuple((file, evaluated(file)) for file in again + short)


def again(result) -> Moving:
    """The second calculation of a result, from its JSON and what that leaves out."""
    return Moving(as_json(result), unsaid(result.joint))


def unsaid(joint) -> dict:
    """What a joint's result should tell of its motion and parts, by the names of its inputs."""
    told = {
        "motion": joint.motion.kind,
        "swing_angle": joint.motion.angle,
        "rate": joint.motion.rate,
        "hours": joint.motion.hours,
        "neck_fillet": joint.shaft.neck_fillet,
        "step_from": joint.shaft.shoulder_diameter.typical,
    }
    for n, bearing in enumerate(joint.bearings, 1):
        if hasattr(bearing, "diameter_series"):
            told[f"diameter_series_{n}"] = bearing.diameter_series
    return told


def sound(number):
    """Results of the joint files among so many that are not refused as bad input."""
    return [result for _, result in all_moving(number) if not isinstance(result, BadInput)]
