"""What a meal, a dish or a use of a big boil says more: for whom, without what, carried, drawn."""

from collections.abc import Mapping
from functools import partial
from typing import Any

import streamlit as st

from app import eaters, entries, fields, folding, state
from app.panels.dish_names import dish_label, left_out_label, left_out_words
from app.panels.numbers import record_of
from app.waiting import inline
from optimizer.model.eaters import Diet
from optimizer.scenario.document import Location
from optimizer.scenario.drawing import drawable
from optimizer.scenario.eater_parts import listed
from optimizer.scenario.said_of_dishes import (
    draws_read,
    said_at,
    with_carried,
    with_draws,
    with_said,
)
from optimizer.units import exchanged

KEYS = ("for", "without", "carried", "back", "to", "drawn")
FIELD_PX = 320


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
        _whom(at, "For whom (none: all)")
        _carried(at)

    told = "For whom all of this meal is, and where it is eaten"
    folding.popover("For whom, where", at, draw, _edited(at), told)


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
        _whom(at, "For whom (none: all whom its meal is for)")
        _without(at)
        if not use:
            _carried(at)
            _drawn(at)

    told = f"For whom {inline(dish_label(_name(at)))} is, what is left out of it, where it is eaten"
    folding.popover("More", at, draw, _edited(at), told)


def _edited(at: Location) -> list[Location]:
    return [(*at, key) for key in KEYS]


def _people() -> list[str]:
    """Give the households and diets that a dish can be for."""
    return [*eaters.household_heads(state.text()), *entries.mapping(("diets",))]


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


def _whom(at: Location, label: str) -> None:
    """Draw for whom it is, where people are told apart."""
    people, chosen = _people(), _words(at, "for")
    if people or chosen:
        edit = _setting(at, "for")
        fields.several(label, (*at, "for"), people, chosen, str, edit)


def _without(at: Location) -> None:
    """Draw what is left out of a dish."""
    chosen = _words(at, "without")
    dish = record_of("dishes", _name(at))
    inside = [word for word in left_out_words() if dish is None or Diet("", (word,)).unfit(dish)]
    edit = _setting(at, "without")
    where = (*at, "without")
    fields.several("Left out of it", where, inside, chosen, left_out_label, edit)


def _carried(at: Location) -> None:
    """Draw how long it is carried to people elsewhere; where to and until when, if it is."""
    with st.container(width=FIELD_PX):
        fields.words(
            "Carried out to people: time on the way (empty: eaten here)",
            (*at, "carried"),
            hint="20 min",
            edit=lambda text, given: with_carried(text, at, given),
        )
        if "carried" not in _said(at) and "carried" not in _said(at[:2]):
            return
        st.caption("It leaves so long before the meal, in an insulated cooker that can be carried.")
        fields.words("Carried to", (*at, "to"), hint="upper street", edit=_setting(at, "to"))
        label = "Cooker and pot are back so long after the meal"
        fields.words(label, (*at, "back"), hint="60 min", edit=_setting(at, "back"))


def _drawn(at: Location) -> None:
    """Draw when a jar of it is drawn on, and how much each time."""
    said = _said(at).get("drawn")
    dish = record_of("dishes", _name(at))
    if said is None and (dish is None or not drawable(dish)):
        return
    with st.container(width=FIELD_PX):
        fields.words_of(
            "Kept in a jar and drawn on at: time and how much, with commas between",
            (*at, "drawn"),
            drawn_words(said),
            drawn_words({"07:30": "0.5 L", "10:00": "0.5 L"}),
            partial(_with_drawn, at=at),
        )
        fields.all_faults((*at, "drawn"), ".")


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
