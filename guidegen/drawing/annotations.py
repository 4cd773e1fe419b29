"""Dimensions, force arrows and part numbers, laid out so that nothing covers anything else."""

from guidegen.drawing.svg import HEAD_LONG, Canvas, Spot, width_of
from guidegen.units import MM_PER_INCH

ROOM = 0.5  # beside lettering within a dimension, letter heights


def millimetres(value: float, decimals: int = 2) -> str:
    """A length with no more decimals than it needs."""
    text = f"{value:.{decimals}f}"
    return f"{text.rstrip('0').rstrip('.') if '.' in text else text} mm"


def both_units(value: float, between: str = " · ", first: str = "mm") -> str:
    """A length in millimetres and in inches, the unit `first` in front."""
    metric, inch = f"{value:.2f} mm", f"{value / MM_PER_INCH:.3f} in"
    return between.join([metric, inch] if first == "mm" else [inch, metric])


def newtons(value: float) -> str:
    """The size of a force to three figures, without its sign."""
    return f"{_three_figures(value)} N"


def newton_millimetres(value: float) -> str:
    """The size of a moment to three figures, without its sign."""
    return f"{_three_figures(value)} N·mm"


def _three_figures(value):
    size = abs(value)
    text = f"{size:.{0 if size >= 100 else 1 if size >= 10 else 2}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def dimension(canvas: Canvas, start: float, end: float, y: float, words: str, leans=("start", "end")):
    """A horizontal dimension line with its words above it.

    Where there is no room the words stand beside it, on the side tried first ("start": they start at its
    right end), and on a very short one the arrows point at it from outside.
    """
    start, end = min(start, end), max(start, end)
    em, long, middle = canvas.em, HEAD_LONG * canvas.em, (start + end) / 2
    spare = end - start - width_of(words, em) - ROOM * em
    within = end - start > 2.6 * long
    if within:
        canvas.line("dim", (start, y), (end, y))
    else:
        canvas.line("dim", (start - 2 * long, y), (end + 2 * long, y))
    for x, way in ((start, -1), (end, 1)):
        canvas.head("dim", x, y, way if within else -way, 0)
    away = 0.3 * em + (0 if within else 2 * long)
    base = y + 0.3 * em
    beside = {"start": Spot(end + away, base, "start"), "end": Spot(start - away, base, "end")}
    above = [Spot(middle + shift * spare / 2, y - 0.3 * em) for shift in (0, -1, 1)] if spare > 0 else []
    canvas.place(words, above + [beside[lean] for lean in leans], "dim-text")


def upright(canvas: Canvas, x: float, top: float, bottom: float, words: str, anchor: str, half=False):
    """An upright dimension line with its words beside it; `half`: the lower end lies in the half not cut."""
    em = canvas.em
    canvas.line("dim", (x, top), (x, 0.5 * em if half else bottom))
    canvas.head("dim", x, top, 0, -1)
    if not half:
        canvas.head("dim", x, bottom, 0, 1)
    away = 0.4 * em if anchor == "start" else -0.4 * em
    return canvas.write(words, Spot(x + away, 0.05 * em, anchor), "dim-text")


def spread(wanted, widths, gap: float, low: float, high: float):
    """Middles nearest to those wanted (ascending) at which things of these widths stand side by side.

    They keep within low … high when they fit there; else they are centred on it.
    """
    steps = [0.0]
    for before, after in zip(widths, widths[1:]):
        steps.append(steps[-1] + (before + after) / 2 + gap)
    groups = []  # [mean, count]: runs of things that touch (pool adjacent violators)
    for want, step in zip(wanted, steps):
        groups.append([want - step, 1])
        while len(groups) > 1 and groups[-2][0] > groups[-1][0]:
            mean, count = groups.pop()
            total = groups[-1][1] + count
            groups[-1] = [(groups[-1][0] * groups[-1][1] + mean * count) / total, total]
    least = low + widths[0] / 2 if widths else low
    most = high - (steps[-1] + widths[-1] / 2) if widths else high
    if least > most:
        least = most = (least + most) / 2
    starts = [min(max(mean, least), most) for mean, count in groups for _ in range(count)]
    return [start + step for start, step in zip(starts, steps)]
