"""Things of the household's own: packings, foods and dishes that the shelf does not have."""

import pytest

from optimizer.scenario.passages import plain_of
from optimizer.scenario.reading import parse

EATERS = ("adults", "children")


def said(file):
    return plain_of(file.read_text(encoding="utf-8"))


def add_own(shown, kind, label, like):
    shown.text_input(f"own label:{kind}").set_value(label)
    shown.selectbox(f"own like:{kind}").set_value(like).run()
    shown.button(f"own add:{kind}").click().run()
    assert not shown.exception
    assert not shown.error
    return shown


@pytest.mark.parametrize(
    ("page", "kind", "label", "like"),
    [
        ("kitchen", "materials", "Moss", "straw"),
        ("menu", "foods", "Blue peas", "split_peas"),
        ("menu", "dishes", "Grandmother's stew", "lentil_stew"),
    ],
)
def test_one_of_your_own_is_added_and_taken_out(window, file, page, kind, label, like):
    before = said(file)
    shown = add_own(window(page), kind, label, like)
    (name,) = said(file)[kind]
    assert said(file)[kind][name] == {"like": like, "label": label}
    parse(file.read_text(encoding="utf-8"))
    shown.button(f"act:{kind}.{name}.remove").click().run()
    assert not shown.error
    assert said(file) == {**before, kind: {}}


def test_a_number_of_your_own_is_changed_and_a_wrong_one_is_told_at_its_field(window, file):
    shown = add_own(window("kitchen"), "materials", "Moss", "straw")
    shown.selectbox("another:materials.moss").set_value("conductivity").run()
    field = "field:materials.moss.conductivity"
    shown.text_input(field).set_value("0.09 W/(m*K)").run()
    assert said(file)["materials"]["moss"]["conductivity"] == "0.09 W/(m*K)"
    shown.text_input(field).set_value("0.09").run()
    assert shown.error[0].value.startswith("Not taken")
    assert said(file)["materials"]["moss"]["conductivity"] == "0.09 W/(m*K)"


def test_what_goes_into_a_dish_of_your_own(window, file):
    shown = add_own(window("menu"), "dishes", "Porridge plain", "porridge")
    at = "field:dishes.porridge_plain.ingredients"
    first = [each.key for each in shown.text_input if each.key.startswith(at)]
    assert f"{at}.water" in first
    oats = next(key for key in first if "oats" in key)
    shown.text_input(oats).set_value("80 g").run()
    mixed = said(file)["dishes"]["porridge_plain"]["ingredients"]
    assert mixed[oats.removeprefix(f"{at}.")] == "80 g"
    assert len(mixed) == len(first)
    others = [food for food in mixed if f"{at}.{food}" != oats and food != "water"]
    for food in others:
        shown.text_input(f"{at}.{food}").set_value("").run()
    shown.selectbox("pick food:porridge_plain").set_value("lentils_red").run()
    shown.button("add food:porridge_plain").click().run()
    assert not shown.error
    assert said(file)["dishes"]["porridge_plain"]["ingredients"]["lentils_red"] == "100 g"
    shown.text_input(f"{at}.lentils_red").set_value("100").run()
    assert "has no unit" in shown.error[0].value
    assert said(file)["dishes"]["porridge_plain"]["ingredients"]["lentils_red"] == "100 g"


def test_a_dish_of_your_own_is_put_on_the_menu_by_its_name(window, file):
    shown = add_own(window("menu"), "dishes", "Porridge plain", "porridge")
    pick = shown.selectbox("pick dish:0")
    assert pick.options[0] == "Porridge plain"
    pick.select_index(0).run()
    shown.button("add dish:0").click().run()
    assert said(file)["menu"][0]["dishes"] == ["porridge", "porridge_plain"]
    shown.button("act:dishes.porridge_plain.remove").click().run()
    assert shown.error[0].value.startswith("Not taken")
    assert "porridge_plain" in said(file)["dishes"]


def test_your_own_packing_can_be_chosen_for_a_cooker(window, file):
    shown = add_own(window("kitchen"), "materials", "Moss", "straw")
    shown.selectbox("field:cookers.packed_box.packing.material").set_value("moss").run()
    assert not shown.error
    assert said(file)["cookers"]["packed_box"]["packing"]["material"] == "moss"


def test_households_that_share(window, file):
    shown = window("kitchen")
    shown.text_input("field:households").set_value("Fennel House, Mill Cottage").run()
    assert said(file)["households"] == ["Fennel House", "Mill Cottage"]
    shown.text_input("field:households").set_value("x" * 80).run()
    assert shown.error[0].value.startswith("Not taken")
    shown.text_input("field:households").set_value("").run()
    assert "households" not in said(file)


def test_second_goals_stand_in_their_order(window, file):
    shown = window("kitchen")
    shown.multiselect("field:goal[2]").set_value(["propane", "tending"]).run()
    assert said(file)["goal"] == ["money", "propane", "tending"]
    shown.selectbox("field:goal").set_value("propane").run()
    assert said(file)["goal"] == ["propane", "tending"]
    assert shown.multiselect("field:goal[2]").value == ["tending"]
    shown.multiselect("field:goal[2]").set_value(["money", "tending", "energy", "sticks"]).run()
    assert shown.error[0].value.startswith("Not taken")
    shown.multiselect("field:goal[2]").set_value([]).run()
    assert said(file)["goal"] == "propane"


def test_people_of_households_that_share(window, file):
    """One adult and one child in two households; the people of all follow those of each."""
    shown = window("kitchen")
    shown.text_input("field:households").set_value("Fennel House, Mill Cottage").run()
    assert [shown.number_input(f"field:households.Fennel House.{who}").value for who in EATERS] == [
        1, 1,
    ]  # fmt: skip
    shown.number_input("field:households.Mill Cottage.adults").set_value(2).run()
    assert not shown.error
    assert said(file)["households"] == {
        "Fennel House": {"adults": 1, "children": 1},
        "Mill Cottage": {"adults": 2, "children": 0},
    }
    assert said(file)["people"] == {"adults": 3, "children": 1}
    shown.number_input("field:people.adults").set_value(9).run()
    assert "make them agree" in shown.error[0].value
    assert said(file)["people"] == {"adults": 3, "children": 1}
