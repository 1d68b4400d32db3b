"""Diets on the Kitchen page: who does not eat what, and what is cooked for them apart."""

import pytest

from optimizer.scenario.passages import plain_of

NEW = "new diet 1"
MILD = {"without": ["gluten"], "people": {"adults": 0, "children": 1}}


def said(file):
    return plain_of(file.read_text(encoding="utf-8"))


@pytest.fixture
def shown(window, file):
    """The page with its diets opened."""

    def opened():
        found = window("kitchen")
        found.session_state["open:diets"] = True
        return found.run()

    return opened


@pytest.fixture
def added(shown, press):
    """A diet without gluten of the one child."""
    found = shown()
    found.text_input(f"{NEW} name").set_value("mild").run()
    found.multiselect(f"{NEW} without").set_value(["gluten"]).run()
    found.number_input(f"{NEW} children").set_value(1).run()
    press(found, "Add this diet")
    assert not found.error
    return found


def test_nothing_of_it_is_seen_until_it_is_opened(window, file):
    assert not [box for box in window("kitchen").checkbox if "meal" in box.label]


def test_a_diet_is_added_with_a_dish_of_their_own_and_both_are_taken_back(added, file, press):
    assert said(file)["diets"] == {"mild": MILD}
    porridge, own = said(file)["menu"][0]["dishes"]
    assert (porridge, own["for"]) == ("porridge", ["mild"])
    text = file.read_text(encoding="utf-8")
    assert text.startswith("# ours\n")
    assert "# early" in text
    told = [line.value.replace("\\", "") for line in added.caption]
    assert any(line.startswith("For them on the menu: breakfast: ") for line in told)
    assert added.text_input("new diet 2 name").value == ""
    press(added, "Undo")
    assert "diets" not in said(file)
    assert said(file)["menu"][0]["dishes"] == ["porridge"]


def test_a_diet_that_leaves_somebody_with_nothing_is_told_and_not_taken(shown, file, press):
    before = file.read_text(encoding="utf-8")
    found = shown()
    found.checkbox("kept:dishes of their own").uncheck().run()
    found.text_input(f"{NEW} name").set_value("mild").run()
    found.multiselect(f"{NEW} without").set_value(["gluten"]).run()
    found.number_input(f"{NEW} children").set_value(1).run()
    press(found, "Add this diet")
    (error,) = found.error
    assert "nothing at breakfast that the 1 person of 'mild' eat" in error.value
    assert file.read_text(encoding="utf-8") == before


def test_a_second_edit_keeps_the_first(added, file):
    at = "field:diets.mild"
    added.checkbox(f"{at}.allergy").check().run()
    added.multiselect(f"{at}.without").set_value(["gluten", "nuts"]).run()
    assert not added.error
    assert said(file)["diets"]["mild"] == {**MILD, "without": ["gluten", "nuts"], "allergy": True}
    added.checkbox(f"{at}.allergy").uncheck().run()
    assert "allergy" not in said(file)["diets"]["mild"]


def test_more_people_than_there_are_stay_typed_and_are_told(added, file):
    at = "field:diets.mild.people.children"
    before = file.read_text(encoding="utf-8")
    added.number_input(at).set_value(5).run()
    assert "are not among the people" in added.error[0].value
    assert added.number_input(at).value == 5
    assert file.read_text(encoding="utf-8") == before


def test_what_is_wrong_is_told_under_a_part_that_is_folded(window, file):
    text = file.read_text(encoding="utf-8") + "diets: {mild: {without: [glutten]}}\n"
    file.write_text(text, encoding="utf-8")
    told = [error.value for error in window("kitchen").error]
    assert any("did you mean 'gluten'" in each for each in told)


def test_leaving_nothing_out_is_no_diet(added, file):
    added.multiselect("field:diets.mild.without").set_value([]).run()
    assert "at least 1" in added.error[0].value
    assert said(file)["diets"]["mild"] == MILD


def test_a_name_is_taken_once(added, file, press):
    added.text_input("new diet 2 name").set_value("mild").run()
    added.multiselect("new diet 2 without").set_value(["nuts"]).run()
    press(added, "Add this diet")
    assert "there is a diet 'mild' already" in added.error[0].value
    assert said(file)["diets"] == {"mild": MILD}


def test_a_diet_goes_with_the_dishes_that_were_for_it_alone(added, file):
    added.button("act:diets.mild.remove").click().run()
    assert not added.error
    assert "diets" not in said(file)
    assert said(file)["menu"][0]["dishes"] == ["porridge"]
    assert "# early" in file.read_text(encoding="utf-8")


def test_a_diet_of_one_household(shown, file, press):
    houses = "households: {mill: {adults: 1}, yard: {children: 1}}\n"
    file.write_text(file.read_text(encoding="utf-8") + houses, encoding="utf-8")
    found = shown()
    found.text_input(f"{NEW} name").set_value("mild").run()
    found.multiselect(f"{NEW} without").set_value(["gluten"]).run()
    found.multiselect(f"{NEW} of").set_value(["yard"]).run()
    press(found, "Add this diet")
    assert not found.error
    assert said(file)["diets"] == {"mild": {"without": ["gluten"], "of": ["yard"]}}
    found.multiselect("field:diets.mild.of").set_value([]).run()
    assert "nobody it is for eats" in found.error[0].value  # then all of them are without it


def test_a_bare_word_of_the_file_has_its_fields(shown, file):
    text = file.read_text(encoding="utf-8").replace("[porridge]", "[rice]")
    file.write_text(text + "diets: {calm: nuts} # hers\n", encoding="utf-8")
    found = shown()
    assert found.multiselect("field:diets.calm.without").value == ["nuts"]
    found.number_input("field:diets.calm.people.adults").set_value(1).run()
    assert not found.error
    assert said(file)["diets"]["calm"] == {
        "without": "nuts", "people": {"adults": 1, "children": 0},
    }  # fmt: skip
    assert "# hers" in file.read_text(encoding="utf-8")
    found.number_input("field:diets.calm.people.adults").set_value(None).run()
    assert said(file)["diets"]["calm"] == {"without": "nuts"}
