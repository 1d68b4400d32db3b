"""The Kitchen page."""

import streamlit as st

from app import waiting

st.title("Kitchen")
waiting.scenario()
