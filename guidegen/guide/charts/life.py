"""Rating life of the ball bearings of a kit against their load, up to what dents them."""

from typing import NamedTuple, Sequence

import numpy as np

from guidegen.guide.charts.style import DASHES, POUNDS, ROOM, TALL, End, Other, Told, plot, width_of
from guidegen.guide.measures import Measures
from guidegen.guide.trials import HOURS, SPEED
from guidegen.joint.records import Result
from guidegen.kit.records import BallBearing
from guidegen.numbers import show_number
from guidegen.theory import ball

LIGHTEST = 10.0  # N, where the lines begin
POINTS = 2  # a line on logarithmic scales
TURNS_AN_HOUR = 3600 * SPEED / 1e6  # million
STATIC = 2.0  # factor that keeps the grooves whole


class Rating(NamedTuple):
    """Ball bearings with the same ratings, N, and the joints in which they are worked."""

    ids: tuple[str, ...]
    dynamic: float
    static: float

    @property
    def heaviest(self) -> float:
        """The equivalent load beyond which no life is told."""
        return 0.5 * self.dynamic

    @property
    def denting(self) -> float:
        """The equivalent load that leaves the static factor wanted."""
        return self.static / STATIC


class Point(NamedTuple):
    """A bearing of a joint: equivalent load, N, and its rating life, million turns."""

    load: float
    life: float


def charts(found, made, trials, course):
    """A chart for each kit that holds ball bearings."""
    for kit in (course.kits[id] for id in dict.fromkeys(group.kit for group in made)):
        results = [result for group in made if group.kit == kit.id for result in group.results]
        rated = ratings(results)[: len(DASHES)]
        if rated:
            tried = [
                r for one in trials if one.kit.id == kit.id for t in one.tried for r in t.trials.values()
            ]
            _chart(found, f"life-{kit.id}", kit, rated, [points(one, tried) for one in rated], course)


def ratings(results: Sequence[Result]) -> list[Rating]:
    """The ratings of the ball bearings in these joints, each once, the strongest first."""
    found: dict[tuple[float, float], dict[str, None]] = {}
    for result in results:
        for n, bearing in enumerate(result.joint.bearings, 1):
            if isinstance(bearing, BallBearing) and f"dynamic_rating_{n}" in result.inputs:
                both = tuple(result.inputs[f"{kind}_rating_{n}"].typical for kind in ("dynamic", "static"))
                found.setdefault(both, {})[bearing.id] = None
    return [Rating(tuple(ids), *both) for both, ids in sorted(found.items(), reverse=True)]


def points(rating: Rating, results: Sequence[Result]) -> list[Point]:
    """Each bearing of these ratings that has a rating life, by the load that stands for all it carries."""
    found = {}
    for result in results:
        loads = {step.gives: step.result for step in result.steps}
        for n, bearing in enumerate(result.joint.bearings, 1):
            if bearing.id in rating.ids and f"rating_life_{n}" in result.quantities:
                point = Point(loads[f"equivalent_load_{n}"], result.quantities[f"rating_life_{n}"].typical)
                found[f"{point.load:.2g}"] = point
    return sorted(found.values())


def _chart(found, id, kit, rated, marked, course):
    measures = Measures(course.units_first)
    told = _words(kit, rated, marked, measures)
    heaviest = max(one.heaviest for one in rated)
    wanted = ball.wanted_turns(SPEED, HOURS * ball.HOUR)
    lightest = min([LIGHTEST, *(point.load for places in marked for point in places)])
    names = [_name(one) for one in rated]
    with plot(found, id, told, height=TALL) as drawn:
        axes = drawn.axes
        top = ball.rating_life(rated[0].dynamic, lightest)
        axes.set(xscale="log", yscale="log")
        room = ROOM + max(width_of(name) for name in names)
        stretch = (heaviest / lightest) ** (drawn.width / (drawn.width - room))
        axes.set(xlim=(lightest, lightest * stretch), ylim=(0.3 * wanted, 3 * top))
        drawn.frame()
        drawn.across("equivalent load _P_, N", lightest, heaviest, POUNDS)
        drawn.up("rating life _L_10_, million turns", Other("hours at 30 turns a minute", TURNS_AN_HOUR))
        drawn.level(wanted, lightest, heaviest, "ink", linestyle=(0, (9, 3)), linewidth=1.6)
        drawn.words(lightest, wanted, f"wanted: {HOURS:g} h", by=(5, 8))
        ends = []
        for number, (one, name) in enumerate(zip(rated, names), 1):
            loads = np.geomspace(lightest, one.heaviest, POINTS)
            drawn.line(number, loads, ball.rating_life(one.dynamic, loads))
            ends.append(End(one.heaviest, ball.rating_life(one.dynamic, one.heaviest), name, number))
            low, high = ball.rating_life(one.dynamic, one.denting) * np.array([0.2, 5])
            drawn.upright(one.denting, low, high, number, linewidth=2.4)
            if number == 1:
                drawn.words(one.denting, high, "may dent", number, by=(5, -3))
            if marked[number - 1]:
                drawn.markers(number, *zip(*marked[number - 1]), hollow=True)
        if any(marked):
            number = next(number for number, places in enumerate(marked, 1) if places)
            drawn.tell_markers([(number, True, "bearing in a trial")])
        drawn.label_ends(ends, clear=18)


def _name(rating: Rating) -> str:
    return rating.ids[0] + (f" +{len(rating.ids) - 1}" if len(rating.ids) > 1 else "")


def _words(kit, rated, marked, measures: Measures):
    text = []
    for one in rated:
        whole = ball.rating_life(one.dynamic, one.heaviest)
        text.append(
            f"{' and '.join(one.ids)}: dynamic rating {measures.value(one.dynamic, 'N').line}, static "
            f"{measures.value(one.static, 'N').line}; under {measures.value(one.heaviest, 'N').line}, half "
            "the "
            f"dynamic rating, {show_number(whole)} million turns; more has no rating life. From "
            f"{measures.value(one.denting, 'N').line} on, half the static rating, the balls may dent their "
            "grooves."
        )
    if seen := sorted(point for places in marked for point in places):
        load = measures.range(seen[0].load, seen[-1].load, "N").line
        least = show_number(min(point.life for point in seen), 2)
        text.append(f"In the trials of this kit bearings carry {load}: {least} million turns and more.")
    how = (
        "Go up from the load that stands for radial load and thrust together, to the line of the bearing; "
        "nine of "
        "ten bearings last that long or longer. A line ends at half the dynamic rating, where no life is "
        "told; "
        "the short stroke across it is half the static rating, where dents begin. Dirt and rust end a "
        "bearing in a "
        "greenhouse long before."
    )
    if any(len(one.ids) > 1 for one in rated):
        how += " A number after a plus says how many more bearings have the same ratings."
    first = rated[0]
    left = show_number(ball.rating_life(first.dynamic, first.denting), 2)
    see = (
        f"Half the load, eight times the life; but {first.ids[0]} may dent from "
        f"{measures.value(first.denting, 'N').line} on, where its life would still be {left} million turns."
    )
    return Told(f"Rating life against load: ball bearings of the {kit.title}", " ".join(text), how, see)
