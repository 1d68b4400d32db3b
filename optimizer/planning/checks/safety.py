"""What must not happen: rules of pots, beans, water, pressure, flames and gas."""

from collections.abc import Iterator

from optimizer.model.household import DAY_MIN
from optimizer.model.plan import Amount
from optimizer.model.things import Food
from optimizer.physics import food, fuel
from optimizer.planning.checks.dish import MEAN_C, Case, parts_of
from optimizer.planning.checks.heat import centre_share
from optimizer.planning.checks.rest import Telling

EVEN = 1e-6
NEAR_CENTRE = 0.005  # of the rise; the numerical piece is that good
NEAR_MIN = 0.01
NEAR_KG = 0.001


def pot_faults(case: Case) -> Iterator[str]:
    """Yield a pot too full, or one that does not go where it is put."""
    step, rules, pot = case.step, case.scenario.rules, case.own_pot.pot
    share = case.volume_m3 / pot.volume_m3
    if abs(step.fill - share) > EVEN:
        yield f"{case.name}: fill is {share:.4f}, not {step.fill:.4f}"
    most = rules.fill_most
    if pot.gauge_pa > 0:
        most = rules.fill_pressure_swelling if case.swells else rules.fill_pressure
    if share > most + EVEN:
        yield f"{case.name}: fills {share:.0%} of {pot.name}, {most:.0%} is the most"
    if pot.gauge_pa > 0 and case.item.dish.foams:
        yield f"{case.name}: foams, and is in a pressure pot"
    yield from _cooker_faults(case)
    amounts = tuple(Amount(f.label, kg) for f, kg in case.foods if f.name != "water")
    told = {amount.food: amount.kg for amount in step.ingredients}
    if {amount.food for amount in amounts} != set(told) or any(
        abs(told[a.food] - a.kg) > EVEN for a in amounts
    ):
        yield f"{case.name}: ingredients are not those of the dish for so many portions"


def _cooker_faults(case: Case) -> Iterator[str]:
    if case.cooker is None:
        return
    cooker, pot = case.cooker.cooker, case.own_pot.pot
    if cooker.kind == "vacuum":
        if case.volume_m3 > (cooker.volume_m3 or 0.0) + EVEN * pot.volume_m3:
            litres = 1000 * case.volume_m3
            yield f"{case.name}: {litres:.1f} L do not go into the cooker {cooker.name}"
        return
    wide, high = cooker.greatest_pot_diameter_m, cooker.greatest_pot_height_m
    if (wide and pot.diameter_m > wide) or (high and pot.height_m > high):
        yield f"{case.name}: pot {pot.name} does not go into the cooker {cooker.name}"


def water_faults(telling: Telling) -> Iterator[str]:
    """Yield water that is not what the dish takes and boils off."""
    case = telling.case
    true = sum(kg for f, kg in case.foods if f.name == "water") + telling.steam_kg
    if abs(case.step.water_kg - true) > NEAR_KG:
        yield f"{case.name}: water is {true:.3f} kg, not {case.step.water_kg:.3f}"


def soak_faults(case: Case) -> Iterator[str]:
    """Yield a dish that is soaked too late."""
    step, wanted = case.step, float(case.item.dish.soak_min)
    if _lectin(case):
        wanted = max(wanted, case.scenario.rules.bean_soak_min)
    if not wanted:
        return
    soaked = 0 if step.soak_from is None else step.on - step.soak_from
    if soaked < wanted:
        yield f"{case.name}: is soaked {soaked} min, {wanted:.0f} is the least"


def boil_faults(telling: Telling) -> Iterator[str]:
    """Yield a dish that leaves the fire before it may, for beans, water and cold cores."""
    case, hold = telling.case, telling.hold_min
    if hold < -NEAR_MIN:
        yield f"{case.name}: leaves the fire {-hold:.1f} min before it is at {case.top_c:.0f} degC"
    if case.item.dish.heat_c is None:
        beans_c = case.scenario.rules.bean_boil_c
        if _lectin(case) and not case.own_pot.pot.gauge_pa and case.open_boil_c < beans_c:
            yield f"{case.name}: beans boil at {case.open_boil_c:.1f} degC, which does not count"
        for what, least in _least_hold_min(case):
            if hold < least - NEAR_MIN:
                yield f"{case.name}: {what} boil {hold:.1f} min, {least:.0f} is the least"
    elif _lectin(case):
        yield f"{case.name}: beans are warmed and not boiled"
    yield from _centre_faults(telling)


def _lectin(case: Case) -> bool:
    return any(f.phaseolus for f, _ in case.foods)


def _least_hold_min(case: Case) -> Iterator[tuple[str, float]]:
    rules = case.scenario.rules
    if _lectin(case):
        pressure = case.own_pot.pot.gauge_pa > 0
        yield "beans", rules.bean_pressure_min if pressure else rules.bean_boil_min
    if case.item.dish.disinfects:
        high = case.scenario.place.altitude_m >= rules.water_high_m
        yield "litres to drink", rules.water_boil_high_min if high else rules.water_boil_min


def _centre_faults(telling: Telling) -> Iterator[str]:
    """Yield pieces whose centre is still cold when the pot leaves the fire."""
    case, rules = telling.case, telling.case.scenario.rules
    for item, _ in case.foods:
        if item.shape == "liquid" or not item.half_size_m:
            continue
        diffusivity = float(food.diffusivity_m2_s(**parts_of(item), temperature_c=MEAN_C))
        share = centre_share(
            half_size_m=item.half_size_m,
            shape=item.shape,
            diffusivity_m2_s=rules.diffusivity_share * diffusivity,
            ramp_s=60 * telling.up_min,
            hold_s=60 * max(0.0, telling.hold_min),
        )
        least = rules.heated_through
        if case.item.dish.heat_c is None and share < least - NEAR_CENTRE:
            yield f"{case.name}: {item.label} is heated through by {share:.0%}, not {least:.0%}"
        centre_c = case.start_c + share * (case.top_c - case.start_c)
        if item.endpoint_c is not None and centre_c < item.endpoint_c:
            yield f"{case.name}: {item.label} is {centre_c:.0f} degC inside when it leaves the fire"


def slow_faults(telling: Telling) -> Iterator[str]:
    """Yield food that is too long on its way through the danger."""
    case, rules = telling.case, telling.case.scenario.rules
    if case.item.dish.serve != "hot":
        return
    low = max(case.start_c, rules.slow_from_c)
    slow = case.up_min(case.fired, case.fired.careful_w, low, min(rules.slow_to_c, case.top_c))
    if slow > rules.slow_max_min * (1 + EVEN):
        yield f"{case.name}: takes {slow:.0f} min to get hot, {rules.slow_max_min:.0f} is the most"


def spoil_faults(case: Case) -> Iterator[str]:
    """Yield raw meat, fish or eggs that were out of the cold too long before they are heated."""
    raw = [f for f, _ in case.foods if f.keeping == "perishable" or _raw(f)]
    if not raw:
        return
    scenario, on = case.scenario, case.step.on
    got = max((got for got in scenario.fresh if got <= on), default=None)
    if got is None or _minutes_out(case, got) > _most_out(case, got):
        labels = " and ".join(food.label for food in raw)
        yield f"{case.name}: {labels} is out of the cold too long before it goes on the fire"


def _raw(item: Food) -> bool:
    return item.keeping is None and item.endpoint_c is not None


def _minutes_out(case: Case, got: int) -> int:
    """Count the minutes in which nothing keeps it cold, until the pot goes on."""
    at, out = got, 0
    for start, end in sorted((c.start_min, c.end_min) for c in case.scenario.cold):
        out += max(0, min(start, case.step.on) - at)
        at = max(at, end)
    return out + max(0, case.step.on - at)


def _first_out(case: Case, got: int) -> int:
    """Give the minute at which the cold first ends."""
    at = got
    for start, end in sorted((c.start_min, c.end_min) for c in case.scenario.cold):
        at = max(at, end) if start <= at else at
    return min(at, case.step.on)


def _most_out(case: Case, got: int) -> float:
    """Give the most minutes out of the cold: fewer if any day of them has hot air."""
    rules, scenario = case.scenario.rules, case.scenario
    last = len(scenario.weather) - 1
    days = range(_first_out(case, got) // DAY_MIN, case.step.on // DAY_MIN + 1)
    outdoors_c = (scenario.weather[min(day, last)].outdoors_c for day in days)
    hot = max(scenario.place.kitchen_c, *outdoors_c) >= rules.hot_air_c
    return rules.fresh_hot_min if hot else rules.fresh_min


def pressure_faults(case: Case) -> Iterator[str]:
    """Yield a pot packed or served before its pressure has gone by itself."""
    allowed = (
        case.cooker is not None
        and case.cooker.pressure_allowed
        and case.cooker.cooker.kind == "packed"
    )
    if not case.fall_min or allowed:
        return
    gone = case.step.off + case.fall_min
    if min(case.rest_from, case.step.serve) < gone - NEAR_MIN:
        yield f"{case.name}: is opened or packed {case.fall_min:.0f} min too early, under pressure"


def flame_faults(case: Case) -> Iterator[str]:
    """Yield a flame indoors, and gas that will not feed."""
    if case.own.stove.flame and case.own.where not in ("outdoors", "vented hob"):
        yield f"{case.name}: flame indoors, {case.step.stove} is not a vented hob"
    if case.store.fuel.kind == "charcoal" and case.own.where != "outdoors":
        yield f"{case.name}: charcoal burns outdoors only, {case.step.stove} is {case.own.where}"
    compound, rules = case.store.fuel.vapour, case.scenario.rules
    if compound is None:
        return
    for on, _ in case.burns:
        air_c = case.fired_at(on).air_c
        gas_pa = fuel.vapour_pressure_pa(
            compound=compound, temperature_c=air_c - rules.gas_self_cooling_k
        )
        if gas_pa <= case.air_pa * (1 + rules.gas_margin):
            yield f"{case.name}: {case.step.fuel} will not feed at {air_c:.0f} degC"
