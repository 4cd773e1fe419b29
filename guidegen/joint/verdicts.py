"""Judges a joint by the checks of checks.csv: holds, take care, or does not hold, with the reason."""

from dataclasses import dataclass, replace
from typing import Mapping

from guidegen.joint.records import STATES, Quantity, State, Verdict
from guidegen.kit.tables import read_table
from guidegen.numbers import digits_apart, percent, written

SPARE = 0.2  # of the limit, that a number without a band must have to spare
ENDS = ("design", "ceiling")
TAKE_CARE_FROM = 0.5  # share of stacks below which measuring first is no help


@dataclass(frozen=True)
class Yes:
    """The answer to a yes/no check: at typical sizes, at every corner, and what speaks against it."""

    typical: bool
    always: bool
    why: str = ""


def judge(quantity: Quantity, sense: str, limit: float) -> State:
    """State of a number or band against a limit, `sense` being "least" or "most"."""
    sign = 1 if sense == "least" else -1
    if sign * (quantity.typical - limit) < 0:
        return "does not hold"
    if quantity.band is None:
        return "holds" if sign * (quantity.value - limit) >= SPARE * abs(limit) else "take care"
    worst = quantity.band.least if sense == "least" else quantity.band.most
    return "holds" if sign * (worst - limit) >= 0 else "take care"


def verdicts(
    quantities: Mapping[str, Quantity], answers: Mapping[str, Yes], limits: Mapping[str, float]
) -> tuple[Verdict, ...]:
    """A verdict for every check that applies, the worst first."""
    found = []
    for check in read_table("checks").rows:
        if check["sense"] in ("yes", "upkeep"):
            if check["quantity"] in answers:
                found.append(_answered(check, answers[check["quantity"]]))
            continue
        for name, quantity in quantities.items():
            stem, _, number = name.rpartition("_")
            if name != check["quantity"] and not (stem == check["quantity"] and number in ("1", "2")):
                continue
            at = f" at bearing {number}" if stem == check["quantity"] else ""
            if check["sense"] == "ceiling":
                design, ceiling = (_limit(f"{check['quantity']}_{end}", number, limits) for end in ENDS)
                found.append(replace(_below_ceiling(check, quantity, design, ceiling, at), name=name))
                continue
            limit = _limit(check["limit"], number, limits)
            if limit is not None:
                judged = {"share": _share, "chance": _chance, "risk": _risk}.get(check["sense"], _measured)
                found.append(replace(judged(check, quantity, limit, at), name=name))
    return tuple(sorted(found, key=_worst_first))


def _worst_first(verdict: Verdict):
    return -STATES.index(verdict.counts_as), -STATES.index(verdict.state)


def _limit(cell, number, limits):
    try:
        return float(cell)
    except ValueError:
        return limits.get(cell, limits.get(f"{cell}_{number}"))


def _answered(check, yes: Yes) -> Verdict:
    state: State = "holds" if yes.always else "take care" if yes.typical else "does not hold"
    return Verdict(
        check["about"],
        state,
        None,
        None,
        "",
        yes.why or f"yes: {check['in_words']}",
        check["source"],
        upkeep=check["sense"] == "upkeep",
    )


def _measured(check, quantity, limit, at) -> Verdict:
    state = judge(quantity, check["sense"], limit)
    worst = (
        quantity.typical
        if quantity.band is None
        else quantity.band.least
        if check["sense"] == "least"
        else quantity.band.most
    )
    told = quantity.typical if state == "does not hold" else worst
    digits = 3 if state == "holds" else digits_apart(told, limit, quantity.unit)
    number, typical, wanted = (written(x, quantity.unit, digits) for x in (worst, quantity.typical, limit))
    if quantity.band is not None:
        number = f"{typical}, at worst {number}"
    why = f"{check['in_words']}{at}: {number}; wanted: at {check['sense']} {wanted}"
    if state == "take care" and quantity.band is None:
        why += ", better with a fifth to spare"
    return Verdict(
        check["about"], state, worst, limit, quantity.unit, why + _otherwise(check, state), check["source"]
    )


def _below_ceiling(check, quantity, design, ceiling, at) -> Verdict:
    """Two limits: a design value to stay below, and what never to pass; the one that counts is the limit."""
    number = quantity.value
    state: State = "holds" if number <= design else "take care" if number <= ceiling else "does not hold"
    limit = ceiling if state == "does not hold" else design
    digits = 3 if state == "holds" else digits_apart(number, limit, quantity.unit)
    told, wanted, never = (written(x, quantity.unit, digits) for x in (number, design, ceiling))
    why = f"{check['in_words']}{at}: {told}; wanted: below {wanted}, never above {never}"
    why += _otherwise(check, state)
    return Verdict(check["about"], state, number, limit, quantity.unit, why, check["source"])


def _otherwise(check, state):
    """What happens when a check does not hold, as the end of its reason."""
    return f"; {check['otherwise']}" if state == "does not hold" else ""


def _chance(check, quantity, limit, at) -> Verdict:
    """A chance that should be large enough, a fifth to spare."""
    state = judge(quantity, "least", limit)
    why = f"{check['in_words']}{at}: {percent(quantity.value)}; wanted: at least {percent(limit)}"
    if state == "take care":
        why += ", better with a fifth to spare"
    return Verdict(
        check["about"], state, quantity.value, limit, "-", why + _otherwise(check, state), check["source"]
    )


def _risk(check, quantity, limit, at) -> Verdict:
    """A chance that should be small: seldom holds, more often than not does not."""
    often = 1 - TAKE_CARE_FROM
    state: State = (
        "holds" if quantity.value <= limit else "take care" if quantity.value <= often else "does not hold"
    )
    why = f"{check['in_words']}{at}: {percent(quantity.value)}; wanted: at most {percent(limit)}"
    return Verdict(
        check["about"], state, quantity.value, limit, "-", why + _otherwise(check, state), check["source"]
    )


def _share(check, quantity, limit, at) -> Verdict:
    share = quantity.value
    state: State = "holds" if share >= limit else "take care" if share >= TAKE_CARE_FROM else "does not hold"
    digits = 3 if state == "holds" else digits_apart(100 * share, 100 * limit, "%")
    told, wanted = (written(100 * x, "%", digits) for x in (share, limit))
    why = f"{check['in_words']}: {told}; wanted: at least {wanted}"
    if state == "take care":
        why += "; measure the parts, then choose"
    return Verdict(check["about"], state, share, limit, "-", why + _otherwise(check, state), check["source"])
