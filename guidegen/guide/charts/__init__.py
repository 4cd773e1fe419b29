"""Charts of the guide: how far joints wobble and why, what they bear, how they wear and what starts them.

    pair_charts(group, course)              -> list[Chart]  wobble against separation, its causes, of a Group
    general_charts(groups, trials, course)  -> list[Chart]  pairs of a kit, causes, reactions, bending,
                                                            life, pressure and speed, wear, force to start
    CHART_CSS                               the style sheet all charts need, once on a page or site

`Chart.svg` goes into the page as it is: no style inside, colours by classes and currentColor, ids that
begin with `Chart.id`, its text alternative within. `how_to_read` belongs beside it. Matplotlib loads with
the first chart.
"""

from importlib.resources import files

from guidegen.guide.charts.series import general_charts, pair_charts
from guidegen.guide.charts.style import Chart

CHART_CSS = files("guidegen").joinpath("guide", "charts", "style.css").read_text(encoding="utf-8")

__all__ = ["CHART_CSS", "Chart", "general_charts", "pair_charts"]
