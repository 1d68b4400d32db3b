"""Rules of the kitchen that bar a way; every limit comes from the table of rules.

They say when a way is refused. None of them says that food is safe.
"""

from math import inf

import numpy as np

from optimizer.physics.ranges import NOT_NEGATIVE, SHARE, TEMPERATURE_C, Range, Values

ALTITUDE_M = Range(-500.0, 5500.0)


def bean_boil_min(
    *,
    phaseolus: bool,
    pressure: bool,
    boiling_c: float,
    limit_c: float,
    boil_min: float,
    pressure_min: float,
) -> float:
    """Minutes of full boil that beans need before any insulated finish.

    Parameters
    ----------
    phaseolus : bool
        A bean with the lectin of Phaseolus is in the dish. [-]
    pressure : bool
        It is cooked in a pressure pot. [-]
    boiling_c : float
        Where water boils in an open pot there. [degC]
    limit_c : float
        Below this an open boil does not count. [degC]
    boil_min : float
        Minutes of open boil asked for. [min]
    pressure_min : float
        Minutes at full pressure asked for. [min]

    Returns
    -------
    float
        0 without such beans; infinite where no boil counts, so the way is refused. [min]

    Raises
    ------
    PhysicsError
        Minutes are negative, or a temperature lies outside -60 to 300.

    References
    ----------
    .. [1] FDA_BAD_BUG_BOOK, p 1, phytohaemagglutinin: soak 5 h, boil 30 min in fresh water.
    """
    NOT_NEGATIVE.check(boil_min=boil_min, pressure_min=pressure_min)
    TEMPERATURE_C.check(boiling_c=boiling_c, limit_c=limit_c)
    if not phaseolus:
        return 0.0
    if pressure:
        return pressure_min
    return boil_min if boiling_c >= limit_c else inf


def water_boil_min(*, altitude_m: float, low_min: float, high_min: float, high_m: float) -> float:
    """Minutes of rolling boil for water that is to be drunk.

    Parameters
    ----------
    altitude_m : float
        Height above the sea, -500 to 5500. [m]
    low_min : float
        Minutes below the height of the rule. [min]
    high_min : float
        Minutes from there on. [min]
    high_m : float
        Height of the rule. [m]

    Returns
    -------
    float
        Minutes to boil. [min]

    Raises
    ------
    PhysicsError
        The altitude lies outside its range, or minutes or the limit are negative.

    References
    ----------
    .. [1] DORRIS_2025, table 1, Emerg. Infect. Dis. 31(8), boil times of the authorities.
    """
    ALTITUDE_M.check(altitude_m=altitude_m)
    NOT_NEGATIVE.check(low_min=low_min, high_min=high_min, high_m=high_m)
    return high_min if altitude_m >= high_m else low_min


def greatest_fill(
    *,
    pressure: bool,
    swelling: bool,
    ordinary: float,
    pressure_most: float,
    pressure_swelling: float,
) -> float:
    """Greatest share of a pot that the cooked food may fill.

    Parameters
    ----------
    pressure : bool
        It is a pressure pot. [-]
    swelling : bool
        Beans, grains or soups, which swell or froth. [-]
    ordinary : float
        Share for an ordinary pot, 0 to 1. [-]
    pressure_most : float
        Share for a pressure pot, 0 to 1. [-]
    pressure_swelling : float
        Share for a pressure pot of swelling food, 0 to 1. [-]

    Returns
    -------
    float
        Cooked volume over pot volume, at most. [-]

    Raises
    ------
    PhysicsError
        A share lies outside 0 to 1.

    References
    ----------
    .. [1] PRESSURE_FILL, p pressure pot: 2/3, and 1/2 for beans and grains.
    """
    shares = {"pressure_most": pressure_most, "pressure_swelling": pressure_swelling}
    SHARE.check(ordinary=ordinary, **shares)
    if not pressure:
        return ordinary
    return pressure_swelling if swelling else pressure_most


def too_slow(*, rise_s: Values, most_min: Values) -> np.bool_ | np.ndarray:
    """Whether food is too long on its way through the temperatures where germs thrive.

    Parameters
    ----------
    rise_s : float or array
        Time from the lower to the upper limit, at least 0; infinite if never. [s]
    most_min : float or array
        Minutes allowed, at least 0. [min]

    Returns
    -------
    bool or array of bool
        True where the way is to be refused. [-]

    Raises
    ------
    PhysicsError
        A time is negative.

    References
    ----------
    .. [1] FSIS_DANGER_ZONE, p danger zone, 2 h between 40 and 140 degF.
    """
    NOT_NEGATIVE.check(rise_s=rise_s, most_min=most_min)
    return np.greater(rise_s, np.multiply(60.0, most_min))
