"""One dish of a meal: who eats of it, and what else is said of it."""

from collections.abc import Mapping
from functools import partial
from typing import Any

import streamlit as st

from app import eaters, entries, fields, state
from app.panels import boils, more
from app.panels.dish_names import served_label, words_told
from app.panels.heads import written
from app.waiting import inline, plain
from optimizer.scenario.document import Location
from optimizer.scenario.said_of_dishes import with_said, without_said


def dish(place: int, order: int) -> None:
    """Draw one dish of a meal, or a big boil.

    Parameters
    ----------
    place
        The meal's position in the menu, from 0.
    order
        The dish's position in the meal, from 0.
    """
    at = ("menu", place, "dishes", order)
    entry = entries.said(at)
    if isinstance(entry, Mapping) and "one_boil" in entry:
        boils.boil(at)
    else:
        _dish(at, entry, served_label(entry))


def _dish(at: Location, entry: Any, label: str) -> None:
    said = entry if isinstance(entry, Mapping) else {}
    with st.container(horizontal=True, vertical_alignment="bottom"):
        st.markdown(f"**{plain(label)}**", width=200)
        if "drawn" in said:
            st.markdown(plain(f"drawn {more.drawn_words(said['drawn'])}"), width=320)
        else:
            for who in ("adults", "children"):
                with st.container(width=150):
                    _eaters(at, who, said.get("portions"))
        fields.act(
            f"Remove {inline(label)}",
            f"menu.{at[1]}.{at[3]}.remove",
            partial(without_said, at=at),
            f"remove {label}",
        )
    told = _where(_eaten(at))
    if told:
        st.caption(plain(told))
    more.of_dish(at)
    fields.faults(at)
    for key in ("dish", "portions"):
        fields.faults((*at, key))


def _eaten(at: Location) -> dict[str, Any]:
    """Give who eats a dish and where; its own word counts before that of its meal."""
    both = entries.mapping(at[:2]), entries.mapping(at)
    return {key: said[key] for said in both for key in ("for", "carried", "to") if key in said}


def _where(eaten: Mapping[str, Any]) -> str:
    """Say for whom a dish is and that it is carried, as the file says."""
    told = [f"for {words_told(eaten['for'])}"] if "for" in eaten else []
    if "carried" in eaten:
        to = f" to {eaten['to']}" if "to" in eaten else ""
        told.append(f"carried {eaten['carried']}{to}")
    return ", ".join(told)


def _eaters(at: Location, who: str, given: Any) -> None:
    """Draw how many grown or small ones eat of a dish."""
    everybody = eaters.eaters(state.text(), given, int(at[1]), int(at[3]))

    def set_it(text: str, number: float) -> str:
        portions = {**everybody, who: number}
        whole = {key: written(each) for key, each in portions.items()}
        return with_said(text, at, "portions", whole)

    where = (*at, "portions", who)
    fields.amount(f"{who} eating", where, everybody[who], set_it)
