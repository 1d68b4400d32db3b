"""A long study that tells how far it is, and ends when time is over or it is told to stop."""

import math
import time
from collections.abc import Callable
from dataclasses import dataclass, field, replace

Tell = Callable[[str], bool | None]


@dataclass(slots=True)
class Watch:
    """What all searches of one study share."""

    time_limit_s: float = math.inf
    tell: Tell | None = None  # told what is looked at; False stops
    most_s: float = 8.0  # for one number of days
    gap: float = 0.01
    brief: bool = False  # it ends in the midst of a count as well
    stopped: bool = False
    about: str = ""  # the case that is looked at
    doing: str = ""
    begin: float = field(default_factory=time.perf_counter)

    @property
    def until(self) -> float:
        """When the whole study ends [s of the clock]."""
        return self.begin + self.time_limit_s

    @property
    def left_s(self) -> float:
        """Time left [s]."""
        return self.until - time.perf_counter()

    @property
    def over(self) -> bool:
        """Whether to look no further."""
        return self.stopped or self.left_s <= 0

    def going(self, doing: str | None = None) -> bool:
        """Say what is being done, and return whether to go on."""
        if doing is not None:
            self.doing = f"{self.about}, {doing}" if self.about else doing
        if self.tell is not None:
            self.stopped |= self.tell(self.doing) is False
        return not self.over

    def within(self, seconds: float) -> "Watch":
        """Return a watch that ends sooner, with the same listener."""
        return replace(self, begin=time.perf_counter(), time_limit_s=min(seconds, self.left_s))
