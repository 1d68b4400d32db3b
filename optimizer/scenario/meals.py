"""The menu laid out day by day: which dish, for whom, in which pot, eaten where."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from optimizer.model.eaters import Carrying, Group, Helping
from optimizer.model.household import DAY_MIN, Item
from optimizer.model.things import Dish
from optimizer.scenario.boiling_once import one_boil
from optimizer.scenario.document import Location
from optimizer.scenario.drawing import drawn_on
from optimizer.scenario.eaters import chosen, left_out_known
from optimizer.scenario.fed import Served, check_fed, suggested, unfed
from optimizer.scenario.schema import BoilPart
from optimizer.scenario.servings import Serving, item_of
from optimizer.scenario.variants import variant

if TYPE_CHECKING:
    from optimizer.scenario.household import Household

MOST_ITEMS = 10_000
BACK_MIN = 30  # a carrier is emptied and on its way back so long after the meal
EVEN = 1e-9


class Meals:
    """Makes the items of a menu; what is wrong is noted in the document."""

    def __init__(self, household: "Household", groups: Sequence[Group]) -> None:
        self.household = household
        self.document = household.document
        self.entries = household.entries
        self.groups = groups
        self.diets = tuple(household.entries.diets)
        self.served: list[Served] = []

    def items(self) -> tuple[Item, ...]:
        """Expand the menu day by day, in the order of serving."""
        found: list[tuple[int, int, int, Item]] = []
        for place, meal in enumerate(self.entries.menu):
            days = meal.on or tuple(range(1, self.entries.days + 1))
            if meal.on:
                self.household.beyond(("menu", place, "on"), meal.on)
            dishes = list(self._servings(place, meal, days))
            if (len(found) + len(days) * len(dishes)) > MOST_ITEMS:
                message = f"the menu comes to more than {MOST_ITEMS} dishes in all"
                self.document.problem(("menu",), "too_large", message)
                return ()
            for day in days:
                minute = (day - 1) * DAY_MIN + meal.at
                for order, each in enumerate(dishes):
                    item = item_of(each, day, meal.meal, minute)
                    found.append((minute, place, order, item))
        if not self.document.problems:
            check_fed(self.document, self.served, self.groups, self._known())
        ordered = sorted(found, key=lambda entry: entry[:3])
        return tuple(replace(entry[3], number=number) for number, entry in enumerate(ordered))

    def missing(self) -> list[tuple[int, dict[str, Any]]]:
        """Give a dish for those whom a meal leaves with nothing, and which meal that is."""
        lacks = unfed(self.served, self.groups)
        found = [(lack.place, suggested(lack, self._known())) for lack in lacks]
        once = [each for n, each in enumerate(found) if each not in found[:n]]
        return [(place, entry) for place, entry in once if entry is not None]

    def _known(self) -> dict[str, Dish]:
        """Give the dishes that a menu can name."""
        return {**self.household.shelf.dishes, **self.household.made_dishes}

    def _servings(self, place: int, meal: Any, days: Sequence[int]) -> Iterator[Serving]:
        """Find the dishes of a meal and who eats of each."""
        for order, part in enumerate(meal.dishes):
            at: Location = ("menu", place, "dishes", order)
            if isinstance(part, BoilPart):
                places = [(use, (*at, "one_boil", n)) for n, use in enumerate(part.one_boil)]
                uses = [
                    (use, each, here)
                    for use, here in places
                    for each in self._serving(use, meal, here, days)
                ]
                rules, jars = self.household.shelf.rules, self.household.made_cookers
                yield from one_boil(self.document, uses, meal.at, rules, jars)
                continue
            for each in self._serving(part, meal, at, days):
                yield from drawn_on(self.document, part, meal.at, each, at)

    def _serving(
        self, part: Any, meal: Any, at: Location, days: Sequence[int]
    ) -> Iterator[Serving]:
        """Find one dish and who eats of it; nothing if nobody does, or something is wrong."""
        place, order = int(at[1]), int(at[3])
        dish = self._dish(part, at)
        own, above = getattr(part, "for"), getattr(meal, "for")
        asked_at = at if own is not None else at[:2]
        who = own if own is not None else above
        unsure = {"households", "diets"} & self.household.faulty_keys
        names = None if unsure else who
        asked = chosen(self.document, names, self.groups, (*asked_at, "for"), self.diets)
        carried = self._carried(part, meal, at)
        if dish is None or asked is None:
            return
        eating = self._eating(dish, asked, at)
        if self.groups and not eating:
            return
        heads = self._portions(part.portions, eating, who, (*at, "portions"))
        if heads is None:
            return
        open_to_all = part.portions is None or who is not None
        self.served.append(
            Served(place, meal.meal, days, dish, tuple(asked if open_to_all else ()), eating)
        )
        yield Serving(dish, *heads, self._helpings(*heads, eating), carried, (place, order))

    def _dish(self, part: Any, at: Location) -> Dish | None:
        """Find a dish, with the foods as the file describes them and without what is left out."""
        household = self.household
        dish = household.things.look_up("dishes", part.dish, household.made_dishes, (*at, "dish"))
        if dish is None:
            return None
        foods = household.things.foods
        mixed = (
            replace(each, food=foods.get(each.food.name, each.food)) for each in dish.ingredients
        )
        whole: Dish = replace(dish, ingredients=tuple(mixed))
        if part.without is None:
            return whole
        known = {*household.shelf.foods, *foods}
        left_out_known(self.document, part.without, (*at, "without"), known)
        if self.document.faulty((*at, "without")):
            return None
        return variant(self.document, whole, part.without, (*at, "without"))

    def _eating(self, dish: Dish, asked: Sequence[int], at: Location) -> tuple[int, ...]:
        """Return the groups that eat a dish; note one that nobody eats for whom it is."""
        eating = tuple(n for n in asked if not self.groups[n].unfit(dish))
        if asked and not eating:
            foods = self.groups[asked[0]].unfit(dish)
            message = (
                f"nobody it is for eats {dish.label}: it has {foods[0].label}; "
                "leave that out with without:, or name others with for:"
            )
            self.document.problem((*at, "dish"), "diet", message)
        return eating

    def _portions(
        self, given: Any, eating: Sequence[int], who: Any, at: Location
    ) -> tuple[float, float] | None:
        """Count grown and small portions; a number of heads is shared out as those eating are."""
        people = self.entries.people
        groups = [self.groups[n] for n in eating]
        all_of_them = not groups or (who is None and len(groups) == len(self.groups))
        adults = people.adults if all_of_them else sum(group.adults for group in groups)
        children = people.children if all_of_them else sum(group.children for group in groups)
        if given is None:
            return float(adults), float(children)
        if given.people is None and given.adults + given.children > 0:
            return given.adults, given.children
        if given.people is None or given.adults or given.children:
            message = "expected a number of people, or adults and children, more than none"
            self.document.problem(at, "portions", message)
            return None
        grown = adults / max(adults + children, EVEN)
        return given.people * grown, given.people * (1 - grown)

    def _helpings(
        self, adults: float, children: float, eating: Sequence[int]
    ) -> tuple[Helping, ...]:
        """Share portions out among the groups that eat, grown and small ones apart."""
        groups = [self.groups[n] for n in eating]
        grown, small = sum(g.adults for g in groups), sum(g.children for g in groups)
        heads = grown + small
        return tuple(
            Helping(
                number,
                adults * (group.adults / grown if grown else group.people / heads),
                children * (group.children / small if small else group.people / heads),
            )
            for number, group in zip(eating, groups, strict=True)
        )

    def _carried(self, part: Any, meal: Any, at: Location) -> Carrying | None:
        """Say how a dish is carried away; its own word counts before that of its meal."""
        told = {key: getattr(part, key) for key in ("carried", "back", "to")}
        for key, value in told.items():
            told[key] = value if value is not None else getattr(meal, key)
        carried, back, to = told["carried"], told["back"], told["to"]
        if carried is None:
            wrong = any(self.document.faulty((*where, "carried")) for where in (at, at[:2]))
            if (back is not None or to is not None) and not wrong:
                message = "say how long it is carried as well, such as carried: 20 min"
                self.document.problem(at, "carried", message)
            return None
        minutes = round(carried)
        return Carrying(minutes, round(back) if back is not None else minutes + BACK_MIN, to or "")
