"""All about one insulated cooker: the question a household asks, and the answer."""

import math
from dataclasses import dataclass

from optimizer.model.household import Scenario
from optimizer.model.things import Cooker, Dish, Material, Pot
from optimizer.planning.conditions import Conditions, Refused
from optimizer.shelf import load
from optimizer.studies.designs import Bag, Change, bag, changes, materials, rebuilt, thicknesses
from optimizer.studies.finishing import Finish, finish
from optimizer.studies.insulation import FullPot, Holding, filled, holding
from optimizer.studies.laying import Heap, Laid, lay


@dataclass(frozen=True, slots=True)
class BoxQuestion:
    """A cooker with a pot of something in it, and what is wanted to be known."""

    cooker: Cooker
    pot: Pot
    water: Dish  # what fills it when hours hot are asked
    fill: float  # share of the pot, or of the jar, that is full
    at: Conditions
    thick_m: tuple[float, ...] = ()
    packings: tuple[Material, ...] = ()
    dishes: tuple[Dish, ...] = ()
    boil_min: float = 0.0
    bag_m3: float | None = None
    heaps: tuple[Heap, ...] = ()
    beside: tuple[Material, ...] = ()  # other packings, to be set beside at every thickness

    @property
    def volume_m3(self) -> float:
        """How much is in it."""
        jar_m3 = self.cooker.volume_m3 if self.cooker.kind == "vacuum" else None
        return self.fill * (self.pot.volume_m3 if jar_m3 is None else jar_m3)

    @property
    def full(self) -> FullPot:
        """The pot with what fills it, and where."""
        return FullPot(self.pot, filled(self.water, self.volume_m3, self.at), self.at)


@dataclass(frozen=True, slots=True)
class BoxAnswer:
    """What is known of it."""

    question: BoxQuestion
    holding: Holding
    thicknesses: tuple[Holding, ...]
    beside: tuple[tuple[Holding, ...], ...]  # other packings at the same thicknesses
    changes: tuple[Change, ...]
    materials: tuple[tuple[Holding, Holding], ...]  # dry and damp
    bag: Bag | None
    laid: tuple[Laid, ...]
    dishes: tuple[Finish, ...]


def answer(question: BoxQuestion) -> BoxAnswer | Refused:
    """Return all about one insulated cooker.

    Parameters
    ----------
    question : BoxQuestion
        The cooker, and what is asked.

    Returns
    -------
    BoxAnswer or Refused
        Designs only of a packed cooker; or why the pot cannot go in.

    Raises
    ------
    PhysicsError
        If a size lies outside the range of a formula, or the bag holds too little.
    """
    q = question
    full = q.full
    held = holding(q.cooker, q.pot, full.load, q.at)
    if isinstance(held, Refused):
        return held
    packed = q.cooker.kind == "packed" and q.cooker.material is not None
    return BoxAnswer(
        question=q,
        holding=held,
        thicknesses=thicknesses(q.cooker, full, q.thick_m) if packed else (),
        beside=tuple(
            thicknesses(rebuilt(q.cooker, material=each), full, q.thick_m)
            for each in (q.beside if packed else ())
        ),
        changes=changes(q.cooker, q.pot, q.water, q.fill, q.at) if packed else (),
        materials=materials(q.cooker, full, q.packings) if packed else (),
        bag=bag(q.cooker, full, q.bag_m3) if packed and q.bag_m3 else None,
        laid=lay(q.cooker, full, q.heaps) if packed and q.heaps else (),
        dishes=tuple(
            finish(dish, q.cooker, q.pot, q.volume_m3, q.at, q.boil_min) for dish in q.dishes
        ),
    )


# what a household can ask about


def known_cookers(scenario: Scenario) -> dict[str, Cooker]:
    """Return the household's cookers by name, then those on the shelf."""
    own = {each.cooker.name: each.cooker for each in scenario.cookers}
    return {**own, **{name: each for name, each in load().cookers.items() if name not in own}}


def known_pots(scenario: Scenario) -> dict[str, Pot]:
    """Return the household's pots by name, then those on the shelf."""
    own = {each.pot.name: each.pot for each in scenario.pots}
    return {**own, **{name: each for name, each in load().pots.items() if name not in own}}


def usual_cooker(scenario: Scenario) -> Cooker:
    """Return the first packed cooker of the household, else the packed box of the shelf."""
    own = (each.cooker for each in scenario.cookers if each.cooker.kind == "packed")
    return next(own, load().cookers["packed_box"])


def known_packings(scenario: Scenario) -> tuple[Material, ...]:
    """Return every packing that is known, those of the household's cookers first."""
    own = [each.cooker.material for each in scenario.cookers if each.cooker.material]
    known = {each.name: each for each in own}
    return tuple({**load().materials, **known}[name] for name in {**known, **load().materials})


def usual_pot(scenario: Scenario, cooker: Cooker) -> Pot:
    """Return the largest pot of the household that goes into a cooker."""
    own = [each.pot for each in scenario.pots]
    plain = [pot for pot in own if not pot.gauge_pa] or own or [load().pots["pot_4l"]]
    goes_in = [
        pot
        for pot in plain
        if pot.diameter_m <= (cooker.greatest_pot_diameter_m or math.inf)
        and pot.height_m <= (cooker.greatest_pot_height_m or math.inf)
    ]
    return max(goes_in or plain, key=lambda pot: pot.volume_m3)
