"""All about one insulated cooker: the question a household asks, and the answer."""

from dataclasses import dataclass

from optimizer.model.things import Cooker, Dish, Material, Pot
from optimizer.planning.conditions import Conditions, Refused
from optimizer.studies.designs import Bag, Change, bag, changes, materials, thicknesses
from optimizer.studies.finishing import Finish, finish
from optimizer.studies.insulation import Holding, filled, holding


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

    @property
    def volume_m3(self) -> float:
        """How much is in it."""
        jar_m3 = self.cooker.volume_m3 if self.cooker.kind == "vacuum" else None
        return self.fill * (self.pot.volume_m3 if jar_m3 is None else jar_m3)


@dataclass(frozen=True, slots=True)
class BoxAnswer:
    """What is known of it."""

    question: BoxQuestion
    holding: Holding
    thicknesses: tuple[Holding, ...]
    changes: tuple[Change, ...]
    materials: tuple[tuple[Holding, Holding], ...]  # dry and damp
    bag: Bag | None
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
    load = filled(q.water, q.volume_m3, q.at)
    held = holding(q.cooker, q.pot, load, q.at)
    if isinstance(held, Refused):
        return held
    packed = q.cooker.kind == "packed" and q.cooker.material is not None
    round_pot = (q.cooker, q.pot, load, q.at)
    return BoxAnswer(
        question=q,
        holding=held,
        thicknesses=thicknesses(*round_pot, q.thick_m) if packed else (),
        changes=changes(q.cooker, q.pot, q.water, q.fill, q.at) if packed else (),
        materials=materials(*round_pot, q.packings) if packed else (),
        bag=bag(*round_pot, q.bag_m3) if packed and q.bag_m3 else None,
        dishes=tuple(
            finish(dish, q.cooker, q.pot, q.volume_m3, q.at, q.boil_min) for dish in q.dishes
        ),
    )
