"""Free play of a joint over rows of inputs: clearances, tilt, lean, travel at the arm and at the load."""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from guidegen.joint.endplay import GROOVE
from guidegen.joint.rows import first
from guidegen.joint.working import Working
from guidegen.theory import clearance as room
from guidegen.theory import freeplay, pressfit


@dataclass(frozen=True)
class Guided:
    """One bearing as it guides the shaft; arrays over rows, or numbers."""

    clearance: Any
    bore: Any  # as the shaft finds it
    fit: Any  # bore less shaft, signed
    closure: Any
    interference: Any
    pressure: Any
    hub_stress: Any
    free_tilt: Any  # each way; infinite for a bush
    length: Any  # effective
    preload: Any  # internal clearance less what mounting takes; below zero when preloaded


@dataclass(frozen=True)
class Play:
    """Free play of the whole joint; arrays over rows, or numbers."""

    guided: tuple[Guided, ...]
    tilt: Any
    lean: Any  # None when no straight shaft passes
    binds: Any  # tilt_min − tilt_max: above zero no straight shaft passes
    arm_play: Any
    load_play: Any
    offset_limit: Any


def guide(work: Working, n: int, seat, columns, clamped: bool) -> Guided:
    """Bearing number n: how the housing changes it and how much room it leaves the shaft."""
    outside, hole, shaft = (
        columns[name] for name in (f"outside_diameter_{n}", f"hole_{n}", "shaft_diameter")
    )
    tight = work(room.interference, f"interference_{n}", D=outside, D_h=hole)
    gap = 0.0 if seat.bonded else work(room.housing_gap, f"housing_gap_{n}", D_h=hole, D=outside)
    k_h = work(pressfit.hub_ratio, f"hub_ratio_{n}", D_o=seat.hub, D=outside)
    if seat.ball:
        return _ball(work, n, seat, columns, clamped, tight, gap, k_h, shaft)
    length = columns[f"length_{n}"]
    free = columns[f"free_bore_{n}"]
    k_b = work(pressfit.bush_ratio, f"bush_ratio_{n}", D=outside, d_f=free)
    pressure = _pressure(work, n, seat, columns, tight, outside, k_h, k_b)
    closure = work(pressfit.bore_closure, f"closure_{n}", p=pressure, D=outside, d_f=free, E_b=seat.modulus)
    if seat.pressed is not None:
        bore = columns[f"bore_{n}"]
    else:
        bore = work(room.bore_after_pressing, f"bore_{n}", d_f=free, delta=closure)
    fit = work(room.shaft_fit, f"fit_{n}", d_b=bore, d_s=shaft)
    c = work(room.bush_clearance, f"clearance_{n}", d_b=bore, d_s=shaft, g_h=gap)
    return Guided(
        c, bore, fit, closure, tight, pressure, pressfit.hub_stress(pressure, k_h), np.inf, length, np.inf
    )


def _pressure(work, n, seat, columns, tight, outside, k_h, k_b):
    return work(
        pressfit.press_pressure,
        f"press_pressure_{n}",
        i=tight,
        D=outside,
        k_h=k_h,
        nu_h=seat.housing_poisson,
        E_h=columns[f"housing_modulus_{n}"],
        k_b=k_b,
        nu_b=seat.poisson,
        E_b=seat.modulus,
    )


def _ball(work, n, seat, columns, clamped, tight, gap, k_h, shaft):
    bearing, bore = seat.bearing, columns[f"bore_{n}"]
    outside, inside = columns[f"outside_diameter_{n}"], columns[f"internal_clearance_{n}"]
    outer_race, inner_race = (
        bearing.pitch_diameter + bearing.ball_diameter,
        bearing.pitch_diameter - bearing.ball_diameter,
    )
    k_b = work(pressfit.bush_ratio, f"ring_ratio_{n}", D=outside, d_f=outer_race)
    pressure = _pressure(work, n, seat, columns, tight, outside, k_h, k_b)
    closure = work(
        pressfit.bore_closure, f"closure_{n}", p=pressure, D=outside, d_f=outer_race, E_b=seat.modulus
    )
    k_i = work(pressfit.inner_ring_ratio, f"inner_ring_ratio_{n}", d_r=inner_race, d_b=bore)
    on_shaft = work(
        pressfit.ring_pressure,
        f"ring_pressure_{n}",
        d_s=shaft,
        d_b=bore,
        k_i=k_i,
        nu_b=seat.poisson,
        E_b=seat.modulus,
        nu_s=seat.poisson,
        E_s=seat.modulus,
    )
    growth = work(
        pressfit.raceway_growth, f"growth_{n}", p_i=on_shaft, d_b=bore, d_r=inner_race, E_b=seat.modulus
    )
    left = work(room.mounted_clearance, f"mounted_clearance_{n}", G=inside, delta_i=growth, delta_o=closure)
    fit = work(room.shaft_fit, f"fit_{n}", d_b=bore, d_s=shaft)
    excess = work(room.groove_excess, f"groove_excess_{n}", f_g=GROOVE, D_w=bearing.ball_diameter)
    axial = work(room.axial_play, f"axial_play_{n}", A=excess, G_m=left)
    if clamped:
        c = work(room.clamped_ball_clearance, f"clearance_{n}", G_m=left, g_h=gap)
        tilt = work(room.clamped_ball_tilt, f"free_tilt_{n}", P_e=axial, d_m=bearing.pitch_diameter)
    else:
        c = work(room.loose_ball_clearance, f"clearance_{n}", G_m=left, d_b=bore, d_s=shaft, g_h=gap)
        tilt = work(
            room.loose_ball_tilt,
            f"free_tilt_{n}",
            P_e=axial,
            d_m=bearing.pitch_diameter,
            d_b=bore,
            d_s=shaft,
            w=seat.width,
        )
    return Guided(
        c,
        bore,
        fit,
        closure,
        tight,
        pressure,
        pressfit.hub_stress(pressure, k_h),
        tilt,
        0.0,
        inside - growth - closure,
    )


def free_play(work: Working, seats, columns, *, separation, overhang, arm, offset, clamped) -> Play:
    """Free play of one or two seated bearings.

    columns: inputs by name, each a number or an array over rows. separation, overhang: mm from middle
    to middle and from the last bearing to the load plane (None: unknown). offset: of the two bore axes.
    """
    guided = tuple(guide(work, n, seat, columns, clamped) for n, seat in enumerate(seats, 1))
    z, W, U, lowest, highest = _stations(guided, separation or 0.0, offset)
    tilt_min, tilt_max = freeplay.tilt_range(z, W, U, lowest, highest)
    if offset:
        tilt = _proved_by_stations(work, z, W, U, lowest, highest, tilt_min, tilt_max)
        passes = first(tilt_min) <= first(tilt_max)
        lean = work(freeplay.swing_centre, "lean", theta_u=tilt_max, theta_l=tilt_min) if passes else None
    else:
        tilt, lean = _in_line(work, guided, separation), 0.0 * tilt_max
    arm_play = work(freeplay.arm_travel, "arm_play", r=arm, theta=tilt)
    load_play = (
        None
        if overhang is None
        else _load_play(work, (separation or 0.0) + overhang, z, W, U, lowest, highest)
    )
    limit = None
    if len(guided) == 2:
        limit = _offset_limit(work, guided, separation)
    return Play(guided, tilt, lean, tilt_min - tilt_max, arm_play, load_play, limit)


def tilt_of(guided: tuple[Guided, ...], separation: float | None, offset: float):
    """Tilt each way of bearings that guide the shaft as these do, over their rows; no steps are kept."""
    if not offset:
        return _in_line(Working(), guided, separation)
    tilt_min, tilt_max = freeplay.tilt_range(*_stations(guided, separation or 0.0, offset))
    return freeplay.half_swing(tilt_max, tilt_min)


def _offset_limit(work, guided, separation):
    """How far the two bores may part; None when the bearings overlap."""
    lengths = [one.length for one in guided]
    if separation < sum(map(first, lengths)) / 2:
        return None
    gap = work(freeplay.inner_gap, "inner_gap", S=separation, L_1=lengths[0], L_2=lengths[1])
    slopes = [
        one.free_tilt if np.ndim(one.free_tilt) or np.isfinite(one.free_tilt) else one.clearance / one.length
        for one in guided
    ]
    c_1, c_2 = (one.clearance for one in guided)
    return work(freeplay.offset_limit, "offset_limit", c_1=c_1, c_2=c_2, g=gap, s_1=slopes[0], s_2=slopes[1])


def _stations(guided, separation, offset):
    """Planes and bands of axis position, shape (rows, stations), and the bounds on tilt itself."""
    planes, low, high, bounds = [], [], [], [np.inf]
    for middle, shift, one in zip((0.0, separation), (0.0, offset), guided):
        bounds.append(one.free_tilt)
        half = one.length / 2
        ends = (middle,) if np.ndim(half) == 0 and half == 0 else (middle - half, middle + half)
        for end in ends:
            planes.append(end)
            low.append(shift - one.clearance / 2)
            high.append(shift + one.clearance / 2)
    rows = np.broadcast_shapes(*(np.shape(x) for x in planes + low + bounds)) or (1,)
    columns = [
        np.stack([np.broadcast_to(np.asarray(x, float), rows) for x in group], axis=1)
        for group in (planes, low, high)
    ]
    highest = np.min([np.broadcast_to(np.asarray(b, float), rows) for b in bounds], axis=0)
    return *columns, -highest, highest


def _in_line(work, guided, separation):
    """Tilt each way by the closed form for bores in line."""
    if len(guided) == 1:
        one = guided[0]
        if np.ndim(one.free_tilt) or np.isfinite(one.free_tilt):
            work.steps.append(_same(work.steps, "free_tilt_1", "tilt"))
            return one.free_tilt
        return work(freeplay.bush_tilt, "tilt", c=one.clearance, L=one.length)
    first_one, second = guided
    balls = [g for g in guided if np.ndim(g.free_tilt) or np.isfinite(g.free_tilt)]
    c_1, c_2 = first_one.clearance, second.clearance
    if len(balls) == 2:
        return work(
            freeplay.ball_pair_tilt,
            "tilt",
            c_1=c_1,
            c_2=c_2,
            S=separation,
            theta_1=first_one.free_tilt,
            theta_2=second.free_tilt,
        )
    span = work(freeplay.outer_span, "outer_span", S=separation, L_1=first_one.length, L_2=second.length)
    if not balls:
        return work(
            freeplay.bush_pair_tilt, "tilt", c_1=c_1, c_2=c_2, B=span, L_1=first_one.length, L_2=second.length
        )
    bush = second if balls[0] is first_one else first_one
    return work(
        freeplay.mixed_pair_tilt,
        "tilt",
        c_1=c_1,
        c_2=c_2,
        B=span,
        c=bush.clearance,
        L=bush.length,
        theta_b=balls[0].free_tilt,
    )


def _same(steps, gives, name):
    """The step that gave one quantity, kept again under another name that is equal to it."""
    return replace(next(step for step in steps if step.gives == gives), gives=name)


def _proved_by_stations(work, z, W, U, lowest, highest, tilt_min, tilt_max):
    """Half swing with the bores out of line; the steps show the stations that stop the shaft."""
    for name, upper, lower, reached in (("tilt_max", U, W, tilt_max), ("tilt_min", W, U, tilt_min)):
        pair = next(
            (
                (j, k)
                for j in range(z.shape[1])
                for k in range(j + 1, z.shape[1])
                if z[0, k] > z[0, j]  # bushes that touch share a plane
                and np.isclose(
                    (upper[0, k] - lower[0, j]) / (z[0, k] - z[0, j]), reached[0], rtol=1e-9, atol=1e-15
                )
            ),
            None,
        )
        if pair:
            j, k = pair
            work(
                freeplay.station_tilt,
                name,
                f"found among all pairs of stations: station {k + 1} against station {j + 1}",
                U_k=upper[0, k],
                W_j=lower[0, j],
                z_k=z[0, k],
                z_j=z[0, j],
            )
    return work(freeplay.half_swing, "tilt", theta_u=tilt_max, theta_l=tilt_min)


def _load_play(work, x, z, W, U, lowest, highest):
    """Total travel at the load plane; a step proves the highest position by what stops it there."""
    at = np.full(len(z), x)
    top = freeplay.highest_at(at, z, W, U, lowest, highest)
    bottom = -freeplay.highest_at(at, z, -U, -W, -highest, -lowest)
    _prove_reach(work, x, top[0], z[0], W[0], U[0], lowest[0], highest[0])
    return work(freeplay.total_travel, "load_play", y_u=top, y_l=bottom)


def _prove_reach(work, x, reached, z, W, U, lowest, highest):
    """Keep the step that gives the highest typical position at the load plane."""
    found = "found among all stations: station {} stops the shaft"
    for k in range(len(z)):
        steepest = highest if x >= z[k] else lowest
        if np.isfinite(steepest) and np.isclose(U[k] + steepest * (x - z[k]), reached, rtol=1e-9, atol=1e-15):
            work(
                freeplay.tilt_reach,
                "load_play_top",
                found.format(k + 1),
                U_k=U[k],
                theta_u=steepest,
                x=x,
                z_k=z[k],
            )
            return
        for j in range(len(z)):
            if j == k:
                continue
            if z[j] < x < z[k]:
                if np.isclose(
                    freeplay.station_between(U[j], U[k], x, z[j], z[k]), reached, rtol=1e-9, atol=1e-15
                ):
                    work(
                        freeplay.station_between,
                        "load_play_top",
                        found.format(f"{j + 1} and station {k + 1}"),
                        U_j=U[j],
                        U_k=U[k],
                        x=x,
                        z_j=z[j],
                        z_k=z[k],
                    )
                    return
            elif (
                z[k] != z[j]
                and (x - z[k]) * (z[k] - z[j]) >= 0
                and np.isclose(
                    freeplay.station_reach(U[k], W[j], x, z[k], z[j]), reached, rtol=1e-9, atol=1e-15
                )
            ):
                work(
                    freeplay.station_reach,
                    "load_play_top",
                    found.format(f"{k + 1} with station {j + 1}"),
                    U_k=U[k],
                    W_j=W[j],
                    x=x,
                    z_k=z[k],
                    z_j=z[j],
                )
                return


def settled(work, play, separation, straddle):
    """Typical tilt of the shaft once the load has pressed it against its bearings."""
    one, other = play.guided
    c_1, c_2, theta = first(one.clearance), first(other.clearance), first(play.tilt)
    if straddle:
        return work(
            freeplay.settled_tilt_straddle, "settled_tilt", c_1=c_1, c_2=c_2, S=separation, theta=theta
        )
    span = freeplay.outer_span(separation, first(one.length), first(other.length))
    return work(freeplay.settled_tilt_overhung, "settled_tilt", c_1=c_1, c_2=c_2, B=span, theta=theta)
