"""Reads printed MathML as an eye does: only what is visible counts, grouping without brackets does not."""
import math
import operator
import unicodedata
from xml.etree import ElementTree

CHOICES = {"least of": min, "greatest of": max}
FUNCTIONS = {"sin": math.sin, "cos": math.cos, "tan": math.tan, "arctan": math.atan}
COMPARISONS = {"<": operator.lt, "≤": operator.le, ">": operator.gt, "≥": operator.ge}


def lines(printed):
    """Each <math> of a print as its visible row of elements."""
    return [_visible(math_) for math_ in ElementTree.fromstring(f"<all>{printed}</all>")]


def printed_key(print_form):
    """How a symbol with this print form is found again in MathML: base, underscore, what is below."""
    base, _, below = print_form.partition("_")
    base = "".join(_character(word) for word in base.split())
    return f"{base}_{_character(below)}" if below else base


def parted(row, sign):
    """A row taken apart at every <mo> of this sign."""
    parts = [[]]
    for element in row:
        if element.tag == "mo" and element.text == sign:
            parts.append([])
        else:
            parts[-1].append(element)
    return parts


def words(element):
    """The words of an <mtext>, with plain spaces; nothing for another element."""
    return element.text.replace("\u00a0", " ").strip() if element.tag == "mtext" else ""


def number(row):
    """(value, half a unit of the last printed digit) of a printed number."""
    text = "".join(element.text for element in row if element.tag in ("mn", "mo")).replace("−", "-")
    digits = text.split("×")[0].replace("\u2009", "")
    powers = [element for element in row if element.tag == "msup"]
    power = int(value(_shown(powers[0][1]), {})) if powers else 0
    if not digits.strip("-"):
        digits += "1"  # 10⁶ alone
    decimals = len(digits.partition(".")[2])
    return float(f"{digits}e{power}"), 0.5 * 10.0 ** (power - decimals)


def truth(row, values):
    """Whether the printed comparisons, joined by "and", are all true."""
    tests = [[]]
    for element in row:
        if words(element) == "and":
            tests.append([])
        else:
            tests[-1].append(element)
    return all(_compared(test, values) for test in tests)


def value(row, values):
    """The value of a row, with values by the key of each symbol."""
    return _Row(row, values).whole()


def _compared(row, values):
    signs = [element.text for element in row if element.tag == "mo" and element.text in COMPARISONS]
    assert signs, "no comparison"
    sides, rest = [], row
    for sign in signs:
        first, *others = parted(rest, sign)
        sides.append(value(first, values))
        rest = [element for part in others for element in part]
    sides.append(value(rest, values))
    return all(COMPARISONS[sign](a, b) for sign, a, b in zip(signs, sides, sides[1:]))


def _visible(element):
    """The children of a row, with rows inside it that show no fence laid open."""
    return [part for child in element for part in _shown(child)]


def _shown(element):
    """An element as it is seen in a row: itself, or what is in a row that shows no fence."""
    return _visible(element) if element.tag == "mrow" and not _fence(element) else [element]


def _fence(row):
    first = row[0]
    return first.text if first.tag == "mo" and first.text in "(|{" else ""


def _character(word):
    for case in ("SMALL", "CAPITAL"):
        if len(word) > 1 and (word.islower() if case == "SMALL" else word.istitle()):
            try:
                return unicodedata.lookup(f"GREEK {case} LETTER {word.upper().replace('LAMBDA', 'LAMDA')}")
            except KeyError:
                pass
    return word


class _Row:
    """Reads one visible row from left to right by the usual precedence."""

    def __init__(self, row, values):
        self.row, self.values, self.at = row, values, 0

    def whole(self):
        found = self.sum()
        assert self.at == len(self.row), f"left over: {[e.text or e.tag for e in self.row[self.at:]]}"
        return found

    def next_is(self, *signs):
        element = self.row[self.at] if self.at < len(self.row) else None
        return element is not None and element.tag == "mo" and element.text in signs

    def sum(self):
        sign = -1 if self.next_is("−") else 1
        self.at += sign < 0
        found = sign * self.product()
        while self.next_is("+", "−"):
            sign = 1 if self.row[self.at].text == "+" else -1
            self.at += 1
            found += sign * self.product()
        return found

    def product(self):
        found = self.factor()
        while self.next_is("·", "×") or self.at < len(self.row) and self.row[self.at].tag == "mspace":
            if self.row[self.at].tag == "mspace":
                before, after = self.row[self.at - 1], self.row[self.at + 1]
                assert before.tag != "mn" or not _starts_with_digit(after), "two numbers run together"
            self.at += 1
            found *= self.factor()
        return found

    def factor(self):
        element = self.row[self.at]
        self.at += 1
        match element.tag:
            case "mn":
                return float(element.text.replace("\u2009", ""))
            case "mi" if element.text in FUNCTIONS:
                self.at += 1
                return FUNCTIONS[element.text](*_listed(self.row[self.at - 1], self.values))
            case "mtext" if words(element) in CHOICES:
                self.at += 1
                return CHOICES[words(element)](_listed(self.row[self.at - 1], self.values))
            case "mi":
                return self.symbol([element])
            case "msub":
                return self.symbol(element)
            case "msubsup":
                return self.symbol(element[:2]) ** _exponent(element[2], self.values)
            case "msup":
                base = _shown(element[0])
                assert len(base) == 1, "a power of more than it stands at"
                return value(base, self.values) ** _exponent(element[1], self.values)
            case "mfrac":
                top, bottom = (value(_shown(part), self.values) for part in element)
                return top / bottom
            case "msqrt":
                return math.sqrt(value(_visible(element), self.values))
            case "mrow" if _fence(element) == "|":
                [inside] = _listed(element, self.values)
                return abs(inside)
            case "mrow" if _fence(element) == "(":
                [inside] = _listed(element, self.values)
                return inside
            case "mrow":
                assert self.at == len(self.row), "something stands beside open cases"
                return self.cases(element[1])
        raise AssertionError(f"not to be read: {ElementTree.tostring(element)}")

    def symbol(self, parts):
        texts = ("".join(part.itertext()) for part in parts)
        key = unicodedata.normalize("NFKC", "_".join(texts))
        return math.pi if key == "π" and key not in self.values else self.values[key]

    def cases(self, table):
        (then, test), (otherwise, rest) = table
        first, *condition = _visible(test)
        assert words(first) == "if" and "".join(rest.itertext()) == "otherwise"
        return value(_visible(then if truth(condition, self.values) else otherwise), self.values)


def _listed(fenced, values):
    """The values between two fences, parted by commas."""
    assert fenced[0].text + fenced[-1].text in ("()", "||")
    tall = any(fenced.iter("mfrac")) or any(fenced.iter("mtable"))
    assert tall == (fenced[0].get("stretchy") != "false"), "fences as tall as what they hold"
    items = parted([part for child in fenced[1:-1] for part in _shown(child)], ",")
    return [value(item[1:] if item[0].tag == "mspace" else item, values) for item in items]


def _exponent(element, values):
    if element.tag == "mn" and "/" in element.text:
        top, bottom = map(float, element.text.split("/"))
        return top / bottom
    return value(_shown(element), values)


def _starts_with_digit(element):
    return "".join(element.itertext())[:1].isdigit()
