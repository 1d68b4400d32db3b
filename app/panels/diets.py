"""Who does not eat what: each diet with what it leaves out and whose it is."""

from collections.abc import Mapping
from functools import partial
from typing import Any

import streamlit as st

from app import entries, fields, folding, state
from app.panels.dish_names import left_out_label, left_out_words, served_label
from app.panels.heads import NUMBER_PX, WHO, Heads, heads
from app.waiting import inline, plain
from optimizer.scenario.diets import (
    meant_for,
    with_all_fed,
    with_diet,
    with_new_diet,
    without_diet,
)
from optimizer.scenario.document import Location
from optimizer.scenario.eater_parts import listed

KEYS = ("without", "of", "people", "allergy")
MEAL_AT = ("menu", 0)  # such as this one
FEED = "dishes of their own"
WORDS_PX, HOUSES_PX = 370, 290


def diets() -> None:
    """Draw every diet and how to add one, folded away."""
    named = entries.names(("diets",))
    edited = [("diets", name, key) for name in named for key in KEYS]
    folding.expander("Who does not eat what (diets)", "diets", _diets, edited)
    fields.faults(("diets",))
    for name in named:
        fields.faults(("diets", name))


def _diets() -> None:
    st.caption(
        "Food that some do not eat. A dish that has it is not counted for them, and a meal that "
        "leaves them with nothing is told. With an allergy the plan says what to mind; it cannot "
        "promise that a pot is free of anything."
    )
    st.checkbox(
        "Where a meal has nothing for them, add a dish of their own", **state.bind(FEED, first=True)
    )
    for name in entries.names(("diets",)):
        _diet(name)
    _add()


def _fed(edit: fields.Edit) -> fields.Edit:
    """Let a change give those whom it leaves with nothing a dish of their own, if that is asked."""
    if not state.kept(FEED, first=True):
        return edit
    return lambda text, given: with_all_fed(edit(text, given))


def _diet(name: str) -> None:
    """Draw one diet."""
    with st.container(border=True):
        with st.container(horizontal=True, vertical_alignment="center"):
            st.markdown(f"**{plain(name)}**", width=200)
            with st.container(width="content"):
                label = f"An allergy ({inline(name)})"
                fields.tick(label, ("diets", name, "allergy"), edit=_allergy(name))
            fields.act(
                "Remove",
                f"diets.{name}.remove",
                partial(without_diet, name=name),
                f"{name} removed",
                spoken=f"Take the diet {inline(name)} out, and the dishes that are for it alone",
            )
        with st.container(horizontal=True, vertical_alignment="bottom"):
            _left_out(name)
            _whose(name)
            _heads(name)
        _their_dishes(name)


def _said(name: str) -> Mapping[str, Any]:
    """Give what is said of a diet; a bare word after its name is what it leaves out."""
    said = entries.said(("diets", name))
    return said if isinstance(said, dict) else {"without": said}


def _words(said: Mapping[str, Any], key: str) -> list[str]:
    found = listed(said.get(key))
    return [str(each) for each in found] if isinstance(found, list) else []


def _left_out(name: str) -> None:
    words = left_out_words()

    def set_it(text: str, given: list[str]) -> str:
        return with_diet(text, name, "without", given)

    with st.container(width=WORDS_PX):
        at = ("diets", name, "without")
        chosen = _words(_said(name), "without")
        fields.several(
            f"Left out ({inline(name)})", at, words, chosen, left_out_label, _fed(set_it)
        )


def _whose(name: str) -> None:
    """Draw of which households they are, where there are any."""
    houses = entries.names(("households",))
    chosen = _words(_said(name), "of")
    if not houses and not chosen:
        return

    def set_it(text: str, given: list[str]) -> str:
        return with_diet(text, name, "of", given)

    with st.container(width=HOUSES_PX):
        at, label = ("diets", name, "of"), f"Of which households ({inline(name)})"
        fields.several(label, at, houses, chosen, str, _fed(set_it), empty="all")


def _heads(name: str) -> None:
    """Draw how many they are."""

    def set_it(text: str, given: Heads | None) -> str:
        return with_diet(text, name, "people", given)

    heads(("diets", name, "people"), _said(name).get("people"), inline(name), _fed(set_it))


def _allergy(name: str) -> fields.Edit:
    return lambda text, given: with_diet(text, name, "allergy", given or None)


def _their_dishes(name: str) -> None:
    """Say what is cooked for these people apart."""
    told = [_on_the_menu(at) for at, names in meant_for(state.text()) if name in names]
    if told:
        st.caption(plain(f"For them on the menu: {'; '.join(told)}."))


def _on_the_menu(at: Location) -> str:
    """Name a meal, or a dish with its meal."""
    meal = str(entries.said((*at[:2], "meal"), "?"))
    return f"{meal}: {served_label(entries.said(at))}" if len(at) > len(MEAL_AT) else meal


def _add() -> None:
    """Draw how to add a diet; the fields are empty again when it is there."""
    st.markdown("**Add a diet**")
    new = f"new diet {len(entries.mapping(('diets',))) + 1}"
    with st.container(horizontal=True, vertical_alignment="bottom"):
        with st.container(width=240):
            name = st.text_input("What you call it", key=f"{new} name", max_chars=60)
        with st.container(width=WORDS_PX):
            without = st.multiselect(
                "What it leaves out",
                left_out_words(),
                format_func=left_out_label,
                key=f"{new} without",
                placeholder="type to search",
            )
        of = _new_whose(new)
        people = {who: _new_heads(new, who) for who in WHO}
        allergy = st.checkbox("It is an allergy", key=f"{new} allergy")
    told = {"of": of, "people": people if any(people.values()) else None, "allergy": allergy}
    entry = {"without": without, **{key: each for key, each in told.items() if each}}
    add = _fed(lambda text, given: with_new_diet(text, given, entry))
    st.button(
        "Add this diet",
        key="add diet",
        disabled=not name.strip() or not without,
        on_click=state.change,
        args=("add diet", lambda text: add(text, name.strip()), f"add {name}"),
    )
    fields.tell(state.refusals("add diet"))


def _new_whose(new: str) -> list[str]:
    houses = entries.names(("households",))
    if not houses:
        return []
    with st.container(width=HOUSES_PX):
        found: list[str] = st.multiselect(
            "Of which households", houses, key=f"{new} of", placeholder="all"
        )
    return found


def _new_heads(new: str, who: str) -> int:
    with st.container(width=NUMBER_PX):
        label = f"{who.capitalize()} of them"
        number = st.number_input(
            label, min_value=0, step=1, value=None, placeholder="all", key=f"{new} {who}"
        )
    return int(number or 0)
