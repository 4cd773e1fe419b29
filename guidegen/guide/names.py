"""What the results call a thing, in words for a reader. `NAME_1` and `NAME_2` share the words of `NAME`."""

from guidegen.joint.wear import DECADES
from guidegen.kit.records import BallBearing, Nut, Part, ShoulderScrew, SleeveBushing, Spacer, Washer
from guidegen.numbers import show_number

CYCLES = {power: show_number(10**power) if power < 6 else f"{10 ** (power - 6)} million" for power in DECADES}
QUANTITIES = {
    "overhang": "load plane beyond bearing 2",
    "bore": "bore on the shaft",
    "free_tilt": "own free tilt each way",
    "drawn_hole": "hole to draw",
    "clearance": "clearance",
    "fit": "bore less shaft, signed",
    "interference": "interference of bearing and hole",
    "press_pressure": "pressure of the press fit",
    "hub_stress": "hoop stress in the housing",
    "closure": "closure of the bore",
    "preload_margin": "internal clearance left after mounting",
    "tilt": "tilt each way, bearings alone",
    "lean": "lean: centre of the swing",
    "arm_play": "wobble at the arm, total travel",
    **{f"arm_play_1e{power}": f"wobble at the arm after {count} cycles" for power, count in CYCLES.items()},
    "load_play": "travel at the load plane, unloaded",
    "offset_limit": "offset of the bores at which the shaft binds",
    "end_play": "end play",
    "face_tilt": "tilt each way that the end faces allow",
    "chance_pinched": "chance that unmeasured parts pinch",
    "chance_fits": "share of measured stacks that fit",
    "thread_room": "thread left beyond the nut",
    "nut_engaged": "nut on full thread",
    "reaction": "reaction",
    "bearing_load": "worst radial load",
    "couple_force": "force at each bearing that carries the couple",
    "thrust": "thrust",
    "shaft_moment": "greatest bending moment",
    "bending_stress": "bending stress",
    "shear_stress": "greatest shear stress",
    "yield_factor": "factor on yield",
    "endurance_factor": "factor on endurance",
    "deflection": "deflection under the load",
    "slope": "slope of the bent shaft",
    "lean_under_load": "slope of the loaded shaft in the bearing",
    "clamp_needed": "clamp force that keeps the face shut",
    "set_torque": "torque to set on the nut",
    "wrench_torque": "torque to set on the wrench",
    "clamp_given": "clamp force left with time",
    "seat_pressure": "pressure on the clamped plate, new",
    "clamp_torque": "torque that the clamped face passes on",
    "neck_stress": "stress in the neck, face open",
    "pressure": "pressure on the bush, with shock",
    "sliding_speed": "sliding speed",
    "pv": "pressure times speed",
    "edge_factor": "pressure at the edge of the bush over the mean",
    "cycles_wanted": "cycles wanted",
    "wear_cycles": "cycles until the clearance has doubled",
    "static_factor": "static factor",
    "rating_life": "rating life",
    "life_hours": "hours of motion that nine in ten last",
    "start_torque": "torque to start it turning",
    "run_torque": "torque to keep it turning",
    "start_force": "force at the arm to start it turning",
    "cheek_hole": "hole in the fork's cheeks",
    "arm_hole": "arm's hole over the shoulder",
    "cheek_tilt": "tilt each way in the fork's cheeks",
    "arm_tilt": "tilt each way in the arm's own hole",
    "seen_tilt": "tilt each way, all together",
}
INPUTS = {
    "arm": "arm radius",
    "radial": "radial load",
    "axial": "axial load at the arm radius",
    "shock": "shock factor",
    "swing_angle": "swing from end to end",
    "rate": "rate of turns, or of swings there and back",
    "hours": "hours wanted",
    "offset": "offset between the two bore axes",
    "separation": "separation of the bearing middles",
    "youngs_modulus": "Young's modulus of the screw",
    "yield_stress": "yield stress of the screw",
    "tensile_stress": "tensile strength of the screw",
    "proof_stress": "proof stress of the screw",
    "thread_diameter": "thread diameter",
    "thread_length": "thread length",
    "stress_area": "tensile stress area of the thread",
    "pitch": "pitch of the thread",
    "shaft_diameter": "diameter of the shoulder",
    "shoulder_length": "length of the shoulder",
    "neck_diameter": "diameter of the neck",
    "running_torque": "torque that the locking nut takes to run on, at most",
    "neck_fillet": "fillet of the neck",
    "neck_width": "width of the neck",
    "free_bore": "bore before pressing",
    "outside_diameter": "outside diameter",
    "hole": "hole as made",
    "housing_modulus": "modulus of the housing",
    "housing_poisson": "Poisson's ratio of the housing",
    "length": "length that guides the shaft",
    "width": "width",
    "hub_diameter": "housing as a ring, outer diameter",
    "modulus": "modulus of the bearing",
    "poisson": "Poisson's ratio of the bearing",
    "bias": "bias: hole made less drawn",
    "internal_clearance": "internal clearance as delivered",
    "balls": "number of balls",
    "ball_diameter": "ball diameter",
    "pitch_diameter": "pitch diameter of the balls",
    "dynamic_rating": "dynamic rating",
    "static_rating": "static rating",
    "f0": "factor of the static rating, f₀",
    "fixed_at": "place along the screw where it is held",
    "support": "place along the screw of support",
    "face_diameter": "smallest face that meets at end",
    "arm_thickness": "thickness of the arm",
    "pressure_design": "pressure to stay below",
    "pressure_ceiling": "pressure never to pass",
    "sliding_speed_design": "sliding speed to stay below",
    "sliding_speed_ceiling": "sliding speed never to pass",
    "pv_design": "pressure times speed to stay below",
    "pv_ceiling": "pressure times speed never to pass",
    "wear_rate": "wear rate of the bush",
    "friction": "friction, running",
    "start_friction": "friction, starting",
    "drag": "drag of the grease, running",
    "start_drag": "drag of the grease, starting",
    "seal": "torque of the seals, running",
    "start_seal": "torque of the seals, starting",
    "clamped_face": "clamped face, outer diameter",
    "clamped_hole": "clamped face, hole",
    "seat_limit": "pressure that the clamped plate bears",
    "nut_factor": "nut factor",
    "clamp_loss": "share of the clamp force that is lost",
}
# Numbers on the way that the meaning of their letter alone does not tell apart.
STEPS = {
    "start_drag": "torque of the grease, starting",
    "run_drag": "torque of the grease, running",
    "start_face_torque": "torque of the end face, starting",
    "run_face_torque": "torque of the end face, running",
    "bending_factor": "factor on yield in bending",
    "shear_factor": "factor on yield in shear",
    "neck_factor": "factor on yield of the neck",
    "seat_per_newton": "pressure on the clamped plate for each newton",
}
OF_AN_END = ("support", "face_diameter")  # their number counts along the screw, not bearings
CAUSES = {
    "shoulder": "shoulder under its nominal size",
    "bearing": "bearing: bore over size, or room for the balls",
    "housing": "housing: hole larger than the bearing",
    "closure": "closure: bore shrunk by pressing in",
    "together": "left over: causes that act only together",
}
AXES = {
    "pair": "bearings",
    "rings": "rings",
    "screw": "screw",
    "housing": "housing",
    "layout": "layout",
    "separation": "separation",
    "overhang": "place of the load",
    "load": "load",
}
FITS = {"press": "pressed in", "slip": "slipped in", "bonded": "bonded in"}
LAYOUTS = {
    "A": "shaft turns in a frame",
    "B": "hub turns, screw held at its thread",
    "C": "hub turns in a fork",
}
TURNS_WITH = {"screw": "screw", "frame": "frame", "arm": "arm", "free": "either: it floats"}
KINDS = {
    ShoulderScrew: "shoulder screws",
    SleeveBushing: "sleeve bushings",
    BallBearing: "ball bearings",
    Spacer: "spacers, ring spacers and shims",
    Washer: "washers",
    Nut: "nuts",
}
COLUMNS = {
    "nominal": "nominal size",
    "shoulder_diameter": "shoulder diameter",
    "shoulder_length": "shoulder length",
    "thread": "thread",
    "thread_length": "thread length",
    "neck_diameter": "neck diameter",
    "neck_fillet": "fillet of the neck",
    "neck_width": "neck width",
    "head_diameter": "head diameter",
    "head_height": "head height",
    "socket": "hex key",
    "free_bore": "bore before pressing",
    "outside_diameter": "outside diameter",
    "length": "length",
    "chamfer": "chamfer",
    "bore": "bore",
    "width": "width",
    "clearance_group": "clearance group",
    "internal_clearance": "radial internal clearance",
    "balls": "number of balls",
    "ball_diameter": "ball diameter",
    "pitch_diameter": "pitch diameter",
    "inner_land": "inner land: what may touch the inner ring stays within",
    "outer_land": "outer land: what may touch the outer ring stays beyond",
    "closure": "closure",
    "kind": "kind",
    "hole": "hole",
    "bush": "serves as a light bush",
    "thickness": "thickness",
    "across_flats": "across flats (wrench)",
    "height": "height",
    "material": "material",
    "finish": "finish",
    "price": "price",
}


def quantity_words(name: str) -> str:
    """What a result or an input is, "clearance, bearing 1" for `clearance_1`."""
    return _words(name, INPUTS | QUANTITIES, name.replace("_", " "))


def step_words(name: str, meaning: str) -> str:
    """What a worked step gives; `meaning` of its letter where the number is only one on the way."""
    return _words(name, QUANTITIES | STEPS, meaning)


def _words(name, known, otherwise):
    stem, _, number = name.rpartition("_")
    if name in known or number not in ("1", "2"):
        return known.get(name, otherwise)
    words = known.get(stem, otherwise)
    if stem in OF_AN_END:
        return f"{words} {number}"
    return words if number in words else f"{words}, bearing {number}"


def kind_words(part: Part) -> str:
    """The group of parts that a part belongs to."""
    return KINDS[type(part)]
