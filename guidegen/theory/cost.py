"""What parts cost together, and how many to buy: plain sums over counts by part."""

from fractions import Fraction
from math import ceil, fsum
from typing import Mapping

from scipy.stats import beta, binom

from guidegen.units import Band

SURE = 0.95  # how sure to be that the spares last, and of a loss rate


def total_cost(counts: Mapping[str, int], prices: Mapping[str, float]) -> float:
    """What so many of each part cost together, in the currency of the prices; KeyError without a price."""
    return fsum(count * prices[part] for part, count in counts.items())


def spares_of_share(count: int, share: float) -> int:
    """Spares for a count when a share of it is bought on top; a part of a piece is a whole one.

    The share is taken as written, 0.15 as 15 hundredths, so that 0.15 of 20 is 3 and not 4.
    """
    return ceil(count * Fraction(repr(share)))


def spares_of_loss(count: int, loss: float, sure: float = SURE) -> int:
    """Least number of spares that last the term, so sure, when each piece in use is lost with this chance.

    Pieces are lost independently; what is lost is replaced at the end, not lost again. Source: binomial.
    """
    return int(binom.ppf(sure, count, loss)) if loss > 0 else 0


def loss_rate(lost: int, handed_out: int, sure: float = SURE) -> Band:
    """Chance that one piece is lost in a term, from what was counted back in; so sure of either limit.

    Each limit is passed with a chance of 1 − sure. Source: Clopper and Pearson's limits of a binomial.
    """
    if not 0 <= lost <= handed_out or handed_out < 1:
        raise ValueError(f"{lost} lost of {handed_out}")
    low = float(beta.ppf(1 - sure, lost, handed_out - lost + 1)) if lost else 0.0
    high = float(beta.ppf(sure, lost + 1, handed_out - lost)) if lost < handed_out else 1.0
    return Band(low, lost / handed_out, high)


def to_order(per_team: Mapping[str, int], teams: int, share: float) -> dict[str, int]:
    """How many of each part a class needs: what each team gets, and a share of all that as spares."""
    return {part: teams * count + spares_of_share(teams * count, share) for part, count in per_team.items()}


def still_to_buy(wanted: Mapping[str, int], in_stock: Mapping[str, int]) -> dict[str, int]:
    """What is missing from the shelf: parts of which there are enough are left out."""
    missing = {part: count - in_stock.get(part, 0) for part, count in wanted.items()}
    return {part: count for part, count in missing.items() if count > 0}


def packs(count: int, size: int) -> int:
    """Whole packs of a size that hold at least a count."""
    return -(-count // size)


def added(*lists: Mapping[str, int]) -> dict[str, int]:
    """Several lists of counts as one, in the order in which parts first appear."""
    found: dict[str, int] = {}
    for counts in lists:
        for part, count in counts.items():
            found[part] = found.get(part, 0) + count
    return found
