"""The file of a scenario: take it along, bring one in, save it elsewhere, start from the demo."""

import streamlit as st

from app import cached, state, waiting
from optimizer.errors import InputError
from optimizer.scenario.file_text import decoded

TYPES = ["yaml", "yml"]


def popover() -> None:
    """Draw what can be done with the file."""
    with st.popover("File"):
        _take_along()
        st.divider()
        _bring_in()
        st.divider()
        _save_as()
        if not state.desk().own:
            st.divider()
            st.button("Start again from the demo", on_click=state.open_demo)


def _take_along() -> None:
    """Draw how to download the scenario."""
    st.download_button(
        "Download this scenario (YAML)",
        state.text(),
        file_name=state.desk().target.name,
        mime="application/yaml",
        on_click="ignore",
    )


def _bring_in() -> None:
    """Draw how to open a scenario; everything that is wrong with it is listed first."""
    given = st.file_uploader("Open a scenario (YAML, 1 MB at most)", TYPES, key="upload")
    if given is None:
        return
    try:
        text = decoded(given.name, given.getvalue())
    except InputError as error:
        waiting.list_problems(tuple(error.problems))
        return
    found = cached.reading(text)
    if found.problems:
        st.error(f"{len(found.problems)} thing(s) wrong in {waiting.plain(given.name)}:")
        waiting.list_problems(found.problems)
    if cached.said(text) is None:
        st.caption("It cannot be opened; what you work on is as it was.")
        return
    where = state.desk().target.name if state.desk().own else "the copy you work on"
    st.caption(f"It takes the place of what is in {waiting.plain(where)}; Undo brings that back.")
    label = "Open it and mend it here" if found.problems else "Open it"
    st.button(label, key="open upload", on_click=state.open_text, args=(text, given.name))


def _save_as() -> None:
    """Draw how to go on in another file on this machine."""
    place = st.text_input(
        "Save as a file on this machine", placeholder="outage.yaml", key="save as", max_chars=400
    )
    st.button(
        "Save there",
        key="save there",
        disabled=not place.strip(),
        on_click=state.save_as,
        args=(place.strip(),),
    )
