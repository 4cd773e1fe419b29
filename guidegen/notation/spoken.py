"""Says a declared formula in plain words, for text alternatives.

The words can be read back to the same formula: "over" binds like "times", but after a comma it
divides everything said before it; whatever would be doubtful is said in brackets.
"""

from typing import Mapping

from guidegen.notation.form import (
    PRODUCT,
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
    begins_with_minus,
    named,
    tightness,
)
from guidegen.notation.letters import Letter, letter
from guidegen.numbers import Printed
from guidegen.theory.declare import Formula
from guidegen.units import Symbol

COUNT = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
WORD = {
    "least_of": "the least of",
    "most_of": "the greatest of",
    "sqrt": "the square root of",
    "absolute": "the absolute value of",
    "sin": "the sine of",
    "cos": "the cosine of",
    "tan": "the tangent of",
    "atan": "the arctangent of",
}
SIGN = {
    "+": "plus",
    "-": "minus",
    "<": "is less than",
    "<=": "is at most",
    ">": "is more than",
    ">=": "is at least",
}
POWER = {"2": "squared", "3": "cubed"}


def spoken(formula: Formula, symbols: Mapping[str, Symbol]) -> str:
    """The formula in words: a sentence for each named step, then one for the result."""
    shaper = named(symbols)
    used = {*formula.arguments, *(name for name, _ in formula.lines)}
    voice = _Voice(letter(symbols[name].print) for name in used)
    return ". ".join(
        f"{voice.name(letter(symbols[name].print))} equals {voice.clause(shaper.form(node))}"
        for name, node in formula.lines
    )


class _Voice:
    """Says forms; a capital is named as such where the same small letter is about."""

    def __init__(self, letters):
        self.about = {_name(found) for found in letters}

    def name(self, sign: Letter) -> str:
        said = _name(sign)
        small = said[:1].lower() + said[1:]
        return f"capital {said}" if said != small and small in self.about else said

    def clause(self, form: Form) -> str:
        """A form that stands alone: a whole line, an item of a list, the inside of brackets."""
        match form:
            case Ratio(top=top, bottom=bottom) if not (_is_single(top) and self.is_tight(bottom)):
                below = self.in_brackets(bottom) if isinstance(bottom, Ratio) else self.inline(bottom)
                return f"{self.inline(top)}, over {below}"
            case Choice(word=word, items=items):
                return f"{WORD[word]}: {'; '.join(map(self.item, items))}"
            case Cases(test=test, then=then, otherwise=otherwise):
                return f"{self.item(then)}, if {self.comparison(test)}; otherwise {self.item(otherwise)}"
        return self.inline(form)

    def item(self, form):
        return self.in_brackets(form) if isinstance(form, Choice | Cases) else self.clause(form)

    def in_brackets(self, form):
        inside = form.inside if isinstance(form, Bracket) else form
        return f"open bracket {self.clause(inside)} close bracket"

    def comparison(self, test: Comparison) -> str:
        first, *others = map(self.inline, test.sides)
        return " ".join([first, *(f"{SIGN[sign]} {other}" for sign, other in zip(test.signs, others))])

    def inline(self, form: Form) -> str:
        """A form as part of a sum or a product, with the brackets that words need."""
        match form:
            case Name(letter=sign):
                return self.name(sign)
            case Number(number=number):
                return _number(number)
            case Minus(inside=inside):
                return f"minus {self.inline(inside)}"
            case Sum(terms=((_, first), *others)):
                signed = (f"{SIGN[sign]} {self.inline(term)}" for sign, term in others)
                return " ".join([self.inline(first), *signed])
            case Product(factors=(Number() as first, *others)) if _is_single(first) and _follows(others[0]):
                return f"{self.inline(first)} {self.product(others)}"
            case Product(factors=factors):
                return self.product(factors)
            case Ratio(top=top, bottom=bottom):
                loose = tightness(top) < PRODUCT or begins_with_minus(top)
                return f"{(self.in_brackets if loose else self.inline)(top)} over {self.tight(bottom)}"
            case Power(base=base, exponent=Number(number=Printed(digits="2" | "3" as digits, power=0))):
                return f"{self.base(base)} {POWER[digits]}"
            case Power(base=base, exponent=exponent):
                return f"{self.base(base)} to the power {self.tight(exponent)}"
            case Function(word=word, inside=inside):
                return f"{WORD[word]} {self.tight(inside)}"
        return self.in_brackets(form)

    def product(self, factors):
        """Factors joined by "times"; a ratio before the last one would be heard as dividing by the rest."""
        *before, last = factors
        said = ((self.in_brackets if isinstance(factor, Ratio) else self.inline)(factor) for factor in before)
        return " times ".join([*said, self.inline(last)])

    def base(self, form):
        return self.in_brackets(form) if isinstance(form, Function) else self.inline(form)

    def tight(self, form):
        return self.inline(form) if self.is_tight(form) else self.in_brackets(form)

    def is_tight(self, form) -> bool:
        """Whether words hold a form together without brackets: B, two B, B squared, minus one."""
        match form:
            case Minus(inside=Number() as inside):
                return _is_single(inside)
            case Product(factors=(Number() as first, second)):
                return _is_single(first) and _follows(second)
            case Power(base=Name() | Bracket()):
                return _is_small_power(form)
        return _is_single(form) or isinstance(form, Bracket)


def _is_single(form):
    return isinstance(form, Name) or isinstance(form, Number) and not form.number.power


def _follows(form):
    """Whether a number before this is heard as its multiple: a letter, squared or cubed at most."""
    return isinstance(form, Name) or _is_small_power(form) and isinstance(form.base, Name)


def _is_small_power(form):
    match form:
        case Power(exponent=Number(number=Printed(digits="2" | "3", power=0))):
            return True
    return False


def _name(sign):
    return " ".join(
        COUNT[int(piece)] if piece.isdigit() and int(piece) < len(COUNT) else piece
        for piece in (*sign.base, *sign.below)
        if piece != ","
    )


def _number(number):
    digits = _count(number.digits)
    if not number.power:
        return digits
    ten = f"ten to the power {'minus ' if number.power < 0 else ''}{_count(str(abs(number.power)))}"
    return ten if number.digits == "1" else f"{digits} times {ten}"


def _count(digits):
    return COUNT[int(digits)] if digits.isdigit() and int(digits) < len(COUNT) else digits
