"""Where the heat goes, a bar for each way of a dish; the longer the bar, the more fuel."""

from collections.abc import Sequence
from typing import Any

import altair as alt

from app.figures.look import SMALL, WORD_PX, Look
from app.figures.plot import BARE_PX, TITLED_PX, Plot, chart_of, layered
from optimizer.report.heat import HeatBar
from optimizer.report.measures import BTU_PER_MJ, Measures, Us

NAME_PX, TOLD_PX, BAR_PX, GAP_PX = 16, 14, 18, 10
KEY_ROW_PX, SWATCH_PX = 20, 26
DARK_INK = "#111111"
COLOURS = {
    "food": "#009e73",
    "water": "#56b4e9",
    "pot": "#f0e442",
    "boiled off": "#cc79a7",
    "lost by the pot": "#e3b7cf",
    "past the pot": "#c4c4c4",
    "start-up": "#8c8c8c",
}
LETTERS = {
    "food": "f",
    "water": "w",
    "pot": "p",
    "boiled off": "b",
    "lost by the pot": "l",
    "past the pot": "x",
    "start-up": "s",
}

Row = dict[str, Any]


def heat_data(bars: Sequence[HeatBar], system: Measures) -> tuple[dict[str, list[Row]], float, int]:
    """Lay out the bars: energy across, pixels down.

    Parameters
    ----------
    bars
        The ways.
    system
        The measures.

    Returns
    -------
    tuple
        Rows by kind (``parts``, ``names``, ``told``), the longest bar and the height [px].
    """
    unit = BTU_PER_MJ / 1000 if isinstance(system, Us) else 1.0
    rows: dict[str, list[Row]] = {"parts": [], "names": [], "told": []}
    top = 0
    for number, bar in enumerate(bars, start=1):
        rows["names"].append({"x": 0, "y": top + NAME_PX - 4, "text": f"{number} {bar.name}"})
        rows["told"].append({"x": 0, "y": top + NAME_PX + TOLD_PX - 4, "text": bar.told})
        top += NAME_PX + TOLD_PX
        x = 0.0
        for part, mj in bar.parts:
            end = x + mj * unit
            told = f"{part}: {system.energy(mj)} of {system.energy(bar.total_mj)}"
            place = {"x": x, "x2": end, "y": top, "y2": top + BAR_PX, "told": told}
            rows["parts"].append({"part": part, "letter": LETTERS[part], "bar": number, **place})
            x = end
        top += BAR_PX + GAP_PX
    longest = max((bar.total_mj * unit for bar in bars), default=1.0)
    return rows, longest, top


def heat_chart(bars: Sequence[HeatBar], system: Measures, look: Look) -> alt.LayerChart:
    """Draw where the heat of some ways goes.

    Parameters
    ----------
    bars
        The ways.
    system
        The measures.
    look
        By day or by night.
    """
    rows, longest, height = heat_data(bars, system)
    unit = "thousand BTU" if isinstance(system, Us) else "MJ"
    axis = alt.Axis(title=f"fuel, {unit}", titleAnchor="start", tickCount=5, labelFlush=True)
    plot = Plot(0, longest, height, axis)
    layers = [
        *(
            plot.told([r for r in rows["parts"] if r["part"] == part], colour)
            for part, colour in COLOURS.items()
        ),
        plot.line([{**r, "x": r["x2"]} for r in rows["parts"]], look.paper, strokeWidth=1),
        _written(plot, rows["parts"]),
        *plot.words(rows["names"], look.ink, look.paper, dx=0),
        *plot.words(rows["told"], look.soft, look.paper, dx=0, size=SMALL),
    ]
    told = "; ".join(f"{bar.name}: {bar.told}" for bar in bars)
    return layered(
        layers, height, look, f"Where the heat of each way goes. {told}.", below=TITLED_PX
    )


def _written(plot: Plot, rows: Sequence[Row]) -> alt.Chart:
    """Write each part on its bar: whole where there is room, else its letter."""
    px = f"(datum.x2-datum.x)*width/{plot.last}"
    word = f"{px} > {WORD_PX}*length(datum.part)+6 ? datum.part : {px} > 9 ? datum.letter : ''"
    middle = [
        {**r, "x": r["x"], "mid": (r["x"] + r["x2"]) / 2, "y": r["y"] + BAR_PX - 5} for r in rows
    ]
    chart: alt.Chart = (
        chart_of(middle)
        .transform_calculate(word=word)
        .mark_text(color=DARK_INK, fontSize=SMALL, baseline="alphabetic", aria=False)
        .encode(x=plot.x("mid"), y=plot.y(), text=alt.Text("word:N"))
    )
    return chart


def heat_key(look: Look) -> alt.LayerChart:
    """Draw what the parts of the bars mean: colour, letter, word.

    Parameters
    ----------
    look
        By day or by night.
    """
    wide, plot = 330, Plot(0, 330, KEY_ROW_PX * 4)
    cells, words, letters = [], [], []
    for n, part in enumerate(COLOURS):
        x, y = wide // 2 * (n % 2), KEY_ROW_PX * (n // 2)
        span = {"x": x, "x2": x + SWATCH_PX, "y": y, "y2": y + 16}
        cells.append({**span, "part": part, "told": part})
        letters.append({"x": x + SWATCH_PX / 2, "y": y + 12, "text": LETTERS[part]})
        words.append({"x": x + SWATCH_PX + 6, "y": y + 12, "text": part})
    layers = [
        *(plot.told([c for c in cells if c["part"] == part], c) for part, c in COLOURS.items()),
        *plot.words(letters, DARK_INK, "transparent", size=SMALL, align="center", dx=0),
        *plot.words(words, look.ink, look.paper),
    ]
    told = "Key: " + ", ".join(f"{letter} {part}" for part, letter in LETTERS.items())
    drawn: alt.LayerChart = layered(layers, plot.height, look, told, below=BARE_PX).properties(
        width=wide
    )
    return drawn
