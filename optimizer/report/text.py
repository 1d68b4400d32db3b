"""A plan as plain text for a cook: at most 80 columns, read by the clock."""

from collections import Counter
from collections.abc import Iterator
from itertools import groupby

from optimizer.model.household import DAY_MIN, Scenario
from optimizer.model.plan import Plan
from optimizer.planning.explain import sentence
from optimizer.report.balance import comparison_lines, fuel_lines, gap_lines, saving_lines
from optimizer.report.chances import chance_lines
from optimizer.report.dates import day_name
from optimizer.report.doings import Doing
from optimizer.report.households import rota_lines
from optimizer.report.layout import GAP, WIDTH, beside, wrap
from optimizer.report.measures import Measures, Units, fuel_in_measures, in_measures, measures
from optimizer.report.timetable import timetable
from optimizer.report.worth import worth_lines
from optimizer.scenario.clock import clock

CLOCK_WIDTH = 5
DISH_WIDTH = 18
PAUSE_MIN = 90  # so long without a doing, an empty line
REASONS = 4  # told of one dish


def plan_text(plan: Plan, scenario: Scenario, units: Units = "metric") -> str:
    """Tell a plan to a cook.

    Parameters
    ----------
    plan
        The plan.
    scenario
        The household it was made for.
    units
        ``metric`` or ``us``.

    Returns
    -------
    str
        Lines of at most 80 columns.
    """
    system = measures(units)
    lines = heading(scenario, system)
    if plan.status == "infeasible":
        lines += ["", *refusal_lines(plan, scenario, system)]
    else:
        lines += [*saving_lines(plan, scenario.currency, system), *gap_lines(plan, scenario)]
        lines += [*day_lines(plan, scenario, system), *rota_lines(plan, scenario)]
        lines += fuel_lines(plan, scenario, system)
        lines += chance_lines(plan, scenario, system)
        lines += comparison_lines(plan, scenario, system)
    lines += [*worth_lines(plan, system), *caution_lines(plan, system)]
    return "\n".join(lines)


def heading(scenario: Scenario, system: Measures) -> list[str]:
    """Say for whom and where."""
    people = f"{scenario.people} {'person' if scenario.people == 1 else 'people'}"
    if scenario.children:
        young = "a child" if scenario.children == 1 else "children"
        people += f" ({scenario.children} of them {young})"
    place = scenario.place
    where = (
        f"{people}, {system.height(place.altitude_m)} above the sea, "
        f"kitchen {system.temperature(place.kitchen_c)}"
    )
    return [*wrap(scenario.title), *wrap(where)]


# the timetable


def day_lines(plan: Plan, scenario: Scenario, system: Measures) -> list[str]:
    """Tell every day, by the clock."""
    doings = timetable(plan, scenario, system)
    longest = max((len(d.dish) for d in doings), default=0)
    width = min(longest, DISH_WIDTH)
    lines: list[str] = []
    for day, todo in groupby(doings, key=lambda d: d.clock // DAY_MIN + 1):
        lines += ["", day_name(scenario, day)]
        before: int | None = None
        for doing in todo:
            if before is not None and doing.clock - before >= PAUSE_MIN:
                lines.append("")
            before = doing.clock
            lines += [GAP + line for line in doing_lines(doing, width)]
    return lines


def doing_lines(doing: Doing, width: int) -> list[str]:
    """Tell one thing to do: clock, dish, words."""
    time = clock(doing.clock)
    left = WIDTH - 2 * len(GAP) - CLOCK_WIDTH
    if not doing.dish:
        return beside((time, doing.text), (CLOCK_WIDTH, left))
    return beside((time, doing.dish, doing.text), (CLOCK_WIDTH, width, left - len(GAP) - width))


# what to mind


def cautions_told(plan: Plan, system: Measures) -> list[str]:
    """Say each caution, and which dishes it is about.

    Parameters
    ----------
    plan
        The plan.
    system
        The measures.
    """
    told = []
    for caution in plan.cautions:
        about = f" ({', '.join(caution.items)})" if caution.items else ""
        told.append(in_measures(f"{caution.text}{about}", system))
    return told


def caution_lines(plan: Plan, system: Measures) -> list[str]:
    """Set out the cautions."""
    lines = ["", "Mind"] if plan.cautions else []
    for told in cautions_told(plan, system):
        lines += wrap(f"- {told}", GAP, 2 * GAP)
    return lines


def changes_told(plan: Plan, system: Measures) -> list[str]:
    """Say each of the least changes that would make a plan.

    Parameters
    ----------
    plan
        An infeasible plan.
    system
        The measures.
    """
    return [fuel_in_measures(in_measures(c, system), system, up=True) for c in plan.changes]


def refusal_lines(plan: Plan, scenario: Scenario, system: Measures) -> list[str]:
    """Say that there is no plan, what would make one, and why ways are refused."""
    lines = wrap("No plan is possible with what there is.")
    if plan.changes:
        lines += ["", "The least changes that would make one"]
        for told in changes_told(plan, system):
            lines += wrap(f"- {told}", GAP, 2 * GAP)
    reasons = list(reason_lines(plan, scenario, system))
    return [*lines, "", "Ways that do not work", *reasons] if reasons else lines


def reasons_told(plan: Plan, scenario: Scenario, system: Measures) -> dict[str, list[str]]:
    """Say by dish the commonest reasons why its ways are refused.

    Parameters
    ----------
    plan
        The plan.
    scenario
        Its household.
    system
        The measures.
    """
    by_dish: dict[str, Counter[str]] = {}
    for refusal in plan.refusals:
        dish = scenario.items[refusal.item].dish.label
        by_dish.setdefault(dish, Counter())[sentence(refusal, scenario)] += 1
    return {
        dish: [in_measures(reason, system) for reason, _ in reasons.most_common(REASONS)]
        for dish, reasons in by_dish.items()
    }


def reason_lines(plan: Plan, scenario: Scenario, system: Measures) -> Iterator[str]:
    """Tell the commonest reasons why the ways of each dish are refused."""
    for dish, reasons in reasons_told(plan, scenario, system).items():
        yield from wrap(dish, GAP)
        for reason in reasons:
            yield from wrap(f"- {reason}", 2 * GAP, 3 * GAP)
