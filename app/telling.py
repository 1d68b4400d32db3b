"""What is wrong beside a field or a button: what was typed and not taken, or what the file says."""

from collections.abc import Callable, Sequence

import streamlit as st

from app import cached, state, waiting
from app.entries import shown
from optimizer.errors import Problem
from optimizer.scenario.document import Location


def act(label: str, name: str, edit: Callable[[str], str], what: str, *, spoken: str = "") -> None:
    """Draw a button that makes a change, with the reasons under it where it is refused.

    Parameters
    ----------
    label
        What stands on it.
    name
        Name of the button, one in the whole app.
    edit
        Makes the new text of the scenario from the old one.
    what
        The change in a few words.
    spoken
        What a screen reader and a hint say more.
    """
    st.button(
        label,
        key=f"act:{name}",
        on_click=state.change,
        args=(name, edit, what),
        help=spoken or None,
    )
    tell(state.refusals(name))


def faults(at: Location) -> None:
    """Say what is wrong with a field: what was typed and not taken, or what the file says.

    Parameters
    ----------
    at
        Keys and positions from the top.
    """
    refused = state.refusals(shown(at))
    tell(refused)
    if not refused:
        tell_file([p for p in problems() if p.key == shown(at)])


def all_faults(at: Location, signs: str = "[") -> None:
    """Say what is wrong with a field or with any of its entries.

    Parameters
    ----------
    at
        Keys and positions from the top.
    signs
        What stands after it before those entries: "[" for a list, "." for names.
    """
    faults(at)
    within = tuple(f"{shown(at)}{sign}" for sign in signs)
    tell_file([p for p in problems() if p.key.startswith(within)])


def problems() -> tuple[Problem, ...]:
    """Give all that is wrong with the scenario as it stands."""
    return cached.reading(state.text()).problems


def tell(reasons: Sequence[str]) -> None:
    """Say why something was not taken.

    Parameters
    ----------
    reasons
        Sentences.
    """
    for reason in reasons:
        st.error(f"Not taken: {waiting.plain(reason)}")


def tell_file(found: Sequence[Problem]) -> None:
    """Say what is wrong in the file.

    Parameters
    ----------
    found
        Problems of one field.
    """
    for problem in found:
        st.error(f"Line {problem.line}: {waiting.plain(problem.message)}")


def readable() -> None:
    """End the page where the text is no YAML at all; list what is wrong with it otherwise."""
    found = problems()
    if found:
        st.error("Some of this scenario is wrong; there is no plan until it is mended.")
        waiting.list_problems(found)
    if cached.said(state.text()) is None:
        st.stop()
