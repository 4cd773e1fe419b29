"""What wobble comes from, as bars: to the right what adds to it, to the left what takes away."""

from collections import Counter

import numpy as np

from guidegen.guide.chart import ROLES, SIZE, Figure, chart
from guidegen.guide.names import CAUSES
from guidegen.guide.pairs import Group, by_housing
from guidegen.guide.templates import ready
from guidegen.numbers import said

SHOWN = 0.12  # a share of this size has room for its number
CAUSE_STYLES = {
    "shoulder": ("a", "//"),
    "bearing": ("b", "\\\\"),
    "housing": ("c", "--"),
    "closure": ("d", "xx"),
    "together": ("e", ""),
}


def shares(groups: list[Group], kit_title: str, number: int) -> Figure:
    """What the wobble of each kind of bearing comes from, in per cent of its typical tilt."""
    rows = [(group, result) for group in groups for result in by_housing(group) if result.shares]
    labels = [
        f"{'single ' * group.first.single}{' + '.join(dict.fromkeys(b.id for b in group.first.bearings))}"
        f"\n{result.joint.housings[0].stock.id}{', clamped' * group.first.clamped}"
        for group, result in rows
    ]
    title = f"Causes of wobble, {kit_title}"
    largest = Counter(max(result.shares, key=result.shares.get) for _, result in rows)
    most, second = ([f"{cause} for {count}" for cause, count in largest.most_common()] + [""])[:2]
    says = (
        f"Of {len(rows)} kinds of joints the largest cause is the {most}{f', the {second}' * bool(second)}. "
        "All numbers stand below the chart."
    )
    numbers = [("Joints", *CAUSES)] + [
        (label.replace("\n", ", "), *(_percent(result.shares.get(cause, 0.0)) for cause in CAUSES))
        for label, (_, result) in zip(labels, rows)
    ]
    name = f"c{number}"
    with chart(name, title, says, size=(SIZE[0], 1.5 + 0.42 * len(rows)), margins=None) as drawn:
        _draw_shares(drawn, labels, [result.shares for _, result in rows])
    return Figure(name, title, ready(drawn.svg), says, tuple(numbers))


def _percent(share: float) -> str:
    return f"{said(round(100 * share), '')} %"


def _draw_shares(drawn, labels, rows):
    axes, places = drawn.axes, np.arange(len(rows))
    ends = {
        1: np.zeros(len(rows)),
        -1: np.zeros(len(rows)),
    }  # how far bars reach to the right and to the left
    for cause, (role, hatch) in CAUSE_STYLES.items():
        values = np.array([100 * row.get(cause, 0.0) for row in rows])
        for side in (1, -1):
            part = np.where(side * values > 0.5, values, 0.0)
            if not part.any():
                continue
            axes.barh(
                places, part, left=ends[side], height=0.62, facecolor=ROLES[role], alpha=0.4, linewidth=0
            )
            axes.barh(
                places,
                part,
                left=ends[side],
                height=0.62,
                facecolor="none",
                edgecolor=ROLES["ink"],
                hatch=hatch,
                linewidth=0.7,
                label=CAUSES[cause].partition(":")[0] if side > 0 or cause == "closure" else None,
            )
            for y, size, start in zip(places, part, ends[side]):
                if abs(size) >= 100 * SHOWN:
                    axes.annotate(
                        f"{size:.0f}".replace("-", "−"),
                        (start + size / 2, y),
                        ha="center",
                        va="center",
                        bbox={"facecolor": ROLES["paper"], "edgecolor": "none", "pad": 1.2},
                    )
            ends[side] = ends[side] + part
    axes.axvline(0, color=ROLES["ink"], linewidth=1)
    axes.set_yticks(places, labels)
    axes.invert_yaxis()
    axes.grid(False, axis="y")
    axes.set_xlabel("share of the typical tilt, %")
    axes.legend(loc="upper center", bbox_to_anchor=(0.4, -0.9 / len(rows) - 0.05), ncols=2, fontsize=9)
