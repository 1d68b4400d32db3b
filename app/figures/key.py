"""What the marks of the clock mean."""

from typing import Any

import altair as alt

from app.figures.clock import BAR_PX, THIN_PX
from app.figures.look import DOES, Look
from app.figures.plot import BARE_PX, Plot, layered

KEY_PX, KEY_ROW_PX = 165, 20

Row = dict[str, Any]


def key_chart(look: Look) -> alt.LayerChart:
    """Draw what the marks of the clock mean.

    Parameters
    ----------
    look
        By day or by night.
    """
    cells: list[Row] = []
    words: list[Row] = []
    for n, (does, drawn) in enumerate(DOES.items()):
        x, y = KEY_PX * (n % 2), KEY_ROW_PX * (n // 2) + 3
        inset = (BAR_PX - THIN_PX) // 2 if drawn.hatch in {"thin", "dashed"} else 0
        span = {"x": x, "x2": x + 34, "y": y + inset, "y2": y + BAR_PX - inset}
        cells.append({"does": does, "told": drawn.word, **span})
        words.append({"x": x + 40, "y": y + 11, "text": drawn.word})
    height = KEY_ROW_PX * 4
    plot = Plot(0, 2 * KEY_PX, height)
    y = KEY_ROW_PX * 2 + 3
    mark = [{"x": KEY_PX + 17, "y": y + BAR_PX // 2, "told": "served"}]
    fire = [{"x": 0, "x2": 34, "y": y + KEY_ROW_PX + 5, "y2": y + KEY_ROW_PX + 9, "told": "fire"}]
    hours = [{"x": KEY_PX, "x2": KEY_PX + 34, "y": y + KEY_ROW_PX, "y2": y + KEY_ROW_PX + BAR_PX}]
    words += [
        {"x": KEY_PX + 40, "y": y + 11, "text": "served"},
        {"x": 40, "y": y + KEY_ROW_PX + 11, "text": "fire burning"},
        {"x": KEY_PX + 40, "y": y + KEY_ROW_PX + 11, "text": "hours to cook in"},
    ]
    layers = [
        plot.area(hours, look.shade),
        *(layer for does in DOES for layer in plot.does(cells, does)),
        plot.told(fire, look.fuel),
        plot.served(mark, look),
        *plot.words(words, look.ink, look.paper),
    ]
    told = "Key: " + ", ".join(str(word["text"]) for word in words)
    return layered(layers, height, look, told, below=BARE_PX).properties(width=2 * KEY_PX)
