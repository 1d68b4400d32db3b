"""The study of what to buy: it goes on beside the page, which shows what it looks at."""

import threading
import time

from app.searching import ended_with_the_program
from app.turns import Turns
from optimizer.errors import CheckError, InputError, LimitError, PhysicsError
from optimizer.scenario.reading import parse
from optimizer.studies.buying.purchase import Purchase
from optimizer.studies.buying.study import what_to_buy

TIME_LIMIT_S = 60.0  # it goes on beside the page
BETWEEN_S = 0.01
TURN_S = 1.0  # others get their turn so often


class Shopping:
    """A study of what to buy for some days, which can be watched and stopped."""

    def __init__(self, text: str, days: int, budget: float | None, turn: Turns) -> None:
        self._turn = turn
        self._turned = time.monotonic()
        self.doing = "what is for sale"
        self.stopping = False
        self.made = self.whole = threading.Event()
        self.found: Purchase | None = None
        self.trouble = ""
        ended_with_the_program(self)
        threading.Thread(target=self._run, args=(text, days, budget), daemon=True).start()

    def stop(self) -> None:
        """Ask it to end with what is found."""
        self.stopping = True

    drop = stop

    def _run(self, text: str, days: int, budget: float | None) -> None:
        with self._turn.taken():
            self._study(text, days, budget)
        self.made.set()

    def _study(self, text: str, days: int, budget: float | None) -> None:
        try:
            self.found = what_to_buy(
                parse(text), days, budget=budget, time_limit_s=TIME_LIMIT_S, tell=self._tell
            )
        except LimitError as error:
            self.trouble = "it was stopped before anything was found"
            if not self.stopping:
                self.trouble = str(error)
        except (CheckError, InputError, PhysicsError) as error:
            self.trouble = str(error)
        except RuntimeError as error:
            if not threading.main_thread().is_alive():
                return  # the program is taken down around it
            self.trouble = f"this is a fault of the program: {error}"

    def _tell(self, doing: str) -> bool:
        self.doing = doing
        if time.monotonic() - self._turned > TURN_S:
            self._turn.release()
            time.sleep(BETWEEN_S)
            self._turn.acquire()
            self._turned = time.monotonic()
        return not self.stopping
