"""What stands on a page until there is a plan: how far the search is, a stop button, problems."""

from collections.abc import Callable

import streamlit as st

from app import cached, state
from app.searching import Planned, Search
from optimizer.errors import Problem
from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.report.progress import progress_line

PATIENCE_S = 2.0  # a plan this quick needs no word
LOOK_EVERY_S = 0.4


def scenario() -> Scenario:
    """Give the scenario that is worked on; where it has problems, list them and end the page.

    Returns
    -------
    Scenario
        Without a problem.
    """
    found = cached.reading(state.text())
    if found.scenario is None:
        st.error("The scenario cannot be read yet. Mend what is listed; nothing is lost.")
        list_problems(found.problems)
        st.stop()
    return found.scenario


def list_problems(problems: tuple[Problem, ...]) -> None:
    """List problems: line, key, and what was expected and given.

    Parameters
    ----------
    problems
        What is wrong.
    """
    for problem in problems:
        line = "" if problem.line is None else f"line {problem.line}"
        place = ", ".join(part for part in (line, problem.key) if part)
        st.markdown(f"- **{plain(place)}**: {plain(problem.message)}")


def plain(text: str) -> str:
    """Keep text from being taken for marks of Markdown.

    Parameters
    ----------
    text
        Any text, such as what a person wrote.
    """
    return "".join(f"\\{sign}" if sign in r"\`*_{}[]()<>#+-!|~$:" else sign for sign in text)


def inline(text: str) -> str:
    """Keep text within a label from being taken for marks of Markdown.

    As little as will do, since a screen reader reads the label as it is written.

    Parameters
    ----------
    text
        Any text, such as what a person wrote.
    """
    return "".join(f"\\{sign}" if sign in r"\`*_[]<~$:" else sign for sign in text)


def planned(*, whole: bool = True) -> Plan:
    """Give the plan of the scenario that is worked on; until there is one, show the search.

    Parameters
    ----------
    whole
        Wait for all of it; False: the schedule and its saving will do, and ``rest`` draws what
        comes later.

    Returns
    -------
    Plan
        Perhaps an infeasible one; where there is none at all, the page ends here.
    """
    scenario()
    text, before = state.text(), state.kept("searched")
    if before not in {None, text}:
        cached.abandon(before)
    state.keep("searched", text)
    search = cached.search(text)
    found = search.wait(PATIENCE_S, whole=whole)
    if found is None:
        watch(search, whole=whole)
        st.stop()
    if found.plan is None:
        tell_why(found, lambda: cached.forget(text))
        st.stop()
    if found.plan.status == "stopped":
        st.info("The search was stopped: this is the best plan it had found.")
        st.button("Search on", on_click=cached.forget, args=(text,))
    return found.plan


def is_whole(plan: Plan) -> bool:
    """Say whether all of a plan is there: what it is set beside, and what more is worth.

    Parameters
    ----------
    plan
        As ``planned`` gave it.
    """
    found = cached.search(state.text()).wait(0)
    return found is not None and found.plan is plan


@st.fragment(run_every=LOOK_EVERY_S)
def rest(what: str) -> None:
    """Say that more of the plan is being worked out, and draw the page again when it is there.

    Parameters
    ----------
    what
        Is being worked out.
    """
    if cached.search(state.text()).whole.is_set():
        st.rerun()
    st.caption(f"Being worked out: {what}.")


@st.fragment(run_every=LOOK_EVERY_S)
def watch(search: Search, *, whole: bool) -> None:
    """Show how far a search is, until there is a plan.

    Parameters
    ----------
    search
        The search.
    whole
        Wait for all of the plan.
    """
    if (search.whole if whole else search.made).is_set():
        st.rerun()
    st.status(progress_line(search.seconds, search.best, search.bound), state="running")
    if search.stopping:
        st.caption("Stopping; the best plan so far comes next.")
    else:
        st.button("Stop and show the best plan so far", on_click=search.stop)


def tell_why(found: Planned, again: Callable[[], None]) -> None:
    """Say why there is no plan, and let the person try again.

    Parameters
    ----------
    found
        What the search ended with.
    again
        Lets the next look search anew.
    """
    if found.problems:
        list_problems(found.problems)
    elif found.why == "defect":
        st.error(f"This is a fault of the program, not of the scenario: {plain(found.told)}")
    else:
        st.warning(plain(found.told[:1].upper() + found.told[1:]) + ".")
    st.button("Search again", on_click=again)
