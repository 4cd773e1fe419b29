"""Banded inputs as columns: the typical point, every corner of the box, and Sobol points inside it."""

from itertools import product
from typing import Mapping

import numpy as np

from guidegen.joint.sample import POINTS, SEED, likely_range, sobol, within
from guidegen.units import Band


class Rows:
    """Columns over all rows, one per input; inputs without a band stay plain numbers.

    Row 0 holds typical values, then come all corners, then the Sobol points. A quantity computed
    over the columns gets its band from the corners and the typical row, its likely range from the rest.
    """

    def __init__(self, bands: Mapping[str, Band], inside: Mapping[str, np.ndarray] | None = None, decades=()):
        """`inside`: points already drawn for some of the inputs; `decades`: those spread evenly by ratio."""
        varying = [name for name in sorted(bands) if bands[name].width > 0]
        self.columns = {name: band.typical for name, band in bands.items()}
        self.corners = 2 ** len(varying)
        if not varying:
            return
        ends = np.array(list(product((0.0, 1.0), repeat=len(varying)))).T
        sampled = _drawn(bands, varying, inside or {}, decades)
        for name, at in zip(varying, ends):
            band = bands[name]
            box = np.where(at, band.most, band.least)
            self.columns[name] = np.concatenate([[band.typical], box, sampled[name]])

    def band(self, values, among=None) -> Band:
        """Least, typical and most of a quantity.

        among: the rows where it means anything, the first one too. Such a quantity may turn inside the box,
        so the points inside count for it beside the corners.
        """
        if np.ndim(values) == 0:
            return Band.exactly(float(values))
        box = values[: 1 + self.corners] if among is None else values[among]
        return Band(float(box.min()), float(values[0]), float(box.max()))

    def inside(self, values) -> np.ndarray:
        """A quantity at the points inside the box, as many as there are."""
        return np.broadcast_to(values[1 + self.corners :] if np.ndim(values) else values, POINTS)

    def likely(self, values, among=None) -> tuple[float, float]:
        """5th and 95th percentile of a quantity, over the rows where it means anything."""
        if np.ndim(values) == 0:
            return float(values), float(values)
        sampled = values[1 + self.corners :]
        if among is not None:
            sampled = sampled[among[1 + self.corners :]]
        return likely_range(sampled) if len(sampled) else (first(values), first(values))


def first(values) -> float:
    """The typical value of a column."""
    return float(values.flat[0] if isinstance(values, np.ndarray) else values)


def _drawn(bands, varying, inside, decades) -> dict[str, np.ndarray]:
    """Points inside the box by input; new ones in an order of their own, so that they pair at random."""
    new = [name for name in varying if name not in inside]
    points = sobol(len(new)) if new else np.empty((POINTS, 0))
    if inside:
        told = "".join(sorted(inside)).encode()  # another order each time: those inside may be in one already
        points = points[np.random.default_rng([SEED, *told]).permutation(POINTS)]
    spread = [_ratio(bands[name], points[:, n]) if name in decades else None for n, name in enumerate(new)]
    even = within([bands[name] for name in new], points)
    made = {name: b if a is None else a for name, a, b in zip(new, spread, even)}
    return {**inside, **made}


def _ratio(band, points):
    return band.least * (band.most / band.least) ** points
