"""A big boil of a meal: one pot of water, and the dishes for which it is drawn on."""

from collections.abc import Mapping
from functools import partial

import streamlit as st

from app import entries, fields, folding, state
from app.panels import more
from app.panels.dish_names import dish_label, served_label
from app.panels.numbers import label_of, record_of
from app.waiting import inline, plain
from optimizer.scenario.boiling_once import steepable, waterlike
from optimizer.scenario.boils import BOIL, with_boil, with_use
from optimizer.scenario.document import Location
from optimizer.scenario.said_of_dishes import with_said, without_said
from optimizer.shelf import load

NAME_PX, TIME_PX, JAR_PX = 200, 190, 240


def boil(at: Location) -> None:
    """Draw one big boil.

    Parameters
    ----------
    at
        Where it stands in the menu.
    """
    label = served_label(entries.said(at))
    with st.container(border=True):
        with st.container(horizontal=True, vertical_alignment="bottom"):
            st.markdown(f"**{plain(label)}**", width=2 * NAME_PX)
            fields.act(
                "Remove all of it",
                f"{_name(at)}.remove",
                partial(without_said, at=at),
                f"remove {label}",
                spoken=inline(label),
            )
        for number in range(len(entries.items((*at, BOIL)))):
            _use((*at, BOIL, number))
        fields.all_faults(at)
        fields.faults((*at, BOIL))
        _add_use(at)


def _name(at: Location) -> str:
    return ".".join(map(str, at))


def _use(at: Location) -> None:
    """Draw one use of it: when its water is drawn, and the jar in which it is poured on."""
    entry = entries.said(at)
    said = entry if isinstance(entry, Mapping) else {"dish": entry}
    label = served_label(entry)
    with st.container(horizontal=True, vertical_alignment="bottom"):
        st.markdown(plain(label), width=NAME_PX)
        with st.container(width=TIME_PX):
            told = f"Drawn at, or empty ({label})"
            fields.words(inline(told), (*at, "at"), hint="08:00", edit=_setting(at, "at"))
        if "steep_in" in said:
            with st.container(width=JAR_PX):
                where = (*at, "steep_in")
                fields.choice(
                    "Poured on it in",
                    where,
                    list(jars()),
                    instead="",
                    edit=_setting(at, "steep_in"),
                )
        fields.act(
            f"Remove {inline(label)}",
            f"{_name(at)}.remove",
            partial(without_said, at=at),
            f"remove {label}",
        )
    more.of_dish(at, use=True)
    fields.faults(at)
    fields.faults((*at, "dish"))


def _setting(at: Location, key: str) -> fields.Edit:
    return lambda text, given: with_said(text, at, key, given)


def jars() -> dict[str, str]:
    """Give the vacuum jars of the household with what they are called."""
    found = {}
    for name in entries.mapping(("cookers",)):
        record = record_of("cookers", name)
        if entries.said(("cookers", name, "kind"), record and record.kind) == "vacuum":
            found[name] = label_of("cookers", name, record)
    return found


def _dishes(*, steeped: bool) -> dict[str, str]:
    """Give the dishes that are water, or also those that may finish in water poured on them."""
    known = [*entries.mapping(("dishes",)), *load().dishes]
    records = {name: record_of("dishes", name) for name in known}
    return {
        name: dish_label(name)
        for name, record in records.items()
        if record and (waterlike(record) or (steeped and steepable(record)))
    }


def _add_use(at: Location) -> None:
    """Draw how to draw on it for one more dish."""
    jar_names = jars()
    labels = _dishes(steeped=bool(jar_names))
    name = _name(at)
    jar: str | None = None
    with st.container(horizontal=True, vertical_alignment="bottom"):
        picked: str | None = st.selectbox(
            "Draw on it as well for",
            list(labels),
            format_func=lambda each: labels[each],
            index=None,
            placeholder="type to search",
            key=f"pick use:{name}",
            width=JAR_PX,
        )
        drawn_at = st.text_input(
            "at (empty: at the meal)", key=f"use at:{name}", width=TIME_PX, max_chars=5
        )
        if picked and not waterlike(record_of("dishes", picked)):
            jar = st.selectbox(
                "and steep it until the meal in",
                list(jar_names),
                format_func=lambda each: jar_names[each],
                key=f"use jar:{name}",
                width=JAR_PX,
            )
        add = partial(with_use, at=at, dish=picked or "", drawn_at=drawn_at, steep_in=jar)
        st.button(
            "Add this use",
            key=f"add use:{name}",
            disabled=picked is None,
            on_click=state.change,
            args=(f"add use {name}", add, f"one boil for {picked}, too"),
        )
    fields.tell(state.refusals(f"add use {name}"))


def _standing(place: int, labels: Mapping[str, str]) -> list[str]:
    """Give those of some dishes that a meal has already."""
    dishes = entries.items(("menu", place, "dishes"))
    names = [each.get("dish") if isinstance(each, Mapping) else each for each in dishes]
    return [name for name in labels if name in names]


def begin(place: int) -> None:
    """Draw how to boil water for several dishes of a meal at once, folded away.

    Parameters
    ----------
    place
        The meal's position in the menu, from 0.
    """
    name = f"boil:{place}"
    dishes = entries.items(("menu", place, "dishes"))
    if any(isinstance(each, Mapping) and BOIL in each for each in dishes):
        return

    def draw() -> None:
        st.caption(
            "Tea, water for hot bottles and water to wash in, from one pot that is boiled once and "
            "drawn on. What stands in this meal already goes into the pot."
        )
        labels = _dishes(steeped=False)
        standing = _standing(place, labels)
        names = st.multiselect(
            "Boil in one pot for",
            list(labels),
            standing,
            format_func=lambda each: labels[each],
            key=f"{name}:{','.join(standing)}",
        )
        st.button(
            "Boil in one pot",
            key=f"add {name}",
            disabled=not names,
            on_click=state.change,
            args=(name, partial(with_boil, place=place, names=names), "one big boil"),
        )

    folding.expander(f"One big boil at meal {place + 1}", name, draw, (), compact=True)
    fields.tell(state.refusals(name))
