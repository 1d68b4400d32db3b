"""The search for trade-offs: it goes on beside the page and can be watched and stopped."""

from app.beside import Beside
from app.turns import Turns
from optimizer.scenario.reading import parse
from optimizer.studies.frontier import Frontier, frontier

COUNT = 6
POINT_LIMIT_S = 10.0


class Weighing(Beside):
    """A search for the plans between the least money and the least of another thing."""

    def __init__(self, text: str, against: str, turn: Turns) -> None:
        super().__init__(turn)
        self._asked = text, against
        self.done, self.count = 0, COUNT
        self.found: Frontier | None = None
        self.begin()

    def study(self) -> None:
        """Find the plans."""
        text, against = self._asked
        self.found = frontier(
            parse(text),
            against=against,
            count=COUNT,
            time_limit_s=POINT_LIMIT_S,
            progress=self._progress,
        )

    def _progress(self, done: int, count: int) -> bool:
        if done != self.done:
            self.let_others()
        self.done, self.count = done, count
        return not self.stopping
