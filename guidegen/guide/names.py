"""What the results call a thing, in words for a reader. `NAME_1` and `NAME_2` share the words of `NAME`."""

from guidegen.kit.records import BallBearing, Nut, Part, ShoulderScrew, SleeveBushing, Spacer, Washer

QUANTITIES = {
    "arm": "arm radius, where wobble is read and the axial load acts",
    "radial": "radial load",
    "axial": "axial load at the arm radius",
    "shock": "shock factor",
    "offset": "offset between the two bore axes",
    "separation": "separation of the bearing middles",
    "overhang": "load plane, from the middle of bearing 2 towards the thread",
    "youngs_modulus": "Young's modulus of the screw",
    "yield_stress": "yield stress of the screw",
    "thread_diameter": "thread diameter",
    "pitch": "pitch of the thread",
    "shaft_diameter": "diameter of the shoulder",
    "free_bore": "bore before pressing",
    "bore": "bore on the shaft",
    "outside_diameter": "outside diameter",
    "hole": "hole as made",
    "housing_modulus": "Young's modulus of the housing",
    "housing_poisson": "Poisson's ratio of the housing",
    "length": "length that guides the shaft",
    "width": "width",
    "hub_diameter": "ring that stands for the housing, outer diameter",
    "modulus": "Young's modulus of the bearing",
    "poisson": "Poisson's ratio of the bearing",
    "bias": "bias of the hole making: made less drawn",
    "internal_clearance": "internal clearance as delivered",
    "ball_diameter": "ball diameter",
    "pitch_diameter": "pitch diameter of the balls",
    "fixed_at": "place along the screw where it is held",
    "support": "place along the screw of support",
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
    "yield_factor": "factor on yield",
    "deflection": "deflection under the load",
    "slope": "slope of the bent shaft",
    "lean_under_load": "slope of the loaded shaft in the bearing",
    "cheek_hole": "hole in the fork's cheeks",
    "arm_hole": "arm's hole over the shoulder",
    "cheek_tilt": "tilt each way in the fork's cheeks",
    "arm_tilt": "tilt each way in the arm's own hole",
    "seen_tilt": "tilt each way, all together",
}
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
    stem, _, number = name.rpartition("_")
    if name in QUANTITIES or number not in ("1", "2"):
        return QUANTITIES.get(name, name.replace("_", " "))
    words = QUANTITIES.get(stem, stem.replace("_", " "))
    return f"{words} {number}" if stem == "support" else f"{words}, bearing {number}"


def kind_words(part: Part) -> str:
    """The group of parts that a part belongs to."""
    return KINDS[type(part)]
