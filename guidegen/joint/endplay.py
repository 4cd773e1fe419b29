"""End play of a stack: its band, its likely range, the chance of pinching, and what measuring first gains."""

from typing import NamedTuple

import numpy as np

from guidegen.joint import fill
from guidegen.joint.sample import likely_range, sobol, within
from guidegen.theory.clearance import axial_play, groove_excess
from guidegen.theory.stack import clamped_end_play, end_play
from guidegen.units import Band

GROOVE = 0.52  # groove radius over ball diameter, both rings: the ratio ISO 281's tables hold for


class Axial(NamedTuple):
    """What is known of the end play before and after the parts are measured."""

    end_play: Band
    likely: tuple[float, float]
    chance_pinched: float
    chance_fits: float  # share of sampled stacks that some choice of fillers brings into the window
    window: tuple[float, float]


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
    )


def axial_clamped(bearings, inner, outer: Band, fillers) -> Axial:
    """Two ball bearings clamped through their inner rings, with `inner` parts between them."""
    inside = sum(inner, Band.exactly(0.0))
    clearances = [b.internal_clearance for b in bearings]
    own = [
        Band(*(own_axial_play(b, g) for g in (band.least, band.typical, band.most)))
        for b, band in zip(bearings, clearances)
    ]
    gaps = [inside.most - outer.least, inside.least - outer.most]
    nearest = 0.0 if min(gaps) <= 0 <= max(gaps) else min(map(abs, gaps))
    band = Band(
        clamped_end_play(own[0].least, own[1].least, max(map(abs, gaps)), 0.0),
        clamped_end_play(own[0].typical, own[1].typical, inside.typical, outer.typical),
        clamped_end_play(own[0].most, own[1].most, nearest, 0.0),
    )
    columns = within([*clearances, outer, *inner], sobol(3 + len(inner)))
    P_1, P_2 = (own_axial_play(b, column) for b, column in zip(bearings, columns))
    between, rings = columns[2], sum(columns[3:], np.zeros(len(columns[0])))
    play = clamped_end_play(P_1, P_2, rings, between)
    reach = (P_1 + P_2) / 2  # a mismatch of the rings within this leaves some play
    return Axial(
        band,
        likely_range(play),
        float(np.mean(play < 0)),
        _share_met(fillers, between - reach, between + reach),
        (0.0, min(own[0].typical, own[1].typical)),
    )


def own_axial_play(bearing, clearance):
    """Axial play of one ball bearing at a radial internal clearance, as delivered."""
    return axial_play(groove_excess(GROOVE, bearing.ball_diameter), clearance)


def _share_met(fillers, low, high) -> float:
    """Share of the ranges low..high that hold a sum of some of the fillers."""
    sums = fill.reachable_sums(fillers, fill.roof_over(float(np.max(high))))
    return float(np.mean(np.searchsorted(sums, low) < np.searchsorted(sums, high, side="right")))
