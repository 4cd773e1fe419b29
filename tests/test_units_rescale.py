"""Units by rescaling: were mm, N, s and K other sizes, every result would change by its own unit only.

A forgotten length, a constant that carries a unit, or a wrong entry in symbols.csv shows here.
"""
import re
from fractions import Fraction

import numpy as np
import pytest
from formula_inputs import DECLARED, SYMBOLS, inputs

from guidegen.theory.grammar import evaluate

BASE = {  # powers of mm, N, s, K; the radian, a count and a ratio have none
    "mm": (1, 0, 0, 0), "N": (0, 1, 0, 0), "s": (0, 0, 1, 0), "K": (0, 0, 0, 1), "MPa": (-2, 1, 0, 0),
    "rad": (0, 0, 0, 0), "1": (0, 0, 0, 0), "-": (0, 0, 0, 0), "V": (0, 0, 0, 0),  # volts meet no other unit here
}
RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻", "0123456789-")
FACTOR = re.compile(r"(?P<unit>[A-Za-z]+|1|-)(?P<power>[⁰¹²³⁴⁵⁶⁷⁸⁹⁻]+|\^-?[\d.]+)?")


def dimension(unit):
    """Powers of mm, N, s, K in a unit such as mm⁴, N·mm, mm²/N, N/mm^1.8."""
    total = np.zeros(4)
    for place, part in enumerate(unit.split("/")):
        for text in part.split("·"):
            factor = FACTOR.fullmatch(text)
            assert factor, f"unit {unit!r} is not to be read"
            power = float(Fraction((factor["power"] or "1").translate(RAISED).removeprefix("^")))
            total += np.array(BASE[factor["unit"]]) * power * (-1 if place else 1)
    return total


@pytest.mark.parametrize("unit, powers", [
    ("mm⁴", (4, 0, 0, 0)), ("N·mm", (1, 1, 0, 0)), ("MPa", (-2, 1, 0, 0)), ("mm²/N", (2, -1, 0, 0)),
    ("1/s", (0, 0, -1, 0)), ("N/mm^1.8", (-1.8, 1, 0, 0)), ("rad", (0, 0, 0, 0)), ("-", (0, 0, 0, 0)),
    ("MPa·mm/s", (-1, 1, -1, 0)), ("1/K", (0, 0, 0, -1)),
])
def test_units_are_read(unit, powers):
    """The test's own reading of units."""
    assert dimension(unit) == pytest.approx(powers)


@pytest.mark.parametrize("name", SYMBOLS)
def test_every_unit_is_made_of_internal_ones(name):
    """Inside the program there are mm, N, s, K and rad only."""
    assert dimension(SYMBOLS[name].unit).shape == (4,)


@pytest.mark.parametrize("formula", DECLARED, ids=lambda formula: formula.name)
def test_a_result_scales_by_its_own_unit(formula):
    """Every step, the result and the range, with four base units of other sizes; nothing is exempt."""
    values = inputs(formula, 300, seed=6)
    random = np.random.default_rng(7)
    for _ in range(6):
        bases = 2.0 ** random.permutation([-5, -2, 3, 6])  # powers of two: differences stay exact
        scale = {name: np.prod(bases ** dimension(SYMBOLS[name].unit))
                 for name in (*formula.arguments, *(name for name, _ in formula.lines))}
        rescaled = {name: array * scale[name] for name, array in values.items()}
        known = dict(values)
        with np.errstate(all="ignore"):
            for name, tree in formula.lines:
                known[name] = evaluate(tree, known)
                rescaled[name] = evaluate(tree, rescaled)
                np.testing.assert_allclose(
                    rescaled[name], known[name] * scale[name], rtol=1e-9, err_msg=f"{formula.name}: {name}")
        np.testing.assert_array_equal(
            formula.held(rescaled), formula.held(values), err_msg=f"{formula.name}: its range")
