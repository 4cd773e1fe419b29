"""Charts in one style, as SVG that follows the page: classes for colours, text that stays text.

Matplotlib lays a chart out; what it writes is then stripped of styles, fonts, colours and unused names,
so that the page's own style sheet decides how it looks, on light ground, on dark, and on paper.
"""

import io
import re
from contextlib import contextmanager
from html import escape
from typing import NamedTuple

from markupsafe import Markup

from guidegen.units import MM_PER_INCH

# Colours that matplotlib draws with stand for roles; the style sheet says what they look like.
ROLES = {
    "ink": "#000001",
    "faint": "#000002",
    "a": "#000003",
    "b": "#000004",
    "c": "#000005",
    "d": "#000006",
    "e": "#000007",
    "limit": "#000008",
    "paper": "#fffffe",
}
SIZE = (4.7, 3.7)  # inches; letters are then a readable size on a phone
MARGINS = (0.14, 0.84, 0.13, 0.87)
_CLASS = {colour: role for role, colour in ROLES.items()}
_KEPT = {
    "stroke-width",
    "stroke-dasharray",
    "stroke-dashoffset",
    "stroke-linecap",
    "stroke-linejoin",
    "opacity",
    "fill-opacity",
    "stroke-opacity",
    "text-anchor",
    "font-weight",
    "font-style",
}
_STYLE = re.compile(r' style="([^"]*)"')
_PLACES = re.compile(r'(?<= )(?:d|x|y|transform|width|height)="[^"]*"')
_DECIMALS = re.compile(r"-?\d+\.\d{2,}")
_NOTHING = re.compile(r'<path d="[^"]*" fill="none"/>|<g/>|<g>\s*</g>| transform="rotate\(-?0 [^"]*"')
STYLE = {
    "svg.fonttype": "none",
    "font.family": "sans-serif",
    "font.size": 9.5,
    "axes.titlesize": 9.5,
    "axes.edgecolor": ROLES["ink"],
    "axes.labelcolor": ROLES["ink"],
    "text.color": ROLES["ink"],
    "xtick.color": ROLES["ink"],
    "ytick.color": ROLES["ink"],
    "axes.facecolor": "none",
    "figure.facecolor": "none",
    "axes.linewidth": 0.8,
    "lines.linewidth": 1.8,
    "hatch.linewidth": 0.7,
    "hatch.color": ROLES["ink"],
    "axes.grid": True,
    "grid.color": ROLES["faint"],
    "grid.linewidth": 0.5,
    "axes.axisbelow": True,
    "legend.frameon": False,
    "path.simplify": True,
    "axes.unicode_minus": True,
}


class Figure(NamedTuple):
    """A chart ready for a page; `says` is what it shows, also for a reader who does not see it."""

    name: str
    title: str
    svg: Markup
    says: str
    rows: tuple[tuple[str, ...], ...] = ()  # the same in numbers, headings first, where words would be many


class Chart:
    """A chart being drawn: its axes, and its SVG when it is done."""

    def __init__(self, name: str, figure, axes):
        self.name, self.figure, self.axes = name, figure, axes
        self.svg = ""

    def inches_too(self, y_label="in"):
        """Put inch scales opposite the millimetre ones."""
        scale = (lambda mm: mm / MM_PER_INCH, lambda inch: inch * MM_PER_INCH)
        top = self.axes.secondary_xaxis("top", functions=scale)
        top.set_xlabel("in", labelpad=3)
        right = self.axes.secondary_yaxis("right", functions=scale)
        right.set_ylabel(y_label, labelpad=4)
        for axis in (top, right):
            axis.grid(False)


@contextmanager
def chart(name: str, title: str, says: str, size=SIZE, margins=MARGINS):
    """A chart to draw on; `title` and `says` are its text alternative. Afterwards `.svg` holds it.

    `name` begins every id inside, so that several charts can stand on one page. Without `margins`
    (left, right, bottom, top, as shares of the size) they are found from the lettering, which takes longer.
    """
    import matplotlib  # heavy: loaded only when charts are drawn
    from matplotlib.backends.backend_svg import FigureCanvasSVG
    from matplotlib.figure import Figure

    with matplotlib.rc_context(STYLE | {"svg.hashsalt": name}):
        figure = Figure(figsize=size, layout=None if margins else "constrained")
        if margins:
            figure.subplots_adjust(**dict(zip(("left", "right", "bottom", "top"), margins)))
        FigureCanvasSVG(figure)
        drawn = Chart(name, figure, figure.add_subplot())
        yield drawn
        written = io.StringIO()
        figure.savefig(
            written, format="svg", metadata={"Date": None, "Creator": None, "Format": None, "Type": None}
        )
    drawn.svg = _cleaned(written.getvalue(), name, title, says)


def _cleaned(svg: str, name: str, title: str, says: str) -> str:
    """The SVG without what belongs to a document of its own, with its text alternative."""
    box = re.search(r'viewBox="([^"]*)"', svg)[1]
    inside = svg[svg.index(">", svg.index("<svg")) + 1 : svg.rindex("</svg>")]
    inside = re.sub(
        r"<metadata>.*?</metadata>|<style[^>]*>.*?</style>|<!--.*?-->", "", inside, flags=re.DOTALL
    )
    inside = re.sub(r"<defs>\s*</defs>", "", inside).replace("xlink:href", "href")
    inside = _STYLE.sub(lambda found: _attributes(found[1]), inside)
    inside = _PLACES.sub(lambda found: _DECIMALS.sub(_rounded, found[0]).replace(' "', '"'), inside)
    inside = _named(inside, name)
    inside = re.sub(r"\s*\n\s*", " ", re.sub(r">\s+<", "><", inside)).strip()
    for _ in range(3):  # an empty group may stand in an empty group
        inside = re.sub(
            r"<g>(<(?:path|use|text)[^>]*/>|<text[^>]*>[^<]*</text>)</g>", r"\1", _NOTHING.sub("", inside)
        )
    return (
        f'<svg class="chart" viewBox="{box}" role="img" aria-labelledby="{name}-t {name}-d">'
        f'<title id="{name}-t">{escape(title)}</title><desc id="{name}-d">{escape(says)}</desc>{inside}</svg>'
    )


def _rounded(found):
    """A coordinate to a tenth of a point."""
    return f"{float(found[0]):.1f}".removesuffix(".0")


def _attributes(style: str) -> str:
    """Presentation attributes and classes in place of a style; fonts are the page's own."""
    classes, attributes = [], []
    for item in filter(None, map(str.strip, style.split(";"))):
        key, value = (part.strip() for part in item.split(":", 1))
        if key in ("fill", "stroke") and value in _CLASS:
            classes.append(f"{key}-{_CLASS[value]}")
        elif key in ("fill", "stroke"):
            attributes.append(f'{key}="{value}"')
        elif key in _KEPT:
            attributes.append(f'{key}="{value}"')
        elif key in ("font", "font-size"):
            attributes.append(f'font-size="{re.search(r"[0-9.]+(?=px)", value)[0]}"')
    return "".join([f' class="{" ".join(classes)}"' if classes else "", *(f" {text}" for text in attributes)])


def _named(inside: str, name: str) -> str:
    """Only names that something refers to, each beginning with the chart's own."""
    used = set(re.findall(r'url\(#([^)]+)\)|href="#([^"]+)"', inside))
    used = {one or other for one, other in used}
    inside = re.sub(
        r' id="([^"]*)"', lambda found: f' id="{name}-{found[1]}"' if found[1] in used else "", inside
    )
    inside = re.sub(r"url\(#([^)]+)\)", rf"url(#{name}-\1)", inside)
    return re.sub(r'href="#([^"]+)"', rf'href="#{name}-\1"', inside)
