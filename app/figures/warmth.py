"""How warm each dish in a cooker is: usual and careful, against what is wanted at the table."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

import altair as alt

from app.figures.look import DOES, SMALL, Look
from app.figures.plot import Plot, chart_of, hours_axis, layered
from optimizer.report.measures import Measures, served_at
from optimizer.report.warm import least_words
from optimizer.scenario.clock import clock
from optimizer.studies.warmth import Warmth

HEAD_PX, PANEL_PX, GAP_PX = 34, 72, 12
STEP_C = 10  # panels begin and end at whole tens
BELOW_C, ABOVE_C = 5.0, 2.0

Row = dict[str, Any]


@dataclass(slots=True)
class WarmthData:
    """What is drawn, panel by panel; places down the page are in pixels."""

    first: int
    last: int
    height: int = 0
    bands: list[Row] = field(default_factory=list)
    wanted: list[Row] = field(default_factory=list)
    wanted_words: list[Row] = field(default_factory=list)
    edges: list[Row] = field(default_factory=list)
    edge_words: list[Row] = field(default_factory=list)
    heads: list[Row] = field(default_factory=list)
    told: list[Row] = field(default_factory=list)
    served: list[Row] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Panel:
    """A piece of the page for one dish."""

    top: int
    low_c: float
    high_c: float

    def y(self, level_c: float) -> float:
        """Place of a temperature down the page [px]."""
        share = (self.high_c - level_c) / (self.high_c - self.low_c)
        return round(self.top + PANEL_PX * share, 2)


def warmth_data(
    warm: Sequence[Warmth], hours: tuple[int, int], names: dict[int, str], system: Measures
) -> WarmthData:
    """Lay out one panel for each dish.

    Parameters
    ----------
    warm
        Dishes, each with at least one reading in these hours.
    hours
        From where to where, as minutes of the plan [min]
    names
        What each step of the plan is called.
    system
        The measures.

    Returns
    -------
    WarmthData
        Minutes across, pixels down.
    """
    data, top = WarmthData(*hours), 0
    for each in warm:
        panel = _panel(each, top + HEAD_PX)
        _lay(data, each, panel, names[each.step], system)
        top = panel.top + PANEL_PX + GAP_PX
    data.height = top
    return data


def _panel(warm: Warmth, top: int) -> _Panel:
    levels = [r.careful_c for r in warm.readings] + [r.usual_c for r in warm.readings]
    levels += [] if warm.need_c is None else [warm.need_c]
    low = STEP_C * math.floor((min(levels) - BELOW_C) / STEP_C)
    return _Panel(top, low, STEP_C * math.ceil((max(levels) + ABOVE_C) / STEP_C))


def _lay(data: WarmthData, warm: Warmth, panel: _Panel, name: str, system: Measures) -> None:
    shown = [r for r in warm.readings if data.first <= r.minute <= data.last]
    data.bands += [
        {
            "x": reading.minute,
            "usual_c": reading.usual_c,
            "careful_c": reading.careful_c,
            "y": panel.y(reading.usual_c),
            "y2": panel.y(reading.careful_c),
            "line": f"{warm.step}-{reading.rest}",
            "told": f"{name}, {clock(reading.minute)}: about "
            f"{system.temperature(reading.usual_c)}, perhaps only "
            f"{system.degrees(math.floor(reading.careful_c))}",
        }
        for reading in shown
    ]
    across = {"x": data.first, "x2": data.last}
    if warm.need_c is not None:
        y = panel.y(warm.need_c)
        data.wanted.append({**across, "y": y, "y2": y, "need_c": warm.need_c, "step": warm.step})
        data.wanted_words.append({"x": data.first, "y": y - 3, "text": least_words(warm, system)})
    data.edges.append({**across, "y": panel.y(panel.high_c), "y2": panel.y(panel.high_c)})
    data.edges.append({**across, "y": panel.y(panel.low_c), "y2": panel.y(panel.low_c)})
    data.edge_words += list(_edge_words(data.last, panel, system))
    data.heads.append({"x": data.first, "y": panel.top - HEAD_PX + 14, "text": name})
    if warm.serve <= data.last:
        at = served_at(system, "hot", warm.serve_c, warm.serve_c_low, math.inf)
        text = f"served {clock(warm.serve)}, {at}"
        data.told.append({"x": data.first, "y": panel.top - HEAD_PX + 28, "text": text})
        data.served.append({"x": warm.serve, "y": panel.y(warm.serve_c), "told": f"{name}: {text}"})


def _edge_words(last: int, panel: _Panel, system: Measures) -> Iterator[Row]:
    yield {"x": last, "y": panel.top + 11, "text": system.temperature(panel.high_c)}
    yield {"x": last, "y": panel.top + PANEL_PX - 3, "text": system.temperature(panel.low_c)}


def warmth_chart(
    warm: Sequence[Warmth],
    hours: tuple[int, int],
    names: dict[int, str],
    system: Measures,
    look: Look,
) -> alt.LayerChart:
    """Draw how warm dishes keep.

    Parameters
    ----------
    warm
        Dishes.
    hours
        From where to where, as minutes of the plan [min]
    names
        What each step of the plan is called.
    system
        The measures.
    look
        By day or by night.

    Returns
    -------
    alt.LayerChart
        One panel a dish, all on one clock.
    """
    data = warmth_data(warm, hours, names, system)
    plot = Plot(data.first, data.last, data.height, hours_axis(data.first, data.last))
    layers = [
        plot.line(data.edges, look.line),
        *_bands(plot, data.bands, look),
        plot.line(data.wanted, look.ink, strokeDash=[7, 4]),
        plot.served(data.served, look),
        *plot.words(data.heads, look.ink, look.paper),
        *plot.words(data.told, look.soft, look.paper, size=SMALL),
        *plot.words(data.wanted_words, look.ink, look.paper, size=SMALL),
        *plot.words(data.edge_words, look.soft, look.paper, size=SMALL, align="right", dx=-2),
    ]
    return layered(layers, data.height, look, describe(data))


def _bands(plot: Plot, rows: Sequence[Row], look: Look) -> Iterator[alt.Chart]:
    """Yield the band from usual to careful, and its two edges: full and dotted."""
    chart = chart_of(rows)
    place = {"x": plot.x(), "detail": alt.Detail("line:N")}
    yield chart.mark_area(color=DOES["cooker"].colour, opacity=0.45, aria=False).encode(
        y=plot.y(), y2=alt.Y2("y2"), **place
    )
    yield chart.mark_line(color=look.ink, strokeWidth=1.5, aria=False).encode(y=plot.y(), **place)
    yield chart.mark_line(color=look.ink, strokeWidth=1.5, strokeDash=[2, 2], aria=False).encode(
        y=plot.y("y2"), **place
    )
    yield chart.mark_bar(opacity=0.0, width=6, aria=False).encode(
        x=plot.x(), y=plot.y(), y2=alt.Y2("y2"), tooltip=alt.Tooltip("told:N", title=None)
    )


def describe(data: WarmthData) -> str:
    """Say what the chart shows, for those who cannot see it.

    Parameters
    ----------
    data
        What is drawn.
    """
    told = "; ".join(each["told"] for each in data.served)
    return f"Temperature of every dish in a cooker. {told}. The table below says the same."
