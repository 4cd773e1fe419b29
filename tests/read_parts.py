"""The parts of a course read a second way: straight from the CSV cells, by classes of independent packages."""

import csv
import re
from functools import cache
from pathlib import Path

import isofits
from pressfit import fit

INCH = 25.4
NUMBER = r"[-+]?(?:\d+\s+\d+/\d+|\d+/\d+|\d*\.?\d+)"
GRADES = {  # IT13 and IT14, micrometres, over 0, 3, 6, 10, 18, 30 mm (ISO 286-1 Table 1, from memory)
    13: (140, 180, 220, 270, 330, 390),
    14: (250, 300, 360, 430, 520, 620),
}
BOUNDS = (3, 6, 10, 18, 30, 50)


def number(text):
    """A number as a spreadsheet has it: 3, 0.5, 5/16."""
    whole, _, fraction = text.strip().rpartition(" ")
    top, _, bottom = fraction.partition("/")
    return float(whole or 0) + (float(top) / float(bottom) if bottom else float(fraction))


def of_class(size, name):
    """Lower and upper deviation of an ISO 286 class, mm, as the isofits package prints it, else pressfit."""
    table = isofits.hole_data if name[0].isupper() else isofits.shaft_data
    grade = int(re.search(r"\d+", name)[0])
    if grade in GRADES:
        width = GRADES[grade][sum(size > bound for bound in BOUNDS)] / 1000
        letter = name.rstrip("0123456789")
        return {"H": (0, width), "h": (-width, 0), "js": (-width / 2, width / 2)}[letter]
    if name not in table:
        found = fit(f"H7/{name}", size)
        return found.shaft_ei_um / 1000, found.shaft_es_um / 1000
    for over, to, cell in zip(table["over"], table["inc."], table[name]):
        if float(over) < size <= float(to):
            upper, lower = (float(end) / 1000 for end in cell.split("\n"))
            return lower, upper
    raise KeyError((size, name))


def limits(cell, unit):
    """(least, most) of a size cell, mm; (x, x) for a plain number."""
    factor = INCH if cell.endswith(" in") or " in " in cell or (unit == "in" and " mm" not in cell) else 1.0
    text = re.sub(r"\s*(mm|in)\b", "", cell).strip()
    if match := re.fullmatch(rf"({NUMBER})\s*([A-Za-z]+\d+)", text):
        lower, upper = of_class(number(match[1]), match[2])
        return number(match[1]) + lower, number(match[1]) + upper
    if match := re.fullmatch(rf"({NUMBER}) to ({NUMBER})", text):
        ends = number(match[1]), number(match[2])
    elif match := re.fullmatch(rf"({NUMBER}) ± ({NUMBER})", text):
        middle, half = number(match[1]), number(match[2])
        ends = middle - half, middle + half
    elif match := re.fullmatch(rf"({NUMBER}) \+({NUMBER})/([-+]?)({NUMBER})", text):
        middle, lower = number(match[1]), number(match[4]) * (-1 if match[3] == "-" else 1)
        ends = middle + lower, middle + number(match[2])
    else:
        ends = (number(text),) * 2
    return ends[0] * factor, ends[1] * factor


class Row(dict):
    """One part: its cells, the unit of each column, and what kind of part its file holds."""

    kind = ""
    units: dict = {}

    def limits(self, column):
        return limits(self[column], self.units[column])

    @property
    def inch(self):
        """Whether its sizes are written in inches."""
        return any(
            re.search(r"\d in$", cell) for column, cell in self.items() if column not in ("name", "source")
        )

    def source(self, column):
        """The key that its source cell gives for a column."""
        marks = [mark.strip() for mark in self["source"].split(";")]
        single = dict(mark.split("=") for mark in marks if "=" in mark)
        return single.get(column, next((mark for mark in marks if "=" not in mark), ""))


@cache
def rows(folder: Path) -> dict[str, Row]:
    """Every part of a course by its id."""
    found = {}
    for path in sorted((folder / "data" / "parts").glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as file:
            heads, units, *lines = list(csv.reader(file))
        for line in lines:
            if line:
                row = Row(zip(heads, line))
                row.kind, row.units = path.stem, dict(zip(heads, units))
                found[row["id"]] = row
    return found
