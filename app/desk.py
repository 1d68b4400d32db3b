"""What one window works on: the text of a scenario, what it was before, and where it is kept.

Every change is written at once, unless the file was changed elsewhere since it was read: then
nothing is written and the person chooses. No Streamlit here.
"""

from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from app import remembered
from app.reading import reading
from optimizer.cli.outlet import demo_file
from optimizer.errors import InputError, Problem, SaveError
from optimizer.scenario.file_text import read_text
from optimizer.scenario.locking import alone
from optimizer.scenario.saving import save_text

WORKING_COPY = "demo.yaml"
MOST_STEPS = 50  # that can be taken back

Keeping = Literal["saved", "elsewhere", "failed"]


def working_copy() -> Path:
    """Place of the copy of the demo that is worked on until it is saved as a file."""
    return remembered.state_folder() / WORKING_COPY


@dataclass
class Desk:
    """The work of one window."""

    target: Path  # the person's file, or the working copy of the demo
    own: bool  # it is the person's file
    text: str
    on_disk: str | None  # what the file held when this window last read or wrote it
    keeping: Keeping = "saved"
    trouble: str = ""
    past: list[tuple[str, str]] = field(default_factory=list)  # what was done, text before

    @classmethod
    def open(cls, path: Path | None) -> "Desk":
        """Open a file, or the demo as it was left.

        Parameters
        ----------
        path
            The person's file; None for the demo.

        Raises
        ------
        InputError
            If the file cannot be read as text.
        """
        if path is not None:
            text = read_text(path)
            past = remembered.past_of(path, text)
            return cls(path, own=True, text=text, on_disk=text, past=past)
        copy = working_copy()
        left = _content(copy)
        past = remembered.past_of(copy, left) if left else []
        text = left or read_text(demo_file())
        return cls(copy, own=False, text=text, on_disk=left, past=past)

    @property
    def can_undo(self) -> str | None:
        """What would be taken back, or None."""
        return self.past[-1][0] if self.past else None

    def apply(self, text: str, what: str) -> tuple[Problem, ...]:
        """Make a change, unless it makes the scenario wrong where it was not.

        Parameters
        ----------
        text
            The whole file as it shall be.
        what
            The change in a few words.

        Returns
        -------
        tuple of Problem
            What the change would make wrong; empty when it was made.
        """
        before = {(p.key, p.code, p.message) for p in reading(self.text).problems}
        found = reading(text).problems
        new = tuple(p for p in found if (p.key, p.code, p.message) not in before)
        if new:
            return new
        self.replace(text, what)
        return ()

    def replace(self, text: str, what: str) -> None:
        """Work on another text, whatever is wrong with it.

        Parameters
        ----------
        text
            The whole file as it shall be.
        what
            The change in a few words.
        """
        if text == self.text:
            return
        self.past = [*self.past, (what, self.text)][-MOST_STEPS:]
        self.text = text
        self.save()

    def undo(self) -> str | None:
        """Take the last change back, and say which it was."""
        if not self.past:
            return None
        what, self.text = self.past.pop()
        self.save()
        return what

    def save(self, *, over: bool = False) -> None:
        """Write the text to the file; `over` writes over what was changed elsewhere.

        Parameters
        ----------
        over
            Whether this window's version goes over another.
        """
        try:
            self.target.parent.mkdir(parents=True, exist_ok=True)
            with alone(self.target):  # nobody writes between the look and the writing
                self._save(over=over)
        except (OSError, SaveError) as error:
            self.keeping, self.trouble = "failed", str(error)

    def _save(self, *, over: bool) -> None:
        there = _content(self.target)
        if there not in {self.on_disk, self.text} and not over:
            self.keeping, self.trouble = "elsewhere", ""
            return
        if there != self.text:
            save_text(self.target, self.text)
            remembered.keep_past(self.target, self.text, self.past)
        self._kept()

    def _kept(self) -> None:
        self.on_disk, self.keeping, self.trouble = self.text, "saved", ""

    def look(self) -> bool:
        """Take up what was changed elsewhere if nothing here is unsaved; say whether it was."""
        there = _content(self.target)
        if self.keeping != "saved" or there is None or there == self.on_disk:
            return False
        self.take_other()
        return True

    def take_other(self) -> None:
        """Work on the version that is in the file; this window's can be had back by undo."""
        there = _content(self.target)
        if there is None:
            return
        if there != self.text:
            self.past = [*self.past, ("taking the version in the file", self.text)][-MOST_STEPS:]
        self.text = there
        self._kept()

    def save_as(self, path: Path) -> None:
        """Go on in another file.

        Parameters
        ----------
        path
            A file that is not there yet.

        Raises
        ------
        SaveError
            If it is there, or cannot be written.
        """
        with alone(path):  # nobody makes it between the look and the writing
            if path.exists():
                raise SaveError(f"{path} is there already; choose another name")
            save_text(path, self.text)
        remembered.keep_past(path, self.text, self.past)
        self.target, self.own = path, True
        self._kept()


def _content(path: Path) -> str | None:
    """Text of a file; None if it is not there or cannot be read."""
    try:
        return read_text(path)
    except InputError:
        return None
