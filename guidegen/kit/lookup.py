"""One look-up for each kind of published table. Sizes go in and come out in mm.

A size, grade, letter or name outside its table raises OutsideTable with a sentence for the reader.
Ranges read "over a, up to and including b".
"""

import re
from functools import cache
from typing import Mapping, NamedTuple

from guidegen.kit.records import Thread
from guidegen.kit.tables import read_table
from guidegen.units import MM_PER_INCH, Band, read_quantity

_CLASS = re.compile(r"(?P<letter>[A-Z]{1,2}|[a-z]{1,2})(?P<grade>\d{1,2})")
_BELOW_ZERO = "cdefgh"  # shafts whose upper deviation is tabulated
_LAST_DELTA_GRADE = {"K": 8, "M": 8, "N": 8, "P": 7, "R": 7, "S": 7}
_DELTA_ABOVE = 3  # mm; no delta rule up to this size


class OutsideTable(ValueError):
    """What was asked is not in the published table."""


class InchFit(NamedTuple):
    """A fit of ASME B4.1: deviations from nominal, mm, as (lower, upper)."""

    hole: tuple[float, float]
    shaft: tuple[float, float]


class HousingClass(NamedTuple):
    """The ISO 286 hole class to aim at for a bearing in a housing, and its source."""

    name: str
    source: str


class Tool(NamedTuple):
    """A drill or reamer: its nominal diameter and the band of its own diameter, mm."""

    name: str  # "No. 7", "F", "1/4", "6.5 mm"
    series: str  # number, letter, fractional, metric; of reamers over-under too
    diameter: float
    band: Band
    source: str


class Beside(NamedTuple):
    """The tools beside a diameter: the largest at most as large, the smallest at least as large; or None."""

    below: Tool | None
    above: Tool | None


class BallFriction(NamedTuple):
    """Friction of a ball bearing: coefficient, drag without load (MPa), torque of its seals (N·mm).

    sources: the key of each band, by its name here.
    """

    friction_run: Band
    friction_start: Band
    drag_run: Band
    drag_start: Band
    seal_run: Band
    seal_start: Band
    sources: Mapping[str, str]


class ClearanceHole(NamedTuple):
    """Clearance holes over a thread, mm."""

    fine: float
    medium: float
    coarse: float


class SurfaceFinish(NamedTuple):
    """Constants of the surface factor of the endurance limit, a·(S_u/MPa)^b, and their source."""

    a: float
    b: float
    source: str


def limits_of_class(nominal: float, tolerance_class: str) -> tuple[float, float]:
    """Lower and upper deviation, mm, of an ISO 286 class ("h8" for a shaft, "H7" for a hole).

    Source: ISO 286-1:2010 Tables 1 to 5, with the delta rule for holes K to S.
    """
    match = _CLASS.fullmatch(tolerance_class)
    if match is None:
        raise OutsideTable(f"{tolerance_class} is not an ISO 286 class such as h8 or H7")
    letter, grade = match["letter"], int(match["grade"])
    if letter in ("j", "J"):
        return _set_about_zero(nominal, tolerance_class)
    lower, upper = _hole(nominal, letter, grade) if letter.isupper() else _shaft(nominal, letter, grade)
    return lower / 1000, upper / 1000


def band_of_class(nominal: float, tolerance_class: str) -> Band:
    """Limits of size, mm, of a nominal size in an ISO 286 class."""
    lower, upper = limits_of_class(nominal, tolerance_class)
    return Band.between(nominal + lower, nominal + upper)


def _set_about_zero(nominal, tolerance_class):
    """Limits of j shafts and J holes, which follow no rule and are tabulated one by one."""
    row = _range_row("iso286_j", nominal)
    if tolerance_class not in row:
        raise OutsideTable(
            f"class {tolerance_class} is not in the table; of its kind there are "
            + ", ".join(name for name in row if name[0] in "jJ")
        )
    lower, upper = row[tolerance_class].split()
    return float(lower) / 1000, float(upper) / 1000


def _shaft(nominal, letter, grade):
    width = _grade(nominal, grade)
    if letter == "js":
        return -width / 2, width / 2
    deviation = _deviation("iso286_shafts", nominal, letter)
    if letter in _BELOW_ZERO:
        return deviation - width, deviation
    if letter == "k" and not 4 <= grade <= 7:
        deviation = 0
    return deviation, deviation + width


def _hole(nominal, letter, grade):
    width = _grade(nominal, grade)
    if letter == "JS":
        return -width / 2, width / 2
    deviation = _deviation("iso286_holes", nominal, letter)
    if letter not in _LAST_DELTA_GRADE:
        return deviation, deviation + width
    if nominal > _DELTA_ABOVE:
        if grade <= _LAST_DELTA_GRADE[letter]:
            deviation += width - _grade(nominal, grade - 1)
        elif letter == "K":
            raise OutsideTable("ISO 286 has no K hole coarser than K8 above 3 mm")
        elif letter == "N":
            deviation = 0
    return deviation - width, deviation


def _grade(nominal, grade):
    return _number(_range_row("iso286_grades", nominal), f"IT{grade}", f"tolerance grade IT{grade}")


def _deviation(table, nominal, letter):
    kind = "shaft" if letter.islower() else "hole"
    return _number(_range_row(table, nominal), letter, f"{kind} letter {letter}")


def _number(row, column, what):
    text = row.get(column) if column not in ("over", "to", "source") else None
    if not text:
        raise OutsideTable(f"{what} is not in the table for sizes over {row['over']} to {row['to']} mm")
    return float(text)


def bearing_limits(item: str, size: float) -> tuple[float, float]:
    """Lower and upper deviation, mm, of a Normal class bearing's bore, width or outside_diameter.

    `size` is the bore for bore and width, the outside diameter for itself. Source: ISO 492.
    """
    row = _range_row("iso492", size, item=item)
    return float(row["lower"]) / 1000, float(row["upper"]) / 1000


def clearance_group(bore: float, group: str) -> Band:
    """Radial internal clearance, mm, of a deep-groove bearing's group (CN, C3, MC3 …). Source: ISO 5753-1."""
    row = _range_row("iso5753", bore, group=group)
    return Band.between(float(row["least"]) / 1000, float(row["most"]) / 1000)


def inch_fit(nominal: float, fit: str) -> InchFit:
    """Hole and shaft of an ASME B4.1 fit (RC2 to RC5, LT1, LT3, LN1 to LN3, FN1, FN2); all in mm."""
    row = _range_row("asme_b4_1", nominal, in_unit=MM_PER_INCH, fit=fit)
    hole_lower, hole_upper, shaft_lower, shaft_upper = (
        float(row[column]) / 1000 * MM_PER_INCH
        for column in ("hole_lower", "hole_upper", "shaft_lower", "shaft_upper")
    )
    return InchFit((hole_lower, hole_upper), (shaft_lower, shaft_upper))


def ball_friction(closure: str, bore: float) -> BallFriction:
    """Friction of a deep-groove ball bearing, moving and breaking away.

    closure: open, shields or seals. bore: mm, up to 30. Sources differ from part to part.
    """
    found, sources = {}, {}
    for name in BallFriction._fields[:-1]:
        part, state = name.split("_")
        asked = closure if part == "seal" else "any"
        row = _range_row("ball_friction", bore, part=part, state=state, closure=asked)
        found[name] = Band(float(row["least"]), float(row["typical"]), float(row["most"]))
        sources[name] = row["source"]
    return BallFriction(**found, sources=sources)


@cache
def threads() -> dict[str, Thread]:
    """Every thread of the table by name: diameter and pitch in mm, stress area in mm²."""
    return {
        row["id"]: Thread(
            id=row["id"],
            diameter=read_quantity(row["diameter"], "length"),
            pitch=read_quantity(row["pitch"], "length"),
            stress_area=read_quantity(row["stress_area"], "area"),
            source=row["source"],
        )
        for row in read_table("threads").rows
    }


def thread(name: str) -> Thread:
    """One thread by name, "M6" or "5/16-18"."""
    try:
        return threads()[name]
    except KeyError:
        raise OutsideTable(f"no thread {name}; known: {', '.join(threads())}") from None


def clearance_hole(thread_name: str) -> ClearanceHole:
    """Clearance holes over a thread, fine, medium and coarse, mm. Source: ISO 273; ASME B18.2.8."""
    row = named_row("clearance_holes", id=thread_name)
    return ClearanceHole(*(read_quantity(row[series], "length") for series in ClearanceHole._fields))


def drills_beside(diameter: float, *series: str) -> Beside:
    """The drills nearest to a diameter, mm, on both sides; one of just that diameter stands on both.

    series: number, letter, fractional, metric; none named: all. Source: ASME B94.11M; ISO 235.
    """
    return _beside(_drills(), diameter, series, "drills")


def reamers_beside(diameter: float, *series: str) -> Beside:
    """The reamers nearest to a diameter, mm, on both sides, each with the band of its own diameter.

    series: fractional, number, letter, over-under, metric; none named: all. Source: ASME B94.2; DIN 1420.
    """
    return _beside(_reamers(), diameter, series, "reamers")


@cache
def _drills() -> tuple[Tool, ...]:
    return tuple(sorted((_tool(row, *_under(row)) for row in read_table("drills").rows), key=_by_size))


@cache
def _reamers() -> tuple[Tool, ...]:
    return tuple(sorted((_tool(row, *_over(row)) for row in read_table("reamers").rows), key=_by_size))


def _tool(row, lower, upper):
    diameter = read_quantity(row["diameter"], "length")
    return Tool(
        row["id"], row["series"], diameter, Band.between(diameter + lower, diameter + upper), row["source"]
    )


def _under(row):
    """Deviations of a drill: from zero down to what its cell says, or an ISO 286 class."""
    if _CLASS.fullmatch(row["under"]):
        return limits_of_class(read_quantity(row["diameter"], "length"), row["under"])
    return read_quantity(row["under"], "length"), 0.0


def _over(row):
    return read_quantity(row["lower"], "length"), read_quantity(row["upper"], "length")


def _by_size(tool):
    return round(tool.diameter, 6), tool.name


def _beside(tools, diameter, series, what):
    known = dict.fromkeys(tool.series for tool in tools)
    for name in series:
        if name not in known:
            raise OutsideTable(f"no {what} of the series {name}; there are {', '.join(known)}")
    if not diameter > 0:
        raise OutsideTable(f"{diameter:g} mm is no diameter of {what}")
    below = above = None
    for tool in tools:  # the smallest first
        if series and tool.series not in series:
            continue
        if round(tool.diameter, 6) >= round(diameter, 6):
            above = tool
            break
        below = tool
    if above and round(above.diameter, 6) == round(diameter, 6):
        below = above
    return Beside(below, above)


def sold_sizes(kind: str, unit: str) -> tuple[float, ...]:
    """Sizes, mm, that a key, wrench or sheet (`kind`) is commonly sold in, of those in mm or in inches."""
    sizes = [row["size"] for row in read_table("sold_sizes").rows if row["kind"] == kind]
    if not sizes:
        raise OutsideTable(f"no sizes of a {kind} in sold_sizes")
    return tuple(read_quantity(size, "length") for size in sizes if size.endswith(f" {unit}"))


def housing_class(bearing: str, fit: str, stock: str) -> HousingClass:
    """Hole class to aim at.

    bearing: sleeve_bushing, ball_bearing or spacer; shaft_hole for a hole that a shoulder passes through.
    fit: press, slip, bonded (shaft_hole: slip). stock: metal, plastic, wood, print.
    """
    row = named_row("housing_classes", bearing=bearing, fit=fit, stock=stock)
    return HousingClass(row["class"], row["source"])


def surface_finish(finish: str) -> SurfaceFinish:
    """Constants of the surface factor for a finish: ground, machined, hot rolled, forged."""
    row = named_row("surface_finish", finish=finish)
    return SurfaceFinish(float(row["a"]), float(row["b"]), row["source"])


def nut_factor(surface: str) -> Band:
    """Nut factor by the surface of thread and nut (zinc, black oxide, plain, oiled ...), with its scatter.

    Least and most are those that give a quarter more and a quarter less force than the typical one.
    """
    row = named_row("nut_factor", surface=surface)
    typical, scatter = float(row["K"]), float(row["scatter"])
    return Band(typical / (1 + scatter), typical, typical / (1 - scatter))


def proof_stress(property_class: str, diameter: float) -> float:
    """Proof stress, MPa, of a screw's or bolt's class ("12.9", "SAE 8", "A2-70") at a thread diameter, mm."""
    row = _range_row("proof_stress", diameter, **{"class": property_class})
    return read_quantity(row["proof_stress"], "stress")


def clamp_loss(kind: str) -> Band:
    """Share of the clamp force that is lost with time when this kind of stock is in the clamp."""
    row = named_row("clamp_loss", kind=kind)
    return Band(*(float(row[end]) for end in ("least", "typical", "most")))


def press_friction(kind: str) -> Band:
    """Friction of a bearing pressed into this kind of stock."""
    return _ends(named_row("press_friction", kind=kind))


def stress_relaxation(kind: str, after: str) -> Band:
    """Share of its stiffness that a strained stock of this kind has lost after a day or a year."""
    return _ends(named_row("stress_relaxation", kind=kind, after=after))


def edge_distance(kind: str) -> tuple[float, float]:
    """From a hole's centre to the edge, in hole diameters: the least in this kind of stock, and wanted."""
    row = named_row("edge_distance", kind=kind)
    return float(row["least"]), float(row["wanted"])


def swelling(material: str, end: str) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Relative humidities, per cent, and a material's growth there from dry; end: least, typical, most."""
    rows = [row for row in read_table("swelling").rows if row["material"] == material]
    if not rows:
        raise OutsideTable(f"no row for material {material} in swelling")
    return tuple(float(row["humidity"]) for row in rows), tuple(float(row[end]) for row in rows)


def _ends(row) -> Band:
    return Band(*(float(row[end]) for end in ("least", "typical", "most")))


def columns_of(table: str) -> dict[str, tuple[float, ...]]:
    """A table of points to read between, column by column: "fc_iso281", "f0_iso76", "fillet_bending" ..."""
    published = read_table(table)
    return {column: published.numbers(column) for column in published.rows[0]}


def named_row(table: str, **asked: str) -> Mapping[str, str]:
    """The row of a table whose columns hold just these words; raises OutsideTable when there is none."""
    for row in read_table(table).rows:
        if all(row[column] == value for column, value in asked.items()):
            return row
    raise OutsideTable(f"no row for {_spoken(asked)} in {table}")


def _range_row(table, size, in_unit=1.0, **asked):
    """The row whose range holds `size`; both sides rounded so that a converted size meets its limit."""
    rows = [r for r in read_table(table).rows if all(r[k] == v for k, v in asked.items())]
    if not rows:
        raise OutsideTable(f"no row for {_spoken(asked)} in {table}")
    for row in rows:
        if round(float(row["over"]) * in_unit, 6) < round(size, 6) <= round(float(row["to"]) * in_unit, 6):
            return row
    about = f" for {_spoken(asked)}" if asked else ""
    ranges = ", ".join(f"over {r['over']} to {r['to']}" for r in rows)
    unit = "in" if in_unit != 1.0 else "mm"
    raise OutsideTable(f"{size / in_unit:g} {unit} is outside {table}{about} ({ranges} {unit})")


def _spoken(asked):
    return ", ".join(f"{column} {value}" for column, value in asked.items())
