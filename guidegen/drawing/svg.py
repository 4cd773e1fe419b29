"""A very small SVG writer: short numbers, escaped words, and boxes that keep lettering apart.

One unit is one millimetre, y points down. Nothing is coloured or sized here but by class and by the
letter height `em`, which every line width in style.css follows too.
"""

import re
from html import escape
from typing import NamedTuple

NARROW = frozenset("iljtfrI.,:;'|!()[]/ ·")
WIDE = frozenset("mwMW@%—→±⌀×")
ASCENT, DESCENT = 0.78, 0.22  # of the letter height, above and below the base line
LETTER = 0.0305  # letter height over drawing width: 10 px on a phone 340 px wide
MOST_TRIES = 8
BESIDE = 14  # letter heights of lettering beside the shapes, about
BOLD = 1.08  # bold lettering is this much wider
LINE = 1.15  # from base line to base line, letter heights
LAYERS = ("thin", "thick", "centre", "dim", "force", "dot")  # later ones lie on top
HEAD_LONG, HEAD_WIDE = 0.6, 0.17  # arrowhead length and half width, in letter heights
_UNPRINTABLE = re.compile(r"[^\t\n\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def number(value: float) -> str:
    """A coordinate with at most two decimals, as short as it goes."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    if text.startswith("0."):
        return text[1:]
    if text.startswith("-0"):
        return "-" + text[2:] if text != "-0" else "0"
    return text


def safe(words: str) -> str:
    """Words fit for an element or an attribute, without what XML does not allow."""
    return escape(_UNPRINTABLE.sub("", words))


def outline(points, closed=True) -> str:
    """Path data through points (x, y)."""
    first, *rest = [f"{number(x)} {number(y)}" for x, y in points]
    return f"M{first}L{' '.join(rest)}{'Z' * closed}"


def width_of(words: str, em: float) -> float:
    """An upper estimate of how wide lettering comes out in the sans-serif faces browsers use."""
    return em * sum(0.4 if c in NARROW else 0.98 if c in WIDE else 0.64 for c in words)


class Box(NamedTuple):
    """A rectangle on the drawing that lettering keeps clear of."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other) -> bool:
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )


class Spot(NamedTuple):
    """A place where words may stand: base line, and which end of the words x is."""

    x: float
    y: float
    anchor: str = "middle"


def lettered(draw, em: float, share: float):
    """The canvas that draw(em) gives, letters at least `share` of its width high; `em`: a first guess."""
    canvas = draw(em)
    for _ in range(MOST_TRIES):
        if em >= share * canvas.width:
            break
        shapes = canvas.width - BESIDE * em  # larger letters widen the rest, shapes stay as they are
        em = max(1.01 * em, share * shapes / (1 - BESIDE * share))
        canvas = draw(em)
    return canvas


class Canvas:
    """Shapes, lines and lettering of one drawing, and how far they reach."""

    def __init__(self, prefix: str, em: float):
        self.prefix, self.em = safe(prefix), em
        self._hatches: dict[tuple[int, float], str] = {}
        self._shapes: list[str] = []
        self._lines: dict[str, list[str]] = {layer: [] for layer in LAYERS}
        self._heads: dict[str, list[str]] = {"dim": [], "force": []}
        self._circles: list[str] = []
        self._numbers: list[str] = []
        self._words: dict[tuple[str, str], list[str]] = {}
        self.boxes: list[Box] = []
        self.left = self.top = float("inf")
        self.right = self.bottom = float("-inf")

    @property
    def width(self) -> float:
        return self.right - self.left + self.em

    def reach(self, x: float, y: float):
        """Let the drawing reach to a point."""
        self.left, self.right = min(self.left, x), max(self.right, x)
        self.top, self.bottom = min(self.top, y), max(self.bottom, y)

    def hatch(self, lean: int, pitch: float) -> str:
        """A fill of lines leaning 45 degrees, `pitch` letter heights apart; lean -1 or 1."""
        name = f"{self.prefix}-h{len(self._hatches)}"
        return f"url(#{self._hatches.setdefault((lean, pitch), name)})"

    def _patterns(self):
        for (lean, pitch), name in self._hatches.items():
            step = number(pitch * self.em)
            yield (
                f'<pattern id="{name}" width="{step}" height="{step}" patternUnits="userSpaceOnUse" '
                f'patternTransform="rotate({45 * lean})"><path class="hatch" d="M0 0H{step}"/></pattern>'
            )

    def shape(self, kind: str, data: str, fill: str = ""):
        """A closed shape, painted in the order drawn."""
        paint = f' fill="{fill}"' if fill else ""
        self._shapes.append(f'<path class="{kind}"{paint} d="{data}"/>')

    def open_group(self, **marks):
        """Begin a group with data- attributes; `close_group` ends it."""
        self._shapes.append("<g" + "".join(f' data-{k}="{safe(v)}"' for k, v in marks.items()) + ">")

    def close_group(self):
        self._shapes.append("</g>")

    def line(self, layer: str, *points):
        """A line through points."""
        self._lines[layer].append(outline(points, closed=False))
        for x, y in points:
            self.reach(x, y)

    def curve(self, layer: str, data: str):
        """Ready path data in a layer."""
        self._lines[layer].append(data)

    def head(self, kind: str, x: float, y: float, dx: float, dy: float):
        """A filled arrowhead with its tip at (x, y), pointing along the unit vector (dx, dy)."""
        long, wide = HEAD_LONG * self.em, HEAD_WIDE * self.em * (1.6 if kind == "force" else 1)
        back = x - long * dx, y - long * dy
        self._heads[kind].append(
            outline(
                [
                    (x, y),
                    (back[0] - wide * dy, back[1] + wide * dx),
                    (back[0] + wide * dy, back[1] - wide * dx),
                ]
            )
        )
        self.reach(x, y)

    def balloon(self, x: float, y: float, radius: float, words: str):
        """A ring with a part number in it."""
        self._circles.append(f'<circle cx="{number(x)}" cy="{number(y)}" r="{number(radius)}"/>')
        self.boxes.append(Box(x - radius, y - radius, x + radius, y + radius))
        self.reach(x - radius, y - radius)
        self.reach(x + radius, y + radius)
        self._numbers.append(f'<text x="{number(x)}" y="{number(y)}" dy=".35em">{safe(words)}</text>')

    def box_of(self, words: str, spot: Spot, kind="label") -> Box:
        """The room that words take at a spot, several lines from the base line of the first one down."""
        lines = words.split("\n")
        wide = max(width_of(line, self.em) for line in lines) * (BOLD if kind == "force-text" else 1)
        left = spot.x - {"start": 0, "middle": wide / 2, "end": wide}[spot.anchor]
        deep = DESCENT + LINE * (len(lines) - 1)
        return Box(left, spot.y - ASCENT * self.em, left + wide, spot.y + deep * self.em)

    def keep_clear(self, left, top, right, bottom):
        """Keep later lettering out of a rectangle."""
        self.boxes.append(Box(left, top, right, bottom))

    def write(self, words: str, spot: Spot, kind="label") -> Box:
        """Words at a spot; their box is kept clear from now on."""
        box = self.box_of(words, spot, kind)
        self.boxes.append(box)
        self.reach(box.left, box.top)
        self.reach(box.right, box.bottom)
        self._put(words, spot, kind)
        return box

    def place(self, words: str, spots, kind="label") -> Box:
        """Words at the first spot where they touch nothing; below the last one when all are taken."""
        spots = list(spots)
        spot = next((s for s in spots if self._free(words, s, kind)), None)
        if spot is None:
            spot = spots[-1]
            while not self._free(words, spot, kind):
                spot = spot._replace(y=spot.y + 0.25 * self.em)
        return self.write(words, spot, kind)

    def _free(self, words, spot, kind):
        box, air = self.box_of(words, spot, kind), 0.2 * self.em
        box = box._replace(left=box.left - air, right=box.right + air)
        return not any(box.overlaps(other) for other in self.boxes)

    def _put(self, words, spot, kind):
        x = number(spot.x)
        first, *rest = map(safe, words.split("\n"))
        more = "".join(f'<tspan x="{x}" dy="{LINE}em">{line}</tspan>' for line in rest)
        self._words.setdefault((kind, spot.anchor), []).append(
            f'<text x="{x}" y="{number(spot.y)}">{first}{more}</text>'
        )

    def svg(self, kind: str, title: str, description: str = "", life_size=False) -> str:
        """The drawing as inline SVG with a text alternative; `life_size`: one unit is 1 mm on the page too.

        Without a title it is a picture beside words that say the same.
        """
        pad, name = self.em / 2, self.prefix
        corner = self.left - pad, self.top - pad
        wide, high = number(self.right + pad - corner[0]), number(self.bottom + pad - corner[1])
        box = " ".join([*map(number, corner), wide, high])
        size = f' width="{wide}mm" height="{high}mm"' if life_size else ""
        named = (
            (
                f'role="img" aria-labelledby="{name}-t {name}-d"><title id="{name}-t">{safe(title)}</title>'
                f'<desc id="{name}-d">{safe(description)}</desc>'
            )
            if title
            else 'aria-hidden="true">'
        )
        out = [
            f'<svg class="drawing {kind}"{size} viewBox="{box}" data-origin="0" {named}'
            f'<g font-size="{number(self.em)}">'
        ]
        if self._hatches:
            out += ["<defs>", *self._patterns(), "</defs>"]
        out += self._shapes
        lines = self._lines | {f"head {layer}-head": heads for layer, heads in self._heads.items()}
        out += [f'<path class="{layer}" d="{"".join(data)}"/>' for layer, data in lines.items() if data]
        if self._circles:
            numbers = "".join(self._numbers)
            out += ['<g class="balloon">', *self._circles, f'<g text-anchor="middle">{numbers}</g></g>']
        for (which, anchor), texts in self._words.items():
            out += [f'<g class="{which}" text-anchor="{anchor}">', *texts, "</g>"]
        return "".join([*out, "</g></svg>"])
