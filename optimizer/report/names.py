"""What the cook calls a thing: the labels of a scenario by the names that a plan uses."""

import re
from collections import Counter
from collections.abc import Iterable
from typing import Protocol

from optimizer.model.household import Scenario
from optimizer.model.plan import Step
from optimizer.model.things import Cooker, Fuel, Stove
from optimizer.planning.contents import DRY


class _Thing(Protocol):
    """Anything on the shelf."""

    @property
    def name(self) -> str: ...
    @property
    def label(self) -> str: ...


def _labels(things: Iterable[_Thing]) -> dict[str, str]:
    """Give labels by name: without what follows a comma or a bracket, where that is clear."""
    full = {thing.name: thing.label for thing in things}
    short = {name: re.split(r",| \(", label)[0] for name, label in full.items()}
    twice = {label for label, count in Counter(short.values()).items() if count > 1}
    return {name: full[name] if label in twice else label for name, label in short.items()}


class Names:
    """The things of one scenario by name, kind by kind."""

    def __init__(self, scenario: Scenario) -> None:
        self.stoves: dict[str, Stove] = {own.stove.name: own.stove for own in scenario.stoves}
        self.places = {own.stove.name: own.where for own in scenario.stoves}
        self.cookers: dict[str, Cooker] = {own.cooker.name: own.cooker for own in scenario.cookers}
        self.fuels: dict[str, Fuel] = {store.fuel.name: store.fuel for store in scenario.stores}
        self._stoves = _labels(self.stoves.values())
        self._pots = _labels(own.pot for own in scenario.pots)
        self._cookers = _labels(self.cookers.values())
        self._fuels = _labels(self.fuels.values())
        items = (*scenario.items, *(each.item for each in scenario.under_way))
        self._away = {i.number: i.carried.to for i in items if i.carried and i.carried.to}
        foods = [part.food for item in scenario.items for part in item.dish.ingredients]
        self._foods = {food.name: food.label for food in foods}
        self._dry = {word for f in foods if f.water < DRY for word in (f.name, f.label)}
        self._beans = {word for f in foods if f.phaseolus for word in (f.name, f.label)}

    def stove(self, name: str) -> str:
        """Say which stove."""
        return self._stoves.get(name, _spaced(name))

    def pot(self, name: str) -> str:
        """Say which pot."""
        return self._pots.get(name, _spaced(name))

    def cooker(self, name: str) -> str:
        """Say which insulated cooker."""
        return self._cookers.get(name, _spaced(name))

    def fuel(self, name: str) -> str:
        """Say which fuel."""
        return self._fuels.get(name, _spaced(name))

    def food(self, name: str) -> str:
        """Say which food, by its name or its label; how it is cut stands in brackets."""
        kind, _, cut = self._foods.get(name, _spaced(name)).partition(", ")
        return f"{kind} ({cut})" if cut else kind

    def dish(self, step: Step, pots: Iterable[Step]) -> str:
        """Say which dish, for where it is carried, and which of its pots where there are several.

        Parameters
        ----------
        step
            One pot of it.
        pots
            All that are on at any time.
        """
        to = self._away.get(step.number)
        several = any(each.number == step.number and each.batch > 1 for each in pots)
        away = f" for {to}" if to else ""
        return f"{step.item}{away}, pot {step.batch}" if several else f"{step.item}{away}"

    def is_bean(self, name: str) -> bool:
        """Tell whether a food, by name or label, is a bean that must be soaked."""
        return name in self._beans

    def is_dry(self, name: str) -> bool:
        """Tell whether a food, by name or label, is dry."""
        return name in self._dry


def _spaced(name: str) -> str:
    """Write a name that has no label."""
    return name.replace("_", " ")
