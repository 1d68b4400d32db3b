"""What is for sale: fuel by the package, stoves, pots, cookers, water, and the money for it."""

from functools import partial
from typing import Any

import streamlit as st

from app import entries, fields, state
from app.panels.numbers import label_of, record_of
from app.panels.things import ONE
from app.waiting import plain
from optimizer.scenario.passages import put, remove
from optimizer.scenario.provisions import with_offer, with_water
from optimizer.shelf import load

KINDS = ("fuels", "stoves", "pots", "cookers")
WATERS = {"bottled_water": "Bottled water", "treated_water": "Treated water"}
PRICES = {"fuels": "6.50 {} / 10 kg", "water": "1.20 {} / 6 L"}  # of others a sum
WIDE_PX = 240


def shop() -> None:
    """Draw all that is for sale, and how to add to it."""
    st.caption(
        "For the question on the How long page, what to buy. How much fuel a house may hold is set "
        "by the local fire code: ask before you store more. Currency as above."
    )
    with st.container(width=WIDE_PX):
        fields.words(
            "Money that may be spent (or empty)", ("shop", "budget"), hint=_hint("", "60 ")
        )
    for kind in KINDS:
        for name in entries.mapping(("shop", kind)):
            _offer(kind, name)
    for key, label in WATERS.items():
        _water(key, label)
    _add()
    fields.faults(("shop",))


def _hint(kind: str, other: str = "25 ") -> str:
    return PRICES.get(kind, f"{other}{{}}").format(entries.said(("currency",), "EUR"))


def _offer(kind: str, name: str) -> None:
    """Draw one thing that is for sale."""
    at = ("shop", kind, name)
    label = label_of(kind, name, record_of(kind, name))
    bare = entries.said(at)
    with st.container(border=True, horizontal=True, vertical_alignment="center"):
        st.markdown(f"**{plain(label)}** for sale", width=200)
        with st.container(width=WIDE_PX):
            price = bare if isinstance(bare, str) else ""
            edit = _set(kind, name, "price")
            fields.measured("Its price", (*at, "price"), hint=_hint(kind), edit=edit, instead=price)
        with st.container(width=WIDE_PX):
            if kind == "fuels":
                limit = (*at, "storage_limit")
                edit = _set(kind, name, "storage_limit")
                fields.measured("Most the house may hold", limit, hint="60 kg", edit=edit)
            else:
                edit = _set(kind, name, "most")
                fields.whole("How many at most", (*at, "most"), instead=1, edit=edit)
        fields.act(
            "Remove",
            f"shop.{kind}.{name}.remove",
            partial(remove, at=at),
            f"{label} no longer for sale",
            spoken=f"Take {label} out of what is for sale",
        )
    fields.faults(at)


def _set(kind: str, name: str, key: str) -> fields.Edit:
    def set_it(text: str, given: Any) -> str:
        return with_offer(text, kind, name, key, given)

    return set_it


def _water(key: str, label: str) -> None:
    """Draw water that needs no boiling."""
    at = ("shop", key)

    def price(text: str, given: str) -> str:
        return with_water(text, key, "price", given)

    def most(text: str, given: int) -> str:
        return with_water(text, key, "most", given)

    with st.container(horizontal=True, vertical_alignment="bottom"):
        with st.container(width=WIDE_PX):
            hint = _hint("water")
            fields.measured(f"{label}, price (or empty)", (*at, "price"), hint=hint, edit=price)
        if entries.mapping(at):
            with st.container(width=WIDE_PX):
                fields.whole(f"{label}, packages at most", (*at, "most"), instead=1000, edit=most)
    fields.faults(at)


def _add() -> None:
    """Draw how to add a thing to what is for sale: the thing and its price."""
    free = {
        (kind, name): f"{label_of(kind, name, record_of(kind, name))} ({ONE[kind]})"
        for kind in KINDS
        for name in dict.fromkeys([*entries.mapping((kind,)), *getattr(load(), kind)])
        if name not in entries.mapping(("shop", kind))
    }
    with st.container(horizontal=True, vertical_alignment="bottom"):
        picked = st.selectbox(
            "Add something that is for sale",
            list(free),
            format_func=lambda each: free[each],
            index=None,
            placeholder="type to search the shelf",
            key="pick:shop",
            width="stretch",
        )
        kind, name = picked or ("", "")
        with st.container(width=WIDE_PX):
            price = st.text_input(
                "What it costs", placeholder=f"such as {_hint(kind)}", key="price:shop"
            )
        entry: Any = {"price": price.strip()} if kind == "fuels" else price.strip()
        st.button(
            "Add it to what is for sale",
            key="add:shop",
            disabled=picked is None or not price.strip(),
            on_click=state.change,
            args=("add.shop", partial(put, at=("shop", kind, name), value=entry), f"sell {name}"),
        )
    fields.tell(state.refusals("add.shop"))
