"""Declared formulas as a script: the same expressions, printed once more, for the reader's own browser."""

import ast
import re
from functools import singledispatch

from guidegen.theory.declare import FORMULAS, Formula

USED = re.compile(r"\bF\.(\w+)")  # how our scripts call a formula
FUNCTIONS = {"least_of": "Math.min", "most_of": "Math.max", "absolute": "Math.abs"}
SIGNS = {ast.Add: "+", ast.Sub: "-", ast.Mult: "*", ast.Div: "/"}
TESTS = {ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">="}


def formula_script(*scripts: str) -> str:
    """A script that sets window.guideFormulas to the formulas that the given scripts use, each by its name.

    Each takes one object with its arguments by name. Raises KeyError for a formula that nobody declared.
    """
    names = sorted({name for script in scripts for name in USED.findall(script)})
    made = ",\n".join(f"{name}: {script_of(FORMULAS[name])}" for name in names)
    return f'"use strict";\nwindow.guideFormulas = {{\n{made}\n}};\n'


def script_of(formula: Formula) -> str:
    """One formula as a function."""
    steps = "".join(f"const {name} = {_written(value)}; " for name, value in formula.steps)
    return f"function ({{{', '.join(formula.arguments)}}}) {{ {steps}return {_written(formula.result)}; }}"


@singledispatch
def _written(node) -> str:
    raise TypeError(f"no print for {ast.unparse(node)}")


@_written.register
def _(node: ast.Constant):
    return repr(node.value)


@_written.register
def _(node: ast.Name):
    return "Math.PI" if node.id == "pi" else node.id


@_written.register
def _(node: ast.UnaryOp):
    return f"(-{_written(node.operand)})"


@_written.register
def _(node: ast.BinOp):
    left, right = _written(node.left), _written(node.right)
    return (
        f"Math.pow({left}, {right})"
        if isinstance(node.op, ast.Pow)
        else f"({left} {SIGNS[type(node.op)]} {right})"
    )


@_written.register
def _(node: ast.Call):
    inside = [_written(part) for part in node.args]
    if node.func.id == "where":
        return "({} ? {} : {})".format(*inside)
    return f"{FUNCTIONS.get(node.func.id, 'Math.' + node.func.id)}({', '.join(inside)})"


@_written.register
def _(node: ast.Compare):
    return f"({_written(node.left)} {TESTS[type(node.ops[0])]} {_written(node.comparators[0])})"
