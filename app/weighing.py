"""The search for trade-offs: it goes on beside the page and can be watched and stopped."""

import threading
import time

from app.searching import ended_with_the_program
from app.turns import Turns
from optimizer.errors import CheckError, InputError, PhysicsError
from optimizer.scenario.reading import parse
from optimizer.studies.frontier import Frontier, frontier

COUNT = 6
POINT_LIMIT_S = 10.0
BETWEEN_S = 0.05


class Weighing:
    """A search for the plans between the least money and the least of another thing."""

    def __init__(self, text: str, against: str, turn: Turns) -> None:
        self._turn = turn  # one search at a time: others get theirs between two plans
        self.done, self.count = 0, COUNT
        self.stopping = False
        self.made = self.whole = threading.Event()
        self.found: Frontier | None = None
        self.trouble = ""
        ended_with_the_program(self)
        threading.Thread(target=self._run, args=(text, against), daemon=True).start()

    def stop(self) -> None:
        """Ask it to end with the plans found so far."""
        self.stopping = True

    drop = stop

    def _run(self, text: str, against: str) -> None:
        with self._turn.taken():
            self._search(text, against)
        self.made.set()

    def _search(self, text: str, against: str) -> None:
        try:
            self.found = frontier(
                parse(text),
                against=against,
                count=COUNT,
                time_limit_s=POINT_LIMIT_S,
                progress=self._progress,
            )
        except (CheckError, InputError, PhysicsError) as error:
            self.trouble = str(error)

    def _progress(self, done: int, count: int) -> bool:
        if done != self.done:
            self._turn.release()
            time.sleep(BETWEEN_S)
            self._turn.acquire()
        self.done, self.count = done, count
        return not self.stopping
