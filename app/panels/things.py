"""What a household has: fuels, stoves, pots, cookers; from the shelf or of its own."""

from collections.abc import Mapping
from functools import partial
from typing import Any

import streamlit as st

from app import entries, fields, state
from app.panels import nothing
from app.panels.numbers import is_packed, label_of, numbers, record_of
from app.waiting import inline, plain
from optimizer.scenario.changes import COUNTED, free_name, with_field, with_thing, without_thing
from optimizer.scenario.schema import INDOORS, OUTDOORS, VENTED
from optimizer.shelf import load

ONE = {
    "fuels": "fuel",
    "stoves": "stove",
    "pots": "pot",
    "cookers": "insulated cooker",
    "materials": "packing material",
    "foods": "food",
    "dishes": "dish",
}
LIKE, NOTHING = "the one on the shelf that is most like it", "nothing: say all of it"
FIRST_STOCK = {"electricity": "0 kWh", "sun": None}  # others by mass
NO_STOCK = "0 kg"


def section(kind: str) -> None:
    """Draw all things of one kind, and how to add one.

    Parameters
    ----------
    kind
        fuels, stoves, pots or cookers.
    """
    listed = entries.mapping((kind,))
    for name in listed:
        _thing(kind, name)
    _add(kind, listed)


def _thing(kind: str, name: str) -> None:
    """Draw one thing."""
    record = record_of(kind, name)
    label = label_of(kind, name, record)
    with st.container(border=True, horizontal=True, vertical_alignment="center"):
        st.markdown(f"**{plain(label)}**", width=200)
        if kind == "fuels":
            _measured("How much there is", kind, name, "stock", "12 kg")
            _measured("Price", kind, name, "price", "0.60 EUR / kg")
        else:
            _count(kind, name)
        if kind == "stoves":
            _stove(name, record)
        if kind == "cookers" and is_packed(name, record):
            _packing(name, record)
        numbers(kind, name, record, label)
        take_out(kind, name, label)
    fields.faults((kind, name))


def take_out(kind: str, name: str, label: str) -> None:
    """Draw the button that takes a thing out.

    Parameters
    ----------
    kind
        Section of the file.
    name
        Its name there.
    label
        What it is called.
    """
    with st.container(width="content"):
        fields.act(
            "Remove",
            f"{kind}.{name}.remove",
            partial(without_thing, section=kind, name=name),
            f"{label} removed",
            spoken=f"Take {inline(label)} out",
        )


def _edit(kind: str, name: str, key: str) -> fields.Edit:
    def set_it(text: str, given: Any) -> str:
        return with_field(text, kind, name, key, given)

    return set_it


def _measured(label: str, kind: str, name: str, key: str, hint: str) -> None:
    with st.container(width=240):
        fields.measured(label, (kind, name, key), hint=hint, edit=_edit(kind, name, key))


def _count(kind: str, name: str) -> None:
    """Draw how many there are; a bare number after the name is the count."""
    bare = entries.said((kind, name))
    first = bare if isinstance(bare, int) else 1
    with st.container(width=140):
        fields.whole(
            "How many", (kind, name, "count"), instead=first, edit=_edit(kind, name, "count")
        )


def _stove(name: str, record: Any) -> None:
    """Draw where a stove stands and what it burns."""
    burns = str(entries.said(("stoves", name, "fuel"), record.fuel if record else ""))
    flame = burns not in {"electricity", "sun"}
    places = [OUTDOORS, VENTED] if flame else [INDOORS, OUTDOORS]
    first = OUTDOORS if flame or burns == "sun" else INDOORS
    with st.container(width=200):
        edit = _edit("stoves", name, "where")
        fields.choice(
            "Where it stands", ("stoves", name, "where"), places, instead=first, edit=edit
        )
    stock = entries.mapping(("fuels",))
    with st.container(width=200):
        edit = _edit("stoves", name, "fuel")
        fields.choice("Burns", ("stoves", name, "fuel"), list(stock), instead=burns, edit=edit)


def _packing(name: str, record: Any) -> None:
    """Draw what a cooker is packed with."""
    at = ("cookers", name, "packing")
    material = record.material.name if record and record.material else ""
    thickness = f"{record.thickness_m:g} m" if record and record.thickness_m else ""
    before = {"material": material, "thickness": thickness} | entries.mapping(at)

    def packed(key: str) -> fields.Edit:
        def set_it(text: str, given: Any) -> str:
            return with_field(text, "cookers", name, "packing", {**before, key: given})

        return set_it

    named = [*load().materials, *entries.mapping(("materials",))]
    with st.container(width=240):
        fields.choice(
            "Packed with", (*at, "material"), named, instead=material, edit=packed("material")
        )
    with st.container(width=160):
        fields.measured(
            "How thick", (*at, "thickness"), hint=thickness or "100 mm", edit=packed("thickness")
        )


# adding


def _add(kind: str, listed: Mapping[str, Any]) -> None:
    """Draw how to add a thing, from the shelf or of one's own."""
    shelf: Mapping[str, Any] = getattr(load(), kind)
    one = ONE[kind]
    with st.container(horizontal=True, vertical_alignment="bottom"):
        picked = st.selectbox(
            f"Add a {one}" if one[0] not in "aeiou" else f"Add an {one}",
            [name for name in shelf if name not in listed],
            format_func=lambda name: shelf[name].label,
            index=None,
            placeholder="type to search the shelf",
            key=f"pick:{kind}",
            width="stretch",
        )
        st.button(
            f"Add this {one}",
            key=f"add:{kind}",
            disabled=picked is None,
            on_click=state.change,
            args=(f"add.{kind}", partial(_with_new, kind=kind, name=picked or ""), f"add {picked}"),
        )
    fields.tell(state.refusals(f"add.{kind}"))
    own(kind)


def own(kind: str) -> None:
    """Draw how to add a thing that is like one on the shelf, or like none.

    Parameters
    ----------
    kind
        Section of the file.
    """
    one = ONE[kind]
    with st.expander(f"A {one} of your own" if one[0] not in "aeiou" else f"Your own {one}"):
        begin = st.radio(
            "Begin with",
            (LIKE, NOTHING),
            horizontal=True,
            **state.bind(f"own begins:{kind}", LIKE),
        )
        if begin == LIKE:
            _own(kind, getattr(load(), kind))
        else:
            nothing.form(kind)


def _own(kind: str, shelf: Mapping[str, Any]) -> None:
    st.caption("Its numbers can be changed afterwards.")
    label = st.text_input("What you call it", key=f"own label:{kind}", max_chars=60)
    like = st.selectbox(
        "Most like",
        list(shelf),
        format_func=lambda name: shelf[name].label,
        index=None,
        placeholder="type to search the shelf",
        key=f"own like:{kind}",
    )

    def add(text: str) -> str:
        name = free_name(text, kind, label)
        return _with_new(text, kind, name, {"like": like, "label": label.strip()})

    st.button(
        "Add it",
        key=f"own add:{kind}",
        disabled=not label.strip() or like is None,
        on_click=state.change,
        args=(f"own.{kind}", add, f"add {label}"),
    )
    fields.tell(state.refusals(f"own.{kind}"))


def _with_new(text: str, kind: str, name: str, entry: Mapping[str, Any] | None = None) -> str:
    """Add a thing; a stove brings its fuel along, of which nothing is in stock yet."""
    shelf = load()
    said = dict(entry or {})
    like = said.get("like", name)
    if kind == "fuels":
        return with_thing(text, kind, name, {**said, **_no_stock(like)})
    if kind == "stoves":
        fuel = shelf.stoves[like].fuel
        if fuel not in entries.mapping(("fuels",)):
            text = with_thing(text, "fuels", fuel, _no_stock(fuel))
    if kind in COUNTED:
        return with_thing(text, kind, name, {**said, "count": 1} if said else 1)
    return with_thing(text, kind, name, said)


def _no_stock(fuel: str) -> dict[str, str]:
    """Say that there is none of a fuel yet."""
    stock = FIRST_STOCK.get(load().fuels[fuel].kind, NO_STOCK)
    return {} if stock is None else {"stock": stock}
