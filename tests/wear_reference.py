"""A bush that wears, point by point round its bore, by Archard's law: depth is rate times pressure times distance.

The shaft is rigid and round, the bush a bed of springs. Nothing is known here of a cosine.
"""
from functools import cache

import numpy as np
from scipy.optimize import brentq

POINTS = 360
ANGLES = np.linspace(-np.pi, np.pi, POINTS, endpoint=False)  # from the line of load
ARC = 2 * np.pi / POINTS


def pressures(sink, clearance, worn, stiffness, direction=0.0):
    """Pressure at each point when the shaft has sunk so far from the middle of the bore."""
    return stiffness * np.maximum(0, sink * np.cos(ANGLES - direction) - clearance / 2 - worn)


def balanced(load, radius, clearance, worn, stiffness, direction=0.0):
    """(how far the shaft sinks, pressures) under a load, N per mm of length."""
    def missing(sink):
        carried = pressures(sink, clearance, worn, stiffness, direction) @ np.cos(ANGLES - direction)
        return carried * radius * ARC - load

    deepest = clearance / 2 + worn.max() + 10 * load / (radius * stiffness * ARC)
    sink = brentq(missing, 0, deepest, xtol=1e-14, rtol=1e-14)
    return sink, pressures(sink, clearance, worn, stiffness, direction)


@cache
def standing_load(load, diameter, clearance, rate, distance, steps, stiffness):
    """How much farther the shaft sinks per distance slid, at the end: the load stands still in the bush.

    load: N per mm; distance: mm, slid in all. Read between the last two of so many steps, which must be short
    enough that one wears off less than the springs give way.
    """
    assert rate * stiffness * distance / steps < 1
    worn, sinks = np.zeros(POINTS), []
    for _ in range(steps):
        sink, pressure = balanced(load, diameter / 2, clearance, worn, stiffness)
        sinks.append(sink)
        worn = worn + rate * pressure * distance / steps
    return (sinks[-1] - sinks[-2]) * steps / distance


@cache
def round_load(load, diameter, clearance, stiffness):
    """Mean pressure of a point of the bore over one turn of the load, N/mm²."""
    return balanced(load, diameter / 2, clearance, np.zeros(POINTS), stiffness)[1].mean()
