"""The whole plan: narrow enough, complete, and fit to be read by candle light."""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimizer.model.household import Scenario
from optimizer.model.plan import Caution, Plan
from optimizer.report.dates import day_name
from optimizer.report.layout import WIDTH
from optimizer.report.measures import Units
from optimizer.report.text import plan_text

UNITS: tuple[Units, ...] = ("metric", "us")


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("name", ["plan", "dearer", "impossible"])
def test_every_line_fits(
    request: pytest.FixtureRequest, scenario: Scenario, name: str, units: Units
) -> None:
    lines = plan_text(request.getfixturevalue(name), scenario, units).splitlines()
    assert lines[0] == "Three dark days at Fennel House"
    assert max(map(len, lines)) <= WIDTH
    assert all(line == line.rstrip() for line in lines)


@given(st.text(st.characters(codec="ascii", categories=["L", "N", "P"]), min_size=1, max_size=120))
def test_a_long_label_is_wrapped(plan: Plan, scenario: Scenario, label: str) -> None:
    step = replace(plan.steps[0], item=label, meal=label)
    caution = Caution("x", "mind " + label, (label,))
    told = plan_text(
        replace(plan, steps=(step,), cautions=(caution,)), replace(scenario, title=label)
    )
    assert max(map(len, told.splitlines())) <= WIDTH


def test_order_of_the_parts(plan: Plan, scenario: Scenario) -> None:
    text = plan_text(plan, scenario)
    parts = [
        "5 people (2 of them children), 600 m above the sea, kitchen 12 °C",
        "MJ of fuel instead of",
        "Within 0.5 % of the cheapest plan there is",
        "\nThursday 14 January, the day before\n  23:00  red kidney bean",
        "\nFriday 15 January\n  06:00  Light the stick stove",
        "\nSaturday 16 January\n",
        "\nFuel ",
        "\nCompared ",
        "\nWorth having ",
        "\nMind\n  - Follow the maker's instructions",
    ]
    places = [text.index(part) for part in parts]
    assert places == sorted(places)


def test_a_long_pause_is_an_empty_line(plan: Plan, scenario: Scenario) -> None:
    lines = plan_text(plan, scenario).splitlines()
    noon = next(i for i, line in enumerate(lines) if line.startswith("  12:00"))
    assert lines[noon - 1] == ""
    assert not any(a == b == "" for a, b in pairwise(lines))


def test_us_measures(plan: Plan, scenario: Scenario) -> None:
    text = plan_text(plan, scenario, "us")
    for part in ("1969 ft", "kitchen 54 °F", "thousand BTU", "14 oz rolled oats", "140 °F"):
        assert part in text
    assert "°C" not in text


@pytest.mark.parametrize(
    ("day", "dated", "numbered"),
    [
        (-1, "Wednesday 13 January, two days before", "Two days before"),
        (0, "Thursday 14 January, the day before", "The day before"),
        (1, "Friday 15 January", "Day 1"),
        (18, "Monday 1 February", "Day 18"),
    ],
)
def test_days(scenario: Scenario, day: int, dated: str, numbered: str) -> None:
    assert day_name(scenario, day) == dated
    assert day_name(replace(scenario, start=None), day) == numbered


def test_missing_fuel_in_us_measures_is_never_too_little(
    impossible: Plan, scenario: Scenario
) -> None:
    # 1.3 kg is 2.866 lb and 390 g are 13.76 oz at 0.45359237 kg and 16 oz to the pound
    changes = ("1.3 kg of sticks more would do.", "390 g of butane more would do.")
    text = plan_text(replace(impossible, changes=changes), scenario, "us")
    assert "2.9 lb of sticks more would do." in text
    assert "14 oz of butane more would do." in text
    told = plan_text(replace(impossible, changes=changes), scenario)
    assert all(change in told for change in changes)


def test_no_plan(impossible: Plan, scenario: Scenario) -> None:
    lines = plan_text(impossible, scenario).splitlines()
    assert lines[2:7] == [
        "",
        "No plan is possible with what there is.",
        "",
        "The least changes that would make one",
        "  - 1.3 kg more sticks",
    ]
    told = lines[lines.index("Ways that do not work") + 1 :]
    assert told[1] == "    - large pot: not done by 07:30"
    assert told[-1].endswith("falls to 54 °C by 18:30")
    assert not any("Fuel" in line for line in lines)


def test_safety_is_never_promised(plan: Plan, scenario: Scenario) -> None:
    text = " ".join(plan_text(plan, scenario).split())
    assert "it cannot promise that food is safe to eat or air safe to breathe" in text
    assert "Use every flame outdoors" in text
    assert "Soak them at least 5 hours" in text


def test_one_person_alone(plan: Plan, scenario: Scenario) -> None:
    alone = replace(scenario, adults=1, children=0)
    assert "\n1 person, 600 m" in plan_text(plan, alone)
    assert "\n3 people (1 of them a child)" in plan_text(
        plan, replace(scenario, adults=2, children=1)
    )
