"""One big boil on the Menu page: begun, drawn on for more, changed, and taken out again."""

import pytest

from optimizer.scenario.passages import plain_of

BOIL = "menu[1].dishes[1].one_boil"


def dishes_of(file):
    return plain_of(file.read_text(encoding="utf-8"))["menu"][0]["dishes"]


@pytest.fixture
def opened(window, file):
    """The Menu page of a morning with tea and hot bottles, its one boil opened."""
    text = file.read_text(encoding="utf-8").replace("[porridge]}", "[tea, hot_bottles]} # drinks")
    text = text.replace("pot_2_5l: 1", "pot_6l: 1").replace("packed_box: 1", "jar_2l: 1")
    file.write_text(text, encoding="utf-8")
    found = window("menu")
    found.session_state["open:boil:0"] = True
    return found.run()


@pytest.fixture
def boiled(opened, press):
    """The same, with both from one pot."""
    press(opened, "Boil in one pot")
    assert not opened.error
    return opened


def test_dishes_of_a_meal_go_into_one_pot_and_out_again(boiled, file, press):
    assert dishes_of(file) == [{"one_boil": ["tea", "hot_bottles"]}]
    text = file.read_text(encoding="utf-8")
    assert text.startswith("# ours\n")
    assert "# drinks" in text
    press(boiled, "Undo")
    assert dishes_of(file) == ["tea", "hot_bottles"]


def test_when_its_water_is_drawn(boiled, file):
    at = f"field:{BOIL}[2].at"
    boiled.text_input(at).set_value("07:40").run()
    assert dishes_of(file) == [{"one_boil": ["tea", {"dish": "hot_bottles", "at": "07:40"}]}]
    boiled.text_input(at).set_value("07:10").run()
    assert "drawn before the clock time" in boiled.error[0].value
    assert boiled.text_input(at).value == "07:10"
    boiled.text_input(f"field:{BOIL}[1].at").set_value("07:35").run()
    assert dishes_of(file)[0]["one_boil"][1] == {"dish": "hot_bottles", "at": "07:40"}
    boiled.text_input(at).set_value("").run()
    assert dishes_of(file) == [{"one_boil": [{"dish": "tea", "at": "07:35"}, "hot_bottles"]}]


def test_one_more_use_is_added_and_removed(boiled, file, press):
    use = "menu.0.dishes.0"
    boiled.selectbox(f"pick use:{use}").set_value("washing_water").run()
    boiled.text_input(f"use at:{use}").set_value("08").run()
    press(boiled, "Add this use")
    assert "clock time" in boiled.error[0].value
    boiled.text_input(f"use at:{use}").set_value("07:50").run()
    press(boiled, "Add this use")
    assert not boiled.error
    assert dishes_of(file)[0]["one_boil"][2] == {"dish": "washing_water", "at": "07:50"}
    boiled.button(f"act:{use}.one_boil.1.remove").click().run()
    assert not boiled.error
    assert [len(each["one_boil"]) for each in dishes_of(file)] == [2]


def test_porridge_is_steeped_in_a_jar(boiled, file, press):
    use = "menu.0.dishes.0"
    boiled.text_input("field:menu[1].at").set_value("07:00").run()
    boiled.selectbox(f"pick use:{use}").set_value("porridge").run()
    press(boiled, "Add this use")
    assert "at which clock time before the meal" in boiled.error[0].value
    boiled.text_input(f"use at:{use}").set_value("06:15").run()
    press(boiled, "Add this use")
    assert not boiled.error
    assert dishes_of(file)[0]["one_boil"][2] == {
        "dish": "porridge", "at": "06:15", "steep_in": "jar_2l",
    }  # fmt: skip
    assert boiled.selectbox(f"field:{BOIL}[3].steep_in").value == "jar_2l"


def test_the_last_use_takes_the_boil_along(boiled, file, press):
    boiled.selectbox("pick dish:0").set_value("rice").run()
    press(boiled, "Add this dish")
    for _ in range(2):
        boiled.button("act:menu.0.dishes.0.one_boil.0.remove").click().run()
    assert not boiled.error
    assert dishes_of(file) == ["rice"]


def test_a_use_is_for_some_of_them(window, file):
    text = file.read_text(encoding="utf-8").replace("[porridge]", "[{one_boil: [tea]}]")
    file.write_text(text + "households: {mill: {adults: 1}, yard: {children: 1}}\n", "utf-8")
    found = window("menu")
    found.session_state[f"open:{BOIL}[1]"] = True
    found.run().multiselect(f"field:{BOIL}[1].for").set_value(["mill"]).run()
    assert not found.error
    assert dishes_of(file) == [{"one_boil": [{"dish": "tea", "for": ["mill"]}]}]
    assert not [each for each in found.text_input if "Carried" in each.label]
    adults = f"field:{BOIL}[1].portions.adults"
    assert found.number_input(adults).value is None
    found.number_input(adults).set_value(2).run()
    assert dishes_of(file)[0]["one_boil"] == [
        {"dish": "tea", "for": ["mill"], "portions": {"adults": 2, "children": 0}},
    ]  # fmt: skip
    found.number_input(adults).set_value(None).run()
    assert dishes_of(file) == [{"one_boil": [{"dish": "tea", "for": ["mill"]}]}]


def test_what_is_wrong_with_a_boil_stands_beside_it(window, file):
    text = file.read_text(encoding="utf-8").replace("[porridge]", "[{one_boil: [porridge]}]")
    file.write_text(text, "utf-8")
    told = [error.value.replace("\\", "") for error in window("menu").error]
    assert any("porridge is not made by pouring hot water" in each for each in told)
