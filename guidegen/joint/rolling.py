"""Ball bearings under their load: ratings, static safety, thrust, rating life, what a swing does to them."""

from dataclasses import dataclass
from math import degrees, radians

from guidegen.joint.findings import Findings
from guidegen.joint.loads import Carried
from guidegen.joint.records import Motion, Quantity
from guidegen.joint.verdicts import Yes
from guidegen.kit.lookup import columns_of
from guidegen.kit.records import BallBearing
from guidegen.numbers import written
from guidegen.theory import ball, statics

FALSE_BRINELLING = radians(5)  # swing below which grease no longer gets between (a public manual)
LIGHT_SERIES = ("8", "9", "0", "1")  # diameter series of ISO 15 with thin rings


@dataclass(frozen=True)
class Rated:
    """What a ball bearing is rated for, N; the factor f_0 that goes with it, MPa."""

    dynamic: float
    static: float
    f_0: float


@dataclass(frozen=True)
class Rolled:
    """What it takes to say what a ball bearing carries turn after turn: thrust, N, and its factors."""

    thrust: float
    e: float
    Y: float
    reached: bool  # whether the table of thrust factors reaches so far

    def equivalent(self, radial: float) -> float:
        """The steady load that stands for radial load and thrust together, N."""
        return ball.equivalent_load(radial, self.thrust, self.e, self.Y)


def rolling(found: Findings, load: Carried) -> dict[int, Rolled]:
    """Static factor, thrust, life and swing of each ball bearing; what each carries, by its number."""
    balls = {n: seat.bearing for n, seat in enumerate(found.seats, 1) if seat.ball}
    rated = {n: _rated(found, n, bearing) for n, bearing in balls.items()}
    rolled = {n: _thrust_factors(found, n, rated[n]) for n in rated}
    for n, one in rated.items():
        _static(found, n, load, one)
    if balls:
        _thrust(found, balls, rated)
        _lives(found, balls, rated, {n: (_equivalent(found, n, load, rolled[n]), rolled[n]) for n in balls})
    return rolled


def ratings_by_geometry(bearing: BallBearing, work) -> Rated:
    """Both ratings worked out from the balls; `work` keeps the steps, `None` drops them."""
    keep = work or (lambda formula, gives, **values: formula(**values))
    gamma = keep(ball.ball_ratio, "ball_ratio", D_w=bearing.ball_diameter, d_m=bearing.pitch_diameter)
    factors = ball.rating_factors(gamma, columns_of("fc_iso281"), columns_of("f0_iso76"))
    place = dict(Z=bearing.balls, D_w=bearing.ball_diameter)
    dynamic = keep(ball.dynamic_rating, "dynamic_rating", b_m=ball.MATERIAL, f_c=float(factors.f_c), **place)
    static = keep(ball.static_rating, "static_rating", f_0=float(factors.f_0), **place)
    return Rated(dynamic, static, float(factors.f_0))


def _rated(found, n, bearing) -> Rated:
    """The part's own catalogue values win; what it does not give is worked out from its balls."""

    def work(formula, gives, **values):
        if getattr(bearing, gives, None) is not None:
            return formula(**values)
        return found.work(formula, f"{gives}_{n}", **values)

    ours = ratings_by_geometry(bearing, work)
    rated = Rated(bearing.dynamic_rating or ours.dynamic, bearing.static_rating or ours.static, ours.f_0)
    found.given |= {
        f"dynamic_rating_{n}": Quantity("N", rated.dynamic),
        f"static_rating_{n}": Quantity("N", rated.static),
        f"f0_{n}": Quantity("MPa", rated.f_0),
        f"balls_{n}": Quantity("-", bearing.balls),
    }
    return rated


def _thrust_factors(found, n, rated) -> Rolled:
    axial = found.joint.axial
    entry = found.work(ball.thrust_entry, f"thrust_entry_{n}", f_0=rated.f_0, F_a=axial, C_0=rated.static)
    e, Y, reached = ball.thrust_factors(entry, columns_of("thrust_iso281"))
    return Rolled(axial, float(e), float(Y), bool(reached))


def _equivalent(found, n, load, rolled):
    """Dynamic equivalent load of the worse sense of the couple, without shock."""
    radial = found.work(statics.steady_load, f"steady_load_{n}", R_w=load.loads[n - 1], k_s=found.joint.shock)
    return found.work(
        ball.equivalent_load, f"equivalent_load_{n}", F_r=radial, F_a=rolled.thrust, e=rolled.e, Y=rolled.Y
    )


def _static(found, n, load, rated):
    P_0 = found.work(
        ball.equivalent_static_load, f"equivalent_static_load_{n}", R_w=load.loads[n - 1], F_t=load.thrust
    )
    if P_0 > 0:
        factor = found.work(ball.static_factor, f"static_factor_{n}", C_0=rated.static, P_0=P_0)
        found.put_number(f"static_factor_{n}", factor, "-")


def _thrust(found, balls, rated):
    """Either bearing may be the one that stops the shaft, so the weaker one sets the limit."""
    limits = {}
    for n, bearing in balls.items():
        share = float(ball.thrust_share(bearing.nominal, bearing.diameter_series in LIGHT_SERIES))
        limits[n] = found.work(ball.thrust_limit, f"thrust_limit_{n}", x_t=share, C_0=rated[n].static)
    found.limits["thrust_limit"] = min(limits.values())


def _lives(found, balls, rated, carried):
    """Rating life of each bearing where there is one, and hours of the worse one against the hours wanted."""
    motion, lives = found.joint.motion, {}
    rollable, rate = _swing(found, balls, motion), _turn_rate(found, motion)
    for n, (P, rolled) in carried.items():
        if rolled.reached and 0 < P <= 0.5 * rated[n].dynamic and n in rollable:
            lives[n] = found.work(ball.rating_life, f"rating_life_{n}", C=rated[n].dynamic, P=P)
            found.put_number(f"rating_life_{n}", lives[n], "10⁶")
        elif P > 0 and n in rollable and rate >= ball.SLOWEST:
            _refuse(found, n, P, rated[n], rolled)
    told = lives and all(n in lives for n, (P, _) in carried.items() if P > 0)
    if not told or rate < ball.SLOWEST:
        return
    hours = found.work(ball.life_hours, "life_hours", L_10=min(lives.values()), n=rate, t_h=ball.HOUR)
    found.put_number("life_hours", hours, "h")
    if motion.hours:
        found.limits["hours_wanted"] = motion.hours


def _refuse(found, n, P, rated, rolled):
    """Why a bearing that turns has no rating life."""
    why = f"bearing {n} carries too much thrust for a rating life"
    if rolled.reached:
        load, half = written(P, "N"), written(0.5 * rated.dynamic, "N")
        why = f"bearing {n} carries {load}, more than half its dynamic rating, {half}: no life can be told"
    found.answers["too_heavy"] = Yes(False, False, why)


def _turn_rate(found, motion: Motion) -> float:
    """Turns a second that the motion is worth; 0 by hand."""
    if motion.kind == "turn":
        return motion.rate
    if motion.kind == "hand":
        return 0.0
    turns = found.work(ball.swing_turns, "swing_turns", phi_pp=motion.angle)
    return found.work(ball.swing_turn_rate, "swing_turn_rate", N_s=turns, f_s=motion.rate)


def _swing(found, balls, motion) -> set[int]:
    """The bearings that roll far enough for a rating life to mean anything."""
    if motion.kind != "swing":
        return set(balls)
    rollable, short = set(), []
    for n, bearing in balls.items():
        gamma = ball.ball_ratio(bearing.ball_diameter, bearing.pitch_diameter)
        needed = found.work(ball.outer_overlap, f"outer_overlap_{n}", Z=bearing.balls, gamma=gamma)
        if motion.angle >= needed:
            rollable.add(n)
        else:
            short.append(needed)
    if not balls:
        return rollable
    swing = written(degrees(motion.angle), "°")
    if motion.angle < FALSE_BRINELLING:
        why = f"a swing of {swing} wears dents under the balls; turn the joint right round now and then"
        found.answers["swing"] = Yes(True, False, why)
    elif short:
        least = written(degrees(max(short)), "°")
        why = f"a swing of {swing} is judged by the static factor; a rating life is defined from {least}"
        found.answers["swing"] = Yes(True, True, why)
    else:
        found.answers["swing"] = Yes(True, True)
    return rollable
