"""The grid of minutes that rests are looked at on."""

import numpy as np
from numpy.typing import NDArray

GRID_MIN = 5  # the clock's step
LONGEST_MIN = 14 * 60  # nothing is kept hot for longer
MINUTES: NDArray[np.int_] = np.arange(0, LONGEST_MIN + 1, GRID_MIN)
Curve = NDArray[np.float64]
SECONDS: Curve = MINUTES.astype(np.float64) * 60
