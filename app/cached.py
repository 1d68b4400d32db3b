"""The only module with ``st.cache_*``: what is worked out from a text, worked out once.

Everything is keyed by the text of the scenario. What is cached is frozen and shared by all windows.
"""

import gc
import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import streamlit as st
from altair.utils.schemapi import disable_debug_mode

from app import tested
from app.enduring import Enduring
from app.looking import Looking
from app.reading import Reading, reading
from app.searching import Planned, Search
from app.shopping import Shopping
from app.tested import Asked, Tested
from app.turns import Turns
from app.weighing import Weighing
from optimizer.errors import InputError, PhysicsError
from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.report import dialled
from optimizer.report.measures import Metric, Units, Us, in_measures, measures
from optimizer.report.refused import refusal_sentences
from optimizer.report.ways import way_rows
from optimizer.scenario.passages import plain_of
from optimizer.scenario.reading import parse
from optimizer.shelf import load
from optimizer.studies.chances.study import with_chances
from optimizer.studies.comparison import Comparison, compare
from optimizer.studies.endurance.days import Lasting
from optimizer.studies.endurance.left import days_left as counted
from optimizer.studies.one_boil import OneBoil
from optimizer.studies.one_boil import one_boil as studied

__all__ = ["Planned", "Reading", "reading"]  # of others, given on

GAP = 0.01
TIME_LIMIT_S = 30.0
ONE_BOIL_S = 15.0  # for each of its two plans


disable_debug_mode()  # else every part of every chart is held against a long schema; tests do that
gc.freeze()  # what is imported by now stays; looking through it for garbage takes 0.1 s each time

_SEARCHING = Turns(2)  # searches at once; a further window waits its turn
_LOOKING = Looking()


@st.cache_resource(max_entries=100, show_spinner=False)
def said(text: str) -> dict[str, Any] | None:
    """Give what a scenario says as plain values, sound or not; None where it is no YAML.

    Parameters
    ----------
    text
        The whole file; what is given back is shared and only read.
    """
    try:
        return plain_of(text)
    except InputError:
        return None


@st.cache_resource(max_entries=50, show_spinner=False)
def _search(text: str) -> Search:
    return Search(text, GAP, TIME_LIMIT_S, _SEARCHING)


def search(text: str) -> Search:
    """Start the search for the plan of a text, or give the one that was started.

    Parameters
    ----------
    text
        The whole scenario file.
    """
    return _LOOKING.at(text, _search)


def plan(text: str) -> Planned:
    """Give the plan of a text, however long it takes; pages use ``app.waiting.planned``."""
    found = search(text).wait()
    return found or Planned(None, "defect", "the search ended without an answer")


def forget(text: str) -> None:
    """Let the next look at a text search anew."""
    _search.clear(text)


@st.cache_resource(max_entries=20, show_spinner=False, hash_funcs={Scenario: hash})
def again(remains: Scenario) -> Search:
    """Start the search for the plan of what remains, or give the one that was started.

    Parameters
    ----------
    remains
        What is to be planned from a moment on.
    """
    return Search(remains, GAP, TIME_LIMIT_S, _SEARCHING)


def abandon(text: str) -> None:
    """Stop the search for a text that nobody looks at any more, if it still goes on.

    It goes on where another window looks at the same text: a class that opens the demo.

    Parameters
    ----------
    text
        The whole scenario file, as it was before a change.
    """
    _LOOKING.away(text, forget)


@st.cache_resource(
    max_entries=300, show_spinner=False, hash_funcs={Metric: lambda _: "metric", Us: lambda _: "us"}
)
def spec(name: str, _figure: Callable[..., Any], *given: Any) -> str:
    """Give a chart as JSON; its making takes long.

    Parameters
    ----------
    name
        Of the figure; with what it is made of, the key.
    _figure
        Makes the chart.
    given
        What it is made of.

    Returns
    -------
    str
        Its rows stay where they are drawn: Streamlit would make a table of each set of them.
    """
    return json.dumps(_figure(*given).to_dict(validate=False))


@dataclass(frozen=True, slots=True)
class Told:
    """The ways of one dish in words: a row a way, a line a reason."""

    rows: tuple[dict[str, str], ...] = ()
    refused: tuple[str, ...] = ()
    trouble: str = ""


@st.cache_resource(max_entries=200, show_spinner="Looking at every way of this dish")
def ways(text: str, item: int, units: Units) -> Told:
    """Give every way of a dish, and why the others are refused.

    Parameters
    ----------
    text
        The whole scenario file, without a problem.
    item
        Number of the dish among the items of the scenario.
    units
        Measures of the words.
    """
    scenario = parse(text)
    try:
        found = comparison(text, item)
    except PhysicsError as error:
        return Told(trouble=str(error))
    system = measures(units)
    refused = tuple(in_measures(line, system) for line in refusal_sentences(found, scenario))
    return Told(tuple(way_rows(found, scenario, system)), refused)


@st.cache_resource(max_entries=20, show_spinner=False)
def weighing(text: str, against: str) -> Weighing:
    """Start the search for trade-offs of a text, or give the one that was started.

    Parameters
    ----------
    text
        The whole scenario file.
    against
        What money is set against: "tending", "energy" or a fuel's name.
    """
    return Weighing(text, against, _SEARCHING)


@st.cache_resource(max_entries=100, show_spinner=False)
def comparison(text: str, item: int) -> Comparison:
    """Give every way of a dish.

    Parameters
    ----------
    text
        The whole scenario file, without a problem.
    item
        Number of the dish among the items of the scenario.

    Raises
    ------
    PhysicsError
        If a number of the dish is out of bounds.
    """
    scenario = parse(text)
    return compare(scenario, scenario.items[item])


@st.cache_resource(max_entries=100, show_spinner=False)
def first_choice(text: str) -> tuple[str, int, int]:
    """Give the dish, stove and pot with which the dials begin.

    Parameters
    ----------
    text
        The whole scenario file, without a problem.
    """
    return dialled.first_choice(parse(text), load())


@st.cache_resource(max_entries=20, show_spinner=False)
def enduring(text: str) -> Enduring:
    """Start the study of how long it lasts, or give the one that was started.

    Parameters
    ----------
    text
        The whole scenario file, without a problem.
    """
    return Enduring(text, _SEARCHING)


@st.cache_resource(max_entries=20, show_spinner="Solving with water boiled apart and at once")
def one_boil(text: str) -> OneBoil | None:
    """Give what one big boil a day would save.

    Parameters
    ----------
    text
        The whole scenario file, without a problem.
    """
    with _SEARCHING.taken():
        return studied(parse(text), gap=GAP, time_limit_s=ONE_BOIL_S)


@st.cache_resource(max_entries=20, show_spinner="Counting the days", hash_funcs={Scenario: hash})
def days_left(household: Scenario) -> Lasting | None:
    """Count the days that a household lasts with what is left; None where it takes too long."""
    return counted(household)


@st.cache_resource(max_entries=20, show_spinner=False)
def shopping(text: str, days: int, budget: float | None) -> Shopping:
    """Start the study of what to buy, or give the one that was started.

    Parameters
    ----------
    text
        The whole scenario file, without a problem.
    days
        As many as it is to last.
    budget
        Money that may be spent; None: as much as it takes.
    """
    return Shopping(text, days, budget, _SEARCHING)


@st.cache_resource(max_entries=100, show_spinner=False)
def water_test(text: str, readings: str, asked: Asked, name: str, like: str | None) -> Tested:
    """Give what a water test says of a cooker; see ``app.tested``."""
    return tested.water_test(parse(text), readings, asked, name, like)


@st.cache_resource(max_entries=100, show_spinner=False)
def boiling_test(text: str, measured: str, name: str, like: str | None) -> Tested:
    """Give what a boiling test says of a stove; see ``app.tested``."""
    return tested.boiling_test(parse(text), measured, name, like)


@st.cache_resource(max_entries=50, show_spinner=False)
def tried(text: str, _plan: Plan, _scenario: Scenario) -> Plan:
    """Give the plan for all days that the store of a text lasts, with its chances.

    Parameters
    ----------
    text
        The whole scenario file, the key.
    _plan, _scenario
        What its study of the days found.
    """
    return with_chances(_plan, _scenario)
