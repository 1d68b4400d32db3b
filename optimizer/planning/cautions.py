"""Which cautions a plan calls for: each one when it must be said, and only then."""

from collections.abc import Callable, Sequence

from optimizer import shelf
from optimizer.model.household import Item, OwnCooker, OwnStove, Scenario
from optimizer.model.plan import Caution, Step
from optimizer.physics import water


def cautions_of(steps: Sequence[Step], scenario: Scenario) -> tuple[Caution, ...]:
    """Return the cautions of a plan in the order of the table, with the dishes they are about."""
    told = []
    for row in shelf.load().cautions.values():
        rule = RULES[row.trigger]
        hit = [step for step in steps if rule(Case(step, scenario, steps))]
        if hit:
            about = () if row.trigger in GENERAL else tuple(dict.fromkeys(s.item for s in hit))
            told.append(Caution(row.code, row.text, about))
    return tuple(told)


class Case:
    """One step with the things it uses."""

    def __init__(self, step: Step, scenario: Scenario, steps: Sequence[Step] = ()) -> None:
        self.step, self.scenario, self.steps = step, scenario, steps
        self.item: Item = scenario.items[step.number]
        self.own: OwnStove = next(s for s in scenario.stoves if s.stove.name == step.stove)
        self.cooker: OwnCooker | None = next(
            (c for c in scenario.cookers if c.cooker.name == step.cooker), None
        )
        self.fuel = next(s.fuel for s in scenario.stores if s.fuel.name == step.fuel)
        uses = [draw.of for draw in self.item.drawn if draw.of is not None]
        self.dishes = uses or [self.item.dish]  # a big boil is for several
        self.foods = [i.food for dish in self.dishes for i in dish.ingredients]
        self.steeped = any(draw.steep is not None for draw in self.item.drawn)

    @property
    def packed(self) -> bool:
        """A hot pot goes into packing."""
        return self.cooker is not None and self.cooker.cooker.kind == "packed"


def _of_a_diet(case: Case) -> bool:
    """Tell whether people with a diet are among those who eat a dish."""
    return bool(case.scenario.diets_of(case.item))


def _unstated(case: Case) -> bool:
    """Tell whether nothing is stated of a food in a dish for people with a diet."""
    return _of_a_diet(case) and any(food.contains is None for food in case.foods)


def _pot_used_before(case: Case) -> bool:
    """Tell whether a pot of its kind, or a jar, held before what its eaters leave out."""
    diets = case.scenario.diets_of(case.item)
    for other in case.steps:
        same = other.pot == case.step.pot or (
            case.cooker is not None
            and case.cooker.cooker.kind == "vacuum"
            and other.cooker == case.step.cooker
        )
        dish = case.scenario.items[other.number].dish
        if same and other.on < case.step.on and any(diet.unfit(dish) for diet in diets):
            return True
    return False


def _on_foam(case: Case) -> bool:
    material = case.cooker.cooker.material if case.cooker else None
    hottest = water.boiling_point_c(water.air_pressure_pa(case.scenario.place.altitude_m))
    return material is not None and material.greatest_c < (case.item.dish.heat_c or hottest)


def _packed_under_pressure(case: Case) -> bool:
    """Tell whether a pot may go into packing before its pressure has fallen."""
    allowed = case.cooker is not None and case.cooker.pressure_allowed
    return allowed and case.packed and case.step.pressure


def _in_packing(case: Case) -> bool:
    material = case.cooker.cooker.material if case.cooker else None
    return material is not None and material.flammable and case.own.stove.flame


GENERAL = {
    "always",
    "flames_outdoors",
    "char_left",
    "charcoal",
    "alcohol_refill",
    "liquid_refill",
    "children_scald",
    "water_chemicals",
    "water_altitude",
    "leftovers",
    "thermometer",
    "reheat",
    "soot_in_packing",
    "allergy",
    "carried",
}
"""Cautions about the whole plan; the others name their dishes."""

RULES: dict[str, Callable[[Case], bool]] = {
    "always": lambda _: True,
    "flames_outdoors": lambda c: c.own.stove.flame and c.own.where != "vented hob",
    "char_left": lambda c: c.fuel.kind == "wood",
    "charcoal": lambda c: c.fuel.kind == "charcoal",
    "alcohol_refill": lambda c: c.fuel.kind == "alcohol",
    "liquid_refill": lambda c: c.fuel.kind == "liquid",
    "pressure_pot": lambda c: c.step.pressure,
    "pressure_packed": _packed_under_pressure,
    "hot_base_on_foam": _on_foam,
    "soot_in_packing": _in_packing,
    "phaseolus": lambda c: any(food.phaseolus for food in c.foods),
    "rice": lambda c: any("rice" in food.name for food in c.foods),
    "reheat": lambda c: c.steeped or (c.cooker is not None and c.step.serve_rule == "hot"),
    "children_scald": lambda c: c.scenario.children > 0,
    "infants": lambda c: any(dish.disinfects and dish.serve == "at" for dish in c.dishes),
    "water_altitude": lambda c: (
        c.item.dish.disinfects and c.scenario.place.altitude_m > c.scenario.rules.water_high_m
    ),
    "water_chemicals": lambda c: c.item.dish.disinfects,
    "leftovers": lambda c: c.step.serve_rule == "hot",
    "raw_meat": lambda c: any(food.endpoint_c is not None for food in c.foods),
    "thermometer": lambda c: c.steeped or (c.cooker is not None and c.step.serve_rule == "hot"),
    "tablet": lambda c: c.fuel.kind == "tablet",
    "tinned": lambda c: any("tinned" in food.name for food in c.foods),
    "hot_bottle": lambda c: any(
        dish.heat_c is not None and (dish.serve_c or 0.0) >= c.scenario.rules.hot_c
        for dish in c.dishes
    ),
    "diet": lambda c: c.scenario.is_apart(c.item),
    "allergy": lambda c: any(diet.allergy for diet in c.scenario.diets_of(c.item)),
    "diet_pot": _pot_used_before,
    "diet_unstated": _unstated,
    "carried": lambda c: c.item.carried is not None and c.step.serve_rule != "any",
    "part_filled": lambda c: c.packed and c.step.fill < c.scenario.rules.fill_least,
}
"""Trigger in the table of cautions -> whether a step calls for it."""
