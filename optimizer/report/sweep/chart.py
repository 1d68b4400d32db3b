"""Days lasted as a chart: a square for each point, dark is long, the number written in it."""

from typing import Any

import altair as alt

from optimizer.report.sweep.panels import Panel, Panels
from optimizer.report.sweep.text import spoken_unit
from optimizer.studies.sweep.axes import Axis

FONT = "Liberation Sans, Arial, Helvetica, sans-serif"
INK, PAPER = "#111111", "#ffffff"
PALE, DARK = "#eef3f7", "#0b3c5d"
LIGHT_ON = 0.65  # of the longest: from there on numbers are written in white
WIDE_PX, HIGH_PX, LEAST_PX = 280, 30, 30
SIZE = 13


def panel_chart(panel: Panel, whole: Panels) -> alt.LayerChart:
    """Draw one panel.

    Parameters
    ----------
    panel
        Its squares.
    whole
        All panels: they share the shades.
    """
    rows = [
        {"across": s.across, "up": s.up, "days": s.days or 0, "word": s.word} for s in panel.squares
    ]
    base = alt.Chart(alt.InlineData(values=rows)).encode(
        x=alt.X("across:O", sort=None, title=axis_title(whole.across), axis=alt.Axis(labelAngle=0)),
        y=alt.Y(
            "up:O",
            sort=list(dict.fromkeys(s.up for s in panel.squares))[::-1],
            title=axis_title(whole.up) if whole.up else None,
            axis=alt.Axis() if whole.up else None,
        ),
    )
    shades = alt.Scale(domain=[0, max(1, whole.most)], range=[PALE, DARK])
    squares = base.mark_rect(stroke=PAPER, strokeWidth=2).encode(
        color=alt.Color("days:Q", scale=shades, legend=None)
    )
    white = alt.datum.days > LIGHT_ON * max(1, whole.most)
    words = base.mark_text(fontSize=SIZE).encode(
        text="word:N", color=alt.condition(white, alt.value(PAPER), alt.value(INK))
    )
    wide = max(LEAST_PX, WIDE_PX // len(whole.across.values))
    chart: alt.LayerChart = (
        alt.layer(squares, words)
        .properties(width=alt.Step(wide), height=alt.Step(HIGH_PX))
        .configure(**_settings())
    )
    return chart


def axis_title(axis: Axis) -> str:
    """Name an axis, with its unit.

    Parameters
    ----------
    axis
        What is varied.
    """
    unit, name = spoken_unit(axis), axis.key.replace("_", " ")
    return f"{name}, {unit}" if unit else name


def told(panel: Panel, whole: Panels) -> str:
    """Say what a panel shows, for those who cannot see it.

    Parameters
    ----------
    panel
        Its squares.
    whole
        All panels.
    """
    against = axis_title(whole.across)
    against += f" and {axis_title(whole.up)}" if whole.up else ""
    where = f" ({panel.title})" if panel.title else ""
    return f"Days lasted against {against}{where}. The table below says the same."


def panel_svg(panel: Panel, whole: Panels) -> str:
    """Draw one panel as SVG that needs nothing beside it.

    Parameters
    ----------
    panel
        Its squares.
    whole
        All panels.
    """
    import vl_convert  # heavy, and only a page wants it

    drawn: str = vl_convert.vegalite_to_svg(panel_chart(panel, whole).to_dict())
    return drawn


def _settings() -> dict[str, Any]:
    words = {"labelFontSize": SIZE, "titleFontSize": SIZE, "titleFontWeight": "normal"}
    axis = {**words, "labelColor": INK, "titleColor": INK, "grid": False, "ticks": False}
    return {
        "font": FONT,
        "background": "transparent",
        "view": {"stroke": None},
        "axis": {**axis, "domain": False},
        "padding": 4,
    }
