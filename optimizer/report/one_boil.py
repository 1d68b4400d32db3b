"""What one big boil would save, in words: a suggestion with its number."""

from optimizer.model.household import DAY_MIN, Item, Scenario
from optimizer.report.dates import day_name
from optimizer.report.layout import wrap
from optimizer.report.measures import Measures
from optimizer.scenario.clock import clock
from optimizer.studies.one_boil import OneBoil, Together

NO_MJ, NO_MONEY = 0.05, 0.005
NONE = (
    "No day of this menu has two uses of hot water that one pot of this kitchen could serve, all "
    "hot enough."
)


def one_boil_told(found: OneBoil | None, scenario: Scenario, system: Measures) -> list[str]:
    """Say what one boil a day for all hot water would save, and how to write it.

    Parameters
    ----------
    found
        Both plans; None where there is nothing to put together.
    scenario
        The household.
    system
        The measures.

    Returns
    -------
    list of str
        Sentences; the last ones, where it saves, are what to write in the file.
    """
    if found is None:
        return [NONE]
    uses = "; ".join(_uses(each, scenario) for each in found.days)
    first = f"Water boiled once a day, in one pot, for {uses}."
    if not found.known:
        return [first, _unknown(found)]
    told = [first, _difference(found, scenario, system)]
    if not found.better:
        return [*told, "Boiled apart is the better way here."]
    written = dict.fromkeys(_written(each) for each in found.days)
    return [*told, "It is only a suggestion. In the menu it would stand as:", *written]


def _uses(each: Together, scenario: Scenario) -> str:
    named = ", ".join(f"{item.dish.label} at {clock(item.serve_min)}" for item in each.items)
    return f"{named} ({day_name(scenario, each.day)})"


def _unknown(found: OneBoil) -> str:
    """Say which of the two has no plan."""
    if found.at_once is None or found.apart is None:
        return "Not both could be planned in the time; --time-limit allows more."
    which = "at once" if not found.at_once.steps else "apart"
    return f"There is no plan in which it is boiled {which}: pots, hours or heat do not do for it."


def _difference(found: OneBoil, scenario: Scenario, system: Measures) -> str:
    parts = [
        _more(found.fuel_mj, NO_MJ, system.energy(abs(found.fuel_mj)), "of fuel"),
        _more(found.cost, NO_MONEY, f"{abs(found.cost):.2f} {scenario.currency}", ""),
        _more(found.fire_minutes, 1, f"{abs(found.fire_minutes):.0f} min", "at the fire"),
    ]
    return f"Against boiling each by itself it takes {', '.join(parts)}."


def _more(saved: float, nothing: float, amount: str, what: str) -> str:
    if abs(saved) < nothing:
        return f"as much {what}".strip() if what else "as much money"
    way = "less" if saved > 0 else "more"
    return f"{amount} {way} {what}".strip()


def _written(each: Together) -> str:
    """Write the suggestion as it would stand in the file."""
    begins = (each.day - 1) * DAY_MIN
    uses = ", ".join(_use(item, begins + each.at) for item in each.items)
    return f"- one_boil: [{uses}]"


def _use(item: Item, meal_min: int) -> str:
    if item.serve_min == meal_min:
        return item.dish.name
    return f'{{dish: {item.dish.name}, at: "{clock(item.serve_min)}"}}'


def one_boil_lines(found: OneBoil | None, scenario: Scenario, system: Measures) -> list[str]:
    """Tell it for a terminal.

    Parameters
    ----------
    found
        Both plans.
    scenario
        The household.
    system
        The measures.
    """
    told = one_boil_told(found, scenario, system)
    return ["", "One big boil", *(line for each in told for line in wrap(each, "  ", "    "))]
