"""A walk of prices towards those at which the store is used best."""

from dataclasses import dataclass, field

from optimizer.planning.cheapest import Prices

STEPS = (0.05, 0.25, 1.0)  # how far a price moves at once as long as it keeps its direction
_DEAR = 20.0  # a lacking MJ costs so many times the first price
_SETTLED = 0.1  # prices are good once no others can close more of the gap than this share


@dataclass(slots=True)
class Walk:
    """Prices that go where they are wished, but not too far at once."""

    at: Prices
    best: Prices = field(default_factory=dict)
    bound: float | None = None
    steps: tuple[float, ...] = STEPS
    way: dict[str, bool] = field(default_factory=dict)  # whether it last went up
    times: int = 0  # that it did so

    @property
    def dear(self) -> float:
        """Price above which no fuel is tried."""
        return _DEAR * (max(self.at.values(), default=0.0) or 1.0)

    def settled(self, bound: float, most: float, gap: float) -> bool:
        """Take note of the bound at these prices, and tell whether others are worth a try."""
        if self.bound is None or bound > self.bound:
            self.bound, self.best = bound, self.at
        return most - self.bound <= _SETTLED * gap * abs(most)

    def on(self, wished: Prices) -> None:
        """Go on to the wished prices, or as near to them as one step allows."""
        way = {fuel: wished[fuel] > price for fuel, price in self.best.items()}
        self.times = self.times + 1 if way == self.way else 0
        self.way = way
        step = self.steps[min(self.times, len(self.steps) - 1)]
        self.at = {
            fuel: min(max(wished[fuel], price * (1 - step)), price * (1 + step))
            if price
            else wished[fuel]
            for fuel, price in self.best.items()
        }
