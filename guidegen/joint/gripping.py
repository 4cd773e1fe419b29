"""The grip of a press fit over all that has limits: force to push, torque to turn, stress; now, in a year."""

from functools import cache
from typing import NamedTuple

import numpy as np

from guidegen.joint.box import thickness
from guidegen.joint.reach import quiet
from guidegen.joint.records import Quantity
from guidegen.joint.rows import Rows
from guidegen.joint.sample import SEED, likely_range, sobol
from guidegen.kit import lookup
from guidegen.kit.records import BallBearing, Material, Part, Stock
from guidegen.theory import grip, pressfit
from guidegen.units import Band

LATER = "year"  # after which a press that has crept is judged
UNITS = {
    "hub_stress": "MPa",
    "push_force": "N",
    "holding_torque": "N·mm",
    "press_pressure_later": "MPa",
    "hub_stress_later": "MPa",
    "holding_torque_later": "N·mm",
}
TORQUES = "holding_torque", "holding_torque_later"


class Press(NamedTuple):
    """A bearing pressed into its hole, all with limits that bears on its grip; mm and MPa."""

    outside: Band
    hole: Band
    inside: Band  # bore of a bush, outer raceway of a ball bearing
    length: Band
    plate: Band | None  # None in a block, which is as long as the bearing
    modulus: Band  # of the housing
    poisson: float
    hub: float
    bush: tuple[float, float]  # modulus and Poisson's ratio of bush or ring
    friction: Band
    housing_lost: Band  # share of the stiffness lost after a year
    bush_lost: Band


def press_of(
    bearing: Part,
    outside: Band,
    bores: Band,
    hole: Band,
    stock: Stock,
    edge: float,
    of: Material,
    block=False,
) -> Press:
    """What bears on the grip of a seat.

    bores: of a bush before pressing. edge: from the middle of the hole, mm. of: what the bearing is made of.
    block: whether the hole is as deep as the bearing is long, whatever the stock's thickness.
    """
    ball = isinstance(bearing, BallBearing)
    return Press(
        outside,
        hole,
        Band.exactly(bearing.pitch_diameter + bearing.ball_diameter) if ball else bores,
        Band.exactly(thickness(bearing).typical) if ball else thickness(bearing),
        None if block else stock.thickness,
        Band.between(*sorted((stock.modulus_along, stock.modulus_across))),
        stock.poisson,
        2 * edge,
        (of.youngs_modulus, of.poisson),
        lookup.press_friction(stock.kind),
        lookup.stress_relaxation(stock.kind, LATER),
        lookup.stress_relaxation(of.creeps, LATER) if of.creeps else Band.exactly(0.0),
    )


def gripped(press: Press, c, work) -> dict:
    """What a press does, now and later, over columns or numbers; `work` may keep the steps."""
    k_h = pressfit.hub_ratio(press.hub, c["outside"])
    k_b = pressfit.bush_ratio(c["outside"], c["inside"])
    E_b, nu_b = press.bush
    tight = c["outside"] - c["hole"]

    p = pressfit.press_pressure(tight, c["outside"], k_h, press.poisson, c["modulus"], k_b, nu_b, E_b)
    length = c["length"]
    if press.plate is not None:
        length = work(grip.engaged_length, "engaged_length", l_bearing=c["length"], t_sheet=c["plate"])
    stress = work(pressfit.hub_stress, "hub_stress", p=p, k_h=k_h)
    on = dict(mu_press=c["friction"], D=c["outside"], l_fit=length)
    force = work(grip.push_force, "push_force", **on, p=p)
    E_later = work(grip.relaxed_modulus, "housing_later", E_first=c["modulus"], u_relax=c["housing_lost"])
    E_bush = E_b
    if press.bush_lost.most:
        E_bush = work(grip.relaxed_modulus, "bush_later", E_first=E_b, u_relax=c["bush_lost"])
    ratios = dict(k_h=k_h, nu_h=press.poisson, E_h=E_later, k_b=k_b, nu_b=nu_b, E_b=E_bush)
    p_later = work(pressfit.press_pressure, "press_pressure_later", i=tight, D=c["outside"], **ratios)
    return {
        "hub_stress": stress,
        "push_force": force,
        "holding_torque": work(grip.holding_torque, "holding_torque", F_push=force, D=c["outside"]),
        "press_pressure_later": p_later,
        "hub_stress_later": pressfit.hub_stress(p_later, k_h),
        "holding_torque_later": work(grip.pressure_torque, "holding_torque_later", **on, p=p_later),
    }


def sizes_of(press: Press) -> dict[str, Band]:
    """All that has limits, by name."""
    bands = {name: getattr(press, name) for name in ("outside", "hole", "inside", "length", "modulus")}
    bands |= {name: getattr(press, name) for name in ("friction", "housing_lost", "bush_lost")}
    return bands if press.plate is None else bands | {"plate": press.plate}


class Held(NamedTuple):
    """What a press does, over everything that has limits."""

    quantities: dict[str, Quantity]
    inside: dict[str, np.ndarray]  # torque held, now and later, at points inside the limits


@cache
def held(press: Press) -> Held:
    """What a press does, with bands over everything that has limits."""
    rows = Rows(sizes_of(press))
    found = gripped(press, rows.columns, quiet)
    quantities = {
        name: Quantity(unit, band=rows.band(found[name]), likely=rows.likely(found[name]))
        for name, unit in UNITS.items()
    }
    return Held(quantities, {name: rows.inside(found[name]) for name in TORQUES})


@cache
def _drawn() -> np.ndarray:
    """Points for what turns a bearing, paired at random with those of what holds it."""
    return np.random.default_rng(SEED).permutation(sobol(1)[:, 0])


def hold_factor(held: Held, torque: str, turns: Band) -> Quantity:
    """How many times what turns it a bearing is held against; `torque`: held now, or later."""
    band = held.quantities[torque].band
    ends = ((band.least, turns.most), (band.typical, turns.typical), (band.most, turns.least))
    sampled = grip.hold_factor(held.inside[torque], turns.least + turns.width * _drawn())
    band = Band(*(grip.hold_factor(*end) for end in ends))
    return Quantity("-", band=band, likely=likely_range(sampled))
