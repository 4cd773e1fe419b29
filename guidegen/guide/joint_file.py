"""A joint as the text of a joint file, so that a reader can work it out again, or change one thing in it."""

from math import degrees

import yaml

from guidegen.joint.records import Housing, Joint, Plate, Result

DIRECTIONS = {"fixed": "fixed", "turning": "turning with the arm"}
LINE = 110  # letters


def joint_text(result: Result, note: str) -> str:
    """The joint file of a result, its whole stack listed; `note` goes into a comment on top."""
    return f"# {note}\n" + yaml.safe_dump(
        joint_data(result), sort_keys=False, allow_unicode=True, width=LINE, default_flow_style=None
    )


def joint_data(result: Result) -> dict:
    """The keys of the joint file of a result, its whole stack listed."""
    joint = result.joint
    data = {
        "title": joint.title,
        "shaft": joint.shaft.id,
        "bearings": [bearing.id for bearing in joint.bearings],
        "separation": _mm(joint.separation),
        "overhang": _mm(joint.overhang),
        "load": {
            "radial": _n(joint.radial),
            "axial": _n(joint.axial),
            "shock": joint.shock,
            "direction": DIRECTIONS[joint.direction],
        },
        "arm": _mm(joint.arm),
        "motion": _motion(joint),
        "turns": joint.turns,
        "held": joint.held,
        "rings": joint.rings,
        "body": joint.body,
        **{f"housing_{n}": _housing(housing) for n, housing in enumerate(joint.housings, 1)},
        "on_thread": joint.plate_on_thread and _plate(joint.on_thread),
        "cheeks": joint.cheeks and _plate(joint.cheeks),
        "arm_plate": joint.arm_between and _plate(joint.arm_plate),
        "stack": result.stack and [row.part for row in result.stack.placed if row.kind != "body"],
    }
    return {key: value for key, value in data.items() if value}


def _mm(length):
    return None if length is None else f"{round(length, 6):.10g} mm"


def _n(force):
    return f"{force:.10g} N"


def _motion(joint: Joint) -> dict:
    motion = joint.motion
    moves = {
        "hand": {},
        "swing": {"angle": f"{degrees(motion.angle):.10g} deg", "rate": f"{60 * motion.rate:.10g} /min"},
        "turn": {"speed": f"{60 * motion.rate:.10g} rpm"},
    }[motion.kind]
    return {"kind": motion.kind, **moves} | ({"hours": motion.hours} if motion.hours else {})


def _housing(housing: Housing) -> dict:
    return {**_plate(housing), "edge": _mm(housing.edge), "proud": housing.proud}


def _plate(plate: Plate | Housing) -> dict:
    return {"stock": plate.stock.id, "process": plate.process.id, "fit": plate.fit}
