"""Our values against those printed in books and articles; the site's page of checks shows the same rows."""

from pathlib import Path

import pytest
from proofs import proves

from guidegen.guide.comparison import OTHER_CALLS, compared
from guidegen.kit.published import read_published

ROWS = read_published(Path(__file__).parent / "published")
FORMULAS_PUBLISHED = {call for row in ROWS for call in row.call.split(", ")} - OTHER_CALLS.keys()


@proves(*sorted(FORMULAS_PUBLISHED))
def test_every_published_value_comes_out():
    """Within half a unit of the last printed digit, or as near as the row says and why."""
    wrong = []
    for row in ROWS:
        if row.reproduces == "yes":
            check = compared(row)
            if not check.agrees:
                wrong.append(f"{row.id}: published {row.published} {row.unit}, ours {check.ours:.6g}")
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("row", [row for row in ROWS if row.reproduces == "no"], ids=lambda row: row.id)
def test_a_value_that_does_not_reproduce_says_why(row):
    """It stays, with the reason; should it ever come out, the row is wrong."""
    assert not compared(row).agrees and len(row.why) > 20


def test_the_right_values_named_beside_wrong_ones():
    """What the reasons of E21 and E23 call right is what we compute."""
    rows = {row.id: row for row in ROWS}
    assert compared(rows["E21"]).ours == pytest.approx(53.33, abs=0.005)
    assert 0.20 * 60 / compared(rows["E23"]).ours == pytest.approx(
        0.123, abs=0.0005
    )  # stress grows with interference


def test_rows_are_complete():
    """Each has its own id, says what it shows and where it stands, and why its tolerance is its own."""
    assert len({row.id for row in ROWS}) == len(ROWS) > 20
    for row in ROWS:
        assert row.place and row.shows and row.source and row.how and row.reproduces in ("yes", "no"), row.id
        assert bool(row.why) == bool(row.within or row.reproduces == "no"), row.id
