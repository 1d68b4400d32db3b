"""A plan as tables for a program; the only place that knows pandas, and only when asked."""

from dataclasses import asdict
from typing import TYPE_CHECKING

from optimizer.model.plan import Fire, FuelUse, Plan, Step

if TYPE_CHECKING:
    from pandas import DataFrame

_NESTED = frozenset({"ingredients", "reboil"})


def steps_table(plan: Plan) -> "DataFrame":
    """Give one row for each step; foods and times of boiling again are left out.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    DataFrame
        Columns named as the fields of ``Step``.
    """
    return _table(plan.steps, Step)


def fuels_table(plan: Plan) -> "DataFrame":
    """Give one row for each fuel.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    DataFrame
        Columns named as the fields of ``FuelUse``.
    """
    return _table(plan.fuels, FuelUse)


def fires_table(plan: Plan) -> "DataFrame":
    """Give one row for each fire.

    Parameters
    ----------
    plan
        The plan.

    Returns
    -------
    DataFrame
        Columns named as the fields of ``Fire``.
    """
    return _table(plan.fires, Fire)


def _table(
    records: tuple[Step, ...] | tuple[FuelUse, ...] | tuple[Fire, ...],
    kind: type[Step] | type[FuelUse] | type[Fire],
) -> "DataFrame":
    """Set records out as rows; an empty plan keeps its columns."""
    from pandas import DataFrame  # 0.8 s that the plan path must not pay

    columns = [name for name in kind.__dataclass_fields__ if name not in _NESTED]
    return DataFrame([asdict(record) for record in records], columns=columns)
