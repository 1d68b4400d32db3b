"""The How long page: days the store lasts, what ends first, and what changes that."""

import streamlit as st

from app import waiting
from app.panels import buying, lasting, quick

st.title("How long", anchor=False)
scenario = waiting.scenario()
study, known = lasting.looked()
lasting.days(known)
lasting.none(known)
with st.expander("Change a number"):
    quick.numbers(scenario)
lasting.going(study)
if known.lasting.days:
    lasting.ends(known)
    lasting.opening(known)
    lasting.fallbacks(known)
    lasting.otherwise(known, whole=study.made.is_set())
    lasting.worth(scenario)
buying.buying(scenario)
lasting.cautions(known)
