"""How many days what is left lasts: counted by the study of endurance, or at the plan's pace."""

from optimizer.model.household import Scenario
from optimizer.report.cases import whole_days
from optimizer.report.names import Names
from optimizer.report.record import lasts
from optimizer.studies.endurance.days import Lasting
from optimizer.trials.remains import Pace

PACE = "There was no time to count the days anew: this is the pace of the plan"


def days_left_told(lasting: Lasting | None, paces: tuple[Pace, ...], scenario: Scenario) -> str:
    """Say how many days what is left lasts, and which of the two ways it was reckoned.

    Parameters
    ----------
    lasting
        The count; None where it was not had in the time.
    paces
        How long each fuel lasts at the pace of the plan.
    scenario
        The household.
    """
    if lasting is None:
        names = Names(scenario)
        each = (f"{names.fuel(pace.fuel)} {lasts(pace)}" for pace in paces)
        return f"{PACE}: {', '.join(each)}."
    if not lasting.days:
        return "Counted anew: what is left, its reserve kept, does not last one whole day."
    counted = "Counted anew, every day scheduled and checked, the reserve kept"
    if lasting.beyond:
        return f"{counted}: what is left lasts {whole_days(lasting.days)} of this menu and more."
    sure = "" if lasting.proven else f"; more than {whole_days(lasting.most)} cannot be had"
    return f"{counted}: what is left lasts {whole_days(lasting.days)} of this menu{sure}."
