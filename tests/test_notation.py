"""What is printed is what is computed: every print is read back and compared with the function."""
import ast
import html
import math
import re
from pathlib import Path

import numpy as np
import pytest
from formula_inputs import DECLARED, SYMBOLS, each, inputs
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from read_mathml import lines, number, parted, printed_key, truth, value, words
from read_words import spoken_name, spoken_value

from guidegen.notation.letters import GREEK, italic, letter
from guidegen.notation.mathml import condition, inline, mathml
from guidegen.notation.spoken import spoken
from guidegen.notation.worked import worked
from guidegen.numbers import printed, show_number
from guidegen.theory.declare import Formula
from guidegen.theory.grammar import WORDS, evaluate
from guidegen.units import Symbol

every_formula = pytest.mark.parametrize("formula", DECLARED, ids=lambda formula: formula.name)
MADE = {name: Symbol(name, name, "mm", "made for a test") for name in ("a", "b", "c_1", "D_w", "y")}


def made(text, steps=()):
    """A formula from the text of its result, with arguments of `MADE`."""
    tree = ast.parse(text, mode="eval").body
    steps = tuple((name, ast.parse(step, mode="eval").body) for name, step in steps)
    named = {node.id for part in (tree, *(step for _, step in steps)) for node in ast.walk(part)
             if isinstance(node, ast.Name)}
    arguments = tuple(sorted(named - WORDS.keys() - {name for name, _ in steps}))
    return Formula("made", "y", "derived", "made", "", arguments, "Made.", None, steps, tree, ())


def check_symbolic(formula, values, symbols, result):
    """The printed symbols, read with values for them, give the function's value."""
    by_key = {printed_key(symbols[name].print): known for name, known in values.items()}
    assert len(by_key) == len(values), f"{formula.name}: two of its symbols are printed alike"
    for line in lines(mathml(formula, symbols)):
        [given_], right = parted(line, "=")
        found = by_key[_key(given_)] = value(right, by_key)
    assert found == pytest.approx(result, rel=1e-9, abs=1e-12)


def check_worked(formula, values, symbols, result):
    """Every printed line, computed from the print alone, gives its own result; the last one the true one."""
    for line in lines(worked(formula, values, result, symbols)):
        end = next((at for at, part in enumerate(line) if words(part) == "since"), None)
        if end:
            assert truth(line[end + 1:], {}), "the printed reason is not true"
        _, *middle, right = parted(line[:end], "=")
        shown, half_unit = number(right)
        if middle:
            assert abs(value(middle[0], {}) - shown) <= half_unit * (1 + 1e-6)
    assert abs(shown - result) <= half_unit * (1 + 1e-6) + 1e-9 * abs(result)


def check_spoken(formula, values, symbols, result):
    """The words, read back, give the function's value."""
    known = {spoken_name(symbols[name].print): given_ for name, given_ in values.items()}
    for sentence in spoken(formula, symbols).split(". "):
        name, _, said = sentence.replace("capital ", "").partition(" equals ")
        found = known[name] = spoken_value(said, known)
    assert found == pytest.approx(result, rel=1e-9, abs=1e-12)


def _key(element):
    return "_".join("".join(part.itertext()) for part in ([element] if element.tag == "mi" else element))


@every_formula
def test_printed_symbols_say_what_is_computed(formula):
    """The symbolic print of every declared formula, read back on random inputs."""
    values = inputs(formula, 12)
    for one in each(values):
        check_symbolic(formula, one, SYMBOLS, float(formula.function(**one)))


@every_formula
def test_a_worked_step_is_true_as_printed(formula):
    """Numbers put in: a reader with a pocket calculator finds the printed result."""
    for one in each(inputs(formula, 25, seed=2)):
        check_worked(formula, one, SYMBOLS, float(formula.function(**one)))


@every_formula
def test_spoken_words_say_what_is_computed(formula):
    """The text alternative of every declared formula, read back on random inputs."""
    for one in each(inputs(formula, 12, seed=3)):
        check_spoken(formula, one, SYMBOLS, float(formula.function(**one)))


@every_formula
def test_both_branches_of_where_are_finite(formula):
    """`where` computes both its branches; neither may be infinite where the formula holds."""
    values = inputs(formula, 500, seed=4)
    with np.errstate(all="ignore"):
        for name, tree in formula.lines:
            values[name] = evaluate(tree, values)
            for node in ast.walk(tree):
                if isinstance(node, ast.Call) and node.func.id == "where":
                    assert all(np.isfinite(evaluate(branch, values)).all() for branch in node.args[1:])


@every_formula
def test_printed_range_says_when_it_holds(formula):
    """The printed condition is true exactly where `held` is."""
    text = condition(formula, SYMBOLS)
    assert bool(text) == bool(formula.holds)
    random = np.random.default_rng(5)
    for _ in range(40 if text else 0):
        values = dict(zip(formula.arguments, random.choice([-1, 0, 0.3, 1, 2.5, 7], len(formula.arguments))))
        by_key = {printed_key(SYMBOLS[name].print): known for name, known in values.items()}
        [row] = lines(text)
        with np.errstate(all="ignore"):
            assert truth(row, by_key) == formula.held(values)


NUMBERS = st.sampled_from(
    ["1.0", "2.0", "3.0", "7.0", "12.0", "0.5", "0.56", "1.25", "64.0", "31000.0", "4e-6", "1e6"])
NAMES = st.sampled_from(["a", "b", "c_1", "D_w", "pi"])
EXPONENTS = st.sampled_from(["2", "3", "4", "0.5", "1.8", "(2 / 3)", "(-1)", "(1 / a)", "(b - 2)"])


def _grow(inner):
    two = st.tuples(inner, inner)
    return st.one_of(
        two.flatmap(lambda pair: st.sampled_from("+-*/").map(lambda sign: f"({pair[0]} {sign} {pair[1]})")),
        two.flatmap(lambda pair: st.sampled_from("+-*/").map(lambda sign: f"({pair[0]} {sign} {pair[1]})")),
        inner.map(lambda text: f"(-{text})"),
        st.tuples(inner, EXPONENTS).map("({0[0]} ** {0[1]})".format),
        st.tuples(st.sampled_from(["sqrt", "absolute", "sin", "atan"]), inner).map("{0[0]}({0[1]})".format),
        st.tuples(st.sampled_from(["least_of", "most_of"]), inner, inner)
          .map("{0[0]}({0[1]}, {0[2]})".format),
        st.tuples(inner, st.sampled_from(["<", "<=", ">", ">="]), inner, inner, inner)
          .map("where({0[0]} {0[1]} {0[2]}, {0[3]}, {0[4]})".format),
    )


EXPRESSIONS = st.recursive(NUMBERS | NAMES | NAMES, _grow, max_leaves=9).filter(
    re.compile(r"\b(a|b|c_1|D_w)\b").search)
VALUES = st.floats(-9, 9).map(lambda number: float(f"{number:.3g}")) | st.floats(-9, 9)


def settled(tree, values):
    """Whether every part has a moderate value and no comparison hangs on a last digit."""
    for node in reversed(list(ast.walk(tree))):  # the innermost parts first
        if isinstance(node, ast.Compare):
            left, right = evaluate(node.left, values), evaluate(node.comparators[0], values)
            if abs(left - right) < 1e-3 * (abs(left) + abs(right)):
                return False
        elif isinstance(node, ast.expr) and not (isinstance(node, ast.Name) and node.id in WORDS):
            try:
                found = evaluate(node, values)
            except ZeroDivisionError:  # of constants alone
                return False
            if isinstance(found, complex) or not (found == 0 or 1e-7 < abs(found) < 1e7):
                return False
    return True


@settings(max_examples=400, deadline=None)
@given(EXPRESSIONS, st.fixed_dictionaries({name: VALUES for name in ("a", "b", "c_1", "D_w")}))
def test_any_expression_keeps_its_meaning_in_print(text, values):
    """Brackets are printed, said and worked where the meaning needs them, on random expressions."""
    formula = made(text)
    values = {name: np.float64(values[name]) for name in formula.arguments}
    with np.errstate(all="ignore"):
        assume(settled(formula.result, values))
        result = float(evaluate(formula.result, values))
    check_symbolic(formula, values, MADE, result)
    check_spoken(formula, values, MADE, result)
    check_worked(formula, values, MADE, result)


def _signs(text, values=None):
    """The visible characters of a print, for short expressions."""
    formula = made(text)
    if values is None:
        out = mathml(formula, MADE)
    else:
        out = worked(formula, values, float(evaluate(formula.result, values)), MADE)
    out = out.replace('<mspace width=".17em"/>', " ")
    return html.unescape(re.sub("<[^>]*>", "", out)).removeprefix("y=")


@pytest.mark.parametrize("text, signs", [
    ("(a + b) + c_1", "a+b+c1"), ("a + (b + c_1)", "a+b+c1"), ("a - (b + c_1)", "a−(b+c1)"),
    ("a - (b - c_1)", "a−(b−c1)"), ("a + (-b)", "a+(−b)"), ("-a + b", "−a+b"), ("-(a + b)", "−(a+b)"),
    ("a * (b * c_1)", "a b c1"), ("a * (b + c_1)", "a (b+c1)"), ("-a * b", "−a b"), ("a * -b", "a (−b)"),
    ("2 * a", "2 a"), ("a * 2", "a·2"), ("2 * 3 * a", "2·3 a"), ("2 * (1 / 2) * a", "2·12 a"),
    ("(-a) ** 2", "(−a)2"), ("-a ** 2", "−a2"), ("(a / b) ** 2", "(ab)2"), ("(a ** b) ** 2", "(ab)2"),
    ("D_w ** (2 / 3)", "Dw2/3"), ("absolute(a) ** 2", "|a|2"), ("sin(a) ** 2", "(sin(a))2"),
    ("a * least_of(b, -c_1)", "a least\u00a0of\u00a0(b, −c1)"), ("1e6 * a", "106 a"),
    ("4e-6 * a", "4×10−6 a"),
    ("a * (-b * c_1)", "a (−b c1)"), ("1e6 ** 2 * a", "(106)2 a"), ("4e-6 ** 2 * a", "(4×10−6)2 a"),
    ("where(a < b, a, b) + 1", "({aif\u00a0a<bbotherwise)+1"),
    ("where(a >= b, a, b)", "{aif\u00a0a≥bbotherwise"),
])
def test_brackets_stand_where_needed_and_only_there(text, signs):
    """Minimal brackets, the order as written."""
    assert _signs(text) == signs


@pytest.mark.parametrize("text, values, signs", [
    ("a - b", {"a": 1, "b": -2}, "1−(−2)=3\u00a0mm"),
    ("a * b", {"a": -3, "b": -2}, "−3·(−2)=6\u00a0mm"),
    ("a ** 2", {"a": -3}, "(−3)2=9\u00a0mm"),
    ("2 * (a + b)", {"a": 1, "b": 2}, "2·(1+2)=6\u00a0mm"),
    ("a * b", {"a": 4e-6, "b": 193000}, "4×10−6·193\u2009000=0.772\u00a0mm"),
    ("a + b", {"a": 1.2345649, "b": 100}, "1.23456+100=101.2\u00a0mm"),
    ("a / b", {"a": 1, "b": 3}, "13=0.3333\u00a0mm"),
    ("a + b", {"a": 0.1 + 0.2, "b": -0.3}, "0.3+(−0.3)=0\u00a0mm"),
    ("a - b", {"a": 30.0000001, "b": 30}, "30.0000001−30=10−7\u00a0mm"),
    ("where(a <= b, 2 * a, b)", {"a": 1, "b": 2}, "2·1=2\u00a0mm\u00a0since\u00a01≤2"),
    ("where(a <= b, 2 * a, b)", {"a": 3, "b": 2}, "2\u00a0mm\u00a0since\u00a03>2"),
    ("where(a <= b, a * b, b) / b", {"a": -1, "b": 2}, "−1·22=−1\u00a0mm\u00a0since\u00a0−1≤2"),
])
def test_numbers_put_in(text, values, signs):
    """Signs, brackets, powers of ten, equal terms, and the branch that applies with its reason."""
    assert _signs(text, values) == signs


def test_named_steps_are_lines_of_their_own():
    """Printed, worked and said in the order written; a step's print is what the next line takes."""
    formula = made("b * a", steps=[("b", "c_1 / 3")])
    values = {"a": 3.0, "c_1": 2.0}
    put_in = worked(formula, values, 2.0, MADE)
    assert mathml(formula, MADE).count("<math") == put_in.count("<math") == 2
    assert put_in.count("<mn>0.66667</mn>") == 2
    assert spoken(formula, MADE) == "b equals c one over three. y equals b times a"


def test_worked_refuses_a_result_that_does_not_follow():
    """A page never shows numbers that do not lead to the result beside them."""
    with pytest.raises(ValueError, match="do not give 7"):
        worked(made("a + b"), {"a": 1, "b": 2}, 7, MADE)
    with pytest.raises(ValueError):
        worked(made("a + b"), {"a": math.inf, "b": 2}, math.inf, MADE)


@pytest.mark.parametrize("text, said", [
    ("least_of((a + b) / (2 * D_w), c_1 / a)", "the least of: a plus b, over two D w; c one over a"),
    ("sqrt(a ** 2 + b ** 2)", "the square root of open bracket a squared plus b squared close bracket"),
    ("where(a < b, a, -b)", "a, if a is less than b; otherwise minus b"),
    ("pi * D_w ** 4 / 64", "pi times D w to the power four, over 64"),
    ("absolute(a) ** 2", "open bracket the absolute value of a close bracket squared"),
    ("(4 / pi) * a * b", "open bracket four over pi close bracket times a times b"),
])
def test_words(text, said):
    """Plain words, brackets said where they would be doubtful."""
    assert spoken(made(text), MADE) == f"y equals {said}"


def test_a_capital_is_said_where_the_small_letter_is_about():
    """D and d in one formula are told apart by ear."""
    symbols = {"d": Symbol("d", "d", "mm", ""), "D": Symbol("D", "D", "mm", ""), "y": MADE["y"]}
    assert spoken(made("D - d"), symbols) == "y equals capital D minus d"


@pytest.mark.parametrize("print_form, out", [
    ("theta", "<mi>θ</mi>"), ("c_1", "<msub><mi>c</mi><mn>1</mn></msub>"),
    ("F_a", "<msub><mi>F</mi><mi>a</mi></msub>"),
    ("t_arm", "<msub><mi>t</mi><mtext>arm</mtext></msub>"), ("sigma_b", "<msub><mi>σ</mi><mi>b</mi></msub>"),
    ("L_10h", "<msub><mi>L</mi><mrow><mn>10</mn><mi>h</mi></mrow></msub>"), ("play", "<mi>play</mi>"),
    ("R_1,a", "<msub><mi>R</mi><mrow><mn>1</mn><mo>,</mo><mi>a</mi></mrow></msub>"),
    ("Delta T", "<mi>Δ𝑇</mi>"),
])
def test_print_forms(print_form, out):
    """The notation of the print column of symbols.csv, as `notation/letters.py` documents it."""
    assert inline(Symbol("x", print_form, "mm", "")) == f"<math>{out}</math>"


@pytest.mark.parametrize("print_form", ["", "_1", "c_", "1c", "<b>", "c_1_2", "c-1", "θ", "c,1", " c"])
def test_other_print_forms_are_refused(print_form):
    """A print form outside the notation is named."""
    with pytest.raises(ValueError, match="print form"):
        letter(print_form)


@pytest.mark.parametrize("name", SYMBOLS)
def test_every_symbol_has_a_print(name):
    """Every row of symbols.csv can be printed."""
    assert inline(SYMBOLS[name]).startswith("<math><m")


def test_units_are_escaped():
    """Nothing from a table can become markup."""
    symbols = MADE | {"y": Symbol("y", "y", "<b>&", "")}
    assert "&lt;b&gt;&amp;" in worked(made("a + b"), {"a": 1, "b": 2}, 3, symbols)


@pytest.mark.parametrize("x, digits, text", [
    (0, 3, "0"), (-0.0, 3, "0"), (0.1316, 2, "0.13"), (-0.1316, 3, "−0.132"), (8.0, 3, "8"), (0.25, 1, "0.2"),
    (1234.5, 3, "1234"), (193000, 3, "193\u2009000"), (999999.7, 3, "10⁶"), (1.5e6, 3, "1.5 × 10⁶"),
    (0.00123456, 3, "0.00123"), (0.000123456, 3, "1.23 × 10⁻⁴"), (-4e-6, 3, "−4 × 10⁻⁶"), (1e-7, 3, "10⁻⁷"),
    (12345.678, 6, "12\u2009345.7"),
])
def test_show_number(x, digits, text):
    """Rounded, without needless zeros; groups of three by ISO 80000-1; half goes to the even digit."""
    assert show_number(x, digits) == text


@given(st.floats(-1e200, 1e200).filter(lambda x: x == 0 or abs(x) > 1e-200), st.integers(1, 12))
def test_rounding_stays_within_half_a_unit(x, digits):
    """What is printed differs by half a unit of the last kept digit at most."""
    shown = printed(x, digits).value
    assert abs(shown - x) <= 0.5 * 10.0 ** (1 - digits) * abs(x) * (1 + 1e-9)


@pytest.mark.parametrize("x", [math.nan, math.inf, -math.inf])
def test_no_print_for_what_is_not_finite(x):
    """Never a bare NaN."""
    with pytest.raises(ValueError, match="no print"):
        show_number(x)


def test_the_font_holds_every_printed_character():
    """Symbols, signs and numbers of every print, and letters as the browser slopes them."""
    folder = Path(__file__).parent.parent / "docs" / "assets" / "fonts"
    held = set()
    for first, last in re.findall(r"U\+([0-9A-F]+)(?:-([0-9A-F]+))?", (folder / "README").read_text()):
        held |= set(range(int(first, 16), int(last or first, 16) + 1))
    signs = " ".join([*GREEK.values(), *(row.unit for row in SYMBOLS.values()), show_number(-1.5e-7)])
    for formula in DECLARED:
        signs += html.unescape(re.sub("<[^>]*>", "", mathml(formula, SYMBOLS) + condition(formula, SYMBOLS)))
    wanted = {ord(sign) for sign in signs} | {ord(italic(sign)) for sign in signs}
    assert wanted <= held, "".join(map(chr, wanted - held))
    assert (folder / "stix-two-math.woff2").read_bytes()[:4] == b"wOF2"
    assert "SIL OPEN FONT LICENSE Version 1.1" in (folder / "OFL.txt").read_text()
