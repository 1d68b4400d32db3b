"""A water test: the readings, the curve through them with its band, and what was left out."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import altair as alt
import numpy as np

from app.figures.cooling import degrees, top_title
from app.figures.look import DOES, SMALL, WRONG, Look
from app.figures.plot import chart_of, layered
from optimizer.report.measures import Measures, Us, duration
from optimizer.trials.water_test import WaterTest

HEIGHT_PX = 300
POINTS = 61

Row = dict[str, Any]


@dataclass(frozen=True, slots=True)
class FittedData:
    """What is drawn, in hours and in degrees of the measures."""

    curve: tuple[Row, ...]
    kept: tuple[Row, ...]
    left_out: tuple[Row, ...]


def fitted_data(found: WaterTest, system: Measures) -> FittedData:
    """Set the curve and its readings out.

    Parameters
    ----------
    found
        The test.
    system
        The measures.
    """
    readings, fit = found.fit.readings, found.fit
    time_s = np.linspace(0.0, float(readings.time_s[-1]), POINTS)
    curve = tuple(
        {
            "hours": float(second) / 3600,
            "low": degrees(float(low), system),
            "usual": degrees(float(usual), system),
            "high": degrees(float(high), system),
        }
        for second, usual, low, high in zip(time_s, *fit.band_c(time_s), strict=True)
    )
    points = [
        {
            "hours": row.time_min / 60,
            "read": degrees(row.temp_c, system),
            "told": f"{duration(row.time_min)}: read {system.temperature(row.temp_c)}, curve "
            f"{system.temperature(float(fitted))}",
        }
        for row, fitted in zip(found.log.rows, fit.fitted_c, strict=True)
    ]
    out = fit.outliers
    kept = tuple(row for n, row in enumerate(points) if n not in out)
    return FittedData(curve, kept, tuple(points[n] for n in out))


def fitted_chart(found: WaterTest, system: Measures, look: Look) -> alt.LayerChart:
    """Draw a water test.

    Parameters
    ----------
    found
        The test.
    system
        The measures.
    look
        By day or by night.
    """
    data = fitted_data(found, system)
    across = alt.X(
        "hours:Q",
        title="hours since it was closed",
        scale=alt.Scale(nice=False),
        axis=alt.Axis(tickCount=6),
    )
    axis, unit = top_title(), "°F" if isinstance(system, Us) else "°C"
    curve = chart_of(data.curve).encode(x=across)
    layers = [
        curve.mark_area(color=DOES["cooker"].colour, opacity=0.45).encode(
            y=alt.Y("low:Q", title=unit, scale=alt.Scale(zero=False, padding=12), axis=axis),
            y2=alt.Y2("high"),
        ),
        curve.mark_line(color=look.ink, strokeWidth=1.5).encode(y=alt.Y("usual:Q")),
        _readings(data.kept, "circle", look.ink, across),
    ]
    if data.left_out:
        layers += [
            _readings(
                data.left_out, "cross", WRONG if look.paper == "#ffffff" else look.ink, across
            ),
            chart_of(data.left_out)
            .mark_text(align="left", dx=8, dy=-8, color=look.ink, fontSize=SMALL, text="left out")
            .encode(x=across, y=alt.Y("read:Q")),
        ]
    return layered(layers, HEIGHT_PX, look, describe(data), below=0)


def _readings(rows: Sequence[Row], shape: str, colour: str, across: alt.X) -> alt.Chart:
    chart: alt.Chart = (
        chart_of(rows)
        .mark_point(shape=shape, filled=True, size=60, color=colour, opacity=1)
        .encode(x=across, y=alt.Y("read:Q"), tooltip=alt.Tooltip("told:N", title=None))
    )
    return chart


def describe(data: FittedData) -> str:
    """Say what the chart shows, for those who cannot see it.

    Parameters
    ----------
    data
        What is drawn.
    """
    told = "; ".join(str(row["told"]) for row in (*data.kept, *data.left_out))
    out = len(data.left_out)
    return f"Readings of a water test and the curve through them, {out} left out. {told}."
