"""A pot as one body with one heat capacity: heating up over a fire, cooling bare.

What it loses to the air is ``loss_w_k`` times its excess over the air. ``net_power_w`` is what
the stove puts into the pot: efficiency times firepower.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from optimizer.physics.ranges import NOT_NEGATIVE, POSITIVE, TEMPERATURE_C, Values, plain

SERIES = 1e-3  # below this the series replaces a difference of nearly equal numbers


class HeatSplit(NamedTuple):
    """Where the heat of a time over the fire went: ``given_j = contents_j + lost_j``."""

    given_j: Values
    contents_j: Values
    lost_j: Values


def heat_up_s(
    *,
    heat_capacity_j_k: Values,
    net_power_w: Values,
    loss_w_k: Values,
    start_c: Values,
    end_c: Values,
    air_c: Values,
) -> Values:
    """Time over the fire from one temperature to another.

    Parameters
    ----------
    heat_capacity_j_k : float or array
        Contents and pot, above 0. [J/K]
    net_power_w : float or array
        Heat the stove puts into the pot, at least 0. [W]
    loss_w_k : float or array
        Loss of the bare pot, at least 0. [W/K]
    start_c : float or array
        Temperature to begin with. [degC]
    end_c : float or array
        Temperature wanted. [degC]
    air_c : float or array
        Temperature of the air. [degC]

    Returns
    -------
    float or array
        0 where it is already that hot, infinite where the steady temperature is not above
        ``end_c``. [s]

    Raises
    ------
    PhysicsError
        A quantity lies outside the range named above, or a temperature outside -60 to 300.

    Notes
    -----
    Closed form of ``C dT/dt = P - UA (T - T_air)``.

    References
    ----------
    .. [1] INCROPERA_DEWITT, eq 5.25, lumped capacitance with a source (from memory).
    """
    _check(heat_capacity_j_k, loss_w_k, start_c=start_c, end_c=end_c, air_c=air_c)
    NOT_NEGATIVE.check(net_power_w=net_power_w)
    rise = np.maximum(np.subtract(end_c, start_c), 0.0)
    first_w = np.subtract(net_power_w, loss_w_k * np.subtract(start_c, air_c))
    spent = np.divide(loss_w_k * rise, first_w, out=np.ones_like(first_w * rise), where=first_w > 0)
    reaches = (spent < 1.0) & (first_w > 0)
    share = np.where(reaches, spent, 0.0)
    pace = np.where(reaches, first_w, 1.0)
    seconds = heat_capacity_j_k * rise / pace * _log_ratio(share)
    return plain(np.where(rise == 0.0, 0.0, np.where(reaches, seconds, np.inf)))


def heated_c(
    *,
    heat_capacity_j_k: Values,
    net_power_w: Values,
    loss_w_k: Values,
    start_c: Values,
    air_c: Values,
    time_s: Values,
) -> Values:
    """Temperature of a pot after a time over a fire that never changes.

    Parameters
    ----------
    heat_capacity_j_k : float or array
        Contents and pot, above 0. [J/K]
    net_power_w : float or array
        Heat the stove puts into the pot, at least 0. [W]
    loss_w_k : float or array
        Loss of the bare pot, at least 0. [W/K]
    start_c : float or array
        Temperature to begin with. [degC]
    air_c : float or array
        Temperature of the air. [degC]
    time_s : float or array
        Time over the fire, at least 0. [s]

    Returns
    -------
    float or array
        Temperature then; the caller stops at the boil, this formula knows of none. [degC]

    Raises
    ------
    PhysicsError
        A quantity lies outside the range named above, or a temperature outside -60 to 300.

    References
    ----------
    .. [1] INCROPERA_DEWITT, eq 5.25, lumped capacitance with a source (from memory).
    """
    _check(heat_capacity_j_k, loss_w_k, start_c=start_c, air_c=air_c)
    NOT_NEGATIVE.check(net_power_w=net_power_w, time_s=time_s)
    first_w = np.subtract(net_power_w, loss_w_k * np.subtract(start_c, air_c))
    times = np.divide(loss_w_k, heat_capacity_j_k) * time_s
    return plain(start_c + first_w / heat_capacity_j_k * time_s * _mean_decay(times))


def heat_split(
    *,
    heat_capacity_j_k: Values,
    net_power_w: Values,
    loss_w_k: Values,
    start_c: Values,
    air_c: Values,
    time_s: Values,
) -> HeatSplit:
    """Where the heat of a time over the fire went: into the contents, or lost to the air.

    Parameters
    ----------
    heat_capacity_j_k : float or array
        Contents and pot, above 0. [J/K]
    net_power_w : float or array
        Heat the stove puts into the pot, at least 0. [W]
    loss_w_k : float or array
        Loss of the bare pot, at least 0. [W/K]
    start_c : float or array
        Temperature to begin with. [degC]
    air_c : float or array
        Temperature of the air. [degC]
    time_s : float or array
        Time over the fire, at least 0. [s]

    Returns
    -------
    HeatSplit
        Three amounts of heat, each by its own formula, so that their sum is a check. [-]

    Raises
    ------
    PhysicsError
        A quantity lies outside the range named above, or a temperature outside -60 to 300.

    References
    ----------
    .. [1] INCROPERA_DEWITT, eq 5.25, lumped capacitance with a source (from memory).
    """
    end_c = heated_c(
        heat_capacity_j_k=heat_capacity_j_k,
        net_power_w=net_power_w,
        loss_w_k=loss_w_k,
        start_c=start_c,
        air_c=air_c,
        time_s=time_s,
    )
    excess_k = np.subtract(start_c, air_c)
    pace_k_s = np.subtract(net_power_w, loss_w_k * excess_k) / heat_capacity_j_k
    times = np.divide(loss_w_k, heat_capacity_j_k) * time_s
    excess_k_s = excess_k * time_s + pace_k_s * np.square(time_s) * _mean_rise(times)
    return HeatSplit(
        given_j=plain(np.multiply(net_power_w, time_s)),
        contents_j=plain(heat_capacity_j_k * np.subtract(end_c, start_c)),
        lost_j=plain(loss_w_k * excess_k_s),
    )


def cooled_c(
    *,
    heat_capacity_j_k: Values,
    loss_w_k: Values,
    start_c: Values,
    air_c: Values,
    time_s: Values,
) -> Values:
    """Temperature of a bare pot a time after it left the fire.

    Parameters
    ----------
    heat_capacity_j_k : float or array
        Contents and pot, above 0. [J/K]
    loss_w_k : float or array
        Loss of the bare pot, at least 0. [W/K]
    start_c : float or array
        Temperature to begin with. [degC]
    air_c : float or array
        Temperature of the air. [degC]
    time_s : float or array
        Time off the fire, at least 0. [s]

    Returns
    -------
    float or array
        Temperature then. [degC]

    Raises
    ------
    PhysicsError
        A quantity lies outside the range named above, or a temperature outside -60 to 300.

    References
    ----------
    .. [1] INCROPERA_DEWITT, eq 5.6, lumped capacitance (from memory).
    """
    _check(heat_capacity_j_k, loss_w_k, start_c=start_c, air_c=air_c)
    NOT_NEGATIVE.check(time_s=time_s)
    fade = np.exp(-np.divide(loss_w_k, heat_capacity_j_k) * time_s)
    return plain(air_c + np.subtract(start_c, air_c) * fade)


def cooled_s(
    *,
    heat_capacity_j_k: Values,
    loss_w_k: Values,
    start_c: Values,
    air_c: Values,
    end_c: Values,
) -> Values:
    """Time until a bare pot has fallen to a temperature.

    Parameters
    ----------
    heat_capacity_j_k : float or array
        Contents and pot, above 0. [J/K]
    loss_w_k : float or array
        Loss of the bare pot, at least 0. [W/K]
    start_c : float or array
        Temperature to begin with. [degC]
    air_c : float or array
        Temperature of the air. [degC]
    end_c : float or array
        Temperature to fall to. [degC]

    Returns
    -------
    float or array
        0 where it is already there or below, infinite where it never falls so far. [s]

    Raises
    ------
    PhysicsError
        A quantity lies outside the range named above, or a temperature outside -60 to 300.

    References
    ----------
    .. [1] INCROPERA_DEWITT, eq 5.5, lumped capacitance (from memory).
    """
    _check(heat_capacity_j_k, loss_w_k, start_c=start_c, air_c=air_c, end_c=end_c)
    from_k, to_k = np.subtract(start_c, air_c), np.subtract(end_c, air_c)
    falls = (to_k > 0.0) & (from_k > to_k) & (np.asarray(loss_w_k) > 0.0)
    ratio = np.where(falls, from_k, 1.0) / np.where(falls, to_k, 1.0)
    seconds = heat_capacity_j_k / np.where(falls, loss_w_k, 1.0) * np.log(ratio)
    return plain(np.where(from_k <= to_k, 0.0, np.where(falls, seconds, np.inf)))


def _check(heat_capacity_j_k: Values, loss_w_k: Values, **temperatures: Values) -> None:
    POSITIVE.check(heat_capacity_j_k=heat_capacity_j_k)
    NOT_NEGATIVE.check(loss_w_k=loss_w_k)
    TEMPERATURE_C.check(**temperatures)


def _log_ratio(share: NDArray[np.float64]) -> NDArray[np.float64]:
    """``-ln(1 - x) / x``, 1 at 0."""
    safe = np.where(share > 0.0, share, 0.5)
    return np.where(share > 0.0, -np.log1p(-safe) / safe, 1.0)


def _mean_decay(times: NDArray[np.float64]) -> NDArray[np.float64]:
    """``(1 - exp(-x)) / x``, 1 at 0."""
    safe = np.where(times > 0.0, times, 1.0)
    return np.where(times > 0.0, -np.expm1(-safe) / safe, 1.0)


def _mean_rise(times: NDArray[np.float64]) -> NDArray[np.float64]:
    """``(x - 1 + exp(-x)) / x**2``, 1/2 at 0."""
    safe = np.where(times > SERIES, times, 1.0)
    series = 0.5 - times / 6.0 + times**2 / 24.0 - times**3 / 120.0
    return np.where(times > SERIES, (safe + np.expm1(-safe)) / safe**2, series)
