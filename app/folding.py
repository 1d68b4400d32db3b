"""Parts of a page that are folded away, and drawn only where a person has opened them."""

from collections.abc import Callable, Iterable
from typing import Literal

import streamlit as st

from app import fields
from optimizer.scenario.document import Location

Drawing = Callable[[], None]


def expander(
    label: str, name: str, draw: Drawing, edited: Iterable[Location], *, compact: bool = False
) -> None:
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
    compact
        Without a frame of its own, within another part.
    """
    kind: Literal["compact", "default"] = "compact" if compact else "default"
    part = st.expander(label, key=f"open:{name}", type=kind, on_change="rerun")
    if part.open:
        with part:
            draw()
    else:
        _faults(edited)


def _faults(edited: Iterable[Location]) -> None:
    for at in edited:
        fields.all_faults(at, "[.")
