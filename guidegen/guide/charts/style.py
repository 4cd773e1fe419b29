"""The one style of all charts: size, lettering, lines, and the roles that colours play.

Matplotlib lays a chart out in colours that only stand for roles; `svg_clean` turns them into classes, and
style.css says what they look like on light ground, on dark and on paper.
"""

import io
from contextlib import contextmanager
from dataclasses import dataclass
from functools import cache
from math import ceil, floor, log10
from typing import NamedTuple, Sequence

from markupsafe import Markup

from guidegen.guide.charts.svg_clean import cleaned
from guidegen.guide.measures import INCH_UNITS
from guidegen.numbers import MINUS
from guidegen.units import MM_PER_INCH

WIDTH, HEIGHT = 380, 290  # user units: about the pixels of a phone, so that letters stay readable there
TALL = 330  # for charts with many lines
LETTER = 11
LINE_GAP = 12.5  # between lines of words
LEAD = 14  # from the end of a line to the words about it
ROOM = LEAD + 9  # what they take beside their own width
SAMPLE = 26  # a piece of a line in the key under a chart
THICK = 2.0  # that piece
KEY_LINE = 15  # between rows of that key
KEY = 18  # along the top, for what the markers are
LIMIT = {"linestyle": (0, (9, 3)), "linewidth": 1.6}  # a level that is not to be passed
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
    "text.color": ROLES["ink"],
    "figure.facecolor": "none",
    "patch.facecolor": ROLES["ink"],  # a colour of the cycle would be looked up again and again
    "figure.dpi": 72,
    "lines.linewidth": 1.8,
    "lines.markersize": 6,
    "hatch.linewidth": 0.7,
    "hatch.color": ROLES["ink"],
}
TICK = 3.5  # length of a tick
MARGINS = 54, 56, 40, 36  # left, right, bottom, top


class Other(NamedTuple):
    """The unit of the scale opposite: its words, and how much of the first unit one of it is."""

    words: str
    factor: float


INCHES = Other("inches", MM_PER_INCH)
THOUSANDTHS_OF_INCH = Other("1/1000 inch", MM_PER_INCH)
POUNDS = Other("pounds-force, lbf", 1 / INCH_UNITS["N"][1])
KSI = Other("1000 lbf/in², ksi", 1 / INCH_UNITS["MPa"][1])
FEET_A_MINUTE = Other("feet a minute", 1 / INCH_UNITS["m/s"][1])


@dataclass(frozen=True)
class Chart:
    """A chart ready for a page. `svg` stands in it as it is; `how_to_read` and `to_see` belong beside it."""

    id: str
    title: str
    svg: Markup
    text_alternative: str  # also within the svg
    how_to_read: str
    to_see: str  # the one thing it shows
    numbers: tuple[tuple[str, ...], ...] = ()  # the same as a table, headings first, for charts of bars


class Told(NamedTuple):
    """What a chart says: its title, a text alternative, how it is read, and the one thing to see in it."""

    title: str
    text: str
    how: str
    see: str


class Entry(NamedTuple):
    """A line in the key under a chart: number or role, its words, whether it has a marker."""

    role: object
    text: str
    marked: bool = True


class End(NamedTuple):
    """Where a line ends, in data, and what is written beside it."""

    x: float
    y: float
    text: str
    role: object


class Plot:
    """A chart while it is drawn: matplotlib's axes without their own scales, and what all charts do."""

    def __init__(self, axes, width: float, height: float, margins):
        self.axes, self.width, self.height = axes, width, height  # of the axes, user units
        self.left, self.right, self.bottom, self.top = margins

    def line(self, number: int, x, y, **more):
        """A line in its own colour and dashes."""
        self.axes.plot(x, y, **({"color": ROLES[number], "linestyle": DASHES[number]} | more))

    def markers(self, number: int, x, y, hollow=False, **more):
        """Markers of a line, full or hollow."""
        fill = "none" if hollow else ROLES[number]
        more |= {"markerfacecolor": fill, "markeredgewidth": 1.4, "clip_on": False}
        self.axes.plot(x, y, MARKERS[number], color=ROLES[number], **more)

    def level(self, y, x_from, x_to, role, **more):
        """A level line."""
        self.axes.plot([x_from, x_to], [y, y], color=ROLES[role], **more)

    def upright(self, x, y_from, y_to, role, **more):
        """A line straight up."""
        self.axes.plot([x, x], [y_from, y_to], color=ROLES[role], **more)

    def zone(self, x_from, x_to):
        """A shaded part of the ground, from bottom to top."""
        self.axes.axvspan(x_from, x_to, color=ROLES["zone"], linewidth=0, zorder=0)

    def band(self, x, low, high, opacity, role="band"):
        """What lies between two lines, shaded."""
        self.axes.fill_between(x, low, high, color=ROLES[role], alpha=opacity, linewidth=0)

    def words(self, x, y, text, role="ink", ha="left", va="center_baseline", size=LETTER, by=(0, 0), **more):
        """One line of words at a place of the axes, or `by` user units away from it."""
        more |= {"textcoords": "offset points", "annotation_clip": False}
        self.axes.annotate(text, (x, y), xytext=by, ha=ha, va=va, color=ROLES[role], fontsize=size, **more)

    def at(self, x, y) -> tuple[float, float]:
        """A place in data, in user units from the lower left corner of the axes."""
        across, up = self.axes.transAxes.inverted().transform(self.axes.transData.transform((x, y)))
        return float(across) * self.width, float(up) * self.height

    def label_ends(self, ends: Sequence[End], clear=0):
        """Words beside the ends of lines, in one column; moved apart, with a thin line leading to each.

        clear: user units to be left free along the top.
        """
        places = {id(end): self.at(end.x, end.y) for end in ends}
        column = max(across for across, _ in places.values())
        ends = sorted(ends, key=lambda end: places[id(end)][1])
        wished, highest = [places[id(end)][1] for end in ends], self.height - clear - LETTER / 2
        for end, high in zip(ends, spread(wished, LINE_GAP, LETTER / 2 + 2, highest)):
            across, up = places[id(end)]
            self.axes.plot(
                [x / self.width for x in (across, across + 2, column + LEAD - 8, column + LEAD)],
                [y / self.height for y in (up, up, high, high)],
                color=ROLES[end.role],
                linewidth=0.6,
                transform=self.axes.transAxes,
                clip_on=False,
            )
            beside = (column + LEAD) / self.width, high / self.height
            self.words(*beside, end.text, end.role, by=(2, 0), xycoords="axes fraction")

    def tell_markers(self, keys: Sequence[tuple[int, bool, str]], at=10.0):
        """What markers are, (number, hollow, words) each, in one line along the top of the axes."""
        high, fraction = 1 - KEY / 2 / self.height, self.axes.transAxes
        for number, hollow, text in keys:
            self.markers(number, [at / self.width], [high], hollow, transform=fraction)
            self.words(at / self.width, high, text, by=(7, 0), xycoords="axes fraction")
            at += 24 + width_of(text)

    def tell_lines(self, rows: Sequence[Sequence[Entry]]):
        """What lines are, each with a piece of it, in rows under the chart."""
        low = -self.bottom / self.height
        for n, row in enumerate(rows):
            high, at = low - (n + 0.5) * KEY_LINE / self.height, 0.0
            for entry in row:
                begin, middle, end = ((at - self.left + x) / self.width for x in (0, SAMPLE / 2, SAMPLE))
                self.axes.plot(
                    [begin, end],
                    [high, high],
                    color=ROLES[entry.role],
                    linestyle=DASHES.get(entry.role, LIMIT["linestyle"]),
                    linewidth=THICK if entry.role in DASHES else LIMIT["linewidth"],
                    transform=self.axes.transAxes,
                    clip_on=False,
                )
                if entry.marked and entry.role in MARKERS:
                    self.markers(entry.role, [middle], [high], transform=self.axes.transAxes)
                self.words(end, high, entry.text, entry.role, by=(5, 0), xycoords="axes fraction")
                at += _entry_width(entry)

    def label_levels(self, levels: Sequence[tuple[float, str, object]], x: float):
        """Words on level lines, (height in data, words, role) each, at their right end `x`.

        They stand over their line; under it where the words of the next line above would be too near.
        """
        above = float("inf")
        for y, text, role in sorted(levels, key=lambda level: -level[0]):
            up = 8 if above - self.at(x, y)[1] > 2 * LINE_GAP else -8
            self.words(x, y, text, role, ha="right", by=(-4, up))
            above = self.at(x, y)[1]

    def across(self, words: str, low: float, high: float, other: Other | None = None):
        """The scale along the bottom, numbers from `low` to `high`, and its other unit along the top."""
        self._scale(0, low, high, 1.0)
        self.words(
            0.5, 0, words, ha="center", va="baseline", by=(0, 5 - self.bottom), xycoords="axes fraction"
        )
        if other:
            self._scale(0, low, high, other.factor, far=True)
            above = (0, self.top - LETTER + 1)
            self.words(0.5, 1, other.words, ha="center", va="baseline", by=above, xycoords="axes fraction")

    def up(self, words: str, other: Other | None = None, high: float | None = None):
        """The scale on the left, over the whole height or up to `high`; its other unit on the right."""
        bottom, top = self.axes.get_ylim()
        top = top if high is None else high
        self._scale(1, bottom, top, 1.0)
        self._turned(words, 0, LETTER + 1 - self.left, 90)
        if other:
            self._scale(1, bottom, top, other.factor, far=True)
            self._turned(other.words, 1, self.right - LETTER, -90)

    def frame(self):
        """The rectangle round the axes."""
        self.axes.plot(
            [0, 1, 1, 0, 0],
            [0, 0, 1, 1, 0],
            color=ROLES["ink"],
            linewidth=0.8,
            transform=self.axes.transAxes,
            clip_on=False,
            zorder=3,
        )

    def _scale(self, upright, low, high, factor, far=False):
        """Ticks and their numbers on one side; on the near sides with the grid that goes with them."""
        edge = self.width if upright else self.height
        numbers, places = self._apart(upright, low / factor, high / factor, factor)
        outward = 1 + TICK / edge if far else -TICK / edge
        self._strokes(upright, places, float(far), outward, "ink", 0.8)
        if not far:
            inside = [place for place in places if 1e-3 < place < 1 - 1e-3]
            self._strokes(upright, inside, 0.0, 1.0, "grid", 0.5)
        away = (1 if far else -1) * (TICK + (3 if upright else 8))
        for number, place in zip(numbers, places):
            x, y = (float(far), place) if upright else (place, float(far))
            ha = ("left" if far else "right") if upright else "center"
            by = (away, 0) if upright else (0, away)
            self.words(x, y, tick_words(number), ha=ha, by=by, xycoords="axes fraction")

    def _apart(self, upright, low, high, factor):
        """Round numbers and their places, as shares of the side, as many as stand apart."""
        size = self.height if upright else self.width
        logarithmic = (self.axes.get_yscale() if upright else self.axes.get_xscale()) == "log"
        for most in range(6 if upright else 7, 2, -1):
            numbers = ticks(low, high, most, logarithmic)
            places = [self.at(*(x * factor,) * 2)[upright] for x in numbers]
            halves = [LINE_GAP / 2 if upright else width_of(tick_words(x)) / 2 + 2.5 for x in numbers]
            spans = list(zip(places, halves))
            if all(b - a >= room + other for (a, room), (b, other) in zip(spans, spans[1:])):
                break
        return numbers, [place / size for place in places]

    def _strokes(self, upright, places, begin, end, role, width):
        """Short lines square to a side, drawn as one."""
        along = [x for place in places for x in (place, place, float("nan"))]
        square = [begin, end, float("nan")] * len(places)
        x, y = (square, along) if upright else (along, square)
        self.axes.plot(
            x, y, color=ROLES[role], linewidth=width, transform=self.axes.transAxes, clip_on=False, zorder=0.5
        )

    def _turned(self, text, x, away, turn):
        """Words beside an upright scale, always at the same place whatever its numbers take up."""
        turned = {"rotation": turn, "rotation_mode": "anchor", "xycoords": "axes fraction"}
        self.words(x, 0.5, text, ha="center", va="baseline", by=(away, 0), **turned)


def ticks(low: float, high: float, most: int, logarithmic=False) -> list[float]:
    """Round numbers between two values, about `most` of them; by ratio 1, 2, 5, or powers of ten."""
    if logarithmic:
        decades = range(floor(log10(low)), ceil(log10(high)) + 1)
        for digits in ((1, 2, 5), (1,)):
            found = [digit * 10.0**power for power in decades for digit in digits]
            found = [x for x in found if low * (1 - 1e-9) <= x <= high * (1 + 1e-9)]
            if len(found) <= most:
                return found
        return found[:: ceil(len(found) / most)]
    from matplotlib.ticker import MaxNLocator

    slack = 1e-9 * (high - low)
    found = MaxNLocator(most, steps=[1, 2, 2.5, 5, 10]).tick_values(low, high)
    return [float(x) for x in found if low - slack <= x <= high + slack]


def tick_words(x: float) -> str:
    """A number at a tick; a large power of ten as such, to be short."""
    if x >= 1e4 and (power := round(log10(x), 9)).is_integer():
        return "10" + "".join("⁰¹²³⁴⁵⁶⁷⁸⁹"[int(digit)] for digit in f"{power:.0f}")
    return f"{round(x, 10):.10g}".replace("-", MINUS)


@cache
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
    found: list, id: str, told: Told, *, height=HEIGHT, numbers=(), margins=(), key: Sequence[Entry] = ()
):
    """A plot to draw on; when it is done, the chart is added to `found`.

    margins: left, right, bottom, top, in user units. key: lines that are told under the chart, which grows.
    """
    import matplotlib  # heavy: loaded only when charts are drawn
    from matplotlib.backends.backend_svg import FigureCanvasSVG
    from matplotlib.figure import Figure

    left, right, bottom, top = margins or MARGINS
    rows = key_rows(key)
    under = KEY_LINE * len(rows)
    with matplotlib.rc_context(STYLE | {"svg.hashsalt": id}):
        figure = Figure(figsize=(WIDTH / 72, (height + under) / 72))
        FigureCanvasSVG(figure)
        across, up = WIDTH - left - right, height - bottom - top
        whole = height + under
        axes = figure.add_axes((left / WIDTH, (bottom + under) / whole, across / WIDTH, up / whole))
        axes.set_axis_off()
        drawn = Plot(axes, across, up, (left, right, bottom, top))
        yield drawn
        drawn.tell_lines(rows)
        written = io.StringIO()
        figure.savefig(written, format="svg", metadata=dict.fromkeys(("Date", "Creator", "Format", "Type")))
    roles = {colour: role for role, colour in ROLES.items()}
    svg = Markup(cleaned(written.getvalue(), id, told.title, told.text, roles))
    found.append(Chart(id, told.title, svg, told.text, told.how, told.see, tuple(numbers)))


def key_rows(entries: Sequence[Entry]) -> list[list[Entry]]:
    """The lines of a key in rows that fit."""
    rows: list[list[Entry]] = []
    for entry in entries:
        if not rows or sum(map(_entry_width, (*rows[-1], entry))) > WIDTH:
            rows.append([])
        rows[-1].append(entry)
    return rows


def _entry_width(entry: Entry) -> float:
    return SAMPLE + 5 + width_of(entry.text) + 14
