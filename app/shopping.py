"""The study of what to buy: it goes on beside the page, which shows what it looks at."""

import time

from app.beside import Beside
from app.turns import Turns
from optimizer.errors import LimitError
from optimizer.scenario.reading import parse
from optimizer.studies.buying.purchase import Purchase
from optimizer.studies.buying.study import what_to_buy

TIME_LIMIT_S = 60.0  # it goes on beside the page
TURN_S = 1.0  # others get their turn so often


class Shopping(Beside):
    """A study of what to buy for some days, which can be watched and stopped."""

    def __init__(self, text: str, days: int, budget: float | None, turn: Turns) -> None:
        super().__init__(turn)
        self._asked = text, days, budget
        self._turned = time.monotonic()
        self.doing = "what is for sale"
        self.found: Purchase | None = None
        self.begin()

    def study(self) -> None:
        """Find out what to buy."""
        text, days, budget = self._asked
        self.found = what_to_buy(
            parse(text), days, budget=budget, time_limit_s=TIME_LIMIT_S, tell=self._tell
        )

    def late(self, error: LimitError) -> str:
        """Say why there is nothing, where time was over or it was stopped."""
        return "it was stopped before anything was found" if self.stopping else str(error)

    def _tell(self, doing: str) -> bool:
        self.doing = doing
        if time.monotonic() - self._turned > TURN_S:
            self.let_others()
            self._turned = time.monotonic()
        return not self.stopping
