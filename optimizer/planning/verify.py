"""The independent checker: a finished plan recomputed from the household's records.

It knows nothing of the planner's ways, columns or ledger and none of the closed forms: clock,
things, stocks and sums exactly, temperatures and doneness by integrating the equations.
"""

from collections.abc import Iterator

from optimizer.errors import CheckError, PhysicsError
from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.planning.checks import away, clock, drawn, fire, places, safety, store, table
from optimizer.planning.checks.cases import cases_of
from optimizer.planning.checks.dish import Case
from optimizer.planning.checks.rest import Telling

OF_CASE = (
    clock.label_faults,
    clock.order_faults,
    clock.wait_faults,
    clock.hours_faults,
    safety.pot_faults,
    safety.soak_faults,
    safety.spoil_faults,
    safety.pressure_faults,
    safety.flame_faults,
    away.carry_faults,
    away.diet_faults,
)
OF_TELLING = (
    safety.boil_faults,
    safety.slow_faults,
    safety.water_faults,
    store.fuel_faults,
    table.heat_faults,
    table.between_faults,
    table.done_faults,
    table.hold_faults,
    drawn.draw_faults,
)


def verify(plan: Plan, scenario: Scenario) -> None:
    """Check a plan against the household it is for.

    Parameters
    ----------
    plan : Plan
        A finished plan. One of status "infeasible" must be empty.
    scenario : Scenario
        The household.

    Raises
    ------
    CheckError
        Naming everything that is wrong, a line each.
    """
    wrong: list[str] = []
    try:
        wrong.extend(_faults(plan, scenario))
    except PhysicsError as error:  # beyond what a formula holds for: the rest is not known
        wrong.append(str(error))
    if wrong:
        raise CheckError("\n".join(wrong))


def _faults(plan: Plan, scenario: Scenario) -> Iterator[str]:
    if plan.status == "infeasible":
        if plan.steps or plan.fires:
            yield "there is no plan, and yet it has steps or fires"
        return
    yield from clock.menu_faults(plan, scenario)
    cases, unknown = cases_of(plan, scenario)
    yield from unknown
    for case in cases:
        yield from _case_faults(case)
    yield from places.crowding_faults(cases, scenario)
    yield from fire.fire_faults(plan, cases)
    yield from fire.minutes_faults(plan, cases)
    yield from store.store_faults(plan, scenario)
    yield from store.goal_faults(plan)


def _case_faults(case: Case) -> Iterator[str]:
    telling = Telling(case)
    try:
        for of_case in OF_CASE:
            yield from of_case(case)
        for of_telling in OF_TELLING:
            yield from of_telling(telling)
    except PhysicsError as error:
        yield f"{case.name}: {error}"
