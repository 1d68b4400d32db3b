"""What keeps fresh food cold, and when more of it is bought."""

from functools import partial

import streamlit as st

from app import entries, fields
from optimizer.scenario.changes import with_value
from optimizer.scenario.keeping import PLACES
from optimizer.scenario.provisions import with_cold

WIDE_PX = 240


def cold() -> None:
    """Draw the cold places and until when they are cold."""
    st.caption(
        "Raw meat, fish and eggs have to be on the fire before they spoil. Say until when a place "
        "is cold, or when its power went: it then counts as kept shut, and its hours are reckoned. "
        "Nothing here: nothing is cold."
    )
    for key, name in PLACES.items():
        _place(key, name)
    with st.container(horizontal=True, vertical_alignment="bottom"):
        with st.container(width=WIDE_PX):
            fields.tick("Outdoors, on days that are cold enough", ("cold", "outdoors"), edit=_tick)
        with st.container(width=2 * WIDE_PX):
            bought = [str(each) for each in entries.items(("cold", "bought"))]
            label = "Fresh food is bought (besides before day 1)"
            hint = "day 2 10:00, day 3 10:00"
            fields.listed(label, ("cold", "bought"), bought, hint=hint, optional=True)
    fields.faults(("cold",))


def _tick(text: str, given: bool) -> str:
    return with_value(text, ("cold", "outdoors"), given or None)


def _place(key: str, name: str) -> None:
    """Draw one cold place; an ice box has no power that could go."""
    at = ("cold", key)
    spoken = name.capitalize()
    with st.container(horizontal=True, vertical_alignment="bottom"):
        with st.container(width=WIDE_PX):
            edit = partial(with_cold, place=key, key="until")
            fields.words(f"{spoken} cold until", (*at, "until"), hint="day 2 18:00", edit=_by(edit))
        if key == "ice_box":
            return fields.faults(at)
        with st.container(width=WIDE_PX):
            edit = partial(with_cold, place=key, key="power_out")
            label = f"or power of the {name} went"
            fields.words(label, (*at, "power_out"), hint="day 1 09:00", edit=_by(edit))
        if key == "freezer" and entries.mapping(at):
            fields.tick("It is full", (*at, "full"))
    return fields.faults(at)


def _by(edit: "partial[str]") -> fields.Edit:
    """Let an edit take what was typed by its place among the words."""
    return lambda text, given: edit(text, value=given)
