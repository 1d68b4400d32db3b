"""The Kitchen page: every field edits the file, what is wrong stands under its field."""

import pytest

from optimizer.scenario.passages import plain_of


def said(file, *at):
    found = plain_of(file.read_text(encoding="utf-8"))
    for part in at:
        found = found[part]
    return found


@pytest.mark.parametrize(
    ("key", "typed", "at", "value"),
    [
        ("title", "Another", ("title",), "Another"),
        ("place.altitude", "1050 ft", ("place", "altitude"), "1050 ft"),
        ("place.kitchen", "54 degF", ("place", "kitchen"), "54 degF"),
        ("weather[1].wind", "3 m/s", ("weather", 0, "wind"), "3 m/s"),
        ("cook_hours", "06:00-08:00, 12:00-13:00", ("cook_hours", 1), "12:00-13:00"),
        ("fuels.sticks.stock", "26 lb", ("fuels", "sticks", "stock"), "26 lb"),
        ("fuels.sticks.price", "1 EUR / kg", ("fuels", "sticks", "price"), "1 EUR / kg"),
        ("reserve", "10 %", ("reserve",), "10 %"),
        ("fuels.sticks.reserve", "25 %", ("fuels", "sticks", "reserve"), "25 %"),
        ("confidence", "0.95", ("confidence",), 0.95),
        ("cookers.packed_box.packing.thickness", "6 inch",
         ("cookers", "packed_box", "packing", "thickness"), "6 inch"),
    ],
)  # fmt: skip
def test_a_field_of_text_edits_the_file(window, file, key, typed, at, value):
    shown = window("kitchen")
    shown.text_input(f"field:{key}").set_value(typed).run()
    assert not shown.exception
    assert not shown.error
    assert said(file, *at) == value
    text = file.read_text(encoding="utf-8")
    assert text.startswith("# ours\n")
    assert "# early" in text


@pytest.mark.parametrize(
    ("key", "number", "at"),
    [
        ("people.adults", 4, ("people", "adults")),
        ("people.children", 0, ("people", "children")),
        ("cooks", 2, ("cooks",)),
        ("pots.pot_2_5l.count", 3, ("pots", "pot_2_5l")),
        ("days", 2, ("days",)),
    ],
)
def test_a_field_of_a_number_edits_the_file(window, file, key, number, at):
    shown = window("kitchen")
    shown.number_input(f"field:{key}").set_value(number).run()
    assert not shown.error
    assert said(file, *at) == number


def test_a_maker_s_word_on_pressure_is_said_of_a_packed_cooker_and_taken_back(window, file):
    shown = window("kitchen")
    box = "field:cookers.packed_box.pressure_allowed"
    shown.checkbox(box).check().run()
    assert not shown.error
    assert said(file, "cookers", "packed_box", "pressure_allowed") is True
    shown.checkbox(box).uncheck().run()
    assert "pressure_allowed" not in said(file, "cookers", "packed_box")
    told = [each.key for each in shown.checkbox]
    assert "field:cookers.jar_2l.pressure_allowed" not in told


def test_a_fuel_that_says_no_reserve_of_its_own_keeps_that_of_every_fuel(window, file):
    shown = window("kitchen")
    shown.text_input("field:fuels.sticks.reserve").set_value("25 %").run()
    shown.text_input("field:fuels.sticks.reserve").set_value("").run()
    assert not shown.error
    assert "reserve" not in said(file, "fuels", "sticks")


def test_boxes_and_choices_edit_the_file(window, file):
    shown = window("kitchen")
    shown.checkbox("field:weather[1].rain").check().run()
    shown.checkbox("field:weather[1].wet_sticks").check().run()
    shown.checkbox("field:weather[1].rain").uncheck().run()
    shown.selectbox("field:goal").set_value("tending").run()
    shown.selectbox("field:cookers.packed_box.packing.material").set_value("sheep_wool").run()
    shown.selectbox("field:stoves.gas_burner.where").set_value("vented hob").run()
    assert not shown.error
    assert said(file, "weather") == [{"wet_sticks": True}]
    assert said(file, "goal") == "tending"
    assert said(file, "cookers", "packed_box", "packing", "material") == "sheep_wool"
    assert said(file, "stoves", "gas_burner") == {"count": 1, "where": "vented hob"}


@pytest.mark.parametrize(
    ("key", "typed", "told"),
    [
        ("fuels.sticks.stock", "5", "has no unit"),
        ("fuels.sticks.stock", "", "missing"),
        ("fuels.sticks.price", "cheap", "cheap"),
        ("fuels.sticks.price", "1 USD / kg", "USD"),
        ("place.altitude", "9000 m", "5000"),
        ("place.water", "140 F", "degF"),
        ("weather[1].wind", "99 m/s", "40"),
        ("cook_hours", "08:00-06:00", "ends before"),
        ("cook_hours", "", "entries"),
        ("start", "tomorrow", "2027-01-15"),
        ("currency", "euro", "three capital letters"),
        ("reserve", "2", "at most"),
        ("title", "", "missing"),
    ],
)
def test_what_is_wrong_is_not_taken_stays_typed_and_is_told(window, file, key, typed, told):
    before = file.read_text(encoding="utf-8")
    shown = window("kitchen")
    shown.text_input(f"field:{key}").set_value(typed).run()
    assert file.read_text(encoding="utf-8") == before
    assert shown.text_input(f"field:{key}").value == typed
    (error,) = shown.error
    assert error.value.startswith("Not taken: ")
    assert told in error.value.replace("\\", "")


def test_the_reason_goes_when_the_field_is_mended(window, file):
    shown = window("kitchen")
    shown.text_input("field:fuels.sticks.stock").set_value("5").run()
    assert shown.error
    shown.text_input("field:fuels.sticks.stock").set_value("5 kg").run()
    assert not shown.error
    assert said(file, "fuels", "sticks", "stock") == "5 kg"


def test_what_was_typed_survives_a_page_change_and_other_edits(window, file):
    shown = window("kitchen")
    shown.text_input("field:fuels.sticks.stock").set_value("5").run()
    shown.text_input("field:place.kitchen").set_value("14 degC").run()
    shown.switch_page("views/menu.py").run()
    shown.switch_page("views/kitchen.py").run()
    assert shown.text_input("field:fuels.sticks.stock").value == "5"
    assert shown.text_input("field:place.kitchen").value == "14 degC"
    assert said(file, "place", "kitchen") == "14 degC"


def test_edits_survive_a_second_edit_a_page_change_and_a_new_session(window, file):
    shown = window("kitchen")
    shown.text_input("field:fuels.sticks.stock").set_value("5 kg").run()
    shown.number_input("field:people.adults").set_value(3).run()
    shown.switch_page("views/menu.py").run()
    shown.switch_page("views/kitchen.py").run()
    assert shown.text_input("field:fuels.sticks.stock").value == "5 kg"
    assert shown.number_input("field:people.adults").value == 3
    again = window("kitchen")
    assert again.text_input("field:fuels.sticks.stock").value == "5 kg"
    assert again.number_input("field:people.adults").value == 3


# things


@pytest.mark.parametrize(
    ("kind", "name", "entry"),
    [
        ("fuels", "charcoal", {"stock": "0 kg"}),
        ("fuels", "electricity", {"stock": "0 kWh"}),
        ("fuels", "sun", {}),
        ("stoves", "open_fire", 1),
        ("pots", "pressure_6l", 1),
        ("cookers", "jar_2l", 1),
    ],
)
def test_a_thing_is_added_from_the_shelf(window, file, press, kind, name, entry):
    one = {"fuels": "fuel", "stoves": "stove", "pots": "pot", "cookers": "insulated cooker"}[kind]
    shown = window("kitchen")
    shown.selectbox(f"pick:{kind}").set_value(name).run()
    press(shown, f"Add this {one}")
    assert not shown.error
    assert said(file, kind, name) == entry
    assert name not in shown.selectbox(f"pick:{kind}").options


def test_everything_on_the_shelf_can_be_added(window, file, press):
    from optimizer.shelf import load

    shown = window("kitchen")
    for kind, one in (("stoves", "stove"), ("cookers", "insulated cooker")):
        for name in getattr(load(), kind):
            if name not in said(file, kind):
                shown.selectbox(f"pick:{kind}").set_value(name).run()
                press(shown, f"Add this {one}")
                assert not shown.error, (name, shown.error[0].value)
    assert set(said(file, "stoves")) == set(load().stoves)


def test_a_stove_brings_its_fuel_of_which_there_is_none_yet(window, file, press):
    shown = window("kitchen")
    shown.selectbox("pick:stoves").set_value("charcoal_brazier").run()
    press(shown, "Add this stove")
    assert said(file, "stoves", "charcoal_brazier") == 1
    assert said(file, "fuels", "charcoal", "stock") == "0 kg"


def test_a_thing_of_their_own(window, file, press):
    shown = window("kitchen")
    shown.text_input("own label:pots").set_value("Big black pot").run()
    shown.selectbox("own like:pots").set_value("pot_6l").run()
    shown.button("own add:pots").click().run()
    assert not shown.error
    assert said(file, "pots", "big_black_pot") == {
        "like": "pot_6l", "label": "Big black pot", "count": 1,
    }  # fmt: skip
    shown.selectbox("another:pots.big_black_pot").set_value("mass").run()
    shown.text_input("field:pots.big_black_pot.mass").set_value("3.5 kg").run()
    assert said(file, "pots", "big_black_pot", "mass") == "3.5 kg"
    shown.text_input("field:pots.big_black_pot.mass").set_value("3 m").run()
    assert "Not taken" in shown.error[0].value
    assert said(file, "pots", "big_black_pot", "mass") == "3.5 kg"


def test_a_yes_or_no_of_a_thing(window, file):
    shown = window("kitchen")
    shown.selectbox("another:stoves.stick_stove").set_value("tended").run()
    shown.text_input("field:stoves.stick_stove.tended").set_value("no").run()
    assert said(file, "stoves", "stick_stove", "tended") is False


def test_a_thing_is_removed_and_had_back(window, file, press):
    before = file.read_text(encoding="utf-8")
    shown = window("kitchen")
    shown.button("act:cookers.packed_box.remove").click().run()
    assert said(file, "cookers") == {}
    press(shown, "Undo")
    assert file.read_text(encoding="utf-8") == before
    assert "packed box removed" in shown.info[0].value


@pytest.mark.parametrize(
    ("thing", "told"),
    [("fuels.sticks", "no stock"), ("pots.pot_2_5l", "no pot")],
)
def test_what_is_needed_is_not_removed(window, file, thing, told):
    before = file.read_text(encoding="utf-8")
    shown = window("kitchen")
    shown.button(f"act:{thing}.remove").click().run()
    assert told in shown.error[0].value
    assert file.read_text(encoding="utf-8") == before


def test_a_flame_cannot_be_put_indoors(window, file):
    shown = window("kitchen")
    assert "indoors" not in shown.selectbox("field:stoves.stick_stove.where").options


def test_hours_and_weather_by_days_have_their_fields(window, file):
    text = file.read_text(encoding="utf-8").replace("days: 1", "days: 6")
    text = text.replace('cook_hours: ["06:00-08:00"] # early', (
        'cook_hours: {every day: ["06:00-08:00"], day 2: ["07:00-09:00"]} # early\n'
        "weather: {every day: {wind: 1 m/s}, days 2-3: {rain: true}}"
    ))  # fmt: skip
    file.write_text(text, encoding="utf-8")
    shown = window("kitchen")
    shown.text_input("field:cook_hours.day 2").set_value("08:00-09:00").run()
    assert said(file, "cook_hours", "day 2") == ["08:00-09:00"]
    shown.selectbox("kept:weather of").set_value(2).run()
    assert shown.checkbox("field:weather.days 2-3.rain").value is True
    shown.text_input("field:weather.days 2-3.wind").set_value("4 m/s").run()
    assert not shown.error
    assert said(file, "weather") == {
        "every day": {"wind": "1 m/s"}, "day 2": {"rain": True, "wind": "4 m/s"},
        "day 3": {"rain": True},
    }  # fmt: skip


def test_a_huge_number_of_days_does_not_hang_a_page(window, file):
    text = file.read_text(encoding="utf-8").replace("days: 1", "days: 1000000000")
    file.write_text(text, encoding="utf-8")
    assert window("kitchen").error
    assert window("menu").error


def test_a_fault_of_the_file_stands_under_its_field(window, file):
    text = file.read_text(encoding="utf-8").replace("stock: 3 kg", "stock: 3")
    file.write_text(text, encoding="utf-8")
    shown = window("kitchen")
    assert any(error.value.startswith("Line 8: ") for error in shown.error)
    shown.text_input("field:fuels.sticks.stock").set_value("3 kg").run()
    assert not shown.error


# measures


def test_us_measures_are_shown_and_taken_and_the_file_keeps_its_own(window, file):
    before = file.read_text(encoding="utf-8")
    shown = window("kitchen").toggle[0].set_value(True).run()
    fields = {each.key: each.value for each in shown.text_input}
    assert fields["field:place.altitude"] == "328 ft"
    assert fields["field:place.kitchen"] == "59 degF"
    assert fields["field:fuels.sticks.stock"] == "6.61 lb"
    assert fields["field:fuels.propane.stock"] == "1 x 16.4 oz"
    assert file.read_text(encoding="utf-8") == before
    shown.text_input("field:fuels.sticks.stock").set_value("8 lb").run()
    after = file.read_text(encoding="utf-8")
    assert after == before.replace("stock: 3 kg", "stock: 8 lb")
    shown.toggle[0].set_value(False).run()
    assert shown.text_input("field:fuels.sticks.stock").value == "3.63 kg"
    assert file.read_text(encoding="utf-8") == after
