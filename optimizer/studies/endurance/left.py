"""How long what is left lasts, counted within a second or two, or not at all."""

from optimizer.errors import LimitError
from optimizer.model.household import Scenario
from optimizer.studies.endurance.days import Lasting, how_long
from optimizer.studies.endurance.watch import Watch

QUICK_S = 2.0
MOST_DAYS = 30


def days_left(household: Scenario, *, quick_s: float = QUICK_S) -> Lasting | None:
    """Count the days that a household lasts with what is left, if that can be had quickly.

    Parameters
    ----------
    household : Scenario
        With what is left in its stores; its menu goes round from its first day.
    quick_s : float
        As long as it may take, but for the step it is at by then [s]

    Returns
    -------
    Lasting or None
        None where it was not found in the time.

    Raises
    ------
    CheckError
        If a plan fails the independent checker: a defect of this program.
    """
    try:
        return how_long(household, most=MOST_DAYS, watch=Watch(quick_s, most_s=quick_s, brief=True))
    except LimitError:
        return None
