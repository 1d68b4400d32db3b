"""Fields that edit the scenario: what it says, in the words of the file, and what is wrong.

A change that would make the scenario wrong is not made: what was typed stays in its field, and the
reason stands under it.
"""

from collections.abc import Callable, Sequence
from typing import Any, Literal, TypeVar

import streamlit as st

from app import state
from app.entries import said, shown
from app.telling import act, all_faults, faults, problems, readable, tell, tell_file
from optimizer.scenario.changes import with_value
from optimizer.scenario.document import Location
from optimizer.scenario.passages import value_of
from optimizer.units import exchanged

__all__ = [
    "Edit",
    "act",
    "all_faults",
    "amount",
    "choice",
    "faults",
    "listed",
    "measured",
    "number",
    "problems",
    "readable",
    "several",
    "tell",
    "tell_file",
    "tick",
    "whole",
    "words",
    "words_of",
]

Edit = Callable[[str, Any], str]
Choice = TypeVar("Choice", int, str)


def words(label: str, at: Location, *, hint: str = "", edit: Edit | None = None) -> None:
    """Draw a field for text, such as a number with its unit.

    Parameters
    ----------
    label
        What it is.
    at
        Keys and positions from the top.
    hint
        An example of what can be written.
    edit
        Makes the new text; without it the value is set as it is typed.
    """
    _line(label, at, str(said(at, "")), hint, edit)


def measured(
    label: str, at: Location, *, hint: str = "", edit: Edit | None = None, instead: str = ""
) -> None:
    """Draw a field for a quantity, in the measures that the person reads.

    What is typed goes into the file as it is typed; what is not touched keeps the file's units.

    Parameters
    ----------
    label
        What it is.
    at
        Keys and positions from the top.
    hint
        An example of what can be written, in any measures.
    edit
        Makes the new text; without it the value is set as it is typed.
    instead
        What is shown where the scenario says nothing.
    """
    units = state.units()
    _line(label, at, exchanged(_typed(said(at, instead)), units), exchanged(hint, units), edit)


def _typed(value: Any) -> str:
    """Write a value as a person types it."""
    return {True: "yes", False: "no"}[value] if isinstance(value, bool) else str(value)


def _line(
    label: str, at: Location, value: str, hint: str, edit: Edit | None, signs: str = "["
) -> None:
    """Draw a field of one line with what is wrong under it."""
    st.text_input(label, placeholder=hint and f"such as {hint}", **_bound(at, value, edit, label))
    all_faults(at, signs)


def words_of(
    label: str, at: Location, value: str, hint: str, edit: Edit, *, signs: str = "["
) -> None:
    """Draw a field for words that stand for several keys of the file.

    Parameters
    ----------
    label
        What it is.
    at
        Keys and positions from the top.
    value
        The words as they are now.
    hint
        An example of what can be written.
    edit
        Makes the new text.
    signs
        What stands after the place of the keys that it is about, as for ``all_faults``.
    """
    _line(label, at, value, hint, edit, signs)


def whole(label: str, at: Location, *, instead: int = 0, edit: Edit | None = None) -> None:
    """Draw a field for a whole number.

    Parameters
    ----------
    label
        What it is.
    at
        Keys and positions from the top.
    instead
        What is shown where the scenario says nothing; where it says no number, nothing is shown.
    edit
        Makes the new text; without it the number is set.
    """
    value = said(at, instead)
    bound = _bound(at, value if isinstance(value, int) and value >= 0 else None, edit, label)
    st.number_input(label, min_value=0, step=1, value=None, **bound)
    faults(at)


def number(label: str, at: Location, *, hint: str = "") -> None:
    """Draw a field for a bare number or a percentage.

    Parameters
    ----------
    label
        What it is.
    at
        Keys and positions from the top.
    hint
        An example of what can be written.
    """

    def set_it(text: str, given: str) -> str:
        return with_value(text, at, value_of(given) if given.strip() else "")

    words(label, at, hint=hint, edit=set_it)


def listed(
    label: str, at: Location, value: Sequence[str], *, hint: str = "", optional: bool = False
) -> None:
    """Draw a field for several words with commas between them.

    Parameters
    ----------
    label
        What it is.
    at
        Keys and positions from the top.
    value
        The words as they are now.
    hint
        An example of what can be written.
    optional
        An empty one is taken out of the file.
    """

    def set_it(text: str, given: str) -> str:
        parts = [part.strip() for part in given.split(",") if part.strip()]
        return with_value(text, at, parts or (None if optional else []))

    _line(label, at, ", ".join(value), hint, set_it)


def several(
    label: str,
    at: Location,
    options: Sequence[Choice],
    value: Sequence[Choice],
    told: Callable[[Choice], str],
    edit: Edit,
    *,
    empty: str | None = None,
) -> None:
    """Draw a choice of several.

    Parameters
    ----------
    label
        What it is.
    at
        Keys and positions from the top.
    options
        What there is.
    value
        What is chosen now.
    told
        Says an option.
    edit
        Makes the new text.
    empty
        What none of them stands for.
    """
    listed = list(dict.fromkeys((*options, *value)))  # a word of the file that is none is kept
    bound = _bound(at, list(value), edit, label)
    st.multiselect(label, listed, format_func=told, placeholder=empty, **bound)
    all_faults(at)


def amount(
    label: str, at: Location, value: float | None, edit: Edit, *, empty: str | None = None
) -> None:
    """Draw a field for a number of portions.

    Parameters
    ----------
    label
        What it is.
    at
        Keys and positions from the top.
    value
        What it is now.
    edit
        Makes the new text.
    empty
        What an empty field stands for; without it there is always a number.
    """
    bound = _bound(at, None if value is None else float(value), edit, label)
    first: Literal["min"] | None = None if empty else "min"
    st.number_input(label, 0.0, value=first, step=1.0, format="%g", placeholder=empty, **bound)
    faults(at)


def tick(label: str, at: Location, *, edit: Edit | None = None) -> None:
    """Draw a box to tick.

    Parameters
    ----------
    label
        What it is.
    at
        Keys and positions from the top.
    edit
        Makes the new text; without it true or false is set.
    """
    st.checkbox(label, **_bound(at, said(at, instead=False) is True, edit, label))
    faults(at)


def choice(
    label: str, at: Location, options: Sequence[str], *, instead: str, edit: Edit | None = None
) -> None:
    """Draw a field for one of several words; a word of the file that is none of them is kept.

    Parameters
    ----------
    label
        What it is.
    at
        Keys and positions from the top.
    options
        The words.
    instead
        What is shown where the scenario says nothing.
    edit
        Makes the new text; without it the word is set.
    """
    value = str(said(at, instead))
    listed = list(options) if value in options else [*options, value]
    st.selectbox(label, listed, format_func=_spoken, **_bound(at, value, edit, label))
    faults(at)


def _spoken(word: str) -> str:
    return word.replace("_", " ")


def _bound(at: Location, value: Any, edit: Edit | None, label: str) -> dict[str, Any]:
    def set_it(text: str, given: Any) -> str:
        return with_value(text, at, given)

    return state.field(shown(at), value, edit or set_it, f"{label.lower()} ({shown(at)})")
