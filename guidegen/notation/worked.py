"""Prints a formula with numbers put in, so that a reader who recomputes a line finds its result."""

import ast
from typing import Mapping

import numpy as np

from guidegen.notation.form import Comparison, Minus, Number, Shaper, number_form
from guidegen.notation.mathml import EQUALS, both, display, side, symbol, words
from guidegen.numbers import Printed, printed
from guidegen.theory.declare import Formula
from guidegen.theory.grammar import evaluate
from guidegen.units import Symbol

# Digits of what is put in and of a named step: the first pair that leads to the printed result is used.
DIGITS = ((6, 5), (8, 7), (10, 9), (12, 11), (17, 16))
RESULT_DIGITS = (4, 5, 3)
NOISE = 1e-12  # share of its largest term below which a difference is zero
OPPOSITE = {"<": ">=", "<=": ">", ">": "<=", ">=": "<"}


def worked(
    formula: Formula, values: Mapping[str, float], result: float, symbols: Mapping[str, Symbol]
) -> str:
    """The formula with `values` (by argument) put in and its result, one display line for each step.

    Recomputing a printed line gives its printed result within half a unit of the last printed digit.
    Of a `where` the branch that applies is printed, with the comparison that chose it. Raises
    ValueError when the values do not lead to `result`, or when a number is not finite.
    """
    for put_in, kept in DIGITS:
        numbers = {name: printed(values[name], put_in) for name in formula.arguments}
        lines = []
        try:
            for name, node in formula.steps:
                found = printed(_value(node, numbers), kept)
                lines.append(_line(symbols[name], node, numbers, found))
                numbers[name] = found
            reached = _value(formula.result, numbers)
        except ArithmeticError:  # so few digits that a difference below a fraction bar vanished
            continue
        for digits in RESULT_DIGITS:
            found = printed(reached, digits)
            if found == printed(_without_noise(result, formula.result, numbers), digits):
                return "".join([*lines, _line(symbols[formula.gives], formula.result, numbers, found)])
    raise ValueError(f"{formula.name}: the values put in do not give {result}")


def _line(row, node, numbers, found):
    filled = _Filled(numbers)
    form = filled.form(node)
    unit = words(f" {row.unit}") if row.unit not in ("", "-") else ""
    reasons = both(filled.reasons)
    return display(
        "".join(
            [
                symbol(row),
                "" if _is_number(form) else EQUALS + side(form),
                EQUALS,
                side(number_form(found)),
                unit,
                reasons and words(" since ") + reasons,
            ]
        )
    )


class _Filled(Shaper):
    """Prints every name by its number, and of cases only the branch that applies."""

    def __init__(self, numbers: Mapping[str, Printed]):
        super().__init__(lambda name: number_form(numbers[name]))
        self.numbers = numbers
        self.reasons = []

    def cases(self, test, then, otherwise):
        true = _evaluated(test, self.numbers)
        written = self.comparison(test)
        if true:
            self.reasons.append(written)
        else:
            self.reasons.append(Comparison(written.sides, tuple(OPPOSITE[sign] for sign in written.signs)))
        return self.form(then if true else otherwise)


def _is_number(form):
    return isinstance(form, Number) or isinstance(form, Minus) and isinstance(form.inside, Number)


def _value(node, numbers):
    return _without_noise(float(_evaluated(node, numbers)), node, numbers)


def _evaluated(node, numbers):
    with np.errstate(divide="raise", invalid="raise"):
        return evaluate(node, {name: np.float64(number.value) for name, number in numbers.items()})


def _without_noise(value, node, numbers):
    """The value, or zero where it is only what rounding leaves of a difference of equal terms."""
    return 0.0 if abs(value) <= NOISE * _largest(node, numbers) else value


def _largest(node, numbers):
    """How large an expression is before its differences are taken."""
    match node:
        case ast.BinOp(left=left, op=ast.Add() | ast.Sub(), right=right):
            return _largest(left, numbers) + _largest(right, numbers)
        case ast.BinOp(left=left, op=ast.Mult(), right=right):
            return _largest(left, numbers) * _largest(right, numbers)
        case ast.BinOp(left=left, op=ast.Div(), right=right):
            return _largest(left, numbers) / abs(_evaluated(right, numbers))
        case ast.UnaryOp(operand=inside) | ast.Call(func=ast.Name(id="absolute"), args=[inside]):
            return _largest(inside, numbers)
    return abs(_evaluated(node, numbers))
