"""Points at which banded inputs are tried: scrambled Sobol points, the same in every run."""

from functools import cache

import numpy as np

POINTS = 4096
SEED = 7379


@cache
def sobol(dimensions: int) -> np.ndarray:
    """Uniform points in the unit box, shape (4096, dimensions), read-only."""
    from scipy.stats import qmc  # heavy: only when something is evaluated

    points = qmc.Sobol(dimensions, scramble=True, seed=SEED).random(POINTS)
    points.setflags(write=False)
    return points


def likely_range(values) -> tuple[float, float]:
    """5th and 95th percentile of sampled values."""
    low, high = np.percentile(values, [5, 95])
    return float(low), float(high)


def within(bands, points) -> list[np.ndarray]:
    """One column per band, uniform between its limits."""
    return [band.least + (band.most - band.least) * points[:, n] for n, band in enumerate(bands)]
