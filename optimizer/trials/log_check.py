"""Entries of a log held against the scenario they are about: everything wrong is told at once."""

from collections.abc import Iterable

from optimizer.errors import InputError
from optimizer.model.household import DAY_MIN, Scenario
from optimizer.scenario.eater_parts import MOST_PEOPLE
from optimizer.scenario.faults import near
from optimizer.scenario.log_entries import Amount, Came, Eaten, Entry, Read, Sticks, Weighed
from optimizer.scenario.logbook import Line, Log

DAYS_AFTER = 1  # something may be written down a day after the last


def check(log: Log, scenario: Scenario) -> None:
    """Check the entries of a log that count.

    Parameters
    ----------
    log
        The log.
    scenario
        The household.

    Raises
    ------
    InputError
        If an entry names what is not there, or says what cannot be; all of it at once.
    """
    problems = []
    for entry, line in log.standing:
        before = len(line.problems)
        check_entry(entry, line, scenario)
        problems += line.problems[before:]
    if problems:
        raise InputError(problems)


def check_entry(entry: Entry, line: Line, scenario: Scenario) -> None:
    """Note in its line what is wrong with one entry.

    Parameters
    ----------
    entry
        The entry.
    line
        Its line.
    scenario
        The household.
    """
    if entry.at >= (scenario.days + DAYS_AFTER) * DAY_MIN:
        line.problem(("at",), "bounds", f"the outage has {scenario.days} days")
    if isinstance(entry, Weighed):
        _check_fuel(entry, line, scenario)
    elif isinstance(entry, Eaten):
        _check_meal(entry, line, scenario)
        _check_things(entry, line, scenario)
    elif isinstance(entry, Read):
        _check_reading(entry, line, scenario)
    elif isinstance(entry, Came) and not 1 <= entry.adults + entry.children <= MOST_PEOPLE:
        line.problem(("adults",), "bounds", f"must come to 1 to {MOST_PEOPLE} people")
    elif isinstance(entry, Sticks) and entry.until is not None and entry.until <= entry.at:
        line.problem(("until",), "bounds", "must be later than the moment they were found so")


def _check_fuel(entry: Weighed, line: Line, scenario: Scenario) -> None:
    stores = {store.fuel.name: store for store in scenario.stores}
    store = stores.get(entry.fuel)
    if store is None:
        _unknown(line, "fuel", entry.fuel, stores)
        return
    if (entry.left is None) == (entry.added is None):
        line.problem(("left",), "missing", "say either what is 'left' or what was 'added'")
    for key, amount in (("left", entry.left), ("added", entry.added)):
        if amount is not None and (wrong := _kind_of(amount, store.fuel)):
            line.problem((key,), "unit_wrong", wrong)
        elif amount is not None and entry.empty and amount.value < entry.empty:
            line.problem(("empty",), "bounds", "the empty packages weigh more than all together")


def _kind_of(amount: Amount, fuel: object) -> str:
    """Say how a fuel is counted where an amount is of another kind."""
    mass = getattr(fuel, "lhv_j_kg", None) is not None
    name = getattr(fuel, "name", "")
    if mass == (amount.unit != "J"):
        volume = amount.unit == "m**3" and getattr(fuel, "density_kg_m3", None) is None
        return f"{name} is weighed here, since its density is not known; write kg" if volume else ""
    if mass:
        return f"{name} is counted by mass or volume, not by energy; write kg or L"
    return f"{name} has no mass; count it by energy, such as kWh"


def _check_meal(entry: Eaten | Read, line: Line, scenario: Scenario) -> None:
    """Note a meal or a dish that is not on the menu of its day."""
    today = [item for item in scenario.items if item.day == entry.day]
    meals = dict.fromkeys(item.meal for item in today)
    if not today:
        line.problem(("day",), "unknown_day", f"nothing is on the menu of day {entry.day}")
    elif entry.meal not in meals:
        _unknown(line, "meal", entry.meal or "", meals)
    elif entry.dish is not None:
        dishes = [item.dish for item in today if item.meal == entry.meal]
        if entry.dish not in {word for dish in dishes for word in (dish.name, dish.label)}:
            _unknown(line, "dish", entry.dish, [dish.name for dish in dishes])


def _check_things(entry: Eaten, line: Line, scenario: Scenario) -> None:
    """Note a stove, pot or cooker that the household does not have."""
    there = {
        "stove": [own.stove.name for own in scenario.stoves],
        "pot": [own.pot.name for own in scenario.pots],
        "cooker": [own.cooker.name for own in scenario.cookers],
    }
    for key, names in there.items():
        given = getattr(entry, key)
        if given is not None and given not in names:
            _unknown(line, key, given, names)
    if entry.how == "in the cooker" and not there["cooker"]:
        line.problem(("how",), "contradiction", "there is no insulated cooker in the scenario")
    if entry.cooker is not None and entry.how != "in the cooker":
        line.problem(("cooker",), "contradiction", "goes with how: 'in the cooker' only")


def _check_reading(entry: Read, line: Line, scenario: Scenario) -> None:
    about = [key for key in ("day", "meal") if getattr(entry, key) is None]
    if entry.when == "room":
        if len(about) <= 1 or entry.dish is not None:
            line.problem(("when",), "contradiction", "the room's temperature is of no dish")
    elif about:
        line.problem((about[0],), "missing", f"'{about[0]}' is missing: of which meal is it?")
    else:
        _check_meal(entry, line, scenario)


def _unknown(line: Line, key: str, given: str, known: Iterable[str]) -> None:
    line.problem((key,), "unknown_name", f"unknown {key} '{given}'{near(given, known)}")
