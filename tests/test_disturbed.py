"""Every proof notices when its formula is made wrong: one constant, sign or word at a time."""

import csv
from pathlib import Path

import formula_inputs
import numpy as np
import pytest
import test_ball
import test_beam
import test_clamp
import test_clearance
import test_corrosion
import test_fill
import test_freeplay
import test_friction
import test_grip
import test_heat
import test_holes
import test_mismatch
import test_nuts
import test_pressfit
import test_published
import test_sliding
import test_statics
import test_strength
import test_weight
from mutants import in_place_of, mutants, search_mutants
from proofs import PROOFS

from guidegen.theory import ball, beam, chances, freeplay

PROVING = (
    test_ball,
    test_beam,
    test_clamp,
    test_clearance,
    test_corrosion,
    test_fill,
    test_freeplay,
    test_friction,
    test_grip,
    test_heat,
    test_holes,
    test_mismatch,
    test_nuts,
    test_pressfit,
    test_published,
    test_sliding,
    test_statics,
    test_strength,
    test_weight,
)
SEARCHES = (
    chances._distribution,
    chances.chances,
    chances.best_drawn,
    chances._farthest,
    chances.binds,
    ball.thrust_factors,
    ball.thrust_share,
    ball._within,
    freeplay.tilt_range,
    freeplay._slope,
    freeplay.highest_at,
    beam.beam,
    beam._in_balance,
    beam._greatest_moment,
)
SURVIVORS = Path(__file__).parent / "survivors.csv"


def noticed(function, wrong):
    """Whether some proof fails with the wrong function in the place of the right one."""
    with in_place_of(function, wrong), np.errstate(all="ignore"):
        for proof in PROOFS[function.__name__]:
            try:
                proof()
            except Exception:  # noqa: BLE001, a wrong index or an endless number is noticed too
                return True
    return False


def test_every_formula_has_a_proof():
    """At least one test compares it with something outside the program."""
    assert [formula.name for formula in formula_inputs.DECLARED if not PROOFS[formula.name]] == []


def test_every_disturbance_is_noticed():
    """Constants off by a twentieth, plus for minus, times for over, least for most: a proof fails each time.

    What none notices must stand in survivors.csv with the reason why it changes nothing.
    """
    disturbed = [(formula.function, mutants(formula)) for formula in formula_inputs.DECLARED]
    disturbed += [(search, search_mutants(search)) for search in SEARCHES]
    tried, survived = 0, []
    for function, wrongs in disturbed:
        for said, wrong in wrongs:
            tried += 1
            if not noticed(function, wrong):
                survived.append((function.__name__, said))
    with SURVIVORS.open(newline="") as file:
        explained = [tuple(row.values()) for row in csv.DictReader(file)]
    assert tried > 300
    assert sorted(survived) == sorted(row[:2] for row in explained)
    assert all(len(why) > 10 for *_, why in explained)


@pytest.mark.parametrize("formula", formula_inputs.DECLARED[:3], ids=lambda formula: formula.name)
def test_a_formula_left_alone_passes_its_proofs(formula):
    """What makes a proof fail above is the disturbance, not being run here."""
    with in_place_of(formula.function, formula.function):
        for proof in PROOFS[formula.name]:
            proof()
