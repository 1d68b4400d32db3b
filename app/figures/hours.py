"""Hours hot against the thickness of the packing: one packing with its band, others beside it."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import altair as alt

from app.figures.cooling import top_title
from app.figures.look import DOES, SMALL, Look
from app.figures.plot import chart_of, layered
from optimizer.report.boxed import packing_label
from optimizer.report.kitchen import LONGEST_H, hours, length, length_number, length_unit
from optimizer.report.measures import Measures
from optimizer.studies.insulation import Holding

HEIGHT_PX = 300
TITLE = f"hours hot ({LONGEST_H}: that or more)"
DASHES: tuple[list[int], ...] = (
    [],
    [6, 3],
    [2, 2],
    [10, 3, 2, 3],
)  # the chosen packing first, drawn full

Row = dict[str, Any]


@dataclass(frozen=True, slots=True)
class HoursData:
    """What is drawn."""

    lines: tuple[tuple[str, tuple[Row, ...]], ...]  # packing and its points, the chosen one first
    now: Row | None  # the cooker as it is


def hours_data(
    chosen: Sequence[Holding], beside: Sequence[Sequence[Holding]], now: Holding, system: Measures
) -> HoursData:
    """Set hours out by thickness; what is beyond counting stands at the top edge.

    Parameters
    ----------
    chosen
        The packing that is looked at, thinner to thicker.
    beside
        Other packings at the same thicknesses.
    now
        The cooker as it is.
    system
        The measures.
    """
    lines = tuple(
        (packing_label(each[0].cooker), _points(each, system)) for each in (chosen, *beside)
    )
    here = _points([now], system)[0] if now.cooker.thickness_m else None
    return HoursData(lines, here)


def _points(held: Sequence[Holding], system: Measures) -> tuple[Row, ...]:
    return tuple(
        {
            "thick": length_number(each.cooker.thickness_m or 0.0, system),
            "usual": min(each.usual_h, LONGEST_H),
            "low": min(each.low_h, LONGEST_H),
            "high": min(each.high_h, LONGEST_H),
            "told": f"{length(each.cooker.thickness_m or 0.0, system)} of "
            f"{packing_label(each.cooker)}: hot for {hours(each.usual_h)} "
            f"({hours(each.low_h, unit=False)} to {hours(each.high_h, unit=False)})",
        }
        for each in held
    )


def hours_chart(
    chosen: Sequence[Holding],
    beside: Sequence[Sequence[Holding]],
    now: Holding,
    system: Measures,
    look: Look,
) -> alt.LayerChart:
    """Draw hours hot against thickness.

    Parameters
    ----------
    chosen
        The packing that is looked at, thinner to thicker.
    beside
        Other packings at the same thicknesses.
    now
        The cooker as it is.
    system
        The measures.
    look
        By day or by night.
    """
    data = hours_data(chosen, beside, now, system)
    across = alt.X(
        "thick:Q",
        title=f"packing on every side, {length_unit(system)}",
        scale=alt.Scale(nice=False, zero=True),
    )
    up = alt.Y(
        "usual:Q",
        title=TITLE,
        scale=alt.Scale(domain=[0, LONGEST_H], nice=False),
        axis=top_title(),
    )
    band = chart_of(data.lines[0][1]).encode(x=across)
    layers = [
        band.mark_area(color=DOES["cooker"].colour, opacity=0.3).encode(
            y=alt.Y("low:Q", title=TITLE), y2=alt.Y2("high")
        )
    ]
    for (_, points), dash in zip(data.lines, DASHES, strict=False):
        layers.append(
            chart_of(points)
            .mark_line(color=look.ink, strokeWidth=1.5, strokeDash=dash, point={"color": look.ink})
            .encode(x=across, y=up, tooltip=alt.Tooltip("told:N", title=None))
        )
    layers += _now(data.now, across, up, look)
    return layered(layers, HEIGHT_PX, look, describe(data), below=0)


def _now(row: Row | None, across: alt.X, up: alt.Y, look: Look) -> list[alt.Chart]:
    """Mark the cooker as it is."""
    if row is None:
        return []
    chart = chart_of([row]).encode(x=across, y=up)
    return [
        chart.mark_point(
            shape="diamond", filled=True, size=130, color=look.ink, stroke=look.paper, opacity=1
        ).encode(tooltip=alt.Tooltip("told:N", title=None)),
        chart.mark_text(dy=16, color=look.ink, fontSize=SMALL, text="yours"),
    ]


def describe(data: HoursData) -> str:
    """Say what the chart shows, for those who cannot see it.

    Parameters
    ----------
    data
        What is drawn.
    """
    ends = (str(points[n]["told"]) for _, points in data.lines for n in (0, -1))
    return f"Hours hot against thickness. {'; '.join(ends)}. The table below says the same."


def key_words(data: HoursData) -> list[str]:
    """Name each line by how it is drawn.

    Parameters
    ----------
    data
        What is drawn.
    """
    drawn = ("full line, and its band", "dashes", "dots", "dashes and dots")
    return [f"{how}: {name}" for how, (name, _) in zip(drawn, data.lines, strict=False)]
