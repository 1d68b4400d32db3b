"""One entry of the log at a time: plain fields, with what is wrong under the field."""

from collections.abc import Callable, Sequence
from typing import Any

import streamlit as st

from app import state
from app.waiting import plain
from optimizer.errors import InputError, SaveError
from optimizer.model.household import Scenario
from optimizer.report.dates import day_name
from optimizer.report.names import Names
from optimizer.scenario.log_entries import HOWS
from optimizer.trials.diary import problems_of, write

ALL, AS_PLANNED = "all of it", "as planned"
READ = {"serving": "at the table", "move": "as it goes into its cooker", "room": "of the room"}
FUEL, MEAL, HEAT, PEOPLE, STICKS = "Fuel", "Meal", "Temperature", "People", "Sticks"
REFUSED = "log refused"
Said = dict[str, Any]


def entry(scenario: Scenario) -> None:
    """Draw the moment, what can be said of it, and the button that writes it down.

    Parameters
    ----------
    scenario
        The household.
    """
    moment(scenario)
    draw: dict[str, Callable[[Scenario], Said]] = {
        FUEL: _fuel,
        MEAL: _meal,
        HEAT: _heat,
        PEOPLE: _people,
        STICKS: _sticks,
    }
    kind = st.segmented_control("About", list(draw), required=True, **state.bind("log kind", FUEL))
    with st.container(border=True):
        said = draw[kind or FUEL](scenario)
        with st.container(horizontal=True, vertical_alignment="bottom"):
            with st.container(width=320):
                _text("A word to keep (or empty)", "note", "wind from the east")
            with st.container(width=240):
                _text("Corrects entry no. (or none)", "instead_of", "3")
        st.button("Write it down", on_click=_write, args=(said, scenario))
    _others(said)


def moment(scenario: Scenario) -> None:
    """Draw the moment that is written about and planned from.

    Parameters
    ----------
    scenario
        The household.
    """
    with st.container(horizontal=True):
        with st.container(width=260):
            days = list(range(1, scenario.days + 1))
            if state.kept("log day") not in days:
                state.keep("log day", 1)
            _choice("Day", "log day", days, lambda day: day_name(scenario, day))
        with st.container(width=180):
            _text("Clock", "clock", "12:30")
            _faults("at")


def moment_said() -> str | None:
    """Give the moment in the words of the log; None until a clock time is given."""
    clock = str(state.kept("log clock", "")).strip()
    return f"day {state.kept('log day', 1)} {clock}" if clock else None


# what can be said


def _fuel(scenario: Scenario) -> Said:
    """Draw what is left of a fuel, or came in."""
    names = Names(scenario)
    limited = [s.fuel.name for s in scenario.stores if s.fuel.kind != "sun"]
    with st.container(horizontal=True):
        with st.container(width=220):
            fuel = _choice("Which fuel", "log fuel", limited, names.fuel)
            _faults("fuel")
        with st.container(width=160):
            way = _choice(
                "It", "log way", ["left", "added"], {"left": "is left", "added": "came in"}.get
            )
        with st.container(width=260):
            amount = _text("How much", "left", "2 x 465 g + 312 g")
            _faults("added")
        with st.container(width=280):
            empty = _text("Empty packages weigh (if weighed too)", "empty", "290 g")
    return {"kind": "fuel", "fuel": fuel, way: amount, "empty": empty}


def _meal(scenario: Scenario) -> Said:
    """Draw what became of a meal or a dish."""
    about = _of_meal(scenario)
    names = Names(scenario)
    with st.container(horizontal=True):
        with st.container(width=200):
            how = _choice("It was", "log how", list(HOWS), str)
            _faults("how")
        with st.container(width=220):
            stoves = [AS_PLANNED, *(own.stove.name for own in scenario.stoves)]
            stove = _choice("On which stove", "log stove", stoves, names.stove)
        said = {"kind": "meal", **about, "how": how, "stove": stove}
        if how == "in the cooker":
            pots = [AS_PLANNED, *(own.pot.name for own in scenario.pots)]
            cookers = [AS_PLANNED, *(own.cooker.name for own in scenario.cookers)]
            with st.container(width=200):
                said["pot"] = _choice("In which pot", "log pot", pots, names.pot)
            with st.container(width=220):
                said["cooker"] = _choice("In which cooker", "log cooker", cookers, names.cooker)
    return said


def _heat(scenario: Scenario) -> Said:
    """Draw a temperature that was read."""
    with st.container(horizontal=True):
        with st.container(width=240):
            when = _choice("Read", "log when", list(READ), READ.get)
        with st.container(width=180):
            read = _text("Temperature", "read", "61 degC or 142 degF")
    about = {} if when == "room" else _of_meal(scenario)
    return {"kind": "temperature", "when": when, "read": read, **about}


def _people(scenario: Scenario) -> Said:
    """Draw who eats from this moment on."""
    st.caption("Who eats from this moment on.")
    with st.container(horizontal=True):
        heads = {}
        for key, label, now in (
            ("adults", "Adults", scenario.adults),
            ("children", "Children", scenario.children),
        ):
            with st.container(width=160):
                bound = state.bind(f"log {key}", now)
                heads[key] = st.number_input(label, min_value=0, step=1, **bound)
                _faults(key)
    return {"kind": "people", **heads}


def _sticks(scenario: Scenario) -> Said:
    """Draw whether sticks are wet."""
    with st.container(horizontal=True):
        with st.container(width=200):
            wet = _choice("Sticks are", "log wet", ["wet", "dry"], str)
        with st.container(width=300):
            last = f"day {scenario.days} 20:00"
            until = _text("Until (empty: to the end)", "until", last)
    return {"kind": "sticks", "wet": wet == "wet", "until": until}


def _of_meal(scenario: Scenario) -> Said:
    """Draw which meal of the day it is about, and which dish."""
    day = int(state.kept("log day", 1))
    today = [item for item in scenario.items if item.day == day]
    if not today:
        st.caption("Nothing is on the menu of this day.")
        return {"day": day, "meal": "", "dish": ""}
    meals = list(dict.fromkeys(item.meal for item in today))
    with st.container(horizontal=True):
        with st.container(width=220):
            meal = _choice("Which meal", "log meal", meals, str)
            _faults("day")
        labels = {i.dish.name: i.dish.label for i in today if i.meal == meal}
        with st.container(width=260):
            dish = _choice("Which dish", "log dish", [ALL, *labels], lambda d: labels.get(d, d))
    return {"day": day, "meal": meal, "dish": dish}


# fields


def _text(label: str, key: str, hint: str) -> str:
    """Draw a field for text, with what is wrong with it under it."""
    given = st.text_input(label, placeholder=f"such as {hint}", **state.bind(f"log {key}", ""))
    _faults(key)
    return str(given or "").strip()


def _choice(label: str, name: str, options: Sequence[Any], told: Callable[[Any], Any]) -> Any:
    """Draw a choice of one; one that is no more to be had falls back to the first."""
    if state.kept(name) not in options:
        state.keep(name, options[0])
    found = st.selectbox(label, options, format_func=told, **state.bind(name, options[0]))
    _faults(name.removeprefix("log "))
    return found


def _faults(key: str) -> None:
    """Say what is wrong with one field."""
    for reason in state.kept(REFUSED, {}).get(key, ()):
        st.error(f"Not written: {plain(reason)}")


def _others(said: Said) -> None:
    """Say what is wrong beside the fields that are drawn."""
    drawn = {*said, "at", "note", "instead_of", "left", "added", "clock"}
    for key, reasons in state.kept(REFUSED, {}).items():
        for reason in reasons if key not in drawn else ():
            st.error(f"Not written: {plain(f'{key}: {reason}' if key else reason)}")


# writing


def _write(said: Said, scenario: Scenario) -> None:
    """Write an entry down, or keep why not beside its fields."""
    state.keep(REFUSED, {})
    whole, refused = _whole(said)
    try:
        if not refused:
            for problem in problems_of(state.log_file(), [whole], scenario):
                refused.setdefault(problem.key, []).append(problem.message)
        if not refused:
            state.log_file().parent.mkdir(parents=True, exist_ok=True)
            number = write(state.log_file(), whole)
            state.say(f"Written down as entry {number}.")
    except (InputError, SaveError, OSError) as error:
        refused[""] = [str(error)]
    state.keep(REFUSED, refused)
    if not refused:
        for key in ("left", "empty", "read", "note", "instead_of", "until"):
            state.keep(f"log {key}", "")


def _whole(said: Said) -> tuple[Said, dict[str, list[str]]]:
    """Put an entry together; what is not yet said stands beside its field."""
    refused: dict[str, list[str]] = {}
    at = moment_said()
    if at is None:
        refused["at"] = ["say when, such as 12:30"]
    note, instead = (str(state.kept(f"log {key}", "")).strip() for key in ("note", "instead_of"))
    if instead and not instead.isdigit():
        refused["instead_of"] = [f"expected the number of an entry, given '{instead[:20]}'"]
    corrects = int(instead) if instead.isdigit() else None
    whole = {"at": at, **said, "note": note, "instead_of": corrects}
    kept = {key: value for key, value in whole.items() if value not in {"", ALL, AS_PLANNED}}
    for key, field in (("left", "left"), ("added", "left"), ("read", "read")):
        if key in said and key not in kept:
            refused[field] = [
                "say how much, with its unit" if field == "left" else "say what was read"
            ]
    return kept, refused
