"""The models behind the numbers: one for each file of theory that declares formulas."""

import sys
from typing import Iterator

from guidegen.theory.declare import FORMULAS, Formula

ORDER = (
    "clearance",
    "pressfit",
    "holes",
    "grip",
    "heat",
    "freeplay",
    "stack",
    "statics",
    "beam",
    "strength",
    "clamp",
    "nuts",
    "sliding",
    "ball",
    "friction",
)
TITLES = {
    "clearance": "Holes and clearance",
    "pressfit": "Press fits",
    "holes": "Holes, from drawing to fit",
    "grip": "How a press fit holds",
    "heat": "Warmth and water",
    "freeplay": "Free play",
    "stack": "Stack on the screw",
    "statics": "Reactions",
    "beam": "Bending of the screw",
    "strength": "Strength of the screw",
    "clamp": "The nut and what it clamps",
    "ball": "Ball bearings",
    "sliding": "Sliding bushes",
    "friction": "Friction",
    "corrosion": "Metals that touch",
    "nuts": "Nuts, hands and wrenches",
    "weight": "What parts weigh",
    "measuring": "Measuring, and how sure",
    "chain": "Chains of joints",
    "precession": "Rings and screws that walk",
    "mismatch": "Inch beside metric",
}


def model_of(formula: Formula) -> str:
    """The model a formula belongs to, which names its page."""
    return formula.function.__module__.rpartition(".")[2]


def title_of(model: str) -> str:
    """What a model is called."""
    return TITLES.get(model, model.capitalize())


def says(model: str) -> str:
    """The first line of what a model's own file says."""
    formula = next(iter(formulas_of(model)))
    return sys.modules[formula.function.__module__].__doc__.partition("\n")[0]


def models() -> list[str]:
    """Every model, in the order a joint is worked out."""
    found = dict.fromkeys(model_of(formula) for formula in FORMULAS.values())
    return [*filter(found.__contains__, ORDER), *(model for model in found if model not in ORDER)]


def formulas_of(model: str) -> Iterator[Formula]:
    """The formulas of a model, in the order declared."""
    return (formula for formula in FORMULAS.values() if model_of(formula) == model)
