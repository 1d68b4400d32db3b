"""Who and where a household is, its weather, and when somebody can cook."""

from datetime import date
from functools import partial
from typing import Any

import streamlit as st

from app import eaters, entries, fields, state
from app.panels import brought, diets
from optimizer.scenario.changes import with_days, with_people, with_value, with_weather
from optimizer.scenario.neighbours import (
    ADULTS,
    CHILDREN,
    with_household_people,
    with_households,
)

FEW_DAYS = 4


def household() -> None:
    """Draw who eats and for how long."""
    fields.words("Title", ("title",), hint="Three dark days")
    with st.container(horizontal=True):
        people()
        with st.container(width=140):
            fields.whole("Days", ("days",), instead=1, edit=with_days)
        with st.container(width=180):
            fields.words("First day (or empty)", ("start",), hint="2027-01-15", edit=_with_start)
        with st.container(width=140):
            fields.words("Currency", ("currency",), hint="EUR")
    neighbours()
    diets.diets()


def neighbours() -> None:
    """Draw the households that share the kitchen, and the people of each."""
    at = ("households",)
    names = entries.names(at)
    share = "Households that share the kitchen, with commas between (or empty)"

    def set_names(text: str, given: str) -> str:
        return with_households(text, [name.strip() for name in given.split(",") if name.strip()])

    fields.words_of(share, at, ", ".join(names), "Fennel House, Mill Cottage", set_names)
    if names:
        st.caption("The people of all households come to all people: change them here.")
    houses = eaters.household_heads(state.text())
    for name, heads in houses.items():
        _house(name, heads)
    if houses:
        brought.brought(list(houses))


def _house(name: str, heads: tuple[int, int]) -> None:
    """Draw the people of one household."""
    at = ("households", name)

    def grown(text: str, given: int) -> str:
        return with_household_people(text, name, given, heads[1])

    def small(text: str, given: int) -> str:
        return with_household_people(text, name, heads[0], given)

    with st.container(horizontal=True, vertical_alignment="bottom"):
        for who, count, edit in ((ADULTS, heads[0], grown), (CHILDREN, heads[1], small)):
            with st.container(width=240):
                fields.whole(f"{who.capitalize()}, {name}", (*at, who), instead=count, edit=edit)
    fields.faults(at)


def _with_start(text: str, given: str) -> str:
    """Set the first day; what is no date is set as it is, to be refused."""
    try:
        return with_value(text, ("start",), date.fromisoformat(given.strip()))
    except ValueError:
        return with_value(text, ("start",), given)


def people() -> None:
    """Draw grown and small ones; a bare number is grown ones."""
    bare = entries.said(("people",))
    adults = bare if isinstance(bare, int) else entries.said(("people", "adults"), 0)
    children = 0 if isinstance(bare, int) else entries.said(("people", "children"), 0)

    def grown(text: str, given: int) -> str:
        return with_people(text, given, children)

    def small(text: str, given: int) -> str:
        return with_people(text, adults, given)

    with st.container(width=140):
        fields.whole("Adults", ("people", "adults"), instead=adults, edit=grown)
    with st.container(width=140):
        fields.whole("Children", ("people", "children"), edit=small)
    fields.faults(("people",))


def place() -> None:
    """Draw how high and how cold it is."""
    st.caption("Write the unit beside the number: 320 m or 1050 ft, 12 degC or 54 degF.")
    with st.container(horizontal=True):
        for key, label, hint in (
            ("altitude", "Height above the sea", "320 m"),
            ("kitchen", "Kitchen", "12 degC"),
            ("outdoors", "Outdoors", "-1 degC"),
            ("water", "Water as it comes", "8 degC"),
        ):
            with st.container(width=200):
                fields.measured(label, ("place", key), hint=hint)
    fields.faults(("place",))


def weather() -> None:
    """Draw the weather of every day."""
    st.caption("Wind takes heat from a flame; wet sticks burn badly. Empty: as usual here.")
    days = entries.days()
    if len(days) <= FEW_DAYS:
        for day in days:
            _day(day)
        return
    with st.container(width=200):
        day = st.selectbox("Weather of", days, format_func=_named, **state.bind("weather of", 1))
    _day(min(day or 1, len(days)))


def _named(day: int) -> str:
    """Name a day."""
    return f"day {day}"


def _day(day: int) -> None:
    """Draw the weather of one day."""
    at = ("weather", *_place_of(day))
    with st.container(horizontal=True, vertical_alignment="center"):
        for key, label, hint in (
            ("outdoors", "Outdoors", "-3 degC"),
            ("wind", "Wind", "2 m/s"),
            ("sun", "Sunshine", "600 W/m^2"),
        ):
            with st.container(width=160):
                fields.measured(f"{label}, day {day}", (*at, key), hint=hint, edit=_set(day, key))
        for key, label in (("rain", "Rain"), ("wet_sticks", "Wet sticks")):
            with st.container(width=160):
                fields.tick(f"{label}, day {day}", (*at, key), edit=_set(day, key))


def _set(day: int, key: str) -> fields.Edit:
    def set_it(text: str, given: Any) -> str:
        return with_weather(text, day, key, given or None)

    return set_it


def _place_of(day: int) -> tuple[int | str, ...]:
    """Find where the file says the weather of a day."""
    said = entries.said(("weather",), [])
    if not isinstance(said, dict):
        return (day - 1,)
    return (entries.day_key(said, day),)


def hours() -> None:
    """Draw when somebody can stand at a fire, and how many."""
    st.caption("Stretches of the clock, with commas between: 06:30-09:30, 11:00-13:00.")
    said = entries.said(("cook_hours",), [])
    if isinstance(said, dict):
        for name in said:
            _stretches(f"Cooking hours, {name}", ("cook_hours", name))
    else:
        _stretches("Cooking hours, every day", ("cook_hours",))
    with st.container(width=200):
        fields.whole("Cooks at the fire at once", ("cooks",), instead=1)


def _stretches(label: str, at: tuple[str, ...]) -> None:
    """Draw a list of stretches as text."""
    said = entries.said(at, [])
    listed = [str(each) for each in said] if isinstance(said, list) else [str(said)]
    fields.listed(label, at, listed, hint="06:30-09:30, 16:00-18:00")


def aim() -> None:
    """Draw what is to be made least and how sure it has to be."""
    fuels = entries.mapping(("fuels",))
    known = ["money", "energy", "tending", *fuels]
    said = entries.said(("goal",), "money")
    first, *rest = said if isinstance(said, list) and said else [said]
    with st.container(horizontal=True):
        with st.container(width=240):
            edit = partial(_with_goal, before=said)
            fields.choice("Spare most of all", ("goal",), known, instead=str(first), edit=edit)
        with st.container(width=320):
            others = [each for each in (*known, *rest) if each != first]
            fields.several(
                "Then, among plans as good, spare",
                ("goal", 1),
                list(dict.fromkeys(others)),
                rest,
                str,
                partial(_with_further, first=first),
            )
        with st.container(width=240):
            fields.number("Keep in reserve, of every fuel", ("reserve",), hint="10 %")
        with st.container(width=240):
            fields.number("Chance that each dish is done", ("confidence",), hint="0.9")


def _with_further(text: str, given: list[str], *, first: str) -> str:
    """Say what is spared among plans as good; the order is that in which it was chosen."""
    return with_value(text, ("goal",), [first, *given] if given else first)


def _with_goal(text: str, given: str, before: Any) -> str:
    """Put a goal first; others that were named after the first stay."""
    rest = [goal for goal in before[1:] if goal != given] if isinstance(before, list) else []
    return with_value(text, ("goal",), [given, *rest] if rest else given)
