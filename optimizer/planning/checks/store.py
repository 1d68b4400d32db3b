"""Fuel and money: each step's fuel recomputed, the sums exact, no stock overdrawn."""

from collections import defaultdict
from collections.abc import Iterator

from optimizer.model.household import Scenario, Store
from optimizer.model.plan import FuelUse, Plan
from optimizer.planning.checks.dish import heat_of, price_mj
from optimizer.planning.checks.rest import Telling

NEAR_SHARE = 0.02
EVEN = 1e-6
SLACK_MJ, SLACK_SHARE = 1e-5, 1e-5  # what the solver's rounding may come to


def even(a: float | None, b: float | None) -> bool:
    """Tell whether two sums are the same but for rounding."""
    if a is None or b is None:
        return a is b
    return abs(a - b) <= EVEN * max(1.0, abs(a), abs(b))


def fuel_faults(telling: Telling) -> Iterator[str]:
    """Yield fuel and cost of a step that are not what it takes."""
    case, step = telling.case, telling.case.step
    true_mj = telling.fuel_j / 1e6
    if not abs(step.fuel_mj - true_mj) <= NEAR_SHARE * true_mj + EVEN:
        yield f"{case.name}: fuel is {true_mj:.3f} MJ, not {step.fuel_mj:.3f}"
    heat = heat_of(case.store.fuel)
    mass_kg = None if heat is None else step.fuel_mj * 1e6 / heat
    if not even(step.fuel_kg, mass_kg):
        yield f"{case.name}: fuel_kg is {mass_kg}, not {step.fuel_kg}"
    cost = step.fuel_mj * price_mj(case.store)
    if not even(step.cost, cost):
        yield f"{case.name}: cost is {cost:.4f}, not {step.cost:.4f}"


def store_faults(plan: Plan, scenario: Scenario) -> Iterator[str]:
    """Yield sums that are wrong, and fuels of which more is used than may be."""
    used_mj: dict[str, float] = defaultdict(float)
    for step in plan.steps:
        used_mj[step.fuel] += step.fuel_mj
    of_stove = {own.stove.name: own.stove.fuel for own in scenario.stoves}
    for fire in plan.fires:
        used_mj[of_stove.get(fire.stove, "?")] += fire.start_mj + fire.idle_mj
    told = {use.name: use for use in plan.fuels}
    for name in sorted({*used_mj, *told} - {store.fuel.name for store in scenario.stores}):
        yield f"fuel {name}: there is none"
    for store in scenario.stores:
        name = store.fuel.name
        if name in told:
            yield from _use_faults(store, told[name], used_mj[name])
        else:
            yield f"fuel {name}: is not told of"
    cost = sum(use.cost for use in plan.fuels)
    if not even(plan.cost, cost):
        yield f"cost of the plan is {cost:.4f}, not {plan.cost:.4f}"


def _use_faults(store: Store, use: FuelUse, used_mj: float) -> Iterator[str]:
    heat = heat_of(store.fuel)
    stock_j = store.stock_j if store.stock_kg is None else store.stock_kg * (heat or 0.0)
    used_kg = None if heat is None else used_mj * 1e6 / heat
    left_kg = None if store.stock_kg is None or used_kg is None else store.stock_kg - used_kg
    true = {
        "used_mj": used_mj,
        "used_kg": used_kg,
        "stock_kg": store.stock_kg,
        "stock_mj": None if stock_j is None else stock_j / 1e6,
        "left_kg": left_kg,
        "cost": used_mj * price_mj(store),
    }
    for what, value in true.items():
        if not even(getattr(use, what), value):
            yield f"fuel {use.name}: {what} is {value}, not {getattr(use, what)}"
    if stock_j is None:
        return
    over_mj = used_mj - stock_j / 1e6 * (1 - store.reserve)
    if over_mj > SLACK_MJ + SLACK_SHARE * stock_j / 1e6:
        yield f"fuel {use.name}: is overdrawn by {over_mj:.4f} MJ, the reserve counted"


def goal_faults(plan: Plan) -> Iterator[str]:
    """Yield a goal whose value is not the plan's, or better than its bound."""
    goal = plan.goal
    used_j = {use.name: use.used_mj * 1e6 for use in plan.fuels}
    known = {"money": plan.cost, "tending": plan.tending_minutes, "energy": sum(used_j.values())}
    true = {**used_j, **known}.get(goal.name)
    if goal.value is None or true is None or not even(goal.value, true):
        yield f"goal {goal.name}: is {true}, not {goal.value}"
    elif goal.bound is not None and goal.bound > goal.value + EVEN * max(1.0, abs(goal.value)):
        yield f"goal {goal.name}: {goal.value} is better than its bound {goal.bound}"
