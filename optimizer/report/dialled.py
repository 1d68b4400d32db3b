"""What one dish takes under dialled conditions, told; and where the dials stand at first."""

from dataclasses import dataclass, replace
from itertools import product

from optimizer.model.household import OwnCooker, Scenario
from optimizer.model.things import Cooker, Dish, Material, Pot
from optimizer.planning.conditions import Refused
from optimizer.planning.stock import store_of
from optimizer.report.heat import HeatBar, bar_of
from optimizer.report.kitchen import hours
from optimizer.report.measures import Measures, duration, in_measures
from optimizer.shelf import Shelf
from optimizer.studies.dials import Answer, Cooked, Dials, dialled, fill_of

Row = dict[str, str]
LEAST_FILL, MOST_FILL = 0.2, 0.8
IN_COOKER, ON_FLAME = "then into the cooker", "on the flame until done"


def first_cooker(scenario: Scenario, shelf: Shelf) -> Cooker:
    """Give the household's first packed cooker that is not only measured, or that of the shelf.

    Parameters
    ----------
    scenario
        The household.
    shelf
        The shelf.
    """
    packed = (own.cooker for own in scenario.cookers if _packed(own))
    return next(packed, shelf.cookers["packed_box"])


def _packed(own: OwnCooker) -> bool:
    return own.cooker.kind == "packed" and own.cooker.material is not None


def first_dials(scenario: Scenario, shelf: Shelf, dish: Dish, stove: int, pot: Pot) -> Dials | None:
    """Give the dials as the household's first day sets them.

    Parameters
    ----------
    scenario
        The household.
    shelf
        The shelf.
    dish
        A dish of its menu.
    stove
        Which of its stoves.
    pot
        One of its pots.

    Returns
    -------
    Dials or None
        None where there is no fuel for the stove.
    """
    own, cooker = scenario.stoves[stove], first_cooker(scenario, shelf)
    store = store_of(scenario, own.stove.fuel)
    if store is None:
        return None
    portions = next((i.adult_portions for i in scenario.items if i.dish == dish), 1.0)
    fill = fill_of(dish, portions, pot, scenario)
    return Dials(
        dish=dish,
        stove=own,
        store=store,
        pot=pot,
        cooker=cooker,
        material=cooker.material or shelf.materials["wool_blanket"],
        thickness_m=cooker.thickness_m or 0.1,
        fill=min(MOST_FILL, max(LEAST_FILL, fill)),
        wind_m_s=scenario.weather[0].wind_m_s,
        altitude_m=scenario.place.altitude_m,
        moisture=store.fuel.moisture,
    )


def first_choice(scenario: Scenario, shelf: Shelf) -> tuple[str, int, int]:
    """Choose the dish, stove and pot in which the cooker saves most.

    Parameters
    ----------
    scenario
        The household.
    shelf
        The shelf.

    Returns
    -------
    tuple
        Name of the dish, position of the stove and of the pot.
    """
    best, most = (scenario.items[0].dish.name, 0, 0), -1.0
    dishes = {item.dish.name: item.dish for item in scenario.items if item.dish.serve != "any"}
    for dish, (stove, _), (pot, own) in product(
        dishes.values(), enumerate(scenario.stoves), enumerate(scenario.pots)
    ):
        dials = first_dials(scenario, shelf, dish, stove, own.pot)
        saved = None if dials is None else dialled(scenario, dials).saved
        if saved is not None and saved > most:
            best, most = (dish.name, stove, pot), saved
    return best


@dataclass(frozen=True, slots=True)
class Turn:
    """Where the sliders of a page stand, in the units written on them."""

    material: Material
    thickness_cm: float
    fill_percent: float
    moisture_percent: float
    wind_m_s: float
    altitude_m: float
    lid: bool


def turn_of(dials: Dials) -> Turn:
    """Say where the sliders stand for these dials, within their ends.

    Parameters
    ----------
    dials
        The dials.
    """
    return Turn(
        material=dials.material,
        thickness_cm=round(100 * dials.thickness_m),
        fill_percent=round(100 * dials.fill),
        moisture_percent=round(100 * dials.moisture),
        wind_m_s=round(dials.wind_m_s),
        altitude_m=100 * round(dials.altitude_m / 100),
        lid=dials.lid,
    )


def turned(dials: Dials, turn: Turn) -> Dials:
    """Turn the dials to where the sliders stand.

    Parameters
    ----------
    dials
        As they were.
    turn
        The sliders.
    """
    return replace(
        dials,
        material=turn.material,
        thickness_m=turn.thickness_cm / 100,
        fill=turn.fill_percent / 100,
        moisture=turn.moisture_percent / 100,
        wind_m_s=turn.wind_m_s,
        altitude_m=turn.altitude_m,
        lid=turn.lid,
    )


def dial_rows(answer: Answer, system: Measures) -> list[Row]:
    """Set both ways out as a table.

    Parameters
    ----------
    answer
        The answer.
    system
        The measures.
    """
    return [
        _row(IN_COOKER, answer.boxed, system),
        _row(ON_FLAME, answer.flame, system),
    ]


def _row(name: str, way: Cooked | Refused, system: Measures) -> Row:
    if isinstance(way, Refused):
        blank = dict.fromkeys(("boils after", "on the stove", "done after", "stays hot"), "")
        return {"way": name, "fuel": f"does not work: {in_measures(way.reason, system)}", **blank}
    weight = "" if way.fuel_kg is None else f" ({system.fuel(way.fuel_kg)})"
    return {
        "way": name,
        "fuel": f"{system.energy(way.fuel_mj)}{weight}",
        "boils after": duration(way.boil_min),
        "on the stove": duration(way.stove_min),
        "done after": duration(way.done_min),
        "stays hot": f"about {hours(way.hot_h)}, counted on {hours(way.careful_h, down=True)}",
    }


def dial_bars(answer: Answer, system: Measures) -> tuple[HeatBar, ...]:
    """Set out the heat of the ways that work.

    Parameters
    ----------
    answer
        The answer.
    system
        The measures.
    """
    named = ((IN_COOKER, answer.boxed), (ON_FLAME, answer.flame))
    return tuple(
        bar_of(name, _takes(way, system), way.heat)
        for name, way in named
        if isinstance(way, Cooked)
    )


def _takes(way: Cooked, system: Measures) -> str:
    return f"{system.energy(way.fuel_mj)}, {duration(way.stove_min)} on the stove"


def saved_words(answer: Answer) -> str:
    """Say what the cooker saves of the fuel.

    Parameters
    ----------
    answer
        The answer.
    """
    if answer.saved is None:
        return "One of the two ways does not work, so there is nothing to set it against."
    return f"The cooker saves about {100 * answer.saved:.0f} % of the fuel here."
