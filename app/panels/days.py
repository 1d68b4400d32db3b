"""A plan day by day: the clock, the timetable, and how warm dishes keep."""

import streamlit as st

from app import state
from app.figures.clock import clock_chart, numbered
from app.figures.key import key_chart
from app.figures.warmth import warmth_chart
from app.panels import drawing
from app.waiting import plain
from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.report.agenda import day_rows, days_told
from optimizer.report.dates import day_name
from optimizer.report.day_lanes import DayLanes
from optimizer.report.doings import Doing
from optimizer.report.lanes import days_of
from optimizer.report.measures import measures
from optimizer.report.timetable import timetable
from optimizer.report.unboxed import unboxed_lines
from optimizer.report.warm import boxed, on_day, warm_rows
from optimizer.studies.warmth import Warmth

ALL_DAYS = 0


def days(plan: Plan, scenario: Scenario, name: str) -> None:
    """Draw a plan, one day or all of them.

    Parameters
    ----------
    plan
        A plan that has steps.
    scenario
        Its household.
    name
        Of the choice of the day, one in the whole app.
    """
    doings = timetable(plan, scenario, measures(state.units()))
    lanes = {each.day: each for each in days_of(plan, scenario)}
    chosen = _choice(days_told(doings), scenario, name)
    warm = boxed(plan, scenario)
    with st.expander("What the marks mean"):
        drawing.known(key_chart, drawing.look(), wide=False)
    for day in chosen:
        st.header(plain(day_name(scenario, day)), anchor=False)
        if day in lanes:
            _clock(lanes[day], scenario)
        _timetable(doings, day)
        _unboxed(plan, scenario, day)
        if day in lanes:
            _warmth(lanes[day], on_day(warm, day), plan, scenario)


def _choice(found: tuple[int, ...], scenario: Scenario, name: str) -> tuple[int, ...]:
    """Let the person choose a day; one day needs no choice."""
    if len(found) <= 1:
        return found
    first = next((day for day in found if day > 0), found[0])
    if state.kept(name) not in {*found, ALL_DAYS}:
        state.keep(name, first)
    chosen = st.radio(
        "Day",
        [*found, ALL_DAYS],
        format_func=lambda day: day_name(scenario, day) if day else "All days",
        horizontal=True,
        **state.bind(name, first),
    )
    return found if chosen == ALL_DAYS else (chosen,)


def _clock(day: DayLanes, scenario: Scenario) -> None:
    name = day_name(scenario, day.day)
    drawing.known(clock_chart, day, drawing.look(), name)
    dishes = ", ".join(f"{number} {dish}" for number, dish in numbered(day).values())
    st.caption(plain(f"Dishes: {dishes}"))


def _timetable(doings: list[Doing], day: int) -> None:
    st.subheader("Timetable", anchor=False)
    drawing.table(day_rows(doings, day))


def _unboxed(plan: Plan, scenario: Scenario, day: int) -> None:
    """Say, folded, why dishes of a day are not finished in a cooker."""
    lines = unboxed_lines(plan, scenario, day, measures(state.units()))
    if lines:
        with st.expander("Why a dish is not finished in a cooker"):
            st.markdown("\n".join(f"- {plain(line)}" for line in lines))


def _warmth(day: DayLanes, warm: tuple[Warmth, ...], plan: Plan, scenario: Scenario) -> None:
    st.subheader("How warm it keeps", anchor=False)
    if not warm:
        st.caption("No dish is in an insulated cooker on this day.")
        return
    system = measures(state.units())
    names = {step: f"{number} {dish}" for step, (number, dish) in numbered(day).items()}
    drawing.known(warmth_chart, warm, (day.first, day.last), names, system, drawing.look())
    st.caption(
        "Full line: as usual. Dotted line: what the plan counts on; it may still be cooler. "
        "Check with a thermometer before you eat."
    )
    drawing.table(warm_rows(warm, plan, scenario, system), name="The same as a table")
