"""What a pot or jar loses while it stands open to be drawn on."""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from optimizer.physics.ranges import NOT_NEGATIVE, POSITIVE, TEMPERATURE_C, Values, plain
from optimizer.physics.surface import STEFAN_BOLTZMANN, ZERO_C

STILL_W_M2PA = 0.089  # heat of the vapour that leaves, per pascal of vapour pressure
MOVING_W_M2PA = 0.0782  # the same per m/s of air over it
DRAUGHT_M_S = 0.5  # somebody moves about over it
CONVECTION_W_M2K = 10.0  # free and in that draught, judgement
WATER_EMISSIVITY = 0.96
HOTTEST_C = 150
STEPS = 4


@lru_cache(maxsize=1)
def _saturation_pa() -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Vapour pressure of water at every whole degree from 1 on, by the library's curve."""
    from chemicals.iapws import iapws95_Psat

    degrees = np.arange(1.0, HOTTEST_C + 1.0)
    return degrees, np.array([iapws95_Psat(degree + ZERO_C) for degree in degrees])


def open_loss_w(*, surface_m2: float, temperature_c: Values, air_c: Values) -> Values:
    """Heat that hot water loses through an open mouth.

    Parameters
    ----------
    surface_m2 : float
        Of the open water, at least 0. [m2]
    temperature_c : float or array
        Of the water, -60 to 300; above 150 it is taken as at 150. [degC]
    air_c : float or array
        Of the air, taken as dry. [degC]

    Returns
    -------
    float or array
        Loss from all of its surface. [W]

    Raises
    ------
    PhysicsError
        If a quantity lies outside the range named above.

    Notes
    -----
    Vapour leaves at ``(0.089 + 0.0782 v) p`` W/m2, where p is its pressure in Pa; beside it
    convection and radiation. Dry moving air (0.5 m/s) is the safe guess: more is lost.

    References
    ----------
    .. [1] CARRIER_1918, eq for open water in moving air, as used for pools (from memory).
    """
    NOT_NEGATIVE.check(surface_m2=surface_m2)
    TEMPERATURE_C.check(temperature_c=temperature_c, air_c=air_c)
    vapour = (STILL_W_M2PA + MOVING_W_M2PA * DRAUGHT_M_S) * np.interp(
        temperature_c, *_saturation_pa()
    )
    hot, cold = np.add(temperature_c, ZERO_C), np.add(air_c, ZERO_C)
    radiation = WATER_EMISSIVITY * STEFAN_BOLTZMANN * (hot**4 - cold**4)
    found: Values = plain(surface_m2 * (vapour + CONVECTION_W_M2K * (hot - cold) + radiation))
    return found


def opened_c(
    *,
    start_c: Values,
    air_c: Values,
    heat_capacity_j_k: Values,
    surface_m2: float,
    bare_w_k: float,
    open_s: float,
) -> Values:
    """Temperature of what is left when an opened pot or jar is closed again.

    Parameters
    ----------
    start_c : float or array
        When it was opened, -60 to 300. [degC]
    air_c : float or array
        Of the air, -60 to 300. [degC]
    heat_capacity_j_k : float or array
        Of what is left in it, with the vessel, above 0. [J/K]
    surface_m2 : float
        Of the open water, at least 0. [m2]
    bare_w_k : float
        Loss through walls that are laid bare as well, at least 0. [W/K]
    open_s : float
        How long it is open, at least 0. [s]

    Returns
    -------
    float or array
        When it is closed, mixed. [degC]

    Raises
    ------
    PhysicsError
        If a quantity lies outside the range named above.

    Notes
    -----
    Midpoint rule in four steps; what is drawn is counted as gone from the first moment, so that
    all of the loss comes from what is left.

    References
    ----------
    .. [1] CARRIER_1918, eq as for ``open_loss_w`` (from memory).
    """
    POSITIVE.check(heat_capacity_j_k=heat_capacity_j_k)
    NOT_NEGATIVE.check(surface_m2=surface_m2, bare_w_k=bare_w_k, open_s=open_s)
    TEMPERATURE_C.check(start_c=start_c, air_c=air_c)
    level, step = np.asarray(start_c, dtype=float), open_s / STEPS

    def pace(at: NDArray[np.float64]) -> NDArray[np.float64]:
        lost = np.asarray(open_loss_w(surface_m2=surface_m2, temperature_c=at, air_c=air_c))
        return np.asarray((lost + bare_w_k * (at - air_c)) / heat_capacity_j_k)

    for _ in range(STEPS):
        level = level - step * pace(level - step / 2 * pace(level))
    found: Values = plain(level)
    return found
