"""Money against another thing: a chart of plans, each of which can be opened."""

import streamlit as st

from app import cached, state
from app.figures.frontier import frontier_chart
from app.panels import days, drawing, outcome
from app.waiting import plain
from app.weighing import Weighing
from optimizer.model.household import Scenario
from optimizer.report.measures import measures
from optimizer.report.tradeoff import frontier_rows, goal_name, goals_of
from optimizer.studies.frontier import Frontier

PATIENCE_S = 1.5
LOOK_EVERY_S = 0.5


def weigh(scenario: Scenario) -> None:
    """Draw the choice of what money is set against, the chart, and the plan that is opened.

    Parameters
    ----------
    scenario
        The household.
    """
    goals = goals_of(scenario)
    if state.kept("weigh against") not in goals:
        state.keep("weigh against", goals[0])
    against = st.selectbox(
        "Money against",
        goals,
        format_func=lambda goal: goal_name(goal, scenario),
        **state.bind("weigh against", goals[0]),
    )
    search = cached.weighing(state.text(), against)
    search.made.wait(PATIENCE_S)
    if not search.made.is_set():
        _watch(search)
    elif search.trouble:
        st.error(plain(search.trouble))
    elif search.found is not None:
        _found(search.found, scenario)


@st.fragment(run_every=LOOK_EVERY_S)
def _watch(search: Weighing) -> None:
    """Show how far the search is, until it ends."""
    if search.made.is_set():
        st.rerun()
    st.status(f"Plan {search.done + 1} of {search.count}", state="running")
    st.button("Stop with the plans found so far", on_click=search.stop, disabled=search.stopping)


def _found(found: Frontier, scenario: Scenario) -> None:
    if not found.points:
        st.warning("No plan was found; the Plan page says why.")
        return
    if not found.complete:
        st.info("Stopped early, or out of time: there may be better plans between these.")
    if len(found.points) == 1:
        st.markdown("One plan is the best in both; there is nothing to trade.")
    system = measures(state.units())
    numbers = [None, *range(1, len(found.points) + 1)]
    if state.kept("weigh open") not in numbers:
        state.keep("weigh open", None)
    chart = st.container()
    drawing.table(frontier_rows(found, scenario, system))
    chosen = st.radio(
        "Open a plan",
        numbers,
        format_func=lambda number: "none" if number is None else f"plan {number}",
        horizontal=True,
        **state.bind("weigh open", None),
    )
    with chart:
        drawing.known(frontier_chart, found, scenario, system, drawing.look(), chosen)
    if chosen is not None:
        plan = found.points[chosen - 1].plan
        outcome.taken(plan, scenario)
        days.days(plan, scenario, "weigh_day")
        outcome.fuel(plan, scenario)
        outcome.cautions(plan)
