"""How warm dishes keep in their cookers, set out as a table."""

from collections.abc import Iterable, Iterator

from optimizer.model.household import DAY_MIN, Scenario
from optimizer.model.plan import Plan
from optimizer.report.measures import Measures, served_at
from optimizer.report.names import Names
from optimizer.scenario.clock import clock
from optimizer.studies.warmth import Warmth, warmth

Row = dict[str, str]


def boxed(plan: Plan, scenario: Scenario) -> tuple[Warmth, ...]:
    """Return how warm every dish of a plan keeps that is in a cooker.

    Parameters
    ----------
    plan
        The plan.
    scenario
        Its household.
    """
    found = [warmth(scenario, s, n) for n, s in enumerate(plan.steps) if s.cooker is not None]
    return tuple(found)


def on_day(warm: Iterable[Warmth], day: int) -> tuple[Warmth, ...]:
    """Keep the dishes that are in a cooker on one day.

    Parameters
    ----------
    warm
        Dishes.
    day
        The day.
    """
    begin, end = (day - 1) * DAY_MIN, day * DAY_MIN
    return tuple(w for w in warm if w.readings[0].minute < end and w.serve > begin)


def warm_rows(
    warm: Iterable[Warmth], plan: Plan, scenario: Scenario, system: Measures
) -> list[Row]:
    """Say how warm each dish is when it is served.

    Parameters
    ----------
    warm
        Dishes of the plan.
    plan
        The plan.
    scenario
        Its household.
    system
        The measures.
    """
    return list(_rows(warm, plan, scenario, system))


def _rows(
    warm: Iterable[Warmth], plan: Plan, scenario: Scenario, system: Measures
) -> Iterator[Row]:
    names = Names(scenario)
    for each in warm:
        step = plan.steps[each.step]
        yield {
            "dish": names.dish(step, plan.steps),
            "cooker": names.cooker(step.cooker or ""),
            "from": clock(step.off if step.move is None else step.move),
            "served": clock(each.serve),
            "at the table": served_at(
                system, step.serve_rule, each.serve_c, each.serve_c_low, scenario.rules.hot_c
            ),
            "wanted": least_words(each, system),
        }


def least_words(warm: Warmth, system: Measures) -> str:
    """Say how warm a dish has to be at the table.

    Parameters
    ----------
    warm
        A dish.
    system
        The measures.
    """
    return "any" if warm.need_c is None else f"{system.temperature(warm.need_c)} or more"
