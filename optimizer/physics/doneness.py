"""How far food is cooked, from what its temperature was and for how long."""

from typing import Final

import numpy as np
import numpy.typing as npt

from optimizer.errors import PhysicsError
from optimizer.physics.ranges import Range

Floats = npt.NDArray[np.float64]

REFERENCE_C: Final = 100.0
ZERO_C_K: Final = 273.15
KINETICS_C: Final = Range(0.0, 150.0)
GAS_J_MOLK: Final = 8.31446261815324  # CODATA 2018, exact
MINUTE_S: Final = 60.0


def _positive(name: str, value: npt.ArrayLike) -> None:
    """Raise PhysicsError unless every value is positive and finite."""
    array = np.asarray(value, dtype=np.float64)
    if not np.all((array > 0) & np.isfinite(array)):
        raise PhysicsError(f"{name} must be positive, not {value!r}")


def rate(*, temperature_c: npt.ArrayLike, z_k: npt.ArrayLike, floor_c: npt.ArrayLike) -> Floats:
    """Speed of cooking, as a multiple of that at 100 degC.

    Parameters
    ----------
    temperature_c : float or ndarray
        Temperature of the food [degC]
    z_k : float or ndarray
        Rise that makes the cooking ten times as fast [K]
    floor_c : float or ndarray
        Temperature below which nothing is credited [degC]

    Returns
    -------
    ndarray
        Minutes at 100 degC that one minute is worth [-]

    Raises
    ------
    PhysicsError
        If z is not positive or a temperature is not a finite number.

    Notes
    -----
    10 to the power (T - 100)/z, the cook value's integrand; 0 below the floor.

    References
    ----------
    .. [1] MANSFIELD_1962, eq. of the cook value (from memory)
    """
    _positive("z_k", z_k)
    hot = np.asarray(temperature_c, dtype=np.float64)
    if not np.all(np.isfinite(hot)):
        raise PhysicsError("temperature_c must be finite")
    power = np.asarray(10.0 ** ((hot - REFERENCE_C) / np.asarray(z_k)), dtype=np.float64)
    return np.where(hot >= np.asarray(floor_c), power, 0.0)


def credit(
    *,
    time_s: npt.ArrayLike,
    temperature_c: npt.ArrayLike,
    boil_min: npt.ArrayLike,
    z_k: npt.ArrayLike,
    floor_c: npt.ArrayLike,
) -> Floats:
    """How far the food is done at each moment; 1 is done.

    Parameters
    ----------
    time_s : ndarray
        Moments in order, along the last axis [s]
    temperature_c : ndarray
        Temperature at these moments, along the last axis [degC]
    boil_min : float or ndarray
        Time at 100 degC until done; an array must broadcast, e.g. (draws, 1) [min]
    z_k : float or ndarray
        Rise that makes the cooking ten times as fast [K]
    floor_c : float or ndarray
        Temperature below which nothing is credited [degC]

    Returns
    -------
    ndarray
        Share done since the first moment, as long as the last axis [-]

    Raises
    ------
    PhysicsError
        If the times do not rise, or `boil_min` or `z_k` is not positive.

    Notes
    -----
    Each step counts the geometric mean of the rates at its two ends, which is the rate at their
    mean temperature. On a straight rise or fall that credits a little too little, never too
    much: less than 1 % while a step changes the temperature by no more than a fifth of z. A step
    with one end below the floor counts nothing.

    References
    ----------
    .. [1] MANSFIELD_1962, eq. of the cook value (from memory)
    """
    _positive("boil_min", boil_min)
    step_s = np.diff(np.asarray(time_s, dtype=np.float64), axis=-1)
    if not np.all(step_s >= 0):
        raise PhysicsError("time_s must rise along the last axis")
    speed = rate(temperature_c=temperature_c, z_k=z_k, floor_c=floor_c)
    means = np.sqrt(speed[..., 1:] * speed[..., :-1])
    minutes = np.cumsum(means * step_s, axis=-1) / MINUTE_S
    start = np.zeros((*minutes.shape[:-1], 1))
    return np.asarray(np.concatenate([start, minutes], axis=-1) / np.asarray(boil_min))


def activation_energy_j_mol(*, z_k: float, temperature_c: float) -> float:
    """Activation energy that belongs to a z at one temperature.

    Parameters
    ----------
    z_k : float
        Rise that makes the cooking ten times as fast [K]
    temperature_c : float
        Temperature at which the two laws have the same slope [degC]

    Returns
    -------
    float
        Activation energy [J/mol]

    Raises
    ------
    PhysicsError
        If z is not positive or the temperature lies outside 0 to 150 degC.

    Notes
    -----
    Ea = ln(10) R T^2 / z: both laws have the same slope at T. Sources that state a range use
    the product of its two ends instead of T^2; the choice moves the figure by about 6 % between
    100 and 110 degC, so T is stated.

    References
    ----------
    .. [1] VAN_LOEY_1995, p. 361 to 377, J. Food Eng. 24 (z beside activation energy)
    """
    _positive("z_k", z_k)
    return float(np.log(10) * GAS_J_MOLK * _kelvin(temperature_c) ** 2 / z_k)


def z_from_activation_energy_k(*, energy_j_mol: float, temperature_c: float) -> float:
    """Rise that makes the cooking ten times as fast, from an activation energy.

    Parameters
    ----------
    energy_j_mol : float
        Activation energy [J/mol]
    temperature_c : float
        Temperature at which the two laws have the same slope [degC]

    Returns
    -------
    float
        z at that temperature [K]

    Raises
    ------
    PhysicsError
        If the energy is not positive or the temperature lies outside 0 to 150 degC.

    Notes
    -----
    z = ln(10) R T^2 / Ea, the inverse of `activation_energy_j_mol`.

    References
    ----------
    .. [1] VAN_LOEY_1995, p. 361 to 377, J. Food Eng. 24 (z beside activation energy)
    """
    _positive("energy_j_mol", energy_j_mol)
    return float(np.log(10) * GAS_J_MOLK * _kelvin(temperature_c) ** 2 / energy_j_mol)


def _kelvin(temperature_c: float) -> float:
    """Absolute temperature, for a kitchen's range only."""
    KINETICS_C.check(temperature_c=temperature_c)
    return temperature_c + ZERO_C_K
