"""The fuel that each of several households brings into the common store."""

from collections.abc import Sequence
from functools import partial

import streamlit as st

from app import entries, fields, folding
from app.panels.numbers import label_of, record_of
from app.waiting import inline
from optimizer.scenario.neighbours import BRINGS, with_brought

FIELD_PX = 330


def brought(houses: Sequence[str]) -> None:
    """Draw what each household brings of each fuel, folded away.

    Parameters
    ----------
    houses
        Names of the households.
    """
    edited = [("households", name, BRINGS, fuel) for name in houses for fuel in _fuels(name)]
    folding.expander("Fuel that each household brings", BRINGS, partial(_draw, houses), edited)


def _fuels(name: str) -> list[str]:
    """Give the fuels of the store, and any other that a household is said to bring."""
    said = entries.mapping(("households", name, BRINGS))
    return list(dict.fromkeys((*entries.mapping(("fuels",)), *said)))


def _draw(houses: Sequence[str]) -> None:
    st.caption(
        "A share of the fuel in store, which counts it already. Who pays whom is reckoned from it; "
        "empty: none."
    )
    for name in houses:
        with st.container(horizontal=True, vertical_alignment="top"):
            for fuel in _fuels(name):
                with st.container(width=FIELD_PX):
                    _field(name, fuel)


def _field(name: str, fuel: str) -> None:
    label = f"{label_of('fuels', fuel, record_of('fuels', fuel))}, {name}"
    stock = str(entries.said(("fuels", fuel, "stock"), "10 kg"))

    def set_it(text: str, given: str) -> str:
        return with_brought(text, name, fuel, given)

    fields.measured(inline(label), ("households", name, BRINGS, fuel), hint=stock, edit=set_it)
