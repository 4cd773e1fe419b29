"""A bearing that grows with its hole and its shaft: how tight it sits then, and what room it leaves."""

from functools import cache
from typing import Any, NamedTuple

import numpy as np

from guidegen.joint.climate import Climate, Grows, grows
from guidegen.joint.findings import Findings
from guidegen.joint.inputs import Seat
from guidegen.joint.reach import quiet
from guidegen.joint.records import Quantity
from guidegen.joint.rows import Rows
from guidegen.theory import clearance as room
from guidegen.theory import heat, pressfit
from guidegen.units import Band

SIZES = ("outside", "hole", "inside", "bore", "shaft", "modulus", "inner_room")


class Sitting(NamedTuple):
    """A bearing in its hole and on its shaft, and by how much they all grow; mm and MPa."""

    ball: bool
    bonded: bool
    clamped: bool  # a ball bearing's inner ring on the shaft
    outside: Band
    hole: Band
    inside: Band  # free bore of a bush, outer raceway of a ball bearing
    bore: Band | None  # of a bush, measured after pressing; of a ball bearing
    inner_room: Band  # radial internal clearance, nought of a bush
    inner_race: float
    shaft: Band
    modulus: Band  # of the housing
    poisson: float
    hub: float
    bush: tuple[float, float]  # modulus and Poisson's ratio of bush or ring
    bearing: Grows
    housing: Grows
    screw: Grows
    swells: bool  # whether the bearing's own wall takes up water from damper air

    @property
    def drinks(self) -> bool:
        """Whether bearing or housing grows by water here."""
        return bool(self.bearing.water.width or self.housing.water.width)


class Warmed(NamedTuple):
    """What a climate makes of it; quantities, or columns while they are worked out; mm."""

    interference: Any
    fit: Any  # bore less shaft, signed
    margin: Any  # room left for the balls, less what mounting takes; endless in a bush
    clearance: Any

    @property
    def room(self) -> float:
        """What the balls, or the shaft in a bush, have left at typical sizes."""
        return min(self.margin.typical, self.fit.typical)


def sitting(seat: Seat, found: Findings, housing, climate: Climate) -> Sitting:
    """One seat of a joint in a climate."""
    bearing, course = seat.bearing, found.course
    material, screw = (course.materials[bearing.material], course.materials[found.joint.shaft.material])
    race = bearing.pitch_diameter + bearing.ball_diameter if seat.ball else 0.0
    return Sitting(
        seat.ball,
        seat.bonded,
        found.joint.clamped,
        seat.outside,
        seat.hole,
        Band.exactly(race) if seat.ball else seat.bores,
        seat.bores if seat.ball else seat.pressed,
        bearing.internal_clearance if seat.ball else Band.exactly(0.0),
        bearing.pitch_diameter - bearing.ball_diameter if seat.ball else 0.0,
        found.bands["shaft_diameter"],
        seat.housing_modulus,
        seat.housing_poisson,
        seat.hub,
        (seat.modulus, seat.poisson),
        grows(material.expansion, material.swells, climate),
        grows(housing.stock.expansion, housing.stock.swells, climate),
        grows(screw.expansion, screw.swells, climate),
        bool(material.swells and climate.air),
    )


def warmed(one: Sitting, climate: Climate, c, work) -> Warmed:
    """What the climate makes of a seat, over columns or numbers; `work` may keep the steps."""
    when = climate.name
    e_bearing, e_housing, e_screw = (
        work(
            heat.growth,
            f"{what}_growth_{when}",
            alpha=of.expansion,
            dT=climate.rise,
            e_water=c[f"{what}_water"],
        )
        for what, of in (("bearing", one.bearing), ("housing", one.housing), ("screw", one.screw))
    )
    outside = c["outside"]
    tight = outside - c["hole"]
    later = work(
        heat.grown_interference,
        f"interference_{when}",
        i=tight,
        D=outside,
        e_bearing=e_bearing,
        e_housing=e_housing,
    )
    gap = 0.0 if one.bonded else np.maximum(0.0, -later)
    closure, closed = (
        0.0 if one.bonded else _closure(one, c, i, of, when) for i, of in ((tight, quiet), (later, work))
    )
    d_s = work(heat.grown_size, f"shaft_{when}", d_first=c["shaft"], e_grown=e_screw)
    if one.ball:
        d_b = work(heat.grown_size, f"bore_{when}", d_first=c["bore"], e_grown=e_bearing)
        return _ball(one, c, work, when, Warmed(later, d_b - d_s, None, gap), closed, d_b, d_s)
    bore = c["bore"] if one.bore is not None else c["inside"] - closure
    narrowed = closed - closure
    if (
        one.swells
    ):  # what the hole leaves it no room for goes inwards, and stays when the squeeze has crept away
        beyond = e_bearing - e_housing if one.bonded else (later - np.maximum(0.0, tight)) / outside
        beyond = np.maximum(0.0, beyond)
        e_bearing = e_bearing - beyond
        narrowed = np.minimum(0.0, narrowed) - work(
            heat.held_swelling, f"swelling_{when}", e_beyond=beyond, d_f=bore, D=outside
        )
    d_b = work(heat.grown_size, f"bore_free_{when}", d_first=bore, e_grown=e_bearing)
    d_b = work(room.bore_after_pressing, f"bore_{when}", d_f=d_b, delta=narrowed)
    return Warmed(
        later, d_b - d_s, np.inf, work(room.bush_clearance, f"clearance_{when}", d_b=d_b, d_s=d_s, g_h=gap)
    )


def _closure(one: Sitting, c, tight, work, when):
    """How far a bore or an outer raceway shrinks under an interference."""
    k_h, k_b = (pressfit.hub_ratio(one.hub, c["outside"]), pressfit.bush_ratio(c["outside"], c["inside"]))
    (E_b, nu_b), D = one.bush, c["outside"]
    if np.ndim(tight) == 0 and tight <= 0:
        return 0.0
    ratios = dict(k_h=k_h, nu_h=one.poisson, E_h=c["modulus"], k_b=k_b, nu_b=nu_b, E_b=E_b)
    p = work(pressfit.press_pressure, f"press_pressure_{when}", i=tight, D=D, **ratios)
    return work(pressfit.bore_closure, f"closure_{when}", p=p, D=D, d_f=c["inside"], E_b=E_b)


def _ball(one: Sitting, c, work, when, so_far: Warmed, closed, d_b, d_s) -> Warmed:
    """What both rings leave the balls, and the shaft in the inner one."""
    (E_b, nu_b), gap = one.bush, so_far.clearance
    k_i = pressfit.inner_ring_ratio(one.inner_race, d_b)
    on_shaft = pressfit.ring_pressure(d_s, d_b, k_i, nu_b, E_b, nu_b, E_b)
    wider = pressfit.raceway_growth(on_shaft, d_b, one.inner_race, E_b)
    left = work(
        room.mounted_clearance, f"mounted_clearance_{when}", G=c["inner_room"], delta_i=wider, delta_o=closed
    )
    if one.clamped:
        clearance = work(room.clamped_ball_clearance, f"clearance_{when}", G_m=left, g_h=gap)
    else:
        clearance = work(room.loose_ball_clearance, f"clearance_{when}", G_m=left, d_b=d_b, d_s=d_s, g_h=gap)
    return so_far._replace(margin=c["inner_room"] - wider - closed, clearance=clearance)


def sizes_of(one: Sitting) -> dict[str, Band]:
    """All that has limits, by name."""
    sizes = {name: getattr(one, name) for name in SIZES if getattr(one, name) is not None}
    return sizes | {f"{what}_water": of.water for what, of in one._asdict().items() if isinstance(of, Grows)}


@cache
def over_sizes(one: Sitting, climate: Climate) -> Warmed:
    """Quantities over all sizes within their limits, and over what is not known of the growth by water."""
    rows = Rows(sizes_of(one))
    found = map(np.asarray, warmed(one, climate, rows.columns, quiet))
    return Warmed(*(Quantity("mm", band=rows.band(x), likely=rows.likely(x)) for x in found))


NOW = Climate("now", 0.0, None)
