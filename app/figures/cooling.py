"""How long one dish stays hot in a cooker: usual and careful, against what counts as hot."""

from collections.abc import Sequence
from typing import Any

import altair as alt

from app.figures.look import DOES, SMALL, Look
from app.figures.plot import chart_of, layered
from optimizer.report.measures import Measures, Us

HEIGHT_PX = 240
HOUR_MIN = 60

Row = dict[str, Any]


def cooling_data(curve: Sequence[tuple[int, float, float]], system: Measures) -> list[Row]:
    """Set a curve out in hours and in degrees of these measures.

    Parameters
    ----------
    curve
        Minutes off the stove, usual and careful temperature [min, degC]
    system
        The measures.
    """
    return [
        {
            "hours": minute / HOUR_MIN,
            "usual": degrees(usual, system),
            "careful": degrees(careful, system),
            "told": f"{minute / HOUR_MIN:.1f} h: about {system.temperature(usual)}, "
            f"perhaps only {system.degrees(careful)}",
        }
        for minute, usual, careful in curve
        if minute % 15 == 0
    ]


def degrees(level_c: float, system: Measures) -> float:
    """Give a temperature as these measures count it.

    Parameters
    ----------
    level_c
        Temperature [degC]
    system
        The measures.
    """
    return level_c * 9 / 5 + 32 if isinstance(system, Us) else level_c


def cooling_chart(
    curve: Sequence[tuple[int, float, float]], hot_c: float, system: Measures, look: Look
) -> alt.LayerChart:
    """Draw how a dish cools.

    Parameters
    ----------
    curve
        Minutes off the stove, usual and careful temperature [min, degC]
    hot_c
        What counts as hot [degC]
    system
        The measures.
    look
        By day or by night.
    """
    rows = cooling_data(curve, system)
    unit = "°F" if isinstance(system, Us) else "°C"
    chart = chart_of(rows).encode(
        x=alt.X(
            "hours:Q",
            title="hours off the stove",
            scale=alt.Scale(nice=False),
            axis=alt.Axis(tickMinStep=1),
        ),
        tooltip=alt.Tooltip("told:N", title=None),
    )
    high = alt.Y("usual:Q", title=unit, scale=alt.Scale(zero=False), axis=top_title())
    safe = [{"hot": degrees(hot_c, system), "text": f"hot: {system.temperature(hot_c)} or more"}]
    line = chart_of(safe)
    layers = [
        chart.mark_area(color=DOES["cooker"].colour, opacity=0.45).encode(
            y=high, y2=alt.Y2("careful")
        ),
        chart.mark_line(color=look.ink, strokeWidth=1.5).encode(y=high),
        chart.mark_line(color=look.ink, strokeWidth=1.5, strokeDash=[2, 2]).encode(
            y=alt.Y("careful:Q")
        ),
        line.mark_rule(color=look.ink, strokeDash=[7, 4]).encode(y=alt.Y("hot:Q")),
        line.mark_text(align="right", dy=-6, color=look.ink, fontSize=SMALL).encode(
            x=alt.value("width"), y=alt.Y("hot:Q"), text=alt.Text("text:N")
        ),
    ]
    told = "Temperature in the cooker, usual (full line) and careful (dotted line). "
    told += "; ".join(str(row["told"]) for row in rows[::8])
    return layered(layers, HEIGHT_PX, look, told, below=0)


def top_title() -> alt.Axis:
    """Give an upright axis with its title written above it, not along it."""
    return alt.Axis(titleAngle=0, titleAlign="left", titleAnchor="end", titleX=0, titleY=-8)
