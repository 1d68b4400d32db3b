"""What a meal, a dish or a use of a big boil says more: for whom, without what, carried, drawn."""

from collections.abc import Mapping
from functools import partial
from typing import Any

import streamlit as st

from app import entries, fields, folding, state
from app.entries import shown
from app.panels.dish_names import dish_label, left_out_label, left_out_words
from app.panels.heads import heads
from app.panels.numbers import record_of
from app.waiting import inline
from optimizer.model.eaters import Diet
from optimizer.scenario.document import Location
from optimizer.scenario.drawing import drawable
from optimizer.scenario.eater_parts import listed
from optimizer.scenario.said_of_dishes import (
    CARRIED,
    draws_read,
    said_at,
    with_carried,
    with_draws,
    with_said,
)
from optimizer.units import exchanged

KEYS = ("for", "without", "carried", "back", "to", "drawn")
FIELD_PX = 330


def of_meal(at: Location) -> None:
    """Draw for whom a meal is and where it is eaten, where people are told apart.

    Parameters
    ----------
    at
        Where it stands in the menu.
    """
    if not _people() and not {*entries.mapping(at)} & {*KEYS}:
        return

    def draw() -> None:
        _whom(at, "all")
        _carried(at, "or empty")

    label = f"For whom meal {int(at[1]) + 1} is, and where it is eaten"
    folding.expander(label, shown(at), draw, _edited(at), compact=True)


def of_dish(at: Location, *, use: bool = False) -> None:
    """Draw what may be said of a dish beside its portions.

    Parameters
    ----------
    at
        Where it stands in the menu.
    use
        It is one use of a big boil, which stays where it is.
    """

    def draw() -> None:
        with st.container(horizontal=True, vertical_alignment="top"):
            _whom(at, "all whom its meal is for")
            _without(at)
            if use:
                _portions(at)
            else:
                _drawn(at)
        if not use:
            by_meal = "carried" in _said(at[:2])
            _carried(at, "empty: as its meal" if by_meal else "or empty")

    label = f"More about {inline(dish_label(_name(at)))}"
    edited = [*_edited(at), *([(*at, "portions")] if use else [])]
    folding.expander(label, shown(at), draw, edited, compact=True)


def _edited(at: Location) -> list[Location]:
    return [(*at, key) for key in KEYS]


def _people() -> list[str]:
    """Give the households and diets that a dish can be for."""
    return [*entries.names(("households",)), *entries.names(("diets",))]


def _said(at: Location) -> Mapping[str, Any]:
    found = entries.said(at)
    return found if isinstance(found, Mapping) else {"dish": found}


def _name(at: Location) -> str:
    return str(_said(at).get("dish", "?"))


def _words(at: Location, key: str) -> list[str]:
    found = listed(_said(at).get(key))
    return [str(each) for each in found] if isinstance(found, list) else []


def _setting(at: Location, key: str) -> fields.Edit:
    return lambda text, given: with_said(text, at, key, given)


def _whom(at: Location, empty: str) -> None:
    """Draw for whom it is, where people are told apart."""
    people, chosen = _people(), _words(at, "for")
    if not people and not chosen:
        return
    with st.container(width=FIELD_PX):
        edit = _setting(at, "for")
        fields.several("For whom", (*at, "for"), people, chosen, str, edit, empty=empty)


def _without(at: Location) -> None:
    """Draw what is left out of a dish."""
    chosen = _words(at, "without")
    dish = record_of("dishes", _name(at))
    inside = [word for word in left_out_words() if dish is None or Diet("", (word,)).unfit(dish)]
    edit = _setting(at, "without")
    where = (*at, "without")
    with st.container(width=FIELD_PX):
        label, empty = "Left out of it", "nothing"
        fields.several(label, where, inside, chosen, left_out_label, edit, empty=empty)


def _portions(at: Location) -> None:
    """Draw how many a use of a big boil is for."""
    named = inline(dish_label(_name(at)))
    heads((*at, "portions"), _said(at).get("portions"), named, _setting(at, "portions"))


def _carried(at: Location, empty: str) -> None:
    """Draw how long it is carried to people elsewhere; where to and until when, if it is."""
    told = {key: each for key, each in _said(at).items() if key in CARRIED}
    with st.container(horizontal=True, vertical_alignment="top"):
        with st.container(width=FIELD_PX):
            label = f"Carried out: time on the way ({empty})"
            edit = partial(_with_carried, at=at)
            fields.words(label, (*at, "carried"), hint="20 min", edit=edit)
        if not told:
            return
        with st.container(width=FIELD_PX):
            fields.words("Carried to", (*at, "to"), hint="upper street", edit=_setting(at, "to"))
        with st.container(width=FIELD_PX):
            label = "Pot and cooker are back, after the meal"
            fields.words(label, (*at, "back"), hint="60 min", edit=_setting(at, "back"))
    st.caption("It leaves so long before the meal, in an insulated cooker that can be carried.")


def _with_carried(text: str, given: str, *, at: Location) -> str:
    return with_carried(text, at, given)


def _drawn(at: Location) -> None:
    """Draw when a jar of it is drawn on, and how much each time."""
    said = _said(at).get("drawn")
    dish = record_of("dishes", _name(at))
    if said is None and (dish is None or not drawable(dish)):
        return
    with st.container(width=FIELD_PX):
        fields.words_of(
            "Kept hot and drawn on: times and amounts",
            (*at, "drawn"),
            drawn_words(said),
            drawn_words({"07:30": "0.5 L", "10:00": "0.5 L"}),
            partial(_with_drawn, at=at),
            signs=".",
        )


def drawn_words(said: Any) -> str:
    """Write when a jar is drawn on, and how much each time, in the measures that are read.

    Parameters
    ----------
    said
        As it stands in the file.
    """
    if not isinstance(said, Mapping):
        return str(said or "")
    units = state.units()
    return ", ".join(f"{time} {exchanged(str(much), units)}" for time, much in said.items())


def _with_drawn(text: str, given: str, *, at: Location) -> str:
    """Set the draws; what is as it was shown keeps the file's units."""
    said = said_at(text, at)
    before = said.get("drawn") if isinstance(said, dict) else None
    units = state.units()
    shown = {
        (str(time), exchanged(str(much), units)): much
        for time, much in (before.items() if isinstance(before, dict) else ())
    }
    draws = {t: shown.get((t, much), much) for t, much in draws_read(given).items()}
    return with_draws(text, at, draws)
