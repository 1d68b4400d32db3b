"""The Log page, during an outage: write down what happens, see what is left, plan from now."""

import streamlit as st

from app import waiting
from app.panels import log_book, log_entry, log_plan

st.title("Log", anchor=False)
scenario = waiting.scenario()
book = log_book.opened()
st.header("What happened", anchor=False)
log_entry.entry(scenario)
log_book.trouble(book, scenario)
record = log_book.record(book, scenario)
if record is not None:
    st.header("What is left", anchor=False)
    log_book.left(record)
    log_book.cold(record)
    st.header("Burned against planned", anchor=False)
    log_book.burned(record)
st.header("What was written down", anchor=False)
log_book.entries(book, scenario)
if record is not None:
    st.header("Plan from now", anchor=False)
    log_plan.from_now(record)
