"""Things are called by short labels, as long as these are clear."""

from dataclasses import replace

from optimizer.model.household import OwnPot, Scenario
from optimizer.report.names import Names


def test_short_labels(scenario: Scenario) -> None:
    names = Names(scenario)
    assert names.fuel("sticks") == "sticks"  # "sticks, air-dry"
    assert names.stove("gas_burner") == "gas burner"  # "gas burner (butane)"
    assert names.pot("pot_6l") == "large pot"
    assert names.cooker("jar_2l") == "jar"


def test_two_of_a_kind_keep_what_tells_them_apart(scenario: Scenario) -> None:
    pot = scenario.pots[0].pot
    twins = tuple(
        OwnPot(replace(pot, name=name, label=f"pot, {name}"), 1) for name in ("steel", "enamel")
    )
    names = Names(replace(scenario, pots=twins))
    assert [names.pot("steel"), names.pot("enamel")] == ["pot, steel", "pot, enamel"]


def test_a_fuel_and_a_stove_of_one_name_are_not_mixed_up(scenario: Scenario) -> None:
    own = scenario.stoves[1]
    stove = replace(own.stove, name="butane", label="small burner")
    names = Names(replace(scenario, stoves=(replace(own, stove=stove),)))
    assert (names.stove("butane"), names.fuel("butane")) == ("small burner", "butane")


def test_what_has_no_label_is_spelt_out(scenario: Scenario) -> None:
    names = Names(scenario)
    assert names.stove("rocket_stove") == "rocket stove"
    assert names.food("split_peas") == "split peas"


def test_foods_by_name_or_label(scenario: Scenario) -> None:
    names = Names(scenario)
    assert names.food("oats") == names.food("rolled oats") == "rolled oats"
    assert names.is_bean("kidney_beans")
    assert names.is_bean("dried red kidney beans")
    assert not names.is_bean("rolled oats")
    assert names.is_dry("rolled oats")
    assert not names.is_dry("onions, chopped")
