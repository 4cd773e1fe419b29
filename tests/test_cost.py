"""Sums of money and counts: against additions by hand, every case counted, and limits that statisticians print."""

import itertools
import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.theory import cost

COUNTS = st.dictionaries(st.sampled_from("abcdef"), st.integers(0, 40))


@given(COUNTS, st.lists(st.integers(0, 5000), min_size=6, max_size=6))
def test_cost_is_what_a_till_adds_up(counts, cents):
    """In whole cents, one piece after another."""
    prices = dict(zip("abcdef", (one / 100 for one in cents)))
    pieces = itertools.chain.from_iterable([part] * count for part, count in counts.items())
    till = sum(round(100 * prices[piece]) for piece in pieces)
    assert round(100 * cost.total_cost(counts, prices)) == till


def test_a_part_without_a_price_is_not_free():
    """Said, not counted as nothing."""
    with pytest.raises(KeyError, match="nut"):
        cost.total_cost({"nut": 2}, {"bolt": 1.0})


@given(st.integers(0, 500), st.integers(0, 200))
def test_spares_are_rounded_up_once(count, hundredths):
    """A share of hundredths, in whole numbers: no 0.15 of 20 that becomes 4 because 0.15 is a little more."""
    assert cost.spares_of_share(count, hundredths / 100) == -(-count * hundredths // 100)
    assert cost.spares_of_share(20, 0.15) == 3 and cost.spares_of_share(1, 0.01) == 1


def chance_of_at_most(lost, count, loss):
    """From the number of ways in which so many of `count` pieces get lost, exactly."""
    p = Fraction(str(loss))
    return sum(math.comb(count, k) * p**k * (1 - p) ** (count - k) for k in range(lost + 1))


@pytest.mark.parametrize("count, loss", [(8, 0.05), (48, 0.02), (64, 0.1), (20, 0.05), (1, 0.3), (10, 0.0)])
def test_spares_last_the_term_and_no_more(count, loss):
    """The least number with which the chance to run out is at most a twentieth: every case counted in fractions."""
    found = cost.spares_of_loss(count, loss)
    assert chance_of_at_most(found, count, loss) >= Fraction(95, 100)
    assert found == 0 or chance_of_at_most(found - 1, count, loss) < Fraction(95, 100)


def test_the_binomial_is_the_tabulated_one():
    """Tables of the binomial, n 20, p 0.05: 0.3585, 0.7358, 0.9245, 0.9841 for up to 0, 1, 2, 3 (memory, high)."""
    printed = (0.3585, 0.7358, 0.9245, 0.9841)
    for lost, chance in enumerate(printed):
        assert float(chance_of_at_most(lost, 20, 0.05)) == pytest.approx(chance, abs=5e-5)
        assert cost.spares_of_loss(20, 0.05, chance - 1e-4) == lost
        assert cost.spares_of_loss(20, 0.05, chance + 1e-4) == lost + 1


def test_loss_rate_has_limits_that_statisticians_print():
    """None lost of n: up to 1 - 0.05^(1/n), the rule of three; 1 lost of 10: 0.0051 to 0.3942 (Clopper and Pearson, memory)."""
    for n in (8, 30, 100):
        found = cost.loss_rate(0, n)
        assert found.least == found.typical == 0 and found.most == pytest.approx(1 - 0.05 ** (1 / n))
        assert n < 30 or found.most == pytest.approx(3 / n, rel=0.06)
    found = cost.loss_rate(1, 10)
    assert (found.least, found.typical, found.most) == pytest.approx((0.0051, 0.1, 0.3942), abs=1e-4)
    assert cost.loss_rate(5, 5).most == 1
    for lost, out in ((3, 40), (7, 12)):  # at each limit what was seen is as rare as the limit says
        found = cost.loss_rate(lost, out)
        assert float(1 - chance_of_at_most(lost - 1, out, repr(found.least))) == pytest.approx(0.05, abs=1e-9)
        assert float(chance_of_at_most(lost, out, repr(found.most))) == pytest.approx(0.05, abs=1e-9)
    for lost, out in ((3, 2), (-1, 4), (0, 0)):
        with pytest.raises(ValueError, match="lost of"):
            cost.loss_rate(lost, out)


@given(COUNTS, COUNTS, st.integers(1, 30), st.sampled_from([0, 0.05, 0.15, 0.5, 1]))
def test_an_order_covers_every_team_and_its_spares(per_team, shelf, teams, share):
    """Team by team, piece by piece; with what lies on the shelf it is enough, and one piece fewer is not."""
    wanted = cost.to_order(per_team, teams, share)
    bought = cost.still_to_buy(wanted, shelf)
    for part, count in per_team.items():
        pieces = sum(1 for _ in range(teams) for _ in range(count))
        needed = pieces + math.ceil(Fraction(str(share)) * pieces)
        assert wanted[part] == needed
        assert shelf.get(part, 0) + bought.get(part, 0) >= needed
        assert part not in bought or shelf.get(part, 0) + bought[part] == needed
    assert set(bought) <= set(per_team) and all(count > 0 for count in bought.values())


def test_packs_hold_what_is_needed():
    """The last pack is opened for a single piece; none is bought for nothing."""
    for count, size in itertools.product(range(60), (1, 5, 12)):
        found = cost.packs(count, size)
        assert found * size >= count > (found - 1) * size or count == found == 0


@given(st.lists(COUNTS, max_size=4))
def test_lists_added_are_lists_in_a_row(lists):
    """As if every piece of every list were laid out and counted, parts in the order first seen."""
    pieces = [part for counts in lists for part, count in counts.items() for _ in range(count)]
    found = cost.added(*lists)
    assert {part: count for part, count in found.items() if count} == {p: pieces.count(p) for p in pieces}
    assert list(found) == list(dict.fromkeys(part for counts in lists for part in counts))
