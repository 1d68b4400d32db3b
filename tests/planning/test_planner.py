"""The main job from file to checked plan, on the scenarios that are shipped."""

from dataclasses import replace
from functools import lru_cache

import pytest

from optimizer.errors import LimitError
from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.planning import planner
from optimizer.planning.memory import Memory
from optimizer.planning.planner import plan, plans
from optimizer.planning.verify import verify
from optimizer.scenario.changes import with_field
from optimizer.scenario.reading import parse, read
from optimizer.shelf import data_folder


def shipped(name: str) -> Scenario:
    return read(data_folder() / "scenarios" / f"{name}.yaml")


@lru_cache
def demo() -> tuple[Scenario, Plan]:
    scenario = shipped("outage_weekend")
    return scenario, plan(scenario)


def test_the_demo_is_planned_within_the_gap_and_passes_the_checker():
    scenario, made = demo()
    assert made.status in ("optimal", "within_gap")
    assert made.gap is not None
    assert 0 <= made.gap <= 0.01
    verify(made, scenario)


def test_everything_on_the_menu_is_served_when_it_should_be():
    scenario, made = demo()
    served = sorted((step.number, step.serve) for step in made.steps)
    assert served == [(item.number, item.serve_min) for item in scenario.items]


def test_hot_food_is_hot_and_done_even_at_the_careful_edge():
    _, made = demo()
    hot = [step for step in made.steps if step.serve_rule == "hot"]
    assert hot
    for step in hot:
        assert step.serve_c_low >= 60
        assert step.done >= 1


def test_dishes_and_fires_add_up_to_the_fuel_used():
    _, made = demo()
    dishes = sum(step.fuel_mj for step in made.steps)
    fires = sum(fire.start_mj + fire.idle_mj for fire in made.fires)
    assert made.fuel_mj == pytest.approx(dishes + fires, abs=1e-9)


def test_the_reserve_is_not_touched():
    scenario, made = demo()
    for store, used in zip(scenario.stores, made.fuels, strict=True):
        assert used.name == store.fuel.name
        assert used.used_mj <= used.stock_mj * (1 - store.reserve) + 1e-6


def test_the_box_and_the_pressure_pot_save_fuel_money_and_time_at_the_fire():
    _, made = demo()
    assert made.saved is not None
    assert made.saved.fuel_fraction > 0.1
    assert made.saved.cost > 0
    assert made.saved.fire_minutes > 60
    assert made.saved.fuel_mj == pytest.approx(made.boil_all_same_stoves.fuel_mj - made.fuel_mj)


def test_a_pressure_pot_goes_into_the_box_only_after_its_pressure_has_fallen():
    _, made = demo()
    both = [step for step in made.steps if step.pressure and step.finish == "packed"]
    assert both, "the demonstration combines the two"
    assert all(step.move > step.off for step in both)


def test_the_same_file_gives_the_same_plan():
    scenario, made = demo()
    assert plan(scenario) == made


def test_a_thriftier_goal_never_does_worse_at_its_own():
    scenario, cheapest = demo()
    for goal, of in (("energy", lambda p: p.fuel_mj), ("tending", lambda p: p.tending_minutes)):
        other = plan(replace(scenario, goals=(goal,)), gap=0.02)
        assert of(other) <= of(cheapest) * 1.001


def test_goals_are_taken_one_after_the_other():
    scenario, cheapest = demo()
    both = plan(replace(scenario, goals=("money", "tending")))
    assert both.cost <= cheapest.cost * 1.011
    assert both.tending_minutes <= cheapest.tending_minutes + 1e-6


def test_the_second_solver_agrees():
    day = _first_day(shipped("outage_weekend"))
    other, same = plan(day, solver="cbc"), plan(day)
    assert other.cost == pytest.approx(same.cost, rel=0.011)
    assert other.goal.bound is None


def _first_day(scenario: Scenario) -> Scenario:
    return replace(
        scenario,
        days=1,
        weather=scenario.weather[:1],
        items=tuple(item for item in scenario.items if item.day == 1),
        windows=tuple(window for window in scenario.windows if window.day == 1),
    )


def test_too_little_fuel_is_explained_as_the_least_change():
    made = plan(shipped("short_of_fuel"))
    assert made.status == "infeasible"
    assert not made.steps
    assert any("kg of sticks more would do" in change for change in made.changes)


def test_the_least_change_is_enough_and_nearly_the_least():
    scenario = shipped("short_of_fuel")
    more = next(c for c in plan(scenario).changes if "sticks more would do" in c)
    kg = float(more.split(" kg")[0])

    def with_more(amount: float) -> str:
        stores = tuple(
            replace(store, stock_kg=store.stock_kg + amount / (1 - store.reserve))
            if store.fuel.name == "sticks"
            else store
            for store in scenario.stores
        )
        return plan(replace(scenario, stores=stores)).status

    assert with_more(kg) != "infeasible"
    assert with_more(kg * 0.8) == "infeasible"


def test_stopping_before_there_is_a_plan_says_so():
    with pytest.raises(LimitError, match="no plan"):
        plan(shipped("week"), progress=lambda *_: False)


@pytest.mark.parametrize("days", [7])
def test_a_week_of_different_days_is_planned(days):
    scenario = shipped("week")
    assert scenario.days == days
    made = plan(scenario, gap=0.02)
    assert made.gap <= 0.02
    assert len({step.dish for step in made.steps}) >= 12


# the plan as it grows


def small() -> Scenario:
    return shipped("one_person_jar")


def test_the_first_that_comes_has_its_schedule_and_its_saving_and_the_last_is_the_plan():
    first, *between, last = plans(small())
    assert first.steps
    assert first.saved is not None
    assert first.boil_all is None
    assert not first.worth
    assert [each.boil_all is None for each in between] == [False]
    assert last == plan(small())
    assert last.boil_all is not None
    assert replace(last, boil_all=None, saved_any_stove=None, worth=()) == first


def test_what_nobody_waits_for_is_left_out():
    growing = plans(small(), wanted=lambda: False)
    assert next(growing).steps
    assert list(growing) == []


@pytest.fixture
def calls(monkeypatch):
    """Count how often boiling through is worked out."""
    made = []

    def counted(*words, **more):
        made.append(more["steps"])
        return boil_all(*words, **more)

    boil_all = planner.boil_all
    monkeypatch.setattr(planner, "boil_all", counted)
    return made


def test_boiling_through_of_the_demo_is_not_worked_out_again_for_another_stock(calls):
    text = (data_folder() / "scenarios" / "outage_weekend.yaml").read_text(encoding="utf-8")
    memory = Memory()
    for stock in ("13 kg", "13.1 kg"):
        home = parse(with_field(text, "fuels", "sticks", "stock", stock))
        assert home.shop is not None
        assert next(plans(home, memory=memory)).saved is not None
    assert len(calls) == 1


def test_boiling_through_is_worked_out_once_whatever_the_stock(calls):
    memory = Memory()
    before = plan(small(), memory=memory)
    assert len(calls) == 2
    stores = tuple(
        each if each.stock_kg is None else replace(each, stock_kg=2 * each.stock_kg)
        for each in small().stores
    )
    more = replace(small(), stores=stores)
    after = plan(more, memory=memory)
    assert len(calls) == 2
    assert after.boil_all == before.boil_all == plan(more).boil_all
    fewer = replace(more, items=more.items[:-1])
    assert plan(fewer, memory=memory).boil_all != before.boil_all
    assert len(calls) == 6
