"""The only module that reads or writes ``st.session_state``: what this window works on."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import streamlit as st

from app import remembered
from app.desk import Desk
from optimizer.cli.outlet import demo_file
from optimizer.errors import InputError, Problem, SaveError
from optimizer.report.measures import Units
from optimizer.report.slides import Slide
from optimizer.scenario.file_text import read_text
from optimizer.scenario.logbook import log_path

SCENARIO = "FUELTHRIFT_SCENARIO"  # environment: the file that was named on the command line
_DESK, _KEPT, _MESSAGE, _DRAFTS, _US = "desk", "kept", "message", "drafts", "us_measures"


def desk() -> Desk:
    """Give the work of this window, opened when it is first asked for."""
    if _DESK not in st.session_state:
        named = os.environ.get(SCENARIO)
        st.session_state[_DESK] = Desk.open(Path(named) if named else None)
    found: Desk = st.session_state[_DESK]
    return found


def text() -> str:
    """Give the YAML text of the scenario that is worked on."""
    return desk().text


def log_file() -> Path:
    """Give the place of the log, beside the scenario that is worked on."""
    return log_path(desk().target)


def units() -> Units:
    """Give the measures the person reads."""
    if kept(_US) is None:
        keep(_US, remembered.measures() == "us")
    return "us" if kept(_US) else "metric"


def bind_measures() -> dict[str, Any]:
    """Give the keywords of the switch of measures; new windows begin as it was left."""
    return {"key": bind(_US, units() == "us")["key"], "on_change": _keep_measures}


def _keep_measures() -> None:
    _keep_widget(_US, f"kept:{_US}")
    remembered.keep_measures(units())


def apply(changed: str, what: str) -> tuple[Problem, ...]:
    """Make a change, keep it in the file and let it be undone.

    Parameters
    ----------
    changed
        The whole scenario as it shall be.
    what
        The change in a few words, such as "stock of sticks".

    Returns
    -------
    tuple of Problem
        What the change would make wrong; it is then not made. Empty when it was made.
    """
    return desk().apply(changed, what)


def replace(changed: str, what: str) -> None:
    """Work on another scenario, whatever is wrong with it; it can be undone.

    Parameters
    ----------
    changed
        The whole scenario.
    what
        The change in a few words.
    """
    desk().replace(changed, what)
    st.session_state[_DRAFTS] = {}


def open_text(changed: str, what: str) -> None:
    """Go on with a scenario that was brought in; what was here before can be had back.

    Parameters
    ----------
    changed
        The whole scenario.
    what
        Where it comes from.
    """
    replace(changed, f"open {what}")
    say(f"Opened {what}. Undo brings back what was here before.")


def open_demo() -> None:
    """Go on with the demo as it is shipped."""
    open_text(read_text(demo_file()), "the demo as it is shipped")


def undo() -> None:
    """Take the last change back, and say so."""
    what = desk().undo()
    st.session_state[_DRAFTS] = {}
    if what:
        say(f"Taken back: {what}.")


# what a widget holds


def kept(name: str, first: Any = None) -> Any:
    """Give a value that stays when the page changes.

    Parameters
    ----------
    name
        Name of the value.
    first
        What it is before a person sets it.
    """
    return st.session_state.setdefault(_KEPT, {}).get(name, first)


def keep(name: str, value: Any) -> None:
    """Set a value that stays when the page changes.

    Parameters
    ----------
    name
        Name of the value.
    value
        The value; it is never put into the scenario.
    """
    st.session_state.setdefault(_KEPT, {})[name] = value


def bind(name: str, first: Any = None, slide: Slide | None = None) -> dict[str, Any]:
    """Give the keywords that tie a widget to a value that stays when the page changes.

    Parameters
    ----------
    name
        Name of the value; read it with ``kept(name)``.
    first
        What it is before a person sets it.
    slide
        A slider in measures of its own: the value is kept in those of the dials.
    """
    key, value = f"kept:{name}", kept(name, first)
    if slide is not None:
        key, value = f"{key}:{slide.label}", slide.shown(value)
    st.session_state[key] = value
    return {"key": key, "on_change": _keep_widget, "args": (name, key, slide)}


def _keep_widget(name: str, key: str, slide: Slide | None = None) -> None:
    value = st.session_state[key]
    keep(name, value if slide is None else slide.value(value))


def field(name: str, value: Any, edit: Callable[[str, Any], str], what: str) -> dict[str, Any]:
    """Give the keywords of a widget that edits the scenario.

    Parameters
    ----------
    name
        Name of the field, one in the whole app.
    value
        What the scenario says now.
    edit
        Makes the new text of the scenario from the old one and what the widget holds.
    what
        The change in a few words.
    """
    key = f"field:{name}"
    draft = _drafts().get(name)
    st.session_state[key] = draft[0] if draft else value
    return {"key": key, "on_change": _edit_by_widget, "args": (name, key, edit, what)}


def _edit_by_widget(name: str, key: str, edit: Callable[[str, Any], str], what: str) -> None:
    given = st.session_state[key]
    change(name, lambda text: edit(text, given), what, given)


def change(name: str, edit: Callable[[str], str], what: str, given: Any = None) -> None:
    """Make a change; where it is refused, the reasons stand at its field.

    Parameters
    ----------
    name
        Name of the field or button.
    edit
        Makes the new text of the scenario from the old one.
    what
        The change in a few words.
    given
        What the widget holds, kept there when it is refused.
    """
    try:
        reasons = [_reason(name, problem) for problem in apply(edit(text()), what)]
    except InputError as error:
        reasons = [_reason(name, problem) for problem in error.problems]
    except (LookupError, ValueError, TypeError, AttributeError):  # the file says something odd here
        reasons = ["this cannot be changed here while the file is as it is; mend it there first"]
    others = {each: draft for each, draft in _drafts().items() if each != name}
    st.session_state[_DRAFTS] = others | ({name: (given, reasons)} if reasons else {})


def _reason(name: str, problem: Problem) -> str:
    """Say why a change is refused; where the fault is elsewhere, say where."""
    told = problem.message
    return told if problem.key in {name, ""} else f"{problem.key}: {told}"


def refusals(name: str) -> list[str]:
    """Give the reasons why what was typed in a field was not taken.

    Parameters
    ----------
    name
        Name of the field or button.
    """
    return _drafts().get(name, (None, []))[1]


def _drafts() -> dict[str, tuple[Any, list[str]]]:
    """Give what was typed but not taken, by field, with the reasons."""
    found: dict[str, tuple[Any, list[str]]] = st.session_state.setdefault(_DRAFTS, {})
    return found


def say(message: str) -> None:
    """Tell the person something at the next look at a page.

    Parameters
    ----------
    message
        A sentence.
    """
    st.session_state[_MESSAGE] = message


def message() -> str | None:
    """Give what is to be told, once."""
    found: str | None = st.session_state.pop(_MESSAGE, None)
    return found


# where it is kept


def look() -> None:
    """Take up what was changed in the file elsewhere, and say so."""
    if desk().look():
        st.session_state[_DRAFTS] = {}
        say("The file was changed in another window or program; you see the new version.")


def take_other() -> None:
    """Go on with the version in the file."""
    desk().take_other()
    st.session_state[_DRAFTS] = {}


def keep_mine() -> None:
    """Write this window's version over the one in the file, which stays beside it."""
    desk().save(over=True)


def save_again() -> None:
    """Try once more to write."""
    desk().save()


def save_as(name: str) -> None:
    """Go on in another file, and say how that went.

    Parameters
    ----------
    name
        Where.
    """
    try:
        desk().save_as(Path(name).expanduser())
    except (OSError, SaveError) as error:
        say(f"Not saved: {error}")
        return
    say(f"Saved as {name}; every change is kept there from now on.")
