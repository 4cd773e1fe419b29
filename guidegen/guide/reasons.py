"""Why each check of a joint came out as it did: numbers and limits in both units, alike bearings once."""

from functools import cache
from typing import NamedTuple

from guidegen.guide.measures import MANY_TIMES, Both, Measures
from guidegen.joint.records import Result, Verdict
from guidegen.kit.records import Course
from guidegen.kit.tables import read_table
from guidegen.numbers import digits_apart, percent, written
from guidegen.theory import freeplay

DIGITS = 3
FACTORS = (
    "yield_factor",
    "endurance_factor",
    "static_factor",
    "hold_factor_later",
)  # over a hundred is enough
CHANCES = ("chance", "risk")
AT_EDGE = ("edge_pressure", "end_pressure")  # formulas of what presses there
EDGE = "pressure at the edge of the bush, with shock"


class Checked(NamedTuple):
    """A check as the page tells it; `source` of its limit, and whether it is named for the first time."""

    verdict: Verdict
    why: str
    source: str
    first: bool


def checks_of(result: Result, course: Course, measures: Measures) -> list[Checked]:
    """Each verdict and its reason, the worst first; what is alike at both bearings stands once."""
    found: dict[tuple, list[Verdict]] = {}
    for verdict in result.verdicts:
        told = _Reason(verdict, result, course, measures)
        found.setdefault((verdict.about, verdict.state, told.words, told.numbers), []).append(verdict)
    rows, named = [], set()
    for (*_, words, numbers), same in found.items():
        one = same[0]
        why = words + _place(same, result.joint.single) + (f": {numbers}" if numbers else "")
        source = "" if one.limit is None else one.source
        rows.append(Checked(one, why, source, source not in named))
        named.add(source)
    return rows


class WayOut(NamedTuple):
    """The worked joint that is better in some check, by id, or what the search for one tried."""

    id: str
    tried: str


def ways_out(checks: list[Checked]) -> list[tuple[WayOut, list[Checked]]]:
    """The checks that do not hold or need care, those with the same way out together."""
    found: dict[WayOut, list[Checked]] = {}
    for check in checks:
        verdict = check.verdict
        if verdict.counts_as != "holds":
            found.setdefault(WayOut(verdict.instead or "", verdict.tried), []).append(check)
    return list(found.items())


def headline(checks: list[Checked], chosen: str) -> str:
    """How many of the listed checks hold, need care or fail; upkeep is told apart.

    `chosen`: what `chosen_end_play` says.
    """
    states = [check.verdict.counts_as for check in checks]
    care, fail = states.count("take care"), states.count("does not hold")
    need = f"{care} {'needs' if care == 1 else 'need'} care"
    if fail:
        fails = f"{fail} of {len(checks)} checks {'fails' if fail == 1 else 'fail'}"
        return f"{fails}, {need}:" if care else f"{fails}:"
    if care:
        return f"{need.replace(' ', f' of {len(checks)} checks ', 1)}:"
    return f"All {len(checks)} checks hold at the worst sizes{chosen and ', ' + chosen}."


def chosen_end_play(result: Result, measures: Measures) -> str:
    """What "end play holds" rests on, where unmeasured parts may pinch; "" where they cannot, or it fails."""
    stack = result.stack
    judged = {verdict.about: verdict.state for verdict in result.verdicts}
    if stack is None or stack.end_play.least >= 0 or judged.get("end play") != "holds":
        return ""
    unmeasured = measures.range(stack.end_play.least, stack.end_play.most, "mm").line
    return f"end play only once washers and spacers are chosen by measuring; unmeasured it is {unmeasured}"


def at_edge(result: Result) -> bool:
    """Whether what presses hardest on a bush that is alone is its edge: its load lies off its middle."""
    return any(step.formula in AT_EDGE and step.gives == "pressure_1" for step in result.steps)


def _place(same, single) -> str:
    number = same[0].name.rpartition("_")[2]
    if single or number not in ("1", "2"):
        return ""
    return ", each bearing" if len(same) > 1 else f", bearing {number}"


class _Reason:
    """What is looked at, and what it comes to against what is wanted; yes/no checks have words only."""

    def __init__(self, verdict: Verdict, result: Result, course: Course, measures: Measures):
        self.verdict, self.result, self.course, self.measures = verdict, result, course, measures
        self.words, self.numbers = verdict.why, ""
        if not verdict.name:
            return
        self.quantity, self.safe = result.quantities[verdict.name], verdict.state == "holds"
        self.stem = verdict.name.removesuffix("_1").removesuffix("_2")
        self.check = _judged_by()[verdict.about, self.stem]
        self.words = EDGE if self.stem == "pressure" and at_edge(result) else self.check["in_words"]
        self.numbers = self._numbers() + self._more()

    def _digits(self, per=1.0) -> int:
        """As many as it takes to tell a number from the limit that it fails; `per`: of the unit shown."""
        verdict = self.verdict
        told = self.quantity.typical if verdict.state == "does not hold" else verdict.number
        return DIGITS if self.safe else digits_apart(per * told, per * verdict.limit, verdict.unit, DIGITS)

    def _numbers(self) -> str:
        sense, limit = self.check["sense"], self.verdict.limit
        if self.stem == "seen_tilt":
            return self._wobble()
        if sense in CHANCES:
            most = "most" if sense == "risk" else "least"
            return f"{percent(self.quantity.value)}; wanted: at {most} {percent(limit)}"
        if sense == "share":
            share, wanted = (written(100 * x, "%", self._digits(100)) for x in (self.quantity.value, limit))
            return f"{share}; wanted: at least {wanted}"
        found = self._found(self._shown)
        if sense == "ceiling":
            design, ceiling = (self._shown(self._material(end)).line for end in ("design", "ceiling"))
            return f"{found}; wanted: below {design}, never above {ceiling}"
        return f"{found}; wanted: at {sense} {self._shown(limit).line if limit else '0'}"

    def _found(self, shown) -> str:
        """The number, of a band its typical and its worst."""
        if self.quantity.band is None:
            return shown(self.verdict.number).line
        return f"{shown(self.quantity.typical).line}, at worst {shown(self.verdict.number).line}"

    def _shown(self, x: float) -> Both:
        unit = self.quantity.unit
        if self.stem in FACTORS and (self.safe or x > MANY_TIMES):
            return self.measures.factor(x)
        if unit in ("-", "h"):
            return Both(written(x, unit, self._digits()), "")
        return (self.measures.sensed if self.safe else self.measures.value)(x, unit, self._digits())

    def _wobble(self) -> str:
        """Travel of the arm's tip, and as a tilt; what the course wants, at this arm and as a tilt."""
        arm, exact = self.result.joint.arm, self.measures.exact
        self.words = f"travel of the arm's tip, {self.measures.value(arm, 'mm').line} from the screw"

        def travel(tilt):
            return self.measures.value(freeplay.arm_travel(arm, tilt), "mm", self._digits())

        def tilt(x):
            return Both(written(x, "rad", self._digits()), "")

        limit, course = self.verdict.limit, self.course
        own = f", the course's {exact(course.target_travel).first} at {exact(course.target_arm).first}"
        return (
            f"{self._found(travel)}; wanted: at most {travel(limit).line}{own * (arm != course.target_arm)}. "
            f"As a tilt each way: {self._found(tilt)}; wanted: at most {tilt(limit).first}"
        )

    def _material(self, end) -> float:
        """Limit of a bush's material; of the weaker where both bushes share the number."""
        number = self.verdict.name.rpartition("_")[2]
        numbers = [number] if number in ("1", "2") else ["1", "2"]
        names = (f"{self.stem}_{end}_{n}" for n in numbers)
        return min(self.result.inputs[name].value for name in names if name in self.result.inputs)

    def _more(self) -> str:
        """What helps where it is near, or what happens where it does not hold."""
        state, sense = self.verdict.state, self.check["sense"]
        if state == "does not hold":
            return f"; {self.check['otherwise']}" if self.check["otherwise"] else ""
        if state == "take care" and sense == "share":
            return "; measure the parts, then choose"
        plain = self.quantity.band is None and sense in ("least", "most", "chance")
        return ", better with a fifth to spare" if state == "take care" and plain else ""


@cache
def _judged_by():
    """Rows of the checks, by what they are about and the quantity that they judge."""
    return {(row["about"], row["quantity"]): row for row in read_table("checks").rows}
