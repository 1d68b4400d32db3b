"""Days by name."""

from datetime import timedelta

from optimizer.model.household import Scenario


def day_name(scenario: Scenario, day: int) -> str:
    """Name a day by its date, or by its number; day 0 is the one before."""
    before = {0: "the day before", -1: "two days before"}.get(day, "")
    if scenario.start is None:
        return before.capitalize() or f"Day {day}"
    date = scenario.start + timedelta(days=day - 1)
    return f"{date:%A} {date.day} {date:%B}" + (f", {before}" if before else "")
