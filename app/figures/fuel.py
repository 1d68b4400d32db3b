"""What is used of each fuel and what is left, against the stock and its reserve."""

from collections.abc import Sequence
from typing import Any

import altair as alt

from app.figures.look import Look
from app.figures.plot import TITLED_PX, Plot, layered
from optimizer.report.shares import FuelShare

WORD_PX, BAR_PX, GAP_PX = 18, 14, 10

Row = dict[str, Any]


def fuel_data(shares: Sequence[FuelShare]) -> tuple[dict[str, list[Row]], int]:
    """Lay out a bar for each fuel: per cent of its stock across, pixels down.

    Parameters
    ----------
    shares
        The fuels.

    Returns
    -------
    tuple
        Rows by kind (``used``, ``left``, ``reserve``, ``marks``, ``words``) and the height [px].
    """
    rows: dict[str, list[Row]] = {k: [] for k in ("used", "left", "reserve", "marks", "words")}
    top = 0
    for each in shares:
        rows["words"].append({"x": 0, "y": top + WORD_PX - 4, "text": each.told})
        top += WORD_PX
        if each.used_share is not None:
            used, free = 100 * each.used_share, 100 * (1 - each.reserve_share)
            down = {"y": top, "y2": top + BAR_PX, "told": each.told}
            rows["used"].append({"x": 0, "x2": used, **down})
            rows["left"].append({"x": used, "x2": 100, **down})
            if each.reserve_share:
                told = f"{each.label}: {each.reserve_share:.0%} kept in reserve"
                rows["reserve"].append({"does": "reserve", "x": free, "x2": 100, **down})
                rows["reserve"][-1]["told"] = told
                rows["marks"].append({"x": free, "x2": free, "y": top - 3, "y2": top + BAR_PX + 3})
            top += BAR_PX
        top += GAP_PX
    return rows, top


def fuel_chart(shares: Sequence[FuelShare], look: Look) -> alt.LayerChart:
    """Draw what is used of each fuel.

    Parameters
    ----------
    shares
        The fuels.
    look
        By day or by night.

    Returns
    -------
    alt.LayerChart
        Fuels have no colours: filled is used, faint is left, hatched is the reserve.
    """
    rows, height = fuel_data(shares)
    plot = Plot(0, 100, height, _percent_axis())
    layers = [
        plot.told(rows["left"], look.line),
        *plot.hatched(rows["reserve"], look.soft),
        plot.told(rows["used"], look.fuel),
        plot.line(rows["marks"], look.ink, strokeWidth=2),
        *plot.words(rows["words"], look.ink, look.paper, dx=0),
    ]
    told = "; ".join(each.told for each in shares)
    words = f"Share of each fuel's stock that is used. {told}."
    return layered(layers, height, look, words, below=TITLED_PX)


def _percent_axis() -> alt.Axis:
    return alt.Axis(
        values=[0, 25, 50, 75, 100],
        labelExpr="datum.value + ' %'",
        title="of the stock: filled is used, hatched is the reserve",
        titleAnchor="start",
        grid=False,
        labelFlush=True,
    )
