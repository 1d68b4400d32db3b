"""The clock: nothing begun late, nothing ended early, meals on the minute, the order kept."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimizer.model.household import OwnCooker, Scenario
from optimizer.model.plan import Plan, Step
from optimizer.report.doings import Doing, nearest, rounded, shown
from optimizer.report.measures import Metric
from optimizer.report.timetable import timetable
from optimizer.scenario.clock import clock

doings = st.lists(
    st.builds(
        Doing,
        minute=st.integers(-1440, 3000) | st.integers(400, 420),
        order=st.integers(0, 6),
        rounding=st.sampled_from(["down", "exact", "up"]),
        dish=st.just(""),
        text=st.text(max_size=3),
    ),
    max_size=20,
)


@given(doings)
def test_clock_times(made: list[Doing]) -> None:
    told = shown(made)
    assert sorted(d.minute for d in told) == [d.minute for d in told]
    assert sorted(d.clock for d in told) == [d.clock for d in told]
    for doing in told:
        assert abs(doing.clock - doing.minute) < 5
        if doing.rounding != "up":
            assert doing.clock <= doing.minute
        if doing.rounding != "down":
            assert doing.clock >= doing.minute


@given(st.integers(-2000, 9000))
def test_alone_on_the_clock_a_time_is_rounded_to_five(minute: int) -> None:
    for rounding in ("down", "up"):
        (doing,) = shown([Doing(minute, 0, rounding, "", "")])
        assert doing.clock % 5 == 0
        assert doing.clock == rounded(minute, rounding)
    (meal,) = shown([Doing(minute, 0, "exact", "", "")])
    assert meal.clock == minute


def test_times_of_day() -> None:
    assert clock(1440 + 366) == "06:06"
    assert clock(-60) == "23:00"
    assert nearest(383) == "06:25"


def lines(plan: Plan, scenario: Scenario, dish: str = "") -> list[tuple[str, str]]:
    """Give clock and words of one dish, or of the fires."""
    told = timetable(plan, scenario, Metric())
    return [(clock(d.clock), d.text) for d in told if d.dish == dish]


def only(plan: Plan, step: Step) -> Plan:
    """Give a plan of one step and no fire."""
    return replace(plan, steps=(step,), fires=())


def test_packed(plan: Plan, scenario: Scenario) -> None:
    assert lines(plan, scenario, "porridge of rolled oats") == [
        (
            "06:05",
            "400 g rolled oats, 6 g salt, 1.6 L water. Small pot, lid on, on the stick stove. "
            "Boils about 06:20; keep it boiling 2 min.",
        ),
        ("06:25", "Off the stove and at once into the packed box. Leave it shut until 07:30."),
        ("07:30", "Breakfast. Serve 5 portions, about 85 °C, perhaps only 78."),
    ]


def test_vacuum_with_nothing_but_water(plan: Plan, scenario: Scenario) -> None:
    assert lines(plan, scenario, "drinking water, boiled") == [
        (
            "06:30",
            "2 L water. Middle pot, lid on, on the gas burner. "
            "Boils about 06:45; keep it boiling 1 min.",
        ),
        ("06:50", "Off the stove and at once into the jar. Leave it shut until 12:00."),
        (
            "12:00",
            "Drinking water. Ready: 5 portions, about 83 °C. Let it cool for children.",
        ),
    ]


def test_a_preheated_jar_is_rinsed(plan: Plan, scenario: Scenario) -> None:
    box, jar = scenario.cookers
    warm = OwnCooker(replace(jar.cooker, preheated=True), 1)
    told = lines(plan, replace(scenario, cookers=(box, warm)), "drinking water, boiled")
    assert told[1][1].startswith("Off the stove and at once into the jar, rinsed hot first.")


def test_soaked_and_boiled_again(plan: Plan, scenario: Scenario) -> None:
    told = lines(plan, scenario, "red kidney bean stew")
    assert told == [
        ("23:00", "Soak 400 g dried red kidney beans in plenty of cold water."),
        (
            "16:05",
            "Pour the soaking water off. 400 g dried red kidney beans, 150 g onions (chopped), "
            "1.2 L fresh water. Large pot, lid on, on the stick stove. "
            "Boils about 16:30; keep it boiling 32 min.",
        ),
        ("17:05", "Off the stove and at once into the packed box. Leave it shut until 18:10."),
        (
            "18:10",
            "Out of the cooker and onto the stick stove, lid on. "
            "Boils again about 18:20; keep it boiling 5 min.",
        ),
        ("18:30", "Supper. Serve 5 portions, about 95 °C. Let it cool for children."),
    ]


def test_boiled_again_and_put_back(plan: Plan, scenario: Scenario) -> None:
    step = plan.steps[2]
    again = step.reboil[0]
    twice = replace(step, reboil=(replace(again, on=1040, boil=1048, off=1050), again))
    told = [text for _, text in lines(only(plan, twice), scenario, step.item)]
    assert told[2].endswith("Leave it shut until 17:20.")
    assert "Off the stove and at once back into the cooker." in told
    early = replace(step, reboil=(replace(again, off=1103),))
    told = [text for _, text in lines(only(plan, early), scenario, step.item)]
    assert told[-2] == "Off the stove; leave the lid on."


def test_pressure_falls_by_itself(plan: Plan, scenario: Scenario) -> None:
    told = lines(plan, scenario, "chickpea stew")
    assert told[0] == ("20:00", "Soak 400 g dried chickpeas in plenty of cold water.")
    assert "lid locked" in told[1][1]
    assert told[1][1].endswith("Full pressure about 06:20; keep it there 15 min.")
    assert told[2] == ("06:40", "Off the stove; let the pressure fall by itself.")
    assert told[3] == ("06:55", "Into the packed box. Leave it shut until 07:30.")


def test_flame_until_served(plan: Plan, scenario: Scenario) -> None:
    assert lines(plan, scenario, "warm washing water")[0][1].endswith("Reaches 60 °C about 18:40.")
    assert [c for c, _ in lines(plan, scenario, "warm washing water")] == ["18:10", "18:45"]
    waits = lines(plan, scenario, "brown lentils with potatoes")
    assert waits[1] == ("18:05", "Off the stove; leave the lid on.")


def test_fires(plan: Plan, scenario: Scenario) -> None:
    told = lines(plan, scenario)
    assert told[:4] == [
        ("06:00", "Light the stick stove outdoors: 100 g of sticks to start it."),
        ("06:25", "Done with the stick stove: put it out, keep what has not burned."),
        ("06:30", "Light the gas burner outdoors."),
        ("06:50", "Done with the gas burner: turn it off."),
    ]
    assert ("18:10", "Switch on the plate.") in told
    assert ("18:45", "Done with the plate: turn it off.") in told


def test_sun(plan: Plan, scenario: Scenario) -> None:
    own, store = scenario.stoves[2], scenario.stores[2]
    sunny = replace(
        scenario,
        stoves=(replace(own, stove=replace(own.stove, fuel="sun", label="sun oven")),),
        stores=(replace(store, fuel=replace(store.fuel, name="sun", kind="sun")),),
    )
    told = lines(replace(plan, steps=(), fires=plan.fires[3:4]), sunny)
    assert told == [("18:10", "Turn the sun oven to the sun.")]


def test_a_pot_leaves_before_the_next_one_takes_its_place(plan: Plan, scenario: Scenario) -> None:
    first = replace(plan.steps[0], off=400, move=402, item="first")
    second = replace(plan.steps[0], on=400, boil=410, off=420, move=422, item="a second")
    told = timetable(replace(plan, steps=(second, first), fires=()), scenario, Metric())
    assert [(d.dish, d.clock) for d in told if d.minute == 400] == [
        ("first", 400),
        ("a second", 400),
    ]


def test_a_dish_in_two_pots(plan: Plan, scenario: Scenario) -> None:
    step = plan.steps[0]
    told = timetable(
        replace(plan, steps=(step, replace(step, batch=2)), fires=()), scenario, Metric()
    )
    assert {d.dish for d in told} == {f"{step.item}, pot 1", f"{step.item}, pot 2"}


@pytest.mark.parametrize(
    ("usual", "careful", "words"),
    [
        (95.0, 94.5, "about 95 °C."),
        (85.0, 78.9, "about 85 °C, perhaps only 78."),
        (60.5, 59.4, "about 60 °C, perhaps only 59."),  # under the limit it is always said
    ],
)
def test_how_hot(plan: Plan, scenario: Scenario, usual: float, careful: float, words: str) -> None:
    step = replace(plan.steps[0], serve_c=usual, serve_c_low=careful)
    assert lines(only(plan, step), scenario, step.item)[-1][1].endswith(words)


# Drinking water is wanted at no temperature: it cools, and a second number helps nobody.
@pytest.mark.parametrize("careful", [59.0, 40.0, 10.0])
def test_what_may_be_cold_is_told_once(plan: Plan, scenario: Scenario, careful: float) -> None:
    water = plan.steps[1]
    assert water.serve_rule == "any"
    step = replace(water, serve_c=60.0, serve_c_low=careful)
    text = lines(only(plan, step), scenario, step.item)[-1][1]
    assert "about 60 °C" in text
    assert "perhaps" not in text


def test_one_portion(plan: Plan, scenario: Scenario) -> None:
    step = replace(plan.steps[0], portions=1)
    assert "Serve 1 portion," in lines(only(plan, step), scenario, step.item)[-1][1]
