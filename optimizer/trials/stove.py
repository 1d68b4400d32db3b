"""The published water boiling test: from weighed fuel and water to a stove's numbers.

Symbols of the protocol are given in each Notes section; masses in kilograms, heat in joules.
"""

from optimizer.errors import PhysicsError

WATER_J_KGK = 4186.0  # as the protocol has it
STEAM_J_KG = 2257e3  # for the moisture of the fuel
EVAPORATED_J_KG = 2260e3  # for the water of the pot, as the protocol has it
STANDARD_RISE_K = 75.0
STANDARD_L = 5.0
CHAR_J_KG = 29.5e6


def effective_fuel_value_j_kg(
    *, lhv_j_kg: float, moisture: float, boiling_c: float, air_c: float
) -> float:
    """Heat of a kilogram of moist fuel, its own water warmed and boiled off.

    Parameters
    ----------
    lhv_j_kg : float
        Lower heating value of the dry fuel [J/kg]
    moisture : float
        Share of water, wet basis, 0 to below 1 [-]
    boiling_c : float
        Local boiling point [degC]
    air_c : float
        Air temperature [degC]

    Returns
    -------
    float
        Effective value [J/kg]

    Raises
    ------
    PhysicsError
        If the moisture lies outside 0 to 1, or nothing is left.

    Notes
    -----
    EHV = LHV (1 - m) - m (4.186 (Tb - Ta) + 2257).

    References
    ----------
    .. [1] WBT_EXAMPLE_2015, p 1, protocol 4.2.3
    """
    if not 0 <= moisture < 1:
        raise PhysicsError(f"moisture must lie from 0 to below 1, not {moisture:g}")
    steam = WATER_J_KGK * (boiling_c - air_c) + STEAM_J_KG
    value = lhv_j_kg * (1 - moisture) - moisture * steam
    if value <= 0:
        raise PhysicsError(f"a fuel so wet gives no heat: moisture {moisture:g}")
    return value


def equivalent_dry_kg(
    *, moist_kg: float, effective_j_kg: float, char_kg: float, lhv_j_kg: float
) -> float:
    """Dry fuel that would have given the heat, the char left over paid back.

    Parameters
    ----------
    moist_kg : float
        Moist fuel burned [kg]
    effective_j_kg : float
        Its effective value [J/kg]
    char_kg : float
        Char that is left [kg]
    lhv_j_kg : float
        Lower heating value of the dry fuel [J/kg]

    Returns
    -------
    float
        Equivalent dry fuel [kg]

    Raises
    ------
    PhysicsError
        If more heat is left in the char than the fuel had.

    Notes
    -----
    f_d = (f_m EHV - char 29500) / LHV.

    References
    ----------
    .. [1] WBT_EXAMPLE_2015, p 1, protocol 4.2.3
    """
    burned_j = moist_kg * effective_j_kg - char_kg * CHAR_J_KG
    if burned_j <= 0:
        raise PhysicsError(f"more char is left than was burned: {char_kg:g} of {moist_kg:g} kg")
    return burned_j / lhv_j_kg


def thermal_efficiency(
    *, water_kg: float, rise_k: float, evaporated_kg: float, dry_kg: float, lhv_j_kg: float
) -> float:
    """Heat that got into the water over the heat of the fuel, net of the pot's losses.

    Parameters
    ----------
    water_kg : float
        Water in the pot at the start; 0 for a simmer [kg]
    rise_k : float
        Its rise [K]
    evaporated_kg : float
        Water that boiled off [kg]
    dry_kg : float
        Equivalent dry fuel [kg]
    lhv_j_kg : float
        Its lower heating value [J/kg]

    Returns
    -------
    float
        Thermal efficiency [-]

    Raises
    ------
    PhysicsError
        If no fuel was burned.

    Notes
    -----
    h = (4.186 m_w (Tf - Ti) + 2260 w_v) / (f_d LHV).

    References
    ----------
    .. [1] WBT_EXAMPLE_2015, p 1, protocol 4.2.3
    """
    if dry_kg <= 0:
        raise PhysicsError(f"fuel burned must be above 0, not {dry_kg:g} kg")
    useful_j = WATER_J_KGK * water_kg * rise_k + EVAPORATED_J_KG * evaporated_kg
    return useful_j / (dry_kg * lhv_j_kg)


def firepower_w(*, dry_kg: float, lhv_j_kg: float, time_s: float) -> float:
    """Fuel burned in a time, as power.

    Parameters
    ----------
    dry_kg : float
        Equivalent dry fuel [kg]
    lhv_j_kg : float
        Its lower heating value [J/kg]
    time_s : float
        How long it burned [s]

    Returns
    -------
    float
        Firepower [W]

    Raises
    ------
    PhysicsError
        If the time is not above 0.

    References
    ----------
    .. [1] WBT_EXAMPLE_2015, p 1, protocol 4.2.3
    """
    if time_s <= 0:
        raise PhysicsError(f"time must be above 0, not {time_s:g} s")
    return dry_kg * lhv_j_kg / time_s


def specific_consumption(*, dry_kg: float, boiled_kg: float) -> float:
    """Dry fuel for each kilogram of water boiled (or kept at the boil).

    Parameters
    ----------
    dry_kg : float
        Equivalent dry fuel [kg]
    boiled_kg : float
        Water boiled [kg]

    Returns
    -------
    float
        Fuel over water [-]

    Raises
    ------
    PhysicsError
        If no water is left.

    References
    ----------
    .. [1] WBT_EXAMPLE_2015, p 1, protocol 4.2.3
    """
    if boiled_kg <= 0:
        raise PhysicsError(f"water boiled must be above 0, not {boiled_kg:g} kg")
    return dry_kg / boiled_kg


def for_standard_rise(*, value: float, rise_k: float) -> float:
    """Bring a time or a consumption to a rise of 75 K.

    Parameters
    ----------
    value : float
        As measured [-]
    rise_k : float
        Rise of the water [K]

    Returns
    -------
    float
        For 75 K, in the same unit [-]

    Raises
    ------
    PhysicsError
        If the water did not get warmer.

    References
    ----------
    .. [1] WBT_EXAMPLE_2015, p 1, protocol 4.2.3
    """
    if rise_k <= 0:
        raise PhysicsError(f"rise must be above 0, not {rise_k:g} K")
    return value * STANDARD_RISE_K / rise_k


def task_energy_j(*, cold_j_kg: float, hot_j_kg: float, simmer_j_kg: float) -> float:
    """Fuel energy for the task of the test: boil five litres and simmer them for 45 minutes.

    Parameters
    ----------
    cold_j_kg : float
        Specific energy of the cold start, for 75 K [J/kg]
    hot_j_kg : float
        That of the hot start [J/kg]
    simmer_j_kg : float
        That of the simmer [J/kg]

    Returns
    -------
    float
        Energy [J]

    Raises
    ------
    PhysicsError
        If one is negative.

    References
    ----------
    .. [1] WBT_EXAMPLE_2015, p 1, protocol 4.2.3
    """
    if min(cold_j_kg, hot_j_kg, simmer_j_kg) < 0:
        raise PhysicsError("specific energies must not be negative")
    return STANDARD_L * ((cold_j_kg + hot_j_kg) / 2 + simmer_j_kg)


def efficiency_before_losses(*, net: float, pot_losses_j: float, fuel_j: float) -> float:
    """Heat into the pot over fuel, as the planner's stoves have it: before the pot's own losses.

    The high-power figure of a boiling test is net of what side and lid lost on the way up. Its
    simmer figure counts only water boiled off and must not be used as one of holding.

    Parameters
    ----------
    net : float
        Thermal efficiency of the high-power phase [-]
    pot_losses_j : float
        Heat that the pot lost to the air in that phase [J]
    fuel_j : float
        Heat of the fuel burned in it [J]

    Returns
    -------
    float
        Efficiency before the pot's losses [-]

    Raises
    ------
    PhysicsError
        If it came out above 1, or no fuel was burned.

    References
    ----------
    .. [1] definition, p 1, energy balance of the pot
    """
    if fuel_j <= 0:
        raise PhysicsError(f"fuel burned must be above 0, not {fuel_j:g} J")
    before = net + pot_losses_j / fuel_j
    if not 0 <= before <= 1:
        raise PhysicsError(
            f"efficiency must lie from 0 to 1, not {before:.3g}: more heat in the pot than in the "
            "fuel; look again at what was weighed"
        )
    return before
