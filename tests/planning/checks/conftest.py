"""One step of an invented kitchen beside its things: tea on a gas burner for breakfast."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from optimizer.model.plan import Step
from optimizer.planning.checks.dish import Case

TEA = Step(
    number=0, day=1, meal="breakfast", item="tea", dish="tea", portions=4.0, batch=1,
    serve_rule="hot", stove="gas_burner", fuel="propane", pot="pot_2_5l", pressure=False,
    finish="flame", cooker=None, soak_from=None, light=420, on=420, boil=430, off=440, move=None,
    reboil=(), serve=450, hold_minutes=10, ingredients=(), water_kg=1.0, fuel_kg=0.02,
    fuel_mj=1.0, cost=0.2, done=1.0, serve_c=90.0, serve_c_low=85.0, fill=0.5,
)  # fmt: skip


@pytest.fixture(scope="session", name="case")
def _case(household) -> Callable[..., Case]:
    """Make the case with parts of its step changed, in the household or in another."""
    home = household((("tea", "breakfast", 450),))
    gas = home.stoves[1]
    home = replace(
        home, stoves=(home.stoves[0], replace(gas, stove=replace(gas.stove, start_min=0)))
    )

    def made(scenario=home, **change) -> Case:
        return Case(
            step=replace(TEA, **change),
            item=scenario.items[0],
            own=scenario.stoves[1],
            store=scenario.stores[1],
            own_pot=scenario.pots[0],
            cooker=None,
            scenario=scenario,
            pots=1,
        )

    return made
