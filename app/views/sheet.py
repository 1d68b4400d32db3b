"""The Sheet page: the plan on paper."""

import streamlit as st

from app import state, waiting
from optimizer.report.sheet import sheet_html

found = waiting.planned()
st.title("Sheet")
html = sheet_html(found, waiting.scenario(), state.units())
st.download_button("Download the sheet (HTML)", html, "sheet.html", "text/html")
