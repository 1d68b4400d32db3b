"""How many grown and small ones, of whom both may be left empty for all of them."""

from collections.abc import Callable
from typing import Any

import streamlit as st

from app import fields
from optimizer.scenario.document import Location

WHO = ("adults", "children")
NUMBER_PX = 160

Heads = dict[str, float]


def heads(at: Location, said: Any, named: str, edit: Callable[[str, Heads | None], str]) -> None:
    """Draw two fields for grown and small ones.

    Parameters
    ----------
    at
        Keys and positions from the top of what holds them.
    said
        What the file says there: both, a bare number of grown ones, or nothing.
    named
        Whose they are, for the labels.
    edit
        Makes the new text from both numbers; None: all.
    """
    given = said if isinstance(said, dict) else {WHO[0]: said}
    known = {who: n if isinstance(n := given.get(who), int | float) else None for who in WHO}

    def setting(who: str) -> fields.Edit:
        def set_it(text: str, number: float | None) -> str:
            counts = {each: written(n or 0) for each, n in {**known, who: number}.items()}
            return edit(text, counts if any(counts.values()) else None)

        return set_it

    for who in WHO:
        with st.container(width=NUMBER_PX):
            label = f"{who.capitalize()} ({named})"
            fields.amount(label, (*at, who), known[who], setting(who), empty="all")
    fields.faults(at)


def written(number: float) -> float:
    """Give a number as it is written in a file: 2 rather than 2.0.

    Parameters
    ----------
    number
        Of people or portions.
    """
    return int(number) if float(number).is_integer() else number
