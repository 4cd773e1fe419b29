"""Wobbles that add along a linkage, loose parts that walk round, and a bolt with a tube on it."""

from dataclasses import dataclass
from functools import cached_property

from markupsafe import Markup

from guidegen.drawing.principles import joints_in_row, rolling_pin
from guidegen.guide.edition import Edition
from guidegen.guide.examples import link, named
from guidegen.guide.grids import Grid, grid
from guidegen.guide.measures import Both
from guidegen.guide.page import Heading, Page
from guidegen.guide.templates import fill, ready
from guidegen.joint.chaining import Chain, stretched
from guidegen.joint.tube import Tubed, tubed
from guidegen.joint.walking import walks
from guidegen.kit.fasteners import pitch_diameters
from guidegen.kit.lookup import OutsideTable, limits_of_class, thread
from guidegen.kit.records import BallBearing, Kit, Part, ShoulderScrew
from guidegen.numbers import percent, show_number
from guidegen.theory.chain import equal_chain, equal_chain_root
from guidegen.theory.clearance import housing_gap, shaft_fit
from guidegen.theory.freeplay import arm_travel
from guidegen.theory.nuts import gap_of_turn
from guidegen.theory.precession import loads_to_walk, pin_walk, ring_walk

LONGEST = 3  # joints of the course's own that make the example
COUNTS = range(1, 7)  # equal joints in line
SLIPPED = "H7"  # hole that a bearing slips into
THOUSAND = 1000  # turns of the load
CONTENTS = (
    ("chain", "Joints in a row"),
    ("equal", "Equal joints"),
    ("walk", "Rings and nuts that walk"),
    ("tube", "A bolt with a tube in place of a shoulder screw"),
)
WAYS = {1: "forwards, the way it turns", 0: "stays", -1: "backwards, against it"}
JOINTS = (  # which part turns, what the load does, in words
    ("shaft", "fixed", "shaft turns, load stays where it is (a weight, a belt)"),
    ("shaft", "turning", "shaft turns, load turns with it (off balance)"),
    ("housing", "fixed", "hub turns, load stays where it is"),
    ("housing", "turning", "hub turns, load turns with it"),
)


def chains_page(edition: Edition) -> Page:
    """Joints one after another, precession, and what a bolt with a tube costs."""
    bench = _Chains(edition)
    chain = bench.chain
    body = fill(
        "chains",
        measures=edition.measures,
        titles=dict(CONTENTS),
        chain=chain,
        links=chain and bench.links(chain),
        sums=chain and bench.sums(chain),
        drawn=ready(_drawn(chain)) if chain else "",
        worst=chain and bench.worst(chain),
        equal=bench.equal(),
        target=edition.measures.value(edition.course.target_travel, "mm").line,
        arm=edition.measures.value(edition.course.target_arm, "mm").line,
        ways=bench.ways(),
        loose=bench.loose(),
        nuts=bench.nuts(),
        rolling=ready(rolling_pin()),
        slipped=SLIPPED,
        tubes=bench.tubes(),
        worst_tube=bench.worst_tube(),
        moving=edition.cautions("moving joint"),
        falling=edition.cautions("overhung load"),
    )
    return Page(
        "chains.html",
        "Do wobbles add up?",
        body,
        tuple(Heading(2, *entry) for entry in CONTENTS),
        in_search=True,
        description="Several joints in a row, rings and nuts that walk (precession), a bolt with a tube.",
    )


def _drawn(chain: Chain) -> str:
    whole = chain.summed("typical") or 1.0
    return joints_in_row(
        [link.result.joint.title for link in chain.links],
        [link.reach for link in chain.links],
        [link.travel.typical / whole for link in chain.links],
    )


def _part(part: Part) -> Markup:
    return Markup('<a href="parts/{0}.html">{0}</a>').format(part.id)


@dataclass(frozen=True)
class _Chains:
    edition: Edition

    @property
    def measures(self):
        return self.edition.measures

    @cached_property
    def chain(self) -> Chain | None:
        """The course's own joints with the longest arms, the longest first; None where there are not two."""
        found = named(self.edition) or [result for result in self.edition.results if result.stack]
        longest = sorted(found, key=lambda one: (-one.joint.arm, one.id))[:LONGEST]
        return stretched(longest, self.edition.course) if len(longest) > 1 else None

    def links(self, chain: Chain) -> Grid:
        whole = chain.summed("typical") or 1.0
        rows = []
        for n, one in enumerate(chain.links, 1):
            rows.append(
                (
                    Markup("{} {}").format(n, link(one.result)),
                    self.measures.value(one.result.joint.arm, "mm"),
                    self.measures.value(one.reach, "mm"),
                    self.measures.value(one.tilt.typical, "rad", 2),
                    self.measures.value(one.travel.typical, "mm", 2),
                    self.measures.value(one.travel.most, "mm", 2),
                    percent(one.travel.typical / whole),
                )
            )
        heads = ("joint", "own arm", "to the end", "tilt each way", "moves the end by", "at most", "share")
        return grid(
            "Joints of the chain",
            "Each at the end of the arm before it, all in one line (invented)",
            heads,
            rows,
        )

    def sums(self, chain: Chain) -> Grid:
        rows = [
            ("all lean one way, typical sizes", self.measures.value(chain.summed("typical"), "mm", 2)),
            ("each leans as it likes, typical sizes", self.measures.value(chain.rooted("typical"), "mm", 2)),
            ("all lean one way, nine chains in ten", self.measures.range(*chain.likely, "mm")),
            (
                "each leans as it likes, all sizes at their worst",
                self.measures.value(chain.rooted("most"), "mm", 2),
            ),
            ("worst case: all sizes, all one way", self.measures.value(chain.summed("most"), "mm", 2)),
        ]
        return grid("Sums", "Total travel at the end of the chain", ("how it is added", "travel"), rows)

    def worst(self, chain: Chain) -> Markup:
        """The joint that gives most of the travel."""
        most = max(chain.links, key=lambda one: one.travel.typical)
        share = percent(most.travel.typical / (chain.summed("typical") or 1.0))
        return Markup("{} gives {} of it").format(link(most.result), share)

    def equal(self) -> Grid:
        """Equal joints that each just meet what the course allows."""
        one = self.edition.course.target_travel
        rows = [
            (
                str(count),
                self.measures.value(equal_chain(one, count), "mm", 2),
                self.measures.value(float(equal_chain_root(one, count)), "mm", 2),
                self.measures.value(one / equal_chain(1.0, count), "mm", 2),
            )
            for count in COUNTS
        ]
        heads = (
            "joints",
            "all lean one way",
            "each as it likes",
            "each may have, for one's travel at the end",
        )
        caption = (
            "Travel at the end of equal joints with equal arms, each with the travel that the course allows"
        )
        return grid("Equal joints", caption, heads, rows)

    def ways(self) -> Grid:
        rows = []
        for turns, direction, words in JOINTS:
            way = walks(turns, direction)
            other = {"tightens": "loosens", "loosens": "tightens", "stays": "stays"}[way.nut]
            rows.append((words, WAYS[way.inner], WAYS[way.outer], way.nut, other))
        heads = (
            "joint",
            "loose inner ring on its shaft",
            "loose outer ring or bush in its hole",
            "loose nut, where it turns clockwise seen from the nut",
            "and counter-clockwise",
        )
        caption = "Where a joint keeps turning one way; threads right-hand"
        return grid("Which way it walks", caption, heads, rows)

    def _of(self, kit: Kit, kind):
        return [
            self.edition.course.parts[id]
            for id in kit.parts
            if isinstance(self.edition.course.parts[id], kind)
        ]

    def loose(self) -> Grid:
        """Ball bearings loose on the shoulder, and loose in their hole: how far they walk."""
        rows = []
        for kit in self.edition.kits:
            screws, balls = self._of(kit, ShoulderScrew), self._of(kit, BallBearing)
            if not screws:
                continue
            shaft = screws[0].shoulder_diameter.typical
            seen = set()
            for part in balls:
                key = part.bore, part.outside_diameter
                if key in seen:
                    continue
                seen.add(key)
                room = max(0.0, float(shaft_fit(part.bore.typical, shaft)))
                outside = part.outside_diameter.typical
                try:
                    low, high = limits_of_class(part.outside_diameter.most, SLIPPED)
                except OutsideTable:
                    continue
                hole = part.outside_diameter.most + (low + high) / 2
                gap = float(housing_gap(hole, outside))
                inner, outer = ring_walk(room, part.bore.typical), pin_walk(gap, outside)
                rows.append(
                    (
                        Markup("{} on {}").format(_part(part), screws[0].id),
                        self.measures.value(room, "mm", 2),
                        self._round(inner),
                        self.measures.value(gap, "mm", 2),
                        self._round(outer),
                    )
                )
        heads = (
            "ball bearing",
            "room on the shoulder",
            "inner ring once round in",
            f"room in an {SLIPPED} hole",
            "outer ring once round in",
        )
        return grid(
            "Loose rings",
            "Turns of the load until a loose ring has walked once round; typical sizes",
            heads,
            rows,
        )

    def _round(self, walk: float) -> str:
        if walk <= 0:
            return "never"
        return f"{show_number(float(f'{loads_to_walk(1.0, walk):.2g}'), 2)} turns"

    def nuts(self) -> Grid:
        rows = []
        names = dict.fromkeys(
            screw.thread for kit in self.edition.kits for screw in self._of(kit, ShoulderScrew)
        )
        for name in names:
            try:
                found = pitch_diameters(name)
            except OutsideTable:
                continue
            room = float(shaft_fit(found.nut.typical, found.screw.typical))
            walk, pitch = ring_walk(room, found.nut.typical), thread(name).pitch
            rows.append(
                (
                    name,
                    self.measures.value(room, "mm", 2),
                    self._round(walk),
                    self.measures.value(gap_of_turn(pitch, walk * THOUSAND), "mm", 2),
                )
            )
        heads = ("thread", "room in the nut", "nut once round in", f"nut moves in {THOUSAND} turns")
        return grid("Loose nuts", "A nut that nothing clamps, at typical pitch diameters", heads, rows)

    @cached_property
    def tubed(self) -> list[tuple[Kit, Tubed]]:
        return [(kit, one) for kit in self.edition.kits for one in tubed(kit, self.edition.course)]

    def tubes(self) -> Grid:
        rows = []
        for _, one in self.tubed:
            rows.append(
                (
                    Markup("{} on {}, in place of {}").format(
                        _part(one.tube), one.thread.id, _part(one.screw)
                    ),
                    Markup("two {}").format(_part(one.bush)),
                    percent(one.goes_on),
                    self.measures.value(one.shoulder_tilt, "rad", 2),
                    self.measures.value(one.clamped_tilt, "rad", 2),
                    self.measures.value(one.loose_tilt, "rad", 2),
                    self.measures.value(one.off_centre.most, "mm", 2),
                )
            )
        heads = (
            "tube and bolt",
            "bearings",
            "tubes that go in",
            "on the shoulder",
            "tube clamped",
            "tube loose",
            "clamped tube off centre by up to",
        )
        caption = (
            "Tilt each way at typical sizes and with a middling tube that goes in, outer faces of the bushes "
            "at the ends of the tube, bores as delivered"
        )
        return grid("Bolt with a tube", caption, heads, rows)

    def worst_tube(self) -> Both | None:
        """The greatest penalty of a loose tube, at the course's own arm; None where there is none."""
        extra = [one.loose_tilt - one.shoulder_tilt for _, one in self.tubed]
        return (
            self.measures.value(arm_travel(self.edition.course.target_arm, max(extra)), "mm", 2)
            if extra
            else None
        )
