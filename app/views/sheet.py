"""The Sheet page: the plan on paper, to look at, to print and to take along."""

import streamlit as st

from app import state, waiting
from optimizer.report.sheet import fridge_html, sheet_html

HIGH_PX = 1100

found, scenario, units = waiting.planned(whole=False), waiting.scenario(), state.units()
st.title("Sheet")
if not found.steps:
    st.warning(
        "There is no plan yet that could be printed. The Plan page says what would make one."
    )
    st.stop()
sheets, fridge = sheet_html(found, scenario, units), fridge_html(found, scenario, units)
st.markdown(
    "A first page, a copy of the whole stay for the fridge, and a page a day. Download it, open it "
    "and print it on A4 or letter; it also opens on a phone and needs no network."
)
with st.container(horizontal=True):
    st.download_button("Download the sheets (HTML)", sheets, "sheets.html", "text/html")
    st.download_button("Download the fridge copy (HTML)", fridge, "fridge.html", "text/html")
only = st.segmented_control(
    "Show", ["All sheets", "Fridge copy"], required=True, **state.bind("sheet shown", "All sheets")
)
st.iframe(fridge if only == "Fridge copy" else sheets, height=HIGH_PX)
