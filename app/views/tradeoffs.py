"""The Trade-offs page, for teaching: plans to weigh, one dish in every way, dials, worksheets."""

import streamlit as st

from app import waiting
from app.panels import dial, heat_ways, weigh, worksheets

st.title("Trade-offs", anchor=False)
scenario = waiting.scenario()
st.header("Money against another thing", anchor=False)
weigh.weigh(scenario)
st.header("One dish in every way: where the heat goes", anchor=False)
heat_ways.heat(scenario)
st.header("One dish, try it: lid, wind, packing, height", anchor=False)
dial.dial(scenario)
st.header("Worksheets", anchor=False)
worksheets.worksheets()
