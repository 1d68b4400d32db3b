"""The study of how long it lasts: it goes on beside the page, which shows what is known of it."""

import threading
import time

from app.searching import ended_with_the_program
from app.turns import Turns
from optimizer.errors import CheckError, InputError, LimitError, PhysicsError
from optimizer.scenario.reading import parse
from optimizer.studies.endurance.study import Endurance, endurance

TIME_LIMIT_S = 120.0  # it goes on beside the page
BETWEEN_S = 0.05


class Enduring:
    """A study of how long the store lasts, which can be watched and stopped."""

    def __init__(self, text: str, turn: Turns) -> None:
        self._turn = turn  # so many searches at once: others get theirs between two parts
        self.doing, self.parts = "", 0  # what is looked at; how many parts of the page are known
        self.stopping = False
        self.made = self.whole = threading.Event()
        self.first = threading.Event()  # the days are known
        self.known: Endurance | None = None
        self.trouble = ""
        ended_with_the_program(self)
        threading.Thread(target=self._run, args=(text,), daemon=True).start()

    def stop(self) -> None:
        """Ask it to end with what is known."""
        self.stopping = True

    drop = stop

    def _run(self, text: str) -> None:
        with self._turn.taken():
            self._study(text)
        self.made.set()
        self.first.set()

    def _study(self, text: str) -> None:
        try:
            self.known = endurance(
                parse(text), time_limit_s=TIME_LIMIT_S, tell=self._tell, grown=self._grown
            )
        except (CheckError, InputError, LimitError, PhysicsError) as error:
            self.trouble = str(error)
        except RuntimeError as error:
            if not threading.main_thread().is_alive():
                return  # the program is taken down around it
            self.trouble = f"this is a fault of the program: {error}"

    def _tell(self, doing: str) -> bool:
        self.doing = doing
        return not self.stopping

    def _grown(self, known: Endurance) -> None:
        self.known = known
        self.parts = 1 + (known.opening is not None) + bool(known.fallbacks) + known.ranged
        self.first.set()
        self._turn.release()
        time.sleep(BETWEEN_S)
        self._turn.acquire()
