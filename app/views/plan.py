"""The Plan page: what is saved, and the schedule."""

import streamlit as st

from app import state, waiting
from optimizer.report.text import plan_text

found = waiting.planned()
st.title("Plan")
st.text(plan_text(found, waiting.scenario(), state.units()))
