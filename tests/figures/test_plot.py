"""What is left out to be quick changes no letter of a chart."""

import altair as alt
import pytest

from app.figures.look import LIGHT, config
from app.figures.plot import FIT, HOURS_PX, Plot, chart_of, layered

ROWS = [
    {"x": 0, "x2": 30, "y": 0, "y2": 10, "told": "a pot", "text": "one", "odd": None},
    {"x": 30, "x2": 60, "y": 0.5, "y2": 10.25, "told": "a box <b>", "text": "", "odd": True},
]


def marks(begin, *rows):
    """Give two layers a set of rows."""
    plot, layers = Plot(0, 60, 20), []
    for each in rows:
        placed = begin(each).encode(x=plot.x(), x2=alt.X2("x2"), y=plot.y(), y2=alt.Y2("y2"))
        rule = placed.mark_rule().encode(detail=alt.Detail("told:N"))
        layers += [placed.mark_rect(color="#123456"), rule]
    return layers


def usual(rows):
    """Begin a chart as others do."""
    return alt.Chart(alt.InlineData(values=[dict(row) for row in rows]))


@pytest.mark.parametrize("rows", [(ROWS,), (ROWS, ROWS[1:])], ids=["shared", "apart"])
def test_layers_are_as_if_they_were_copied_and_every_row_looked_through(rows):
    copied = alt.LayerChart(
        layer=marks(usual, *rows),
        height=20 + HOURS_PX,
        width="container",
        autosize=FIT,
        description="marks",
        config=alt.Config(**config(LIGHT)),
    )
    quick = layered(marks(chart_of, *rows), 20, LIGHT, "marks")
    assert quick.to_dict() == copied.to_dict()
    assert quick.to_dict() == copied.to_dict()  # nothing was changed by it
