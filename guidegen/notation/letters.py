"""Reads the `print` column of symbols.csv: how a symbol is written.

theta      a Greek letter by its name, capital with a capital (Delta)
c_1        a letter and what stands below it; digits and single letters each in their own kind
t_arm      a word below the letter is printed upright
L_10h      digits and letters may follow each other below; a comma parts two of them (R_1,a)
Delta T    words with a space between stand beside each other as one symbol
play       a word is printed upright
"""

import re
from functools import cache
from typing import NamedTuple

GREEK = {
    "alpha": "α",
    "beta": "β",
    "gamma": "γ",
    "delta": "δ",
    "epsilon": "ε",
    "zeta": "ζ",
    "eta": "η",
    "theta": "θ",
    "iota": "ι",
    "kappa": "κ",
    "lambda": "λ",
    "mu": "μ",
    "nu": "ν",
    "xi": "ξ",
    "pi": "π",
    "rho": "ρ",
    "sigma": "σ",
    "tau": "τ",
    "phi": "φ",
    "chi": "χ",
    "psi": "ψ",
    "omega": "ω",
    "Gamma": "Γ",
    "Delta": "Δ",
    "Theta": "Θ",
    "Lambda": "Λ",
    "Xi": "Ξ",
    "Pi": "Π",
    "Sigma": "Σ",
    "Phi": "Φ",
    "Psi": "Ψ",
    "Omega": "Ω",
}
_PRINT = re.compile(r"([A-Za-z]+(?: [A-Za-z]+)*)(?:_((?:[A-Za-z]+|\d+)(?:,?(?:[A-Za-z]+|\d+))*))?")


class Letter(NamedTuple):
    """A symbol taken apart: the words that stand on the line, and the pieces below it."""

    base: tuple[str, ...]
    below: tuple[str, ...] = ()


@cache
def letter(print_form: str) -> Letter:
    """The symbol of a print form. Raises ValueError for a form that is not in this notation."""
    match = _PRINT.fullmatch(print_form)
    if match is None:
        raise ValueError(f"print form {print_form!r} is not like theta, c_1, t_arm or Delta T")
    base, below = match.groups()
    return Letter(tuple(base.split()), tuple(re.findall(r"[A-Za-z]+|\d+|,", below or "")))


def italic(character: str) -> str:
    """The sloping mathematical form of one Latin or small Greek letter; anything else unchanged."""
    if character == "h":
        return "ℎ"
    for first, last, sloping in (("A", "Z", 0x1D434), ("a", "z", 0x1D44E), ("α", "ω", 0x1D6FC)):
        if first <= character <= last:
            return chr(sloping + ord(character) - ord(first))
    return character
