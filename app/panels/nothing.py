"""A thing of one's own from nothing: a field for all that has to be said, faults beside them."""

from collections.abc import Mapping, Sequence
from functools import partial
from typing import Any

import streamlit as st

from app import entries, state
from app.panels.numbers import label_of, record_of
from app.waiting import plain
from optimizer.report.blank import Blank, blanks, entry_of, first_blank
from optimizer.scenario.changes import free_name, with_thing
from optimizer.shelf import load
from optimizer.units import exchanged

WIDE_PX = 300
NO_STOCK, NO_CHARGE = "0 kg", "0 kWh"
FOODS = "ingredients"


def form(kind: str) -> None:
    """Draw a form for a thing of which the shelf has none that is like it.

    Parameters
    ----------
    kind
        Section of the file.
    """
    name = f"new {kind} {len(entries.mapping((kind,)))}"  # one that was added leaves it empty
    label = st.text_input("What you call it", max_chars=60, **state.bind(f"{name} label", ""))
    faults = _Faults(kind)
    first = first_blank(kind)
    said = {} if first is None else {first.key: _ask(name, first, faults)}
    answer = None if first is None else said[first.key]
    if first is not None and answer is None:
        return
    asked = blanks(kind, answer, _named())
    with st.container(horizontal=True):
        said |= {blank.key: _ask(name, blank, faults) for blank in asked}
    mixed = _mixed(name, faults) if kind == "dishes" else {}
    whole = (*(() if first is None else (first,)), *asked)
    st.button(
        "Add it",
        key=f"add {name}",
        disabled=not (label or "").strip(),
        on_click=state.change,
        args=(
            f"new.{kind}",
            partial(_added, kind=kind, label=str(label), asked=whole, said=said, mixed=mixed),
            f"add {label}",
        ),
    )
    faults.tell_rest()


def _named() -> dict[str, Sequence[str]]:
    """Name the fuels and packings that there are, the household's own first."""
    shelf = load()
    return {
        "fuel": tuple(dict.fromkeys([*entries.mapping(("fuels",)), *shelf.fuels])),
        "material": tuple(dict.fromkeys([*entries.mapping(("materials",)), *shelf.materials])),
    }


class _Faults:
    """Why the last try was refused, each reason to be told beside its field."""

    def __init__(self, kind: str) -> None:
        self.left = [reason.partition(": ")[::2] for reason in state.refusals(f"new.{kind}")]

    def tell(self, key: str) -> None:
        """Tell what is wrong with one field."""
        mine = [each for each in self.left if key in each[0].split(".")[2:]]
        self.left = [each for each in self.left if each not in mine]
        for _, message in mine:
            st.error(plain(message[:1].upper() + message[1:]))

    def tell_rest(self) -> None:
        """Tell what is wrong with no field in particular."""
        for key, message in self.left:
            st.error(f"Not added: {plain(message or key)}")


def _ask(name: str, blank: Blank, faults: _Faults) -> str | None:
    """Draw one field with what is wrong with it under it."""
    label = f"{_spoken(blank.key)}: {blank.meaning}"
    bound = state.bind(f"{name} {blank.key}", blank.first or None)
    with st.container(width=WIDE_PX):
        if blank.options:
            given = st.selectbox(
                label,
                blank.options,
                format_func=_spoken,
                index=None,
                placeholder="choose one",
                **bound,
            )
        else:
            such_as = exchanged(blank.such_as, state.units())
            given = st.text_input(label, placeholder=f"such as {such_as}", **bound)
        faults.tell(blank.key)
    return given


def _spoken(word: str) -> str:
    return word.replace("_", " ")


def _mixed(name: str, faults: _Faults) -> dict[str, str]:
    """Draw what goes into a dish for one grown portion."""
    labels = {
        each: label_of("foods", each, record_of("foods", each))
        for each in {**entries.mapping(("foods",)), **load().foods}
    }
    chosen = st.multiselect(
        "What goes into it, the water to cook in among it",
        list(labels),
        format_func=lambda each: labels[each],
        placeholder="type to search the foods",
        **state.bind(f"{name} foods", []),
    )
    weights = {}
    with st.container(horizontal=True):
        for food in chosen:
            with st.container(width=200):
                weights[food] = st.text_input(
                    f"{labels[food]}, for one grown portion",
                    placeholder=f"such as {exchanged('60 g', state.units())}",
                    **state.bind(f"{name} {food}", ""),
                )
                faults.tell(food)
    faults.tell(FOODS)
    return weights


def _added(
    text: str,
    *,
    kind: str,
    label: str,
    asked: Sequence[Blank],
    said: Mapping[str, str | None],
    mixed: Mapping[str, str],
) -> str:
    """Add the thing; a stove brings a fuel of the shelf along, of which there is none yet."""
    name = free_name(text, kind, label)
    foods = [Blank(food, "") for food in mixed] if mixed or kind != "dishes" else [Blank(FOODS, "")]
    entry: dict[str, Any] = entry_of(kind, (*asked, *foods), {**said, **mixed}, name)
    if kind == "dishes":
        entry[FOODS] = {food: str(entry.pop(food)) for food in mixed}
    if kind == "fuels" and entry["kind"] != "sun":
        entry["stock"] = NO_CHARGE if entry["kind"] == "electricity" else NO_STOCK
    if kind == "stoves" and entry["fuel"] not in entries.mapping(("fuels",)):
        burned = load().fuels[entry["fuel"]].kind
        stock = NO_CHARGE if burned == "electricity" else NO_STOCK
        text = with_thing(text, "fuels", entry["fuel"], {} if burned == "sun" else {"stock": stock})
    return with_thing(text, kind, name, {"label": label.strip(), **entry})
