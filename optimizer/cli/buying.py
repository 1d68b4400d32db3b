"""``fuelthrift buy``: what to buy so that the household is carried so many days."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

import typer

from optimizer.cli.lasting import MOST_DAYS
from optimizer.cli.options import (
    Choices,
    Confidence,
    File,
    Gap,
    Json,
    TimeLimit,
    UnitsOption,
    option_problem,
    read_scenario,
)
from optimizer.cli.outlet import Exit, Outlet, failures_told
from optimizer.errors import InputError, LimitError, Problem

if TYPE_CHECKING:
    from optimizer.model.household import Scenario
    from optimizer.studies.buying.purchase import Purchase

Days = Annotated[int, typer.Option("--days", metavar="DAYS", help="How many days it is to last.")]
Budget = Annotated[
    str | None,
    typer.Option("--budget", metavar="MONEY", help="Money that may be spent: 60, or '60 EUR'."),
]
NoSavings = Annotated[
    bool,
    typer.Option("--only-list", help="Leave out what each thing saves; that takes longest."),
]


def buy(
    days: Days,
    file: File = None,
    budget: Budget = None,
    only_list: NoSavings = False,
    json: Json = None,
    units: UnitsOption = "metric",
    confidence: Confidence = None,
    gap: Gap = 0.01,
    time_limit: TimeLimit = 30.0,
) -> None:
    """Say what is cheapest to buy so that the store lasts so many days."""
    choices, outlet = Choices((), confidence, gap, time_limit), Outlet(json, file)
    with failures_told(outlet):
        scenario = read_scenario(outlet, choices)
        problems = list(_problems(days, budget, scenario))
        if problems:
            raise InputError(problems)
        most = _most(budget, scenario)
        found = _look(scenario, days, most, choices, savings=not only_list)
        from optimizer.report.buying import buying_text
        from optimizer.report.buying_result import json_text

        outlet.say(buying_text(found, units))
        outlet.write(json_text(found))
        if found.plan is None:
            raise typer.Exit(Exit.NO_PLAN)


def _problems(days: int, budget: str | None, scenario: "Scenario") -> Iterator[Problem]:
    if not 1 <= days <= MOST_DAYS:
        yield option_problem("--days", "bounds", f"{days} is not 1 to {MOST_DAYS} days")
    if budget is not None and _most(budget, scenario) is None:
        told = f"'{budget}' is no sum of money; write '60' or '60 {scenario.currency}'"
        yield option_problem("--budget", "price", told)


def _most(budget: str | None, scenario: "Scenario") -> float | None:
    """Return what may be spent: as the option says, else as the file does."""
    from optimizer.scenario.shop import sum_of_money

    if budget is not None:
        return sum_of_money(budget, scenario.currency)
    return scenario.shop.budget if scenario.shop else None


def _look(
    scenario: "Scenario", days: int, budget: float | None, choices: Choices, *, savings: bool
) -> "Purchase":
    """Look what to buy; the first Ctrl-C ends the search, the second ends everything."""
    from optimizer.report.progress import Progress, interrupts
    from optimizer.studies.buying.study import what_to_buy

    with Progress() as progress, interrupts(progress):
        try:
            return what_to_buy(
                scenario,
                days,
                budget=budget,
                gap=choices.gap,
                time_limit_s=choices.time_limit_s,
                tell=progress.tell,
                savings=savings,
            )
        except LimitError as error:
            if progress.stop:
                raise KeyboardInterrupt from error
            raise
