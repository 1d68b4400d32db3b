"""Small fields of a page that edit nothing in the file: what they hold stays when it changes."""

from collections.abc import Mapping, Sequence
from typing import TypeVar

import streamlit as st

from app import state
from app.waiting import plain
from optimizer.report.slides import slides

Key = TypeVar("Key", str, int)


def one(name: str, label: str, options: Mapping[Key, str], first: Key | None = None) -> Key:
    """Let the person choose one of some things.

    Parameters
    ----------
    name
        Under which the choice is kept.
    label
        What stands above it.
    options
        Things and their names.
    first
        What is chosen to begin with; else the first.
    """
    begin = next(iter(options)) if first is None else first
    if state.kept(name) not in options:
        state.keep(name, begin)
    bound = state.bind(name, begin)
    chosen: Key = st.selectbox(label, list(options), format_func=lambda k: options[k], **bound)
    return chosen


def slider(kind: str, name: str, first: float) -> float:
    """Draw a slider, and give where it stands in the unit of the dials.

    Parameters
    ----------
    kind
        Of the sliders of a system of measures.
    name
        Under which it is kept.
    first
        Where it begins, in the unit of the dials.
    """
    slide = slides(state.units())[kind]
    bound = state.bind(name, first, slide)
    return slide.value(st.slider(slide.label, slide.low, slide.high, step=slide.step, **bound))


def text(name: str, label: str, such_as: str = "", *, first: str = "") -> str:
    """Draw a field of one line.

    Parameters
    ----------
    name
        Under which it is kept.
    label
        What stands above it.
    such_as
        An example.
    first
        What it holds to begin with.
    """
    given = st.text_input(
        label, placeholder=such_as and f"such as {such_as}", **state.bind(name, first)
    )
    return str(given or "").strip()


def wrong(reasons: Sequence[str]) -> None:
    """Say under a field what is wrong with it.

    Parameters
    ----------
    reasons
        Sentences.
    """
    for reason in reasons:
        st.error(plain(reason))
