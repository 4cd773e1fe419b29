"""How a bearing is held in its hole: tight enough, not too tight, far enough from the edge, and in a year."""

from guidegen.joint.findings import Findings
from guidegen.joint.gripping import TORQUES, gripped, held, hold_factor, press_of, sizes_of
from guidegen.joint.inputs import Seat
from guidegen.joint.reach import quiet
from guidegen.joint.records import Quantity
from guidegen.joint.verdicts import Yes
from guidegen.kit import lookup
from guidegen.numbers import show_number
from guidegen.theory import grip
from guidegen.units import Band

TIGHT = 0.0  # mm; interference from which a bearing is pressed at all
HOLDS = 1.0  # times the friction that would turn it
IN_KIND = {"metal": "metal", "plastic": "plastic", "wood": "wood", "print": "a print"}
BONDED = "bonded: the film of glue holds it; how strong glue is, no table here tells"
SLIPPED = (
    "slips in by hand, and nothing in the fit holds it: give it a lip, a plate on each side, the heads of "
    "screws over its face, or a drop of glue on the seat"
)


def pressing(found: Findings):
    """How each bearing is held in its hole, and whether the housing stands it, at once and for good."""
    seated, near = {}, {}
    for n, (seat, housing) in enumerate(zip(found.seats, found.joint.housings), 1):
        if housing.fit == "press":
            _press(found, n, seat, housing)
            near[n] = edge_words(found, n, seat, housing)
        else:
            seated[n] = housing.fit
    if seated:
        found.answers["seated"] = _seated(seated)
    if near:
        found.answers["edge_distance"] = _near(near)


def _press(found, n, seat: Seat, housing):
    joint, of = found.joint, found.course.materials[seat.bearing.material]
    block = joint.body == "block" and not joint.single
    press = press_of(
        seat.bearing, seat.outside, seat.bores, seat.hole, housing.stock, housing.edge, of, block
    )
    grips = held(press)
    for name, quantity in grips.quantities.items():  # the stress stands there already
        found.quantities.setdefault(f"{name}_{n}", quantity)
    found.given |= {
        f"press_friction_{n}": Quantity("-", band=press.friction),
        f"stiffness_lost_{n}": Quantity("-", band=press.housing_lost),
    }
    if of.creeps:
        found.given[f"bush_stiffness_lost_{n}"] = Quantity("-", band=press.bush_lost)
    work = numbered(found, n) if seat.outside.typical > seat.hole.typical else quiet  # of nought, no steps
    gripped(press, {name: band.typical for name, band in sizes_of(press).items()}, work)
    found.limits |= {f"tight_{n}": TIGHT, f"hoop_short_{n}": housing.stock.hoop_limit_short}
    if housing.stock.hoop_limit_long < housing.stock.hoop_limit_short:
        found.limits[f"hoop_long_{n}"] = housing.stock.hoop_limit_long
    if n in found.rubbing:
        _against_friction(found, n, grips, work)


def numbered(found: Findings, n: int):
    """Keeps steps under their name with the number of a bearing."""
    return lambda formula, gives, about="", **values: found.work(formula, f"{gives}_{n}", about, **values)


def _against_friction(found, n, grips, work):
    """How many times the friction of the bearing itself the press holds, now and later."""
    steps = {step.gives: step.result for step in found.work.steps}
    faces = [
        steps.get(f"start_face_torque_{k}", 0.0) for k in (1, 2)
    ]  # either bush's end may carry the thrust
    own, face = steps.get(f"start_torque_{n}", 0.0), 0.0 if found.seats[n - 1].ball else max(faces)
    shock = found.joint.shock
    turn = work(grip.spinning_torque, "spinning_torque", k_s=shock, T=own, T_f=face)
    if not turn:
        return
    rubs = found.rubbing[n]
    turns = Band(*(grip.spinning_torque(shock, T, 0.0) for T in (rubs.least, own + face, rubs.most)))
    for when, torque in zip(("", "_later"), TORQUES):
        T_hold = grips.quantities[torque].typical
        work(grip.hold_factor, f"hold_factor{when}", T_hold=T_hold, T_spin=turn)
        found.quantities[f"hold_factor{when}_{n}"] = hold_factor(grips, torque, turns)
    found.limits["holds"] = HOLDS


def edge_words(found, n, seat: Seat, housing) -> str:
    """What is to be said of a hole too near the edge for its kind of stock; "" of one far enough."""
    least, wanted = lookup.edge_distance(housing.stock.kind)
    ratio = numbered(found, n)(grip.edge_ratio, "edge_ratio", D_o=seat.hub, D=seat.outside.typical)
    found.put_number(f"edge_ratio_{n}", ratio, "-")
    if ratio >= wanted - 1e-9:
        return ""
    told = "keeps at least" if ratio < least - 1e-9 else "better keeps"
    keep = least if ratio < least - 1e-9 else wanted
    return (
        f"the middle of the hole lies {show_number(ratio, 3)} times its diameter from the edge; in "
        f"{IN_KIND[housing.stock.kind]} the trade {told} {show_number(keep)}: the stress told counts so "
        "thin a wall, but a knock may tear it out"
    )


def _near(near: dict[int, str]) -> Yes:
    return Yes(True, not any(near.values()), _told({n: why for n, why in near.items() if why}))


def _seated(seated: dict[int, str]) -> Yes:
    """Of bearings that are not pressed in: glued ones are held, slipped ones by nothing."""
    words = {"bonded": BONDED, "slip": SLIPPED}
    return Yes(True, "slip" not in seated.values(), _told({n: words[fit] for n, fit in seated.items()}))


def _told(said: dict[int, str]) -> str:
    """Sentences about bearings; what is alike of both said once."""
    numbers: dict[str, list[str]] = {}
    for n, words in said.items():
        numbers.setdefault(words, []).append(str(n))
    return "; ".join(f"bearing {' and '.join(n)}: {words}" for words, n in numbers.items())
