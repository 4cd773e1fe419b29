"""The unit that a part was made in, and its sizes as people say them in that unit."""

from math import ceil, floor

from guidegen.joint.inputs import METRIC_BORES
from guidegen.kit.records import Record
from guidegen.units import MM_PER_INCH, Band

SAME = 1e-7  # of the unit; two numbers nearer than this are the same
MOST_DECIMALS = 6
FRACTIONS = (1, 2, 4, 8, 16, 32, 64)  # parts of an inch that people say
GRIDS = {"mm": 0.01, "in": 0.0005 * MM_PER_INCH}  # mm; limits are written in multiples of one of them


def unit_of(record: Record) -> str:
    """mm or in: the unit in which the sizes of a part or sheet are round numbers."""
    if nominal := getattr(record, "nominal", None):
        return "mm" if _on_grid(nominal, METRIC_BORES) else "in"
    if name := getattr(record, "thread", ""):
        return "mm" if name.startswith("M") else "in"
    ends = [end for band in _bands(record) for end in (band.least, band.most)]
    fitting = {unit: sum(_on_grid(end, step) for end in ends) for unit, step in GRIDS.items()}
    return max(fitting, key=fitting.get)


def round_size(band: Band, unit: str) -> str:
    """The roundest number within limits, the nearest to their middle of those: "8 mm", "1-1/4 in"."""
    if unit == "in":
        for parts in FRACTIONS:
            if found := _within(band, MM_PER_INCH / parts):
                return inches(found)
    for decimals in range(MOST_DECIMALS):
        scale = (1.0 if unit == "mm" else MM_PER_INCH) / 10**decimals
        if found := _within(band, scale):
            return f"{found / scale / 10**decimals:.{decimals}f} {unit}"
    return f"{band.typical:g} mm"


def said_size(mm: float, unit: str) -> str:
    """An exact size in a unit, inches as a fraction where they are one."""
    return inches(mm) if unit == "in" else f"{mm:.6g} mm"


def inches(mm: float) -> str:
    """A length in inches, "1-1/4 in"; with decimals when it is no 64th."""
    size = mm / MM_PER_INCH
    for parts in FRACTIONS:
        count = round(size * parts)
        if abs(size * parts - count) < parts * SAME:
            whole, rest = divmod(count, parts)
            fraction = f"{rest}/{parts}" if rest else ""
            return "-".join(filter(None, [str(whole) if whole else "", fraction])) + " in"
    return f"{size:.4g} in"


def _within(band, step):
    """The multiple of a step within limits that is nearest to their middle; None where there is none."""
    nearest = round(band.typical / step)
    least, most = ceil(band.least / step - SAME), floor(band.most / step + SAME)
    if least > most or most <= 0:
        return None
    return min(max(nearest, least, 1), most) * step


def _on_grid(size, step):
    return abs(size / step - round(size / step)) < 1e-5


def _bands(record):
    values = (getattr(record, column) for column in type(record).model_fields)
    return [value for value in values if isinstance(value, Band)]
