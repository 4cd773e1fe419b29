"""The page of charts: what holds for all pairs, and the way to the chart of each."""

from guidegen.guide import cause_chart, load_charts
from guidegen.guide.edition import Edition
from guidegen.guide.page import Heading, Page
from guidegen.guide.pairs import Group, sample_of
from guidegen.guide.templates import fill
from guidegen.guide.wobble import seen_travel


def charts_page(edition: Edition, made: list[Group]) -> Page:
    """What holds for all pairs: causes, reactions, deflection; and the way to the wobble charts."""
    kits = []
    for number, kit in enumerate(edition.kits):
        own = [group for group in made if group.kit == kit.id]
        bending = next((g for g in own if not g.first.single), None)
        if own:
            kits.append(
                (
                    kit,
                    own,
                    cause_chart.shares(own, kit.title, number),
                    bending and load_charts.deflection(bending, edition, number),
                )
            )
    samples = {group.key: sample_of(group) for group in made if not group.first.single}
    body = fill(
        "charts",
        kits=kits,
        reactions=load_charts.reactions(),
        measures=edition.measures,
        course=edition.course,
        samples={key: (result, seen_travel(result)) for key, result in samples.items()},
    )
    return Page(
        "charts.html",
        "How far does it wobble?",
        body,
        (
            Heading(2, "wobble", "Wobble against separation"),
            Heading(2, "causes", "Where it comes from"),
            Heading(2, "reactions", "Reactions"),
            Heading(2, "deflection", "Deflection"),
        ),
        in_search=True,
        description="Charts: wobble against separation, its causes, reactions and deflection.",
    )
