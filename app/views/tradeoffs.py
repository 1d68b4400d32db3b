"""The Trade-offs page."""

import streamlit as st

from app import waiting

st.title("Trade-offs")
waiting.scenario()
