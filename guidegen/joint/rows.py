"""Banded inputs as columns: the typical point, every corner of the box, and Sobol points inside it."""

from itertools import product
from typing import Mapping

import numpy as np

from guidegen.joint.sample import likely_range, sobol, within
from guidegen.units import Band


class Rows:
    """Columns over all rows, one per input; inputs without a band stay plain numbers.

    Row 0 holds typical values, then come all corners, then the Sobol points. A quantity computed
    over the columns gets its band from the corners and the typical row, its likely range from the rest.
    """

    def __init__(self, bands: Mapping[str, Band]):
        varying = [name for name in sorted(bands) if bands[name].width > 0]
        self.columns = {name: band.typical for name, band in bands.items()}
        self.corners = 2 ** len(varying)
        if not varying:
            return
        ends = np.array(list(product((0.0, 1.0), repeat=len(varying)))).T
        sampled = within([bands[name] for name in varying], sobol(len(varying)))
        for name, at, inside in zip(varying, ends, sampled):
            band = bands[name]
            self.columns[name] = np.concatenate([[band.typical], np.where(at, band.most, band.least), inside])

    def band(self, values, among=None) -> Band:
        """Least, typical and most of a quantity.

        among: the rows where it means anything, the first one too. Such a quantity may turn inside the box,
        so the points inside count for it beside the corners.
        """
        if np.ndim(values) == 0:
            return Band.exactly(float(values))
        box = values[: 1 + self.corners] if among is None else values[among]
        return Band(float(box.min()), float(values[0]), float(box.max()))

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
    return float(np.ravel(values)[0])
