"""How long it lasts: the days, what ends first, the first days, days without sticks, changes."""

import streamlit as st

from app import cached, state
from app.enduring import Enduring
from app.figures.lasting import lasting_chart
from app.panels import drawing, outcome
from app.waiting import inline, plain
from optimizer.model.household import Scenario
from optimizer.report.cases import case_rows, change_rows, range_told, whole_days
from optimizer.report.chances import run_out_rows
from optimizer.report.days_left import days_left, left_rows
from optimizer.report.endurance import (
    days_told,
    ends_told,
    opening_rows,
    opening_told,
)
from optimizer.report.measures import measures
from optimizer.report.without_sticks import fallbacks_told
from optimizer.studies.endurance.study import Endurance

PATIENCE_S = 2.0
LOOK_EVERY_S = 0.5
OF = "lasting of"


def looked() -> tuple[Enduring, Endurance]:
    """Give the study of the scenario that is worked on, and what is known of it so far.

    Until the days are known the page shows how far it is, and ends here.
    """
    text, before = state.text(), state.kept(OF)
    if before not in {None, text}:
        cached.enduring(before).drop()
    state.keep(OF, text)
    study = cached.enduring(text)
    study.first.wait(PATIENCE_S)
    known = study.known
    if known is None:
        if study.made.is_set():
            st.warning(plain(study.trouble[:1].upper() + study.trouble[1:]) + ".")
            st.button("Look again", on_click=cached.enduring.clear, args=(text,))
        else:
            _watch(study, study.parts)
        st.stop()
    return study, known


@st.fragment(run_every=LOOK_EVERY_S)
def _watch(study: Enduring, parts: int) -> None:
    """Show what is looked at, until more is known."""
    if study.made.is_set() or study.parts != parts:
        st.rerun()
    st.status(f"Looking at {inline(study.doing)}", state="running")
    st.button("Stop with what is known so far", on_click=study.stop, disabled=study.stopping)


def days(known: Endurance) -> None:
    """Say how many days it lasts, large, and how sure that is.

    Parameters
    ----------
    known
        The study.
    """
    first, *more = days_told(known.lasting)
    st.subheader(plain(first), anchor=False)
    for each in more:
        st.markdown(plain(each))


def going(study: Enduring) -> None:
    """Say what is still being looked at, or that something was left out.

    Parameters
    ----------
    study
        The study.
    """
    if not study.made.is_set():
        _watch(study, study.parts)
    elif study.known is not None and not study.known.complete:
        st.info("Not everything was looked at: it was stopped, or time was over.")
        st.button("Look again", on_click=cached.enduring.clear, args=(state.text(),))


def none(known: Endurance) -> None:
    """Say what would make one day possible.

    Parameters
    ----------
    known
        A study of a store that does not last a day.
    """
    if known.none is not None:
        outcome.none(known.none, known.scenario)


def ends(known: Endurance) -> None:
    """Draw what is left of each fuel day by day, and say what ends first.

    Parameters
    ----------
    known
        The study.
    """
    st.header("What ends first", anchor=False)
    system = measures(state.units())
    left = days_left(known.lasting, system)
    if left:
        drawing.known(lasting_chart, left, drawing.look())
        drawing.table(left_rows(left), name="What is left as a table")
    outcome.listed(ends_told(known, system))
    _run_out(known)


def _run_out(known: Endurance) -> None:
    """Say how likely it is that a fuel is all burned before, its reserve with it."""
    lasting = known.lasting
    if lasting.plan is None or lasting.scenario is None:
        return
    rows = run_out_rows(
        cached.tried(state.text(), lasting.plan, lasting.scenario), lasting.scenario
    )
    if rows:
        st.markdown(
            "Stoves, wood and weather may take more than is usual. The whole stock is burned:"
        )
        drawing.table(rows)


def opening(known: Endurance) -> None:
    """Set the sparing first days beside the ordinary ones.

    Parameters
    ----------
    known
        The study.
    """
    if known.opening is None:
        return
    st.header("If nobody knows how long it will be", anchor=False)
    for each in opening_told(known.opening):
        st.markdown(plain(each))
    system = measures(state.units())
    drawing.table(opening_rows(known.opening, known.scenario, system))


def fallbacks(known: Endurance) -> None:
    """Say what happens on a day when sticks fail.

    Parameters
    ----------
    known
        The study.
    """
    if known.fallbacks or not known.sticks:
        st.header("When sticks fail, in rain and wind", anchor=False)
        outcome.listed(fallbacks_told(known, measures(state.units())))


def otherwise(known: Endurance, *, whole: bool) -> None:
    """Set out what changes the days, and how they range.

    Parameters
    ----------
    known
        The study.
    whole
        Whether it has ended; what changes the days is told then, all at once.
    """
    if known.changes and whole:
        st.header("What changes it", anchor=False)
        drawing.table(change_rows(known))
    if known.ranged and known.cases:
        title, *more = range_told(known)
        st.header(title, anchor=False)
        for each in more:
            st.caption(plain(each))
        drawing.table(case_rows(known))


def worth(scenario: Scenario) -> None:
    """Say what one more of each thing is worth, as soon as the plan is known.

    Parameters
    ----------
    scenario
        The household.
    """
    found = cached.search(state.text()).wait(0)
    if found is not None and found.plan is not None and found.plan.steps:
        outcome.worth(found.plan)
    else:
        st.header("What one more is worth", anchor=False)
        st.caption(f"The Plan page says it for {whole_days(scenario.days)} of the menu.")


def cautions(known: Endurance) -> None:
    """List the cautions of the plan for all days.

    Parameters
    ----------
    known
        The study.
    """
    if known.lasting.plan is not None:
        outcome.cautions(known.lasting.plan)
