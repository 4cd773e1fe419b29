"""Judges a joint by the checks of checks.csv: holds, take care, or does not hold, with the reason."""

from dataclasses import dataclass
from typing import Mapping

from guidegen.joint.records import STATES, Quantity, State, Verdict
from guidegen.kit.tables import read_table
from guidegen.numbers import said

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
        if check["sense"] == "yes":
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
                found.append(_below_ceiling(check, quantity, design, ceiling, at))
                continue
            limit = _limit(check["limit"], number, limits)
            if limit is not None:
                found.append(
                    _share(check, quantity, limit)
                    if check["sense"] == "share"
                    else _measured(check, quantity, limit, at)
                )
    return tuple(sorted(found, key=lambda verdict: -STATES.index(verdict.state)))


def _limit(cell, number, limits):
    try:
        return float(cell)
    except ValueError:
        return limits.get(cell, limits.get(f"{cell}_{number}"))


def _answered(check, yes: Yes) -> Verdict:
    state: State = "holds" if yes.always else "take care" if yes.typical else "does not hold"
    return Verdict(
        check["about"], state, None, None, "", yes.why or f"yes: {check['in_words']}", check["source"]
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
    number = said(worst, quantity.unit)
    if quantity.band is not None:
        number = f"{said(quantity.typical, quantity.unit)}, at worst {number}"
    why = f"{check['in_words']}{at}: {number}; wanted: at {check['sense']} {said(limit, quantity.unit)}"
    if state == "take care" and quantity.band is None:
        why += ", better with a fifth to spare"
    return Verdict(
        check["about"], state, worst, limit, quantity.unit, why + _otherwise(check, state), check["source"]
    )


def _below_ceiling(check, quantity, design, ceiling, at) -> Verdict:
    """Two limits: a design value to stay below, and what never to pass; the one that counts is the limit."""
    number = quantity.value
    state: State = "holds" if number <= design else "take care" if number <= ceiling else "does not hold"
    said_number, wanted, never = (said(x, quantity.unit) for x in (number, design, ceiling))
    why = f"{check['in_words']}{at}: {said_number}; wanted: below {wanted}, never above {never}"
    limit = ceiling if state == "does not hold" else design
    why += _otherwise(check, state)
    return Verdict(check["about"], state, number, limit, quantity.unit, why, check["source"])


def _otherwise(check, state):
    """What happens when a check does not hold, as the end of its reason."""
    return f"; {check['otherwise']}" if state == "does not hold" else ""


def _share(check, quantity, limit) -> Verdict:
    share = quantity.value
    state: State = "holds" if share >= limit else "take care" if share >= TAKE_CARE_FROM else "does not hold"
    why = f"{check['in_words']}: {said(100 * share, '%')}; wanted: at least {said(100 * limit, '%')}"
    if state == "take care":
        why += "; measure the parts, then choose"
    return Verdict(check["about"], state, share, limit, "-", why + _otherwise(check, state), check["source"])
