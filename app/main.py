"""The pages, and what stands above each of them: whose plan, which file, saved or not, undo."""

import streamlit as st

from app import cached, state, waiting
from app.desk import Desk
from app.figures.look import DARK
from app.garbage import SWEEPING
from app.panels import drawing, files

PAGES = [
    st.Page("views/plan.py", title="Plan", default=True),
    st.Page("views/kitchen.py", title="Kitchen"),
    st.Page("views/menu.py", title="Menu"),
    st.Page("views/how_long.py", title="How long"),
    st.Page("views/tradeoffs.py", title="Trade-offs"),
    st.Page("views/box.py", title="Box"),
    st.Page("views/log.py", title="Log"),
    st.Page("views/sheet.py", title="Sheet"),
]

# Streamlit breaks every cell of a table at 25rem, however much room there is.
WIDE_CELLS = """<style>
[data-testid="stTableStyledTable"] [data-testid="stMarkdownContainer"] { max-width: 48rem; }
</style>"""
# What is chosen of several stands white on the pale primary colour of the dark theme else.
DARK_CHOSEN = "<style>[data-tag], [data-tag] * {color: #000 !important}</style>"


def main() -> None:
    """Draw the header and the page that is asked for."""
    st.set_page_config(page_title="Cooking on scarce fuel", layout="wide")
    st.html(WIDE_CELLS)
    page = st.navigation(PAGES, position="hidden")
    state.look()
    if drawing.look() is DARK:
        st.html(DARK_CHOSEN)
    doors()
    header()
    try:
        page.run()
    finally:  # a page may end before its end
        SWEEPING.now_and_then()


def doors() -> None:
    """Draw the way to every page in words; on a phone they stand in rows."""
    with st.container(horizontal=True, gap="xsmall", key="doors"):
        for page in PAGES:
            st.page_link(page, width="content")


def header() -> None:
    """Say whose plan this is, where it is kept, and offer undo and measures."""
    desk = state.desk()
    found = cached.reading(state.text()).scenario
    with st.container(horizontal=True, vertical_alignment="center"):
        st.markdown(
            f"**{waiting.plain(found.title) if found else 'Scenario with problems'}**",
            width="stretch",
        )
        what = desk.can_undo
        st.button(
            "Undo",
            on_click=state.undo,
            disabled=what is None,
            help=f"Take back: {waiting.inline(what)}" if what else "Nothing to take back",
        )
        files.popover()
        st.toggle("US measures", **state.bind_measures())
    st.caption(waiting.plain(kept_where(desk)))
    told = state.message()
    if told:
        st.info(waiting.plain(told))
    if desk.keeping != "saved":
        not_kept(desk)


def kept_where(desk: Desk) -> str:
    """Say which file this is and whether it is saved."""
    how = "saved" if desk.keeping == "saved" else "NOT saved"
    if desk.own:
        return f"{desk.target.name}, {how}"
    if desk.on_disk is None and desk.keeping == "saved":
        return "The demo. What you change is kept in a copy of your own."
    return f"Your copy of the demo, {how}"


def not_kept(desk: Desk) -> None:
    """Say why it is not saved and let the person choose."""
    if desk.keeping == "failed":
        st.error(f"Not saved: {waiting.plain(desk.trouble)}")
        st.button("Try to save again", on_click=state.save_again)
        return
    st.error("The file was changed in another window or program. Yours is not saved yet.")
    with st.container(horizontal=True):
        st.button("Take the other version", on_click=state.take_other)
        st.button("Keep mine (the other stays beside it)", on_click=state.keep_mine)


main()
