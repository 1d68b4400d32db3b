"""A chart on a page, with its words for those who cannot see it, and its table under it."""

import json
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import nullcontext
from typing import Any

import altair as alt
import streamlit as st

from app import cached
from app.figures.look import DARK, LIGHT, Look
from app.waiting import inline, plain
from optimizer.report.blocks import Block
from optimizer.report.layout import tied
from optimizer.report.measures import Measures, in_measures
from optimizer.shelf import load


def look() -> Look:
    """Give the look of the theme that the browser shows."""
    return DARK if st.context.theme.type == "dark" else LIGHT


def chart(drawn: alt.LayerChart, *, wide: bool = True) -> None:
    """Draw a chart.

    Parameters
    ----------
    drawn
        The chart; its description is for those who cannot see it.
    wide
        As wide as there is room; False: as wide as it is made.
    """
    st.altair_chart(drawn, theme=None, width="stretch" if wide else "content")


def known(figure: Callable[..., alt.LayerChart], *given: Any, wide: bool = True) -> None:
    """Draw a chart that is made anew only when what it is made of is new.

    Parameters
    ----------
    figure
        Makes the chart; its description is for those who cannot see it.
    given
        What it is made of.
    wide
        As wide as there is room; False: as wide as it is made.
    """
    spec = json.loads(cached.spec(figure.__qualname__, figure, *given))
    st.vega_lite_chart(spec, theme=None, width="stretch" if wide else "content")


def table(rows: Sequence[Mapping[str, str]], *, name: str = "") -> None:
    """Draw a table, folded up where it has a name.

    Parameters
    ----------
    rows
        One mapping a row, with the same keys.
    name
        What it is.
    """
    if not rows:
        return
    cells = [{inline(key): plain(tied(cell)) for key, cell in row.items()} for row in rows]
    with st.expander(inline(name)) if name else nullcontext():
        st.table(cells, hide_index=True)


def block(told: Block | None, *, name: str = "") -> None:
    """Draw a table of an answer with its notes; nothing where there is none.

    Parameters
    ----------
    told
        The table.
    name
        What it is, to fold it up under.
    """
    if told is None:
        return
    if told.rows:
        table(list(told.mappings), name=name)
    for note in told.notes:
        st.markdown(plain(note))


def mind(codes: Iterable[str], system: Measures, *, folded: bool = True) -> None:
    """Say what to mind.

    Parameters
    ----------
    codes
        Of the table of cautions.
    system
        The measures.
    folded
        Whether it has to be opened to be read.
    """
    with st.expander("Mind", expanded=not folded):
        texts = (in_measures(load().cautions[code].text, system) for code in codes)
        st.markdown("\n".join(f"- {plain(text)}" for text in texts))
