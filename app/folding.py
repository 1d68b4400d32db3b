"""Parts of a page that are folded away, and drawn only where a person has opened them."""

from collections.abc import Callable, Iterable

import streamlit as st

from app import fields
from app.entries import shown
from optimizer.scenario.document import Location

Drawing = Callable[[], None]


def expander(label: str, name: str, draw: Drawing, edited: Iterable[Location]) -> None:
    """Draw a part as wide as the page.

    Parameters
    ----------
    label
        What stands on it, the same whatever is in it, so that it stays open.
    name
        Its name, one in the whole app.
    draw
        Draws what is in it.
    edited
        What it edits: what is wrong there is told under it while it is folded.
    """
    part = st.expander(label, key=f"open:{name}", on_change="rerun")
    if part.open:
        with part:
            draw()
    else:
        _faults(edited)


def popover(label: str, at: Location, draw: Drawing, edited: Iterable[Location], help: str) -> None:
    """Draw a button that opens a part above the page.

    Parameters
    ----------
    label
        What stands on it.
    at
        What it is about.
    draw
        Draws what is in it.
    edited
        What it edits: what is wrong there is told under it while it is folded.
    help
        What a hint says more.
    """
    part = st.popover(label, key=f"open:{shown(at)}", on_change="rerun", help=help, width="content")
    if part.open:
        with part:
            draw()
    else:
        _faults(edited)


def _faults(edited: Iterable[Location]) -> None:
    for at in edited:
        fields.all_faults(at, "[.")
