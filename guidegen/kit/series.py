"""What grid.yaml asks for, checked key by key before any joint is made of it."""

import re
from dataclasses import dataclass
from typing import Mapping

from guidegen.kit.outline import Outline
from guidegen.kit.records import (
    BallBearing,
    Kit,
    Part,
    Process,
    ShoulderScrew,
    SleeveBushing,
    Spacer,
    Stock,
    Washer,
)
from guidegen.kit.spreadsheet import nearest
from guidegen.units import EXAMPLES, read_quantity

HEAD = {"arm": "length", "axial": "force", "shock": "number", "gap_tolerance": "length"}
NEEDED = ("kit", "loads", "edge", "screws", "housings", "pairs", "layouts")
CHOICES = {
    "rings": ("loose", "clamped"),
    "body": ("plates", "block"),
    "fits": ("press", "slip", "bonded"),
    "direction": ("fixed", "turning"),
}
MOVES = ("motion", "direction")  # of all series, or of one
MOTIONS = {"swing": {"angle": "angle", "rate": "rate"}, "turn": {"speed": "rate"}, "hand": {}}
LAYOUTS = {"a": ("after", "overhangs", "between"), "b": ("overhangs",), "c": ("overhangs",)}
FILES = {"kits": "kits.yaml", "parts": "parts/", "stocks": "stock.csv", "processes": "processes.csv"}
HOUSING_NAME = re.compile(r"[a-z0-9]{1,8}")


@dataclass(frozen=True)
class Names:
    """What a grid may name, by id."""

    kits: Mapping[str, Kit]
    parts: Mapping[str, Part]
    stocks: Mapping[str, Stock]
    processes: Mapping[str, Process]


def check_series(outline: Outline, names: Names | None):
    """Tells every mistake of a grid to its outline; without `names`, which could not be read, of its form."""
    grid = _Grid(outline, names)
    grid.keys((), (*HEAD, "series"), MOVES)
    grid.moves((), outline.raw.data)
    for key, dimension in HEAD.items():
        if key in outline.raw.data:
            grid.quantity((key,), outline.raw.data[key], dimension)
    for n, series in enumerate(grid.listed((), "series")):
        if grid.is_mapping(("series", n), series):
            grid.series(("series", n), series)


class _Grid:
    """One grid being checked; `way` is the way down to a key, as in the lines of a raw file."""

    def __init__(self, outline, names):
        self.outline, self.names, self.called = outline, names, {}

    def series(self, way, series):
        pairs = [pair for pair in series.get("pairs") or () if isinstance(pair, Mapping)]
        two = any(len(pair.get("bearings") or ()) == 2 for pair in pairs)
        self.keys(way, (*NEEDED, *["standoffs"] * two), ("standoffs", "body", *MOVES))
        self.moves(way, series)
        kit = self.named(way, "kit", series.get("kit"), "kits") if "kit" in series else None
        for key, dimension in (("loads", "force"), ("standoffs", "length")):
            for n, text in enumerate(self.listed(way, key)):
                self.quantity((*way, key, n), text, dimension)
        if "edge" in series:
            self.quantity((*way, "edge"), series["edge"], "length")
        if "body" in series:
            self.choice((*way, "body"), series["body"], CHOICES["body"])
        for n, screw in enumerate(self.listed(way, "screws")):
            self.part((*way, "screws", n), screw, kit, ShoulderScrew, "shoulder screw")
        housings = self.housings((*way, "housings"), series.get("housings"), series.get("kit"))
        for n, pair in enumerate(self.listed(way, "pairs")):
            if self.is_mapping((*way, "pairs", n), pair):
                self.pair((*way, "pairs", n), pair, kit, housings)
        layouts = series.get("layouts", {})
        for name in layouts if self.is_mapping((*way, "layouts"), layouts) else ():
            if name not in LAYOUTS:
                self.refuse((*way, "layouts", name), f'the layout "{name}"', ", ".join(LAYOUTS))
            elif self.is_mapping((*way, "layouts", name), layouts[name]):
                self.layout((*way, "layouts", name), layouts[name], LAYOUTS[name], kit)

    def moves(self, way, found):
        """How the joints move, and whether their load stands still or turns with the arm."""
        if "direction" in found:
            self.choice((*way, "direction"), found["direction"], CHOICES["direction"])
        motion = found.get("motion", {"kind": "hand"})
        if not self.is_mapping((*way, "motion"), motion):
            return
        if motion.get("kind") not in MOTIONS:
            return self.refuse(
                (*way, "motion"), f'the kind of motion "{str(motion.get("kind"))[:40]}"', " or ".join(MOTIONS)
            )
        if "motion" in found:
            asked = MOTIONS[motion["kind"]]
            self.keys((*way, "motion"), ("kind", *asked), ("hours",))
            for key, dimension in {**asked, "hours": "number"}.items():
                if key in motion:
                    self.quantity((*way, "motion", key), motion[key], dimension)

    def housings(self, way, housings, kit):
        """Names of the housings of a series; one stock and process has one name in a kit, all to itself."""
        if housings is None or not self.is_mapping(way, housings):
            return ()
        for name, where in housings.items():
            if not HOUSING_NAME.fullmatch(name):
                self.refuse((*way, name), f'the name "{name[:40]}" of a housing', "1 to 8 of a-z and 0-9")
            if self.is_mapping((*way, name), where):
                self.keys((*way, name), ("stock", "process"))
                self.made((*way, name), where)
                made = f"{where.get('stock')} by {where.get('process')}"
                for what, other, verb in ((name, made, "is"), (made, name, "is called")):
                    was = self.called.setdefault((kit, what), other)
                    if was != other:
                        self.refuse(
                            (*way, name),
                            f"{name} for {made}; in another series {what} {verb} {was}",
                            "one name for each housing of a kit, since it goes into addresses",
                        )
                        break
        return tuple(housings)

    def pair(self, way, pair, kit, housings):
        self.keys(way, ("bearings", "fits"), ("rings",))
        bearings = self.listed(way, "bearings")
        if "bearings" in pair and len(bearings) not in (1, 2):
            self.refuse((*way, "bearings"), f"{len(bearings)} bearings", "one or two, that at the head first")
        for n, bearing in enumerate(bearings):
            self.part((*way, "bearings", n), bearing, kit, (SleeveBushing, BallBearing, Spacer), "bearing")
        for n, rings in enumerate(self.listed(way, "rings")):
            self.choice((*way, "rings", n), rings, CHOICES["rings"])
        fits = pair.get("fits", {})
        for name in fits if self.is_mapping((*way, "fits"), fits) else ():
            self.choice((*way, "fits", name), fits[name], CHOICES["fits"])
            if name not in housings:
                self.refuse(
                    (*way, "fits", name),
                    f'a fit in "{name}"',
                    f"a housing of this series: {', '.join(housings)}",
                )

    def layout(self, way, plan, places, kit):
        self.keys(way, ("plate",), places)
        if not set(places) & set(plan):
            self.refuse(way, "no place of the load", f"one or more of {', '.join(places)}")
        if "plate" in plan and self.is_mapping((*way, "plate"), plan["plate"]):
            self.keys((*way, "plate"), ("stock", "process"), ("fit",))
            self.made((*way, "plate"), plan["plate"])
            if "fit" in plan["plate"]:
                self.choice((*way, "plate", "fit"), plan["plate"]["fit"], CHOICES["fits"][1:])
        for n, text in enumerate(self.listed(way, "overhangs")):
            self.quantity((*way, "overhangs", n), text, "length")
        for n, share in enumerate(self.listed(way, "between")):
            if not isinstance(share, (int, float)) or not 0 < share < 1:
                self.refuse((*way, "between", n), f'"{share}" of the separation', "a share between 0 and 1")
        for n, after in enumerate(self.listed(way, "after")):
            for part in after if isinstance(after, list) else [after]:
                self.part((*way, "after", n), part, kit, (Spacer, Washer), "spacer or washer")

    # one value of each kind

    def refuse(self, way, found, allowed, remedy=""):
        self.outline.refuse(way, found, allowed, remedy)

    def is_mapping(self, way, found):
        if isinstance(found, Mapping):
            return True
        self.refuse(way, f'"{str(found)[:40]}" here', "key: value lines, indented")
        return False

    def at(self, way):
        found = self.outline.raw.data
        for key in way:
            found = found[key]
        return found

    def keys(self, way, needed, besides=()):
        found = self.at(way)
        for key in found:
            if key not in (*needed, *besides):
                self.refuse(
                    (*way, key),
                    f'an unknown key "{str(key)[:40]}"',
                    ", ".join((*needed, *besides)),
                    nearest(str(key), (*needed, *besides)),
                )
        for key in needed:
            if key not in found:
                self.refuse(way, f"no {key}", f"a line {key}: …")

    def listed(self, way, key) -> list:
        """The list under a key; empty, the mistake told, when something else stands there."""
        found = self.at(way).get(key)
        if found is None or isinstance(found, list):
            return found or []
        self.refuse((*way, key), f'"{str(found)[:40]}" under {key}', "a list: [one, two]")
        return []

    def quantity(self, way, value, dimension):
        try:
            read_quantity(str(value), dimension)
        except ValueError as wrong:
            self.refuse(way, f'"{str(value)[:40]}", {wrong}', f"such as {EXAMPLES[dimension]}")

    def choice(self, way, value, allowed):
        if value not in allowed:
            self.refuse(way, f'"{str(value)[:40]}"', " or ".join(allowed))

    def named(self, way, key, value, of):
        """What is meant by an id under a key; None, the mistake told, when nothing is."""
        known = getattr(self.names, of, None)
        if known is None:
            return None
        if isinstance(value, str) and value in known:
            return known[value]
        self.refuse(
            (*way, key), f'"{str(value)[:40]}"', f"an id of data/{FILES[of]}", nearest(str(value), known)
        )
        return None

    def made(self, way, where):
        """A stock and a process that works on it."""
        stock, process = (
            self.named(way, key, where[key], of) if key in where else None
            for key, of in (("stock", "stocks"), ("process", "processes"))
        )
        if stock and process and stock.kind not in process.stocks.split():
            self.refuse((*way, "process"), f"{process.id} in {stock.kind}", f"a process for {stock.kind}")

    def part(self, way, value, kit, kinds, what):
        if self.names is None:
            return
        part = self.named(way[:-1], way[-1], value, "parts")
        if part and not isinstance(part, kinds):
            self.refuse(way, f"{value}, which is no {what}", f"the id of a {what}")
        elif part and kit and value not in kit.parts:
            self.refuse(
                way,
                f"{value}, which is not in the kit {kit.id}",
                "a part of the kit",
                "Give it a count in data/kits.yaml.",
            )
