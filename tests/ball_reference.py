"""Ball bearings ball by ball: elliptic Hertz contact, equilibrium of the inner ring, and the rolling itself.

Knows no load rating and no factor: only balls, grooves, steel, and the life law of Lundberg and Palmgren.
"""

import math
from dataclasses import dataclass
from functools import cache

import numpy as np
from scipy.optimize import brentq, least_squares
from scipy.special import ellipe, ellipkm1

INNER, OUTER = 0.52, 0.53  # groove radius over ball diameter: the ratios of ISO 76; ISO 281 allows as much
MODULUS, POISSON = 207_000.0, 0.3  # MPa


@dataclass(frozen=True)
class Contact:
    """A ball in its groove: greatest pressure, MPa, and approach, mm, at 1 N."""

    pressure: float
    approach: float

    def load_at(self, pressure):
        """Load, N, that gives a greatest pressure: it grows with the cube."""
        return (pressure / self.pressure) ** 3


@cache
def contact(across, along):
    """Hertz contact of a ball and a groove with these sums of curvatures in the two planes, 1/mm."""
    across, along = sorted((across, along), reverse=True)
    ratio, total = (across - along) / (across + along), across + along

    def shape(k):
        first, second = ellipkm1(1 / k**2), ellipe(1 - 1 / k**2)
        return ((k**2 + 1) * second - 2 * first) / ((k**2 - 1) * second) - ratio

    k = brentq(shape, 1.0001, 500)
    first, second = ellipkm1(1 / k**2), ellipe(1 - 1 / k**2)
    long_axis, short_axis = (2 * k**2 * second / math.pi) ** (1 / 3), (2 * second / (math.pi * k)) ** (1 / 3)
    soft = 3 / (2 * total) * 2 * (1 - POISSON**2) / MODULUS
    pressure = 3 / (2 * math.pi * long_axis * short_axis * soft ** (2 / 3))
    return Contact(pressure, first / (long_axis * math.pi) * 2 * soft ** (2 / 3) * total / 2)


def contacts(ball, pitch):
    """Contacts of a ball with the inner and the outer groove."""
    inner = contact(2 / ball + 2 / (pitch - ball), 2 / ball - 1 / (INNER * ball))
    return inner, contact(2 / ball - 2 / (pitch + ball), 2 / ball - 1 / (OUTER * ball))


def static_load(ball, pitch, balls, pressure=4200.0):
    """Radial load, N, at which the worst ball, bearing five times the mean (Stribeck), has this pressure."""
    return min(groove.load_at(pressure) for groove in contacts(ball, pitch)) * balls / 5


def dynamic_load(ball, pitch, balls):
    """Radial load, N, for a million turns by Lundberg and Palmgren's law of 1947, their steel.

    Both grooves 0.52, as ISO 281 takes them; 0.41 is its rounded share of Jr/J1, 0.95 its reduction.
    """
    gamma = ball / pitch
    groove = (2 * INNER / (2 * INNER - 1)) ** 0.41
    ring = 98.07 * groove * gamma**0.3 * (1 - gamma) ** 1.39 / (1 + gamma) ** (1 / 3)
    one_contact = ring * ball**1.8 * balls ** (-1 / 3)
    both = (1 + (1.04 * ((1 - gamma) / (1 + gamma)) ** 1.72) ** (10 / 3)) ** -0.3
    return 0.95 * 0.41 * one_contact * balls * both


@cache
def ball_loads(radial, thrust, ball, pitch, balls):
    """Load of each ball, N, of a bearing without clearance, with the inner ring in equilibrium."""
    stiffness = sum(groove.approach for groove in contacts(ball, pitch)) ** -1.5
    apart = (INNER + OUTER - 1) * ball  # between the centres of the two grooves
    round_about = 2 * math.pi * np.arange(balls) / balls

    def pressed(moved):
        across, along = apart + moved[0] * np.cos(round_about), moved[1]
        length = np.hypot(across, along)
        return stiffness * np.maximum(length - apart, 0) ** 1.5, across / length, along / length

    def missing(moved):
        load, across, along = pressed(moved)
        left = np.sum(load * across * np.cos(round_about)) - radial, np.sum(load * along) - thrust
        return np.array(left) / max(radial, thrust)

    for start in ((0.005, 0.0), (0.01, 0.02), (0.02, 0.08), (0.002, 0.05), (0.05, 0.2)):
        found = least_squares(missing, start, xtol=1e-14, ftol=1e-14, gtol=1e-14)
        if found.cost < 1e-16:
            return pressed(found.x)[0]
    raise AssertionError(f"no equilibrium for {radial} N, {thrust} N")


def as_radial(radial, thrust, ball, pitch, balls):
    """Radial loads, N, that press the worst ball as hard, and tire the grooves as fast, as both together.

    Inner ring turning: its groove feels the mean of the cubes, the outer the mean of the powers 10/3; lives
    of the two add with the Weibull slope 10/9. Load capacities of the grooves by Lundberg and Palmgren.
    """
    gamma = ball / pitch

    def tiring(loads):
        inner = np.mean(loads**3) ** (1 / 3) / _bears(INNER, gamma)
        outer = np.mean(loads ** (10 / 3)) ** 0.3 / _bears(OUTER, -gamma)
        return (inner ** (10 / 3) + outer ** (10 / 3)) ** 0.3

    both, alone = ball_loads(radial, thrust, ball, pitch, balls), ball_loads(100.0, 0.0, ball, pitch, balls)
    return 100 * both.max() / alone.max(), 100 * tiring(both) / tiring(alone)


def _bears(groove, gamma):
    return (2 * groove / (2 * groove - 1)) ** 0.41 * (1 - gamma) ** 1.39 / (1 + gamma) ** (1 / 3)


def touched(angle, ball, pitch, balls, ring, marks=20_000):
    """Share of the circle of a groove that the balls roll over while the inner ring turns by `angle`.

    A ball rolling without slip between a turning and a still ring has half the speed of the turning groove.
    """
    travelled = angle * (pitch - ball) / 2 / 2  # of a ball's centre on the pitch circle
    of_cage = travelled / (pitch / 2)
    along = abs(of_cage - angle) if ring == "inner" else of_cage
    places = 2 * math.pi * np.arange(marks) / marks
    behind = [(places - 2 * math.pi * n / balls) % (2 * math.pi) for n in range(balls)]
    return np.mean(np.min(behind, axis=0) <= along)
