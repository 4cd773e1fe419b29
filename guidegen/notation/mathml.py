"""Prints a declared formula as MathML, in the order written."""

from html import escape
from typing import Mapping

from guidegen.notation.form import (
    Bracket,
    Cases,
    Choice,
    Comparison,
    Form,
    Function,
    Minus,
    Name,
    Number,
    Power,
    Product,
    Ratio,
    Sum,
    begins_with_digit,
    begins_with_minus,
    has_letter,
    is_tall,
    named,
    number_form,
    slashed,
)
from guidegen.notation.letters import GREEK, Letter, italic, letter
from guidegen.numbers import MINUS, TIMES, printed
from guidegen.theory.declare import Formula
from guidegen.units import Symbol

DOT, NO_BREAK_SPACE = "\u00b7", "\u00a0"
GAP = '<mspace width=".17em"/>'  # a thin space for "times" between symbols
EQUALS = "<mo>=</mo>"
SIGN = {"<": "&lt;", "<=": "≤", ">": "&gt;", ">=": "≥"}
WORD = {"least_of": "least of", "most_of": "greatest of", "atan": "arctan"}


def mathml(formula: Formula, symbols: Mapping[str, Symbol]) -> str:
    """The formula with its symbols, one display line for each named step and one for the result."""
    shaper = named(symbols)
    return "".join(
        display(symbol(symbols[name]) + EQUALS + side(shaper.form(node))) for name, node in formula.lines
    )


def condition(formula: Formula, symbols: Mapping[str, Symbol]) -> str:
    """The range within which the formula holds, for a line of text; empty when it has none."""
    shaper = named(symbols)
    tests = both(shaper.comparison(test) for test in formula.test)
    return tests and f"<math>{tests}</math>"


def inline(row: Symbol) -> str:
    """One symbol by itself, for a line of text or a table cell."""
    return f"<math>{symbol(row)}</math>"


def both(tests) -> str:
    """Comparisons that are all true, joined by "and"."""
    return words(" and ").join("".join(elements(test)) for test in tests)


def words(text: str) -> str:
    """Upright words or a unit, with the spaces at their ends kept."""
    return f"<mtext>{escape(text.replace(' ', NO_BREAK_SPACE), quote=False)}</mtext>"


def display(inside: str) -> str:
    return f'<math display="block">{inside}</math>'


def symbol(row: Symbol) -> str:
    return _letter(letter(row.print))


def side(form: Form) -> str:
    """A form that follows an operator; in a row of its own when a minus must stand close to it."""
    return one(form) if begins_with_minus(form) else "".join(elements(form))


def one(form: Form) -> str:
    """A form as exactly one element."""
    return _row(elements(form))


def elements(form: Form | Comparison) -> list[str]:
    """A form as elements of the row that it stands in."""
    match form:
        case Name(letter=sign):
            return [_letter(sign)]
        case Number(number=number):
            return _number(number)
        case Minus(inside=inside):
            return [f"<mo>{MINUS}</mo>", *elements(inside)]
        case Sum(terms=((_, first), *others)):
            signed = (part for sign, term in others for part in (_operator(sign), *elements(term)))
            return [*elements(first), *signed]
        case Product(factors=factors):
            parts = elements(factors[0])
            for left, right in zip(factors, factors[1:]):
                parts += [_times(left, right), *elements(right)]
            return parts
        case Ratio(top=top, bottom=bottom):
            return [f"<mfrac>{one(top)}{one(bottom)}</mfrac>"]
        case Power(base=Name(letter=Letter(below=(_, *_)) as sign), exponent=exponent):
            base, below = _parts(sign)
            return [f"<msubsup>{base}{below}{_exponent(exponent)}</msubsup>"]
        case Power(base=base, exponent=exponent):
            return [f"<msup>{one(base)}{_exponent(exponent)}</msup>"]
        case Function(word="sqrt", inside=inside):
            return [f"<msqrt>{''.join(elements(inside))}</msqrt>"]
        case Function(word="absolute", inside=inside):
            return [_fenced("|", (inside,), "|")]
        case Function(word=word, inside=inside):
            return [f"<mi>{WORD.get(word, word)}</mi>", _fenced("(", (inside,), ")")]
        case Choice(word=word, items=items):
            return [words(WORD[word] + " "), _fenced("(", items, ")")]
        case Cases(test=test, then=then, otherwise=otherwise):
            return [_cases(*("".join(elements(part)) for part in (test, then, otherwise)))]
        case Bracket(inside=inside):
            return [_fenced("(", (inside,), ")")]
        case Comparison(sides=(first, *others), signs=signs):
            compared = (f"<mo>{SIGN[sign]}</mo>{side(other)}" for sign, other in zip(signs, others))
            return [side(first), *compared]
    raise ValueError(f"no print for {form!r}")


def _number(number):
    digits = f"<mn>{number.grouped}</mn>"
    if not number.power:
        return [digits]
    ten = f"<msup><mn>10</mn>{one(number_form(printed(number.power, 6)))}</msup>"
    return [ten] if number.digits == "1" else [digits, f"<mo>{TIMES}</mo>", ten]


def _cases(test, then, otherwise):
    first = f"<mtr><mtd>{then}</mtd><mtd>{words('if ')}{test}</mtd></mtr>"
    second = f"<mtr><mtd>{otherwise}</mtd><mtd>{words('otherwise')}</mtd></mtr>"
    return f"<mrow><mo>{{</mo><mtable>{first}{second}</mtable></mrow>"


def _row(parts):
    return parts[0] if len(parts) == 1 else f"<mrow>{''.join(parts)}</mrow>"


def _fenced(opening, items, closing):
    """Items with commas between two fences, which grow only round something tall."""
    listed = f"<mo>,</mo>{GAP}".join(map(side, items))
    tag = "<mo>" if any(map(is_tall, items)) else '<mo stretchy="false">'
    return f"<mrow>{tag}{opening}</mo>{listed}{tag}{closing}</mo></mrow>"


def _operator(sign):
    return f"<mo>{MINUS if sign == '-' else sign}</mo>"


def _times(left, right):
    """A thin space, or a dot where two numbers would run together."""
    apart = not begins_with_digit(right) and (has_letter(left) or has_letter(right))
    return GAP if apart else f"<mo>{DOT}</mo>"


def _parts(sign):
    written = [GREEK.get(word, word) for word in sign.base]
    base = written[0] if len(written) == 1 else "".join(map(italic, written))
    below = [_below(GREEK.get(piece, piece)) for piece in sign.below]
    return f"<mi>{base}</mi>", _row(below) if below else ""


def _below(piece):
    if piece.isdigit():
        return f"<mn>{piece}</mn>"
    if piece == ",":
        return "<mo>,</mo>"
    return f"<mi>{piece}</mi>" if len(piece) == 1 else words(piece)


def _letter(sign):
    base, below = _parts(sign)
    return f"<msub>{base}{below}</msub>" if below else base


def _exponent(form):
    """A superscript; a ratio of two numbers is written on the line there."""
    text = slashed(form)
    return f"<mn>{text}</mn>" if text else one(form)
