"""Pages about money: what joints and kits cost, and what to buy for a class."""

from typing import Iterable, Iterator, NamedTuple

from guidegen.guide.edition import Edition
from guidegen.guide.listing import rows_of
from guidegen.guide.measures import Both
from guidegen.guide.names import KINDS
from guidegen.guide.page import Heading, Page
from guidegen.guide.pairs import Group
from guidegen.guide.stand_ins import stand_ins
from guidegen.guide.templates import fill, upper_first
from guidegen.joint.ordering import Order, orders
from guidegen.joint.records import Result
from guidegen.joint.spending import GRAM, kit_cost
from guidegen.joint.words import pair_words
from guidegen.kit.records import Kit
from guidegen.numbers import percent
from guidegen.theory.cost import SURE, added, loss_rate, spares_of_loss
from guidegen.theory.statics import STANDARD_GRAVITY, weight

RATES = (0.02, 0.05, 0.1, 0.2)  # of loss, to show what spares they take
HANDED_OUT = (8, 16, 32, 64)  # pieces
COUNTED = ((0, 32), (1, 32), (3, 32), (8, 64))  # lost, of so many handed out


class KitCost(NamedTuple):
    """What one kit costs, and a class of them."""

    kit: Kit
    price: float
    lines: tuple[Order, ...]

    @property
    def class_price(self) -> float:
        """Whole packs for every team, spares with them."""
        return sum(line.price for line in self.lines)


class Choice(NamedTuple):
    """Worked joints with the same bearings: what the bearings cost, and joints from cheap to dear."""

    group: Group
    words: str
    bearings: float
    cheapest: Result
    dearest: Result
    good: Result | None  # the cheapest that does not fail


def money_pages(edition: Edition, made: list[Group]) -> Iterator[Page]:
    """Costs, the table of each kit's joints, and the shopping list."""
    kits = [
        KitCost(kit, kit_cost(kit.parts, edition.course), orders(kit.parts, edition.course))
        for kit in edition.kits
    ]
    yield _costs(edition, made, kits)
    for one in kits:
        yield from _kit_table(one.kit, edition)
    yield _shopping(edition, kits)


def cost_of(result: Result) -> float:
    """What the bought parts of a joint cost."""
    return result.quantities["cost"].value


def mass_words(result: Result, edition: Edition) -> Both:
    """What the bought parts of a joint weigh."""
    return edition.measures.on_scale(weight(result.quantities["mass"].value * GRAM, STANDARD_GRAVITY))


def _costs(edition: Edition, made, kits) -> Page:
    course = edition.course
    every = added(*(one.kit.parts for one in kits))
    chapters = [(one.kit, choices([group for group in made if group.kit == one.kit.id])) for one in kits]
    chapters = [(kit, found) for kit, found in chapters if found]
    named = [edition.by_id[id] for id in course.joints if id in edition.by_id and edition.by_id[id].stack]
    body = fill(
        "costs",
        course=course,
        kits=kits,
        total=sum(line.price for line in orders(every, course)),
        chapters=chapters,
        named=named,
        cost_of=cost_of,
        mass=lambda result: mass_words(result, edition).line,
        cite=edition.citing(""),
    )
    contents = [("kits", "Kits")] + [("named", "Joints of this course")] * bool(named)
    contents += [(f"kit-{kit.id}", kit.title) for kit, _ in chapters]
    return Page(
        "costs.html",
        "What does it cost?",
        body,
        tuple(Heading(2, *entry) for entry in contents),
        in_search=True,
        description="What a kit, a class and each kind of joint cost.",
    )


def choices(made: Iterable[Group]) -> list[Choice]:
    """The kinds of bearings from cheap to dear, each with its cheapest and its dearest worked joint."""
    found = []
    for group in made:
        built = sorted(
            (result for result in group.results if result.stack), key=lambda one: (cost_of(one), one.id)
        )
        if built:
            joint = built[0].joint
            good = next((one for one in built if one.state != "does not hold"), None)
            price = sum(bearing.price for bearing in joint.bearings)
            words = upper_first(pair_words(joint))
            found.append(Choice(group, words, price, built[0], built[-1], good))
    return sorted(found, key=lambda one: (cost_of(one.cheapest), one.group.key))


def _kit_table(kit: Kit, edition: Edition) -> Iterator[Page]:
    """Every joint of a kit with its cost and weight, the cheapest first."""
    built = [one for one in edition.results if one.joint.kit == kit and one.stack]
    built.sort(key=lambda one: (cost_of(one), one.id))
    if not built:
        return
    masses = [mass_words(result, edition) for result in built]
    rows = list(zip(rows_of(built, edition.measures), map(cost_of, built), masses))
    body = fill("cost_table", root="../", kit=kit, rows=rows, course=edition.course)
    yield Page(
        f"costs/{kit.id}.html",
        f"What joints cost: {kit.title}",
        body,
        description="Every worked joint of a kit by cost and weight.",
    )


def _shopping(edition: Edition, kits: list[KitCost]) -> Page:
    """The shopping list of each kit, kind by kind, with what takes the place of a part that has run out."""
    course = edition.course
    chapters = []
    for one in kits:
        instead = stand_ins(one.kit, edition)
        kinds = []
        for record, title in KINDS.items():
            lines = [(line, instead.get(line.part.id)) for line in one.lines if isinstance(line.part, record)]
            if lines:
                kinds.append((upper_first(title), lines))
        chapters.append((one, kinds))
    body = fill(
        "shopping",
        course=course,
        chapters=chapters,
        share=f"{100 * course.spares:g}",
        sure=f"{100 * SURE:g}",
        lasting=[(count, [spares_of_loss(count, rate) for rate in RATES]) for count in HANDED_OUT],
        rates=[percent(rate) for rate in RATES],
        counted=[(lost, out, _limits(loss_rate(lost, out))) for lost, out in COUNTED],
    )
    return Page(
        "shopping.html",
        "What do I buy?",
        body,
        (
            *(Heading(2, one.kit.id, one.kit.title) for one in kits),
            Heading(2, "spares", "How spares are counted"),
        ),
        in_search=True,
        description="What to buy for a class, kit by kit, with spares, packs and substitutes.",
    )


def _limits(rate) -> tuple[str, str]:
    """A rate of loss, and the limits between which it lies."""
    return percent(rate.typical), f"{percent(rate.least)} to {percent(rate.most)}"
