"""End play of a stack: its band, its likely range, the chance of pinching, and what measuring first gains."""

from typing import NamedTuple

import numpy as np

from guidegen.joint import fill
from guidegen.joint.records import Clamped, Quantity
from guidegen.joint.sample import likely_range, sobol, within
from guidegen.theory.clearance import axial_play, groove_excess
from guidegen.theory.stack import clamped_end_play, end_play, ring_mismatch, stands_proud
from guidegen.units import Band

GROOVE = 0.52  # groove radius over ball diameter, both rings: the ratio ISO 281's tables hold for


class Axial(NamedTuple):
    """What is known of the end play before and after the parts are measured."""

    end_play: Band
    likely: tuple[float, float]
    chance_pinched: float
    chance_fits: float  # share of sampled stacks that some choice of fillers brings into the window
    window: tuple[float, float]
    at_typical: float  # end play with every part at its typical size
    clamped: Clamped | None = None


def axial_floating(shoulder: Band, body: Band, bands, needed, fillers, window) -> Axial:
    """A stack that floats between head and shoulder end.

    bands: everything beside the body; needed: those of them that stay when fillers are chosen anew.
    """
    total = sum(bands, body)
    band = Band(
        end_play(shoulder.least, total.most),
        end_play(shoulder.typical, total.typical),
        end_play(shoulder.most, total.least),
    )
    columns = within([shoulder, body, *bands], sobol(2 + len(bands)))
    play = end_play(columns[0], sum(columns[1:]))
    staying = within([shoulder, body, *needed], sobol(2 + len(needed)))
    room = end_play(staying[0], sum(staying[1:]))
    return Axial(
        band,
        likely_range(play),
        float(np.mean(play < 0)),
        _share_met(fillers, room - window[1], room - window[0]),
        window,
        band.typical,
    )


def axial_clamped(bearings, inner, outer: Band, fillers, column: "Column") -> Axial:
    """Two ball bearings clamped through their inner rings, with `inner` parts between them.

    The rings mismatch one way or the other, and either takes play: the typical mismatch is the one that half
    of all stacks stay below, not that of typical sizes, which is none at all and the best there is.
    """
    inside = sum(inner, Band.exactly(0.0))
    clearances = [b.internal_clearance for b in bearings]
    own = [
        Band(*(own_axial_play(b, g) for g in (band.least, band.typical, band.most)))
        for b, band in zip(bearings, clearances)
    ]
    columns = within([*clearances, outer, *inner], sobol(3 + len(inner)))
    P_1, P_2 = (own_axial_play(b, column) for b, column in zip(bearings, columns))
    between, rings = columns[2], sum(columns[3:], np.zeros(len(columns[0])))
    sampled = ring_mismatch(rings, between)
    gaps = [inside.most - outer.least, inside.least - outer.most]
    nearest = 0.0 if min(gaps) <= 0 <= max(gaps) else min(map(abs, gaps))
    mismatch = Band(nearest, float(np.median(sampled)), max(map(abs, gaps)))
    play = clamped_end_play(P_1, P_2, sampled)
    ends = zip(("least", "typical", "most"), ("most", "typical", "least"))
    band = Band(
        *(
            float(clamped_end_play(*(getattr(b, end) for b in own), getattr(mismatch, other)))
            for end, other in ends
        )
    )
    reach = (P_1 + P_2) / 2  # a mismatch of the rings within this leaves some play
    matched = ring_mismatch(inside.typical, outer.typical)
    return Axial(
        band,
        likely_range(play),
        float(np.mean(play < 0)),
        _share_met(fillers, between - reach, between + reach),
        (0.0, min(own[0].typical, own[1].typical)),
        float(clamped_end_play(own[0].typical, own[1].typical, matched)),
        Clamped(Quantity("mm", band=mismatch, likely=likely_range(sampled)), *_proud(column)),
    )


class Column(NamedTuple):
    """All that stands between the head and the clamped face, and the shoulder that it must stand out of."""

    shoulder: Band
    parts: list[Band]
    needed: list[Band]  # those that stay when fillers are chosen anew
    fillers: tuple
    wanted: tuple[float, float]  # how far it should stand out


def _proud(column: Column) -> tuple[Quantity, float]:
    """How far it stands out, and the share of measured stacks that some choice of fillers brings right."""
    shoulder, total = column.shoulder, sum(column.parts, Band.exactly(0.0))
    band = Band(
        stands_proud(total.least, shoulder.most),
        stands_proud(total.typical, shoulder.typical),
        stands_proud(total.most, shoulder.least),
    )
    sampled = within([shoulder, *column.parts], sobol(1 + len(column.parts)))
    staying = within([shoulder, *column.needed], sobol(1 + len(column.needed)))
    short = -stands_proud(sum(staying[1:]), staying[0])
    low, high = column.wanted
    out = likely_range(stands_proud(sum(sampled[1:]), sampled[0]))
    return Quantity("mm", band=band, likely=out), _share_met(column.fillers, short + low, short + high)


def own_axial_play(bearing, clearance):
    """Axial play of one ball bearing at a radial internal clearance, as delivered."""
    return axial_play(groove_excess(GROOVE, bearing.ball_diameter), clearance)


def _share_met(fillers, low, high) -> float:
    """Share of the ranges low..high that hold a sum of some of the fillers."""
    sums = fill.reachable_sums(fillers, fill.roof_over(float(np.max(high))))
    return float(np.mean(np.searchsorted(sums, low) < np.searchsorted(sums, high, side="right")))
