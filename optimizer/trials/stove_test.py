"""The working out of a water boiling test, phase by phase."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from optimizer.errors import InputError, PhysicsError
from optimizer.model.things import Fuel, Pot, Stove
from optimizer.physics import heating, water
from optimizer.planning.contents import pot_heat_j_k
from optimizer.scenario.document import Document
from optimizer.scenario.faults import near
from optimizer.trials import stove
from optimizer.trials.boiling_test import COLD_WATER_KG_M3, BoilingTest, Simmer, Start
from optimizer.trials.stove_result import PHASES, Phase, PhaseResult, StoveTest
from optimizer.units import Quantity

THERMOMETER_K: Final = 0.5  # standard deviation of a reading: common practice, no source
SPILLS: Final = 1.1  # a pot of 2.5 L may hold a little more up to its rim
SEA_LEVEL_C: Final = 100.0


def stove_test(
    document: Document,
    test: BoilingTest | None,
    fuels: Mapping[str, Fuel],
    pots: Mapping[str, Pot],
    tested: Stove | None = None,
) -> StoveTest:
    """Work a boiling test out.

    Parameters
    ----------
    document : Document
        The file, with its problems [-]
    test : BoilingTest, optional
        What it says [-]
    fuels : mapping
        Fuels that can be named [-]
    pots : mapping
        Pots that can be named [-]
    tested : Stove, optional
        Whose numbers it is to give [-]

    Returns
    -------
    StoveTest
        Every phase, and the numbers for a plan [-]

    Raises
    ------
    InputError
        If anything is wrong with the file; all of it at once.

    References
    ----------
    .. [1] WBT_4_2_3, p 1, high power cold and hot start, low power simmer.
    """
    fuel = _named(document, "fuel", test.fuel if test else None, fuels)
    pot = _named(document, "pot", test.pot if test else None, pots)
    if tested is not None and fuel is not None and tested.fuel != fuel.name:
        message = f"the {tested.label} burns {tested.fuel}, not {fuel.name}"
        document.problem(("fuel",), "contradiction", message)
    if test is None or fuel is None or pot is None or document.problems:
        raise InputError(document.problems)
    _goes_in(document, test, pot)
    boils_c = _boils_c(test)
    phases: list[PhaseResult] = []
    groups: dict[Phase, Sequence[Start | Simmer]] = {
        "cold": test.cold,
        "hot": test.hot,
        "simmer": test.simmer,
    }
    for phase, runs in groups.items():
        for place, run in enumerate(runs):
            try:
                made = _phase(phase, place, run, test, fuel, pot, boils_c)
                made.efficiency(char_kept=test.char_kept)  # above 1: a slip in what was weighed
                phases.append(made)
            except PhysicsError as error:
                listed = isinstance(document.plain[phase], list)
                at = (phase, place) if listed else (phase,)
                document.problem(at, "out_of_range", str(error))
    if document.problems:
        raise InputError(document.problems)
    return StoveTest(test, fuel, pot, boils_c, tuple(phases), tested)


def _named(document: Document, key: str, name: str | None, known: Mapping[str, Any]) -> Any:
    said = document.plain.get(key) if name is None else name
    if not isinstance(said, str):
        return None
    found = known.get(said)
    if found is None:
        document.problem((key,), "unknown_name", f"unknown {key} '{said:.40}'{near(said, known)}")
    return found


def _goes_in(document: Document, test: BoilingTest, pot: Pot) -> None:
    """Note where more water was weighed than goes into the pot."""
    for phase in PHASES:
        listed = isinstance(document.plain.get(phase), list)
        for place, run in enumerate(getattr(test, phase)):
            if run.water / COLD_WATER_KG_M3 > SPILLS * pot.volume_m3:
                at = (phase, place) if listed else (phase,)
                message = f"so much water does not go into the {pot.label}"
                document.problem((*at, "water"), "contradiction", message)


def _boils_c(test: BoilingTest) -> float:
    if test.boils_at is not None:
        return test.boils_at
    if test.altitude is None:
        return SEA_LEVEL_C
    return float(water.boiling_point_c(water.air_pressure_pa(test.altitude)))


@dataclass(frozen=True, slots=True)
class _Burned:
    dry_kg: float | None
    fuel_j: float
    burned_j: float
    lhv_j_kg: float


def _burned(run: Start | Simmer, test: BoilingTest, fuel: Fuel, boils_c: float) -> _Burned:
    """Fuel of one run, less its char and with it."""
    lhv = test.lhv if test.lhv is not None else fuel.lhv_j_kg
    if run.fuel.unit == "J":
        return _Burned(None, run.fuel.value, run.fuel.value, 1.0)
    if lhv is None:
        raise PhysicsError(f"{fuel.label} is not weighed; write for example 'fuel: 0.25 kWh'")
    kg = _kg(run.fuel, fuel)
    moist = fuel.kind in {"wood", "charcoal"}
    moisture = test.moisture if test.moisture is not None else (fuel.moisture if moist else 0.0)
    effective = stove.effective_fuel_value_j_kg(
        lhv_j_kg=lhv, moisture=moisture, boiling_c=boils_c, air_c=test.air
    )
    dry = stove.equivalent_dry_kg(
        moist_kg=kg, effective_j_kg=effective, char_kg=run.char, lhv_j_kg=lhv
    )
    return _Burned(dry, dry * lhv, kg * effective, lhv)


def _kg(burned: Quantity, fuel: Fuel) -> float:
    if burned.unit == "kg":
        return burned.value
    if fuel.density_kg_m3 is None:
        raise PhysicsError(f"{fuel.label} has no known density; weigh it")
    return burned.value * fuel.density_kg_m3


def _phase(
    phase: Phase,
    place: int,
    run: Start | Simmer,
    test: BoilingTest,
    fuel: Fuel,
    pot: Pot,
    boils_c: float,
) -> PhaseResult:
    burned, gone_kg, time_s = (
        _burned(run, test, fuel, boils_c),
        run.water - run.water_left,
        60 * run.time,
    )
    start = run if isinstance(run, Start) else None
    rise_k = start.water_to - start.water_from if start else 0.0
    boiled = run.water_left * (rise_k / (boils_c - start.water_from) if start else 1.0)
    weighed_kg, value = (burned.dry_kg or burned.fuel_j), burned.lhv_j_kg
    net = stove.thermal_efficiency(
        water_kg=run.water if start else 0.0,
        rise_k=rise_k,
        evaporated_kg=gone_kg,
        dry_kg=weighed_kg,
        lhv_j_kg=value,
    )
    consumption = stove.specific_consumption(dry_kg=weighed_kg, boiled_kg=boiled)
    energy = consumption * value
    return PhaseResult(
        phase=phase,
        place=place,
        time_s=time_s,
        dry_kg=burned.dry_kg,
        fuel_j=burned.fuel_j,
        burned_j=burned.burned_j,
        net=net,
        power_w=stove.firepower_w(dry_kg=weighed_kg, lhv_j_kg=value, time_s=time_s),
        boiled_kg=boiled,
        consumption=None if burned.dry_kg is None else consumption,
        energy_j_kg=stove.for_standard_rise(value=energy, rise_k=rise_k) if start else energy,
        time_75_s=stove.for_standard_rise(value=time_s, rise_k=rise_k) if start else None,
        into_water_j=net * burned.fuel_j,
        into_pot_j=_into_pot_j(start, test, pot, time_s) if start else 0.0,
        measured_spread=_measured(run, test, rise_k, net * burned.fuel_j),
    )


def _into_pot_j(start: Start, test: BoilingTest, pot: Pot, time_s: float) -> float:
    """Heat that warmed the pot, and that side and lid lost, midway between start and end."""
    middle_c = (start.water_from + start.water_to) / 2
    loss = heating.pot_loss_w_k(
        diameter_m=pot.diameter_m,
        height_m=pot.height_m,
        surface_c=middle_c,
        air_c=test.air,
        wind_m_s=test.wind,
        emissivity=pot.emissivity,
    )
    lost_j = max(0.0, loss * (middle_c - test.air)) * time_s
    return pot_heat_j_k(pot) * (start.water_to - start.water_from) + lost_j


def _measured(run: Start | Simmer, test: BoilingTest, rise_k: float, useful_j: float) -> float:
    """Relative standard deviation of an efficiency by the steps of scale and thermometer."""
    step_kg = test.scale / math.sqrt(6)  # difference of two readings, each even within a step
    fuel = step_kg / run.fuel.value if run.fuel.unit == "kg" else 0.02
    steam = step_kg * stove.EVAPORATED_J_KG / useful_j if useful_j > 0 else 0.0
    heat = math.sqrt(2) * THERMOMETER_K / rise_k if rise_k else 0.0
    return math.hypot(fuel, steam, heat, step_kg / run.water)
