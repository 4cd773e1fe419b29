"""Thick elastic rings by finite elements along the radius (plane stress), with no closed form in them."""

import numpy as np
from scipy.linalg import solve_banded

ELEMENTS = 800
_AT = np.array([-1, 1]) / np.sqrt(3)  # two Gauss points


def _stiffness(radii, E, nu):
    """Bands of the ring's stiffness: half the work of strains du/dr and u/r, integrated over the radius."""
    inner, outer = radii[:-1], radii[1:]
    width = outer - inner
    diagonal, beside = np.zeros(len(radii)), np.zeros(len(radii) - 1)
    for at in _AT:
        r = inner + width * (1 + at) / 2
        radial = np.array([-1 / width, 1 / width])
        hoop = np.array([(1 - at) / 2 / r, (1 + at) / 2 / r])
        weight = E / (1 - nu**2) * r * width / 2
        element = weight * (
            radial[:, None] * radial[None]
            + hoop[:, None] * hoop[None]
            + nu * (radial[:, None] * hoop[None] + hoop[:, None] * radial[None])
        )
        diagonal[:-1] += element[0, 0]
        diagonal[1:] += element[1, 1]
        beside += element[0, 1]
    return diagonal, beside


def pressed(d_inner, D, D_outer, interference, inner_material, outer_material):
    """Two rings pressed together: what happens at each surface.

    Diameters mm, the inner one 0 for a solid shaft; interference on diameter; material (E, nu).
    Returns (pressure between, closure of the inner bore, growth of the outer surface, hoop stress of the
    outer ring at the joint), MPa and mm on diameter.
    """
    first = np.linspace(d_inner / 2, D / 2, ELEMENTS + 1)
    second = np.linspace(D / 2, D_outer / 2, ELEMENTS + 1)
    diagonal_1, beside_1 = _stiffness(first, *inner_material)
    diagonal_2, beside_2 = _stiffness(second, *outer_material)
    # one unknown at the joint, the displacement of the outer ring; the inner one moves i/2 less
    diagonal = np.concatenate([diagonal_1[:-1], [diagonal_1[-1] + diagonal_2[0]], diagonal_2[1:]])
    beside, load = np.concatenate([beside_1, beside_2]), np.zeros(len(diagonal_1) + len(diagonal_2) - 1)
    at = len(first) - 1
    load[at - 1] += beside_1[-1] * interference / 2
    load[at] += diagonal_1[-1] * interference / 2
    if d_inner == 0:  # the middle of a solid shaft stays where it is
        beside[0], diagonal[0] = 0.0, 1.0
    bands = np.zeros((3, len(diagonal)))
    bands[0, 1:], bands[1], bands[2, :-1] = beside, diagonal, beside
    u = solve_banded((1, 1), bands, load)
    force = diagonal_2[0] * u[at] + beside_2[0] * u[at + 1]  # on the outer ring's inside, per radian
    pressure = force / (D / 2)
    E, nu = outer_material
    hoop = E * u[at] / (D / 2) - nu * pressure
    return pressure, -2 * u[0] if d_inner else 0.0, 2 * u[-1], hoop
