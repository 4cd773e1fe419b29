"""The numbers that went in: all that is needed to work a joint out again by hand."""

from guidegen.joint.findings import Findings
from guidegen.joint.play import Play
from guidegen.joint.records import Quantity, Stack


def given(found: Findings, stack: Stack | None, overhang: float | None, play: Play) -> dict[str, Quantity]:
    """Inputs by the names of 05's results: a number, or a size with its limits."""
    joint = found.joint
    inputs = {
        "arm": Quantity("mm", joint.arm),
        "radial": Quantity("N", joint.radial),
        "axial": Quantity("N", joint.axial),
        "shock": Quantity("-", joint.shock),
        "offset": Quantity("mm", joint.offset or 0.0),
        "youngs_modulus": Quantity("MPa", joint.youngs_modulus),
        "yield_stress": Quantity("MPa", joint.yield_stress),
    }
    inputs |= _motion(joint.motion)
    if joint.separation is not None:
        inputs["separation"] = Quantity("mm", joint.separation)
    if overhang is not None:
        inputs["overhang"] = Quantity("mm", overhang)
    for name, band in {**found.bands, **found.beside, **found.beside_arm}.items():
        unit = "MPa" if "modulus" in name else "mm"
        inputs[name] = Quantity(unit, band=band) if band.width else Quantity(unit, value=band.typical)
    if "arm_hole" in found.beside:
        inputs["arm_thickness"] = Quantity("mm", joint.arm_plate.stock.thickness.typical)
    for n, across in enumerate(found.arm.faces if found.arm else (), 1):
        inputs[f"arm_face_{n}"] = Quantity("mm", across)
    return inputs | _seats(found, play) | _held(joint, stack) | _axial(joint, stack) | found.given


def _motion(motion) -> dict[str, Quantity]:
    """How the joint moves; nothing of it by hand."""
    if motion.kind == "hand":
        return {}
    swing = {"swing_angle": Quantity("rad", motion.angle)} if motion.kind == "swing" else {}
    return swing | {"rate": Quantity("1/s", motion.rate), "hours": Quantity("h", motion.hours)}


def _seats(found, play):
    inputs = {}
    for n, (seat, one) in enumerate(zip(found.seats, play.guided), 1):
        inputs |= {
            f"width_{n}": Quantity("mm", seat.width),
            f"hub_diameter_{n}": Quantity("mm", seat.hub),
            f"housing_poisson_{n}": Quantity("-", seat.housing_poisson),
            f"modulus_{n}": Quantity("MPa", seat.modulus),
            f"poisson_{n}": Quantity("-", seat.poisson),
            f"bias_{n}": Quantity("mm", seat.bias),
        }
        if seat.ball:
            inputs |= {
                f"length_{n}": Quantity("mm", 0.0),
                f"ball_diameter_{n}": Quantity("mm", seat.bearing.ball_diameter),
                f"pitch_diameter_{n}": Quantity("mm", seat.bearing.pitch_diameter),
                f"free_tilt_{n}": found.quantities[f"free_tilt_{n}"],
            }
        elif seat.pressed is None:
            rows = found.rows
            inputs[f"bore_{n}"] = Quantity("mm", band=rows.band(one.bore), likely=rows.likely(one.bore))
    return inputs


def _axial(joint, stack):
    if stack is None:
        return {}
    screw, thread = joint.shaft, joint.thread
    inputs = {
        "shoulder_length": Quantity("mm", band=screw.shoulder_length),
        "thread_length": Quantity("mm", screw.thread_length),
        "neck_width": Quantity("mm", screw.neck_width),
        "thread_diameter": Quantity("mm", thread.diameter),
        "pitch": Quantity("mm", thread.pitch),
    }
    for n, across in enumerate(stack.face_diameters or (), 1):
        inputs[f"face_diameter_{n}"] = Quantity("mm", across)
    return inputs


def _held(joint, stack):
    """Where the screw is held, for the beam."""
    if stack is None:
        return {}
    if joint.layout == "B":
        return {"fixed_at": Quantity("mm", stack.z_face)}
    held = stack.cheeks if joint.layout == "C" else stack.z_bearings
    return {f"support_{n}": Quantity("mm", z) for n, z in enumerate(held, 1)}
