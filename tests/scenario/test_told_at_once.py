"""Unknown names and faults of structure: told in one go, each once, and with a fitting example."""

import pytest

MISSPELT = [
    ("sticks:\n", "stiks:\n", "fuels.stiks", "sticks"),
    ("  stick_stove: {count: 1,", "  stik_stove: {count: 1,", "stoves.stik_stove", "stick_stove"),
    ("pot_4l: 2", "pot_4: 2", "pots.pot_4", "pot_4l"),
    ("  packed_box:", "  paked_box:", "cookers.paked_box", "packed_box"),
]
NAMELESS = ("title: Two days\n", "titel: Two days\n")


@pytest.mark.parametrize(("old", "new", "key", "meant"), MISSPELT)
def test_an_unknown_name_is_told_beside_a_missing_key(changed, told, old, new, key, meant) -> None:
    by_key = {problem.key: problem.message for problem in told(changed((old, new), NAMELESS))}
    assert f"did you mean '{meant}'" in by_key[key]
    assert "did you mean 'title'" in by_key["titel"]


# The name and the field of the same thing are wrong.
@pytest.mark.parametrize(
    ("old", "new", "key", "meant"),
    [
        ("gas_burner: 1", "gas_burnr: {efficiency: 3}", "stoves.gas_burnr", "gas_burner"),
        ("gas_burner: 1", "gas_burnr: much", "stoves.gas_burnr", "gas_burner"),
        ("pot_6l: 1", "pot_60l: {count: one}", "pots.pot_60l", "pot_6l"),
        ("  sticks:\n    stock: 12 kg", "  stiks:\n    stock: 12", "fuels.stiks", "sticks"),
        ("  packed_box:", "  paked_box: nice\n  foam_box:", "cookers.paked_box", "packed_box"),
    ],
)
def test_an_unknown_name_is_told_beside_a_fault_of_its_own(
    changed, told, old, new, key, meant
) -> None:
    problems = told(changed((old, new)))
    names = [p for p in problems if p.key == key and p.code == "unknown_name"]
    assert len(names) == 1
    assert f"did you mean '{meant}'" in names[0].message
    assert any(p.key.startswith(key) and p.code != "unknown_name" for p in problems)


# What is there, but wrong, is not missing as well.
@pytest.mark.parametrize(
    "described",
    [
        "{kind: wood, lhv: 15, lhv_spread: 0.1, moisture: 0.2, stock: 5 kg}",
        "{kind: wood, lhv: 15 MJ/kg, lhv_spread: 0.1, mosture: 0.2, stock: 5 kg}",
        "{like: 5, stock: 5 kg}",
    ],
)
def test_a_new_thing_with_a_fault_is_not_told_it_is_unknown(changed, told, described) -> None:
    problems = told(changed(("fuels:\n", f"fuels:\n  peat: {described}\n")))
    assert {p.code for p in problems} <= {"unit_missing", "unknown_key", "type"}
    assert len(problems) == 1


@pytest.mark.parametrize("given", ["600", "6 kg", "'600'", "high", "6 floors"])
def test_the_example_of_a_height_is_a_height(changed, told, given) -> None:
    (problem,) = told(changed(("600 m", given)))
    assert problem.key == "place.altitude"
    assert "'600 m'" in problem.message
    assert "inch" not in problem.message
