"""How tight a pressed bearing may sit: where it begins to hold, closes up, strains or cracks its hole."""

from dataclasses import dataclass
from functools import cache
from math import inf
from typing import Literal, NamedTuple

from guidegen.kit.records import BallBearing, Course, Part, Process, SleeveBushing, Stock
from guidegen.theory import grip, holes, pressfit
from guidegen.theory.chances import Chances, chances, tight_by
from guidegen.units import Band

CREEPS = ("plastic", "print")  # what stands a moment's stress but crazes or yields under a lasting one
Bound = Literal["closes", "strains", "cracks"]


@dataclass(frozen=True)
class Ring:
    """A bearing as its hole finds it: a ring of one material; sizes mm, modulus MPa."""

    outside: float
    inside: float  # bore of a bush, outer raceway of a ball bearing
    modulus: float
    poisson: float
    room: float  # that pressing in may take: bore less the largest shoulder; room for the balls


@dataclass(frozen=True)
class Wall:
    """A housing as the bearing finds it, for a ring about the hole; sizes mm, stresses MPa."""

    kind: str
    modulus: float
    poisson: float
    short: float  # hoop stress that it stands for a moment
    long: float  # and for good
    hub: float  # outer diameter of the ring


class Reach(NamedTuple):
    """Interferences, mm, at which something happens to a pressed bearing, and the one never to pass."""

    closes: float  # the bore has shrunk to the largest shoulder, or the balls have no room left
    strains: float  # hoop stress in the housing at what it stands for good
    cracks: float  # hoop stress in the housing at what it stands for a moment

    def bound(self, kind: str) -> Bound:
        """What sets the upper end in stock of this kind."""
        lasting: Bound = "strains" if kind in CREEPS else "cracks"
        return "closes" if self.closes < getattr(self, lasting) else lasting

    def most(self, kind: str) -> float:
        """The interference not to pass, mm."""
        return getattr(self, self.bound(kind))


def quiet(formula, gives, **values):
    """Calls a formula and keeps no step."""
    return formula(**values)


def ring_of(bearing: Part, course: Course) -> Ring:
    """The ring that a bearing presses into its hole, at typical sizes; its room over the largest shoulder."""
    material = course.materials[bearing.material]
    if isinstance(bearing, BallBearing):
        inside, room = bearing.pitch_diameter + bearing.ball_diameter, bearing.internal_clearance.typical
    else:
        bore = bearing.free_bore if isinstance(bearing, SleeveBushing) else bearing.hole
        inside, room = bore.typical, bore.typical - course.largest_shoulder(bearing.nominal)
    outside = bearing.outside_diameter.typical
    return Ring(outside, inside, material.youngs_modulus, material.poisson, max(0.0, room))


def wall_of(stock: Stock, edge: float) -> Wall:
    """A ring of this stock about a hole whose middle is `edge` mm from the nearest edge."""
    modulus = (stock.modulus_along + stock.modulus_across) / 2
    return Wall(stock.kind, modulus, stock.poisson, stock.hoop_limit_short, stock.hoop_limit_long, 2 * edge)


@cache
def reach_of(ring: Ring, wall: Wall) -> Reach:
    """From which interference the bearing closes up, and the housing is strained too far or cracks."""
    return reached(ring, wall, quiet)


def reached(ring: Ring, wall: Wall, work, number: str = "") -> Reach:
    """The same, each number by `work`, which may keep the steps; `number`: of the bearing, as "_1"."""
    ratios = dict(
        D=ring.outside,
        k_h=work(pressfit.hub_ratio, f"hub_ratio{number}", D_o=wall.hub, D=ring.outside),
        nu_h=wall.poisson,
        E_h=wall.modulus,
        k_b=work(pressfit.bush_ratio, f"bush_ratio{number}", D=ring.outside, d_f=ring.inside),
        nu_b=ring.poisson,
        E_b=ring.modulus,
    )

    def interference(what, p):
        return work(grip.pressure_interference, f"{what}_interference{number}", p=p, **ratios)

    def strained(what, limit):
        p = work(grip.hoop_pressure, f"{what}_pressure{number}", sigma_limit=limit, k_h=ratios["k_h"])
        return interference(what, p)

    closing = work(
        holes.closing_pressure,
        f"closing_pressure{number}",
        delta=ring.room,
        D=ring.outside,
        d_f=ring.inside,
        E_b=ring.modulus,
    )
    cracks = strained("crack", wall.short)
    strains = cracks if wall.long == wall.short else strained("strain", wall.long)
    return Reach(interference("closing", closing), strains, cracks)


class Scatter(NamedTuple):
    """How made holes scatter: spread, mm, of the normal distribution or of Student's t with this freedom."""

    spread: float
    freedom: float = inf


def scatter_of(process: Process) -> Scatter:
    """How the next hole of a process scatters; widened where few holes of one's own are behind it."""
    if process.holes:
        return Scatter(float(holes.next_spread(process.spread, process.holes)), process.holes - 1)
    return Scatter(process.spread)


def half_of(band: Band) -> float:
    """The spread that stands for a size published, or measured, with plus and minus so much."""
    return holes.OF_LIMIT * band.width / 2


def wanted_hole(outside: Band, reach: Reach, kind: str) -> float:
    """The mean hole, mm, at which most pressed bearings hold and none of the other things happens.

    Half way between just tight and the interference not to pass.
    """
    return holes.best_hole(outside.typical, 0.0, reach.most(kind))


def grip_interference(
    torque: float, friction: float, length: float, ring: Ring, wall: Wall, work=quiet, n=""
):
    """Interference, mm, from which the hole holds the bearing against a torque, N·mm, over `length` mm."""
    p = work(
        grip.torque_pressure, f"grip_pressure{n}", T=torque, mu_press=friction, D=ring.outside, l_fit=length
    )
    return work(
        grip.pressure_interference,
        f"grip_interference{n}",
        p=p,
        D=ring.outside,
        k_h=pressfit.hub_ratio(wall.hub, ring.outside),
        nu_h=wall.poisson,
        E_h=wall.modulus,
        k_b=pressfit.bush_ratio(ring.outside, ring.inside),
        nu_b=ring.poisson,
        E_b=ring.modulus,
    )


class Fit(NamedTuple):
    """What comes of a bearing pressed into holes of one mean and spread."""

    chances: Chances
    lasting: float  # share that holds, lets the largest shoulder in and strains nothing too far to last
    closed: float  # share that pressing in closes up, whatever else happens
    strained: float  # share that holds at first but is strained above what the stock stands for good


@cache
def pressed(outside: Band, hole: float, scatter: Scatter, grips: float, reach: Reach) -> Fit:
    """Chances of a pressed bearing. outside: its limits; hole: mean made hole; grips: interference, mm."""
    limits = outside.least, outside.most, hole, scatter.spread
    found = Chances(*map(float, chances(*limits, grips, reach.cracks, scatter.freedom)))
    if reach.strains >= reach.cracks:
        strained = 0.0
    else:
        from_here = max(reach.strains, min(grips, reach.cracks))
        over = float(tight_by(from_here, *limits, scatter.freedom))
        strained = max(0.0, over - found.cracked)
    closed = float(tight_by(reach.closes, *limits, scatter.freedom))
    spoiled = float(tight_by(min(reach), *limits, scatter.freedom))
    return Fit(found, max(0.0, 1 - found.loose - spoiled), closed, strained)


@cache
def goes_in(outside: Band, hole: float, scatter: Scatter) -> float:
    """Chance that a bearing goes into such a hole by hand."""
    return 1 - float(tight_by(0.0, outside.least, outside.most, hole, *scatter))
