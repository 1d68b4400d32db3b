"""Who looks at which search: it goes on as long as any window does."""

import threading
import weakref
from collections.abc import Callable

from streamlit.runtime.scriptrunner import get_script_run_ctx

from app.searching import Search


class Looking:
    """Searches by their text, and the windows that look at each."""

    def __init__(self) -> None:
        self._one = threading.Lock()
        self._begun: weakref.WeakValueDictionary[str, Search] = weakref.WeakValueDictionary()

    def at(self, text: str, begin: Callable[[str], Search]) -> Search:
        """Give the search for a text, and note that this window looks at it.

        Parameters
        ----------
        text
            The whole scenario file.
        begin
            Begins the search, or gives the one that was begun.
        """
        with self._one:
            found = begin(text)
            self._begun[text] = found
            found.windows.add(window())
        return found

    def away(self, text: str, forget: Callable[[str], None]) -> None:
        """Note that this window looks at a text no more; drop its search if that was the last one.

        Parameters
        ----------
        text
            The whole scenario file.
        forget
            Lets the next look at the text search anew.
        """
        with self._one:
            found = self._begun.get(text)
            if found is None or found.whole.is_set():
                return
            found.windows.discard(window())
            if not found.windows:
                forget(text)  # first, so that nobody is given what will never have a plan
                found.drop()


def window() -> str:
    """Name the window that is drawn; empty outside a page."""
    drawn = get_script_run_ctx(suppress_warning=True)
    return drawn.session_id if drawn else ""
