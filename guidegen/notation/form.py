"""A formula as it will be printed: the order as written, every bracket decided.

`Shaper` walks the syntax tree of a declared formula once; MathML, words and worked lines all print
what it makes, so they cannot say different things.
"""

import ast
from dataclasses import dataclass
from typing import Callable, Mapping

from guidegen.notation.letters import Letter, letter
from guidegen.numbers import Printed, printed
from guidegen.units import Symbol

EXACT = 17  # significant digits that carry any float


@dataclass(frozen=True)
class Name:
    letter: Letter


@dataclass(frozen=True)
class Number:
    number: Printed  # not negative; a negative number is a Minus


@dataclass(frozen=True)
class Minus:
    inside: "Form"


@dataclass(frozen=True)
class Sum:
    terms: tuple[tuple[str, "Form"], ...]  # ("+" or "-", term); the first sign is "+"


@dataclass(frozen=True)
class Product:
    factors: tuple["Form", ...]


@dataclass(frozen=True)
class Ratio:
    top: "Form"
    bottom: "Form"


@dataclass(frozen=True)
class Power:
    base: "Form"
    exponent: "Form"


@dataclass(frozen=True)
class Function:
    word: str  # sqrt, absolute, sin, cos, tan, atan
    inside: "Form"


@dataclass(frozen=True)
class Choice:
    word: str  # least_of, most_of
    items: tuple["Form", ...]


@dataclass(frozen=True)
class Comparison:
    sides: tuple["Form", ...]
    signs: tuple[str, ...]  # < <= > >=, one fewer than sides


@dataclass(frozen=True)
class Cases:
    test: Comparison
    then: "Form"
    otherwise: "Form"


@dataclass(frozen=True)
class Bracket:
    inside: "Form"


Form = Name | Number | Minus | Sum | Product | Ratio | Power | Function | Choice | Cases | Bracket

PI = Name(Letter(("pi",)))
SIGNS = {ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">="}
# How tightly a form holds together: from a sum, through a product, to what stands as a base of a power.
LOOSE, SUM, PRODUCT, POWER, WHOLE = range(5)
_TIGHT = {
    Cases: LOOSE,
    Sum: SUM,
    Minus: SUM,
    Product: PRODUCT,
    Ratio: PRODUCT,
    Power: POWER,
    Function: POWER,
    Choice: POWER,
}


def tightness(form: Form) -> int:
    if isinstance(form, Number) and form.number.power:
        return POWER if form.number.digits == "1" else PRODUCT
    if isinstance(form, Function) and form.word == "absolute":
        return WHOLE
    return _TIGHT.get(type(form), WHOLE)


def begins_with_minus(form: Form) -> bool:
    match form:
        case Minus():
            return True
        case Sum(terms=((_, first), *_)) | Product(factors=(first, *_)):
            return begins_with_minus(first)
    return False


def begins_with_digit(form: Form) -> bool:
    match form:
        case Number():
            return True
        case Product(factors=(first, *_)) | Ratio(top=first) | Power(base=first):
            return begins_with_digit(first)
        case Sum(terms=((_, first), *_)):
            return begins_with_digit(first)
    return False


def has_letter(form: Form) -> bool:
    return isinstance(form, Name) or any(map(has_letter, parts(form)))


def is_tall(form: Form) -> bool:
    """Whether a form takes more than a line's height: a ratio or cases in it."""
    match form:
        case Ratio() | Cases():
            return True
        case Power(base=base, exponent=exponent) if slashed(exponent):
            return is_tall(base)
    return any(map(is_tall, parts(form)))


def slashed(form: Form) -> str:
    """A ratio of two plain numbers as one text, for an exponent; empty for anything else."""
    match form:
        case Ratio(top=Number(number=top), bottom=Number(number=bottom)):
            return "" if top.power or bottom.power else f"{top.grouped}/{bottom.grouped}"
    return ""


def parts(form: Form) -> tuple[Form, ...]:
    """The forms directly inside a form."""
    match form:
        case Minus(inside=inside) | Function(inside=inside) | Bracket(inside=inside):
            return (inside,)
        case Sum(terms=terms):
            return tuple(term for _, term in terms)
        case Product(factors=found) | Choice(items=found) | Comparison(sides=found):
            return found
        case Ratio(top=first, bottom=second) | Power(base=first, exponent=second):
            return first, second
        case Cases(test=test, then=then, otherwise=otherwise):
            return test, then, otherwise
    return ()


def number_form(number: Printed) -> Form:
    form = Number(number._replace(negative=False))
    return Minus(form) if number.negative else form


class Shaper:
    """Turns syntax trees into forms; `leaf` says what stands for a name: its letter, or its number."""

    def __init__(self, leaf: Callable[[str], Form]):
        self.leaf = leaf

    def form(self, node: ast.expr) -> Form:
        match node:
            case ast.Constant(value=value):
                return number_form(printed(value, EXACT))
            case ast.Name(id="pi"):
                return PI
            case ast.Name(id=name):
                return self.leaf(name)
            case ast.UnaryOp(operand=operand):
                return Minus(held(self.form(operand), PRODUCT))
            case ast.BinOp(left=left, op=op, right=right):
                return _JOIN[type(op)](self.form(left), self.form(right))
            case ast.Call(func=ast.Name(id="where"), args=[test, then, otherwise]):
                return self.cases(test, then, otherwise)
            case ast.Call(func=ast.Name(id="least_of" | "most_of" as word), args=items):
                return Choice(word, tuple(held_in_line(self.form(item)) for item in items))
            case ast.Call(func=ast.Name(id=word), args=[inside]):
                return Function(word, self.form(inside))
        raise ValueError(f"no print for {ast.dump(node)}")

    def cases(self, test, then, otherwise) -> Form:
        return Cases(self.comparison(test), held_in_line(self.form(then)), held_in_line(self.form(otherwise)))

    def comparison(self, test: ast.Compare) -> Comparison:
        sides = (test.left, *test.comparators)
        return Comparison(
            tuple(held_in_line(self.form(side)) for side in sides), tuple(SIGNS[type(op)] for op in test.ops)
        )


def named(symbols: Mapping[str, Symbol]) -> Shaper:
    """A shaper that prints every name by its symbol."""
    return Shaper(lambda name: Name(letter(symbols[name].print)))


def held(form: Form, at_least: int) -> Form:
    """The form in brackets, unless it holds together tightly enough and begins without a minus."""
    return Bracket(form) if tightness(form) < at_least or begins_with_minus(form) else form


def held_in_line(form: Form) -> Form:
    """Cases in brackets when something stands beside them; anything else as it is."""
    return Bracket(form) if isinstance(form, Cases) else form


def _sum(sign, left, right):
    first = left.terms if isinstance(left, Sum) else (("+", held_in_line(left)),)
    if sign == "+" and isinstance(right, Sum) and not begins_with_minus(right):
        return Sum(first + right.terms)
    return Sum(first + ((sign, held(right, PRODUCT)),))


def _product(left, right):
    if isinstance(left, Product):
        first = left.factors
    else:  # a leading minus holds for the whole product
        first = (left if isinstance(left, Minus) else held(left, PRODUCT),)
    if isinstance(right, Product) and not begins_with_minus(right):
        return Product(first + right.factors)
    return Product(first + (held(right, PRODUCT),))


_JOIN = {
    ast.Add: lambda left, right: _sum("+", left, right),
    ast.Sub: lambda left, right: _sum("-", left, right),
    ast.Mult: _product,
    ast.Div: Ratio,
    ast.Pow: lambda base, exponent: Power(held(base, WHOLE), exponent),
}
