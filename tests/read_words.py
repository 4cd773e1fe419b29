"""Reads a spoken formula back: words to a value, as `notation/spoken.py` says they bind."""
import math
import operator
import re

COUNT = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"]
FUNCTIONS = {
    "the square root of": math.sqrt, "the absolute value of": abs, "the sine of": math.sin,
    "the cosine of": math.cos, "the tangent of": math.tan, "the arctangent of": math.atan,
}
CHOICES = {"the least of :": min, "the greatest of :": max}
COMPARISONS = {
    "is less than": operator.lt, "is at most": operator.le, "is more than": operator.gt,
    "is at least": operator.ge,
}


def spoken_name(print_form):
    """How a symbol is said: its parts with spaces, small numbers as words."""
    parts = re.findall(r"[A-Za-z]+|\d+", print_form)
    return " ".join(COUNT[int(part)] if part.isdigit() and int(part) <= 10 else part for part in parts)


def spoken_value(text, values):
    """The value of what was said after "equals", with values by spoken name."""
    words = text.replace(",", " ,").replace(";", " ;").replace(":", " :").replace("capital ", "").split()
    reader = _Words(words, {tuple(name.split()): value for name, value in values.items()})
    found = reader.clause()
    assert reader.at == len(words), f"left over: {words[reader.at:]}"
    return found


class _Words:
    def __init__(self, words, values):
        self.words, self.values, self.at = words, values, 0

    def heard(self, phrase):
        """Whether the phrase comes next; if so, goes on behind it."""
        words = phrase.split()
        if self.words[self.at:self.at + len(words)] != words:
            return False
        self.at += len(words)
        return True

    def expect(self, phrase):
        assert self.heard(phrase), f"{phrase!r} missing before {self.words[self.at:]}"

    def clause(self):
        for phrase, choose in CHOICES.items():
            if self.heard(phrase):
                items = [self.clause()]
                while self.heard(";"):
                    items.append(self.clause())
                return choose(items)
        found = self.sum()
        while self.heard(", over"):
            found /= self.sum()
        if self.heard(", if"):
            true = self.comparison()
            self.expect("; otherwise")
            other = self.clause()
            return found if true else other
        return found

    def comparison(self):
        left = self.sum()
        compare = next(compare for phrase, compare in COMPARISONS.items() if self.heard(phrase))
        return compare(left, self.sum())

    def sum(self):
        found = -self.product() if self.heard("minus") else self.product()
        while True:
            if self.heard("plus"):
                found += self.product()
            elif self.heard("minus"):
                found -= self.product()
            else:
                return found

    def product(self):
        found = self.tight()
        while True:
            if self.heard("times"):
                found *= self.tight()
            elif self.heard("over"):
                found /= self.tight()
            else:
                return found

    def tight(self):
        """One thing: in brackets, a function's value, minus one, two B, B squared."""
        if self.heard("minus"):
            return -self.tight()
        for phrase, function in FUNCTIONS.items():
            if self.heard(phrase):
                return function(self.tight())
        if self.heard("open bracket"):
            found = self.clause()
            self.expect("close bracket")
            return self.raised(found)
        named = self.name()
        if named is not None:
            return self.raised(named)
        multiple = self.raised(self.number())
        named = self.name()
        return multiple if named is None else multiple * self.raised(named)

    def raised(self, base):
        if self.heard("squared"):
            return base**2
        if self.heard("cubed"):
            return base**3
        return base ** self.tight() if self.heard("to the power") else base

    def name(self):
        for length in range(4, 0, -1):
            words = tuple(self.words[self.at:self.at + length])
            if words in self.values or words == ("pi",):
                self.at += len(words)
                return self.values.get(words, math.pi)
        return None

    def number(self):
        word = self.words[self.at]
        self.at += 1
        return float(COUNT.index(word) if word in COUNT else word)
