"""What is left of each fuel after each day that the store lasts."""

from dataclasses import dataclass

from optimizer.report.measures import Measures, kilowatt_hours
from optimizer.report.names import Names
from optimizer.studies.endurance.days import Lasting
from optimizer.studies.endurance.ends import MJ, End, burnt_by_day


@dataclass(frozen=True, slots=True)
class DaysLeft:
    """One fuel above its reserve; shares are of what may be used of it."""

    label: str
    shares: tuple[float, ...]  # left after day 0 (the start), day 1 and so on
    amounts: tuple[str, ...]
    ends: int | None  # the day after which there is too little

    @property
    def told(self) -> str:
        """When it ends."""
        if self.ends is None:
            return f"{self.label}: does not end"
        return f"{self.label}: lasts until day {self.ends}"


def days_left(lasting: Lasting, system: Measures) -> tuple[DaysLeft, ...]:
    """Return what is left of each limited fuel, day by day.

    Parameters
    ----------
    lasting
        How long the store lasts; with a plan.
    system
        The measures.

    Returns
    -------
    tuple of DaysLeft
        Empty where there is no plan.
    """
    if lasting.plan is None or lasting.scenario is None:
        return ()
    burnt, names = burnt_by_day(lasting.plan, lasting.scenario), Names(lasting.scenario)
    return tuple(_left(end, burnt[end.fuel], names, system) for end in lasting.ends)


def _left(end: End, burnt: list[float], names: Names, system: Measures) -> DaysLeft:
    left = [max(0.0, end.usable_mj - sum(burnt[:day])) for day in range(len(burnt) + 1)]
    return DaysLeft(
        label=names.fuel(end.fuel),
        shares=tuple(mj / end.usable_mj if end.usable_mj else 0.0 for mj in left),
        amounts=tuple(_amount(end, mj, names, system) for mj in left),
        ends=end.day,
    )


def _amount(end: End, mj: float, names: Names, system: Measures) -> str:
    if end.j_per_kg is not None:
        return system.fuel(mj * MJ / end.j_per_kg)
    electric = names.fuels[end.fuel].kind == "electricity"
    return kilowatt_hours(mj) if electric else system.energy(mj)


def left_rows(fuels: tuple[DaysLeft, ...]) -> list[dict[str, str]]:
    """Set out what is left after each day.

    Parameters
    ----------
    fuels
        Each fuel.
    """
    days = range(len(fuels[0].shares)) if fuels else range(0)
    return [
        {
            "after": f"day {day}" if day else "at the start",
            **{fuel.label: fuel.amounts[day] for fuel in fuels},
        }
        for day in days
    ]
