"""The Menu page: meals, days, times, dishes, portions, and the ways of a dish."""

import pytest

from optimizer.report.layout import TIED
from optimizer.scenario.passages import plain_of


def menu_of(file):
    return plain_of(file.read_text(encoding="utf-8"))["menu"]


@pytest.fixture
def longer(file):
    """Let the file be of three days."""
    text = file.read_text(encoding="utf-8").replace("days: 1", "days: 3")
    text = text.replace("dishes: [porridge]}", "on: day 1, dishes: [porridge, tea]}")
    file.write_text(text, encoding="utf-8")
    return file


def test_the_day_is_told_in_words(window, file):
    told = [line.value for line in window("menu").markdown]
    assert "**Day 1**  \n07:30 breakfast: porridge" in told


def test_time_and_name_of_a_meal(window, file):
    shown = window("menu")
    shown.text_input("field:menu[1].at").set_value("07:15").run()
    shown.text_input("field:menu[1].meal").set_value("early meal").run()
    assert menu_of(file)[0]["at"] == "07:15"
    assert menu_of(file)[0]["meal"] == "early meal"
    shown.text_input("field:menu[1].at").set_value("25:00").run()
    assert "clock time" in shown.error[0].value
    assert menu_of(file)[0]["at"] == "07:15"


def test_days_of_a_meal(window, longer):
    shown = window("menu")
    shown.multiselect("field:menu[1].on").set_value([1, 3]).run()
    assert menu_of(longer)[0]["on"] == [1, 3]
    shown.multiselect("field:menu[1].on").set_value([1, 2, 3]).run()
    assert menu_of(longer)[0]["on"] == "every day"


def test_the_last_meal_is_not_taken_away(window, file):
    before = file.read_text(encoding="utf-8")
    shown = window("menu")
    shown.button("act:menu.0.remove").click().run()
    assert "at least 1" in shown.error[0].value
    assert file.read_text(encoding="utf-8") == before


def test_a_meal_is_added_and_removed(window, file, press):
    shown = window("menu")
    shown.text_input("new meal").set_value("tea time").run()
    shown.text_input("new meal at").set_value("07:45").run()
    shown.selectbox("new meal dish").set_value("tea").run()
    press(shown, "Add this meal")
    assert not shown.error
    assert menu_of(file)[1] == {
        "meal": "tea time", "at": "07:45", "on": "every day", "dishes": ["tea"],
    }  # fmt: skip
    press(shown, "Remove meal 2")
    assert len(menu_of(file)) == 1


def test_a_dish_is_added_and_removed(window, file, press):
    shown = window("menu")
    shown.selectbox("pick dish:0").set_value("tea").run()
    press(shown, "Add this dish")
    assert menu_of(file)[0]["dishes"] == ["porridge", "tea"]
    press(shown, "Remove porridge")
    assert menu_of(file)[0]["dishes"] == ["tea"]
    press(shown, "Undo")
    assert menu_of(file)[0]["dishes"] == ["porridge", "tea"]


def test_portions(window, file):
    shown = window("menu")
    at = "field:menu[1].dishes[1].portions"
    assert shown.number_input(f"{at}.adults").value == 1
    assert shown.number_input(f"{at}.children").value == 1
    shown.number_input(f"{at}.adults").set_value(2).run()
    assert menu_of(file)[0]["dishes"] == [
        {"dish": "porridge", "portions": {"adults": 2, "children": 1}}
    ]
    shown.number_input(f"{at}.children").set_value(0.5).run()
    assert menu_of(file)[0]["dishes"][0]["portions"] == {"adults": 2, "children": 0.5}


def test_a_day_is_repeated(window, longer, press):
    shown = window("menu")
    shown.multiselect("repeat on").set_value([2]).run()
    press(shown, "Repeat")
    assert menu_of(longer)[0]["on"] == "days 1-2"


def test_ways_of_a_dish_and_why_others_are_refused(window, file):
    shown = window("menu")
    (table,) = shown.table
    told = table.value.to_string().replace(TIED, " ")
    assert "stick stove, 2.5 L pot, then the packed box" in told
    assert "EUR" in told
    assert list(table.value.columns) == ["way", "fuel", "money", "at the fire", "served at"]


def test_a_refused_way_says_why(window, file):
    text = file.read_text(encoding="utf-8").replace("pot_2_5l: 1", "pot_2_5l: 1, pressure_6l: 1")
    file.write_text(text, encoding="utf-8")
    told = [line.value.replace("\\", "") for line in window("menu").markdown]
    assert any("6 L pressure pot: foams" in line for line in told)


def test_a_dish_that_no_way_can_cook(window, file):
    text = file.read_text(encoding="utf-8").replace("[porridge]", "[frozen_porridge]")
    text += "dishes: {frozen_porridge: {like: porridge, ingredients: {ice: 300 g, oats: 50 g}}}\n"
    text += "foods: {ice: {like: potatoes, label: frozen potatoes, frozen: true}}\n"
    file.write_text(text, encoding="utf-8")
    shown = window("menu")
    assert "No way of this dish works" in shown.warning[0].value
    assert not shown.table


def test_the_dish_that_is_looked_at_stays_when_the_menu_shrinks(window, longer, press):
    shown = window("menu")
    shown.selectbox("kept:ways of").set_value(1).run()
    press(shown, "Remove tea")
    assert not shown.exception
    assert shown.table


def test_a_dish_for_some_of_them_says_so(window, file):
    text = file.read_text(encoding="utf-8").replace(
        "dishes: [porridge]", "for: yard, carried: 10 min, to: the yard, dishes: [porridge]"
    )
    file.write_text(
        text.replace("cookers: {packed_box: 1}", "cookers: {foam_box: 1}")
        + "households: {mill: {adults: 1}, yard: {children: 1}}\n",
        encoding="utf-8",
    )
    shown = window("menu")
    assert "for yard, carried 10 min to the yard" in [line.value for line in shown.caption]
    eating = [box.value for box in shown.number_input if box.label.endswith("eating")]
    assert eating == [0.0, 1.0]


def test_those_whose_diet_a_dish_does_not_fit_are_not_counted(window, file):
    text = file.read_text(encoding="utf-8").replace(
        "dishes: [porridge]", "dishes: [porridge, {dish: rice, for: mild}]"
    )
    diet = "diets: {mild: {without: gluten, people: {adults: 0, children: 1}}}\n"
    file.write_text(text + diet, encoding="utf-8")
    shown = window("menu")
    eating = [box.value for box in shown.number_input if box.label.endswith("eating")]
    assert eating == [1.0, 0.0, 0.0, 1.0]
