"""The Menu page."""

import streamlit as st

from app import waiting

st.title("Menu")
waiting.scenario()
