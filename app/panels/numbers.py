"""What a thing is called, and its numbers: those of the shelf, and those that are changed."""

from collections.abc import Mapping
from typing import Any

import streamlit as st

from app import entries, fields, state
from app.waiting import inline
from optimizer.report.inventory import fields_told, meanings
from optimizer.scenario.changes import with_field
from optimizer.scenario.passages import value_of
from optimizer.shelf import load
from optimizer.units import exchanged

SPECIAL = {"stoves": {"fuel"}, "cookers": {"material", "thickness"}}  # drawn by themselves
PACKED = "packed"  # of an insulated cooker


def _spoken(name: str) -> str:
    """Write a name that has no label."""
    return name.replace("_", " ")


def label_of(kind: str, name: str, record: Any) -> str:
    """Say what a thing is called.

    Parameters
    ----------
    kind
        Section of the file.
    name
        Its name there.
    record
        The thing of the shelf that it is, or is like.
    """
    own = entries.said((kind, name, "label"))
    return str(own or (record.label if record and name == record.name else _spoken(name)))


def record_of(kind: str, name: str) -> Any:
    """Give the thing of the shelf that this one is, or is like; None where there is none.

    Parameters
    ----------
    kind
        Section of the file.
    name
        Its name there.
    """
    shelf: Mapping[str, Any] = getattr(load(), kind)
    return shelf.get(str(entries.said((kind, name, "like"), name)))


def is_packed(name: str, record: Any) -> bool:
    """Say whether a cooker is a packed one.

    Parameters
    ----------
    name
        Its name in the file.
    record
        The cooker of the shelf that it is, or is like.
    """
    return bool(entries.said(("cookers", name, "kind"), record and record.kind) == PACKED)


def numbers(kind: str, name: str, record: Any, label: str) -> None:
    """Draw the numbers that are changed from the shelf's, and how to change another.

    Parameters
    ----------
    kind
        Section of the file.
    name
        Its name there.
    record
        The thing of the shelf that it is, or is like.
    label
        What it is called.
    """
    told = _told(kind, record) if record is not None else _of_the_file(kind, name)
    entry = entries.said((kind, name))
    changed = [key for key in told if isinstance(entry, dict) and key in entry]
    if not told:
        return
    count = f" ({len(changed)} changed)" if changed and record is not None else ""
    with st.popover(
        f"Numbers{count}", help=f"What the plan takes of {inline(label)}", width="content"
    ):
        _of_the_household(kind, name, record)
        for key in changed:
            value, meaning = told[key]
            beside = "" if record is None else f" (on the shelf {value})"
            fields.measured(
                f"{_spoken(key)}: {meaning}{beside}",
                (kind, name, key),
                hint=value,
                edit=_typed(kind, name, key),
            )
        if len(changed) < len(told):
            _another(kind, name, {key: each for key, each in told.items() if key not in changed})


def _of_the_household(kind: str, name: str, record: Any) -> None:
    """Draw what the shelf cannot know of a fuel or a packed cooker."""
    if kind == "fuels":
        label = "Keep in reserve, of this fuel (empty: as of every fuel)"
        hint = str(entries.said(("reserve",), "10 %"))
        at = (kind, name, "reserve")
        fields.measured(label, at, hint=hint, edit=_typed(kind, name, "reserve"))
    elif kind == "cookers" and is_packed(name, record):
        label = "Its maker allows a pressure pot in it before the pressure has fallen"
        fields.tick(label, (kind, name, "pressure_allowed"), edit=_ticked(kind, name))


def _ticked(kind: str, name: str) -> fields.Edit:
    return lambda text, given: with_field(text, kind, name, "pressure_allowed", given or "")


def _of_the_file(kind: str, name: str) -> dict[str, tuple[str, str]]:
    """Tell the numbers of a thing that is like none of the shelf: what the file says of it."""
    entry, meaning = entries.mapping((kind, name)), meanings(kind)
    return {
        key: (str(value), meaning[key])
        for key, value in entry.items()
        if key in meaning and key not in SPECIAL.get(kind, ())
    }


def _told(kind: str, record: Any) -> dict[str, tuple[str, str]]:
    """Tell the numbers of a thing of the shelf, in the measures that the person reads."""
    return {
        key: (exchanged(value, state.units()), meaning)
        for key, (value, meaning) in fields_told(kind, record).items()
        if key not in SPECIAL.get(kind, ())
    }


def _typed(kind: str, name: str, key: str) -> fields.Edit:
    def set_it(text: str, given: Any) -> str:
        return with_field(text, kind, name, key, value_of(given) if given.strip() else "")

    return set_it


def _another(kind: str, name: str, told: Mapping[str, tuple[str, str]]) -> None:
    """Draw the choice of a number to change."""
    key = st.selectbox(
        "Change a number of it",
        list(told),
        format_func=lambda key: f"{key.replace('_', ' ')}: {told[key][0]} ({told[key][1]})",
        index=None,
        placeholder="choose one",
        key=f"another:{kind}.{name}",
    )
    if key is not None:
        value = told[key][0]
        fields.measured("Its value", (kind, name, key), hint=value, edit=_typed(kind, name, key))
