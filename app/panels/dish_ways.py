"""Every way of one dish, and why the others are refused."""

import streamlit as st

from app import cached, state
from app.panels import drawing
from app.waiting import plain
from optimizer.report.dates import day_name


def ways() -> None:
    """Draw the choice of a dish, its ways, and its refusals."""
    scenario = cached.reading(state.text()).scenario
    if scenario is None:
        return
    item = st.selectbox(
        "Which dish",
        range(len(scenario.items)),
        format_func=lambda n: (
            f"{scenario.items[n].dish.label}, {scenario.items[n].meal}, "
            f"{day_name(scenario, scenario.items[n].day)}"
        ),
        **state.bind("ways of", 0),
    )
    told = cached.ways(state.text(), item or 0, state.units())
    if told.trouble:
        st.error(plain(told.trouble))
    elif told.rows:
        drawing.table(told.rows)
    else:
        st.warning("No way of this dish works with what there is.")
    if told.refused:
        st.markdown("**Ways that do not work**")
        st.markdown("\n".join(f"- {plain(line)}" for line in told.refused))
