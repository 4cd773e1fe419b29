"""Which tests prove which declared formula: `test_disturbed.py` runs them on the formula made wrong."""

from collections import defaultdict

PROOFS = defaultdict(list)


def proves(*formulas):
    """Marks a test, which takes no arguments, as a proof of the formulas of these names.

    The test calls each through its module (`beam.hub_deflection`), so that a disturbed one takes its place.
    """

    def note(test):
        for name in formulas:
            PROOFS[name].append(test)
        return test

    return note
