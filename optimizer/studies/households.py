"""Households that share a kitchen: each one's part of the fuel, by the portions its people eat.

A dish's fuel is shared by portions in adult size, lighting and keeping up a fire by the pots that
were on it. What is left of fuel that households brought goes back to those who brought more than
they used; who used more than it brought pays the others what it burned of theirs. Fuel that nobody
is said to have brought is burned first, and is paid for but not given back.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from optimizer.model.eaters import House
from optimizer.model.household import Item, Scenario
from optimizer.model.plan import Fire, FuelUse, Plan, Step
from optimizer.model.sharing import FuelPart, Share
from optimizer.studies.rota import rota

MJ = 1e6


def with_households(plan: Plan, scenario: Scenario) -> Plan:
    """Return a plan with the shares of its households and their rota.

    Parameters
    ----------
    plan
        A plan.
    scenario
        The household it was made for.

    Returns
    -------
    Plan
        The same where nobody shares the kitchen.
    """
    if not scenario.houses or not plan.steps:
        return plan
    return replace(plan, shares=shares(plan, scenario), rota=rota(plan, scenario))


def shares(plan: Plan, scenario: Scenario) -> tuple[Share, ...]:
    """Return each household's part of the fuel, and what they owe each other.

    Parameters
    ----------
    plan
        A plan with steps.
    scenario
        The household it was made for.

    Returns
    -------
    tuple of Share
        In the order of the file; the parts of a fuel come to what is used of it.
    """
    eaten = {item.number: portions_of(item, scenario) for item in scenario.items}
    fuels = [_Fuel.of(use, plan, scenario, eaten) for use in plan.fuels]
    return tuple(_share(house, fuels, eaten) for house in scenario.houses)


def _share(
    house: House, fuels: Sequence["_Fuel"], eaten: Mapping[int, Mapping[str, float]]
) -> Share:
    name = house.name
    parts = tuple(fuel.part(name) for fuel in fuels)
    return Share(
        name,
        house.adults,
        house.children,
        sum(each[name] for each in eaten.values()),
        parts,
        cost=sum(part.cost for part in parts),
        settlement=sum(part.owed * fuel.price for part, fuel in zip(parts, fuels, strict=True)),
    )


@dataclass(frozen=True, slots=True)
class _Fuel:
    """One fuel shared out, by household."""

    use: FuelUse
    price: float  # of one kg, or one MJ where there is no mass
    parts: Mapping[str, float]
    brought: Mapping[str, float]
    settled: Mapping[str, "_Settled"]

    @classmethod
    def of(
        cls, use: FuelUse, plan: Plan, scenario: Scenario, eaten: Mapping[int, Mapping[str, float]]
    ) -> "_Fuel":
        parts, brought = _parts(use, plan, scenario, eaten), _brought(use, scenario.houses)
        return cls(use, _price(use, scenario), parts, brought, _settled(use, parts, brought))

    def part(self, household: str) -> FuelPart:
        used, settled = self.parts[household], self.settled[household]
        return FuelPart(
            self.use.name,
            self.use.unit,
            used,
            self.brought[household],
            settled.back,
            settled.owed,
            used * self.price,
        )


def portions_of(item: Item, scenario: Scenario) -> dict[str, float]:
    """Return the portions in adult size that each household eats of a dish.

    Parameters
    ----------
    item
        The dish.
    scenario
        Its household; those in groups of no household are left out.
    """
    eaten = dict.fromkeys((house.name for house in scenario.houses), 0.0)
    for each in item.helpings:
        house = scenario.groups[each.group].house
        if house is not None:
            eaten[house] += each.adults + each.children * item.dish.child_share
    told = sum(eaten.values())
    scale = item.adult_portions / told if told else 0.0  # others may be there than in the file
    return {name: portions * scale for name, portions in eaten.items()}


def apportioned(amounts: Sequence[float], total: int) -> list[int]:
    """Share whole units out in proportion, by the largest remainder: they come to the total.

    Parameters
    ----------
    amounts
        What they are shared out by, none below 0; equally where all are 0.
    total
        Whole units, such as grams or cents.
    """
    weights = list(amounts) if sum(amounts) > 0 else [1.0] * len(amounts)
    exact = [total * weight / sum(weights) for weight in weights]
    whole = [int(each) for each in exact]
    order = sorted(range(len(exact)), key=lambda place: (whole[place] - exact[place], place))
    for place in order[: total - sum(whole)]:
        whole[place] += 1
    return whole


@dataclass(frozen=True, slots=True)
class _Settled:
    back: float
    owed: float


def _price(use: FuelUse, scenario: Scenario) -> float:
    """Return money for one kg, or one MJ where there is no mass."""
    store = next(each for each in scenario.stores if each.fuel.name == use.name)
    if use.used_kg is None:
        return MJ * (store.price_j or 0.0)
    return store.price_kg or 0.0


def _parts(
    use: FuelUse, plan: Plan, scenario: Scenario, eaten: Mapping[int, Mapping[str, float]]
) -> dict[str, float]:
    """Share one fuel out: dishes by portions, fires by the dishes that were on them."""
    mj = dict.fromkeys((house.name for house in scenario.houses), 0.0)
    stoves = {own.stove.name for own in scenario.stoves if own.stove.fuel == use.name}
    for step in (each for each in plan.steps if each.fuel == use.name):
        _add(mj, step.fuel_mj, eaten[step.number])
    for fire in (each for each in plan.fires if each.stove in stoves):
        on_it = [step for step in plan.steps if _burns_in(step, fire)]
        by: dict[str, float] = dict.fromkeys(mj, 0.0)
        for step in on_it:
            _add(by, step.fuel_mj, eaten[step.number])
        _add(mj, fire.start_mj + fire.idle_mj, by if sum(by.values()) else mj)
    total, used = sum(mj.values()), use.used
    heads = {house.name: house.adults + house.children for house in scenario.houses}
    by = mj if total else heads
    return {name: used * each / sum(by.values()) for name, each in by.items()}


def _add(to: dict[str, float], amount: float, by: Mapping[str, float]) -> None:
    """Add an amount in proportion; nothing where there is no proportion."""
    whole = sum(by.values())
    for name, part in by.items() if whole else ():
        to[name] += amount * part / whole


def _burns_in(step: Step, fire: Fire) -> bool:
    if step.stove != fire.stove:
        return False
    times = [step.on, *(again.on for again in step.reboil)]
    return any(fire.start <= on < fire.end for on in times)


def _brought(use: FuelUse, houses: Iterable[House]) -> dict[str, float]:
    """Return what each household put into the store of one fuel.

    Where less is left than they brought, since some was burned before the plan begins, it is what
    is left of it, in the same proportion.
    """
    found: dict[str, float] = defaultdict(float)
    for house in houses:
        found[house.name] += 0.0
        for each in house.brings:
            if each.fuel == use.name:
                found[house.name] += (each.j or 0.0) / MJ if each.kg is None else each.kg
    stock = use.stock
    there = sum(found.values())
    left = min(1.0, stock / there) if there and stock is not None else 1.0
    return {name: each * left for name, each in found.items()}


def _settled(
    use: FuelUse, parts: Mapping[str, float], brought: Mapping[str, float]
) -> dict[str, _Settled]:
    """Return what goes back to whom, and who burned of whose."""
    used, all_brought = use.used, sum(brought.values())
    stock = use.stock
    common = max(0.0, stock - all_brought) if stock is not None else used
    of_theirs = min(max(0.0, used - common), all_brought)
    share = of_theirs / used if used else 0.0
    balance = {name: brought[name] - parts[name] * share for name in parts}
    more = sum(max(0.0, each) for each in balance.values())
    left = (all_brought - of_theirs) / more if more else 0.0
    return {
        name: _Settled(max(0.0, each) * left, each - max(0.0, each) * left)
        for name, each in balance.items()
    }
