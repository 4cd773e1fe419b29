"""Joints in warmth, cold and damp: clearance, interference and end play there, and what goes wrong."""

from math import isfinite
from typing import Iterator, NamedTuple

from guidegen.joint.climate import Climate, climates, grows, humidity_at
from guidegen.joint.findings import Findings
from guidegen.joint.growing import NOW, Sitting, Warmed, over_sizes, sitting, sizes_of, warmed
from guidegen.joint.growing_stack import Change, end_play_in
from guidegen.joint.inputs import Seat
from guidegen.joint.pressing import numbered
from guidegen.joint.records import Quantity, Stack
from guidegen.joint.verdicts import Yes
from guidegen.numbers import show_number, written
from guidegen.theory import heat

ABOUT = {"cold": "heat", "hot": "heat", "damp": "water"}  # the check that a climate is told under
LOOSE, SQUEEZED, SEIZES = ("comes loose in its hole", "squeezes its balls", "seizes on the shaft")
HALF = 2  # times a change of end play that takes half of it


class Trouble(NamedTuple):
    """What goes wrong in a climate: at typical sizes, or only at the worst within their limits."""

    fails: bool
    when: str
    bearing: int  # 0 for the stack
    words: str


def warming(found: Findings, stack: Stack | None):
    """Clearance, interference and end play, cold, hot and damp; what goes wrong there, as answers."""
    weather = climates(found.joint)
    _given(found, weather)
    troubles: dict[str, list[Trouble]] = {"heat": []}
    for n, seat in enumerate(found.seats, 1):
        for climate, told in _seat(found, n, seat, weather):
            troubles.setdefault(ABOUT[climate.name], []).extend(told)
    if stack is not None:
        changes = {climate: end_play_in(found, stack, climate) for climate in weather}
        known = {climate: change for climate, change in changes.items() if change is not None}
        for about in dict.fromkeys(ABOUT.values()):
            ends = [climate for climate in known if ABOUT[climate.name] == about]
            if ends:  # the worse of cold and hot is told
                worst = min(ends, key=lambda climate: known[climate].play.typical)
                troubles.setdefault(about, []).extend(_of_stack(found, stack, worst, known[worst]))
    found.answers |= {about: _answer(told) for about, told in troubles.items()}


def _given(found, weather):
    """How warm, cold and damp it gets, and what makes parts grow."""
    cold, hot, damp = weather
    found.given |= {"coldest": Quantity("K", cold.rise), "warmest": Quantity("K", hot.rise)}
    screw = found.course.materials[found.joint.shaft.material]
    found.given["screw_expansion"] = Quantity("1/K", screw.expansion)
    for n, (seat, housing) in enumerate(zip(found.seats, found.joint.housings), 1):
        of = {"": found.course.materials[seat.bearing.material], "housing_": housing.stock}
        for whose, one in of.items():
            grown = grows(one.expansion, one.swells, damp)
            found.given[f"{whose}expansion_{n}"] = Quantity("1/K", grown.expansion)
            if grown.water.width:
                found.given[f"{whose}water_growth_{n}"] = Quantity("-", band=grown.water)


def _seat(found, n, seat: Seat, weather) -> Iterator[tuple[Climate, list[Trouble]]]:
    """One bearing in each climate that changes it; steps for the one in which it has least room or hold."""
    housing = found.joint.housings[n - 1]
    pressed = housing.fit == "press"
    made = {"now": over_sizes(sitting(seat, found, housing, NOW), NOW)}
    ones = {climate: sitting(seat, found, housing, climate) for climate in weather}
    ones = {climate: one for climate, one in ones.items() if not climate.air or one.drinks}
    for climate, one in ones.items():
        at = made[climate.name] = over_sizes(one, climate)
        found.quantities[f"clearance_{climate.name}_{n}"] = at.clearance
        if pressed:
            found.quantities[f"interference_{climate.name}_{n}"] = at.interference
    worst = _least_room if not pressed or any(one.swells for one in ones.values()) else _least_hold
    climate = min(ones, key=lambda climate: worst(made[climate.name]))
    sizes = {name: band.typical for name, band in sizes_of(ones[climate]).items()}
    warmed(ones[climate], climate, sizes, numbered(found, n))
    for climate, one in ones.items():
        base = made["hot" if climate.air else "now"]
        yield (climate, list(_told(found, n, one, climate, base, made[climate.name], pressed)))


def _least_room(at: Warmed) -> float:
    return at.room


def _least_hold(at: Warmed) -> float:
    return at.interference.typical


def _told(found, n, one: Sitting, climate, base: Warmed, at: Warmed, pressed) -> Iterator[Trouble]:
    """What a climate does to one bearing that was not so before."""
    if pressed:
        yield from _below(n, climate, base.interference, at.interference, LOOSE, "interference")
    if one.ball:
        yield from _below(n, climate, base.margin, at.margin, SQUEEZED, "room left for them")
        return
    for trouble in _below(n, climate, base.fit, at.fit, SEIZES, "bore less shaft"):
        when = _seizes_from(found, n, one, climate, base) if one.swells else ""
        yield trouble._replace(words=trouble.words + when)


def _below(n, climate: Climate, base: Quantity, at: Quantity, what, of) -> Iterator[Trouble]:
    """Whether a room or a grip that was there is there no more."""
    fails = at.typical < 0 <= base.typical
    if not fails and not (at.band.least < 0 <= base.band.least):
        return
    was, now = (one.typical if fails else one.band.least for one in (base, at))
    number = f"{of} {_mm(was)} before, {_mm(now)} then"
    may = "" if fails else " at the worst sizes within their limits"
    yield Trouble(fails, climate.words, n, f"{what}{may} ({number})")


def _seizes_from(found, n, one: Sitting, climate: Climate, base: Warmed) -> str:
    """The humidity from which a bush that swells has closed up, at typical sizes."""
    fit, bore = base.fit.typical, base.fit.typical + one.shaft.typical
    if fit <= 0:
        return ""
    beyond = numbered(found, n)(heat.seizing_growth, "seizing_growth", c=fit, d_f=bore, D=one.outside.typical)
    gap = 0.0 if one.bonded else max(0.0, -base.interference.typical) / one.outside.typical
    housing = heat.growth(one.housing.expansion, climate.rise, one.housing.water.typical)
    own = beyond + gap + housing - heat.growth(one.bearing.expansion, climate.rise, 0.0)
    humidity = humidity_at(own, found.course.materials[found.seats[n - 1].bearing.material].swells)
    return f", from about {show_number(humidity, 2)} % humidity on" if isfinite(humidity) else ""


def _of_stack(found, stack: Stack, climate: Climate, change: Change) -> Iterator[Trouble]:
    """Whether the end play that was chosen is still there."""
    lost, most = _mm(-change.play.typical), _mm(-change.play.least)
    by = f"of end play, most of it by {change.most_by}"
    if found.joint.clamped:  # the rings may miss each other either way: what counts is the play if they match
        left = stack.at_typical
        if left >= 0 > left + HALF * change.play.typical:
            goes = left + change.play.typical < 0
            what = (
                "however well the rings match, the balls are squeezed"
                if goes
                else ("more than half of what rings that match leave")
            )
            yield Trouble(goes, climate.words, 0, f"loses {lost} {by}: {what}")
        return
    low, high = stack.window
    if (low + high) / 2 + change.play.typical < 0:
        yield Trouble(True, climate.words, 0, f"loses {lost} {by}: it pinches")
    elif low + change.play.least < 0:
        what = "choose washers that leave that much or more"
        yield Trouble(False, climate.words, 0, f"loses up to {most} {by}: {what}")


def _mm(length: float) -> str:
    return written(length, "mm", 2)


def _answer(told: list[Trouble]) -> Yes:
    """What fails, or else what may; what befalls both bearings alike is said once."""
    fails = [trouble for trouble in told if trouble.fails]
    alike: dict[tuple[str, str], list[int]] = {}
    for trouble in fails or told:
        alike.setdefault((trouble.when, trouble.words), []).append(trouble.bearing)
    said = []
    for (when, words), bearings in alike.items():
        who = f"bearing {' and '.join(map(str, bearings))}" if any(bearings) else "the stack"
        said.append(f"{when} {who} {words}")
    return Yes(not fails, not told, "; ".join(said))
