"""What may be bought, as the file says it."""

import pytest

from optimizer.model.household import OwnCooker, OwnPot, OwnStove
from optimizer.scenario.changes import with_value
from optimizer.scenario.reading import parse

SHOP = """\
shop:
  fuels:
    propane: {price: 9.50 EUR / 465 g, storage_limit: 4 x 465 g} # the shed holds no more
    kerosene: {price: 14 EUR / 5 L}
    electricity: {price: 0.30 EUR / kWh, storage_limit: 2 kWh}
  stoves: {kerosene_wick: 60 EUR}
  pots: {pot_8l: {price: 30 EUR, most: 2}}
  cookers: {jar_2l: 25 EUR, packed_box: 12 EUR}
  bottled_water: {price: 1.20 EUR / 6 L}
  treated_water: {price: 5 EUR / 100 L, most: 3}
"""


def test_all_of_it_is_read(good) -> None:
    shop = parse(good + SHOP).shop
    assert shop is not None
    propane, kerosene, power = shop.fuels
    assert (propane.price, propane.package) == pytest.approx((9.5, 0.465))
    assert propane.limit == pytest.approx(1.86)
    assert propane.store.stock_kg == pytest.approx(0.93)  # of the household
    assert kerosene.package == pytest.approx(5e-3 * 810)
    assert kerosene.limit is None
    assert kerosene.store.stock_kg == 0
    assert kerosene.store.price_kg == pytest.approx(14 / (5e-3 * 810))
    assert (power.package, power.limit) == pytest.approx((3.6e6, 7.2e6))
    assert power.store.stock_j == 0
    stove, pot, jar, box = (offer.own for offer in shop.things)
    assert isinstance(stove, OwnStove)
    assert stove.where == "outdoors"
    assert isinstance(pot, OwnPot)
    assert pot.count == 2
    assert isinstance(jar, OwnCooker)
    assert isinstance(box, OwnCooker)
    assert box.cooker.material is not None
    assert box.cooker.material.name == "newspaper"
    assert [offer.price for offer in shop.things] == [60, 30, 25, 12]
    bottled, treated = shop.water
    assert (bottled.kind, bottled.price, bottled.litres) == (
        "bottled",
        pytest.approx(1.2),
        pytest.approx(6),
    )
    assert (treated.kind, treated.most) == ("treated", 3)


def test_no_shop_is_none(good) -> None:
    assert parse(good).shop is None


def test_an_empty_shop_sells_nothing(good) -> None:
    shop = parse(good + "shop: {}\n").shop
    assert shop is not None
    assert not shop.fuels + shop.things + shop.water


@pytest.mark.parametrize(
    ("old", "new", "code", "words"),
    [
        ("9.50 EUR / 465 g", "9.50 USD / 465 g", "currency", "counts in EUR"),
        ("9.50 EUR / 465 g", "9.50 EUR", "price", "does not read as a price"),
        ("9.50 EUR / 465 g", "9.50 EUR / kWh", "unit_wrong", "counted by mass"),
        ("4 x 465 g", "2 kWh", "unit_wrong", "counted by mass"),
        ("price: 14 EUR / 5 L", "storage_limit: 5 L", "missing", "price"),
        ("kerosene: {price", "kerosin: {price", "unknown_name", "did you mean 'kerosene'"),
        ("60 EUR", "60", "price", "expected text such as '25 EUR'"),
        ("60 EUR", "60 USD", "currency", "counts in EUR"),
        ("60 EUR", "-60 EUR", "bounds", "may not be negative"),
        ("60 EUR", "dear", "price", "is no sum of money"),
        ("kerosene_wick", "kerosene_wik", "unknown_name", "did you mean 'kerosene_wick'"),
        ("kerosene_wick", "alcohol_burner", "no_fuel", "neither in the house nor in the shop"),
        ("most: 2", "most: 0", "bounds", "at least 1"),
        ("pot_8l:", "pot_80l:", "unknown_name", "unknown pot"),
        ("jar_2l", "jar_9l", "unknown_name", "unknown cooker"),
        ("1.20 EUR / 6 L", "1.20 EUR / 6 kg", "unit_wrong", "sold by volume"),
        ("bottled_water", "botled_water", "unknown_key", "did you mean 'bottled_water'"),
    ],
)
def test_a_fault_is_told_where_it_stands(good, told, old, new, code, words) -> None:
    assert SHOP.count(old) == 1 or old in ("60 EUR",)
    problems = told(good + SHOP.replace(old, new, 1))
    assert [problem.code for problem in problems if words in problem.message] == [code]
    assert all(problem.key.startswith("shop") for problem in problems)
    assert all(problem.line is not None and problem.line > good.count("\n") for problem in problems)


def test_all_faults_are_told_at_once(good, told) -> None:
    text = SHOP.replace("kerosene:", "kerosin:").replace("jar_2l", "jar_9l")
    text = text.replace("pot_8l", "pot_80l").replace("6 L}", "6 kg}")
    problems = told(good.replace("pot_4l: 2", "pot_4l: two") + text)
    assert len(problems) == 6  # the stove has no fuel either


def test_a_stove_of_the_house_says_where_a_bought_one_stands(good) -> None:
    owned = good.replace("gas_burner: 1", "gas_burner: {count: 0, where: vented hob}")
    shop = parse(owned + "shop: {stoves: {gas_burner: 40 EUR}}\n").shop
    assert shop is not None
    (offer,) = shop.things
    assert isinstance(offer.own, OwnStove)
    assert offer.own.where == "vented hob"


def test_a_change_keeps_the_comments(good) -> None:
    changed = with_value(good + SHOP, ("shop", "fuels", "propane", "price"), "8 EUR / 465 g")
    assert "# the shed holds no more" in changed
    shop = parse(changed).shop
    assert shop is not None
    assert shop.fuels[0].price == pytest.approx(8)
