"""The study of how long it lasts: it goes on beside the page, which shows what is known of it."""

import threading

from app.beside import Beside
from app.turns import Turns
from optimizer.scenario.reading import parse
from optimizer.studies.endurance.study import Endurance, endurance

TIME_LIMIT_S = 120.0  # it goes on beside the page


class Enduring(Beside):
    """A study of how long the store lasts, which can be watched and stopped."""

    def __init__(self, text: str, turn: Turns) -> None:
        super().__init__(turn)
        self._text = text
        self.doing, self.parts = "", 0  # what is looked at; how many parts of the page are known
        self.first = threading.Event()  # the days are known
        self.known: Endurance | None = None
        self.begin()

    def study(self) -> None:
        """Find out how long it lasts, part by part."""
        self.known = endurance(
            parse(self._text), time_limit_s=TIME_LIMIT_S, tell=self._tell, grown=self._grown
        )

    def ended(self) -> None:
        """Let nobody wait for the days any more."""
        self.first.set()

    def _tell(self, doing: str) -> bool:
        self.doing = doing
        return not self.stopping

    def _grown(self, known: Endurance) -> None:
        self.known = known
        self.parts = 1 + (known.opening is not None) + bool(known.fallbacks) + known.ranged
        self.first.set()
        self.let_others()
