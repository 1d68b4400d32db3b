"""What a plan takes out of the store, as shares of each fuel's stock."""

from dataclasses import dataclass

from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.report.balance import fuel_row
from optimizer.report.measures import Measures
from optimizer.report.names import Names

Row = dict[str, str]


@dataclass(frozen=True, slots=True)
class FuelShare:
    """One fuel; shares are of its stock, None where the stock has no limit."""

    label: str
    used: str
    left: str
    percent: str
    used_share: float | None
    reserve_share: float

    @property
    def told(self) -> str:
        """All of it in one line."""
        left = f", {self.left} left" if self.left else ""
        share = f" ({self.percent})" if self.percent else ""
        return f"{self.label}: {self.used} used{share}{left}"


def fuel_shares(plan: Plan, scenario: Scenario, system: Measures) -> tuple[FuelShare, ...]:
    """Return what is used of every fuel in the store.

    Parameters
    ----------
    plan
        The plan.
    scenario
        Its household.
    system
        The measures.

    Returns
    -------
    tuple of FuelShare
        In the order of the store.
    """
    names = Names(scenario)
    reserves = {store.fuel.name: store.reserve for store in scenario.stores}
    told = []
    for use in plan.fuels:
        label, used, left, percent = fuel_row(use, names, system)
        share = use.used_mj / use.stock_mj if use.stock_mj else None
        reserve = reserves.get(use.name, 0.0)
        told.append(FuelShare(label, used, left, percent, share, reserve))
    return tuple(told)


def fuel_rows(shares: tuple[FuelShare, ...]) -> list[Row]:
    """Set the fuels out as a table.

    Parameters
    ----------
    shares
        What is used of each.
    """
    return [
        {
            "fuel": each.label,
            "used": each.used,
            "left": each.left or "no limit",
            "of stock": each.percent,
            "reserve": f"{each.reserve_share:.0%}" if each.reserve_share else "none",
        }
        for each in shares
    ]
