"""What the nut presses together: the face that holds, the weakest part, the torque that all of it bears."""

from dataclasses import dataclass, replace

from guidegen.joint.findings import Findings
from guidegen.joint.inputs import shaft_hole
from guidegen.joint.loads import Carried, supports
from guidegen.joint.records import Placed, Quantity, Stack
from guidegen.joint.rows import Rows, first
from guidegen.joint.verdicts import Yes
from guidegen.kit import lookup
from guidegen.kit.fasteners import locking_torque
from guidegen.kit.records import BallBearing, Nut
from guidegen.numbers import written
from guidegen.theory import beam, strength
from guidegen.theory import clamp as theory

LOCKING = ("locking", "low locking")  # nuts that take a torque just to run on
PROOF = 0.88  # of the yield stress, that a screw bears without staying longer (ISO 898-1, class 12.9)
REUSED = 0.75  # share of the proof load for a joint that is taken apart again
EDGE_BREAK = 0.2  # mm that the edge of the shoulder's end is broken by, all round (common practice)
SHARP = 2.7  # concentration at a fillet of unknown radius, bending; Shigley, memory
TO_SPARE = 0.95  # of the force that neck or plate would still bear
FACE_FRICTION = 0.15  # of the clamped face, dry (common practice)
SOFT = 10e3  # MPa; the modulus of plastics lies below it, that of metals far above
WEAKEST = "the weakest in the clamp: {}"
BEYOND = "of a locking nut: beyond the torque that is felt while it runs on"


@dataclass(frozen=True)
class _Part:
    """One thing in the clamp: the ring it offers to its neighbours, what pressure it bears, how it creeps."""

    name: str
    row: str  # kind of its line in the stack
    outer: float
    hole: float
    limit: float
    creeps: str  # key of clamp_loss

    def on(self, other: "_Part") -> "_Part":
        """The ring where two touch, and the weaker of both."""
        weaker = min(self, other, key=lambda part: part.limit)
        return replace(weaker, outer=min(self.outer, other.outer), hole=max(self.hole, other.hole))

    @property
    def bears(self) -> float:
        """What it bears, but for a factor that all have."""
        return self.limit * (self.outer**2 - self.hole**2)


@dataclass(frozen=True)
class _Clamp:
    """What the nut presses together: the face that holds, the weakest part, the kind that creeps most."""

    face: _Part
    weakest: _Part
    creeps: str


def _pressed(found, stack) -> _Clamp:
    """All that the nut presses between the shoulder, or the head, and itself.

    A nut and its washer are wider and harder than what they press.
    """
    joint = found.joint
    solid = (row for row in stack.placed if row.kind not in ("body", "nut"))
    rows = sorted(solid, key=lambda row: row.z_from)
    plated = [row for row in rows if row.kind in ("plate", "cheek")]
    if joint.clamped:
        parts = [_part(found, row) for row in rows if row.on == "shoulder" or row.kind == "plate"]
        against = joint.shaft.head_diameter.typical
    else:
        parts = [_part(found, row) for row in plated]
        against = first(found.rows.columns["shaft_diameter"]) - 2 * EDGE_BREAK
    end = replace(parts[0], outer=against, hole=0.0)
    rings = [(one, other, one.on(other)) for one, other in zip([end, *parts], parts)]
    faces = [ring for one, other, ring in rings if {one.row, other.row} & {"plate", "cheek"}]
    kinds = {part.creeps for part in parts}
    return _Clamp(
        min(faces, key=lambda ring: ring.outer**2 - ring.hole**2),
        min((ring for *_, ring in rings), key=lambda ring: ring.bears),
        max(kinds, key=lambda kind: (lookup.clamp_loss(kind).typical, kind)),
    )


def _part(found, row: Placed) -> _Part:
    joint, part = found.joint, found.course.parts.get(row.part)
    if part is None:
        on_shoulder = joint.cheeks if joint.layout == "C" else joint.arm_plate
        plate = joint.on_thread if row.on == "thread" else on_shoulder
        hole = row.hole if row.on == "thread" else shaft_hole(joint.shaft.nominal, plate).band.typical
        return _Part(row.name, row.kind, row.outside, hole, plate.stock.seat_limit, plate.stock.kind)
    material = found.course.materials[part.material]
    outer = part.inner_land if isinstance(part, BallBearing) else row.outside
    creeps = "plastic" if material.youngs_modulus < SOFT else "metal"
    return _Part(row.name, row.kind, outer, row.hole, material.yield_stress, creeps)


def clamped(found: Findings, stack: Stack, overhang: float, load: Carried):
    """Clamp force needed to keep the face shut, and given by the torque to set, with its scatter and loss.

    The cheeks of a fork carry the screw whether the nut clamps them or not: there no force is needed for it.
    """
    joint, work = found.joint, found.work
    clamp = _pressed(found, stack)
    face = clamp.face
    if face.outer <= face.hole:
        through = "over the thread" if joint.plate_on_thread else "over the shoulder"
        why = (
            f"the hole {through}, {written(face.hole, 'mm')}, leaves no face to press against: "
            f"what presses is {written(face.outer, 'mm')} across"
        )
        found.answers["clamped_face"] = Yes(False, False, why)
        return
    nuts = [row.part for row in stack.placed if row.kind == "nut"]
    if joint.layout == "C":
        if nuts:
            _given(found, clamp, found.course.parts[nuts[-1]])
        return
    plate = joint.on_thread if joint.plate_on_thread else joint.arm_plate
    arm = plate.stock.thickness.typical / 2
    if joint.layout == "B":
        _, planes, _ = supports(joint, stack)
        arm = planes[-1] - overhang
    moment = work(
        theory.face_moment, "face_moment", k_s=joint.shock, F=joint.radial, x_f=arm, M_a=load.couple
    )
    needed = work(theory.clamp_needed, "clamp_needed", M_f=moment, D_a=face.outer, d_h=face.hole)
    found.put_number("clamp_needed", needed, "N")
    found.limits["clamp_needed"] = needed
    kept, tight = _given(found, clamp, found.course.parts[nuts[-1]]) if nuts else (0.0, 0.0)
    if kept < needed and joint.plate_on_thread:
        _neck(found, moment, tight)


def _given(found, clamp: _Clamp, nut: Nut) -> tuple[float, float]:
    """Typical clamp force that is kept, and when new, from the torque that neither screw nor clamp minds."""
    joint, work, screw = found.joint, found.work, found.joint.shaft
    face, weakest = clamp.face, clamp.weakest
    proof = PROOF * joint.yield_stress
    most = work(
        theory.clamp_limit,
        "clamp_limit",
        u_p=REUSED,
        S_p=proof,
        d_n=screw.neck_diameter.least,
        S_t=proof,
        A_t=joint.thread.stress_area,
    )
    ring = {"D_a": weakest.outer, "d_h": weakest.hole}
    bears = work(
        theory.pressed_limit, "pressed_limit", WEAKEST.format(weakest.name), p_least=weakest.limit, **ring
    )
    bands = {"nut_factor": lookup.nut_factor(nut.finish), "clamp_loss": lookup.clamp_loss(clamp.creeps)}
    rows = Rows(bands)
    nut_factor = bands["nut_factor"]
    force = work(
        theory.clamp_to_set,
        "clamp_to_set",
        u_spare=TO_SPARE,
        K_least=nut_factor.least,
        K_n=nut_factor.typical,
        F_m=most,
        F_weak=bears,
    )
    torque = work(
        theory.tightening_torque,
        "set_torque",
        BEYOND if nut.kind in LOCKING else "",
        K_n=nut_factor.typical,
        d_t=joint.thread.diameter,
        F_i=force,
    )
    found.put_number("set_torque", torque, "N·mm")
    if nut.kind in LOCKING and (running := locking_torque(nut.thread)) is not None:
        found.given["running_torque"] = Quantity("N·mm", running)
    tight = work(
        theory.clamp_of_torque,
        "clamp_at_first",
        T_n=torque,
        K_n=rows.columns["nut_factor"],
        d_t=joint.thread.diameter,
    )
    kept = work(theory.clamp_kept, "clamp_given", F_0=tight, u_l=rows.columns["clamp_loss"])
    found.put_over(rows, "clamp_given", kept, "N")
    pressure = work(theory.seat_pressure, "seat_pressure", F_i=tight, **ring)
    found.put_over(rows, "seat_pressure", pressure, "MPa")
    found.limits["seat_limit"] = weakest.limit
    capacity = work(
        theory.clamp_torque, "clamp_torque", mu_c=FACE_FRICTION, F_i=kept, D_a=face.outer, d_h=face.hole
    )
    found.put_over(rows, "clamp_torque", capacity, "N·mm")
    found.given |= {
        "clamped_face": Quantity("mm", face.outer),
        "clamped_hole": Quantity("mm", face.hole),
        "seat_limit": Quantity("MPa", weakest.limit),
        "proof_stress": Quantity("MPa", proof),
        "stress_area": Quantity("mm²", joint.thread.stress_area),
        "neck_diameter": Quantity("mm", band=screw.neck_diameter),
        **{name: Quantity("-", band=band) for name, band in bands.items()},
    }
    if (weakest.outer, weakest.hole) != (face.outer, face.hole):
        found.given |= {
            "pressed_face": Quantity("mm", weakest.outer),
            "pressed_hole": Quantity("mm", weakest.hole),
        }
    if screw.neck_fillet is not None:
        found.given["neck_fillet"] = Quantity("mm", screw.neck_fillet)
    return first(kept), first(tight)


def _neck(found, moment, tight):
    """The neck alone, with its concentration, where the clamped face opens; it may yield first."""
    work, screw = found.work, found.joint.shaft
    d_n = screw.neck_diameter.least
    K_t = SHARP
    if screw.neck_fillet is not None:
        step = screw.shoulder_diameter.typical / d_n
        A, b, _ = strength.fillet_constants(step, lookup.columns_of("fillet_bending"))
        K_t = work(
            strength.fillet_concentration,
            "neck_concentration",
            A_f=float(A),
            r_f=screw.neck_fillet,
            d_n=d_n,
            b_f=float(b),
        )
    bent = work(strength.fillet_stress, "neck_bending", K_c=K_t, M_f=moment, d_n=d_n)
    stress = work(strength.neck_stress, "neck_stress", sigma_f=bent, F_i=tight, d_n=d_n)
    found.put_number("neck_stress", stress, "MPa")
    work(beam.yield_factor, "neck_factor", S_y=found.joint.yield_stress, sigma_b=stress)
