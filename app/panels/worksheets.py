"""Worksheets for a class: what to print for it, for the teacher, and a table for the results."""

import streamlit as st

from app import cached, state
from optimizer.report.worksheet import results_csv, teacher_html, worksheet_html


def worksheets() -> None:
    """Offer the worksheets for the place and the stove of the household."""
    scenario, units = cached.reading(state.text()).scenario, state.units()
    if scenario is None:
        return
    st.subheader("For a class")
    st.markdown(
        "Five tests with a litre of water: lid on and off, wind and shield, table against blankets "
        "against a box of paper, a full pot against a half-empty one, boiling on against boxing. "
        "Predict, measure, compare. Hot water and flames: only with grown people, flames outdoors. "
        "What the planner expects stands on the teacher's page alone, worked out for your "
        "height above the sea, your temperatures and your stove."
    )
    with st.container(horizontal=True):
        st.download_button(
            "Worksheets (HTML)", worksheet_html(scenario, units), "worksheets.html", "text/html"
        )
        st.download_button(
            "Teacher's page (HTML)", teacher_html(scenario, units), "teacher.html", "text/html"
        )
        st.download_button(
            "Table for the results (CSV)", results_csv(scenario, units), "results.csv", "text/csv"
        )
