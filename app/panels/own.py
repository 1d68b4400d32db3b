"""Packings, foods and dishes of the household's own: like one of the shelf, with other numbers."""

from collections.abc import Mapping
from functools import partial
from typing import Any

import streamlit as st

from app import entries, fields, state
from app.panels import things
from app.panels.numbers import label_of, numbers, record_of
from app.waiting import inline, plain
from optimizer.scenario.changes import with_field
from optimizer.shelf import load

NEW_FOOD_KG = "100 g"


def section(kind: str) -> None:
    """Draw what is the household's own of one kind, and how to add one.

    Parameters
    ----------
    kind
        materials, foods or dishes.
    """
    for name in entries.mapping((kind,)):
        _thing(kind, name)
    things.own(kind)
    fields.faults((kind,))


def _thing(kind: str, name: str) -> None:
    """Draw one thing: its numbers, and of a dish what goes into it."""
    record = record_of(kind, name)
    label = label_of(kind, name, record)
    with st.container(border=True):
        with st.container(horizontal=True, vertical_alignment="center"):
            like = "" if record is None else f"  \nlike {plain(record.label)}"
            st.markdown(f"**{plain(label)}**{like}", width=240)
            numbers(kind, name, record, label)
            things.take_out(kind, name, label)
        if kind == "dishes":
            _ingredients(name, record)
    fields.faults((kind, name))


def _ingredients(name: str, record: Any) -> None:
    """Draw what goes into a dish for one grown portion."""
    at = ("dishes", name, "ingredients")
    shelf = (
        {} if record is None else {i.food.name: f"{1000 * i.kg:g} g" for i in record.ingredients}
    )
    mixed = entries.mapping(at) or shelf
    st.caption("For one grown portion; empty takes a food out. Water to cook in is one of them.")
    with st.container(horizontal=True):
        for food, weight in mixed.items():
            with st.container(width=200):
                fields.measured(
                    _food(food),
                    (*at, food),
                    hint=NEW_FOOD_KG,
                    edit=partial(_with_food, dish=name, food=food, mixed=mixed),
                    instead=str(weight),
                )
    fields.faults(at)
    _add_food(name, mixed)


def _with_food(text: str, given: str, *, dish: str, food: str, mixed: Mapping[str, Any]) -> str:
    """Say how much of a food goes into a dish; nothing takes it out."""
    others = {name: weight for name, weight in mixed.items() if name != food}
    whole = {**mixed, food: given.strip()} if given.strip() else others
    return with_field(text, "dishes", dish, "ingredients", whole)


def _add_food(name: str, mixed: Mapping[str, Any]) -> None:
    """Draw how to add a food to a dish."""
    labels = {each: _food(each) for each in {**entries.mapping(("foods",)), **load().foods}}
    button = f"dishes.{name}.add"
    with st.container(horizontal=True, vertical_alignment="bottom"):
        picked = st.selectbox(
            f"Add a food to {inline(label_of('dishes', name, record_of('dishes', name)))}",
            [each for each in labels if each not in mixed],
            format_func=lambda each: labels[each],
            index=None,
            placeholder="type to search the foods",
            key=f"pick food:{name}",
            width=320,
        )
        add = partial(_with_food, given=NEW_FOOD_KG, dish=name, food=picked or "", mixed=mixed)
        st.button(
            "Add this food",
            key=f"add food:{name}",
            disabled=picked is None,
            on_click=state.change,
            args=(button, add, f"add {picked}"),
        )
    fields.tell(state.refusals(button))


def _food(name: str) -> str:
    """Say what the cook calls a food."""
    return label_of("foods", name, record_of("foods", name))
