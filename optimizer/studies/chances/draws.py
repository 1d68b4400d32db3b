"""Many tries of one household: each cause a row of numbers, the same row wherever it acts.

A weak stove is weak for every pot on it, a windy day is windy for every stove outdoors, damp wood
is damp for every fire. So what shares a cause moves together.
"""

from dataclasses import dataclass, field
from zlib import crc32

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Truth = NDArray[np.bool_]

LEAST_FACTOR = 0.05  # nothing falls below so much of its usual value


@dataclass(frozen=True, slots=True)
class Draws:
    """So many tries from one seed.

    Every cause has a stream of its own, so that one more stove or dish changes no other number.
    """

    count: int
    seed: int
    _known: dict[str, Array] = field(default_factory=dict, repr=False)

    def spreads(self, cause: str) -> Array:
        """Return how many standard deviations a cause lies off, by try.

        Parameters
        ----------
        cause : str
            Its name, such as "wind of day 2".
        """
        if cause not in self._known:
            stream = np.random.default_rng([self.seed, crc32(cause.encode())])
            self._known[cause] = stream.standard_normal(self.count)
        return self._known[cause]

    def factor(self, cause: str, spread: float) -> Array:
        """Return what a usual value is multiplied by, by try.

        Parameters
        ----------
        cause : str
            Its name.
        spread : float
            Relative standard deviation of the value.
        """
        if not spread:
            return np.ones(self.count)
        return np.maximum(1 + spread * self.spreads(cause), LEAST_FACTOR)

    def shift_k(self, cause: str, spread_k: float) -> Array:
        """Return by how many kelvin a temperature is off, by try.

        Parameters
        ----------
        cause : str
            Its name.
        spread_k : float
            Standard deviation of the temperature [K]
        """
        return spread_k * self.spreads(cause)
