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
SIDE, FOOT, TOP = 12, 40, 8
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
    """Shares of causes, a bar a joint; every part is named in it or beside its end."""
    title, text, how = words.shares(of, [(bar.heading, bar.parts) for bar in bars])
    headings = [_wrapped(bar.heading) for bar in bars]
    height = TOP + FOOT + sum(LINE_GAP * len(lines) + BAR + 12 for lines in headings)
    numbers = words.shares_table([(bar.heading, bar.result.shares) for bar in bars], HATCHES)
    margins = (SIDE, SIDE, FOOT, TOP)
    with plot(found, id, title, text, how, height=height, numbers=numbers, margins=margins) as drawn:
        axes = drawn.axes
        per_cent = _scale(drawn, bars)
        axes.set(ylim=(0, drawn.height))
        drawn.across("share of the typical wobble, %", *axes.get_xlim())
        drawn.level(0, *axes.get_xlim(), "ink", linewidth=0.8, clip_on=False)
        top = drawn.height
        for bar, lines in zip(bars, headings):
            for line in lines:
                drawn.words(axes.get_xlim()[0], top, line, size=HEADING, by=(0, -LINE_GAP / 2))
                top -= LINE_GAP
            top -= 3
            _draw(drawn, bar, top, per_cent)
            top -= BAR + 9


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


def _scale(drawn, bars):
    """Sets the axis so that bars and the words beside them fit; returns user units to one per cent."""
    left = min(sum(share for _, share in bar.parts if share < 0) for bar in bars)
    right = max(sum(share for _, share in bar.parts if share > 0) for bar in bars)
    per_cent = drawn.width / (right - left)
    for _ in range(8):  # words need the more room, the smaller the scale
        rooms = [tuple(_beside(bar, per_cent)) for bar in bars]
        before = max([-left * per_cent, *(end * per_cent + room for (end, room), _ in rooms)])
        after = max(end * per_cent + room for _, (end, room) in rooms)
        per_cent *= drawn.width / (before + after)
    drawn.axes.set_xlim(-before / per_cent, after / per_cent)
    return per_cent


def _beside(bar, per_cent):
    """(length of the bar, room for words beyond it), to the left of zero and to the right."""
    for side in (-1, 1):
        own = [(cause, share) for cause, share in bar.parts if share * side > 0]
        outside = [words.share(cause, share) for cause, share in own if not _fits(cause, share, per_cent)]
        room = 6 + max(map(_width, outside)) if outside else 0
        yield sum(abs(share) for _, share in own), room


def _fits(cause, share, per_cent):
    return abs(share) * per_cent > 6 + max(_width(cause), _width(words.percent(share)))


def _width(text):
    return width_of(text, NAME)


def _draw(drawn, bar, top, per_cent):
    """One bar from zero, to both sides."""
    axes, middle = drawn.axes, top - BAR / 2
    drawn.upright(0, top - BAR - 3, top + 3, "ink", linewidth=1.4)
    for side, ha in ((-1, "right"), (1, "left")):
        end, outside = 0.0, []
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
            else:
                outside.append(words.share(cause, share))
            end += share
        for number, text in enumerate(outside):
            up = LINE_GAP * ((len(outside) - 1) / 2 - number)
            drawn.words(end, middle, text, ha=ha, size=NAME, by=(4 * side, up))
