"""The numbers that change most: how much fuel there is, and for how many."""

from functools import partial
from typing import Any

import streamlit as st

from app import entries, fields
from app.panels import place
from app.waiting import inline
from optimizer.model.household import Scenario
from optimizer.report.names import Names
from optimizer.scenario.changes import with_field


def numbers(scenario: Scenario) -> None:
    """Draw the stock of each fuel and the people.

    Parameters
    ----------
    scenario
        The household.
    """
    names = Names(scenario)
    with st.container(horizontal=True):
        for store in scenario.stores:
            at = ("fuels", store.fuel.name, "stock")
            if entries.said(at) is None:
                continue  # the sun has no stock
            with st.container(width=200):
                label = f"How much {inline(names.fuel(store.fuel.name))}"
                edit = partial(_with_stock, fuel=store.fuel.name)
                fields.measured(label, at, hint="12 kg", edit=edit)
        place.people()


def _with_stock(text: str, given: Any, *, fuel: str) -> str:
    return with_field(text, "fuels", fuel, "stock", given)
