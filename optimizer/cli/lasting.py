"""``fuelthrift days``: how long the store lasts, and what ends first."""

from typing import TYPE_CHECKING, Annotated

import typer

from optimizer.cli.options import (
    Choices,
    Confidence,
    File,
    Gap,
    Goals,
    Json,
    TimeLimit,
    UnitsOption,
    goals_given,
    option_problem,
    read_scenario,
)
from optimizer.cli.outlet import Exit, Outlet, failures_told
from optimizer.errors import InputError, LimitError

if TYPE_CHECKING:
    from optimizer.model.household import Scenario
    from optimizer.report.measures import Units
    from optimizer.studies.endurance.study import Endurance

MOST_DAYS = 365
OnlyDays = Annotated[
    bool,
    typer.Option("--only-days", help="Leave out what changes the days; that takes longest."),
]
UpTo = Annotated[int, typer.Option("--up-to", metavar="DAYS", help="Look at so many days at most.")]


def days(
    file: File = None,
    up_to: UpTo = 60,
    only_days: OnlyDays = False,
    json: Json = None,
    units: UnitsOption = "metric",
    goal: Goals = None,
    confidence: Confidence = None,
    gap: Gap = 0.01,
    time_limit: TimeLimit = 60.0,
) -> None:
    """Say how many days the store lasts on this menu, what ends first, and what changes it."""
    choices = Choices(goals_given(goal), confidence, gap, time_limit)
    outlet = Outlet(json, file)
    with failures_told(outlet):
        scenario = read_scenario(outlet, choices)
        if not 1 <= up_to <= MOST_DAYS:
            told = f"{up_to} is not 1 to {MOST_DAYS} days"
            raise InputError([option_problem("--up-to", "bounds", told)])
        teller = _Teller(outlet, units)
        known = look(scenario, choices, teller, most=up_to, only_days=only_days)
        from optimizer.report.endurance import closing_lines
        from optimizer.report.endurance_result import json_text

        teller.grown(known)
        outlet.say("\n".join(closing_lines(known, units)))
        outlet.write(json_text(known))
        if known.stopped:
            raise typer.Exit(Exit.INTERRUPTED)
        if not known.lasting.days:
            raise typer.Exit(Exit.NO_PLAN)


class _Teller:
    """Prints each part of the answer once, as soon as it is known."""

    def __init__(self, outlet: Outlet, units: "Units") -> None:
        self._outlet, self._units = outlet, units
        self._told: set[str] = set()

    def grown(self, known: "Endurance") -> None:
        """Print what is new."""
        from optimizer.report.endurance import endurance_parts

        for name, lines in endurance_parts(known, self._units):
            if name not in self._told:
                self._told.add(name)
                self._outlet.say("\n".join(lines))


def look(
    scenario: "Scenario", choices: Choices, teller: _Teller, *, most: int, only_days: bool
) -> "Endurance":
    """Look how long it lasts; the first Ctrl-C ends the search, the second ends everything."""
    from optimizer.report.progress import Progress, interrupts
    from optimizer.studies.endurance.study import endurance

    with Progress() as progress, interrupts(progress):
        try:
            return endurance(
                scenario,
                most=most,
                gap=choices.gap,
                time_limit_s=choices.time_limit_s,
                tell=progress.tell,
                grown=teller.grown,
                changes_too=not only_days,
            )
        except LimitError as error:
            if progress.stop:
                raise KeyboardInterrupt from error
            raise
