"""What a bare pot loses to the air: free convection, wind and radiation."""

from functools import lru_cache

import numpy as np

from optimizer.physics.ranges import POSITIVE, SHARE, TEMPERATURE_C, Range

STEFAN_BOLTZMANN = 5.670374419e-8  # W/(m2 K4), CODATA 2018
ZERO_C = 273.15
GRAVITY = 9.80665  # m/s2
SEA_LEVEL_PA = 101325.0
AIR_SPECIFIC_HEAT = 1006.0  # J/(kg K), dry air near 50 degC
WIND_M_S = Range(0.0, 25.0)


def pot_loss_w_k(
    *,
    diameter_m: float,
    height_m: float,
    surface_c: float,
    air_c: float,
    wind_m_s: float,
    emissivity: float,
) -> float:
    """Heat a bare pot with its lid on loses to the air for each kelvin it is hotter.

    Side and lid lose by free convection, by the wind and by radiation; the bottom stands on the
    stove and is left out. Numbers only, no arrays; results are cached.

    Parameters
    ----------
    diameter_m : float
        Outer diameter of the pot, above 0. [m]
    height_m : float
        Outer height of the pot, above 0. [m]
    surface_c : float
        Temperature of side and lid, -60 to 300; that of the contents is the safe guess. [degC]
    air_c : float
        Temperature of the air and of what the pot faces, -60 to 300. [degC]
    wind_m_s : float
        Wind at the pot, 0 to 25. [m/s]
    emissivity : float
        Of the pot's outside, 0 to 1. [-]

    Returns
    -------
    float
        Loss for each kelvin between surface and air. [W/K]

    Raises
    ------
    PhysicsError
        A size is not above 0, or another quantity lies outside the range named above.

    Notes
    -----
    Side: vertical plate, Churchill and Chu. Lid: hot plate facing up, McAdams, over a quarter of
    the diameter. Wind: Churchill and Bernstein across the side, and the laminar plate over the
    lid. Free and forced add as cubes, ``h**3 = free**3 + forced**3``. Air is that of the sea
    level: thinner air takes less heat, so the error is on the side of more fuel.

    References
    ----------
    .. [1] CHURCHILL_CHU_1975, eq 9, Int. J. Heat Mass Transfer 18 (from memory, by `ht`).
    .. [2] CHURCHILL_BERNSTEIN_1977, eq 9, J. Heat Transfer 99 (from memory, by `ht`).
    """
    return _pot_loss(diameter_m, height_m, surface_c, air_c, wind_m_s, emissivity)


@lru_cache(maxsize=4096)
def _pot_loss(
    diameter: float, height: float, surface: float, air: float, wind: float, emissivity: float
) -> float:
    POSITIVE.check(diameter_m=diameter, height_m=height)
    TEMPERATURE_C.check(surface_c=surface, air_c=air)
    WIND_M_S.check(wind_m_s=wind)
    SHARE.check(emissivity=emissivity)
    radiation = _radiation(surface, air) * emissivity
    side = _film(surface, air, wind, height, diameter, upright=True)
    lid = _film(surface, air, wind, diameter / 4.0, diameter, upright=False)
    side_m2, lid_m2 = np.pi * diameter * height, np.pi * diameter**2 / 4.0
    return float(side_m2 * (side + radiation) + lid_m2 * (lid + radiation))


def _radiation(surface: float, air: float) -> float:
    hot, cold = surface + ZERO_C, air + ZERO_C
    return STEFAN_BOLTZMANN * (hot**2 + cold**2) * (hot + cold)


def _film(
    surface: float, air: float, wind: float, free_m: float, wind_m: float, *, upright: bool
) -> float:
    """Convection from side (upright) or lid; the lengths are those of the two formulas."""
    import ht
    from fluids import ATMOSPHERE_1976

    kelvin = (surface + air) / 2.0 + ZERO_C
    conductivity = ATMOSPHERE_1976.thermal_conductivity(kelvin)
    viscosity = ATMOSPHERE_1976.viscosity(kelvin)
    kinematic = viscosity / ATMOSPHERE_1976.density(kelvin, SEA_LEVEL_PA)
    prandtl = viscosity * AIR_SPECIFIC_HEAT / conductivity
    grashof = GRAVITY * abs(surface - air) / kelvin * free_m**3 / kinematic**2
    reynolds = wind * wind_m / kinematic
    if upright:
        free = ht.Nu_vertical_plate_Churchill(prandtl, grashof)
        forced = ht.Nu_cylinder_Churchill_Bernstein(reynolds, prandtl) if wind else 0.0
    else:
        free = ht.Nu_horizontal_plate_McAdams(prandtl, grashof, buoyancy=surface > air)
        forced = ht.Nu_external_horizontal_plate(reynolds, prandtl, L=wind_m) if wind else 0.0
    free_w_m2k, forced_w_m2k = free * conductivity / free_m, forced * conductivity / wind_m
    return float((free_w_m2k**3 + forced_w_m2k**3) ** (1.0 / 3.0))
