"""A thing of one's own from nothing: all its fields, and what is wrong beside each."""

from optimizer.scenario.passages import plain_of
from optimizer.scenario.reading import parse

STOVE = {
    "power": "2 kW",
    "low_power": "0.5 kW",
    "efficiency": "0.4",
    "start_fuel": "0 J",
    "start_time": "1 min",
    "places": "1",
    "wind_loss": "0.05",
}
CHOSEN = {"fuel": "propane", "tended": "no", "flame": "yes"}


def said(file):
    return plain_of(file.read_text(encoding="utf-8"))


def begun(shown, kind, label):
    shown.radio(f"kept:own begins:{kind}").set_value("nothing: say all of it").run()
    shown.text_input(f"kept:{name_of(shown, kind)} label").set_value(label).run()
    return name_of(shown, kind)


def name_of(shown, kind):
    key = next(each.key for each in shown.button if str(each.key).startswith(f"add new {kind} "))
    return key.removeprefix("add ")


def filled(shown, name, typed, chosen):
    for key, value in chosen.items():
        shown.selectbox(f"kept:{name} {key}").set_value(value)
    for key, value in typed.items():
        shown.text_input(f"kept:{name} {key}").set_value(value)
    shown.run()
    shown.button(f"add {name}").click().run()
    assert not shown.exception


def test_a_stove_from_nothing(window, file):
    shown = window("kitchen")
    name = begun(shown, "stoves", "Old cartridge stove")
    filled(shown, name, STOVE, CHOSEN)
    assert not shown.error
    entry = said(file)["stoves"]["old_cartridge_stove"]
    assert entry["power"] == "2 kW"
    assert entry["efficiency"] == 0.4
    assert entry["flame"] is True
    home = parse(file.read_text(encoding="utf-8"))
    own = next(s.stove for s in home.stoves if s.stove.name == "old_cartridge_stove")
    assert own.label == "Old cartridge stove"
    assert own.low_power_w == 500
    assert name_of(shown, "stoves") != name  # the form is empty again
    shown.text_input("field:stoves.old_cartridge_stove.power").set_value("3 kW").run()
    assert said(file)["stoves"]["old_cartridge_stove"]["power"] == "3 kW"


def test_what_is_wrong_or_not_said_stands_beside_its_field_and_nothing_is_written(window, file):
    before = file.read_text(encoding="utf-8")
    shown = window("kitchen")
    name = begun(shown, "pots", "Grandmother's pot")
    filled(shown, name, {"volume": "4"}, {})
    assert {each.value for each in shown.error} == {"Is not said yet"}
    typed = {"diameter": "200 mm", "height": "160 mm", "mass": "1 kg", "emissivity": "4"}
    filled(shown, name, typed | {"specific_heat": "480 J/(kg K)", "gauge": "0 kPa"}, {})
    told = " ".join(each.value for each in shown.error)
    assert "has no unit" in told
    assert "Must be at most 1" in told
    assert shown.text_input(f"kept:{name} volume").value == "4"
    assert file.read_text(encoding="utf-8") == before


def test_a_box_from_nothing_is_asked_for_its_packing_and_keeps_it_changeable(window, file):
    shown = window("kitchen")
    shown.radio("kept:own begins:cookers").set_value("nothing: say all of it").run()
    shown.selectbox("kept:new cookers 1 kind").set_value("packed").run()
    shown.text_input("kept:new cookers 1 label").set_value("Hay box").run()
    filled(shown, "new cookers 1", {"thickness": "120 mm", "gap": "0.2"}, {"material": "straw"})
    assert not shown.error
    entry = said(file)["cookers"]["hay_box"]
    assert entry["packing"] == {"material": "straw", "thickness": "120 mm"}
    shown.text_input("field:cookers.hay_box.packing.thickness").set_value("150 mm").run()
    assert said(file)["cookers"]["hay_box"]["packing"]["thickness"] == "150 mm"


def test_a_food_and_a_dish_from_nothing(window, file):
    shown = window("menu")
    name = begun(shown, "foods", "Nettles")
    parts = {"water": "0.88", "protein": "0.03", "fat": "0", "carbohydrate": "0.04"}
    parts |= {"fibre": "0.03", "ash": "0.02", "half_size": "1 mm", "endpoint": "none"}
    filled(shown, name, parts, {"shape": "slab", "phaseolus": "no", "keeping": "leaves"})
    assert not shown.error
    assert said(file)["foods"]["nettles"]["keeping"] == "leaves"
    shown.radio("kept:own begins:dishes").set_value("nothing: say all of it").run()
    name = "new dishes 0"
    shown.selectbox(f"kept:{name} serve").set_value("hot").run()
    shown.text_input(f"kept:{name} label").set_value("Nettle soup").run()
    shown.multiselect(f"kept:{name} foods").set_value(["nettles", "water"]).run()
    typed = {"child_share": "0.6", "boil": "10 min", "soak": "0 min", "water": "250 g"}
    answers = {"foams": "no", "disinfects": "no"}
    filled(shown, name, typed, answers)
    assert [each.value for each in shown.error] == ["Is not said yet"]  # the nettles
    filled(shown, name, {"nettles": "120 g"}, {})
    assert not shown.error
    assert said(file)["dishes"]["nettle_soup"]["ingredients"] == {
        "nettles": "120 g",
        "water": "250 g",
    }
