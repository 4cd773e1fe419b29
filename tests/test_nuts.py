"""Nuts: what a turn moves, what a hand can do, how far a nut shifts when it is jammed."""

import math

import numpy as np
import pytest
from proofs import proves
from scipy.optimize import brentq

from guidegen.kit import lookup
from guidegen.kit.fasteners import crest_diameter, hand_force, jam_share, locking_torque, pitch_diameters
from guidegen.kit.lookup import OutsideTable
from guidegen.kit.tables import read_table
from guidegen.theory import clamp, mismatch, nuts
from guidegen.units import MM_PER_INCH, read_quantity

INCH = MM_PER_INCH
# Diameter ranges of ISO 965-1 whose geometric middle its formulas take, mm.
RANGES = (2.8, 5.6, 11.2, 22.4)
# Preferred numbers in which those formulas are rounded (series R40), micrometres.
R40 = [round(100 * 10 ** (n / 40)) for n in range(-60, 20)]


def is_metric(thread):
    return thread.startswith("M")


@proves("gap_of_turn", "turn_for_gap")
def test_a_nut_climbs_its_helix():
    """The rise at which as many crests have passed as the nut has turned, and back from the rise to the turn."""
    for pitch in (0.8, 1.0, 1.25, INCH / 18):
        turns = np.array([1 / 6, 0.25, 1.0, 2.5])

        def behind(rise, turn):  # crests that lie under the nut's mark, less those that it has turned past
            return rise / pitch - turn

        climbed = [brentq(behind, 0, 20, args=(turn,)) for turn in turns]
        assert nuts.gap_of_turn(pitch, turns) == pytest.approx(climbed)
        assert nuts.turn_for_gap(nuts.gap_of_turn(pitch, turns), pitch) == pytest.approx(turns)
    assert nuts.turn_for_gap(0.25, 1.0) == 0.25  # a quarter turn of an M6 nut is a quarter of a millimetre


@proves("finger_torque")
def test_finger_and_thumb_on_a_nut():
    """The best of all places where two forces square to opposite flats can press, their moments added up."""
    for across, force in ((10.0, 40.0), (8.0, 25.0), (INCH / 2, 100.0)):
        half_side = across / math.sqrt(3) / 2
        along = np.linspace(-half_side, half_side, 401)
        moments = np.subtract.outer(along, along) * force
        assert nuts.finger_torque(force, across) == pytest.approx(moments.max())


@proves("lever_torque")
def test_a_pull_on_a_wrench():
    """The cross product of arm and force; no more however the pull leans."""
    for pull, length in ((60.0, 70.0), (129.0, 110.0)):
        leaning = np.radians(np.linspace(0, 180, 721))
        forces = pull * np.stack([np.cos(leaning), np.sin(leaning), np.zeros_like(leaning)], axis=1)
        turned = np.cross([length, 0, 0], forces)[:, 2]
        assert nuts.lever_torque(pull, length) == pytest.approx(turned.max())


@proves("wrench_torque", "jam_torque")
def test_what_the_wrench_shows():
    """Torques about one axis add, the felt one too; public pages give the thin nut a quarter to a half of it."""
    clamping = clamp.tightening_torque(0.2, 6.0, 1500.0)
    assert nuts.wrench_torque(clamping, locking_torque("M6")) == pytest.approx(1800 + 3000)
    share = jam_share()
    assert (share.least, share.most) == (0.25, 0.50)
    assert nuts.jam_torque(share.least, 8000.0) == pytest.approx(8000 / 4)
    assert nuts.jam_torque(share.most, 8000.0) == pytest.approx(8000 / 2)


def test_hand_tight_is_within_what_people_call_it():
    """Two public pages say 0.6 to 1.7 and 1.7 to 2.3 N·m of nuts of common sizes; fingers on a bare M6 nut are below."""
    found = [nuts.finger_torque(force, 10.0) for force in (hand_force("pinch").least, hand_force("pinch").most)]
    assert 50 < found[0] < found[1] < 1700
    force = clamp.clamp_of_torque(nuts.finger_torque(hand_force("pinch").typical, 10.0), 0.2, 6.0)
    assert 100 < force < 300  # N: enough to close a stack, too little to keep a face shut
    assert hand_force("pull").most == 129 and hand_force("pinch").typical == 40
    with pytest.raises(OutsideTable, match="how teeth"):
        hand_force("teeth")


def test_every_thread_has_limits_and_a_locking_torque():
    """Threads of the screws of a kit; those without a locking nut are told."""
    for name in lookup.threads():
        found = pitch_diameters(name)
        assert found.screw.most < found.nut.least, name
        if name != "M3":
            assert 500 < locking_torque(name) < 20_000
    assert locking_torque("M7") is None  # nothing known: neither nought nor a mistake
    assert {row["id"] for row in read_table("locking_torque").rows} <= set(lookup.threads())


def test_a_nut_begins_at_the_basic_profile():
    """The least pitch diameter of a 6H or 2B nut is that of the basic profile, ISO 68-1, to the last digit."""
    for name, thread in lookup.threads().items():
        last = 0.0006 if is_metric(name) else 0.00006 * INCH
        basic = mismatch.pitch_diameter(thread.diameter, thread.pitch)
        assert pitch_diameters(name).nut.least == pytest.approx(basic, abs=last), name


def step_of_r40(micrometres):
    """How many preferred numbers lie between: 0 for the nearest one to a calculated width."""
    return min(range(len(R40)), key=lambda n: abs(math.log(R40[n] / micrometres)))


def test_metric_widths_follow_iso_965():
    """6g: 90 P^0.4 d^0.1 and -(15 + 11 P); 6H: 1.32 times that (ISO 965-1), to the next preferred number."""
    for name, thread in lookup.threads().items():
        if not is_metric(name):
            continue
        found = pitch_diameters(name)
        low, high = next((a, b) for a, b in zip(RANGES, RANGES[1:]) if a < thread.diameter <= b)
        width = 90 * thread.pitch**0.4 * math.sqrt(low * high) ** 0.1
        assert abs(step_of_r40(1000 * found.screw.width) - step_of_r40(width)) <= 1, name
        assert abs(step_of_r40(1000 * found.nut.width) - step_of_r40(1.32 * width)) <= 1, name
        allowance = 1000 * (found.nut.least - found.screw.most)
        assert allowance == pytest.approx(15 + 11 * thread.pitch, abs=2), name


def test_metric_widths_that_were_read():
    """6H of M4 and M5: 118 and 125 (a tap maker's catalogue); M10 and M12: 132 and 180, 150 and 200 (ISO 965-4, -5)."""
    for name, screw, nut in (("M4", None, 118), ("M5", None, 125), ("M10", 132, 180), ("M12", 150, 200)):
        found = pitch_diameters(name)
        assert round(1000 * found.nut.width) == nut
        assert screw is None or round(1000 * found.screw.width) == screw


def test_inch_widths_follow_b1_1():
    """2A: 0.0015 D^(1/3) + 0.0015 D^(1/2) + 0.015 P^(2/3) in, allowance 0.3 of it; 2B 1.3 times (ASME B1.1)."""
    for name, thread in lookup.threads().items():
        if is_metric(name):
            continue
        found, D, P = pitch_diameters(name), thread.diameter / INCH, thread.pitch / INCH
        width = 0.0015 * D ** (1 / 3) + 0.0015 * D**0.5 + 0.015 * P ** (2 / 3)
        last = 0.00011  # limits are rounded one by one
        assert found.screw.width / INCH == pytest.approx(width, abs=last), name
        assert found.nut.width / INCH == pytest.approx(1.3 * width, abs=last), name
        assert (found.nut.least - found.screw.most) / INCH == pytest.approx(0.3 * width, abs=last), name


def test_crests_follow_their_standards():
    """6g: 180 P^(2/3) - 3.15 P^(-1/2) below -(15 + 11 P) (ISO 965-1); 2A: 0.06 P^(2/3) below its allowance (ASME B1.1)."""
    assert {row["id"] for row in read_table("thread_crests").rows} == set(lookup.threads())
    for name, thread in lookup.threads().items():
        found, pitches = crest_diameter(name), pitch_diameters(name)
        allowance = pitches.nut.least - pitches.screw.most
        assert thread.diameter - found.most == pytest.approx(allowance, abs=0.005 if is_metric(name) else 0.006), name
        if is_metric(name):
            width = 180 * thread.pitch ** (2 / 3) - 3.15 * thread.pitch**-0.5
            assert abs(step_of_r40(1000 * found.width) - step_of_r40(width)) <= 1, name
        else:
            width = 0.06 * (thread.pitch / INCH) ** (2 / 3)
            assert found.width / INCH == pytest.approx(width, abs=0.00011), name


def test_a_jammed_nut_shifts_by_as_much_as_a_joint_may_float():
    """From one flank to the other at 30 degrees: M6 shifts by 0.015 to 0.166 mm, as a nut drawn in its thread does."""
    found = pitch_diameters("M6")
    least = mismatch.flank_room(found.nut.least, found.screw.most)
    most = mismatch.flank_room(found.nut.most, found.screw.least)
    for shift, screw, nut in ((least, found.screw.most, found.nut.least), (most, found.screw.least, found.nut.most)):
        room_of_a_flank = (nut - screw) / 2 * math.tan(math.radians(30))  # of a nut in the middle of its play
        assert shift == pytest.approx(2 * room_of_a_flank)
    assert (round(float(least), 3), round(float(most), 3)) == (0.015, 0.166)


def test_locking_torques_of_both_systems_agree():
    """Neighbouring sizes of the two standards, taken to the same diameter by its cube, differ by less than 1.7 to 1."""
    pairs = {"M4": "8-32", "M5": "10-24", "M6": "1/4-20", "M8": "5/16-18", "M10": "3/8-16", "M12": "1/2-13"}
    for metric, inch in pairs.items():
        scale = (lookup.thread(inch).diameter / lookup.thread(metric).diameter) ** 3
        ratio = locking_torque(inch) / (scale * locking_torque(metric))
        assert 1 / 1.7 < ratio < 1.7, (metric, inch, ratio)
    assert locking_torque("1/4-20") == pytest.approx(read_quantity("30 lbf*in", "moment"))
