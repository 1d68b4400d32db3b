"""The menu: meals, the days and clock times they are eaten at, and their dishes."""

from collections.abc import Mapping
from functools import partial
from typing import Any

import streamlit as st

from app import cached, entries, fields, state
from app.panels import boils, more, served
from app.panels.dish_names import dish_label, served_label
from app.waiting import plain
from optimizer.report.dates import day_name
from optimizer.scenario.clock import clock
from optimizer.scenario.menu import (
    with_day_repeated,
    with_dish,
    with_meal,
    with_meal_days,
    without_meal,
)
from optimizer.shelf import load

NEW_MEAL = {"meal": "supper", "at": "18:00"}


def overview() -> None:
    """Draw what is eaten when, day by day; nothing while the scenario is wrong."""
    scenario = cached.reading(state.text()).scenario
    if scenario is None:
        return
    meals: dict[int, dict[tuple[str, str], list[str]]] = {}
    for item in scenario.items:
        of_day = meals.setdefault(item.day, {})
        at = (clock(item.serve_min), item.meal)
        of_day.setdefault(at, []).append(item.dish.label)
    for day, of_day in meals.items():
        told = [
            f"{clock} {plain(meal)}: {plain(', '.join(dishes))}"
            for (clock, meal), dishes in of_day.items()
        ]
        st.markdown(f"**{day_name(scenario, day)}**  \n" + "  \n".join(told))


def repeat() -> None:
    """Draw how to eat on other days what is eaten on one."""
    days = entries.days()
    if len(days) <= 1:
        return
    with st.container(horizontal=True, vertical_alignment="bottom"):
        day = st.selectbox(
            "Repeat the meals of", days, format_func=_day, key="repeat day", width=260
        )
        others = st.multiselect(
            "on (what they had before goes)",
            [other for other in days if other != day],
            format_func=_day,
            key="repeat on",
            width=320,
            placeholder="choose days",
        )
        st.button(
            "Repeat",
            key="repeat",
            disabled=not others,
            on_click=state.change,
            args=(
                "repeat",
                partial(with_day_repeated, day=day, others=others),
                f"repeat day {day}",
            ),
        )
    fields.tell(state.refusals("repeat"))


def meals() -> None:
    """Draw every meal of the menu, and how to add one."""
    listed = entries.items(("menu",))
    for place, meal in enumerate(listed):
        key = f"meal:{place} of {len(listed)}"  # open while its title changes, not the next one
        with st.expander(_title(meal, place), _wrong(place), key=key):
            _meal(place)
    _add()


def _title(meal: Any, place: int) -> str:
    """Name a meal in one line."""
    if not isinstance(meal, Mapping):
        return f"Meal {place + 1}"
    dishes = meal.get("dishes")
    named = ", ".join(map(served_label, dishes)) if isinstance(dishes, list) else "?"
    on = meal.get("on", "every day")
    days = on if isinstance(on, str) else f"days {', '.join(map(str, on))}" if on else "?"
    return plain(f"{meal.get('meal', '?')} at {meal.get('at', '?')}, {days}: {named}")


def _wrong(place: int) -> bool:
    """Tell whether something is wrong with a meal, so that it stands open."""
    return any(p.key.startswith(f"menu[{place + 1}]") for p in fields.problems())


def _meal(place: int) -> None:
    """Draw one meal."""
    at = ("menu", place)
    number = place + 1
    with st.container(horizontal=True, vertical_alignment="top"):
        with st.container(width=240):
            fields.words(f"Name of meal {number}", (*at, "meal"), hint="supper")
        with st.container(width=140):
            fields.words(f"Time of meal {number}", (*at, "at"), hint="18:00")
        with st.container(width="stretch"):
            _on(place)
    more.of_meal(at)
    for order in range(len(entries.items((*at, "dishes")))):
        served.dish(place, order)
    fields.faults((*at, "dishes"))
    if entries.items((*at, "dishes")):
        _add_dish(place)
        boils.begin(place)
    fields.act(
        f"Remove meal {number}",
        f"menu.{place}.remove",
        partial(without_meal, place=place),
        "a meal",
    )


def _on(place: int) -> None:
    """Draw the days of a meal."""
    at = ("menu", place, "on")
    named = entries.days_of(entries.said(at, "every day"))
    days = entries.days()
    chosen = days if named is None else [day for day in days if day in named]

    def set_it(text: str, given: list[int]) -> str:
        return with_meal_days(text, place, given)

    fields.several(f"Days of meal {place + 1}", at, days, chosen, _day, set_it)


def _add_dish(place: int) -> None:
    """Draw how to add a dish to a meal."""
    with st.container(horizontal=True, vertical_alignment="bottom"):
        picked = _pick(f"Add a dish to meal {place + 1}", f"pick dish:{place}")
        st.button(
            "Add this dish",
            key=f"add dish:{place}",
            disabled=picked is None,
            on_click=state.change,
            args=(
                f"add dish {place}",
                partial(with_dish, place=place, dish=picked or ""),
                "a dish",
            ),
        )
    fields.tell(state.refusals(f"add dish {place}"))


def _add() -> None:
    """Draw how to add a meal."""
    with st.expander("Add a meal"):
        with st.container(horizontal=True, vertical_alignment="top"):
            name = st.text_input("Its name", NEW_MEAL["meal"], key="new meal", max_chars=60)
            at = st.text_input("Its time", NEW_MEAL["at"], key="new meal at", max_chars=5)
            on = st.multiselect(
                "Its days", entries.days(), entries.days(), format_func=_day, key="new meal on"
            )
        picked = _pick("Its first dish", "new meal dish")
        add = partial(with_meal, meal=name, at=at, on=on, dishes=[picked or ""])
        st.button(
            "Add this meal",
            key="add meal",
            disabled=picked is None or not on,
            on_click=state.change,
            args=("add meal", add, f"add {name}"),
        )
        fields.tell(state.refusals("add meal"))


def _pick(label: str, key: str) -> str | None:
    """Draw a choice of dish, searched by typing."""
    labels = {name: dish_label(name) for name in {**entries.mapping(("dishes",)), **load().dishes}}
    picked: str | None = st.selectbox(
        label,
        list(labels),
        format_func=lambda name: labels[name],
        index=None,
        placeholder="type to search the dishes",
        key=key,
    )
    return picked


def _day(day: int) -> str:
    """Name a day."""
    scenario = cached.reading(state.text()).scenario
    return f"Day {day}" if scenario is None else day_name(scenario, day)
