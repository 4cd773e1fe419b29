"""Free play by a linear program: a straight shaft in real bores, each with an axis of its own.

The unknowns are the height y0 and the slope t of the shaft's axis, y = y0 + t·z. A bush is a round
bore whose axis may lie off centre and lean: the shaft must clear it at both mouths. A ball bearing
holds the axis at its middle plane, and lets it lean by so much from its own axis. Nothing here knows
stations. Heights are in µm and slopes in mrad, which keeps the solver's tolerance far below a result.
"""

from dataclasses import dataclass

import numpy as np
from scipy.optimize import linprog
from scipy.sparse import block_diag, csr_array, hstack

TO_MICROMETRES = 1000.0


@dataclass(frozen=True)
class Bore:
    """A bush, or a ball bearing (length 0): middle plane, length, diametral room; its axis; free lean."""

    middle: float
    length: float
    room: float
    off: float = 0.0  # height of its axis at its middle
    lean: float = 0.0  # slope of its axis
    free: float = np.inf  # slope each way that a ball bearing allows the shaft; rad

    @property
    def mouths(self):
        return (
            (self.middle - self.length / 2, self.middle + self.length / 2) if self.length else (self.middle,)
        )

    def axis(self, z):
        return self.off + self.lean * (z - self.middle)


def rows(bores):
    """The bores of one joint as A·(y0, t) ≤ b, in µm and mrad."""
    rules = []
    for bore in bores:
        for z in bore.mouths:
            rules.append((1, z, bore.axis(z) + bore.room / 2))
            rules.append((-1, -z, -bore.axis(z) + bore.room / 2))
        if np.isfinite(bore.free):
            rules.append((0, 1, bore.lean + bore.free))
            rules.append((0, -1, -bore.lean + bore.free))
    rules = np.array(rules)
    return rules[:, :2], rules[:, 2] * TO_MICROMETRES


def _solve(blocks, limits, goal, bounds):
    """One sparse program over all joints: they share no unknown, so each block is solved for itself."""
    found = linprog(
        goal, A_ub=csr_array(block_diag(blocks)), b_ub=np.concatenate(limits), bounds=bounds, method="highs"
    )
    assert found.status == 0, found.message
    return found.x


def gaps(joints):
    """How far, mm, the bores must give way at least for a straight shaft to pass; 0 when it passes."""
    blocks, limits = zip(*map(rows, joints))
    widened = [hstack([csr_array(block), csr_array(-np.ones((len(block), 1)))]) for block in blocks]
    found = _solve(
        widened,
        limits,
        np.tile([0.0, 0, 1], len(joints)),
        [(None, None), (None, None), (0, None)] * len(joints),
    )
    return found.reshape(-1, 3)[:, 2] / TO_MICROMETRES


def greatest(joints, of_height, of_slope):
    """Greatest of_height·y0 + of_slope·t of each joint, mm or rad; none may bind."""
    blocks, limits = zip(*map(rows, joints))
    goal = np.stack(np.broadcast_arrays(of_height, of_slope, np.zeros(len(joints)))[:2], axis=1).astype(float)
    found = _solve(blocks, limits, -goal.ravel(), (None, None)).reshape(-1, 2)
    return np.sum(goal * found, axis=1) / TO_MICROMETRES


def resting(joints, planes):
    """Slope, rad, of each joint's shaft when a load at its plane has pushed it down as far as it goes."""
    blocks, limits = zip(*map(rows, joints))
    goal = np.stack(np.broadcast_arrays(1.0, planes), axis=1)
    return _solve(blocks, limits, goal.ravel(), (None, None)).reshape(-1, 2)[:, 1] / TO_MICROMETRES
