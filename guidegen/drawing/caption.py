"""What a section shows, in words, for those who do not see it."""

from guidegen.drawing.annotations import millimetres, newton_millimetres, newtons
from guidegen.drawing.forces import couple_of
from guidegen.joint.records import Result

NO_OVERHANG = 0.05  # a load plane this near goes through the bearing, mm


def describe(result: Result) -> str:
    """Order of the parts, distances, load and reactions, gap: everything that the section shows."""
    return " ".join([_order(result), *_distances(result.stack), *_forces(result), _ends(result)])


def _order(result):
    order = "; ".join(f"{n} {placed.name}" for n, placed in enumerate(result.stack.placed, 1))
    return (
        f"Section along the screw {result.joint.shaft.name}, true to scale, its head on the left. "
        f"From the head: {order}."
    )


def _distances(stack):
    z, bearing = stack.z_bearings, "the bearing"
    if len(z) == 2:
        yield f"The middles of the bearings are {millimetres(z[1] - z[0])} apart."
        bearing = "bearing 2"
    away = stack.z_load - z[-1]
    if abs(away) <= NO_OVERHANG:
        yield f"The load plane goes through the middle of {bearing}."
    else:
        side = "beyond" if away > 0 else "on the head side of"
        yield f"The load plane lies {millimetres(abs(away), 1)} {side} the middle of {bearing}."


def _forces(result):
    joint = result.joint
    shock = "" if joint.shock == 1 else f" ({newtons(joint.radial)} times {joint.shock:g} for shock)"
    yield f"The load is {newtons(joint.radial * joint.shock)}{shock}, square to the screw."
    along = f"; at its end {newtons(joint.axial)} act along the screw" if joint.axial else ""
    yield f"The arm is {millimetres(joint.arm, 1)} long{along}."
    for n in range(1, len(result.stack.z_bearings) + 1):
        if found := result.quantities.get(f"reaction_{n}"):
            name = "The bearing" if joint.single else f"Bearing {n}"
            way = "against" if found.typical >= 0 else "along with"
            yield f"{name} pushes with {newtons(found.typical)} {way} the load."
    if couple := couple_of(result):
        yield f"It also holds a couple of {newton_millimetres(couple)}."


def _ends(result):
    stack = result.stack
    between = " between the cheeks" * (result.joint.layout == "C")
    end = (
        f"The nut clamps the inner rings{between}."
        if result.joint.clamped
        else (f"The gap under the head, the end play, is {millimetres(stack.end_play.typical)}.")
    )
    return f"The shoulder is {millimetres(stack.shoulder)} long. {end}"
