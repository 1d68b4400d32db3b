"""Amounts, prices and what may be bought, as they stand in the file."""

from typing import Annotated, Any

from pydantic import BeforeValidator, Field, PlainValidator, ValidationInfo

from optimizer.scenario.fields import Part, fault
from optimizer.units import Quantity, QuantityError, read_money, read_price, read_stock

UNLIMITED = "unlimited"
Name = Annotated[str, Field(min_length=1, max_length=60)]


def named(key: str) -> Any:
    """Let a bare word or number stand for a mapping with one key.

    Parameters
    ----------
    key
        The key.
    """

    def wrap(given: Any) -> Any:
        bare = isinstance(given, str | int | float) and not isinstance(given, bool)
        return {key: given} if bare else given

    return wrap


def _stock(given: Any) -> Quantity | None:
    """Read what there is of a fuel; None is without limit."""
    if not isinstance(given, str):
        raise fault(
            "unit_missing", f"expected text such as '12 kg' or '2 x 465 g', given {given!r:.60}"
        )
    if given.strip() == UNLIMITED:
        return None
    try:
        return read_stock(given)
    except QuantityError as error:
        raise fault(error.code, str(error)) from error


def _price(given: Any, info: ValidationInfo) -> Quantity | None:
    """Read a price in the currency of the scenario; unread while that is not known."""
    currency = (info.context or {}).get("currency")
    if currency is None:
        return None
    if not isinstance(given, str):
        raise fault(
            "price", f"expected text such as '4.50 {currency} / 465 g', given {given!r:.60}"
        )
    try:
        return read_price(given, currency)
    except QuantityError as error:
        raise fault(error.code, str(error)) from error


def _money(given: Any, info: ValidationInfo) -> float | None:
    """Read a sum in the currency of the scenario; unread while that is not known."""
    currency = (info.context or {}).get("currency")
    if currency is None:
        return None
    if not isinstance(given, str):
        raise fault("price", f"expected text such as '25 {currency}', given {given!r:.60}")
    try:
        return read_money(given, currency)
    except QuantityError as error:
        raise fault(error.code, str(error)) from error


Stock = Annotated[Quantity | None, PlainValidator(_stock, json_schema_input_type=str)]
Price = Annotated[Quantity | None, PlainValidator(_price, json_schema_input_type=str)]
Money = Annotated[float | None, PlainValidator(_money, json_schema_input_type=str)]
Bought = Annotated[int, Field(ge=1, le=1000)]


class FuelOfferPart(Part):
    """A fuel that may be bought: the price of a package, and how much the house may hold."""

    price: Price
    storage_limit: Stock = None


class ThingOfferPart(Part):
    """A stove, pot or cooker that may be bought."""

    price: Money
    most: Bought = 1


class WaterOfferPart(Part):
    """Water that needs no boiling: the price of a package and how many at most."""

    price: Price
    most: Bought = 1000


Fuels = Annotated[dict[Name, FuelOfferPart], Field(max_length=50)]
ThingsOffered = Annotated[
    dict[
        Name,
        Annotated[
            ThingOfferPart,
            BeforeValidator(named("price"), json_schema_input_type=str | ThingOfferPart),
        ],
    ],
    Field(max_length=50),
]


class ShopPart(Part):
    """What may be bought."""

    fuels: Fuels = Field(default={})
    stoves: ThingsOffered = Field(default={})
    pots: ThingsOffered = Field(default={})
    cookers: ThingsOffered = Field(default={})
    bottled_water: WaterOfferPart | None = None
    treated_water: WaterOfferPart | None = None
    budget: Money = None
