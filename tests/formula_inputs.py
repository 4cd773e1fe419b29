"""All declared formulas, and random inputs of sensible size within the range each of them states."""
import ast
import importlib
import pkgutil

import numpy as np

import guidegen.theory
from guidegen.kit.reader import read_symbols
from guidegen.theory.declare import FORMULAS
from guidegen.theory.grammar import evaluate

for module in pkgutil.walk_packages(guidegen.theory.__path__, "guidegen.theory."):
    importlib.import_module(module.name)

DECLARED = tuple(FORMULAS.values())
SYMBOLS = read_symbols()
SIZES = {  # least and greatest size of what has this unit in a hand-sized joint; others 0.1 to 10
    "mm": (0.005, 100), "N": (1, 300), "MPa": (0.5, 2e5), "rad": (1e-4, 0.5), "N·mm": (10, 2e4),
    "mm⁴": (5, 2e4), "-": (0.1, 8), "1/s": (0.05, 50), "s": (10, 1e6), "K": (1, 60), "1/K": (5e-6, 2e-4),
    "mm²/N": (1e-10, 1e-6), "N·s²/mm⁴": (1e-11, 1e-8), "V": (0.05, 1.85),
}
TRIED = 2000


def inputs(formula, count, seed=1):
    """`count` sets of values by argument, as an array each, for which the formula holds and is finite."""
    random = np.random.default_rng(seed)
    values = {name: _values(SYMBOLS[name].unit, random) for name in formula.arguments}
    with np.errstate(all="ignore"):
        usable = np.flatnonzero(_finite(formula, values) & formula.held(values))[:count]
    assert len(usable) >= min(count, 10), f"{formula.name}: random inputs hardly ever lie within its range"
    return {name: array[usable] for name, array in values.items()}


def each(values):
    """The sets of values one by one, as plain numbers."""
    return [dict(zip(values, map(float, row))) for row in zip(*values.values())]


def _finite(formula, values):
    """Where every step, and every part outside the branches of a `where`, is a finite number."""
    known, finite = dict(values), np.full(TRIED, True)
    for name, tree in formula.lines:
        for part in _parts(tree):
            finite &= np.isfinite(evaluate(part, known))
        known[name] = evaluate(tree, known)
    return finite


def _parts(node):
    yield node
    branching = isinstance(node, ast.Call) and node.func.id == "where"
    for part in () if branching else ast.iter_child_nodes(node):
        if isinstance(part, ast.BinOp | ast.UnaryOp | ast.Call):
            yield from _parts(part)


def _values(unit, random):
    """Sizes spread evenly over their decades; some round, some negative, a few zero."""
    least, greatest = np.log(SIZES.get(unit, (0.1, 10)))
    sizes = np.exp(random.uniform(least, greatest, TRIED))
    sizes[::3] = [float(f"{size:.2g}") for size in sizes[::3]]
    return sizes * random.choice([1, -1, 0], TRIED, p=[0.85, 0.13, 0.02])
