"""Where declared formulas meet the joint: each use is kept as a worked step at typical values."""

from guidegen.joint.records import Step
from guidegen.joint.rows import first


class Working:
    """Calls formulas and keeps the steps. `about` says in words what a search found, when one did."""

    def __init__(self):
        self.steps: list[Step] = []

    def __call__(self, formula, gives, about="", **values):
        """The formula's result over all rows; the typical row becomes the step `gives`."""
        result = formula(**values)
        typical = {name: first(value) for name, value in values.items()}
        declared = formula.formula
        self.steps.append(
            Step(gives, declared.name, typical, first(result), declared.held(typical), declared.source, about)
        )
        return result
