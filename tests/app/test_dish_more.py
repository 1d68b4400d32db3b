"""What a dish says beside its portions, on the Menu page: for whom, carried where, drawn when."""

import pytest

from optimizer.scenario.passages import plain_of

DISH = "menu[1].dishes[1]"
HOUSES = "households: {mill: {adults: 1}, yard: {children: 1}} # two of us\n"


def menu_of(file):
    return plain_of(file.read_text(encoding="utf-8"))["menu"]


def dish_of(file):
    return menu_of(file)[0]["dishes"][0]


@pytest.fixture
def shown(window, file):
    """The Menu page with a part of it opened, after the file was changed."""

    def opened(*changes, at=DISH, more=""):
        text = file.read_text(encoding="utf-8")
        for before, after in changes:
            assert before in text
            text = text.replace(before, after)
        file.write_text(text + more, encoding="utf-8")
        found = window("menu")
        found.session_state[f"open:{at}"] = True
        return found.run()

    return opened


def labels(found):
    return [each.label for each in [*found.text_input, *found.multiselect]]


def test_a_simple_household_sees_none_of_it(window, file):
    found = labels(window("menu"))
    assert not any(word in label for label in found for word in ("whom", "Carried", "Left out"))


def test_for_whom_is_asked_where_people_are_told_apart(shown, file):
    assert not any("For whom" in label for label in labels(shown()))
    found = shown(more=HOUSES)
    found.multiselect(f"field:{DISH}.for").set_value(["yard"]).run()
    assert not found.error
    assert dish_of(file) == {"dish": "porridge", "for": ["yard"]}
    assert "for yard" in [line.value for line in found.caption]
    found.multiselect(f"field:{DISH}.for").set_value([]).run()
    assert dish_of(file) == "porridge"
    text = file.read_text(encoding="utf-8")
    assert text.startswith("# ours\n")
    assert text.endswith("# two of us\n")


def test_a_meal_is_for_some_of_them(shown, file):
    found = shown(at="menu[1]", more=HOUSES)
    found.multiselect("field:menu[1].for").set_value(["mill"]).run()
    found.text_input("field:menu[1].carried").set_value("10 min").run()
    found.text_input("field:menu[1].to").set_value("the mill").run()
    assert not found.error
    meal = menu_of(file)[0]
    assert (meal["for"], meal["carried"], meal["to"]) == (["mill"], "10 min", "the mill")
    assert "for mill, carried 10 min to the mill" in [line.value for line in found.caption]


def test_a_name_of_the_file_that_is_none_is_kept_and_told(window, shown, file):
    found = shown(("[porridge]", "[{dish: porridge, for: yrd}]"), more=HOUSES)
    assert found.multiselect(f"field:{DISH}.for").value == ["yrd"]
    assert any("did you mean 'yard'" in error.value for error in found.error)
    folded = window("menu")
    assert any("did you mean 'yard'" in error.value for error in folded.error)


def test_what_is_left_out_of_a_dish(shown, file):
    found = shown(("[porridge]", "[lentil_stew]"))
    box = found.multiselect(f"field:{DISH}.without")
    assert "onions, chopped" in box.options
    assert "anything with meat" not in box.options
    box.set_value(["onions"]).run()
    assert not found.error
    assert dish_of(file) == {"dish": "lentil_stew", "without": ["onions"]}
    found.multiselect(f"field:{DISH}.without").set_value([]).run()
    assert dish_of(file) == "lentil_stew"


def test_a_dish_of_which_nothing_would_be_left_is_told(shown, file):
    found = shown()
    found.multiselect(f"field:{DISH}.without").set_value(["oats"]).run()
    assert "is no dish any more" in found.error[0].value
    assert dish_of(file) == "porridge"


def test_a_dish_is_carried_out(shown, file):
    found = shown()
    assert not any("back" in label for label in labels(found))
    found.text_input(f"field:{DISH}.carried").set_value("20").run()
    assert "has no unit" in found.error[0].value
    assert found.text_input(f"field:{DISH}.carried").value == "20"
    assert dish_of(file) == "porridge"
    found.text_input(f"field:{DISH}.carried").set_value("20 min").run()
    found.text_input(f"field:{DISH}.to").set_value("the yard").run()
    found.text_input(f"field:{DISH}.back").set_value("1 h").run()
    assert not found.error
    assert dish_of(file) == {
        "dish": "porridge", "carried": "20 min", "to": "the yard", "back": "1 h",
    }  # fmt: skip
    found.text_input(f"field:{DISH}.carried").set_value("").run()
    assert not found.error
    assert dish_of(file) == "porridge"
    assert "# early" in file.read_text(encoding="utf-8")


# drawn on


@pytest.fixture
def tea(shown):
    """One jar of tea."""

    def opened():
        return shown(
            ("[porridge]}", "[tea]} # a jar"), ("cookers: {packed_box: 1}", "cookers: {jar_1l: 1}")
        )

    return opened


def test_a_jar_is_drawn_on(tea, file, press):
    found = tea()
    field = f"field:{DISH}.drawn"
    found.text_input(field).set_value("07:30 0.3 L, 07:50 0.2 L").run()
    assert not found.error
    assert dish_of(file) == {"dish": "tea", "drawn": {"07:30": "0.3 L", "07:50": "0.2 L"}}
    assert "drawn 07\\:30 0.3 L, 07\\:50 0.2 L" in [line.value for line in found.markdown]
    found.text_input(field).set_value("07:30 0.3 L, 07:50 0.2 L, 08:00 1 cup").run()
    assert dish_of(file)["drawn"] == {"07:30": "0.3 L", "07:50": "0.2 L", "08:00": "1 cup"}
    found.text_input(field).set_value("").run()
    assert dish_of(file) == "tea"
    assert "# a jar" in file.read_text(encoding="utf-8")
    press(found, "Undo")
    assert set(dish_of(file)["drawn"]) == {"07:30", "07:50", "08:00"}


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("07:30", "a time and how much"),
        ("07:30 0.3", "has no unit"),
        ("25:00 0.3 L", "clock time"),
        ("07:00 0.3 L", "before the clock time of its meal"),
        ("07:30 0.3 L, 07:30 0.2 L", "stands twice"),
    ],
)
def test_draws_that_are_wrong_stay_typed_and_are_told(tea, file, typed, told):
    found = tea()
    before = file.read_text(encoding="utf-8")
    found.text_input(f"field:{DISH}.drawn").set_value(typed).run()
    assert told in found.error[0].value.replace("\\", "")
    assert found.text_input(f"field:{DISH}.drawn").value == typed
    assert file.read_text(encoding="utf-8") == before


def test_draws_take_the_place_of_portions(tea, file):
    found = tea()
    found.number_input(f"field:{DISH}.portions.adults").set_value(2).run()
    found.text_input(f"field:{DISH}.drawn").set_value("07:30 0.3 L").run()
    assert not found.error
    assert dish_of(file) == {"dish": "tea", "drawn": {"07:30": "0.3 L"}}


def test_draws_in_us_measures_keep_what_was_not_touched(tea, file):
    found = tea()
    found.text_input(f"field:{DISH}.drawn").set_value("07:30 0.3 L, 07:50 0.2 L").run()
    found.toggle[0].set_value(True).run()
    assert found.text_input(f"field:{DISH}.drawn").value == "07:30 0.317 qt, 07:50 0.211 qt"
    found.text_input(f"field:{DISH}.drawn").set_value("07:30 0.317 qt, 07:50 1 cup").run()
    assert not found.error
    assert dish_of(file)["drawn"] == {"07:30": "0.3 L", "07:50": "1 cup"}


def test_only_what_is_nearly_water_is_drawn_on(shown):
    assert not any("drawn on" in label for label in labels(shown()))
