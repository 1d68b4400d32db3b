"""Plan cooking on scarce fuel.

::

    import optimizer
    made = optimizer.plan(optimizer.read("outage.yaml"))

Each name is imported when it is first used, so that ``import optimizer`` costs nothing.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from optimizer.errors import (
        CheckError,
        FuelthriftError,
        InputError,
        LimitError,
        PhysicsError,
        Problem,
        SaveError,
    )
    from optimizer.model.household import Scenario
    from optimizer.model.plan import Plan
    from optimizer.planning.planner import plan
    from optimizer.scenario.reading import read

__all__ = [
    "CheckError",
    "FuelthriftError",
    "InputError",
    "LimitError",
    "PhysicsError",
    "Plan",
    "Problem",
    "SaveError",
    "Scenario",
    "plan",
    "read",
]

_HOMES = {
    "Plan": "optimizer.model.plan",
    "Scenario": "optimizer.model.household",
    "plan": "optimizer.planning.planner",
    "read": "optimizer.scenario.reading",
}

if not TYPE_CHECKING:  # a type checker would take every name for a public one

    def __getattr__(name: str) -> object:
        if name not in __all__:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        found = getattr(import_module(_HOMES.get(name, "optimizer.errors")), name)
        globals()[name] = found
        return found


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
