"""What to buy, in words: with caution where nothing is proven."""

from dataclasses import replace

import pytest

from optimizer.model.household import (
    FuelOffer,
    OwnCooker,
    OwnStove,
    Scenario,
    Store,
    ThingOffer,
    WaterOffer,
)
from optimizer.report.buying import buying_text, cautions_told, without
from optimizer.report.buying_result import buying_json
from optimizer.shelf import load
from optimizer.studies.buying.minding import minding
from optimizer.studies.buying.offers import Offer
from optimizer.studies.buying.purchase import Bought, Change, Purchase

THINGS = load()
STORE = Store(THINGS.fuels["propane"], 0.0, None, 20.0, None, 0.465, 0.1)
GAS = Offer("fuel", "propane", "propane", 9.5, 5, 0.465, FuelOffer(STORE, 9.5, 0.465, 2.0))
POWER = Store(THINGS.fuels["electricity"], None, 0.0, None, 1e-7, None, 0.0)
CELL = Offer(
    "fuel", "electricity", "stored electricity", 2.0, 5, 3.6e6, FuelOffer(POWER, 2, 3.6e6, None)
)
WATER = Offer("water", "treated", "treated water", 5.0, 9, 100.0, WaterOffer("treated", 5, 100, 9))
BOTTLE = Offer("water", "bottled", "bottled water", 1.0, 9, 6.0, WaterOffer("bottled", 1, 6, 9))
OWN = OwnStove(THINGS.stoves["kerosene_wick"], 1, "outdoors")
STOVE = Offer("stove", "kerosene_wick", "kerosene wick stove", 60.0, 1, 1, ThingOffer(OWN, 60.0))
BOX = Offer(
    "cooker", "packed_box", "packed box", 12.0, 1, 1,
    ThingOffer(OwnCooker(THINGS.cookers["packed_box"], 1), 12.0),
)  # fmt: skip


def bought(offer: Offer, count: int = 1, without: float | None = None, **other) -> Bought:
    litres = 30.0 if offer.kind == "water" else None
    known = other.pop("known", True)
    return Bought(offer, count, count * offer.price, ("tea", "rice"), litres, without, known)


@pytest.fixture(name="purchase")
def _purchase(scenario: Scenario) -> Purchase:
    things = (bought(GAS, 2), bought(CELL), bought(WATER), bought(STOVE), bought(BOX))
    basket = minding((GAS, CELL, WATER, STOVE, BOX), (2, 1, 1, 1, 1))
    return Purchase(scenario, 9, None, 98.0, 98.0, known=True, bought=things, cautions=basket)


def test_whole_packages_are_named(purchase):
    told = buying_text(purchase)
    for words in (
        "2 x 465 g of propane", "1 x 1 kWh of stored electricity", "1 x 100 L of treated water",
        "1 x kerosene wick stove", "1 x packed box", "- treated water: 30 L not boiled",
        "buy for 98.00 EUR", "that is proven",
    ):  # fmt: skip
        assert words in told
    assert max(map(len, told.splitlines())) <= 80


def test_in_us_measures(purchase):
    assert "2 x 1.03 lb of propane" in buying_text(purchase, "us")


def test_what_is_not_proven_is_said(purchase):
    told = buying_text(replace(purchase, known=False, bound=90.0))
    assert "Less than 90.00 EUR cannot do; whether something between does is not" in told
    assert "that is proven" not in told


@pytest.mark.parametrize(
    ("cost", "known", "words"),
    [
        (None, True, "cannot be done"),
        (120.0, True, "22.00 more"),
        (98.0, True, "as cheap"),
        (120.0, False, "at least 22.00 more"),
        (98.0, False, "not known"),
    ],
)
def test_doing_without(purchase, cost, known, words):
    assert without(bought(GAS, without=cost, known=known), purchase) == words


def test_a_refusal_is_only_as_sure_as_its_proof(scenario):
    none = Purchase(scenario, 9, 20.0, None, None, known=True)
    assert none.refused
    assert "Nothing that lasts 9 days can be bought within 20.00 EUR." in buying_text(none)
    dear = replace(none, bound=25.0, known=False)
    assert dear.refused
    unsure = replace(none, bound=15.0, known=False)
    assert not unsure.refused
    assert "Nothing that lasts 9 days was found within 20.00 EUR." in buying_text(unsure)
    assert buying_json(unsure)["status"] == "none_found"
    assert buying_json(none)["status"] == "infeasible"


def test_each_change_is_said(scenario):
    changes = (
        Change("money", 28.0, 8.0),
        Change("limit", 20.0, 0.0, ((GAS, 2.325),)),
        Change("both", 24.0, 4.0, ((GAS, 2.325), (CELL, 7.2e6))),
    )
    told = buying_text(Purchase(scenario, 9, 20.0, None, None, known=True, changes=changes))
    flat = " ".join(told.split())
    assert "8.00 EUR more would do: 28.00 EUR in all." in flat
    assert "With room for 2.4 kg of propane it would be 20.00 EUR" in flat
    assert "2.4 kg of propane and 2 kWh of stored electricity" in flat
    assert "That is 4.00 EUR more than the budget." in flat
    assert flat.count("local fire code") == 2


def test_the_usual_cautions_are_said(purchase):
    told = " ".join(cautions_told(purchase))
    for words in (
        "local fire code",
        "maker's instructions",
        "cloudy",
        "cryptosporidium",
        "outdoors",
    ):
        assert words.lower() in told.lower()
    assert "from memory" in told
    codes = [caution.code for caution in minding((GAS, WATER, BOTTLE), (0, 0, 2))]
    assert codes == ["bottled_water"]
    assert minding((GAS, WATER, BOTTLE), (0, 0, 0)) == ()
