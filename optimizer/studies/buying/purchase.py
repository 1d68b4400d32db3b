"""What to buy: each thing, the fuel it comes to, and what would make it possible."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from optimizer.model.household import Scenario, Store
from optimizer.model.plan import Caution, Plan
from optimizer.planning.stock import joules_per_kg
from optimizer.studies.buying.offers import Offer

EVEN = 1e-6
MJ = 1e6


@dataclass(frozen=True, slots=True)
class Bought:
    """So many of one thing, what it is for, and what doing without it would cost."""

    offer: Offer
    count: int
    cost: float
    dishes: tuple[str, ...]  # labels: cooked with it, or got instead of boiled
    litres: float | None  # of water that is got
    without: float | None  # the least cost without it, or a bound of it; None: cannot be done
    without_known: bool  # False: it is a bound, or None only because none was found


@dataclass(frozen=True, slots=True)
class Held:
    """One fuel that the plan burns: so much in the house, burned, and burned at the margin."""

    store: Store  # with what is bought
    used_mj: float
    careful_mj: float  # what the household's confidence makes of it
    usable_mj: float | None  # without the reserve; None: no limit

    def kg(self, mj: float) -> float | None:
        """Return a heat as a mass; None where the fuel has none."""
        heat = joules_per_kg(self.store.fuel)
        return None if heat is None else mj * MJ / heat


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that would make it possible: more money, or more room for a fuel."""

    sort: str  # "money", "limit", "both"
    cost: float
    more_money: float  # beyond the budget
    limits: tuple[tuple[Offer, float], ...] = ()  # of each fuel, how much the house would hold


@dataclass(frozen=True, slots=True)
class Purchase:
    """What to buy; nothing is bought where ``plan`` is None."""

    scenario: Scenario  # as asked
    days: int
    budget: float | None
    cost: float | None
    bound: float | None  # less than this does not carry the days; proven
    known: bool  # False: time ran out, or a cheaper choice was passed over without a proof
    bought: tuple[Bought, ...] = ()
    fuels: tuple[Held, ...] = ()
    margins: Mapping[str, float] = field(default_factory=dict)  # by stove, times the usual fuel
    household: Scenario | None = field(default=None, repr=False)  # with what is bought
    plan: Plan | None = field(default=None, repr=False)  # of all days; checked
    changes: tuple[Change, ...] = ()  # where there is no plan
    cautions: tuple[Caution, ...] = ()
    stuck: tuple[str, ...] = ()  # dishes that nothing in the shop can cook
    complete: bool = True  # False: what things save was not all found in the time

    @property
    def refused(self) -> bool:
        """Whether it is proven that it cannot be done, or not within the budget."""
        if self.cost is not None:
            return False
        return self.bound is None or (self.budget is not None and self.bound > self.budget + EVEN)

    @property
    def gap(self) -> float | None:
        """Share of the cost that is not proven to be needed."""
        if self.cost is None or self.bound is None:
            return None
        return 0.0 if self.cost <= EVEN else max(0.0, 1 - self.bound / self.cost)
