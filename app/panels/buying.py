"""What to buy so that it lasts so many days: the question, how far it is, and the answer."""

import streamlit as st

from app import cached, state
from app.panels import choosing, drawing, outcome
from app.shopping import Shopping
from app.waiting import plain
from optimizer.model.household import Scenario
from optimizer.report.buying import (
    bought_block,
    cautions_told,
    changes_told,
    fuel_block,
    summary,
    uses_told,
)
from optimizer.report.measures import measures
from optimizer.report.on_offer import storage_told, waters_told
from optimizer.scenario.clock import MOST_DAYS
from optimizer.scenario.shop import budget_told, sum_of_money
from optimizer.studies.buying.purchase import Purchase

PATIENCE_S = 1.0
LOOK_EVERY_S = 0.5
ASKED = "buy asked"
DAYS, BUDGET = "buy days", "buy budget"


def buying(scenario: Scenario) -> None:
    """Draw what is to be bought for so many days.

    Parameters
    ----------
    scenario
        The household, with its shop.
    """
    st.header("What to buy", anchor=False)
    if scenario.shop is None:
        st.caption(
            "Say on the Kitchen page, under For sale, what could be bought and for how much; then "
            "this says what is cheapest to buy so that it lasts."
        )
        return
    days, budget = _question(scenario)
    given = None if not budget else sum_of_money(budget, scenario.currency)
    if budget and given is None:
        choosing.wrong([f"'{budget}' is no sum of money; write '60' or '60 {scenario.currency}'"])
    st.button(
        "Look what to buy",
        on_click=state.keep,
        args=(ASKED, (state.text(), days, given)),
        disabled=bool(budget) and given is None,
    )
    _answer()


def _question(scenario: Scenario) -> tuple[int, str]:
    """Draw the two fields: for how many days, and within which budget."""
    with st.container(horizontal=True, vertical_alignment="bottom"):
        with st.container(width=200):
            days = st.number_input(
                "Days it is to last",
                min_value=1,
                max_value=MOST_DAYS,
                step=1,
                **state.bind(DAYS, 2 * scenario.days),
            )
        with st.container(width=240):
            label = "Money that may be spent (or empty)"
            first = budget_told(scenario)
            budget = choosing.text(BUDGET, label, f"60 {scenario.currency}", first=first)
    return int(days), budget


def _answer() -> None:
    """Draw what was found for the question that was asked, or how far it is."""
    asked = state.kept(ASKED)
    if asked is None:
        return
    text, days, budget = asked
    if text != state.text():
        cached.shopping(text, days, budget).drop()
        state.keep(ASKED, None)
        st.caption("The file was changed since it was asked; ask again.")
        return
    study = cached.shopping(text, days, budget)
    study.made.wait(PATIENCE_S)
    if not study.made.is_set():
        _watch(study)
    elif study.found is None:
        st.warning(plain(study.trouble[:1].upper() + study.trouble[1:]) + ".")
        st.button("Look again", on_click=cached.shopping.clear, args=asked, key="buy again")
    else:
        _found(study.found)


@st.fragment(run_every=LOOK_EVERY_S)
def _watch(study: Shopping) -> None:
    """Show what is looked at, until there is an answer."""
    if study.made.is_set():
        st.rerun()
    st.status(f"Looking at {study.doing}", state="running")
    st.button("Stop looking what to buy", on_click=study.stop, disabled=study.stopping)


def _found(found: Purchase) -> None:
    """Tell what to buy, what it is for and saves; or what would make it possible."""
    system = measures(state.units())
    first, *more = summary(found)
    st.subheader(plain(first), anchor=False)
    for each in more:
        st.markdown(plain(each))
    if found.changes:
        st.markdown("**The least changes that would make it possible**")
        outcome.listed(changes_told(found, system))
    if found.bought:
        drawing.block(bought_block(found, system))
        st.markdown("**What it is for**")
        outcome.listed(uses_told(found, system))
    for each in (*waters_told(found, system), *storage_told(found, system)):
        st.markdown(plain(each))
    if found.plan is not None:
        drawing.block(fuel_block(found, system), name="The fuel, as it is counted")
    told = cautions_told(found)
    if told:
        with st.expander("Mind what is bought"):
            outcome.listed(told)
