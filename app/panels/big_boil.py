"""What one big boil a day would save, when it is asked for; nothing is changed by it."""

import streamlit as st

from app import cached, state
from app.waiting import plain
from optimizer.report.measures import measures
from optimizer.report.one_boil import one_boil_told

ASKED = "big boil asked"


def suggestion() -> None:
    """Draw the question, and the answer with its number."""
    scenario = cached.reading(state.text()).scenario
    st.caption(
        "Water for tea, hot bottles and washing may be boiled once in one big pot and drawn on. "
        "Both ways are solved and compared; nothing is changed."
    )
    if scenario is None:
        return
    st.button("What would one big boil save?", on_click=state.keep, args=(ASKED, state.text()))
    if state.kept(ASKED) != state.text():
        return
    found = cached.one_boil(state.text())
    for line in one_boil_told(found, scenario, measures(state.units())):
        if line.startswith("- one_boil"):
            st.code(line, language="yaml", wrap_lines=True)
        else:
            st.markdown(plain(line))
