"""Fuel: heating values, wood and its moisture, bottled gas in the cold."""

from typing import Final, Literal, NamedTuple, TypeVar

import numpy as np
import numpy.typing as npt

from optimizer.errors import PhysicsError
from optimizer.physics.ranges import NOT_NEGATIVE, POSITIVE, Range

Values = TypeVar("Values", float, npt.NDArray[np.float64])
Phase = Literal["gas", "liquid", "solid"]

ZERO_C_K: Final = 273.15
# Heat to evaporate water at 25 degC, the figure of the solid-fuel formula (from memory, ISO 18125);
# IAPWS gives 2.442e6.
WATER_LATENT_25C_J_KG: Final = 2.443e6


class HeatingValues(NamedTuple):
    """Heat of combustion at 25 degC: water condensed (higher) and as steam (lower)."""

    higher_j_kg: float
    lower_j_kg: float


class Saturation(NamedTuple):
    """Coefficients of a compound's vapour pressure curve, Wagner's equation in 2.5,5 form."""

    critical_k: float
    critical_pa: float
    a: float
    b: float
    c: float
    d: float


# VDI Heat Atlas (2nd ed. 2010), part D3.1, table 3, as carried by the chemicals library;
# copied here because the library's own tables need pandas, which no plan waits for.
SATURATION: Final[dict[str, Saturation]] = {
    "propane": Saturation(369.82, 4.248e6, -6.7148, 1.38388, -1.30695, -2.56827),
    "butane": Saturation(425.13, 3.796e6, -7.08562, 1.79335, -2.00003, -2.31975),
    "isobutane": Saturation(407.81, 3.629e6, -6.90675, 1.5774, -1.8016, -2.42893),
}
GAS_C: Final = Range(-80.0, 90.0)
MOISTURE: Final = Range(0.0, 1.0)


def lower_heating_value_j_kg(*, dry_j_kg: Values, moisture: Values) -> Values:
    """Lower heating value of a moist solid fuel.

    Parameters
    ----------
    dry_j_kg : float or ndarray
        Lower heating value of the dry fuel [J/kg]
    moisture : float or ndarray
        Water's share of the wet mass [-]

    Returns
    -------
    float or ndarray
        Heat per kilogram as it lies there, steam not condensed [J/kg]

    Raises
    ------
    PhysicsError
        If the heating value is not positive, the moisture is outside 0 to 1, or the
        fuel is so wet that it gives no heat.

    Notes
    -----
    LHV = LHV0 (1 - w) - 2.443 MJ/kg w, with w on the wet basis. With no moisture the dry value
    comes back unchanged.

    References
    ----------
    .. [1] ISO_18125, eq. of the net value as received (from memory)
    """
    POSITIVE.check(dry_j_kg=dry_j_kg)
    MOISTURE.check(moisture=moisture)
    value = dry_j_kg * (1.0 - moisture) - WATER_LATENT_25C_J_KG * moisture
    if not np.all(np.asarray(value) > 0):
        raise PhysicsError(f"moisture must leave some heat, not {moisture}")
    return value


def heating_values_j_kg(compound: str, phase: Phase) -> HeatingValues:
    """Heating values of a pure compound at 25 degC from its heat of formation.

    Parameters
    ----------
    compound : str
        Chemical name, such as "propane" [-]
    phase : str
        State in which it is burned: "gas", "liquid" or "solid" [-]

    Returns
    -------
    HeatingValues
        Higher and lower heating value [J/kg]

    Raises
    ------
    PhysicsError
        If the compound or its heat of formation in that state is unknown.

    Notes
    -----
    For CaHbOcNd: higher = (Hf + a 393.5 + b/2 285.8 kJ/mol) / M; the lower takes off b/2
    times 44.0 kJ/mol, the latent heat of water at 25 degC.

    References
    ----------
    .. [1] CODATA_KEY_VALUES, table 1 (by the library `chemicals`)
    """
    import chemicals

    formation = {"gas": chemicals.Hfg, "liquid": chemicals.Hfl, "solid": chemicals.Hfs}
    if phase not in formation:
        raise PhysicsError(f'phase must be "gas", "liquid" or "solid", not {phase!r}')
    try:
        found = chemicals.search_chemical(compound)
    except ValueError as error:
        raise PhysicsError(f"compound must be a known chemical, not {compound!r}") from error
    formed_j_mol = formation[phase](found.CASs)
    if formed_j_mol is None:
        raise PhysicsError(f"compound must have a heat of formation as {phase}, not {compound!r}")
    atoms = chemicals.simple_formula_parser(found.formula)
    products = chemicals.combustion_stoichiometry(atoms)
    higher_j_mol = -chemicals.HHV_stoichiometry(products, Hf=formed_j_mol)
    lower_j_mol = -chemicals.LHV_from_HHV(-higher_j_mol, products["H2O"])
    kg_mol = found.MW / 1000
    return HeatingValues(higher_j_mol / kg_mol, lower_j_mol / kg_mol)


def vapour_pressure_pa(*, compound: str, temperature_c: float) -> float:
    """Pressure of bottled gas above its own liquid.

    Parameters
    ----------
    compound : str
        "propane", "butane" or "isobutane" [-]
    temperature_c : float
        Temperature of the liquid [degC]

    Returns
    -------
    float
        Absolute vapour pressure [Pa]

    Raises
    ------
    PhysicsError
        If the compound is not one of the three or the temperature lies outside -80 to 90 degC.

    Notes
    -----
    Wagner's equation, evaluated by a library. A mixture boils its lightest part off first, so
    a part-used canister of a mixture behaves like its heavier part.

    References
    ----------
    .. [1] VDI_HEAT_ATLAS_2010, table 3 of part D3.1
    """
    from chemicals.vapor_pressure import Wagner

    if compound not in SATURATION:
        known = ", ".join(SATURATION)
        raise PhysicsError(f"compound must be one of {known}, not {compound!r}")
    GAS_C.check(temperature_c=temperature_c)
    curve = SATURATION[compound]
    return float(
        Wagner(
            temperature_c + ZERO_C_K,
            curve.critical_k,
            curve.critical_pa,
            curve.a,
            curve.b,
            curve.c,
            curve.d,
        )
    )


def feeds(
    *, compound: str, air_c: float, self_cooling_k: float, margin: float, air_pa: float
) -> bool:
    """Whether bottled gas still feeds a burner in this cold.

    Parameters
    ----------
    compound : str
        "propane", "butane" or "isobutane" [-]
    air_c : float
        Temperature of the air around the canister [degC]
    self_cooling_k : float
        How much colder the canister gets by its own boiling [K]
    margin : float
        Share by which its pressure must exceed that of the air [-]
    air_pa : float
        Air pressure at the place [Pa]

    Returns
    -------
    bool
        True if it feeds [-]

    Raises
    ------
    PhysicsError
        If the compound is unknown, the air pressure is not positive, the cooling or the margin
        is negative, or the canister's temperature lies outside -80 to 90 degC.

    Notes
    -----
    The gas must press harder than the air it flows into, so thin mountain air helps.

    References
    ----------
    .. [1] VDI_HEAT_ATLAS_2010, table 3 of part D3.1
    """
    POSITIVE.check(air_pa=air_pa)
    NOT_NEGATIVE.check(self_cooling_k=self_cooling_k, margin=margin)
    gas_pa = vapour_pressure_pa(compound=compound, temperature_c=air_c - self_cooling_k)
    return gas_pa > air_pa * (1 + margin)
