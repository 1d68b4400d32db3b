"""What spoils without cold: by when raw meat, fish and eggs have to be on the fire.

Fresh food is cold when it comes into the house, stays so for as long as one cold place follows
another, and may then be out of the cold for the hours of the rules. A gap ends the cold for good.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from optimizer.model.household import DAY_MIN, Item, Scenario
from optimizer.model.things import Dish, Food, Keeping
from optimizer.planning.columns import Column
from optimizer.planning.conditions import Refused


@dataclass(frozen=True, slots=True)
class Spell:
    """Fresh food that came into the house at one moment."""

    got: int
    cold_until: int  # the end of the cold it lies in
    good_until: int  # last minute at which it may go on the fire


def keeping_of(food: Food) -> Keeping:
    """Return how a food keeps without cold; what has an endpoint spoils unless it says not."""
    return food.keeping or ("perishable" if food.endpoint_c is not None else "keeps")


def foods_that(dish: Dish, keeping: Keeping) -> tuple[Food, ...]:
    """Return the foods of a dish that keep in one way."""
    return tuple(i.food for i in dish.ingredients if keeping_of(i.food) == keeping)


def spells(scenario: Scenario, keeping: Keeping = "perishable") -> tuple[Spell, ...]:
    """Return for each time fresh food comes into the house how long it is good.

    Parameters
    ----------
    scenario : Scenario
        The household.
    keeping : {"perishable", "leaves"}
        Whether what spoils is asked for, or what only wilts.

    Returns
    -------
    tuple of Spell
        In order of time; minutes since 00:00 of day 1.
    """
    found = []
    for got in sorted(scenario.fresh):
        end = got
        for cold in sorted(scenario.cold, key=lambda c: c.start_min):
            if cold.start_min <= end < cold.end_min:
                end = cold.end_min
        found.append(Spell(got, end, end + round(_without_cold_min(scenario, end, keeping))))
    return tuple(found)


def _without_cold_min(scenario: Scenario, minute: int, keeping: Keeping) -> float:
    """Return minutes out of the cold from a minute on."""
    rules, weather = scenario.rules, scenario.weather
    if keeping == "leaves":
        return rules.leaves_min
    until = minute + round(rules.fresh_min)
    days = {min(at // DAY_MIN, len(weather) - 1) for at in (minute, until)}
    air_c = max(scenario.place.kitchen_c, *(weather[day].outdoors_c for day in days))
    return rules.fresh_hot_min if air_c >= rules.hot_air_c else rules.fresh_min


def is_good(scenario: Scenario, minute: int, keeping: Keeping = "perishable") -> bool:
    """Tell whether fresh food may go on the fire at a minute."""
    return any(s.got <= minute <= s.good_until for s in spells(scenario, keeping))


def in_time(scenario: Scenario, item: Item, columns: Sequence[Column]) -> list[Column]:
    """Return the columns of an item that put it on the fire before anything in it spoils."""
    if not foods_that(item.dish, "perishable"):
        return list(columns)
    good = spells(scenario)
    return [c for c in columns if any(s.got <= c.burns[0].start <= s.good_until for s in good)]


def spoiled(scenario: Scenario, item: Item) -> Refused:
    """Return why a dish with something that spoils is refused."""
    raw = " and ".join(f.label.partition(",")[0] for f in foods_that(item.dish, "perishable"))
    before = [s for s in spells(scenario) if s.got <= item.serve_min]
    last = max(before, key=lambda s: s.good_until, default=None)
    if last is None or last.cold_until == last.got == 0:
        return Refused("spoils", f"nothing keeps the {raw} cold; say under 'cold' what does")
    kept = f"is cold until {moment(last.cold_until)}"
    if last.cold_until == last.got:
        kept = f"comes at {moment(last.got)} and nothing keeps it cold"
    return Refused(
        "spoils", f"the {raw} {kept}; it has to be on the fire by {moment(last.good_until)}"
    )


def moment(minute: int) -> str:
    """Return a minute as "10:00 on day 2"."""
    return f"{minute // 60 % 24:02d}:{minute % 60:02d} on day {minute // DAY_MIN + 1}"
