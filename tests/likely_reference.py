"""Whether a likely range holds nine in ten of many random draws, within the error of sampling."""

import numpy as np

POINTS, SOBOL = 20_000, 4096
# of a share of one in twenty, four standard errors
ERROR = 4 * np.sqrt(0.05 * 0.95 * (1 / POINTS + 1 / SOBOL))


def by_ratio(rng, band):
    """Draws between the ends of a band, spread evenly by their ratio, as a power of ten is."""
    return np.exp(rng.uniform(np.log(band["least"]), np.log(band["most"]), POINTS))


def evenly(rng, band):
    """Draws between the ends of a band, each size as often as any other."""
    return rng.uniform(band["least"], band["most"], POINTS)


def nine_in_ten(values, likely):
    """Whether a twentieth of the values lies below the likely range and as much above; many may be alike."""
    low, high = likely
    hair = 1e-9 * max(abs(low), abs(high)) + 1e-12
    below, above = np.mean(values < low - hair), np.mean(values > high + hair)
    reached = np.mean(values <= low + hair), np.mean(values >= high - hair)
    return below <= 0.05 + ERROR and above <= 0.05 + ERROR and min(reached) >= 0.05 - ERROR
