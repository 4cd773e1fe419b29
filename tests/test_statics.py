"""Reactions and lengths along the screw, against equations of balance and places on a line."""

import numpy as np
import pytest
from proofs import proves

from guidegen.theory import stack, statics

CASES = [
    (30.0, 18.0, 24.0),
    (12.0, -7.0, 24.0),
    (45.0, 0.0, 40.0),
    (8.0, -24.0, 24.0),
    (20.0, -30.0, 12.0),
]  # F, a, S


def balanced(S, force, at, couple):
    """Forces of two bearings, at 0 and S, that keep a shaft with a force and a couple at rest."""
    return np.linalg.solve([[1.0, 1.0], [0.0, S]], [force, force * at + couple])


@proves("reaction_1", "reaction_2", "single_reaction", "thrust")
def test_reactions_keep_the_shaft_at_rest():
    """Load beyond, between and before the bearings, positive against it; one bearing carries it all."""
    for F, a, S in CASES:
        first, second = balanced(S, 1.5 * F, S + a, 0.0)
        assert statics.reaction_1(1.5, F, a, S) == pytest.approx(first, abs=1e-12)
        assert statics.reaction_2(1.5, F, a, S) == pytest.approx(second, abs=1e-12)
        assert statics.reaction_1(1.5, F, a, S) + statics.reaction_2(1.5, F, a, S) == pytest.approx(1.5 * F)
        assert statics.single_reaction(1.5, F) == pytest.approx(first + second)
        assert statics.thrust(1.5, F) == pytest.approx(
            first + second
        )  # along the axis: one bearing stops it all


POUND, OUNCE = 0.45359237, 0.45359237 / 16  # kg, exact


@proves("weight", "weight_torque")
def test_weights_are_the_forces_that_carry_their_names():
    """Kilogram-force, pound-force and ounce-force, and their torques: NIST SP 811, app. B; ounces from memory.

    980.665 cm/s² is the standard acceleration of free fall of the third CGPM, 1901.
    """
    assert statics.STANDARD_GRAVITY == pytest.approx(10 * 980.665, rel=1e-12)
    for kilograms, newtons in ((1.0, 9.80665), (POUND, 4.448222), (OUNCE, 0.2780139)):
        weight = statics.weight(kilograms / 1000, statics.STANDARD_GRAVITY)
        assert weight == pytest.approx(newtons, rel=5e-7)
    for kilograms, arm, torque in ((1.0, 1000.0, 9.80665), (POUND, 25.4, 0.1129848), (OUNCE, 25.4, 7.061552e-3)):
        weight = statics.weight(kilograms / 1000, statics.STANDARD_GRAVITY)
        assert statics.weight_torque(weight, arm) == pytest.approx(1000 * torque, rel=5e-7)


@proves("weight_torque", "holding_force")
def test_a_held_weight_turns_nothing():
    """The law of the lever: moments of the weight and of the force that holds it cancel about the shaft."""
    for weight, arm, handle in ((4.9, 120.0, 50.0), (9.8, 150.0, 100.0), (2.2, 40.0, 90.0)):
        force = statics.holding_force(statics.weight_torque(weight, arm), handle)
        moments = np.cross([[arm, 0, 0], [-handle, 0, 0]], [[0, -weight, 0], [0, -force, 0]])
        assert moments.sum(axis=0) == pytest.approx(np.zeros(3), abs=1e-9)
        assert force * handle == pytest.approx(weight * arm)


@proves("axial_couple", "couple_force", "bearing_load")
def test_a_couple_of_either_sense():
    """The axial load at the arm's radius turns the shaft either way: the worse of both at each bearing."""
    for (F, a, S), (axial, radius) in zip(
        CASES, ((4.0, 120.0), (0.0, 50.0), (10.0, 60.0), (3.0, 90.0), (7.0, 10.0))
    ):
        couple = statics.axial_couple(axial, radius)
        assert couple == pytest.approx(abs(np.cross([0.0, radius, 0.0], [axial, 0.0, 0.0])[2]))
        senses = np.array([balanced(S, 1.5 * F, S + a, sense * 1.5 * axial * radius) for sense in (1, -1)])
        force = statics.couple_force(1.5, couple, S)
        assert force == pytest.approx(np.ptp(senses[:, 0]) / 2, abs=1e-9)
        reactions = (statics.reaction_1(1.5, F, a, S), statics.reaction_2(1.5, F, a, S))
        assert [statics.bearing_load(R, force) for R in reactions] == pytest.approx(
            np.abs(senses).max(axis=0)
        )


@proves("single_moment")
def test_moment_on_a_bearing_that_is_alone():
    """Force times arm and couple, turning the worse way, whichever side the load is on."""
    for F, a, axial, radius in ((30.0, 18.0, 4.0, 120.0), (30.0, -18.0, 4.0, 120.0), (12.0, 5.0, 0.0, 60.0)):
        worst = max(abs(F * a + sense * axial * radius) for sense in (1, -1))
        assert statics.single_moment(1.5, F, a, axial * radius) == pytest.approx(1.5 * worst)


@proves("drop_factor")
def test_a_weight_that_falls_on_a_spring():
    """The greatest force while a mass that has fallen stays on a spring: its motion followed in time."""
    gravity = 9806.65  # mm/s²
    for height, sinks in ((0.0, 0.2), (50.0, 0.2), (50.0, 3.0), (300.0, 12.0), (1000.0, 0.05)):
        pace = np.sqrt(gravity / sinks)  # rad/s of mass and spring
        lands_at = np.sqrt(2 * gravity * height)
        angle = np.linspace(0, 2 * np.pi, 200_001)
        sunk = sinks * (1 - np.cos(angle)) + lands_at / pace * np.sin(angle)
        assert statics.drop_factor(height, sinks) == pytest.approx(sunk.max() / sinks, rel=1e-8)


@proves("end_play", "thread_room", "arm_overhang")
def test_places_along_the_screw():
    """Parts one after another: what is left on shoulder and thread, where the arm's middle lies."""
    shoulder, thread = 50.0, 13.0
    on_shoulder, on_thread = (1.6, 0.5, 18.0, 5.0, 18.0, 1.6), (3.0, 1.2, 6.5)
    ends = np.cumsum(on_shoulder)
    assert stack.end_play(shoulder, sum(on_shoulder)) == pytest.approx(shoulder - ends[-1])
    along = shoulder + np.concatenate([[0], np.cumsum(on_thread)])
    assert stack.thread_room(thread, sum(on_thread)) == pytest.approx(shoulder + thread - along[-1])
    middle_of_arm, bearing = (along[0] + along[1]) / 2, 37.25
    assert stack.arm_overhang(shoulder, bearing, on_thread[0]) == pytest.approx(middle_of_arm - bearing)


@proves("stands_proud")
def test_a_stack_against_its_shoulder():
    """Parts laid end to end: the last one's far end against the end of the shoulder, proud or short of it."""
    for shoulder, parts in ((38.1, (3.0, 3.175, 24.6, 3.175, 3.0, 1.5)), (40.0, (5.0, 34.7))):
        end = np.cumsum(parts)[-1]
        assert stack.stands_proud(sum(parts), shoulder) == pytest.approx(end - shoulder)


@proves("clamped_end_play", "ring_mismatch")
def test_play_of_a_clamped_pair():
    """The shaft goes as far as both bearings let it; one is shifted by what the rings do not match."""
    for one, other, mismatch in ((0.06, 0.06, 0.0), (0.06, 0.06, 0.02), (0.05, 0.09, -0.01), (0.09, 0.05, 0.035),
                                 (0.04, 0.06, 0.2)):
        ends = np.array([[-one / 2, one / 2], [-other / 2 - mismatch, other / 2 - mismatch]])
        travel = ends[:, 1].min() - ends[:, 0].max()
        rings = stack.ring_mismatch(17.5 + mismatch, 17.5)
        assert stack.clamped_end_play(one, other, rings) == pytest.approx(travel)
