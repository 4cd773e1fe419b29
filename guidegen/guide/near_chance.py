"""How often a thing goes into another when their limits overlap, as a share and in words."""

from guidegen.numbers import percent
from guidegen.units import Band

SCALE = (
    (0.05, "hardly ever"),
    (0.5, "sometimes"),
    (0.95, "mostly"),
    (1.0, "nearly always"),
)  # up to each share


def chance(inside: Band, hole: Band) -> float:
    """Share of pairs in which the inside is not larger than the hole, both spread evenly between limits.

    Inside and hole are a point x, y of a rectangle; counted is what of it lies on the side y >= x.
    """
    a, b, c, d = inside.least, inside.most, hole.least, hole.most
    if a == b or c == d:
        if a == b and c == d:
            return float(a <= c)
        share = (d - a) / (d - c) if a == b else (c - a) / (b - a)
        return min(max(share, 0.0), 1.0)
    corners = _half_square(d - a) - _half_square(d - b) - _half_square(c - a) + _half_square(c - b)
    return corners / ((b - a) * (d - c))


def how_often(share: float, does: str) -> str:
    """hardly ever, sometimes, mostly or nearly always, and what it does."""
    return f"{next(word for most, word in SCALE if share <= most)} {does}"


def scale_words() -> str:
    """What the words mean."""
    (first, one), *rest = SCALE
    told = [f"{one} up to {percent(first)}", *(f"{word} up to {percent(most)}" for most, word in rest[:-1])]
    return f"{', '.join(told)}, {rest[-1][1]} above that"


def _half_square(x):
    return max(x, 0.0) ** 2 / 2
