"""How long it lasts, in one study: days, the first days, fallbacks, changes, the range of days."""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field

from optimizer.errors import LimitError
from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.planning.planner import plan
from optimizer.studies.endurance.changes import Tried, cases, changes, tried
from optimizer.studies.endurance.days import MOST_DAYS, Lasting, how_long
from optimizer.studies.endurance.fallback import Fallback, failing, fallbacks
from optimizer.studies.endurance.opening import Opening, opening
from optimizer.studies.endurance.pool import Pool
from optimizer.studies.endurance.repeat import repeated
from optimizer.studies.endurance.watch import Tell, Watch

LEAST_S = 1.0


@dataclass(slots=True)
class Endurance:
    """What is known of how long the store lasts; it grows while the study goes on."""

    scenario: Scenario
    lasting: Lasting
    sticks: bool  # whether a stove burns sticks at all
    opening: Opening | None = None
    fallbacks: list[Fallback] = field(default_factory=list)
    changes: list[Tried] = field(default_factory=list)
    cases: list[Tried] = field(default_factory=list)
    ranged: bool = False  # no more cases come
    none: Plan | None = None  # where not one day can be had: why
    complete: bool = False  # False: stopped, or out of time
    stopped: bool = False

    @property
    def low(self) -> int:
        """Fewest days that the fuel lasts in all cases and as the household is."""
        return min(self._all_days)

    @property
    def high(self) -> int:
        """Most days that the fuel lasts in all cases and as the household is."""
        return max(self._all_days)

    @property
    def _all_days(self) -> list[int]:
        others = (each.days for each in self.cases if not each.ends_by_things)
        return [self.lasting.days, *others]


Grown = Callable[[Endurance], None]


def endurance(
    scenario: Scenario,
    *,
    most: int = MOST_DAYS,
    gap: float = 0.01,
    time_limit_s: float = 30.0,
    tell: Tell | None = None,
    grown: Grown | None = None,
    changes_too: bool = True,
) -> Endurance:
    """Find how long the store lasts on this menu repeated, and what changes that.

    Parameters
    ----------
    scenario : Scenario
        The household; its days are one round of the menu.
    most : int
        Days that are looked at, at most.
    gap : float
        How near to the best the plans for the first days and the fallbacks have to be.
    time_limit_s : float
        For all of it; what is not reached is left out [s]
    tell : callable, optional
        Told now and then what is looked at; False stops.
    grown : callable, optional
        Called whenever a part is done, with all that is known.
    changes_too : bool
        Whether to look at what changes the days, and at other people and weather.

    Returns
    -------
    Endurance
        Every number of whole days in it has a plan that the independent checker has passed. Where
        a change can only help and gains no day, that is the plan of the household as it is.

    Raises
    ------
    LimitError
        If time ran out, or it was stopped, before the days were known.
    CheckError
        If a plan fails the independent checker: a defect of this program.
    """
    watch, pool = Watch(time_limit_s, tell, gap=gap), Pool()
    lasting = how_long(scenario, most=most, watch=watch, pool=pool)
    known = Endurance(scenario, lasting, sticks=bool(failing(scenario)))
    grown = grown or (lambda _: None)
    grown(known)
    if not lasting.days:
        known.none = _why_none(scenario, watch)
    else:
        _first(known, watch, pool, grown)
        if changes_too:
            _otherwise(known, watch, pool, grown)
    known.stopped = watch.stopped
    known.complete = not watch.over
    return known


def _first(known: Endurance, watch: Watch, pool: Pool, grown: Grown) -> None:
    """Plan the first days, and days without sticks."""
    with suppress(LimitError):
        known.opening = opening(known.scenario, known.lasting, watch=watch, pool=pool)
        grown(known)
    known.fallbacks = list(fallbacks(known.scenario, watch=watch, pool=pool))
    grown(known)


def _otherwise(known: Endurance, watch: Watch, pool: Pool, grown: Grown) -> None:
    """Try other people, other weather, and what the household might do otherwise."""
    scenario, base = known.scenario, known.lasting
    for found in tried(cases(scenario), base, watch=watch, pool=pool):
        known.cases.append(found)
        grown(known)
    known.ranged = True
    grown(known)
    options = changes(scenario, pool, known.fallbacks)
    for found in tried(options, base, watch=watch, pool=pool):
        known.changes.append(found)
        grown(known)


def _why_none(scenario: Scenario, watch: Watch) -> Plan | None:
    """Return the refused plan of the first day, with the least changes that would make one."""
    watch.going("why not one day")
    try:
        return plan(
            repeated(scenario, 1),
            time_limit_s=max(LEAST_S, watch.left_s),
            progress=lambda *_: watch.going(),
        )
    except LimitError:
        return None
