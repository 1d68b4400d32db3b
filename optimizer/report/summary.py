"""What was read from a scenario, in a few lines."""

from collections import Counter

from optimizer.model.household import Scenario
from optimizer.report.layout import wrap
from optimizer.report.names import Names


def summary_text(scenario: Scenario) -> str:
    """Say what a scenario holds.

    Parameters
    ----------
    scenario
        A scenario that was read without problems.

    Returns
    -------
    str
        Lines of at most 80 columns.
    """
    names = Names(scenario)
    meals = len({(item.day, item.meal) for item in scenario.items})
    dishes = Counter(item.dish.label for item in scenario.items)
    lines = [
        *wrap(scenario.title),
        *_line("people", [f"{scenario.adults} adults, {scenario.children} children"]),
        *_line("days", [f"{scenario.days}, {meals} meals, {len(scenario.items)} dishes"]),
        *_line("dishes", [f"{label} ({n} x)" for label, n in dishes.items()]),
        *_line("fuels", [names.fuel(store.fuel.name) for store in scenario.stores]),
        *_line("stoves", [_counted(own.count, own.stove.label) for own in scenario.stoves]),
        *_line("pots", [_counted(own.count, own.pot.label) for own in scenario.pots]),
        *_line("cookers", [_counted(own.count, own.cooker.label) for own in scenario.cookers]),
        "no problems found",
    ]
    return "\n".join(lines)


def _counted(count: int, label: str) -> str:
    """Say how many there are."""
    return f"{count} x {label}"


def _line(name: str, parts: list[str]) -> list[str]:
    """Set parts beside their name."""
    return wrap(f"{name:<9}{'; '.join(parts) or 'none'}", "  ", " " * 11)
