"""Plans of which none is better in one thing without being worse in another."""

from typing import Any

import altair as alt

from app.figures.look import DOES, USUAL, Look, config
from app.figures.plot import FIT, chart_of
from optimizer.model.household import Scenario
from optimizer.report.measures import Measures
from optimizer.report.tradeoff import gap_words, scale_of, value_words, what_it_is
from optimizer.studies.frontier import Frontier

HEIGHT_PX = 320

Row = dict[str, Any]


def frontier_data(
    found: Frontier, scenario: Scenario, system: Measures, chosen: int | None
) -> list[Row]:
    """Set out the points in the units of the axes.

    Parameters
    ----------
    found
        The frontier.
    scenario
        Its household.
    system
        The measures.
    chosen
        Number of the plan that is open, from 1.
    """
    first, second = found.goals
    across, up = (scale_of(goal, scenario, system).factor for goal in found.goals)
    return [
        {
            "x": point.values[0] * across,
            "y": point.values[1] * up,
            "number": str(number),
            "chosen": number == chosen,
            "told": f"plan {number}: {value_words(first, point.values[0], scenario, system)}, "
            f"{value_words(second, point.values[1], scenario, system)}; "
            f"{what_it_is(point, found, scenario)}, proven within {gap_words(point)}",
        }
        for number, point in enumerate(found.points, start=1)
    ]


def frontier_chart(
    found: Frontier, scenario: Scenario, system: Measures, look: Look, chosen: int | None = None
) -> alt.LayerChart:
    """Draw a frontier.

    Parameters
    ----------
    found
        The frontier.
    scenario
        Its household.
    system
        The measures.
    look
        By day or by night.
    chosen
        Number of the plan that is open, from 1: it is drawn full.
    """
    rows = frontier_data(found, scenario, system, chosen)
    across, up = (scale_of(goal, scenario, system) for goal in found.goals)
    chart = chart_of(rows).encode(
        x=alt.X("x:Q", title=across.title, scale=alt.Scale(zero=True), axis=alt.Axis(tickCount=8)),
        y=alt.Y(
            "y:Q",
            title=up.title,
            scale=alt.Scale(zero=True),
            axis=alt.Axis(titleAngle=0, titleAlign="left", titleAnchor="end", titleY=-10, titleX=0),
        ),
    )
    blue = DOES["cooker"].colour
    there = {bool(row["chosen"]) for row in rows}  # a layer of nothing has no words for a reader
    dots = [
        chart.transform_filter(f"datum.chosen == {str(chosen).lower()}")
        .mark_point(size=420, filled=True, color=fill, stroke=blue, strokeWidth=2, opacity=1)
        .encode(tooltip=alt.Tooltip("told:N", title=None), description=alt.Description("told:N"))
        for chosen, fill in ((False, look.paper), (True, blue))
        if chosen in there
    ]
    words = [
        chart.transform_filter(f"datum.chosen == {str(chosen).lower()}")
        .mark_text(color=ink, fontSize=USUAL, fontWeight="bold")
        .encode(text=alt.Text("number:N"))
        for chosen, ink in ((False, look.ink), (True, "#ffffff"))
        if chosen in there
    ]
    line = chart.mark_line(color=look.soft, strokeDash=[3, 3], aria=False)
    told = "; ".join(str(row["told"]) for row in rows)
    drawn: alt.LayerChart = alt.LayerChart(
        layer=[line, *dots, *words],
        height=HEIGHT_PX,
        width="container",
        autosize=FIT,
        description=f"{across.title} against {up.title}. {told}.",
    ).configure(**{**config(look), "padding": {"top": 24, "left": 4, "right": 8, "bottom": 4}})
    return drawn
