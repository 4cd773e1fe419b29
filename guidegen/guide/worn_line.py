"""The figure of bushes that wear: wobble at the arm against cycles, and what is wanted."""

from bisect import bisect
from dataclasses import dataclass
from math import floor, inf, log10
from typing import Iterator, Mapping, NamedTuple

from markupsafe import Markup

from guidegen.drawing.svg import number, safe
from guidegen.guide.charts.style import spread
from guidegen.guide.measures import Measures
from guidegen.joint.records import Result
from guidegen.joint.wear import DECADES
from guidegen.numbers import said, show_number
from guidegen.units import MM_PER_INCH, Band

WIDTH, HEIGHT = 380, 236  # user units, as the charts
LEFT, RIGHT, TOP, FOOT = 46, 334, 24, 194  # of the plot
LINE_GAP = 12.5  # between lines of words
FLAT = 0.15  # user units by which a bend must show
EACH = (1, 1.5, 2, 3, 4, 5, 6, 8)  # places within a decade at which the curves are drawn
CUT = 3.0  # times the larger of what is wanted and what is there when new: where the scale ends at the latest
STEPS = (1, 2, 2.5, 5, 10)
MOST_TICKS = 5
RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


@dataclass(frozen=True)
class Worn:
    """Wobble at the arm after so many cycles, mm, and the names of the quantities that say so."""

    cycles: Mapping[str, float]
    travel: Mapping[str, Band]

    def at(self, end: str) -> list[tuple[float, float]]:
        """(cycles, travel) along one end of the band: wear grows evenly from each point to the next."""
        points = [(count, getattr(self.travel[name], end)) for name, count in self.cycles.items()]
        return [points[0], *_between(points)]


class Figure(NamedTuple):
    """The drawing, and what it shows in a sentence below it."""

    svg: Markup
    says: str


def worn_of(result: Result) -> Worn | None:
    """What is known of the worn joint; None where nothing wears."""
    decades = {f"arm_play_1e{power}": 10.0**power for power in DECADES}
    known = {name: count for name, count in decades.items() if name in result.quantities}
    if not known:
        return None
    cycles = {"arm_play": 0.0, **known}
    return Worn(cycles, {name: result.quantities[name].band for name in cycles})


def worn_line(worn: Worn, wanted: float, cycles_wanted: float | None, measures: Measures) -> Figure:
    """Band, typical line, wanted wobble and wanted cycles, in words too. Lengths mm."""
    top = _top(worn, wanted)
    title = "Wobble at the arm against cycles"
    text = safe(_text(worn, wanted, cycles_wanted, measures))
    parts = [
        f'<title id="worn-t">{title}</title><desc id="worn-d">{text}</desc>',
        f'<clipPath id="worn-c"><path d="M{LEFT} {TOP}H{RIGHT}V{FOOT}H{LEFT}z"/></clipPath>',
        *_scales(top),
        *_curves(worn, top),
        *_wanted(wanted, cycles_wanted, top),
        *_labels(worn, wanted, top),
    ]
    svg = (
        f'<svg class="chart worn" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" aria-labelledby="worn-t worn-d" '
        f'fill="currentColor" font-size="11">{"".join(parts)}</svg>'
    )
    says, last = "Shaded: all parts and wear rates within their limits.", list(worn.cycles.values())[-1]
    if last < 10 ** DECADES[-1]:
        says += f" Beyond {said(last, '-')} cycles a bush would be worn through."
    return Figure(Markup(svg), says)


def across(cycles: float) -> float:
    """Where a number of cycles stands along the axis: none at its beginning, then by powers of ten."""
    slots = len(DECADES)
    first = DECADES[0]
    place = log10(cycles) - first + 1 if cycles >= 10**first else cycles / 10**first
    return LEFT + (RIGHT - LEFT) * place / slots


def _up(mm, top):
    return FOOT - (FOOT - TOP) * mm / top


def _top(worn, wanted):
    """The end of the scale of wobble: all there is, but not much more than is wanted or there when new."""
    most = [band.most for band in worn.travel.values()]
    return 1.12 * max(min(max(most), CUT * max(wanted, most[0])), wanted)


def _between(points) -> Iterator[tuple[float, float]]:
    """Points along even growth, closer where an axis by powers of ten bends them."""
    for (n, y), (m, z) in zip(points, points[1:]):
        for k in EACH[1:] if n else ():
            yield k * n, y + (z - y) * (k * n - n) / (m - n)
        yield m, z


def _curves(worn, top):
    least, typical, most = (worn.at(end) for end in ("least", "typical", "most"))
    band = _path([*most, *reversed(least)], top)
    yield f'<g clip-path="url(#worn-c)"><path class="chart-fill-band" fill-opacity=".2" d="{band}z"/>'
    yield f'<path class="chart-line-1" fill="none" stroke-width="2" d="{_path(typical, top)}"/>'
    dots = [(across(n), _up(worn.travel[name].typical, top)) for name, n in worn.cycles.items()]
    marked = " ".join(f"M{number(x)} {number(y)}h0" for x, y in dots)
    yield f'<path class="chart-line-1 dots" stroke-width="6" stroke-linecap="round" d="{marked}"/></g>'


def _path(points, top):
    places = [(across(n), _up(y, top)) for n, y in points]
    kept = [places[0]]
    for place, after in zip(places[1:], places[2:]):
        if _off(place, kept[-1], after) > FLAT:
            kept.append(place)
    return "M" + " ".join(f"{number(x)} {number(y)}" for x, y in (*kept, places[-1]))


def _off(place, before, after):
    """How far a place lies above or below the straight line between two others."""
    if after[0] == before[0]:
        return inf
    share = (place[0] - before[0]) / (after[0] - before[0])
    return abs(place[1] - before[1] - share * (after[1] - before[1]))


def _wanted(wanted, cycles_wanted, top):
    y = number(_up(wanted, top))
    yield f'<path class="chart-line-2" stroke-width="1.6" stroke-dasharray="6 2.5" d="M{LEFT} {y}H{RIGHT}"/>'
    if cycles_wanted and cycles_wanted <= 10 ** DECADES[-1]:
        x = across(cycles_wanted)
        at, anchor = (x - 4, "end") if x > (LEFT + RIGHT) / 2 else (x + 4, "start")
        yield f'<path stroke="currentColor" stroke-dasharray="2 2" d="M{number(x)} {TOP}V{FOOT}"/>'
        yield word(at, FOOT - 5, f"{said(cycles_wanted, '-')} cycles wanted", anchor)


def _labels(worn, wanted, top):
    """Words on the lines at their beginning, kept apart."""
    new = worn.travel["arm_play"]
    told = [(new.most, "at most", ""), (new.typical, "typical", "1"), (wanted, "wanted", "2")]
    placed = sorted((min(_up(y, top), FOOT) - 4, words, role) for y, words, role in told)
    heights = spread([y for y, *_ in placed], LINE_GAP, TOP + 9, FOOT - 18)
    for y, (_, words, role) in zip(heights, placed):
        yield word(LEFT + 8, y, words, role=role)


def _scales(top):
    """Axes with their ticks: millimetres on the left, inches on the right, cycles along the foot."""
    marks = [f"M{LEFT} {TOP}V{FOOT}H{RIGHT}V{TOP}"]
    words = [word(2, 12, "wobble, mm"), word(WIDTH - 2, 12, "inches", "end")]
    for side, per, out in ((LEFT, 1.0, -1), (RIGHT, MM_PER_INCH, 1)):
        ticks = [(_up(tick * per, top), show_number(tick)) for tick in round_ticks(top / per)]
        marks += [f"M{side} {number(y)}h{4 * out}" for y, _ in ticks]
        placed = "".join(word(side + 6 * out, y + 4, said) for y, said in ticks)
        words.append(f'<g text-anchor="end">{placed}</g>' if out < 0 else placed)
    places = [(0.0, "0"), *((10.0**power, "10" + str(power).translate(RAISED)) for power in DECADES)]
    marks += [f"M{number(across(cycles))} {FOOT}v4" for cycles, _ in places]
    along = "".join(word(across(cycles), FOOT + 17, said) for cycles, said in places)
    words.append(f'<g text-anchor="middle">{along}{word((LEFT + RIGHT) / 2, HEIGHT - 6, "cycles")}</g>')
    yield f'<path stroke="currentColor" fill="none" d="{"".join(marks)}"/>'
    yield from words


def word(x, y, words, anchor="start", role=""):
    """A line of words, in the colour of the line it belongs to."""
    more = f' text-anchor="{anchor}"' * (anchor != "start") + f' class="chart-fill-{role}"' * bool(role)
    return f'<text x="{number(x)}" y="{number(y)}"{more}>{words}</text>'


def round_ticks(top):
    """Round numbers from nought to the end of a scale."""
    rough = top / MOST_TICKS
    size = 10.0 ** floor(log10(rough))
    step = size * STEPS[bisect(STEPS, rough / size - 1e-9)] if rough / size <= STEPS[-1] else 10 * size
    return [n * step for n in range(int(top / step + 1e-9) + 1)]


def _text(worn, wanted, cycles_wanted, measures):
    """The figure in words, with its numbers."""
    names = list(worn.cycles)
    new, last = worn.travel[names[0]], worn.travel[names[-1]]

    def value(mm):
        return measures.value(mm, "mm", 2).line

    text = (
        f"New, the arm tip travels typically {value(new.typical)}, at most {value(new.most)}; "
        f"after {said(worn.cycles[names[-1]], '-')} cycles typically {value(last.typical)}, "
        f"at most {value(last.most)}. "
        f"Wanted: at most {value(wanted)}"
    )
    return text + (f", for {said(cycles_wanted, '-')} cycles." if cycles_wanted else ".")
