"""A pot on a stove: what it loses, how long it heats up, what holding it takes.

The pot as one body stands in ``one_body``, its bare surface in ``surface``; both are offered
here as well, so that a caller needs this module only.
"""

import numpy as np

from optimizer.physics.one_body import (
    HeatSplit,
    cooled_c,
    cooled_s,
    heat_split,
    heat_up_s,
    heated_c,
)
from optimizer.physics.ranges import (
    EFFICIENCY,
    NOT_NEGATIVE,
    POSITIVE,
    TEMPERATURE_C,
    Range,
    Values,
    plain,
)
from optimizer.physics.surface import pot_loss_w_k

__all__ = [
    "HeatSplit",
    "boiled_off_kg",
    "cooled_c",
    "cooled_s",
    "heat_split",
    "heat_up_s",
    "heated_c",
    "hold_power_w",
    "pot_loss_w_k",
]

LEAK = Range(0.0, 0.9)


def hold_power_w(
    *,
    low_power_w: Values,
    efficiency: Values,
    loss_w_k: Values,
    temperature_c: Values,
    air_c: Values,
    steam_leak: Values,
) -> Values:
    """Fuel burned to hold a pot at a temperature with its lid on.

    Parameters
    ----------
    low_power_w : float or array
        Least fuel the stove burns and stays lit, at least 0. [W]
    efficiency : float or array
        Heat into the pot over fuel burned, before the pot's losses, above 0 to 1. [-]
    loss_w_k : float or array
        Loss of the bare pot, at least 0. [W/K]
    temperature_c : float or array
        Temperature held. [degC]
    air_c : float or array
        Temperature of the air. [degC]
    steam_leak : float or array
        Share of the heat put in that leaves as steam, 0 to 0.9. [-]

    Returns
    -------
    float or array
        The losses and the leak, or the stove's least if that is more. [W]

    Raises
    ------
    PhysicsError
        A quantity lies outside the range named above, or a temperature outside -60 to 300.

    Notes
    -----
    ``P = max(P_low, UA (T - T_air) / ((1 - leak) efficiency))``.

    References
    ----------
    .. [1] WBT_4_2_3, eq h, heat into the pot over fuel burned, simmering phase.
    """
    NOT_NEGATIVE.check(low_power_w=low_power_w, loss_w_k=loss_w_k)
    EFFICIENCY.check(efficiency=efficiency)
    LEAK.check(steam_leak=steam_leak)
    TEMPERATURE_C.check(temperature_c=temperature_c, air_c=air_c)
    lost_w = loss_w_k * np.subtract(temperature_c, air_c)
    return plain(np.maximum(low_power_w, lost_w / np.subtract(1.0, steam_leak) / efficiency))


def boiled_off_kg(
    *,
    fuel_power_w: Values,
    efficiency: Values,
    loss_w_k: Values,
    temperature_c: Values,
    air_c: Values,
    time_s: Values,
    latent_j_kg: Values,
) -> Values:
    """Water that leaves as steam while a pot is held at the boil.

    Parameters
    ----------
    fuel_power_w : float or array
        Fuel burned while holding, at least 0. [W]
    efficiency : float or array
        Heat into the pot over fuel burned, before the pot's losses, above 0 to 1. [-]
    loss_w_k : float or array
        Loss of the bare pot, at least 0. [W/K]
    temperature_c : float or array
        Temperature held. [degC]
    air_c : float or array
        Temperature of the air. [degC]
    time_s : float or array
        Time held, at least 0. [s]
    latent_j_kg : float or array
        Heat of vaporisation at that temperature, above 0. [J/kg]

    Returns
    -------
    float or array
        Steam: all the heat that the losses do not take, never below 0. [kg]

    Raises
    ------
    PhysicsError
        A quantity lies outside the range named above, or a temperature outside -60 to 300.

    References
    ----------
    .. [1] WBT_4_2_3, eq h, sensible heat and 2260 kJ for each kg evaporated.
    """
    NOT_NEGATIVE.check(fuel_power_w=fuel_power_w, loss_w_k=loss_w_k, time_s=time_s)
    EFFICIENCY.check(efficiency=efficiency)
    POSITIVE.check(latent_j_kg=latent_j_kg)
    TEMPERATURE_C.check(temperature_c=temperature_c, air_c=air_c)
    lost_w = loss_w_k * np.subtract(temperature_c, air_c)
    spare_w = np.maximum(np.multiply(efficiency, fuel_power_w) - lost_w, 0.0)
    return plain(spare_w * time_s / latent_j_kg)
