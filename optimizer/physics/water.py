"""Water and the air above it: pressure by altitude, boiling point, latent heat, density."""

from functools import lru_cache

from optimizer.physics.ranges import NOT_NEGATIVE, Range

ZERO_C_K = 273.15
ALTITUDE_M = Range(-500.0, 5500.0)
PRESSURE_PA = Range(20e3, 1e6)
LIQUID_C = Range(0.0, 150.0)


@lru_cache(maxsize=256)
def air_pressure_pa(altitude_m: float) -> float:
    """Air pressure at a height above the sea.

    Parameters
    ----------
    altitude_m : float
        Height above the sea [m]

    Returns
    -------
    float
        Air pressure [Pa]

    Raises
    ------
    PhysicsError
        If the height lies outside -500 to 5500 m.

    Notes
    -----
    The standard atmosphere of a library, at geometric height. Weather moves the
    pressure by a few per cent; that is not counted.

    References
    ----------
    .. [1] US_STANDARD_ATMOSPHERE_1976, table I (by the library `fluids`)
    """
    from fluids.atmosphere import ATMOSPHERE_1976

    ALTITUDE_M.check(altitude_m=altitude_m)
    return float(ATMOSPHERE_1976(altitude_m).P)


@lru_cache(maxsize=1024)
def boiling_point_c(pressure_pa: float) -> float:
    """Temperature at which water boils.

    Parameters
    ----------
    pressure_pa : float
        Absolute pressure above the water [Pa]

    Returns
    -------
    float
        Boiling point [degC]

    Raises
    ------
    PhysicsError
        If the pressure lies outside 20 kPa to 1 MPa.

    Notes
    -----
    The backward saturation equation of the industrial formulation. Salt would raise it
    by less than half a kelvin; that is not counted, so food cooks no faster than planned.

    References
    ----------
    .. [1] IAPWS_IF97, eq. 31 (by the library `chemicals`)
    """
    from chemicals.vapor_pressure import Tsat_IAPWS

    PRESSURE_PA.check(pressure_pa=pressure_pa)
    return float(Tsat_IAPWS(pressure_pa)) - ZERO_C_K


def pressure_pot_c(*, air_pa: float, gauge_pa: float) -> float:
    """Temperature inside a pressure pot whose air has been driven out.

    Parameters
    ----------
    air_pa : float
        Air pressure at the place [Pa]
    gauge_pa : float
        What the pot's weight holds above the air pressure; 0 for an ordinary pot [Pa]

    Returns
    -------
    float
        Temperature of the boiling water [degC]

    Raises
    ------
    PhysicsError
        If the gauge pressure is negative, or the sum lies outside 20 kPa to 1 MPa.

    Notes
    -----
    The weight adds to the air, so the same weight gives less heat in the mountains.

    References
    ----------
    .. [1] IAPWS_IF97, eq. 31 (by the library `chemicals`)
    """
    NOT_NEGATIVE.check(gauge_pa=gauge_pa)
    return boiling_point_c(air_pa + gauge_pa)


@lru_cache(maxsize=1024)
def latent_heat_j_kg(temperature_c: float) -> float:
    """Heat that leaves with each kilogram of water boiled off.

    Parameters
    ----------
    temperature_c : float
        Temperature of the water [degC]

    Returns
    -------
    float
        Latent heat [J/kg]

    Raises
    ------
    PhysicsError
        If the temperature lies outside 0 to 150 degC.

    Notes
    -----
    Clapeyron's equation with the library's saturation curve: the slope of the vapour
    pressure times the temperature times the change of volume.

    References
    ----------
    .. [1] IAPWS_95, table 2 (by the library `chemicals`)
    """
    from chemicals.iapws import iapws95_dPsat_dT, iapws95_saturation

    LIQUID_C.check(temperature_c=temperature_c)
    kelvin = temperature_c + ZERO_C_K
    slope, _ = iapws95_dPsat_dT(kelvin)
    _, liquid, steam = iapws95_saturation(kelvin)
    return float(kelvin * slope * (1 / steam - 1 / liquid))


@lru_cache(maxsize=1024)
def density_kg_m3(temperature_c: float) -> float:
    """Density of liquid water.

    Parameters
    ----------
    temperature_c : float
        Temperature of the water [degC]

    Returns
    -------
    float
        Density at its own vapour pressure [kg/m3]

    Raises
    ------
    PhysicsError
        If the temperature lies outside 0 to 150 degC.

    References
    ----------
    .. [1] IAPWS_95, table 2 (by the library `chemicals`)
    """
    from chemicals.iapws import iapws95_rhol_sat

    LIQUID_C.check(temperature_c=temperature_c)
    return float(iapws95_rhol_sat(temperature_c + ZERO_C_K))
