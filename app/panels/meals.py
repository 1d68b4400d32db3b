"""The menu: meals, the days and clock times they are eaten at, and their dishes."""

from collections.abc import Mapping
from functools import partial
from typing import Any

import streamlit as st

from app import cached, eaters, entries, fields, state
from app.panels.numbers import label_of, record_of
from app.waiting import inline, plain
from optimizer.report.dates import day_name
from optimizer.scenario.clock import clock
from optimizer.scenario.menu import (
    with_day_repeated,
    with_dish,
    with_meal,
    with_meal_days,
    without_dish,
    without_meal,
)
from optimizer.scenario.said_of_dishes import with_said
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
    for place, meal in enumerate(entries.items(("menu",))):
        with st.expander(_title(meal, place), expanded=_wrong(place)):
            _meal(place)
    _add()


def _title(meal: Any, place: int) -> str:
    """Name a meal in one line."""
    if not isinstance(meal, Mapping):
        return f"Meal {place + 1}"
    dishes = meal.get("dishes")
    named = ", ".join(map(_served, dishes)) if isinstance(dishes, list) else "?"
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
    for order in range(len(entries.items((*at, "dishes")))):
        _portion(place, order)
    for key in ("dishes", "for", "carried", "back", "to"):
        fields.faults((*at, key))
    if entries.items((*at, "dishes")):
        _add_dish(place)
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


def _portion(place: int, order: int) -> None:
    """Draw one dish of a meal and who eats of it."""
    at = ("menu", place, "dishes", order)
    entry = entries.said(at)
    label = _served(entry)
    given = entry.get("portions") if isinstance(entry, Mapping) else None
    with st.container(horizontal=True, vertical_alignment="bottom"):
        st.markdown(f"**{plain(label)}**", width=200)
        if isinstance(entry, Mapping) and not {"drawn", "one_boil"}.isdisjoint(entry):
            st.markdown(plain(_draws(entry)), width=320)
        else:
            for who in ("adults", "children"):
                with st.container(width=150):
                    _eaters(place, order, who, given)
        fields.act(
            f"Remove {inline(label)}",
            f"menu.{place}.{order}.remove",
            partial(without_dish, place=place, order=order),
            f"remove {label}",
        )
    told = _where(_eaten(place, order))
    if told:
        st.caption(plain(told))
    fields.faults(at)
    for key in ("dish", "portions", "for", "without", "carried", "back", "to"):
        fields.faults((*at, key))


def _eaten(place: int, order: int) -> dict[str, Any]:
    """Give who eats a dish and where; its own word counts before that of its meal."""
    entry = entries.said(("menu", place, "dishes", order))
    both = entries.mapping(("menu", place)), entry if isinstance(entry, Mapping) else {}
    return {key: said[key] for said in both for key in ("for", "carried", "to") if key in said}


def _where(eaten: Mapping[str, Any]) -> str:
    """Say for whom a dish is and that it is carried, as the file says."""
    told = [f"for {_words(eaten['for'])}"] if "for" in eaten else []
    if "carried" in eaten:
        to = f" to {eaten['to']}" if "to" in eaten else ""
        told.append(f"carried {eaten['carried']}{to}")
    return ", ".join(told)


def _words(given: Any) -> str:
    return ", ".join(map(str, given)) if isinstance(given, list) else str(given)


def _draws(entry: Mapping[str, Any]) -> str:
    """Say when a jar or a big boil is drawn on; this is edited in the file."""
    drawn = entry.get("drawn")
    if isinstance(drawn, Mapping):
        return "drawn " + ", ".join(f"{at} {much}" for at, much in drawn.items())
    return "drawn for each of these"


def _eaters(place: int, order: int, who: str, given: Any) -> None:
    """Draw how many grown or small ones eat of a dish."""
    everybody = eaters.eaters(state.text(), given, place, order)

    def set_it(text: str, number: float) -> str:
        portions = {**everybody, who: number}
        whole = {
            key: int(each) if float(each).is_integer() else each for key, each in portions.items()
        }
        return with_said(text, ("menu", place, "dishes", order), "portions", whole)

    at = ("menu", place, "dishes", order, "portions", who)
    fields.amount(f"{who} eating", at, everybody[who], set_it)


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
    labels = {name: _dish(name) for name in {**entries.mapping(("dishes",)), **load().dishes}}
    picked: str | None = st.selectbox(
        label,
        list(labels),
        format_func=lambda name: labels[name],
        index=None,
        placeholder="type to search the dishes",
        key=key,
    )
    return picked


def _name(entry: Any) -> str:
    """Give the name of a dish as it stands in a meal."""
    if isinstance(entry, Mapping) and isinstance(entry.get("one_boil"), list):
        return "one boil for " + ", ".join(_name(each) for each in entry["one_boil"])
    return str(entry.get("dish", "?") if isinstance(entry, Mapping) else entry)


def _served(entry: Any) -> str:
    """Say what the cook calls a dish as it stands in a meal, and what is left out of it."""
    without = entry.get("without") if isinstance(entry, Mapping) else None
    return _dish(_name(entry)) + (f" without {_words(without)}" if without else "")


def _dish(name: str) -> str:
    """Say what the cook calls a dish."""
    return label_of("dishes", name, record_of("dishes", name))


def _day(day: int) -> str:
    """Name a day."""
    scenario = cached.reading(state.text()).scenario
    return f"Day {day}" if scenario is None else day_name(scenario, day)
