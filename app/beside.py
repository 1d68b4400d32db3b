"""A study that goes on beside the page, which shows what is known of it and can stop it."""

import threading
import time
from abc import ABC, abstractmethod

from app.searching import ended_with_the_program
from app.turns import Turns
from optimizer.errors import CheckError, InputError, LimitError, PhysicsError

BETWEEN_S = 0.05


class Beside(ABC):
    """What all of them have: a turn among the others, an end, and what went wrong.

    Parameters
    ----------
    turn
        So many searches at once.
    """

    def __init__(self, turn: Turns) -> None:
        self._turn = turn
        self.stopping = False
        self.made = self.whole = threading.Event()
        self.trouble = ""
        ended_with_the_program(self)

    def begin(self) -> None:
        """Let it begin; what it needs is known by now."""
        threading.Thread(target=self._run, daemon=True).start()

    def stop(self) -> None:
        """Ask it to end with what is known."""
        self.stopping = True

    drop = stop

    @abstractmethod
    def study(self) -> None:
        """Find out what is asked, and keep it."""

    def late(self, error: LimitError) -> str:
        """Say why there is nothing, where time was over or it was stopped."""
        return str(error)

    def ended(self) -> None:  # noqa: B027  (most have nothing to do then)
        """Tell whoever waits for a part of it."""

    def let_others(self) -> None:
        """Let others have their turn."""
        self._turn.release()
        time.sleep(BETWEEN_S)
        self._turn.acquire()

    def _run(self) -> None:
        answered = False
        try:
            with self._turn.taken():
                self._tried()
            answered = True
        finally:  # whatever went wrong, nobody waits for ever
            if not answered:
                self.trouble = "this is a fault of the program: it ended without an answer"
            self.made.set()
            self.ended()

    def _tried(self) -> None:
        try:
            self.study()
        except LimitError as error:
            self.trouble = self.late(error)
        except (CheckError, InputError, PhysicsError) as error:
            self.trouble = str(error)
        except RuntimeError as error:
            if threading.main_thread().is_alive():  # else the program is taken down around it
                self.trouble = f"this is a fault of the program: {error}"
