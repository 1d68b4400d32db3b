"""The Plan page: what is saved, then the day's clock; everything else below."""

import streamlit as st

from app import state, waiting
from app.panels import days, outcome, quick

found = waiting.planned(whole=False)
scenario = waiting.scenario()
if found.status == "infeasible":
    outcome.none(found, scenario)
    quick.numbers(scenario)
else:
    outcome.saving(found, scenario)
    with st.expander("Change a number", **state.bind("numbers open", first=False)):
        quick.numbers(scenario)
    days.days(found, scenario, "plan_day")
    outcome.fuel(found, scenario)
    outcome.households(found, scenario)
    outcome.chances(found, scenario)
    outcome.compared(found, scenario)
    if waiting.is_whole(found):
        outcome.worth(found)
    else:
        waiting.rest(
            "how sure the dishes are, boiling on any stove, and what one more of each is worth"
        )
outcome.cautions(found)
