"""The tolerance zones of a fit, drawn to scale: a hole as made by the bearing, a bore by the shaft."""

from dataclasses import dataclass
from typing import Iterator, NamedTuple, Sequence

from markupsafe import Markup

from guidegen.drawing.svg import number, safe
from guidegen.guide.charts.style import spread
from guidegen.guide.measures import Measures
from guidegen.guide.worn_line import Figure, round_ticks, word
from guidegen.numbers import MINUS, show_number
from guidegen.units import MM_PER_INCH, Band

WIDTH, HEIGHT = 380, 290  # user units, as the charts
LEFT, RIGHT, TOP, FOOT = 44, 338, 48, 256  # of the plot
BAR = 15  # width of a zone
SLIVER = 1.6  # the least height at which a zone is seen
LINE_GAP = 11.5
MICRONS = 1000  # in a millimetre
THOUSANDTHS = MM_PER_INCH / 1000  # mm in a thousandth of an inch
AIR = 0.12  # of what is drawn, left free above and below


class Zone(NamedTuple):
    """Where a size may lie, mm; `usual`: where two in three lie, of a size that scatters about its mean."""

    words: str
    limits: Band
    usual: Band | None = None


class Mark(NamedTuple):
    """A size, mm, at which something happens."""

    words: str
    size: float


@dataclass(frozen=True)
class Side:
    """Zones that meet: those of the housing, or those of the shaft; all from one nominal size, mm."""

    title: str
    nominal: float
    zones: tuple[Zone, ...]
    marks: tuple[Mark, ...] = ()

    def off(self, size: float) -> float:
        """How far a size lies from the nominal one, mm."""
        return size - self.nominal


def zones(sides: Sequence[Side], measures: Measures, prefix: str = "zones") -> Figure:
    """The sides beside each other, at one scale, and the same in words."""
    low, high = _ends(sides)
    title = "Tolerance zones, to scale"
    text = safe(_text(sides, measures))
    parts = [
        f'<title id="{prefix}-t">{title}</title><desc id="{prefix}-d">{text}</desc>',
        *_scales(low, high),
        *(piece for n, side in enumerate(sides) for piece in _side(side, n, len(sides), low, high, measures)),
    ]
    svg = (
        f'<svg class="chart worn" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" '
        f'aria-labelledby="{prefix}-t {prefix}-d" fill="currentColor" font-size="10.5">{"".join(parts)}</svg>'
    )
    return Figure(
        Markup(svg), "Heights to scale: how far sizes may lie from the nominal one. Dark: two in three holes."
    )


def _ends(sides) -> tuple[float, float]:
    """Lowest and highest place off nominal, mm, with air; marks count where they lie near the zones."""
    places = [
        side.off(end)
        for side in sides
        for zone in side.zones
        for end in (zone.limits.least, zone.limits.most)
    ]
    low, high = min(0.0, *places), max(0.0, *places)
    air = AIR * (high - low)
    return low - air, high + air


def _up(off, low, high):
    return FOOT - (FOOT - TOP) * (off - low) / (high - low)


def _side(side: Side, n, count, low, high, measures) -> Iterator[str]:
    """One side: its nominal line, its zones with their limits, its marks."""
    width = (RIGHT - LEFT) / count
    left = LEFT + n * width
    slot = width / len(side.zones)
    y = number(_up(0.0, low, high))
    at = f"M{number(left)} {y}h{number(width - 4)}"
    yield f'<path stroke="currentColor" stroke-dasharray="8 2 2 2" d="{at}"/>'
    yield word(left + 4, TOP - 16, safe(side.title))
    yield word(left + 4, TOP - 4.5, f"from {safe(measures.exact(side.nominal).first)}")
    for mark in side.marks:
        if low < side.off(mark.size) < high:
            at = number(_up(side.off(mark.size), low, high))
            yield (
                f'<path class="chart-line-2" stroke-width="1.4" stroke-dasharray="5 2.5" '
                f'd="M{number(left + 2)} {at}h{number(slot - 6)}"/>'
            )
    for k, zone in enumerate(side.zones):
        yield from _zone(side, zone, left + k * slot + 6, low, high, k)


def _zone(side, zone, x, low, high, k):
    top, foot = (_up(side.off(end), low, high) for end in (zone.limits.most, zone.limits.least))
    if foot - top < SLIVER:
        top, foot = (top + foot - SLIVER) / 2, (top + foot + SLIVER) / 2
    role = "1" if k == 0 else "3"
    yield (
        f'<rect class="chart-fill-{role}" fill-opacity="{".3" if zone.usual else ".75"}" x="{number(x)}" '
        f'y="{number(top)}" width="{BAR}" height="{number(foot - top)}"/>'
    )
    if zone.usual:
        ends = [_up(side.off(end), low, high) for end in (zone.usual.most, zone.usual.least)]
        yield (
            f'<rect class="chart-fill-{role}" fill-opacity=".75" x="{number(x)}" y="{number(ends[0])}" '
            f'width="{BAR}" height="{number(ends[1] - ends[0])}"/>'
        )
    told = [
        (_up(side.off(end), low, high), _signed(side.off(end)), "")
        for end in (zone.limits.most, zone.limits.least)
    ]
    if k == 0:
        near = (mark for mark in side.marks if low < side.off(mark.size) < high)
        told += [(_up(side.off(mark.size), low, high) + 9, safe(mark.words), "2") for mark in near]
    told.sort()
    heights = spread([y + 3.5 for y, *_ in told], LINE_GAP, TOP + 6, FOOT - 2)
    for y, (_, words, color) in zip(heights, told):
        yield word(x + BAR + 3, y, words, role=color)
    lines = zone.words.split("\n")
    for n, line in enumerate(lines):
        yield word(x - 3, FOOT + 14 + n * LINE_GAP, safe(line), role=role)


def _signed(off: float) -> str:
    """A deviation in microns with its sign."""
    microns = round(MICRONS * off)
    return f"{MINUS if microns < 0 else '+' if microns > 0 else ''}{abs(microns)}"


def _scales(low, high):
    """Microns on the left, thousandths of an inch on the right."""
    marks, words = (
        [f"M{LEFT} {TOP}V{FOOT}M{RIGHT} {TOP}V{FOOT}"],
        [
            word(2, 11, "0.001 mm"),
            word(WIDTH - 2, 11, "0.001 in", "end"),
        ],
    )
    for side, per, out in ((LEFT, 1 / MICRONS, -1), (RIGHT, THOUSANDTHS, 1)):
        span = max(abs(low), abs(high)) / per
        ticks = sorted({sign * tick for tick in round_ticks(span) for sign in (1, -1)})
        shown = [tick for tick in ticks if low <= tick * per <= high]
        places = [(_up(tick * per, low, high), show_number(tick) if tick else "0") for tick in shown]
        marks += [f"M{side} {number(y)}h{4 * out}" for y, _ in places]
        placed = "".join(word(side + 6 * out, y + 4, said) for y, said in places)
        words.append(f'<g text-anchor="end">{placed}</g>' if out < 0 else placed)
    yield f'<path stroke="currentColor" fill="none" d="{"".join(marks)}"/>'
    yield from words


def _text(sides, measures) -> str:
    """The figure in words, with its numbers."""
    said = []
    for side in sides:
        parts = [
            f"{' '.join(zone.words.split())} {measures.limits(zone.limits).line}" for zone in side.zones
        ] + [f"{mark.words} {measures.size(mark.size).line}" for mark in side.marks]
        said.append(f"{side.title}, nominal {measures.exact(side.nominal).line}: {'; '.join(parts)}.")
    return " ".join(said)
