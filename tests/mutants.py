"""Formulas made wrong, one place at a time, from their own syntax trees."""

import ast
import copy
import inspect
import sys
from contextlib import contextmanager
from dataclasses import replace

from guidegen.theory.declare import FORMULAS
from guidegen.theory.grammar import WORDS

OTHER = {ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult}
OTHER_WORD = {"least_of": "most_of", "most_of": "least_of", "minimum": "maximum", "maximum": "minimum"}
CHANGE = 1.05


def changes(node):
    """(what it becomes, in words) for one node that can be made wrong."""
    match node:
        case ast.Constant(value=value) if type(value) in (int, float):
            wrong = value * CHANGE if value else CHANGE - 1
            return ast.Constant(wrong), f"{value:g} to {wrong:g}"
        case ast.BinOp(left=left, op=op, right=right) if type(op) in OTHER:
            other = ast.BinOp(left, OTHER[type(op)](), right)
            return other, f"{ast.unparse(node)} to {ast.unparse(other)}"
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            return operand, f"{ast.unparse(node)} without its minus"
        case ast.Call(func=ast.Name(id=word), args=terms) if word in OTHER_WORD:
            return ast.Call(
                ast.Name(OTHER_WORD[word], ast.Load()), terms, []
            ), f"{word} to {OTHER_WORD[word]}"
        case ast.Call(func=ast.Attribute(value=library, attr=word), args=terms) if word in OTHER_WORD:
            other = ast.Call(ast.Attribute(library, OTHER_WORD[word], ast.Load()), terms, [])
            return other, f"{ast.unparse(node)} to {OTHER_WORD[word]}"
    return None


class _At(ast.NodeTransformer):
    """Changes the node with one number, counted in the order of the walk, and keeps what was done."""

    def __init__(self, number):
        self.number, self.seen, self.said = number, 0, ""

    def visit(self, node):
        changed = changes(node)
        if changed:
            self.seen += 1
            if self.seen == self.number:
                self.said = changed[1]
                return changed[0]
        return self.generic_visit(node)


def mutants(formula):
    """(what was done, the function) for every place of a formula."""
    body = [ast.Assign([ast.Name(name, ast.Store())], value) for name, value in formula.steps] + [
        ast.Return(formula.result)
    ]
    for said, wrong in _wrong_bodies(body):
        yield said, _function(formula, wrong)


def search_mutants(function):
    """(what was done, the function) for every place of a plain function, such as a search over stations."""
    definition = ast.parse(inspect.getsource(function)).body[0]
    for said, wrong in _wrong_bodies(definition.body):
        module = ast.Module([ast.FunctionDef(function.__name__, definition.args, wrong, [])], [])
        scope = dict(vars(sys.modules[function.__module__]))
        exec(compile(ast.fix_missing_locations(module), f"<{function.__name__} made wrong>", "exec"), scope)
        yield said, scope[function.__name__]


def _wrong_bodies(body):
    for number in range(1, sum(changes(node) is not None for one in body for node in ast.walk(one)) + 1):
        at = _At(number)
        wrong = [at.visit(copy.deepcopy(one)) for one in body]
        yield at.said, wrong


def _function(formula, body):
    arguments = ast.arguments([], [ast.arg(name) for name in formula.arguments], None, [], [], None, [])
    module = ast.Module([ast.FunctionDef(formula.name, arguments, body, [])], [])
    scope = dict(WORDS)
    exec(compile(ast.fix_missing_locations(module), f"<{formula.name} made wrong>", "exec"), scope)
    scope[formula.name].formula = formula
    return scope[formula.name]


@contextmanager
def in_place_of(function, wrong):
    """Whatever calls the function through its module, or looks its formula up, gets the wrong one."""
    module, name, formula = (
        sys.modules[function.__module__],
        function.__name__,
        getattr(function, "formula", None),
    )
    setattr(module, name, wrong)
    if formula:
        FORMULAS[name] = replace(formula, function=wrong)
    try:
        yield
    finally:
        setattr(module, name, function)
        if formula:
            FORMULAS[name] = formula
