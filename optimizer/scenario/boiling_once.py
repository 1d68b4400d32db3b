"""Water boiled once in one pot for several dishes, as the file says it."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from optimizer.model.eaters import Helping
from optimizer.model.household import Steep
from optimizer.model.things import Cooker, Dish, Ingredient, Rules
from optimizer.scenario.document import Document, Location
from optimizer.scenario.drawing import STAYS, drawable, water_of
from optimizer.scenario.servings import Serving, Use, by_heads

COLD_C = 1.0  # water that may be cold when it is drawn
FINE_M = 0.003  # half the size of what water heats through in a moment
WET = 0.5  # least share of water in what is steeped


def one_boil(
    document: Document,
    uses: Sequence[tuple[Any, Serving, Location]],
    meal_at: int,
    rules: Rules,
    jars: Mapping[str, Cooker],
) -> Iterator[Serving]:
    """Yield one pot of water for several dishes, or note what is wrong.

    Parameters
    ----------
    document
        Gets what is wrong.
    uses
        What the file says of each, its dish and for whom, and where it stands.
    meal_at
        Minute of the day of the meal.
    rules
        How hot water is that is poured on tea.
    jars
        Cookers of the household, by name.
    """
    wrong = False
    times = []
    for part, serving, at in uses:
        jar = jars.get(part.steep_in) if part.steep_in else None
        carried = serving.carried is not None
        for code, message in _wrong_use(part, meal_at, serving.dish, jar, carried=carried):
            document.problem(at, code, message)
            wrong = True
        poured = meal_at if part.at is None else part.at
        steep = None
        if jar is not None:
            steep = Steep(serving.dish, _adults(serving), jar, meal_at - poured)
        times.append((poured, serving, steep))
    if uses and not wrong:
        yield boiled_once(times, rules)


def _wrong_use(
    part: Any, meal_at: int, dish: Dish, jar: Cooker | None, *, carried: bool
) -> Iterator[tuple[str, str]]:
    """Yield what is wrong with one use of a big boil: code and message."""
    if carried:
        yield "contradiction", STAYS
    if part.drawn is not None:
        yield "contradiction", "say 'at' when its water is drawn, not 'drawn'"
    if part.steep_in is not None:
        yield from _wrong_steep(part, meal_at, dish, jar)
        return
    if not waterlike(dish):
        told = "is not made by pouring hot water; boil it itself, or steep it in a jar (steep_in)"
        yield "not_drawn", f"{dish.name} {told}"
    if part.at is not None and part.at < meal_at:
        yield "order", "it is drawn before the clock time of its meal"


def _wrong_steep(
    part: Any, meal_at: int, dish: Dish, jar: Cooker | None
) -> Iterator[tuple[str, str]]:
    if jar is None or jar.kind != "vacuum":
        yield "no_jar", f"{part.steep_in} is no vacuum jar of this household"
    if not steepable(dish):
        told = "cannot be steeped: only fine grain can, without beans, raw meat or soaking"
        yield "not_steeped", f"{dish.name} {told}"
    if part.at is None or part.at >= meal_at:
        yield "order", "say at which clock time before the meal water is poured on it (at)"


def steepable(dish: Dish) -> bool:
    """Tell whether a dish may finish in water poured on it: fine, and safe without a boil.

    Parameters
    ----------
    dish
        The dish.
    """
    foods = [each.food for each in dish.ingredients]
    safe = not any(food.phaseolus or food.endpoint_c is not None or food.frozen for food in foods)
    fine = all(food.half_size_m <= FINE_M for food in foods if food.shape != "liquid")
    plain = dish.serve == "hot" and dish.heat_c is None and not dish.soak_min
    return safe and fine and plain and water_of(dish) >= WET


def waterlike(dish: Dish) -> bool:
    """Tell whether a dish is water, or made by pouring water on very little.

    Parameters
    ----------
    dish
        The dish.
    """
    return drawable(replace(dish, serve="hot"))


def boiled_once(times: Sequence[tuple[int, Serving, Steep | None]], rules: Rules) -> Serving:
    """Return one pot of water for several dishes, drawn on for each at its time.

    Parameters
    ----------
    times
        Minute of the day, a dish and for whom, and in which jar it is steeped.
    rules
        How hot water is that is poured on tea.
    """
    ordered = sorted(times, key=lambda pair: pair[0])
    litres = [_water_kg(serving) for _, serving, _ in ordered]
    draws = tuple((at, kg / sum(litres)) for (at, *_), kg in zip(ordered, litres, strict=True))
    uses = tuple(Use(h.dish, _need_c(h.dish, rules), steep) for _, h, steep in ordered)
    dishes = [use.dish for use in uses]
    return Serving(
        _boil_of(dishes, uses[-1].need_c, sum(litres)),
        1.0,
        0.0,
        _shared([serving for _, serving, _ in ordered], sum(litres)),
        stands=ordered[0][1].stands,
        drawn=draws,
        uses=uses,
    )


def _shared(servings: Sequence[Serving], litres: float) -> tuple[Helping, ...]:
    """Return what each group has of the water of all uses, as shares of the pot."""
    mine: dict[int, float] = defaultdict(float)
    for each in servings:
        for part in by_heads(each.helpings, _water_kg(each)):
            mine[part.group] += part.adults / litres
    return tuple(Helping(group, share, 0.0) for group, share in sorted(mine.items()))


def _adults(serving: Serving) -> float:
    """Return portions in adult size."""
    return serving.adults + serving.children * serving.dish.child_share


def _water_kg(serving: Serving) -> float:
    return _adults(serving) * sum(i.kg for i in serving.dish.ingredients if i.food.name == "water")


def _need_c(dish: Dish, rules: Rules) -> float | None:
    """Return how hot the water has to be when it is drawn."""
    return rules.poured_c if dish.serve == "hot" else dish.serve_c


def _boil_of(dishes: Sequence[Dish], last_c: float | None, litres: float) -> Dish:
    """Return the pot of water as a dish: boiled if one of them is, for as long as that is."""
    slowest = max(dishes, key=lambda dish: (dish.heat_c is None, dish.boil_min, dish.heat_c or 0))
    water = next(i.food for i in slowest.ingredients if i.food.name == "water")
    return replace(
        slowest,
        name="one boil of " + ", ".join(dish.name for dish in dishes),
        label="one boil",
        ingredients=(Ingredient(water, litres),),
        child_share=1.0,
        serve="at",
        serve_c=COLD_C if last_c is None else last_c,
        disinfects=any(dish.disinfects for dish in dishes),
    )
