"""The one style of all charts: size, lettering, lines, and the roles that colours play.

Matplotlib lays a chart out in colours that only stand for roles; `svg_clean` turns them into classes, and
style.css says what they look like on light ground, on dark and on paper.
"""

import io
from contextlib import contextmanager
from dataclasses import dataclass
from typing import NamedTuple, Sequence

from markupsafe import Markup

from guidegen.guide.charts.svg_clean import cleaned
from guidegen.units import MM_PER_INCH

WIDTH, HEIGHT = 380, 290  # user units: about the pixels of a phone, so that letters stay readable there
TALL = 330  # for charts with many lines
LETTER = 11
LINE_GAP = 12.5  # between lines of words
LEAD = 18  # from the end of a line to the words about it
# Colour by role: what is drawn in it becomes a class. A number is a line of its own colour.
ROLES = {
    "ink": "#000001",
    "grid": "#000002",
    "band": "#000003",
    "zone": "#000004",
    1: "#000011",
    2: "#000012",
    3: "#000013",
    4: "#000014",
    5: "#000015",
}
# What tells lines apart where colours do not: dashes and markers.
DASHES = {1: "-", 2: (0, (6, 2.5)), 3: (0, (1.6, 1.8)), 4: (0, (8, 2, 1.6, 2)), 5: (0, (3, 1.5))}
MARKERS = {1: "o", 2: "s", 3: "^", 4: "D", 5: "v"}
STYLE = {
    "svg.fonttype": "none",
    "font.family": "DejaVu Sans",  # comes with matplotlib and is wide: what fits in it fits in any
    "font.size": LETTER,
    "axes.labelsize": LETTER,
    "xtick.labelsize": LETTER,
    "ytick.labelsize": LETTER,
    "axes.edgecolor": ROLES["ink"],
    "axes.labelcolor": ROLES["ink"],
    "text.color": ROLES["ink"],
    "xtick.color": ROLES["ink"],
    "ytick.color": ROLES["ink"],
    "axes.facecolor": "none",
    "figure.facecolor": "none",
    "figure.dpi": 72,
    "axes.linewidth": 0.8,
    "axes.labelpad": 6,
    "lines.linewidth": 1.8,
    "lines.markersize": 6,
    "hatch.linewidth": 0.7,
    "hatch.color": ROLES["ink"],
    "axes.grid": True,
    "grid.color": ROLES["grid"],
    "grid.linewidth": 0.5,
    "axes.axisbelow": True,
    "axes.unicode_minus": True,
}


@dataclass(frozen=True)
class Chart:
    """A chart ready for a page. `svg` stands in it as it is; `how_to_read` belongs beside it."""

    id: str
    title: str
    svg: Markup
    text_alternative: str  # also within the svg
    how_to_read: str
    numbers: tuple[tuple[str, ...], ...] = ()  # the same as a table, headings first, for charts of bars


class End(NamedTuple):
    """Where a line ends, in data, and what is written beside it."""

    x: float
    y: float
    text: str
    role: object


class Plot:
    """A chart while it is drawn: matplotlib's axes, and what all charts do with them."""

    def __init__(self, axes, width: float, height: float, left: float, right: float):
        self.axes, self.width, self.height = axes, width, height  # of the axes, user units
        self.left, self.right = left, right  # margins

    def line(self, number: int, x, y, **more):
        """A line in its own colour and dashes."""
        self.axes.plot(x, y, color=ROLES[number], linestyle=DASHES[number], **more)

    def markers(self, number: int, x, y, hollow=False, **more):
        """Markers of a line, full or hollow."""
        fill = "none" if hollow else ROLES[number]
        more |= {"markerfacecolor": fill, "markeredgewidth": 1.4, "clip_on": False}
        self.axes.plot(x, y, MARKERS[number], color=ROLES[number], **more)

    def level(self, y, x_from, x_to, role, **more):
        """A level line."""
        self.axes.plot([x_from, x_to], [y, y], color=ROLES[role], **more)

    def words(self, x, y, text, role="ink", ha="left", va="center_baseline", size=LETTER, by=(0, 0), **more):
        """One line of words at a place of the axes, or `by` user units away from it."""
        more |= {"textcoords": "offset points", "annotation_clip": False}
        self.axes.annotate(text, (x, y), xytext=by, ha=ha, va=va, color=ROLES[role], fontsize=size, **more)

    def label_ends(self, ends: Sequence[End], clear=0):
        """Words beside the ends of lines, in one column; moved apart, with a thin line leading to each.

        clear: user units to be left free along the top.
        """
        low, high = self.axes.get_ylim()
        left, right = self.axes.get_xlim()
        across, up = self.width / (right - left), self.height / (high - low)
        column = max(end.x for end in ends)
        ends = sorted(ends, key=lambda end: end.y)
        wished, highest = [(end.y - low) * up for end in ends], self.height - clear - LETTER / 2
        places = spread(wished, LINE_GAP, LETTER / 2 + 2, highest)
        for end, place in zip(ends, places):
            at = left + (column - left) + LEAD / across, low + place / up
            bend = column + (LEAD - 8) / across
            self.axes.plot(
                [end.x, end.x + 2 / across, bend, at[0]],
                [end.y, end.y, at[1], at[1]],
                color=ROLES[end.role],
                linewidth=0.6,
            )
            self.words(*at, end.text, end.role, by=(2, 0))

    def scales(self, x_from, x_to, y_words, inches="xy", y_inches="inches"):
        """Ticks between, words along the upright scale, and inch scales opposite the millimetre ones.

        inches: "x", "y", "xy", or "" for none.
        """
        from matplotlib.ticker import MaxNLocator

        def ticks(low, high, most):
            found = MaxNLocator(most, steps=[1, 2, 2.5, 5, 10]).tick_values(low, high)
            slack = 1e-9 * (high - low)
            return [tick for tick in found if low - slack <= tick <= high + slack]

        axes, functions = self.axes, (lambda mm: mm / MM_PER_INCH, lambda inch: inch * MM_PER_INCH)
        axes.set_xticks(ticks(x_from, x_to, 7))
        low, high = axes.get_ylim()
        axes.set_yticks(ticks(low, high, 6))
        if "x" in inches:
            top = axes.secondary_xaxis("top", functions=functions)
            top.set_xticks(ticks(x_from / MM_PER_INCH, x_to / MM_PER_INCH, 6))
            top.set_xlabel("inches", labelpad=4)
            top.grid(False)
        if "y" in inches:
            right = axes.secondary_yaxis("right", functions=functions)
            right.set_yticks(ticks(low / MM_PER_INCH, high / MM_PER_INCH, 6))
            right.grid(False)
            self._upright(y_inches, 1, self.right - LETTER, -90)
        self._upright(y_words, 0, LETTER + 1 - self.left, 90)

    def _upright(self, text, x, away, turn):
        """Words beside an upright scale, always at the same place whatever its numbers take up."""
        turned = {"rotation": turn, "rotation_mode": "anchor", "xycoords": "axes fraction"}
        self.words(x, 0.5, text, ha="center", va="baseline", by=(away, 0), **turned)


def width_of(text: str, size=LETTER) -> float:
    """How much room a line of words takes, user units; markup for letters is counted, to be safe."""
    from matplotlib.font_manager import FontProperties
    from matplotlib.textpath import text_to_path

    font = FontProperties(family=STYLE["font.family"], size=size)
    return text_to_path.get_text_width_height_descent(text, font, False)[0]


def spread(places: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Rising places moved apart to at least `gap`, within low and high, as little as may be."""
    blocks: list[list[float]] = []  # sum of wished starts, how many
    for number, place in enumerate(places):
        blocks.append([place - number * gap, 1])
        while len(blocks) > 1 and blocks[-2][0] / blocks[-2][1] > blocks[-1][0] / blocks[-1][1]:
            total, count = blocks.pop()
            blocks[-1][0] += total
            blocks[-1][1] += count
    highest = high - (len(places) - 1) * gap
    starts = [max(low, min(total / count, highest)) for total, count in blocks for _ in range(count)]
    return [start + number * gap for number, start in enumerate(starts)]


@contextmanager
def plot(
    found: list, id: str, title: str, text: str, how_to_read: str, *, height=HEIGHT, numbers=(), margins=()
):
    """A plot to draw on; when it is done, the chart is added to `found`.

    margins: left, right, bottom, top, in user units. `text` is the text alternative.
    """
    import matplotlib  # heavy: loaded only when charts are drawn
    from matplotlib.backends.backend_svg import FigureCanvasSVG
    from matplotlib.figure import Figure

    left, right, bottom, top = margins or (54, 56, 40, 36)
    with matplotlib.rc_context(STYLE | {"svg.hashsalt": id}):
        figure = Figure(figsize=(WIDTH / 72, height / 72))
        FigureCanvasSVG(figure)
        across, up = WIDTH - left - right, height - bottom - top
        axes = figure.add_axes((left / WIDTH, bottom / height, across / WIDTH, up / height))
        yield Plot(axes, across, up, left, right)
        written = io.StringIO()
        figure.savefig(written, format="svg", metadata=dict.fromkeys(("Date", "Creator", "Format", "Type")))
    svg = cleaned(written.getvalue(), id, title, text, {colour: role for role, colour in ROLES.items()})
    found.append(Chart(id, title, Markup(svg), text, how_to_read, tuple(numbers)))
