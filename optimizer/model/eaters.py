"""Who eats: households that share a kitchen, diets, and who eats of which dish."""

from dataclasses import dataclass

from optimizer.model.things import Dish, Food

MARKS = (
    "meat",
    "fish",
    "shellfish",
    "milk",
    "egg",
    "gluten",
    "nuts",
    "peanuts",
    "soya",
    "sesame",
    "celery",
    "mustard",
)
"""What a food may be said to contain."""


@dataclass(frozen=True, slots=True)
class Brought:
    """So much of a fuel put into the common store; kilograms, or joules without a mass."""

    fuel: str
    kg: float | None
    j: float | None


@dataclass(frozen=True, slots=True)
class House:
    """One of several households that share a kitchen; equal heads where the file says none."""

    name: str
    adults: float
    children: float
    brings: tuple[Brought, ...] = ()


@dataclass(frozen=True, slots=True)
class Diet:
    """What some people do not eat: marks such as "meat", or single foods by name."""

    name: str
    without: tuple[str, ...]
    allergy: bool = False

    def leaves_out(self, food: Food) -> bool:
        """Tell whether it leaves out a food; one of which nothing is stated is let in."""
        return food.name in self.without or bool({*self.without} & {*(food.contains or ())})

    def unfit(self, dish: Dish) -> tuple[Food, ...]:
        """Return the foods of a dish that it leaves out."""
        return tuple(each.food for each in dish.ingredients if self.leaves_out(each.food))


@dataclass(frozen=True, slots=True)
class Group:
    """People of one household with the same diets; all groups together are all people."""

    house: str | None
    diets: tuple[Diet, ...]
    adults: float
    children: float

    @property
    def people(self) -> float:
        """How many."""
        return self.adults + self.children

    def unfit(self, dish: Dish) -> tuple[Food, ...]:
        """Return the foods of a dish that they do not eat."""
        return tuple(dict.fromkeys(food for diet in self.diets for food in diet.unfit(dish)))


@dataclass(frozen=True, slots=True)
class Helping:
    """What one group eats of a dish, in portions by heads."""

    group: int  # position in Scenario.groups
    adults: float
    children: float


@dataclass(frozen=True, slots=True)
class Carrying:
    """A dish that is eaten elsewhere: minutes on the way, and until its carrier is back."""

    minutes: int
    back_min: int  # after it is served
    to: str = ""  # where it is eaten, as people call it
