"""Ranges in which a formula holds; outside of them nothing is clipped, it is refused."""

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from optimizer.errors import PhysicsError

Values: TypeAlias = float | NDArray[np.float64]  # a number, or an array that broadcasts


@dataclass(frozen=True, slots=True)
class Range:
    """From ``least`` to ``most``; ``above`` leaves out the least value itself."""

    least: float
    most: float = np.inf
    above: bool = False

    def check(self, **named: Values) -> None:
        """Refuse every named quantity that lies outside; not-a-number lies outside.

        Raises
        ------
        PhysicsError
            With the name, the rule and the value that breaks it.
        """
        for name, values in named.items():
            if isinstance(values, float) and self._holds(values):
                continue
            array = np.asarray(values, dtype=float)
            enough = array > self.least if self.above else array >= self.least
            good = enough & (array <= self.most)
            if not good.all():
                raise PhysicsError(f"{name} must be {self}, not {array[~good].flat[0]:g}")

    def _holds(self, value: float) -> bool:
        """Tell it of one number without an array, which takes twenty times as long."""
        return (value > self.least if self.above else value >= self.least) and value <= self.most

    def __str__(self) -> str:
        lower = f"above {self.least:g}" if self.above else f"at least {self.least:g}"
        return lower if np.isinf(self.most) else f"{lower} and at most {self.most:g}"


POSITIVE = Range(0.0, above=True)
NOT_NEGATIVE = Range(0.0)
SHARE = Range(0.0, 1.0)
TEMPERATURE_C = Range(-60.0, 300.0)  # winter nights to a pot on the fire
EFFICIENCY = Range(0.0, 1.0, above=True)

plain = np.positive  # an array of no dimensions becomes a number; any other stays an array
