"""Whose measured numbers they are, and writing them into the household's file."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any, Literal

import streamlit as st

from app import entries, fields, state
from app.panels import choosing
from app.waiting import inline
from optimizer.scenario.changes import free_name
from optimizer.scenario.measured import with_measured
from optimizer.shelf import load

NEW = ""
ONE = {"cookers": "cooker", "stoves": "stove"}


@dataclass(frozen=True, slots=True)
class Whose:
    """A thing of the household or of the shelf, or a new one that is like one."""

    name: str  # in the file; empty for a new one
    label: str
    like: str | None
    thing: Any  # whose numbers a plan takes without the test

    @property
    def ready(self) -> bool:
        """Whether there is a name to write it under."""
        return bool(self.name or self.label)


def whose(section: Literal["cookers", "stoves"], known: Mapping[str, Any]) -> Whose:
    """Let the person say whose numbers they are.

    Parameters
    ----------
    section
        Of the file.
    known
        Things of the household, then of the shelf.
    """
    one, own = ONE[section], entries.mapping((section,))
    here = {True: "yours", False: "on the shelf"}
    labels = {name: f"{each.label} ({here[name in own]})" for name, each in known.items()}
    with st.container(horizontal=True):
        name = choosing.one(f"tested {section}", f"Which {one}", labels | {NEW: f"a new {one}"})
        if name != NEW:
            return Whose(name, known[name].label, None, known[name])
        label = choosing.text(f"new {section}", "What you call it", f"our {one}")
        shelf = getattr(load(), section)
        most_like = {key: each.label for key, each in shelf.items()}
        like = choosing.one(f"like {section}", "Most like", most_like)
    return Whose(NEW, label, like, shelf[like])


def button(section: Literal["cookers", "stoves"], who: Whose, values: Mapping[str, Any]) -> None:
    """Draw the button that writes measured numbers down; it can be undone.

    The whole page is drawn anew, since what stands above it changes with the file.

    Parameters
    ----------
    section
        Of the file.
    who
        Whose numbers they are.
    values
        Keys of the file and their values; None takes a key out.
    """
    if not who.ready:
        st.caption(f"Give the new {ONE[section]} a name to write its numbers down.")
        return
    name = f"measured {section}"
    if st.button(f"Write down for {inline(who.label)}", key=f"act:{name}"):
        edit = partial(_written, section=section, who=who, values=values)
        state.change(name, edit, f"measured numbers of {who.label}")
        st.rerun()
    fields.tell(state.refusals(name))


def _written(text: str, section: str, who: Whose, values: Mapping[str, Any]) -> str:
    """Give the scenario with the numbers in it."""
    if who.name:
        return with_measured(text, section, who.name, values)
    name = free_name(text, section, who.label)
    return with_measured(text, section, name, {"label": who.label, **values}, who.like)
