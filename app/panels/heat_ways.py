"""One dish in every way, with where its heat goes."""

import streamlit as st

from app import cached, state
from app.figures.heat import heat_chart, heat_key
from app.panels import drawing
from app.waiting import plain
from optimizer.errors import PhysicsError
from optimizer.model.household import Scenario
from optimizer.report.dates import day_name
from optimizer.report.heat import heat_bars, heat_rows
from optimizer.report.measures import in_measures, measures
from optimizer.report.refused import refusal_sentences

MOST_BARS = 8


def heat(scenario: Scenario) -> None:
    """Draw the choice of a dish and where the heat of its ways goes.

    Parameters
    ----------
    scenario
        The household.
    """
    items = scenario.items
    if state.kept("heat of", -1) not in range(len(items)):
        dish = cached.first_choice(state.text())[0]
        state.keep("heat of", next(n for n, item in enumerate(items) if item.dish.name == dish))
    item = st.selectbox(
        "Which dish",
        range(len(items)),
        format_func=lambda n: (
            f"{items[n].dish.label}, {items[n].meal}, {day_name(scenario, items[n].day)}"
        ),
        **state.bind("heat of", 0),
    )
    try:
        found = cached.comparison(state.text(), item)
    except PhysicsError as error:
        st.error(plain(str(error)))
        return
    system = measures(state.units())
    bars = heat_bars(found, scenario, system)
    if bars:
        drawing.known(heat_key, drawing.look(), wide=False)
        drawing.known(heat_chart, bars[:MOST_BARS], system, drawing.look())
        st.caption(f"The cheapest ways first, at most {MOST_BARS}; the table has all of them.")
        drawing.table(heat_rows(bars, found), name="Every way as a table")
    else:
        st.warning("No way of this dish works, or none that burns fuel.")
    refused = refusal_sentences(found, scenario)
    if refused:
        with st.expander("Ways that do not work"):
            st.markdown("\n".join(f"- {plain(in_measures(line, system))}" for line in refused))
