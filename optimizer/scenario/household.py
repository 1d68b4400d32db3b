"""What a valid file says, put together: stores, stoves, hours, weather, the items of each day."""

from collections.abc import Iterable, Mapping
from itertools import pairwise
from typing import Any

from optimizer.model.household import (
    DAY_MIN,
    OwnCooker,
    OwnPot,
    OwnStove,
    Place,
    Scenario,
    Store,
    Weather,
    Window,
)
from optimizer.model.things import Cooker, Dish, Food, Fuel, Material, Pot, Stove
from optimizer.scenario.clock import read_days
from optimizer.scenario.document import Document, Location
from optimizer.scenario.eater_parts import MOST_PEOPLE
from optimizer.scenario.eaters import groups_of, houses_of
from optimizer.scenario.faults import near
from optimizer.scenario.fuels import store, where_it_stands
from optimizer.scenario.keeping import cold_of, fresh_of
from optimizer.scenario.meals import Meals
from optimizer.scenario.shop import shop_of
from optimizer.scenario.things import Things
from optimizer.shelf import load

GOALS = ("money", "energy", "tending")


class Household:
    """Builds the scenario of one file; what is wrong is noted in the document."""

    def __init__(self, document: Document, entries: Any, broken: Mapping[str, set[str]]) -> None:
        self.document = document
        self.entries = entries
        self.faulty_keys = {key for key, names in broken.items() if "*" in names}
        self.shelf = load()
        self.things = Things(document, self.shelf, broken)
        self._make_things()
        self.meals = Meals(self, ())

    def _make_things(self) -> None:
        """Make the things, those first that others are made of."""
        things, entries = self.things, self.entries
        things.materials = things.make(Material, "materials", entries.materials)
        things.foods = things.make(Food, "foods", entries.foods)
        self.fuels = things.make(Fuel, "fuels", entries.fuels)
        self.made_stoves = things.make(Stove, "stoves", entries.stoves)
        self.made_pots = things.make(Pot, "pots", entries.pots)
        self.made_cookers = things.make(Cooker, "cookers", entries.cookers)
        self.made_dishes = things.make(Dish, "dishes", entries.dishes)

    def scenario(self) -> Scenario | None:
        """Put the scenario together, or note what is wrong and give None."""
        entries, people = self.entries, self.entries.people
        self._check_people(people)
        stores, stoves = self._stores(), self._stoves()
        pots, cookers = self._pots(), self._cookers()
        windows, weather = self._windows(), self._weather()
        foods = {*self.shelf.foods, *self.things.foods}
        unsure = {*self.faulty_keys, *self.things.broken["fuels"]}
        houses = houses_of(self.document, entries, stores, unsure)
        groups = groups_of(self.document, entries, houses, foods, self.faulty_keys)
        self.meals = Meals(self, groups)
        items, goals = self.meals.items(), self._goals()
        cold = cold_of(self.document, entries.cold, self.shelf.rules, weather)
        fresh = fresh_of(self.document, entries.cold, entries.days)
        shop = shop_of(self, stores)
        if self.document.problems:
            return None
        return Scenario(
            title=entries.title,
            adults=people.adults,
            children=people.children,
            place=_place(entries.place),
            weather=weather,
            start=entries.start,
            currency=entries.currency,
            days=entries.days,
            windows=windows,
            cooks=entries.cooks,
            stores=stores,
            stoves=stoves,
            pots=pots,
            cookers=cookers,
            items=items,
            goals=goals,
            confidence=entries.confidence,
            rules=self.shelf.rules,
            cold=cold,
            fresh=fresh,
            shop=shop,
            houses=houses,
            groups=groups,
        )

    def _check_people(self, people: Any) -> None:
        """Somebody eats, and not a town."""
        count = people.adults + people.children
        if not 1 <= count <= MOST_PEOPLE:
            message = f"must come to 1 to {MOST_PEOPLE} people, comes to {count}"
            self.document.problem(("people",), "bounds", message)

    def _stores(self) -> tuple[Store, ...]:
        """Make the stores of fuel."""
        found = (
            store(self.document, fuel, self.entries.fuels[name], self.entries.reserve)
            for name, fuel in self.fuels.items()
            if name not in self.things.broken["fuels"]
        )
        return tuple(each for each in found if each is not None)

    def _stoves(self) -> tuple[OwnStove, ...]:
        """Make the stoves, each with its fuel in stock and standing where a flame may."""
        made = []
        for name, stove in self.made_stoves.items():
            entry = self.entries.stoves[name]
            fuel = self._fuel_of(stove)
            if fuel is not None:
                where = where_it_stands(self.document, stove, fuel, entry.where)
                made.append(OwnStove(stove, entry.count, where))
        self._some("stoves", "no_stove", "there is no stove; name one, such as stick_stove: 1")
        return tuple(own for own in made if own.count)

    def _fuel_of(self, stove: Stove) -> Fuel | None:
        """Find the fuel that a stove burns, if it is in stock."""
        fuel, at = self.fuels.get(stove.fuel), ("stoves", stove.name)
        if fuel is not None or stove.fuel in self.things.broken["fuels"]:
            return fuel
        if "fuels" in self.faulty_keys:
            return self.shelf.fuels.get(stove.fuel)
        if stove.fuel in self.shelf.fuels:
            message = f"it burns {stove.fuel}, of which there is no stock; name it under fuels"
            self.document.problem(at, "no_fuel", message)
        else:
            known = {*self.fuels, *self.shelf.fuels}
            message = f"unknown fuel '{stove.fuel}'{near(stove.fuel, known)}"
            self.document.problem((*at, "fuel"), "unknown_name", message)
        return None

    def _some(self, section: str, code: str, message: str) -> None:
        """Note when there is none at all of something that is needed."""
        whole = section not in self.faulty_keys and not self.things.broken[section]
        if whole and not any(entry.count for entry in getattr(self.entries, section).values()):
            self.document.problem((section,), code, message)

    def _pots(self) -> tuple[OwnPot, ...]:
        """Make the pots."""
        self._some("pots", "no_pot", "there is no pot; name one, such as pot_4l: 1")
        made = (OwnPot(pot, self.entries.pots[name].count) for name, pot in self.made_pots.items())
        return tuple(own for own in made if own.count)

    def _cookers(self) -> tuple[OwnCooker, ...]:
        """Make the insulated cookers, with the packing that the file describes."""
        made = []
        for name, cooker in self.made_cookers.items():
            entry = self.entries.cookers[name]
            whole = self.things.with_material(cooker)
            made.append(OwnCooker(whole, entry.count, entry.pressure_allowed))
        return tuple(own for own in made if own.count)

    def _windows(self) -> tuple[Window, ...]:
        """Lay the cook hours out over the days."""
        made: list[Window] = []
        by_day = self._by_day("cook_hours", self.entries.cook_hours, each_day=True)
        for day in range(1, self.entries.days + 1):
            hours, at = by_day.get(day, (None, ("cook_hours",)))
            if hours is None:
                message = f"day {day} has no cook hours; write 'every day:', or 'day {day}: []'"
                self.document.problem(at, "missing", message)
                continue
            self._check_overlap(hours, at)
            start = (day - 1) * DAY_MIN
            made += [Window(start + first, start + last) for first, last in sorted(hours)]
        return tuple(made)

    def _check_overlap(self, hours: list[tuple[int, int]], at: Location) -> None:
        """Note hours of one day that overlap."""
        ordered = sorted(range(len(hours)), key=lambda place: hours[place])
        for earlier, later in pairwise(ordered):
            if hours[later][0] < hours[earlier][1]:
                message = "these hours overlap others of the same day"
                self.document.problem((*at, later), "overlap", message)

    def _weather(self) -> tuple[Weather, ...]:
        """Lay the weather out over the days; the place's usual one where the file says nothing."""
        by_day = self._by_day("weather", self.entries.weather, each_day=False)
        usual = Weather(self.entries.place.outdoors, wind_m_s=0.0, rain=False, wet_sticks=False)
        made = []
        for day in range(1, self.entries.days + 1):
            given, _ = by_day.get(day, (None, ()))
            made.append(_weather(given, usual) if given else usual)
        return tuple(made)

    def _by_day(self, key: str, given: Any, *, each_day: bool) -> dict[int, tuple[Any, Location]]:
        """Spread a list or a mapping of days over the days."""
        days = self.entries.days
        if isinstance(given, list) and each_day:
            return dict.fromkeys(range(1, days + 1), (given, (key,)))
        if isinstance(given, list):
            listed: dict[int, tuple[Any, Location]] = {
                place + 1: (each, (key, place)) for place, each in enumerate(given)
            }
            for day in [day for day in listed if day > days]:
                self.beyond(listed[day][1], [day])
            return listed
        spread: dict[int, tuple[Any, Location]] = {}
        for text in self.document.plain[key]:
            named = read_days(text)
            if named is None:
                general = dict.fromkeys(range(1, days + 1), (given[None], (key, text)))
                spread = {**general, **spread}
                continue
            self.beyond((key, text), named)
            twice = [day for day in named if day in spread and spread[day][1] in self._named(key)]
            for day in twice:
                self.document.problem((key, text), "twice", f"day {day} is named a second time")
            spread.update(dict.fromkeys(named, (given[named], (key, text))))
        return spread

    def _named(self, key: str) -> set[Location]:
        """Find the keys that name days, rather than every day."""
        return {(key, text) for text in self.document.plain[key] if read_days(text) is not None}

    def beyond(self, at: Location, days: Iterable[int]) -> None:
        """Note days that the scenario does not have."""
        late = [day for day in days if day > self.entries.days]
        if late:
            message = f"day {late[0]} is beyond the last day, {self.entries.days}"
            self.document.problem(at, "beyond", message)

    def _goals(self) -> tuple[str, ...]:
        """Check what is to be made least."""
        known = [*GOALS, *self.entries.fuels]
        for place, goal in enumerate(self.entries.goal):
            if goal not in known and "fuels" not in self.faulty_keys:
                message = f"unknown goal '{goal}'{near(goal, known)}"
                self.document.problem(("goal", place), "unknown_name", message)
            if goal in self.entries.goal[:place]:
                self.document.problem(("goal", place), "twice", f"'{goal}' stands twice")
        return tuple(self.entries.goal)


def _place(given: Any) -> Place:
    return Place(given.altitude, given.kitchen, given.outdoors, given.water)


def _weather(given: Any, usual: Weather) -> Weather:
    """Weather of one day."""
    outdoors = usual.outdoors_c if given.outdoors is None else given.outdoors
    return Weather(outdoors, given.wind, given.rain, given.wet_sticks, given.sun)
