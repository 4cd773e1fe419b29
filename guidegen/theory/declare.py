"""Declares a formula once: from one plain function come its number, its print, its words, its unit check.

    @formula(gives="theta", source="derived", at="free play of a pair", holds="c_1 >= 0")
    def pair_tilt_bushes(c_1, c_2, B, L_1, L_2):
        '''Free tilt of a bush pair each way, rad.'''
        return least_of((c_1 + c_2) / (2 * B), c_1 / L_1, c_2 / L_2)

What may stand in the function: `theory/grammar.py`. Numbers or arrays pass straight through.
"""

import ast
from dataclasses import dataclass
from functools import reduce
from inspect import unwrap
from typing import Callable, Mapping

import numpy as np

from guidegen.theory.grammar import (
    WORDS,
    NotAFormula,
    absolute,
    atan,
    cos,
    least_of,
    most_of,
    pi,
    read_body,
    read_test,
    sin,
    sqrt,
    tan,
    true_of,
    where,
)

__all__ = [
    "FORMULAS",
    "Formula",
    "NotAFormula",
    "absolute",
    "atan",
    "cos",
    "formula",
    "least_of",
    "most_of",
    "pi",
    "sin",
    "sqrt",
    "tan",
    "where",
]


@dataclass(frozen=True, eq=False)
class Formula:
    """A declared formula: what it gives, from where, within which range, and its syntax tree."""

    name: str
    gives: str  # symbol of the result, a key of symbols.csv
    source: str  # key of sources.yaml
    at: str  # clause, equation or place in the source
    holds: str  # range as written; empty when it has none
    arguments: tuple[str, ...]
    says: str  # the docstring
    function: Callable
    steps: tuple[tuple[str, ast.expr], ...]
    result: ast.expr
    test: tuple[ast.Compare, ...]  # `holds`, read; all must be true

    @property
    def lines(self) -> tuple[tuple[str, ast.expr], ...]:
        """What is printed, in order: each named step, then the result, as (symbol, expression)."""
        return *self.steps, (self.gives, self.result)

    def held(self, values: Mapping[str, float]):
        """Whether the values (by argument) lie within the range; an array of answers for arrays."""
        held = reduce(np.logical_and, (true_of(test, values) for test in self.test), True)
        return held if np.ndim(held) else bool(held)


FORMULAS: dict[str, Formula] = {}


def formula(*, gives: str, source: str, at: str, holds: str = ""):
    """Declares the function below it as a formula; returns the function itself, with `.formula` set.

    Raises NotAFormula, naming file and line, for anything outside the grammar, for an argument or
    step that is never used, and for a name that another module has declared.
    """

    def declare(function):
        function = unwrap(function)  # a second decorator is refused below, where its line is known
        code = function.__code__
        name, file, arguments = function.__name__, code.co_filename, code.co_varnames[: code.co_argcount]
        says, steps, result, line = read_body(function, file)
        test = read_test(holds, arguments, file, line)
        named = [*arguments, *(step for step, _ in steps)]
        _check_all_used(named, [*test, *(value for _, value in steps), result], file, line)
        if not gives.isidentifier() or gives in named or gives in WORDS or not source or not at:
            raise NotAFormula(file, line, f"{name!r} needs a result symbol of its own, a source and a place")
        if name in FORMULAS and FORMULAS[name].function.__module__ != function.__module__:
            other = FORMULAS[name].function.__module__
            raise NotAFormula(file, line, f"{name!r} is declared in {other} already")
        function.formula = FORMULAS[name] = Formula(
            name, gives, source, at, holds, arguments, says, function, steps, result, test
        )
        return function

    return declare


def _check_all_used(named, trees, file, line):
    used = {node.id for tree in trees for node in ast.walk(tree) if isinstance(node, ast.Name)}
    for name in named:
        if name not in used:
            raise NotAFormula(file, line, f"{name!r} is never used")
