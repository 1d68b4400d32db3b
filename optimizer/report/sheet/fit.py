"""How close a day is set, so that up to ten dishes stay on one page in letters of 10 pt.

The lines are only estimated: the numbers here were found by printing, not by a rule of type.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

PAGE_PT = 715.0  # of US letter, the shorter paper, under the name of the day
MOST_DISHES = 10  # a day of more goes on on a second page anyway
LANE_PT, HOURS_PT = 11.0, 18.0


MOST_GAP_PT = 3.0


@dataclass(frozen=True, slots=True)
class Fit:
    """How a day is set: dishes in a column of their own, the strip, the room above each row."""

    wide: bool
    strip: bool
    gap_pt: float = 0.0


@dataclass(frozen=True, slots=True)
class Setting:
    """How lines stand: letters in one, its height, the least height of a row, the room around."""

    letters: int
    line_pt: float
    least_pt: float
    around_pt: float

    def height_pt(self, parts: Sequence[str]) -> float:
        """Estimate how high a row of these parts stands, each on a line of its own."""
        lines = sum(math.ceil(len(part) / self.letters) for part in parts)
        return max(self.least_pt, lines * self.line_pt + self.around_pt)


WIDE = Setting(letters=86, line_pt=12.0, least_pt=17.0, around_pt=3.4)
CLOSE = Setting(letters=104, line_pt=11.3, least_pt=13.2, around_pt=1.4)


def fits_wide(rows: Sequence[Sequence[str]], advice: Sequence[str], lanes: int) -> bool:
    """Tell whether a day stays on one page with a column for the dishes.

    Parameters
    ----------
    rows
        The parts of each line of the clock, without the dish.
    advice
        The words of each piece of advice below them.
    lanes
        Dishes on the strip of time.

    Returns
    -------
    bool
        Whether it should.
    """
    strip = 1.2 * LANE_PT * lanes + HOURS_PT
    text = sum(WIDE.height_pt(parts) for parts in rows)
    return text + strip + sum(CLOSE.height_pt([each]) for each in advice) <= PAGE_PT


def close_fit(rows: Sequence[str], advice: Sequence[str], lanes: int) -> Fit:
    """Set a day solid, so that it stays on one page.

    Parameters
    ----------
    rows
        The words of each line of the clock, with the dish.
    advice
        The words of each piece of advice below them.
    lanes
        Dishes on the strip of time.

    Returns
    -------
    Fit
        With the strip if there is room, or if a second page is needed anyway; what room is left
        is shared out between the rows.
    """
    left = PAGE_PT - sum(CLOSE.height_pt([each]) for each in [*rows, *advice])
    strip = LANE_PT * lanes + HOURS_PT
    with_strip = left >= strip or lanes > MOST_DISHES
    spare = max(0.0, left - strip if with_strip else left)
    return Fit(wide=False, strip=with_strip, gap_pt=min(MOST_GAP_PT, spare / (2 * len(rows))))
