"""Households, diets and who eats of a dish, as they stand in the file."""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Discriminator, Field, Tag, create_model

from optimizer.model.eaters import MARKS
from optimizer.scenario.fields import Part, number
from optimizer.scenario.offers import Name, Stock, named
from optimizer.units import Unit

MOST_NAMES = 100
MOST_PEOPLE = 1000  # not a town
LONGEST_BACK_MIN = 1440


def listed(given: Any) -> Any:
    """Let one word stand for a list of one."""
    return [given] if isinstance(given, str) else given


def _or_empty(given: Any) -> Any:
    """Let nothing after a name stand for nothing said."""
    return {} if given is None else given


class People(Part):
    """Who eats."""

    adults: int = Field(ge=0, le=MOST_PEOPLE)
    children: int = Field(default=0, ge=0, le=MOST_PEOPLE)


class Portions(Part):
    """Who eats of one dish: a number of heads, or grown and small ones apart."""

    people: Annotated[float, number(0.1, MOST_PEOPLE)] | None = None
    adults: Annotated[float, number(0, MOST_PEOPLE)] = 0.0
    children: Annotated[float, number(0, MOST_PEOPLE)] = 0.0


class HousePart(Part):
    """One of several households: its people, and what it puts into the store."""

    adults: int | None = Field(default=None, ge=0, le=MOST_PEOPLE)
    children: int | None = Field(default=None, ge=0, le=MOST_PEOPLE)
    brings: dict[Name, Stock] = Field(default={}, max_length=MOST_NAMES)


Names = Annotated[
    list[Name],
    BeforeValidator(listed, json_schema_input_type=str | list[str]),
    Field(min_length=1, max_length=MOST_NAMES),
]


class DietPart(Part):
    """What some people do not eat."""

    without: Names
    of: Names | None = None
    people: (
        Annotated[People, BeforeValidator(named("adults"), json_schema_input_type=int | People)]
        | None
    ) = None
    allergy: bool = False


def _shape(given: Any) -> str:
    """Tell a list of names from households with their people."""
    return "list" if isinstance(given, list) else "people"


Houses = Annotated[
    Annotated[list[Name], Field(max_length=MOST_NAMES), Tag("list")]
    | Annotated[
        dict[
            Name,
            Annotated[
                HousePart,
                BeforeValidator(_or_empty, json_schema_input_type=HousePart | None),
                BeforeValidator(named("adults"), json_schema_input_type=int | HousePart | None),
            ],
        ],
        Field(max_length=MOST_NAMES),
        Tag("people"),
    ],
    Discriminator(_shape),
]
Diets = Annotated[
    dict[
        Name,
        Annotated[
            DietPart,
            BeforeValidator(named("without"), json_schema_input_type=str | DietPart),
        ],
    ],
    Field(max_length=MOST_NAMES),
]
Contains = list[Literal[MARKS]]  # type: ignore[valid-type]  # a tuple of words, as Literal takes it
Minutes = Annotated[float, Unit("min", gt=0, le=LONGEST_BACK_MIN, example="20 min")]

EATEN: dict[str, Any] = {
    "for": (Names | None, None),
    "carried": (Minutes | None, None),
    "back": (Minutes | None, None),
    "to": (Name | None, None),
}
"""What a dish says, or its meal for all of its dishes: who eats it, and where.

These are no fields of a class, since ``for`` is a word of Python.
"""

EatenPart: Any = create_model("EatenPart", __base__=Part, **EATEN)
