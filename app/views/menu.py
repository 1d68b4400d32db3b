"""The Menu page: what is eaten when, and how each dish can be cooked."""

import streamlit as st

from app import fields
from app.panels import big_boil, dish_ways, meals, own

st.title("Menu")
fields.readable()
st.header("Day by day")
meals.overview()
meals.repeat()
st.header("Meals")
meals.meals()
fields.faults(("menu",))
st.header("One big boil")
big_boil.suggestion()
st.header("Dishes of your own")
own.section("dishes")
st.header("Foods of your own")
own.section("foods")
st.header("Ways of a dish")
dish_ways.ways()
