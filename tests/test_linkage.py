"""Chains of the course's joints, tubes on bolts, parts that walk: drawn in numbers, and against what
people see.
"""

import csv

import numpy as np
import pytest
from joint_reference import course, some
from test_data import ROOT

from guidegen.joint import evaluate, make_joint
from guidegen.joint.chaining import sampled_tilt, stretched
from guidegen.joint.tube import tubed
from guidegen.joint.walking import pin_way, ring_way, walks
from guidegen.units import read_quantity


def named():
    return {id: evaluate(make_joint(course(), raw, id), course()) for id, raw in course().joints.items()}


def test_sampled_tilts_are_those_of_the_joint():
    """Their fifth and ninety-fifth of a hundred are the likely range that the joint's page
    tells; all lie in its band.
    """
    for result in (*named().values(), *some(12)):
        tilts, told = sampled_tilt(result.joint, course()), result.quantities["seen_tilt"]
        assert np.percentile(tilts, [5, 95]) == pytest.approx(told.likely)
        assert told.band.least - 1e-12 <= tilts.min() and tilts.max() <= told.band.most + 1e-12


def test_a_chain_is_the_sum_of_its_joints():
    """Worst, typical and root by plain sums over distances; the likely range by drawing again,
    each on its own.
    """
    found = named()
    chain = stretched(
        [found["swing-arm-lamp"], found["seed-tray-tilter"], found["vent-louvre-crank"]], course()
    )
    reach = np.array([570.0, 270.0, 120.0])
    assert [link.reach for link in chain.links] == pytest.approx(reach)
    for end in ("least", "typical", "most"):
        tilts = np.array([getattr(link.result.quantities["seen_tilt"].band, end) for link in chain.links])
        assert chain.summed(end) == pytest.approx(2 * tilts @ reach)
        assert chain.rooted(end) == pytest.approx(2 * np.hypot.reduce(tilts * reach))
    random = np.random.default_rng(11)
    drawn = sum(
        2 * away * random.choice(sampled_tilt(link.result.joint, course()), 400_000)
        for link, away in zip(chain.links, reach)
    )
    assert chain.likely == pytest.approx(np.percentile(drawn, [5, 95]), rel=0.02)
    assert chain.sampled.var() == pytest.approx(drawn.var(), rel=0.05)
    assert chain.summed("typical") < chain.likely[1] < chain.summed("most")


def test_the_same_joint_twice_is_two_joints():
    """Two lamps out of two bags: their sizes do not follow each other."""
    lamp = named()["swing-arm-lamp"]
    tilts, chain = sampled_tilt(lamp.joint, course()), stretched([lamp, lamp], course())
    first, second = (2 * reach for reach in (600.0, 300.0))
    assert chain.sampled.var() == pytest.approx((first**2 + second**2) * tilts.var(), rel=0.1)


def limits(file, id, column):
    """Limits of one size as the file of parts says them:
    "6.10 to 6.20" or "10 ± 0.10", each in its unit; mm.
    """
    with open(ROOT / "data" / "parts" / f"{file}.csv", newline="", encoding="utf-8") as rows:
        text = next(row[column] for row in csv.DictReader(rows) if row["id"] == id)
    unit = " in" if text.endswith(" in") else " mm"
    text = text.removesuffix(" in")
    if "±" in text:
        middle, off = (read_quantity(part.strip() + unit, "length") for part in text.split("±"))
        return middle - off, middle + off
    return tuple(read_quantity(part + unit, "length") for part in text.split(" to "))


def test_tubes_drawn_from_the_files():
    """Bush, tube and bolt drawn again; the inch ones, whose limits stand in the files as numbers."""
    random, seen = np.random.default_rng(12), 0
    bolts = {"1/4-20": (0.2408, 0.2489), "3/8-16": (0.3643, 0.3737)}  # ASME B1.1 class 2A, from memory
    for kit in ("mix14", "in38"):
        for one in tubed(course().kits[kit], course()):
            bore = random.uniform(*limits("sleeve_bushings", one.bush.id, "free_bore"), 400_000)
            outside = random.uniform(*limits("spacers", one.tube.id, "outside_diameter"), 400_000)
            hole = np.mean(limits("spacers", one.tube.id, "hole"))
            room = bore - outside
            assert one.goes_on == pytest.approx(np.mean(room > 0), abs=0.005)
            length = np.mean(limits("spacers", one.tube.id, "length"))
            half = np.median(room[room > 0])
            assert one.clamped_tilt == pytest.approx(half / length, rel=0.02)
            loose = hole - 25.4 * np.mean(bolts[one.thread.id])
            assert one.tube_tilt.typical == pytest.approx(loose / length, rel=1e-6)
            assert one.loose_tilt == pytest.approx((half + loose) / length, rel=0.01)
            assert one.off_centre.typical == pytest.approx(loose / 2, rel=1e-6)
            shoulder = np.mean(limits("shoulder_screws", one.screw.id, "shoulder_diameter"))
            assert one.shoulder_tilt == pytest.approx((bore.mean() - shoulder) / length, rel=0.01)
            assert one.bush.length.typical * 2 <= one.tube.length.typical + 0.02
            seen += 1
    assert seen == 2


def test_pedals_stay_on():
    """A pedal's axle is a pin in the hole of a crank; the foot's push stays downwards (public pages
    on pedals agree).

    Seen from the right the right crank goes clockwise, and its pedal has a right-hand thread: precession
    turns the axle clockwise. Seen from the left the left crank goes the other way round, and its thread is
    left-hand.
    """
    assert pin_way(load=0, hole=1) == 1
    assert pin_way(load=0, hole=-1) == -1


def rolled(load, shaft, housing, seen_from):
    """Turn of the loose part relative to its seat, by small steps of rolling; speeds in turns a second."""
    hole, pin, steps = 10.0, 9.0, 1000
    seat = housing if seen_from == "hole" else shaft
    passed = (load - seat) / steps  # of the contact, seen from the seat
    turned = 0.0
    for _ in range(steps):
        turned += passed - passed * (hole / pin if seen_from == "hole" else pin / hole)
    return turned


@pytest.mark.parametrize("turns", ["shaft", "housing"])
@pytest.mark.parametrize("direction", ["fixed", "turning"])
def test_the_way_they_walk(turns, direction):
    """Rolled step by step for every kind of joint; a right-hand nut turned clockwise tightens."""
    load = 1.0 if direction == "turning" else 0.0
    shaft, housing = (1.0, 0.0) if turns == "shaft" else (0.0, 1.0)
    way = walks(turns, direction)
    ring, pin = rolled(load, shaft, housing, "pin"), rolled(load, shaft, housing, "hole")
    assert way.inner == np.sign(round(ring, 9)) and way.outer == np.sign(round(pin, 9))
    assert way.nut == {1: "tightens", 0: "stays", -1: "loosens"}[np.sign(round(ring, 9))]


def test_only_one_ring_walks():
    """In each kind of joint the load goes round one of the rings, never round both:
    as the joints' own verdict has it.
    """
    from dataclasses import replace

    from guidegen.joint.creep import inner_ring_goes_round

    turning = next(one.joint for one in named().values() if one.joint.motion.kind == "turn")
    for turns, held in (("shaft", None), ("housing", "thread")):
        for direction in ("fixed", "turning"):
            way = walks(turns, direction)
            inner = inner_ring_goes_round(replace(turning, turns=turns, held=held, direction=direction))
            assert (way.inner != 0, way.outer != 0) == (inner, not inner)
    assert ring_way(0, 1) == -1
