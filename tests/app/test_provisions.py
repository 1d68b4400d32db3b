"""The Kitchen page: what keeps food cold and what is for sale, edited field by field."""

import pytest

from optimizer.scenario.passages import plain_of
from optimizer.scenario.reading import parse

SOLD = """\
shop:
  fuels: {propane: {price: 9.50 EUR / 465 g}} # the village shop
  pots: {pot_4l: 24 EUR}
"""


def said(file, *at):
    found = plain_of(file.read_text(encoding="utf-8"))
    for part in at:
        found = found[part]
    return found


def typed(shown, key, given):
    shown.text_input(f"field:{key}").set_value(given).run()
    assert not shown.exception


@pytest.fixture(name="sold")
def _sold(file):
    file.write_text(file.read_text("utf-8") + SOLD, "utf-8")
    return file


def test_a_cold_place_is_said_by_its_end_or_by_when_its_power_went(window, file):
    shown = window("kitchen")
    typed(shown, "cold.fridge.until", "day 1 12:00")
    assert said(file, "cold") == {"fridge": {"until": "day 1 12:00"}}
    typed(shown, "cold.fridge.power_out", "day 1 03:00")  # what is typed last counts
    assert said(file, "cold") == {"fridge": {"power_out": "day 1 03:00"}}
    (cold,) = parse(file.read_text("utf-8")).cold
    assert (cold.place, cold.end_min) == ("fridge", 3 * 60 + 4 * 60)  # shut, it keeps 4 h
    typed(shown, "cold.fridge.power_out", "")
    assert "cold" not in said(file)
    assert not shown.error


def test_the_freezer_outdoors_and_what_is_bought(window, file):
    shown = window("kitchen")
    typed(shown, "cold.freezer.power_out", "day 1 03:00")
    shown.checkbox("field:cold.freezer.full").check().run()
    shown.checkbox("field:cold.outdoors").check().run()
    typed(shown, "cold.bought", "day 1 06:00, day 1 10:00")
    assert said(file, "cold") == {
        "freezer": {"power_out": "day 1 03:00", "full": True},
        "outdoors": True,
        "bought": ["day 1 06:00", "day 1 10:00"],
    }
    assert parse(file.read_text("utf-8")).cold[0].end_min == 3 * 60 + 48 * 60  # full: two days
    text = file.read_text("utf-8")
    assert text.startswith("# ours\n")
    assert "# early" in text


def test_a_wrong_moment_stays_typed_and_is_told(window, file):
    before = file.read_text("utf-8")
    shown = window("kitchen")
    typed(shown, "cold.ice_box.until", "tomorrow")
    assert file.read_text("utf-8") == before
    assert shown.text_input("field:cold.ice_box.until").value == "tomorrow"
    (error,) = shown.error
    assert error.value.startswith("Not taken: ")
    assert "tomorrow" in error.value


def test_fewer_days_take_out_what_is_bought_after_them(window, file):
    shown = window("kitchen")
    shown.number_input("field:days").set_value(2).run()
    typed(shown, "cold.bought", "day 1 06:00, day 2 10:00")
    shown.number_input("field:days").set_value(1).run()
    assert said(file, "cold", "bought") == ["day 1 06:00"]
    assert not shown.error


def test_prices_limits_and_numbers_of_what_is_for_sale(window, sold):
    shown = window("kitchen")
    typed(shown, "shop.budget", "60 EUR")
    typed(shown, "shop.fuels.propane.price", "8 EUR / 465 g")
    typed(shown, "shop.fuels.propane.storage_limit", "4 lb")
    typed(shown, "shop.pots.pot_4l.price", "20 EUR")
    shown.number_input("field:shop.pots.pot_4l.most").set_value(2).run()
    typed(shown, "shop.bottled_water.price", "1.20 EUR / 6 L")
    shown.number_input("field:shop.bottled_water.most").set_value(5).run()
    assert not shown.error
    assert said(sold, "shop") == {
        "fuels": {"propane": {"price": "8 EUR / 465 g", "storage_limit": "4 lb"}},
        "pots": {"pot_4l": {"price": "20 EUR", "most": 2}},
        "budget": "60 EUR",
        "bottled_water": {"price": "1.20 EUR / 6 L", "most": 5},
    }
    shop = parse(sold.read_text("utf-8")).shop
    assert shop.budget == 60
    assert shop.fuels[0].limit == pytest.approx(4 * 0.45359237)
    assert "# the village shop" in sold.read_text("utf-8")
    typed(shown, "shop.bottled_water.price", "")
    assert "bottled_water" not in said(sold, "shop")


def test_us_measures_are_shown_and_the_file_keeps_its_own(window, sold):
    shown = window("kitchen")
    shown.toggle[0].set_value(True).run()
    assert shown.text_input("field:shop.fuels.propane.price").value == "9.50 EUR / 16.4 oz"
    assert said(sold, "shop", "fuels", "propane", "price") == "9.50 EUR / 465 g"


@pytest.mark.parametrize(
    ("key", "given", "told"),
    [
        ("shop.fuels.propane.price", "9.50 EUR", "does not read as a price"),
        ("shop.fuels.propane.price", "", "missing"),
        ("shop.fuels.propane.storage_limit", "2 kWh", "counted by mass"),
        ("shop.pots.pot_4l.price", "dear", "is no sum of money"),
        ("shop.budget", "60 USD", "counts in EUR"),
        ("shop.treated_water.price", "5 EUR / 2 kg", "sold by volume"),
    ],
)
def test_what_is_wrong_is_not_taken_and_stands_at_its_field(window, sold, key, given, told):
    before = sold.read_text("utf-8")
    shown = window("kitchen")
    typed(shown, key, given)
    assert sold.read_text("utf-8") == before
    assert shown.text_input(f"field:{key}").value == given
    (error,) = shown.error
    assert told in error.value.replace("\\", "")


@pytest.mark.parametrize(
    ("kind", "name", "price", "entry"),
    [
        ("cookers", "jar_2l", "28 EUR", "28 EUR"),
        ("fuels", "kerosene", "14 EUR / 5 L", {"price": "14 EUR / 5 L"}),
    ],
)
def test_a_thing_is_added_undone_and_taken_out(window, sold, press, kind, name, price, entry):
    before = sold.read_text("utf-8")
    shown = window("kitchen")
    shown.selectbox("pick:shop").set_value((kind, name)).run()
    shown.text_input("price:shop").set_value(price).run()
    press(shown, "Add it to what is for sale")
    assert said(sold, "shop", kind, name) == entry
    press(shown, "Undo")
    assert sold.read_text("utf-8") == before
    shown.selectbox("pick:shop").set_value((kind, name)).run()
    press(shown, "Add it to what is for sale")
    shown.button(f"act:shop.{kind}.{name}.remove").click().run()
    assert not shown.error
    assert name not in said(sold, "shop", kind)


def test_a_stove_without_its_fuel_is_not_taken(window, sold, press):
    shown = window("kitchen")
    shown.selectbox("pick:shop").set_value(("stoves", "kerosene_wick")).run()
    shown.text_input("price:shop").set_value("60 EUR").run()
    press(shown, "Add it to what is for sale")
    assert "neither in the house nor in the shop" in shown.error[0].value
    assert "stoves" not in said(sold, "shop")
