"""A result as plain data for other programs, and as a report for a terminal."""

from guidegen.joint.records import Quantity, Result
from guidegen.kit.records import BallBearing
from guidegen.numbers import said


def as_json(result: Result) -> dict:
    """Plain dictionaries and lists; units are those of the results: mm, N, MPa, rad, N·mm."""
    stack = result.stack
    return {
        "id": result.id,
        "title": result.joint.title,
        "layout": result.joint.layout,
        "state": result.state,
        "inputs": _inputs(result),
        "stack": [] if stack is None else [_placed(row) for row in stack.placed],
        "quantities": {name: _quantity(q) for name, q in result.quantities.items()},
        "play_share": dict(result.shares),
        "verdicts": [
            {
                "about": v.about,
                "state": v.state,
                "number": v.number,
                "limit": v.limit,
                "unit": v.unit,
                "why": v.why,
                "source": v.source,
                "instead": v.instead,
            }
            | ({"upkeep": True} if v.upkeep else {})
            | ({"tried": v.tried} if v.tried else {})
            for v in result.verdicts
        ],
        "steps": [
            {
                "gives": s.gives,
                "formula": s.formula,
                "with": dict(s.values),
                "result": s.result,
                "holds": s.held,
                "source": s.source,
            }
            for s in result.steps
        ],
    }


def _inputs(result: Result) -> dict:
    """Everything needed to work the joint out again; sizes that the joint file measured are marked."""
    joint = result.joint
    inputs = {name: _quantity(q) for name, q in result.inputs.items()}
    for name in joint.measured:
        inputs["shaft_diameter" if name == "shaft" else name]["measured"] = True
    words = {"rings": joint.rings, "load_direction": joint.direction, "motion": joint.motion.kind}
    words |= {
        f"diameter_series_{n}": bearing.diameter_series
        for n, bearing in enumerate(joint.bearings, 1)
        if isinstance(bearing, BallBearing)
    }
    words |= {f"housing_fit_{n}": housing.fit for n, housing in enumerate(joint.housings, 1)}
    return inputs | {name: {"unit": "-", "value": word} for name, word in words.items()}


def _quantity(q: Quantity) -> dict:
    if q.band is None:
        return {"unit": q.unit, "value": q.value}
    shown = {"unit": q.unit, "least": q.band.least, "typical": q.band.typical, "most": q.band.most}
    return shown | ({"likely": list(q.likely)} if q.likely else {})


def _placed(row) -> dict:
    thick = row.thickness
    shown = {
        "part": row.part,
        "kind": row.kind,
        "from": row.z_from,
        "to": row.z_to,
        "on": row.on,
        "turns_with": row.turns_with,
        "touches_before": row.touches_before,
        "thickness": {"unit": "mm", "least": thick.least, "typical": thick.typical, "most": thick.most},
    }
    return shown | ({"within": row.within} if row.within else {})


def report(result: Result) -> str:
    """A page of text: verdicts first, then the stack, then the numbers."""
    lines = [f"{result.joint.title}", f"  {result.id}: {result.state}", ""]
    for verdict in result.verdicts:
        lines.append(f"  {verdict.state:>14}  {verdict.about}: {verdict.why}")
        if verdict.instead or verdict.tried:
            lines.append(f"{'':16}  instead: {verdict.instead or verdict.tried}")
    if result.stack is not None:
        lines += ["", "  On the screw, from the head (mm):"]
        for row in result.stack.placed:
            inner = "  in the " + row.within if row.within else ""
            lines.append(f"    {row.z_from:7.2f} to {row.z_to:7.2f}  {row.part}{inner}")
    lines += ["", "  Numbers (least, typical, most):"]
    for name, q in result.quantities.items():
        shown = (
            said(q.value, q.unit)
            if q.band is None
            else ", ".join(said(x, q.unit) for x in (q.band.least, q.band.typical, q.band.most))
        )
        lines.append(f"    {name:20} {shown}")
    return "\n".join(lines)
