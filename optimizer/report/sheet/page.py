"""The whole sheet: a first page, the copy for the fridge, a page a day."""

from itertools import groupby

from optimizer.model.household import DAY_MIN, Scenario
from optimizer.model.plan import Plan
from optimizer.report.balance import fuel_row, gap_lines, saving_lines
from optimizer.report.doings import Doing
from optimizer.report.measures import Measures, Units, in_measures, measures
from optimizer.report.names import Names
from optimizer.report.paper.press import printed
from optimizer.report.sheet.day import Day, day_page
from optimizer.report.sheet.fridge import fridge_days
from optimizer.report.sheet.teller import SheetTeller
from optimizer.report.text import heading
from optimizer.report.timetable import told

FEW_DISHES = 16  # the copy for the fridge of no more is printed large


def sheet_html(plan: Plan, scenario: Scenario, units: Units = "metric") -> str:
    """Write a plan as a page that prints a sheet a day.

    Parameters
    ----------
    plan
        A plan with steps.
    scenario
        The household it was made for.
    units
        ``metric`` or ``us``.

    Returns
    -------
    str
        HTML that needs nothing beside it; every word of the household is escaped.
    """
    system = measures(units)
    doings = told(plan, SheetTeller(plan, scenario, system))
    return printed(
        "sheet.html",
        title=scenario.title,
        about=" ".join(heading(scenario, system)[1:]),
        lead=" ".join([*saving_lines(plan, scenario.currency, system), *gap_lines(plan, scenario)]),
        fuels=_fuels(plan, scenario, system),
        cautions=_cautions(plan, system),
        degree=system.temperature(0.0).split()[-1],
        children=scenario.children > 0,
        days=_days(doings, plan, scenario, system),
        **_fridge(doings, plan, scenario, system),
    )


def fridge_html(plan: Plan, scenario: Scenario, units: Units = "metric") -> str:
    """Write the copy for the fridge alone.

    Parameters
    ----------
    plan
        A plan with steps.
    scenario
        The household it was made for.
    units
        ``metric`` or ``us``.

    Returns
    -------
    str
        HTML that needs nothing beside it, one page for a week.
    """
    system = measures(units)
    doings = told(plan, SheetTeller(plan, scenario, system))
    words = _fridge(doings, plan, scenario, system)
    return printed("fridge.html", title=scenario.title, **words)


def _fridge(
    doings: list[Doing], plan: Plan, scenario: Scenario, system: Measures
) -> dict[str, object]:
    """Give what stands on the copy for the fridge."""
    return {
        "fridge": fridge_days(doings, scenario),
        "large_fridge": len(plan.steps) <= FEW_DISHES,
        "hot": system.temperature(scenario.rules.hot_c),
    }


def _fuels(plan: Plan, scenario: Scenario, system: Measures) -> list[tuple[str, str, str, str]]:
    """Set out what is used of each fuel and what is left."""
    names = Names(scenario)
    return [fuel_row(use, names, system) for use in plan.fuels]


def _cautions(plan: Plan, system: Measures) -> list[tuple[str, str]]:
    """Give every caution and the dishes it is about."""
    return [(in_measures(c.text, system), ", ".join(c.items)) for c in plan.cautions]


def _days(doings: list[Doing], plan: Plan, scenario: Scenario, system: Measures) -> list[Day]:
    """Make a page of every day on which anything is done."""
    by_day = groupby(doings, key=lambda doing: doing.clock // DAY_MIN + 1)
    return [day_page(day, list(todo), plan, scenario, system) for day, todo in by_day]
