"""The Kitchen page: where a household is, for how many it cooks, and what it has."""

import streamlit as st

from app import fields
from app.panels import cold, own, place, shop, things

st.title("Kitchen")
fields.readable()
st.header("Who and how long")
place.household()
st.header("Where")
place.place()
st.header("Weather")
place.weather()
st.header("Cooking hours")
place.hours()
st.header("What to spare")
place.aim()
for kind, title in (
    ("fuels", "Fuels"),
    ("stoves", "Stoves"),
    ("pots", "Pots"),
    ("cookers", "Insulated cookers"),
):
    st.header(title)
    if kind == "stoves":
        st.caption("Flames stand outdoors only; an installed hob with its vent is the exception.")
    things.section(kind)
    fields.faults((kind,))
st.header("What keeps food cold")
cold.cold()
st.header("For sale")
shop.shop()
st.header("Packings of your own")
st.caption("For an insulated cooker that is packed with something the shelf does not have.")
own.section("materials")
