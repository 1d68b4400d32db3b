"""What a search for a schedule found, and how good it is proven to be."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from optimizer.errors import CheckError
from optimizer.planning.board import scale
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.ledger import audit, fires_of, price_of
from optimizer.planning.solver import Outcome

Status = Literal["optimal", "within_gap", "stopped", "time_limit", "infeasible", "no_plan"]
PROVEN = 1e-6


@dataclass(frozen=True, slots=True)
class Result:
    """A schedule and how good it is proven to be; value and bound are of the first goal."""

    status: Status
    chosen: tuple[Column, ...]
    value: float | None  # money, J or minutes
    bound: float | None
    gap: float | None
    seconds: float
    lit: tuple[tuple[str, int], ...]  # stove and window


def result(
    chosen: tuple[Column, ...],
    kitchen: Kitchen,
    goal: str,
    outcomes: Sequence[Outcome],
    seconds: float,
    *,
    stopped: bool,
) -> Result:
    """Check what is chosen and set it beside what is proven.

    Parameters
    ----------
    chosen : tuple of Column
        The schedule; none: there is no plan, or none was found.
    kitchen : Kitchen
        What they share.
    goal : str
        The first goal.
    outcomes : sequence of Outcome
        What the solver said of each goal, the first first.
    seconds : float
        What the search took [s]
    stopped : bool
        It was asked to end.

    Raises
    ------
    CheckError
        If the solver failed, or what is chosen breaks a limit of the kitchen.
    """
    if not chosen and kitchen.items:
        _expect(outcomes[0], "infeasible", "no_solution")
        none: Status = "infeasible" if outcomes[0].status == "infeasible" else "no_plan"
        return Result(none, (), None, None, None, seconds, ())
    audit(chosen, kitchen)
    value, bound = price_of(chosen, kitchen, goal), outcomes[0].bound
    if bound is not None:
        bound = min(value, bound * scale(goal))
    gap = None if bound is None else (value - bound) / abs(value) if value else 0.0
    lit = tuple((fire.stove, fire.window) for fire in fires_of(chosen, kitchen))
    status = _status(outcomes[-1], gap, stopped=stopped)
    return Result(status, chosen, value, bound, gap, seconds, lit)


def _status(last: Outcome, gap: float | None, *, stopped: bool) -> Status:
    if last.status != "optimal":
        _expect(last, "feasible", "no_solution")
        return "stopped" if stopped else "time_limit"
    return "optimal" if gap is not None and gap <= PROVEN else "within_gap"


def _expect(outcome: Outcome, *statuses: str) -> None:
    if outcome.status not in statuses:
        raise CheckError(f"the solver fails: {outcome.status}, {outcome.reason}")
