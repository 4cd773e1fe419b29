"""What fills the shoulder: separations that a kit can reach, stacks and their chances, washers to pick."""

from dataclasses import dataclass
from functools import cached_property
from typing import Iterator

from markupsafe import Markup

from guidegen.drawing import section
from guidegen.errors import CannotBuild
from guidegen.guide.edition import Edition
from guidegen.guide.examples import link, named
from guidegen.guide.families import noun_of
from guidegen.guide.grids import Grid, grid
from guidegen.guide.measures import Both
from guidegen.guide.page import Heading, Page
from guidegen.guide.readings import CALIPER
from guidegen.guide.templates import fill, ready
from guidegen.joint.box import RING_STEP, touches_inner_ring_only
from guidegen.joint.endplay import own_axial_play
from guidegen.joint.filling import Filled, between_rings, separations
from guidegen.joint.records import STATES, Result
from guidegen.joint.stack import METAL_WINDOW, SOFT_WINDOW
from guidegen.joint.words import pair_words
from guidegen.kit.lookup import thread
from guidegen.kit.records import BallBearing, Kit, ShoulderScrew, SleeveBushing, Spacer, Washer
from guidegen.numbers import percent
from guidegen.theory.nuts import gap_of_turn, turn_for_gap
from guidegen.theory.stack import clamped_end_play, ring_mismatch

TURNS = (("a flat", 1 / 6), ("a quarter turn", 1 / 4), ("half a turn", 1 / 2), ("a whole turn", 1.0))
OFF = (0.0, 0.02, 0.05, 0.1, 0.2)  # mm that spacers between inner rings are short or long
FEW = 2  # ring spacers between clamped inner rings
SPACERS = ("nothing: they touch", "one spacer", "two spacers")
MEASURE_FROM = 0.05  # chance of pinching from which the parts are measured; common practice
UNSEEN = 0.005  # mm; an end play that prints as nought
CONTENTS = (
    ("reach", "Which separations can be filled?"),
    ("stacks", "Will it pinch?"),
    ("choose", "Which washer for what I measured?"),
    ("rings", "Spacer between inner rings: too short, too long"),
    ("lands", "Which washer may touch a ball bearing?"),
    ("nut", "What does a turn of the nut do?"),
)


def stacks_pages(edition: Edition) -> Iterator[Page]:
    """What fills a shoulder, for every kit; and for each kit its stacks with their chances."""
    bench = _Stacks(edition)
    yield _overview(edition, bench)
    for kit in edition.kits:
        yield Page(
            f"stacks/{kit.id}.html",
            f"Stacks of the {kit.title}",
            fill("kit_stacks", kit=kit, table=bench.stacks(kit), limit=percent(MEASURE_FROM)),
            description=f"End play and the chance of pinching, {kit.title}.",
        )


def _overview(edition, bench) -> Page:
    shown = bench.shown
    body = fill(
        "stacks",
        measures=edition.measures,
        titles=dict(CONTENTS),
        reach=[(kit, *bench.reach(kit)) for kit in edition.kits],
        pinches=bench.pinches(),
        choices=[(filled, bench.choices(filled)) for filled in shown],
        drawn=ready(section(shown[0].result, "stack")) if shown else "",
        rings=bench.rings(),
        lands=bench.lands(),
        nuts=bench.nuts(),
        link=link,
        spare=edition.measures.value(CALIPER, "mm").line,
        windows=[edition.measures.range(*window, "mm").line for window in (METAL_WINDOW, SOFT_WINDOW)],
        limit=percent(MEASURE_FROM),
        step=edition.measures.value(RING_STEP, "mm").line,
        assembling=edition.cautions("assembly"),
    )
    return Page(
        "stacks.html",
        "What fills the shoulder?",
        body,
        tuple(Heading(2, *entry) for entry in CONTENTS),
        in_search=True,
        description="Separations that each kit can fill, chances of pinching, washers to pick, nut turns.",
    )


@dataclass(frozen=True)
class _Stacks:
    edition: Edition

    @property
    def measures(self):
        return self.edition.measures

    @property
    def parts(self):
        return self.edition.course.parts

    def of_kit(self, kit: Kit, kind):
        return [self.parts[id] for id in kit.parts if isinstance(self.parts[id], kind)]

    def reach(self, kit: Kit) -> tuple[Grid, Grid]:
        """Separations by screw for the first bush and ball bearing of a kit; and those of clamped rings."""
        kinds = [found[0] for kind in (SleeveBushing, BallBearing) if (found := self.of_kit(kit, kind))]
        screws = self.of_kit(kit, ShoulderScrew)
        rows = [
            (screw.id, self.measures.value(screw.shoulder_length.typical, "mm"))
            + tuple(self._spans(kit, screw, bearing) for bearing in kinds)
            for screw in screws
        ]
        heads = ("screw", "shoulder", *(f"two {bearing.id}" for bearing in kinds))
        caption = f"{kit.title}: distance between the middles of the bearings, typical sizes, fillers outside"
        return grid(f"Separations, {kit.title}", caption, heads, rows), self._clamped(kit, screws)

    def _spans(self, kit, screw, bearing) -> Both | str:
        try:
            spans = separations(kit, screw, [bearing, bearing], self.edition.course)
        except CannotBuild as why:
            return why.why
        if not spans:
            return "too short"
        told = [self.measures.range(span.least, span.most, "mm", 3) for span in spans]
        return Both("; ".join(one.first for one in told), "; ".join(one.second for one in told))

    def _clamped(self, kit, screws) -> Grid | None:
        balls = self.of_kit(kit, BallBearing)
        if not balls or not screws:
            return None
        bearing, screw = balls[0], max(screws, key=lambda one: one.shoulder_length.typical)
        found = between_rings(kit, bearing, screw, self.edition.course, FEW)
        counts: dict[int, list[float]] = {}
        for apart, ids in found.items():
            counts.setdefault(len(ids), []).append(apart)
        rows = [(SPACERS[count], self._listed(counts[count])) for count in sorted(counts)]
        caption = (
            f"{kit.title}: two {bearing.id} clamped through their inner rings, at most {FEW} spacers "
            "between them; shims trim what they leave"
        )
        return grid(f"Clamped rings, {kit.title}", caption, ("between the rings", "separation"), rows)

    def _listed(self, sizes) -> str:
        """Lengths in the unit shown first, the unit said once."""
        told = [self.measures.value(size, "mm", 3).first for size in sizes]
        *before, last = told
        return ", ".join([*(one.rpartition(" ")[0] for one in before), last])

    def samples(self, kit: Kit) -> list[Result]:
        """One floating joint for each screw and kind of pair: the best in state, then of fewest parts."""
        found: dict[tuple, Result] = {}
        for result in self.edition.results:
            joint, stack = result.joint, result.stack
            if joint.kit == kit and stack and stack.clamped is None and not joint.single:
                if type(joint.bearings[0]) is not type(joint.bearings[1]):
                    continue
                key = joint.shaft.id, pair_words(joint)
                found[key] = min(found.get(key, result), result, key=_plainness)
        order = list(kit.parts)
        return [found[key] for key in sorted(found, key=lambda key: (order.index(key[0]), key[1]))]

    def pinches(self) -> Grid:
        """How often the stacks of each kit pinch, and come right."""
        rows = []
        for kit in self.edition.kits:
            if found := [one.stack for one in self.samples(kit)]:
                words = Markup('<a href="stacks/{}.html">{}</a>').format(kit.id, kit.title)
                pinched = sorted(stack.chance_pinched for stack in found)
                right = min(stack.chance_fits for stack in found)
                ends = min(s.end_play.least for s in found), max(s.end_play.most for s in found)
                chances = dict.fromkeys([percent(pinched[0]), percent(pinched[-1])])
                rows.append(
                    (
                        words,
                        str(len(found)),
                        self.play(*ends),
                        " to ".join(chances),
                        f"{percent(right)} at least",
                    )
                )
        heads = ("kit", "stacks", "worst cases", "pinch unmeasured", "come right once measured")
        return grid(
            "Chances by kit",
            "End play of stacks, below zero they pinch; each kit's own page tells all",
            heads,
            rows,
        )

    def stacks(self, kit: Kit) -> Grid:
        rows = []
        for result in self.samples(kit):
            stack, joint = result.stack, result.joint
            words = f"{joint.shaft.id}, {pair_words(joint)}, {self.measures.length(joint.separation)} apart"
            rows.append(
                (
                    link(result, words, "../"),
                    self.play(stack.end_play.least, stack.end_play.most),
                    self.play(*stack.end_play_likely),
                    percent(stack.chance_pinched),
                    percent(stack.chance_fits),
                )
            )
        heads = ("stack", "worst case", "nine in ten", "pinches unmeasured", "comes right once measured")
        caption = f"{kit.title}: end play; below zero it pinches by so much"
        return grid(f"Stacks, {kit.title}", caption, heads, rows)

    def play(self, low: float, high: float) -> Both:
        """A range of end play, written out with its sign."""
        even = (0.0 if abs(end) < UNSEEN else end for end in (low, high))
        told = [self.measures.size(end, {"mm": 2, "in": 3}) for end in even]
        return Both(*(f"{a.rpartition(' ')[0]} to {b}" for a, b in zip(*told)))

    @cached_property
    def shown(self) -> list[Filled]:
        """For each kit a stack to choose washers for: a named one if it can be, the one with fewest rows."""
        found = []
        for kit in self.edition.kits:
            own = [one for one in named(self.edition) if one.joint.kit == kit and one.stack.clamped is None]
            stacks = [Filled(result, self.edition.course) for result in own or self.samples(kit)]
            best = min(stacks, key=_teaches, default=None)
            if best is not None:
                found.append(best)
        return found

    def choices(self, filled: Filled) -> Grid:
        rows = []
        for choice in filled.choices(CALIPER):
            added = "no parts of the kit" if choice.parts is None else self.named(choice.parts)
            left = "–" if choice.parts is None else self.play(*choice.left)
            rows.append((self.play(choice.low, choice.high), added, left))
        heads = ("room measured", "put in", "leaves")
        caption = f"{filled.result.joint.kit.title}: the fewest parts for each room that the limits allow"
        return grid(f"Choice, {filled.result.id}", caption, heads, rows)

    def named(self, ids) -> Markup | str:
        """Parts by name, alike ones once with their count."""
        if not ids:
            return "nothing"
        told = [
            Markup('{}<a href="parts/{}.html">{}</a>').format(
                f"{ids.count(id)} × " if ids.count(id) > 1 else "", id, self.parts[id].name
            )
            for id in dict.fromkeys(ids)
        ]
        return Markup(", ").join(told)

    def rings(self) -> Grid:
        """Play left of two clamped ball bearings whose spacers do not match."""
        rows, seen = [], set()
        for kit in self.edition.kits:
            for part in self.of_kit(kit, BallBearing):
                own = own_axial_play(part, part.internal_clearance.typical)
                if (key := round(own, 4)) in seen:
                    continue
                seen.add(key)
                rows.append(
                    (
                        Markup('<a href="parts/{0}.html">{0}</a>').format(part.id),
                        self.measures.value(own, "mm", 2),
                        *(
                            self._left(float(clamped_end_play(own, own, ring_mismatch(off, 0.0))))
                            for off in OFF[1:]
                        ),
                    )
                )
        heads = ("two of", "matched: play", *(f"{self.measures.length(off)} off" for off in OFF[1:]))
        return grid(
            "Rings that do not match", "Play along the screw that is left; typical clearance", heads, rows
        )

    def _left(self, play: float) -> Both | str:
        if play > 0:
            return self.measures.value(play, "mm", 2)
        return f"none: pressed by {self.measures.value(-play, 'mm', 2).line}"

    def lands(self) -> Grid:
        """Washers and rings that go over the shoulder, against the land of each ball bearing of the kit."""
        rows, seen = [], set()
        for kit in self.edition.kits:
            beside = [
                part
                for part in (self.parts[id] for id in kit.parts)
                if isinstance(part, Spacer) or isinstance(part, Washer) and part.kind == "large"
            ]
            for bearing in self.of_kit(kit, BallBearing):
                kinds: dict[tuple, list] = {}
                for part in beside:
                    outside = part.outside_diameter.typical
                    good = touches_inner_ring_only(part, bearing)
                    kinds.setdefault((good, round(outside, 3)), []).append(part)
                key = (bearing.nominal, bearing.inner_land, tuple(kinds))
                if key in seen:
                    continue
                seen.add(key)
                good = [self._size(outside, parts) for (ok, outside), parts in kinds.items() if ok]
                bad = [self._size(outside, parts) for (ok, outside), parts in kinds.items() if not ok]
                rows.append(
                    (
                        Markup('<a href="parts/{0}.html">{0}</a>').format(bearing.id),
                        self.measures.range(bearing.nominal + RING_STEP, bearing.inner_land, "mm", 3),
                        "; ".join(good) or "none",
                        "; ".join(bad) or "none",
                    )
                )
        heads = ("ball bearing", "outside diameter that may touch", "may", "may not: drags on the shield")
        return grid("Washers beside ball bearings", "Of parts that turn with the screw", heads, rows)

    def _size(self, outside, parts) -> str:
        kinds = ", ".join(dict.fromkeys(noun_of(part) for part in parts))
        return f"{kinds} {self.measures.value(outside, 'mm').line}"

    def nuts(self) -> Grid:
        rows = []
        low, high = METAL_WINDOW
        names = dict.fromkeys(
            part.thread for kit in self.edition.kits for part in self.of_kit(kit, ShoulderScrew)
        )
        for name in names:
            pitch = thread(name).pitch
            fewest, most = (turn_for_gap(gap, pitch) for gap in (low, high))
            rows.append(
                (
                    name,
                    self.measures.value(pitch, "mm"),
                    *(self.measures.value(gap_of_turn(pitch, turn), "mm", 2) for _, turn in TURNS),
                    f"{360 * fewest:.0f}° to {360 * most:.0f}°",
                )
            )
        window = self.measures.range(low, high, "mm").line
        heads = ("thread", "pitch", *(words for words, _ in TURNS), f"for {window}")
        return grid(
            "Turns of the nut", "Gap that a nut opens when it is turned back from touching", heads, rows
        )


def _teaches(filled: Filled):
    """Sorts first what comes right once measured, with the fewest rows."""
    rows = filled.choices(CALIPER)
    result = filled.result
    return STATES.index(result.state), any(row.parts is None for row in rows), len(rows), result.id


def _plainness(result: Result):
    return STATES.index(result.state), len(result.stack.placed), result.id
