"""Marks laid out by hand: a quantity across, pixels down; words are fitted to the width."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, ClassVar, Literal, Self

import altair as alt

from app.figures.look import DOES, USUAL, WORD_PX, Look, config

HOUR_MIN = 60
FEWEST_LETTERS = 7  # a name cut shorter than that is not worth having
HATCH_PX, SLANT_PX = 5, 4
FIT = alt.AutoSizeParams(type="fit", contains="padding")  # as the page lays charts out
HOURS_PX, TITLED_PX, BARE_PX = 41, 53, 20  # what axis and padding take of the height
Align = Literal["left", "right", "center"]
Rows = Sequence[dict[str, Any]]

alt.data_transformers.consolidate_datasets = False  # rows stay in the layers


@dataclass(frozen=True)
class _Plain:
    """Rows that Altair neither copies nor looks through, value by value."""

    rows: Rows
    _schema: ClassVar[dict[str, str]] = {"type": "array"}  # by this Altair knows its own kind

    def to_dict(self) -> list[dict[str, Any]]:
        """Give them as they are."""
        return list(self.rows)


class _Marks(alt.Chart):
    """Marks that share their parts with their copies; to copy those took half the time."""

    def __deepcopy__(self, _memo: object) -> Self:
        return self.copy(deep=False)


def chart_of(rows: Rows) -> alt.Chart:
    """Begin a chart of rows.

    Parameters
    ----------
    rows
        Plain values.
    """
    plain: Any = _Plain(rows)  # Altair takes it, but for its type
    return _Marks(alt.InlineData(values=plain))


@dataclass(frozen=True, slots=True)
class Plot:
    """A drawing area; rows of data have ``x``, ``x2`` across and ``y``, ``y2`` [px] down."""

    first: float
    last: float
    height: int
    axis: alt.Axis | None = None

    @property
    def _px(self) -> str:
        """What a pixel is across, in an expression of the chart."""
        return f"({self.last - self.first}/width)"

    def x(self, name: str = "x") -> alt.X:
        """Place across."""
        scale = alt.Scale(domain=[self.first, self.last], nice=False, zero=False)
        return alt.X(f"{name}:Q", scale=scale, axis=self.axis)

    def y(self, name: str = "y") -> alt.Y:
        """Place down the page."""
        scale = alt.Scale(domain=[0, self.height], nice=False, zero=False, reverse=True)
        return alt.Y(f"{name}:Q", scale=scale, axis=None)

    def area(self, rows: Rows, colour: str, *, opacity: float = 1.0) -> alt.Chart:
        """Fill rectangles."""
        chart: alt.Chart = (
            chart_of(rows)
            .mark_rect(color=colour, opacity=opacity, aria=False)
            .encode(x=self.x(), x2=alt.X2("x2"), y=self.y(), y2=alt.Y2("y2"))
        )
        return chart

    def told(self, rows: Rows, colour: str) -> alt.Chart:
        """Fill rectangles that say what they are when they are pointed at."""
        chart: alt.Chart = (
            chart_of(rows)
            .mark_rect(color=colour)
            .encode(
                x=self.x(),
                x2=alt.X2("x2"),
                y=self.y(),
                y2=alt.Y2("y2"),
                tooltip=alt.Tooltip("told:N", title=None),
                description=alt.Description("told:N"),
            )
        )
        return chart

    def line(self, rows: Rows, colour: str, **style: Any) -> alt.Chart:
        """Draw straight lines from x, y to x2, y2."""
        chart: alt.Chart = (
            chart_of(rows)
            .mark_rule(color=colour, aria=False, **style)
            .encode(x=self.x(), x2=alt.X2("x2"), y=self.y(), y2=alt.Y2("y2"))
        )
        return chart

    def does(self, rows: Rows, does: str) -> list[alt.Chart]:
        """Draw what a pot does: its colour, and its hatch."""
        mark, mine = DOES[does], [row for row in rows if row["does"] == does]
        if not mine:
            return []
        solid = self.told(mine, mark.colour)
        if mark.hatch == "dashed":
            return [solid.encode(opacity=alt.OpacityValue(0.25)), *self._upright(mine, mark.colour)]
        if mark.hatch == "upright":
            return [solid, *self._upright(mine, "#ffffff")]
        return [solid, *self._slanted(mine)] if mark.hatch == "slanted" else [solid]

    def _upright(self, rows: Rows, colour: str) -> list[alt.Chart]:
        """Hatch with upright lines, so many pixels apart however wide the chart is."""
        step = f"{HATCH_PX}*{self._px}"
        hatch = (
            chart_of(rows)
            .transform_calculate(at=f"sequence(datum.x+{step}/2, datum.x2, {step})")
            .transform_flatten(["at"])
            .mark_rule(color=colour, strokeWidth=1, aria=False)
            .encode(x=self.x("at"), y=self.y(), y2=alt.Y2("y2"))
        )
        return [hatch]

    def hatched(self, rows: Rows, colour: str) -> list[alt.Chart]:
        """Hatch rectangles and say what they are when they are pointed at."""
        if not rows:
            return []
        return [
            *self._upright(rows, colour),
            self.told(rows, colour).encode(opacity=alt.OpacityValue(0)),
        ]

    def _slanted(self, rows: Rows) -> list[alt.Chart]:
        """Hatch with slanted lines; a bar too short for one gets an upright line."""
        step = f"{HATCH_PX}*{self._px}"
        slant = f"min({SLANT_PX}*{self._px}, (datum.x2-datum.x)/2)"
        hatch = (
            chart_of(rows)
            .transform_calculate(slant=slant)
            .transform_calculate(at=f"sequence(datum.x+datum.slant, datum.x2+{self._px}/2, {step})")
            .transform_flatten(["at"])
            .transform_calculate(low="datum.at-datum.slant")
            .mark_rule(color="#111111", strokeWidth=1, aria=False)
            .encode(x=self.x("at"), x2=alt.X2("low"), y=self.y(), y2=alt.Y2("y2"))
        )
        return [hatch]

    def served(self, rows: Rows, look: Look) -> alt.Chart:
        """Mark where a dish is served."""
        chart: alt.Chart = (
            chart_of(rows)
            .mark_point(
                shape="triangle-down",
                filled=True,
                size=110,
                color=look.ink,
                opacity=1,
                stroke=look.paper,
                strokeWidth=1,
            )
            .encode(
                x=self.x(),
                y=self.y(),
                tooltip=alt.Tooltip("told:N", title=None),
                description=alt.Description("told:N"),
            )
        )
        return chart

    def words(
        self,
        rows: Rows,
        colour: str,
        paper: str,
        *,
        size: int = USUAL,
        align: Align = "left",
        dx: int = 2,
    ) -> list[alt.Chart]:
        """Write words whole."""
        style = {"align": align, "baseline": "alphabetic", "dx": dx, "fontSize": size}
        return self._written(chart_of(rows), "text", colour, paper, style)

    def _written(
        self, chart: alt.Chart, word: str, colour: str, paper: str, style: dict[str, Any]
    ) -> list[alt.Chart]:
        """Write words on a rim of paper, so that lines do not run through them."""
        rim = chart.mark_text(
            stroke=paper, strokeWidth=3, strokeJoin="round", color=paper, aria=False, **style
        )
        return [
            layer.encode(x=self.x(), y=self.y(), text=alt.Text(f"{word}:N"))
            for layer in (rim, chart.mark_text(color=colour, **style))
        ]

    def names(self, rows: Rows, look: Look) -> list[alt.Chart]:
        """Write number and dish where there is room, a part of it, or the number only."""
        letters = f"floor(datum.room/{self._px}/{WORD_PX})"
        whole = "datum.number+' '+datum.dish"
        cut = f"slice({whole}, 0, datum.letters-1)+'…'"
        word = (
            f"datum.letters >= length({whole}) ? {whole} : "
            f"datum.letters >= {FEWEST_LETTERS} ? {cut} : datum.number"
        )
        layers = []
        for align in ("left", "right"):
            mine = [row for row in rows if row["align"] == align]
            if mine:
                chart = (
                    chart_of(mine)
                    .transform_calculate(letters=letters)
                    .transform_calculate(word=word)
                )
                style = {"align": align, "baseline": "alphabetic", "fontSize": USUAL}
                layers += self._written(chart, "word", look.ink, look.paper, style)
        return layers


def hours_axis(first: int, last: int) -> alt.Axis:
    """Give the hours of the day below a chart.

    Parameters
    ----------
    first, last
        Whole hours of the clock, as minutes of a plan [min]
    """
    return alt.Axis(
        values=list(range(first, last + 1, HOUR_MIN)),
        labelExpr="format(floor(datum.value/60)%24, '02d')+':00'",
        labelOverlap="parity",
        labelFlush=True,
        title=None,
        grid=True,
        orient="bottom",
        labelPadding=4,
    )


def layered(
    layers: Sequence[alt.Chart], height: int, look: Look, told: str, *, below: int = HOURS_PX
) -> alt.LayerChart:
    """Lay marks over each other.

    Parameters
    ----------
    layers
        From the back to the front.
    height
        Of the drawing area [px]
    look
        By day or by night.
    told
        What it shows, for those who cannot see it.
    below
        What its axis takes [px]
    """
    chart = alt.LayerChart(
        height=height + below,
        width="container",
        autosize=FIT,
        description=told,
        config=alt.Config(**config(look)),
    )
    chart.layer = list(layers)  # what is given when it is made is copied three times
    return chart
