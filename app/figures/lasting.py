"""What is left of each fuel above its reserve, day by day."""

from collections.abc import Sequence
from typing import Any

import altair as alt

from app.figures.look import Look
from app.figures.plot import TITLED_PX, Plot, layered
from optimizer.report.days_left import DaysLeft

WORD_PX, BAND_PX, GAP_PX = 20, 56, 12
LESS = 0.08  # of a day, on either side of a bar
MOST_LABELS = 10

Row = dict[str, Any]


def lasting_data(fuels: Sequence[DaysLeft]) -> tuple[dict[str, list[Row]], int]:
    """Lay out a band for each fuel: days across, what is left as the height of bars.

    Parameters
    ----------
    fuels
        Each fuel.

    Returns
    -------
    tuple
        Rows by kind (``full``, ``left``, ``base``, ``words``) and the height [px].
    """
    rows: dict[str, list[Row]] = {kind: [] for kind in ("full", "left", "base", "words")}
    top = 0
    for fuel in fuels:
        rows["words"].append({"x": 0, "y": top + WORD_PX - 6, "text": fuel.told})
        floor = top + WORD_PX + BAND_PX
        for day, share in enumerate(fuel.shares[1:], start=1):
            told = f"{fuel.label}: {fuel.amounts[day]} left above the reserve after day {day}"
            across = {"x": day - 1 + LESS, "x2": day - LESS, "y2": floor, "told": told}
            rows["full"].append({**across, "y": floor - BAND_PX})
            rows["left"].append({**across, "y": floor - BAND_PX * share})
        rows["base"].append({"x": 0, "x2": len(fuel.shares) - 1, "y": floor, "y2": floor})
        top = floor + GAP_PX
    return rows, top


def lasting_chart(fuels: Sequence[DaysLeft], look: Look) -> alt.LayerChart:
    """Draw what is left of each fuel after each day.

    Parameters
    ----------
    fuels
        Each fuel; at least one.
    look
        By day or by night.

    Returns
    -------
    alt.LayerChart
        Fuels have no colours: filled is left, faint is burned.
    """
    rows, height = lasting_data(fuels)
    days = len(fuels[0].shares) - 1
    plot = Plot(0, days, height, _days_axis(days))
    layers = [
        plot.told(rows["full"], look.shade),
        plot.told(rows["left"], look.fuel),
        plot.line(rows["base"], look.soft),
        *plot.words(rows["words"], look.ink, look.paper, dx=0),
    ]
    told = "; ".join(fuel.told for fuel in fuels)
    words = f"What is left of each fuel above its reserve after each of {days} days. {told}."
    return layered(layers, height, look, words, below=TITLED_PX)


def _days_axis(days: int) -> alt.Axis:
    step = -(-days // MOST_LABELS)
    return alt.Axis(
        values=[day - 0.5 for day in range(step, days + 1, step)],
        labelExpr="format(datum.value + 0.5, 'd')",
        title="after day: filled is left above the reserve",
        titleAnchor="start",
        grid=False,
        ticks=False,
    )
