"""The Box page: size a cooker, lay it from what there is, and test cooker and stove."""

import streamlit as st

from app import waiting
from app.panels import box_boiling, box_packings, box_size, box_water
from optimizer.model.household import Scenario


@st.fragment
def sizing(household: Scenario) -> None:
    """Draw what is sized, anew by itself when a slider is moved."""
    st.header("Size a cooker", anchor=False)
    sized = box_size.size(household)
    if sized is None:
        return
    if sized.packed:
        st.header("A bag of packing", anchor=False)
        box_packings.bag_of_packing(sized)
        st.header("From what a house has", anchor=False)
        box_packings.house(sized, household)
        st.header("What would change it, and other packings", anchor=False)
    box_size.others(sized)


@st.fragment
def water(household: Scenario) -> None:
    """Draw the water test of a cooker."""
    st.header("Test a cooker with water", anchor=False)
    box_water.water(household)


@st.fragment
def boiling(household: Scenario) -> None:
    """Draw the boiling test of a stove."""
    st.header("Test a stove", anchor=False)
    box_boiling.boiling(household)


st.title("Box", anchor=False)
scenario = waiting.scenario()
sizing(scenario)
water(scenario)
boiling(scenario)
