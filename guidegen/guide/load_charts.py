"""Reactions and deflection against the place of the load, on one axis from straddle to overhung."""

import numpy as np

from guidegen.guide.chart import ROLES, Figure, chart
from guidegen.guide.curves import deflection_over_place, reactions_over_place
from guidegen.guide.edition import Edition
from guidegen.guide.pairs import Group
from guidegen.guide.templates import ready


def reactions() -> Figure:
    """Both reactions over the load, on one axis from a load between the bearings to one far beyond."""
    places = np.linspace(-1, 1.5, 51)
    first, second = reactions_over_place(places)
    title = "Reactions against the place of the load"
    says = (
        "With the load midway between the bearings each carries half of it. At bearing 2 that bearing "
        "carries all. One separation beyond, it carries twice the load, and bearing 1 pulls back with all."
    )
    with chart("r", title, says, margins=(0.14, 0.97, 0.13, 0.97)) as drawn:
        axes = drawn.axes
        axes.axvspan(-1, 0, color=ROLES["c"], alpha=0.15, linewidth=0)
        axes.plot(places, second, color=ROLES["a"])
        axes.plot(places, first, color=ROLES["b"], linestyle="--")
        axes.axhline(0, color=ROLES["ink"], linewidth=0.8)
        axes.annotate(
            "bearing 2", (1.0, 2.0), xytext=(-6, 4), textcoords="offset points", ha="right", color=ROLES["a"]
        )
        axes.annotate(
            "bearing 1",
            (1.0, -1.0),
            xytext=(-6, -12),
            textcoords="offset points",
            ha="right",
            color=ROLES["b"],
        )
        axes.annotate("load between\nthe bearings", (-0.5, -1.3), ha="center", va="center")
        axes.annotate("load beyond bearing 2", (0.75, 2.75), ha="center", va="center")
        axes.set(
            xlim=(-1, 1.5),
            ylim=(-1.6, 3),
            xlabel="overhang over separation, a / S",
            ylabel="reaction over load, R / F",
        )
    return Figure("r", title, ready(drawn.svg), says)


def deflection(group: Group, edition: Edition, number: int) -> Figure:
    """How far the shaft of a kit bends at the load, from a load between the bearings to one beyond."""
    joint, measures = group.first, edition.measures
    built = sorted({round(result.joint.separation, 2) for result in group.worked})
    apart = [built[0], built[-1]] if len(built) > 1 else built
    reach = apart[0]

    def bends(separation, at):
        return measures.bend(float(deflection_over_place(joint, separation, [at])[0])).line

    def line(x, unit):
        return measures.value(x, unit).line

    title = f"Deflection against the place of the load, {line(joint.shaft.nominal, 'mm')} screw"
    says = (
        f"Load {line(joint.radial, 'N')}, and {line(joint.axial, 'N')} along the screw at a "
        f"{line(joint.arm, 'mm')} arm. Bearings {line(reach, 'mm')} apart: midway between them the shaft "
        f"bends {bends(reach, -reach / 2)}, with the load as far beyond bearing 2 {bends(reach, reach)}."
    )
    name = f"d{number}"
    with chart(name, title, says) as drawn:
        axes = drawn.axes
        for separation, role, dashes in zip(apart, "ab", ("-", "--")):
            places = np.linspace(-separation, reach, 60)
            bent = 1000 * deflection_over_place(joint, separation, places)
            axes.plot(places, bent, color=ROLES[role], linestyle=dashes)
            axes.annotate(
                f"{measures.length(separation)} apart",
                (places[-1], bent[-1]),
                xytext=(-6, 0),
                textcoords="offset points",
                ha="right",
                color=ROLES[role],
            )
        axes.axvline(0, color=ROLES["ink"], linewidth=1)
        axes.annotate(
            "bearing 2",
            (0, 1),
            xycoords=("data", "axes fraction"),
            xytext=(-3, -4),
            textcoords="offset points",
            ha="right",
            va="top",
            rotation=90,
        )
        axes.set(
            xlim=(-apart[-1], reach),
            ylim=(0, None),
            xlabel="load beyond bearing 2, mm (below 0: between)",
            ylabel="deflection, thousandths of a millimetre",
        )
        drawn.inches_too(y_label="thousandths of an inch")
    return Figure(name, title, ready(drawn.svg), says)
