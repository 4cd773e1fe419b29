"""What wobble comes from, as bars: to the right of zero what adds to it, to the left what takes away."""

from typing import NamedTuple

from guidegen.guide.charts import words
from guidegen.guide.charts.style import LINE_GAP, ROLES, WIDTH, plot, width_of
from guidegen.joint.records import Result

HATCHES = {  # line number for the colour, hatching
    "shoulder": (1, "//"),
    "bearing": (2, "\\\\"),
    "housing": (3, "--"),
    "closure": (4, "xx"),
    "together": (5, ""),
}
BAR = 28  # user units high: two lines of words
NAME = 9.5  # letters within bars
HEADING = 10  # letters of a bar's heading
SIDE, FOOT, TOP = 17, 40, 8
GAP = 12  # from a bar to the next heading
UNDER = 17  # more where words stand under a bar
BETWEEN = 8  # words side by side
LEAST = 0.5  # per cent; less is not drawn


class Bar(NamedTuple):
    """One joint's causes under a heading."""

    heading: str
    result: Result

    @property
    def parts(self) -> list[tuple[str, float]]:
        """(cause, per cent of the typical wobble) of all that can be seen, negative ones too."""
        found = ((cause, 100 * self.result.shares.get(cause, 0.0)) for cause in HATCHES)
        return [(cause, share) for cause, share in found if abs(share) >= LEAST]


def cause_bars(found, id: str, of: str, bars: list[Bar]):
    """Shares of causes, a bar a joint; every part is named in it, or under it where it is too short."""
    told = words.shares(of, [(bar.heading, bar.parts) for bar in bars])
    headings = [_wrapped(bar.heading) for bar in bars]
    low, high = _ends(bars)
    per_cent = (WIDTH - 2 * SIDE) / (high - low)
    under = [UNDER if _outside(bar, per_cent) else 0 for bar in bars]
    height = TOP + FOOT + sum(LINE_GAP * len(lines) + BAR + GAP for lines in headings) + sum(under)
    numbers = words.shares_table([(bar.heading, bar.result.shares) for bar in bars], HATCHES)
    margins = (SIDE, SIDE, FOOT, TOP)
    with plot(found, id, told, height=height, numbers=numbers, margins=margins) as drawn:
        axes = drawn.axes
        axes.set(xlim=(low, high), ylim=(0, drawn.height))
        drawn.across("share of the typical wobble, %", low, high)
        drawn.level(0, low, high, "ink", linewidth=0.8, clip_on=False)
        top = drawn.height
        for bar, lines, room in zip(bars, headings, under):
            for line in lines:
                drawn.words(low, top, line, size=HEADING, by=(0, -LINE_GAP / 2))
                top -= LINE_GAP
            top -= 3
            _draw(drawn, bar, top, per_cent)
            top -= BAR + room + GAP - 3


def _wrapped(heading):
    """A heading in lines that fit."""
    lines = [""]
    for word in heading.split():
        longer = f"{lines[-1]} {word}".strip()
        if width_of(longer, HEADING) <= WIDTH - 2 * SIDE:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def _ends(bars):
    """Where the scale begins and ends, per cent: with the bars, at least nought to a hundred."""
    left = min(sum(share for _, share in bar.parts if share < 0) for bar in bars)
    right = max(sum(share for _, share in bar.parts if share > 0) for bar in bars)
    return min(left, 0.0), max(right, 100.0)


def _outside(bar, per_cent) -> list[tuple[float, str]]:
    """(middle in per cent, words) of the parts that are too short for their words, from the left."""
    found = []
    for side in (-1, 1):
        end = 0.0
        for cause, share in bar.parts:
            if share * side > 0:
                if not _fits(cause, share, per_cent):
                    found.append((end + share / 2, words.share(cause, share)))
                end += share
    return sorted(found)


def _fits(cause, share, per_cent):
    return abs(share) * per_cent > 6 + max(_width(cause), _width(words.percent(share)))


def _width(text):
    return width_of(text, NAME)


def _draw(drawn, bar, top, per_cent):
    """One bar from zero, to both sides."""
    axes, middle = drawn.axes, top - BAR / 2
    drawn.upright(0, top - BAR - 3, top + 3, "ink", linewidth=1.4)
    for side in (-1, 1):
        end = 0.0
        for cause, share in bar.parts:
            if share * side < 0:
                continue
            number, hatch = HATCHES[cause]
            place = {"y": middle, "width": share, "left": end, "height": BAR}
            axes.barh(**place, facecolor=ROLES[number], alpha=0.22, linewidth=0)
            axes.barh(**place, facecolor="none", edgecolor=ROLES["ink"], hatch=hatch, linewidth=0.8)
            if _fits(cause, share, per_cent):
                for text, up in ((cause, 6), (words.percent(share), -6)):
                    drawn.words(end + share / 2, middle, text, ha="center", size=NAME, by=(0, up))
            end += share
    _name_under(drawn, _outside(bar, per_cent), top - BAR, per_cent)


def _name_under(drawn, outside, bottom, per_cent):
    """Words under a bar for its short parts, side by side, each with a thin line from its part."""
    low, _ = drawn.axes.get_xlim()
    lefts, least = [], 0.0
    for middle, text in outside:  # user units from the left edge; moved right where words would touch
        left = max((middle - low) * per_cent - _width(text) / 2, least)
        lefts.append(left)
        least = left + _width(text) + BETWEEN
    most = drawn.width
    for n in reversed(range(len(lefts))):  # and back from the right edge
        lefts[n] = min(lefts[n], most - _width(outside[n][1]))
        most = lefts[n] - BETWEEN
    for left, (middle, text) in zip(lefts, outside):
        at = low + (left + _width(text) / 2) / per_cent
        drawn.axes.plot([middle, at], [bottom, bottom - 6], color=ROLES["ink"], linewidth=0.6)
        drawn.words(at, bottom - 12, text, ha="center", size=NAME)
