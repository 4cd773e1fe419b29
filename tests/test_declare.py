"""What a formula may say, and that anything else is refused with its file and line."""
import importlib.util
import itertools

import numpy as np
import pytest

from guidegen.theory import declare
from guidegen.theory.declare import FORMULAS, NotAFormula

HEAD = """from guidegen.theory.declare import absolute, formula, least_of, most_of, pi, sin, sqrt, where

@formula(gives="theta", source="derived", at="somewhere", holds="B > 0 and 0 <= c < 5")
"""
GOOD = HEAD + '''def tilt(c, B, L):
    """Tilt each way."""
    span = 2 * B
    lean = c / span
    return least_of(lean, where(L > 0, c, 0), sqrt(c * pi)) + 1e-3
'''
count = itertools.count()


@pytest.fixture(autouse=True)
def registry(monkeypatch):
    """Formulas declared in a test are forgotten after it."""
    monkeypatch.setattr(declare, "FORMULAS", dict(FORMULAS))
    return declare.FORMULAS


@pytest.fixture
def load(tmp_path):
    """Imports a text as a module of its own."""
    def load(text, name=""):
        path = tmp_path / f"{name or f'made_{next(count)}'}.py"
        path.write_text(text)
        spec = importlib.util.spec_from_file_location(path.stem, path)
        module = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(module)
        return module
    return load


def test_a_declared_formula_is_still_the_function(load, registry):
    """Numbers and arrays pass straight through; the record stands beside the function."""
    tilt = load(GOOD).tilt
    assert tilt(1.0, 10.0, 4.0) == pytest.approx(1 / 20 + 1e-3)
    assert tilt(np.array([1.0, 2.0]), 10.0, 4.0) == pytest.approx([0.051, 0.101])
    record = registry["tilt"]
    assert record is tilt.formula and record.function is tilt
    assert (record.gives, record.source, record.at) == ("theta", "derived", "somewhere")
    assert record.arguments == ("c", "B", "L") and record.says == "Tilt each way."
    assert [name for name, _ in record.steps] == ["span", "lean"]


@pytest.mark.parametrize("c, B, within", [
    (0, 1, True), (4.99, 1, True), (5, 1, False), (-0.01, 1, False), (1, 0, False), (1, -1, False)])
def test_held_answers_for_the_range(load, c, B, within):
    """Every comparison of `holds` counts, each side of a chain too."""
    assert load(GOOD).tilt.formula.held({"c": c, "B": B, "L": 1}) is within


def test_held_answers_for_arrays(load):
    """One answer for each set of values."""
    values = {"c": np.array([-1, 1, 6]), "B": 1, "L": 1}
    assert load(GOOD).tilt.formula.held(values).tolist() == [False, True, False]


def test_a_formula_without_range_always_holds(load):
    """No `holds`, no mark."""
    text = GOOD.replace(', holds="B > 0 and 0 <= c < 5"', "")
    assert load(text).tilt.formula.held({"c": -9, "B": -9, "L": -9}) is True


BODIES = {
    "a loop": "    m = 0\n    for i in range(3):  # here\n        m = m + c\n    return m + B + L",
    "an if": "    if c > 0:  # here\n        return c\n    return B + L",
    "a conditional expression": "    return c if B > 0 else L  # here",
    "a call of anything else": "    return c + max(B, L)  # here",
    "a call of a method": "    return c.conjugate() * B * L  # here",
    "an attribute": "    return c.real * B * L  # here",
    "an index": "    return c[0] * B * L  # here",
    "a comparison outside where": "    return (c > B) * L  # here",
    "two comparisons in where": "    return where(0 < c < B, L, 0)  # here",
    "no comparison in where": "    return where(c, B, L)  # here",
    "equality": "    return where(c == B, L, 0)  # here",
    "where with names": "    return where(c > 0, a=B, b=L)  # here",
    "a list spread out": "    return least_of(*(c, B, L))  # here",
    "least of one": "    return least_of(c) + B + L  # here",
    "two terms where one belongs": "    return sqrt(c, B) + L  # here",
    "an operator outside the grammar": "    return c // B + L  # here",
    "unary plus": "    return +c * B * L  # here",
    "not": "    return where(not c > 0, B, L)  # here",
    "an assignment in an expression": "    return (d := c) + B + L  # here",
    "a text": "    return c * B * L + 'mm'  # here",
    "true as a number": "    return c * B * L * True  # here",
    "an imaginary number": "    return c * B * L * 2j  # here",
    "a number without end": "    return c * B * L * 1e999  # here",
    "a lambda": "    return (lambda: c)() + B + L  # here",
    "an unknown name": "    return c + B + L + d  # here",
    "a step used before it is named": "    m = n + c  # here\n    n = B\n    return m + n + L",
    "no return": "    m = c + B + L  # here",
    "an empty return": "    m = c + B + L\n    return  # here",
    "only a docstring": "",
    "a return before the end": "    return c  # here\n    return B + L",
    "a second value for a step": "    m = c\n    m = m + B  # here\n    return m + L",
    "a second value for an argument": "    c = c + 1  # here\n    return c + B + L",
    "a step named like a word of the grammar": "    sqrt = c  # here\n    return sqrt + B + L",
    "two targets": "    m = n = c  # here\n    return m + n + B + L",
    "a tuple of targets": "    m, n = c, B  # here\n    return m + n + L",
    "adding in place": "    m = c\n    m += B  # here\n    return m + L",
    "an annotated step": "    m: float = c  # here\n    return m + B + L",
    "an import": "    from math import hypot  # here\n    return hypot(c, B) + L",
    "a statement": "    print(c)  # here\n    return c + B + L",
}


@pytest.mark.parametrize("body", BODIES.values(), ids=BODIES)
def test_anything_outside_the_grammar_is_refused_where_it_stands(load, registry, body):
    """The message names the file and the line; nothing is registered."""
    text = f'{HEAD}def tilt(c, B, L):\n    """Tilt."""\n{body}\n'
    with pytest.raises(NotAFormula) as refused:
        load(text, "refused")
    lines = text.splitlines()
    line = next((at for at, line in enumerate(lines, 1) if "# here" in line), HEAD.count("\n") + 1)
    assert refused.value.line == line
    assert "refused.py" in str(refused.value) and f"line {line}:" in str(refused.value)
    assert "tilt" not in registry


SIGNATURES = {
    "a default": "c, B, L=1", "a keyword-only argument": "c, B, *, L",
    "a positional-only argument": "c, /, B, L",
    "any number of arguments": "c, B, L, *more", "any keywords": "c, B, L, **more",
    "a word of the grammar": "c, B, L, pi",
    "an unused argument": "c, B, L, d",
}


@pytest.mark.parametrize("arguments", SIGNATURES.values(), ids=SIGNATURES)
def test_arguments_are_plain_names_and_all_used(load, arguments):
    """No defaults, no keywords, none that the reader would look for in vain."""
    with pytest.raises(NotAFormula, match=r"line 4:"):
        load(f'{HEAD}def tilt({arguments}):\n    """Tilt."""\n    return c + B + L\n')


DECLARATIONS = {
    "a range that is no comparison": 'gives="t", source="s", at="a", holds="c"',
    "a range that cannot be read": 'gives="t", source="s", at="a", holds="c >"',
    "a range joined by or": 'gives="t", source="s", at="a", holds="c > 0 or B > 0"',
    "a range about an unknown name": 'gives="t", source="s", at="a", holds="d > 0"',
    "a range with a call": 'gives="t", source="s", at="a", holds="abs(c) > 0"',
    "a result named like an argument": 'gives="c", source="s", at="a"',
    "no result": 'gives="", source="s", at="a"',
    "no source": 'gives="t", source="", at="a"',
    "no place": 'gives="t", source="s", at=""',
}


@pytest.mark.parametrize("declaration", DECLARATIONS.values(), ids=DECLARATIONS)
def test_the_declaration_itself_is_checked(load, declaration):
    """Range, result symbol, source and place."""
    with pytest.raises(NotAFormula, match=r"line 4:"):
        load(f'from guidegen.theory.declare import formula\n\n@formula({declaration})\n'
             'def tilt(c, B):\n    """Tilt."""\n    return c + B\n')


def test_an_unused_step_is_refused(load):
    """A printed line that leads nowhere would puzzle the reader."""
    with pytest.raises(NotAFormula, match="'m' is never used"):
        load(f'{HEAD}def tilt(c, B):\n    """Tilt."""\n    m = c\n    return c + B\n')


def test_a_formula_says_what_it_gives(load):
    """No formula without a docstring."""
    with pytest.raises(NotAFormula, match="docstring"):
        load(f"{HEAD}def tilt(c, B):\n    return c + B\n")


def test_a_word_of_the_grammar_must_be_ours(load):
    """Another `sqrt` would compute something else than is printed."""
    with pytest.raises(NotAFormula, match="line 4: 'sqrt' must be imported from theory.declare"):
        load('from guidegen.theory.declare import formula\nfrom math import sqrt\n'
             '@formula(gives="t", source="s", at="a")\ndef tilt(c): "Tilt."; return sqrt(c)\n')


def test_no_other_decorator_may_change_the_function(load):
    """The number must come from what is printed."""
    text = "import functools\n" + GOOD.replace("def tilt", "@functools.cache\ndef tilt")
    with pytest.raises(NotAFormula, match="under @formula alone"):
        load(text)


def test_a_lambda_is_no_formula(load):
    """A formula is defined by def."""
    with pytest.raises(NotAFormula):
        load('from guidegen.theory.declare import formula\n'
             't = formula(gives="t", source="s", at="a")(lambda c: c)\n')


def test_a_name_is_declared_once(load):
    """The same name in another module, or twice in one, is an error; loading a file again is not."""
    load(GOOD, "first")
    load(GOOD, "first")
    with pytest.raises(NotAFormula, match="declared in first already"):
        load(GOOD, "second")
    with pytest.raises(NotAFormula, match="defined once"):
        load(GOOD + GOOD, "first")
