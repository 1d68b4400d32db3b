"""What food does with heat, from what it is made of (Choi and Okos 1986)."""

from typing import TypeVar

import numpy as np
import numpy.typing as npt

from optimizer.errors import PhysicsError
from optimizer.physics.components import (
    CONDUCTIVITY_W_MK,
    DENSITY_KG_M3,
    SPECIFIC_HEAT_J_KGK,
)
from optimizer.physics.ranges import Range

Temperatures = TypeVar("Temperatures", float, npt.NDArray[np.float64])
Components = tuple[float, float, float, float, float, float]

THAWED_C = Range(0.0, 150.0)
SUM_TOLERANCE = 0.03  # tables round, and leave a little out


def _shares(parts: Components) -> Components:
    """Return the fractions scaled to a sum of one."""
    total = sum(parts)
    if not (min(parts) >= 0 and abs(total - 1) <= SUM_TOLERANCE):
        raise PhysicsError(
            f"the fractions must be 0 or more and sum to 1 within {SUM_TOLERANCE}, not {parts}"
        )
    water, protein, fat, carbohydrate, fibre, ash = parts
    return (
        water / total,
        protein / total,
        fat / total,
        carbohydrate / total,
        fibre / total,
        ash / total,
    )


def _pure(coefficients: tuple[float, float, float], temperature_c: Temperatures) -> Temperatures:
    """Value of one component's polynomial."""
    constant, slope, bend = coefficients
    return constant + slope * temperature_c + bend * temperature_c * temperature_c


def _specific_heat(shares: Components, temperature_c: Temperatures) -> Temperatures:
    """Mass-weighted mean."""
    total = 0.0 * temperature_c
    for share, coefficients in zip(shares, SPECIFIC_HEAT_J_KGK, strict=True):
        total = total + share * _pure(coefficients, temperature_c)
    return total


def _volume(shares: Components, temperature_c: Temperatures) -> Temperatures:
    """Volume of one kilogram, without air."""
    total = 0.0 * temperature_c
    for share, coefficients in zip(shares, DENSITY_KG_M3, strict=True):
        total = total + share / _pure(coefficients, temperature_c)
    return total


def _conductivity(shares: Components, temperature_c: Temperatures) -> Temperatures:
    """Volume-weighted mean: components side by side in the heat's path."""
    total = 0.0 * temperature_c
    for share, dense, conducting in zip(shares, DENSITY_KG_M3, CONDUCTIVITY_W_MK, strict=True):
        volume = share / _pure(dense, temperature_c)
        total = total + volume * _pure(conducting, temperature_c)
    return total / _volume(shares, temperature_c)


def specific_heat_j_kgk(
    *,
    water: float,
    protein: float,
    fat: float,
    carbohydrate: float,
    fibre: float,
    ash: float,
    temperature_c: Temperatures,
) -> Temperatures:
    """Specific heat of a food.

    Parameters
    ----------
    water : float
        Share of water in the mass [-]
    protein : float
        Share of protein [-]
    fat : float
        Share of fat [-]
    carbohydrate : float
        Share of carbohydrate, without fibre [-]
    fibre : float
        Share of fibre [-]
    ash : float
        Share of ash [-]
    temperature_c : float or ndarray
        Temperature of the food [degC]

    Returns
    -------
    float or ndarray
        Specific heat [J/(kg K)]

    Raises
    ------
    PhysicsError
        If a fraction is negative, their sum is not 1 within 0.03, or a temperature lies
        outside 0 to 150 degC. Frozen food is not covered.

    Notes
    -----
    Mass-weighted mean of the components. The fractions are scaled to a sum of one first.

    References
    ----------
    .. [1] CHOI_OKOS_1986, table 1 and 2 of ASHRAE Refrigeration 2006 ch. 9
    """
    shares = _shares((water, protein, fat, carbohydrate, fibre, ash))
    THAWED_C.check(temperature_c=temperature_c)
    return _specific_heat(shares, temperature_c)


def density_kg_m3(
    *,
    water: float,
    protein: float,
    fat: float,
    carbohydrate: float,
    fibre: float,
    ash: float,
    temperature_c: Temperatures,
) -> Temperatures:
    """Density of a food, without pores.

    Parameters
    ----------
    water : float
        Share of water in the mass [-]
    protein : float
        Share of protein [-]
    fat : float
        Share of fat [-]
    carbohydrate : float
        Share of carbohydrate, without fibre [-]
    fibre : float
        Share of fibre [-]
    ash : float
        Share of ash [-]
    temperature_c : float or ndarray
        Temperature of the food [degC]

    Returns
    -------
    float or ndarray
        Density [kg/m3]

    Raises
    ------
    PhysicsError
        If a fraction is negative, their sum is not 1 within 0.03, or a temperature lies
        outside 0 to 150 degC. Frozen food is not covered.

    Notes
    -----
    The volumes of the components add. Air between pieces is not counted.

    References
    ----------
    .. [1] CHOI_OKOS_1986, table 1 and 2 of ASHRAE Refrigeration 2006 ch. 9
    """
    shares = _shares((water, protein, fat, carbohydrate, fibre, ash))
    THAWED_C.check(temperature_c=temperature_c)
    return 1.0 / _volume(shares, temperature_c)


def conductivity_w_mk(
    *,
    water: float,
    protein: float,
    fat: float,
    carbohydrate: float,
    fibre: float,
    ash: float,
    temperature_c: Temperatures,
) -> Temperatures:
    """Thermal conductivity of a food.

    Parameters
    ----------
    water : float
        Share of water in the mass [-]
    protein : float
        Share of protein [-]
    fat : float
        Share of fat [-]
    carbohydrate : float
        Share of carbohydrate, without fibre [-]
    fibre : float
        Share of fibre [-]
    ash : float
        Share of ash [-]
    temperature_c : float or ndarray
        Temperature of the food [degC]

    Returns
    -------
    float or ndarray
        Thermal conductivity [W/(m K)]

    Raises
    ------
    PhysicsError
        If a fraction is negative, their sum is not 1 within 0.03, or a temperature lies
        outside 0 to 150 degC. Frozen food is not covered.

    Notes
    -----
    Parallel model: the components lie side by side, weighted by their volume. It gives the
    greatest conductivity that a mixture can have; the rule ``diffusivity_share`` takes some off.

    References
    ----------
    .. [1] CHOI_OKOS_1986, table 1 and 2 of ASHRAE Refrigeration 2006 ch. 9
    """
    shares = _shares((water, protein, fat, carbohydrate, fibre, ash))
    THAWED_C.check(temperature_c=temperature_c)
    return _conductivity(shares, temperature_c)


def diffusivity_m2_s(
    *,
    water: float,
    protein: float,
    fat: float,
    carbohydrate: float,
    fibre: float,
    ash: float,
    temperature_c: Temperatures,
) -> Temperatures:
    """Thermal diffusivity of a food.

    Parameters
    ----------
    water : float
        Share of water in the mass [-]
    protein : float
        Share of protein [-]
    fat : float
        Share of fat [-]
    carbohydrate : float
        Share of carbohydrate, without fibre [-]
    fibre : float
        Share of fibre [-]
    ash : float
        Share of ash [-]
    temperature_c : float or ndarray
        Temperature of the food [degC]

    Returns
    -------
    float or ndarray
        Thermal diffusivity [m2/s]

    Raises
    ------
    PhysicsError
        If a fraction is negative, their sum is not 1 within 0.03, or a temperature lies
        outside 0 to 150 degC. Frozen food is not covered.

    Notes
    -----
    Conductivity over density and specific heat.

    References
    ----------
    .. [1] CHOI_OKOS_1986, table 1 and 2 of ASHRAE Refrigeration 2006 ch. 9
    """
    shares = _shares((water, protein, fat, carbohydrate, fibre, ash))
    THAWED_C.check(temperature_c=temperature_c)
    specific_heat = _specific_heat(shares, temperature_c)
    volume = _volume(shares, temperature_c)
    return _conductivity(shares, temperature_c) * volume / specific_heat
