"""A pot or jar that is drawn on several times: what each draw takes, and how hot it still is."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from optimizer.model.household import Steep
from optimizer.physics import cooling, opening
from optimizer.physics.ranges import Values


@dataclass(frozen=True, slots=True)
class Draw:
    """One draw of a load: when, how much of it, and how hot it has to be."""

    before_min: int  # the last draw
    share: float  # of what was filled in
    need_c: float | None  # None: as the dish
    steep: Steep | None = None  # then it has to be so hot that this is done


@dataclass(frozen=True, slots=True)
class Vessel:
    """What is drawn on: its heat when full, its packing and loss, and its open mouth."""

    contents_j_k: float  # with pot or liner
    load_j_k: float  # of the food alone
    packing_j_k: float
    loss_w_k: Values
    start_c: float
    packing_c: Values
    room_c: Values
    mouth_m2: float
    bare_w_k: float  # of walls laid bare with the mouth
    open_s: float

    def levels(self, closed_s: Values, draws: Sequence[Draw]) -> list[Values]:
        """Return the temperature at each draw.

        Parameters
        ----------
        closed_s : float or array
            Time from closing it first to the first draw [s]
        draws : sequence of Draw
            In order of time.
        """
        left = self.contents_j_k
        level, packing = self._after(closed_s, left, self.start_c, self.packing_c)
        found = [level]
        for this, following in pairwise(draws):
            left -= this.share * self.load_j_k
            level = opening.opened_c(
                start_c=level,
                air_c=self.room_c,
                heat_capacity_j_k=left,
                surface_m2=self.mouth_m2,
                bare_w_k=self.bare_w_k,
                open_s=self.open_s,
            )
            gap_s = 60.0 * (this.before_min - following.before_min)
            level, packing = self._after(gap_s, left, level, packing)
            found.append(level)
        return found

    def _after(
        self, time_s: Values, left_j_k: float, level: Values, packing: Values
    ) -> tuple[Values, Values]:
        return cooling.two_body_c(
            time_s=time_s,
            contents_j_k=left_j_k,
            packing_j_k=self.packing_j_k,
            loss_w_k=self.loss_w_k,
            start_c=level,
            packing_start_c=packing,
            room_c=self.room_c,
        )
