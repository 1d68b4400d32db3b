"""The fuel that households bring, on the Kitchen page."""

import pytest

from optimizer.scenario.passages import plain_of

MILL = "field:households.mill.brings"


def houses_of(file):
    return plain_of(file.read_text(encoding="utf-8"))["households"]


@pytest.fixture
def shown(window, file):
    """The page with the fuel of the households opened."""

    def opened(houses):
        file.write_text(file.read_text(encoding="utf-8") + f"households: {houses} # us\n", "utf-8")
        found = window("kitchen")
        found.session_state["open:brings"] = True
        return found.run()

    return opened


def test_one_household_alone_is_not_asked(window, file):
    assert not any("brings" in each.label for each in window("kitchen").expander)


@pytest.mark.parametrize(
    ("houses", "left"),
    [
        ("[mill, yard]", {"mill": {}, "yard": {}}),
        ("{mill: 1, yard: {children: 1}}", {"mill": {"adults": 1}, "yard": {"children": 1}}),
        ("{mill: , yard: }", {"mill": {}, "yard": None}),
    ],
)
def test_fuel_is_brought_and_taken_out_again(shown, file, houses, left):
    found = shown(houses)
    found.text_input(f"{MILL}.sticks").set_value("1 kg").run()
    found.text_input(f"{MILL}.propane").set_value("0.5 x 465 g").run()
    assert "Not taken" in found.error[0].value
    found.text_input(f"{MILL}.propane").set_value("1 x 465 g").run()
    assert not found.error
    assert houses_of(file)["mill"]["brings"] == {"sticks": "1 kg", "propane": "1 x 465 g"}
    found.number_input("field:people.adults").set_value(1).run()
    for fuel in ("sticks", "propane"):
        found.text_input(f"{MILL}.{fuel}").set_value("").run()
    assert not found.error
    assert houses_of(file) == left
    text = file.read_text(encoding="utf-8")
    assert "# early" in text
    assert "# us" in text


def test_more_than_there_is_stays_typed_and_is_told(shown, file):
    found = shown("[mill, yard]")
    found.text_input(f"{MILL}.sticks").set_value("4 kg").run()
    assert "the stock counts what they bring" in found.error[0].value
    assert found.text_input(f"{MILL}.sticks").value == "4 kg"
    assert houses_of(file) == ["mill", "yard"]


def test_us_measures(shown, file):
    found = shown("{mill: {brings: {sticks: 1 kg}}, yard: }")
    found.toggle[0].set_value(True).run()
    assert found.text_input(f"{MILL}.sticks").value == "2.2 lb"
    found.text_input(f"{MILL}.sticks").set_value("3 lb").run()
    assert not found.error
    assert houses_of(file)["mill"] == {"brings": {"sticks": "3 lb"}}


def test_what_is_wrong_is_told_while_it_is_folded(window, file):
    text = (
        file.read_text(encoding="utf-8") + "households: {mill: {brings: {stiks: 1 kg}}, yard: }\n"
    )
    file.write_text(text, "utf-8")
    assert any("did you mean 'sticks'" in error.value for error in window("kitchen").error)
