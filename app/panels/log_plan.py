"""The plan from now on, by what the log says: looked for when it is asked for."""

import streamlit as st

from app import cached, state, waiting
from app.panels import days, outcome
from app.panels.log_entry import moment_said
from app.waiting import plain
from optimizer.errors import InputError, SaveError
from optimizer.model.plan import Plan
from optimizer.report.remaining import remaining_lines
from optimizer.scenario.clock import moment_written
from optimizer.trials.course import followed, numbered
from optimizer.trials.diary import write
from optimizer.trials.moment import MomentError, moment_of
from optimizer.trials.record import Record
from optimizer.trials.replan import Replanning, replanning

ASKED = "log plan from"
PATIENCE_S = 2.0


def from_now(record: Record) -> None:
    """Draw the button, and the plan from the moment it was pressed for.

    Parameters
    ----------
    record
        The log beside its scenario.
    """
    st.caption("From the day and clock above, with what is left, who eats, and what is under way.")
    at = moment_said()
    st.button("Plan from now", on_click=state.keep, args=(ASKED, at or ""))
    asked = state.kept(ASKED)
    if asked is None:
        return
    if not asked:
        st.error("Say first what the clock is, above.")
        return
    try:
        again = replanning(record, moment_of(asked, record.scenario))
    except MomentError as error:
        st.error(plain(str(error)))
        return
    except InputError as error:
        st.info(plain(error.problems[0].message[:1].upper() + error.problems[0].message[1:]) + ".")
        return
    _plan(again)


def _plan(again: Replanning) -> None:
    search = cached.again(again.scenario)
    found = search.wait(PATIENCE_S, whole=False)
    if found is None:
        waiting.watch(search, whole=False)
    elif found.plan is None:
        waiting.tell_why(found, lambda: cached.again.clear(again.scenario))
    else:
        _drawn(found.plan, again)


def _drawn(plan: Plan, again: Replanning) -> None:
    """Draw a plan with the panels of the Plan page."""
    for line in remaining_lines(again.scenario, state.units()):
        st.markdown(plain(line))
    if plan.status == "infeasible":
        outcome.none(plan, again.scenario)
    else:
        outcome.saving(plan, again.scenario)
        st.button("Follow this plan", on_click=_follow, args=(plan, again))
        days.days(plan, again.scenario, "log_day")
        outcome.fuel(plan, again.scenario)
    outcome.cautions(plan)


def _follow(plan: Plan, again: Replanning) -> None:
    """Write into the log that a plan is followed from its moment on."""
    whole = numbered(plan, again.record.scenario, again.scenario)
    said = followed(whole, again.record.course, again.record.scenario, again.minute)
    try:
        state.log_file().parent.mkdir(parents=True, exist_ok=True)
        write(state.log_file(), {"at": moment_written(again.minute), "kind": "plan", **said})
    except (InputError, SaveError, OSError) as error:
        state.say(f"Not written: {error}")
        return
    state.say("Written into the log: this plan is followed from here on.")
