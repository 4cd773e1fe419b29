"""The closed language of formulas: its words, what each computes, and the check that nothing else is said.

A formula may say: its arguments, named steps, pi, plain numbers, + - * / **, unary minus, least_of,
most_of, sqrt, sin, cos, tan, atan, absolute, and where(test, a, b) with one comparison as its test.
A number that carries a unit is an argument, never a constant. `where` computes both its branches,
so both must be finite wherever the formula holds.
"""

import ast
import linecache
import math
from functools import lru_cache, reduce

import numpy as np

pi = math.pi
sqrt, sin, cos, tan, atan, absolute = np.sqrt, np.sin, np.cos, np.tan, np.arctan, np.absolute


def least_of(*terms):
    """The smallest of two or more terms, element by element."""
    return reduce(np.minimum, terms)


def most_of(*terms):
    """The largest of two or more terms, element by element."""
    return reduce(np.maximum, terms)


def where(test, a, b):
    """`a` where the test is true, else `b`, element by element; both must be finite."""
    return np.where(test, a, b)[()]


ONE_TERM = {"sqrt": sqrt, "sin": sin, "cos": cos, "tan": tan, "atan": atan, "absolute": absolute}
MANY_TERMS = {"least_of": least_of, "most_of": most_of}
WORDS = {**ONE_TERM, **MANY_TERMS, "where": where, "pi": pi}
ARITHMETIC = (ast.Add, ast.Sub, ast.Mult, ast.Div, ast.Pow)
COMPARISONS = {ast.Lt: np.less, ast.LtE: np.less_equal, ast.Gt: np.greater, ast.GtE: np.greater_equal}
_SCOPE = {"__builtins__": {}, **WORDS}


class NotAFormula(Exception):
    """A declaration that says something outside the grammar; names the file and the line."""

    def __init__(self, file, line, why):
        self.file, self.line = file, line
        super().__init__(f"{file}, line {line}: {why}")


def check_expression(node, names, file):
    """Refuses `node` unless it is written in the grammar with only the given names in it."""
    match node:
        case ast.Constant(value=value) if type(value) in (int, float) and math.isfinite(value):
            inside = ()
        case ast.Name(id=name) if name in names or name == "pi":
            inside = ()
        case ast.UnaryOp(op=ast.USub(), operand=operand):
            inside = (operand,)
        case ast.BinOp(left=left, op=op, right=right) if isinstance(op, ARITHMETIC):
            inside = (left, right)
        case ast.Call(func=ast.Name(id="where"), args=[ast.Compare(ops=[_]) as test, a, b], keywords=[]):
            check_comparison(test, names, file)
            inside = (a, b)
        case ast.Call(func=ast.Name(id=word), args=[_] as inside, keywords=[]) if word in ONE_TERM:
            pass
        case ast.Call(func=ast.Name(id=word), args=[_, _, *_] as inside, keywords=[]) if word in MANY_TERMS:
            pass
        case ast.Name(id=name):
            raise NotAFormula(file, node.lineno, f"{name!r} is no argument and no step named above")
        case _:
            raise NotAFormula(file, node.lineno, f"{ast.unparse(node)!r} is outside the grammar of formulas")
    for part in inside:
        check_expression(part, names, file)


def check_comparison(test, names, file):
    """Refuses `test` unless it compares expressions of the grammar by <, <=, > or >=."""
    if not isinstance(test, ast.Compare) or not all(type(op) in COMPARISONS for op in test.ops):
        raise NotAFormula(file, test.lineno, f"{ast.unparse(test)!r} is not a comparison by <, <=, > or >=")
    for side in (test.left, *test.comparators):
        check_expression(side, names, file)


def read_test(text, names, file, line):
    """The comparisons of a `holds` text, joined there by `and`; none for an empty text."""
    if not text:
        return ()
    try:
        tree = ast.parse(text, mode="eval").body
    except SyntaxError:
        raise NotAFormula(file, line, f"holds={text!r} cannot be read") from None
    ast.increment_lineno(tree, line - tree.lineno)
    joined = isinstance(tree, ast.BoolOp) and isinstance(tree.op, ast.And)
    tests = tuple(tree.values) if joined else (tree,)
    for test in tests:
        check_comparison(test, names, file)
    return tests


def read_body(function, file):
    """(docstring, steps, result, line) of a formula function: ((name, expression), ...) and an expression."""
    definition = _definition(function, file)
    arguments = _arguments(definition, file)
    says = ast.get_docstring(definition)
    if not says:
        raise NotAFormula(file, definition.lineno, "no docstring that says what it gives")
    *assignments, last = definition.body[1:] or (definition,)
    steps, known = [], list(arguments)
    for statement in assignments:
        match statement:
            case ast.Assign(targets=[ast.Name(id=name)], value=value):
                if name in known or name in WORDS:
                    raise NotAFormula(file, statement.lineno, f"{name!r} is given a value twice")
                check_expression(value, known, file)
            case _:
                raise NotAFormula(file, statement.lineno, "a step must be one plain assignment to one name")
        steps.append((name, value))
        known.append(name)
    if not isinstance(last, ast.Return) or last.value is None:
        raise NotAFormula(file, last.lineno, "a formula ends in one return of its result")
    check_expression(last.value, known, file)
    _check_words(definition, function, file)
    return says, tuple(steps), last.value, definition.lineno


def _definition(function, file):
    """The one `def` of this function in its file, with the file's own line numbers."""
    linecache.checkcache(file)
    tree = _parsed("".join(linecache.getlines(file, function.__globals__)))
    found = [n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef) and n.name == function.__name__]
    if len(found) != 1 or len(found[0].decorator_list) != 1 or function.__code__.co_freevars:
        line = function.__code__.co_firstlineno
        why = "must be defined once, by def, under @formula alone"
        raise NotAFormula(file, line, f"{function.__name__!r} {why}")
    return found[0]


@lru_cache(4)
def _parsed(text):
    return ast.parse(text)


def _arguments(definition, file):
    given = definition.args
    names = [argument.arg for argument in given.args]
    others = (given.posonlyargs, given.kwonlyargs, given.vararg, given.kwarg, given.defaults)
    if not names or any(others) or WORDS.keys() & set(names):
        raise NotAFormula(file, definition.lineno, "arguments must be plain names, without defaults")
    return names


def _check_words(definition, function, file):
    """A word of the grammar must be ours, so that the number and the print mean the same."""
    for node in ast.walk(definition):
        if isinstance(node, ast.Name) and node.id in WORDS:
            if function.__globals__.get(node.id) is not WORDS[node.id]:
                raise NotAFormula(file, node.lineno, f"{node.id!r} must be imported from theory.declare")


@lru_cache(4096)
def _compiled(node):
    return compile(ast.Expression(node), "<formula>", "eval")


def evaluate(node, values):
    """The value of a checked expression or comparison, with numbers or arrays for its names."""
    return eval(_compiled(node), _SCOPE, values)


def true_of(test, values):
    """Whether a checked comparison, perhaps a chain (0 < a <= b), is true; element by element."""
    sides = [evaluate(side, values) for side in (test.left, *test.comparators)]
    pairs = zip(test.ops, sides, sides[1:])
    return reduce(np.logical_and, (COMPARISONS[type(op)](left, right) for op, left, right in pairs))
