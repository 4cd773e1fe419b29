"""Chains of joints and parts that walk: against linkages turned in space, circles rolled step by
step, gears.
"""

import numpy as np
import pytest
from proofs import proves
from scipy.integrate import quad

from guidegen.theory import chain, clearance, friction, precession, stack


def lifted(places, tilts, signs):
    """Height of the last place when each joint tilts the rest about an axis square to its line to the end.

    Rotation matrices one after another, from the last joint to the first.
    """
    end = np.array([*places[-1], 0.0])
    for place, tilt, sign in reversed(list(zip(places, tilts, signs))):
        at = np.array([*place, 0.0])
        arm = np.array([*places[-1], 0.0]) - at
        axis = np.cross(arm / np.linalg.norm(arm), [0, 0, 1.0])
        cross = np.array([[0, -axis[2], axis[1]], [axis[2], 0, -axis[0]], [-axis[1], axis[0], 0]])
        turn = np.eye(3) + np.sin(sign * tilt) * cross + (1 - np.cos(sign * tilt)) * cross @ cross
        end = at + turn @ (end - at)
    return end[2]


@proves("chain_travel", "chain_travel_root")
def test_a_bent_linkage_in_space():
    """Three joints of a bent arm, turned by rotation matrices: all one way, all the other."""
    places = np.array([[0.0, 0.0], [200.0, 50.0], [250.0, -80.0], [330.0, -60.0]])
    tilts = np.array([0.002, 0.0015, 0.004])
    reach = np.linalg.norm(places[-1] - places[:-1], axis=1)
    up, down = lifted(places, tilts, (1, 1, 1)), lifted(places, tilts, (-1, -1, -1))
    summed = rooted = 0.0
    for tilt, away in zip(tilts, reach):
        summed = chain.chain_travel(summed, tilt, away)
        rooted = chain.chain_travel_root(rooted, tilt, away)
    assert summed == pytest.approx(abs(up - down), rel=1e-4)
    assert rooted == pytest.approx(np.hypot.reduce(2 * tilts * reach))


@proves("chain_travel_root")
def test_the_root_is_the_spread_of_joints_that_lean_as_they_like():
    """Each joint normal with its own spread, drawn in numbers: the end's spread."""
    random = np.random.default_rng(7)
    tilts, reach = np.array([0.003, 0.001, 0.002]), np.array([300.0, 210.0, 90.0])
    drawn = (random.normal(0, tilts, (300_000, 3)) * 2 * reach).sum(axis=1)
    rooted = 0.0
    for of in zip(tilts, reach):
        rooted = chain.chain_travel_root(rooted, *of)
    assert rooted == pytest.approx(drawn.std(), rel=0.01)


@proves("equal_chain", "equal_chain_root")
def test_equal_joints_in_line():
    """Added up joint by joint."""
    for count in range(1, 9):
        away = np.arange(count, 0, -1)
        assert chain.equal_chain(0.4, count) == pytest.approx(0.4 * away.sum())
        assert chain.equal_chain_root(0.4, count) == pytest.approx(0.4 * np.sqrt((away**2).sum()))


def rolled(hole, pin, seen_from):
    """Turn of the other part, in turns, for one turn of the contact seen from "hole" or "pin".

    Small steps of pure rolling: the arcs passed on both circles are equal.
    """
    own, other = (hole, pin) if seen_from == "hole" else (pin, hole)
    passed, _ = quad(lambda angle: own / 2, 0, 2 * np.pi)
    return 1 - passed / (np.pi * other)


@proves("pin_walk", "ring_walk")
def test_a_circle_rolls_in_a_larger_one():
    """Backwards the pin, forwards the ring, by lengths of arc."""
    for hole, pin in ((8.05, 7.97), (9.52, 9.45), (22.02, 21.99), (6.4, 5.9)):
        back, forth = rolled(hole, pin, "hole"), rolled(hole, pin, "pin")
        assert back < 0 < forth
        assert precession.pin_walk(hole - pin, pin) == pytest.approx(-back)
        assert precession.ring_walk(hole - pin, hole) == pytest.approx(forth)


@proves("pin_walk")
def test_two_teeth_less_step_back_by_two_teeth():
    """Strain wave gears:
    200 teeth in a ring of 202 turn back by a hundredth (public pages on such gears agree).
    """
    assert precession.pin_walk(202 - 200, 200) == pytest.approx(1 / 100)


@proves("loads_to_walk")
def test_turns_until_it_has_walked_round():
    """Counted load by load until a whole turn is reached."""
    for step in (0.01, 0.0125, 0.004):
        turned = loads = 0
        while turned < 1 - 1e-9:
            turned, loads = turned + step, loads + 1
        assert precession.loads_to_walk(1.0, step) == pytest.approx(loads, abs=1)
    assert precession.loads_to_walk(0.5, 0.01) == pytest.approx(50)


@proves("filler_wanted")
def test_what_to_add_leaves_what_is_wanted():
    """The end play of the stack with the filler in it."""
    shoulder, total = 50.1, 49.3
    before = stack.end_play(shoulder, total)
    added = stack.filler_wanted(before, 0.15)
    assert stack.end_play(shoulder, total + added) == pytest.approx(0.15)
    assert stack.filler_wanted(0.1, 0.15) == pytest.approx(-0.05)


@proves("friction_of_pull")
def test_friction_back_from_a_pull():
    """Torques of two bushes and a face, each by its own sum of small forces,
    divided by the arm and taken back.
    """
    mu, d_s, loads, axial, inner, outer = 0.17, 7.97, (24.0, 55.0), 4.0, 8.0, 12.0
    bushes = sum(mu * load * d_s / 2 for load in loads)
    middle = (inner + outer) / 4  # a face worn in: its pressure falls with the radius
    work, _ = quad(lambda radius: mu * axial * radius / (outer / 2 - inner / 2), inner / 2, outer / 2)
    pull = (bushes + work) / 120.0
    assert friction.friction_of_pull(pull, 120.0, sum(loads), d_s, axial, middle) == pytest.approx(mu)
    assert friction.friction_of_pull(pull, 120.0, sum(loads), d_s, -axial, middle) == pytest.approx(mu)


@proves("off_centre")
def test_a_tube_against_one_side_of_its_bolt():
    """Both circles touch on one side: the distance of their middles."""
    tube, bolt = 6.15, 5.9
    assert clearance.off_centre(tube - bolt) == pytest.approx(tube / 2 - bolt / 2)
