"""Ways on the clock."""

from dataclasses import replace

import pytest

from optimizer.model.household import Window
from optimizer.planning.grid import GRID_MIN
from optimizer.planning.kitchen import choices
from optimizer.planning.starts import fuel_of, not_after, not_before, soak_from, up_again_min


def columns(scenario, dish=None, finish=None, *, again=False):
    return [
        column
        for column in choices(scenario).columns
        if dish in (None, column.way.item.dish.name)
        and finish in (None, column.way.way.finish)
        and (column.way.reboil is not None) == again
    ]


@pytest.mark.parametrize("serve", [("rice", "lunch", 750), ("rice", "lunch", 753)])
def test_pots_go_on_whole_steps_before_the_meal(household, serve):
    found = columns(household([serve]))
    assert found
    assert {(serve[2] - column.way.on) % GRID_MIN for column in found} == {0}


@pytest.mark.parametrize(
    ("minute", "step", "after", "before"),
    [(300, 10, 303, 293), (303, 10, 303, 303), (304, 5, 308, 303)],
)
def test_steps_are_counted_back_from_the_meal(household, minute, step, after, before):
    item = household([("rice", "lunch", 753)]).items[0]
    assert not_before(minute, item, step) == after
    assert not_after(minute, item, step) == before


def test_fires_are_lit_and_pots_taken_off_in_cook_hours(household):
    home = household()
    for column in choices(home).columns:
        for burn in column.burns:
            window = home.windows[burn.window]
            assert window.start_min + column.way.way.own.stove.start_min <= burn.start
            assert burn.start < burn.end <= window.end_min


def test_nothing_is_taken_off_after_the_meal(household):
    for column in choices(household()).columns:
        assert column.burns[-1].end <= column.way.item.serve_min


def test_a_pot_holds_stove_pot_and_cooker_while_it_is_there(household):
    column = columns(household(), "rice", "packed")[0]
    cooking = column.way
    uses = {use.resource: (use.start, use.end) for use in column.uses}
    assert uses[f"stove:{column.stove}"] == (cooking.on, cooking.off)
    # common practice, no source: 15 min to ladle out and wash
    assert uses[f"pot:{cooking.way.pot.name}"] == (cooking.on, 750 + 15)
    assert uses[f"cooker:{cooking.way.cooker.cooker.name}"] == (cooking.rest_from, 750)


def test_a_pot_emptied_into_a_jar_is_free_again(household):
    column = columns(household(), "tea", "vacuum")[0]
    uses = {use.resource: use.end for use in column.uses}
    assert uses[f"pot:{column.way.way.pot.name}"] == column.way.rest_from + 15
    assert uses["cooker:jar_2l"] == 450 + 15


def test_only_a_fed_fire_holds_a_cook(household):
    home = household([("rice", "lunch", 750)])
    for column in columns(home):
        assert ("cook" in {use.resource for use in column.uses}) == (column.stove == "stick_stove")


def test_tending_is_all_of_the_time_at_a_fed_fire_and_a_little_elsewhere(household):
    home = household([("rice", "lunch", 750)])
    for column in columns(home):
        fed = column.stove == "stick_stove"
        assert column.tend_min == (column.way.off - column.way.on if fed else 3)


def test_a_stove_lit_for_one_pot_pays_for_it_there(household):
    home = household([("rice", "lunch", 750)])
    gas, sticks = (
        next(c for c in columns(home) if c.stove == name) for name in ("gas_burner", "stick_stove")
    )
    minutes = {c.stove: c.way.off - c.way.on for c in (gas, sticks)}
    burnt = gas.way.way.fuel_j(minutes["gas_burner"])
    assert fuel_of(gas.way) == gas.fuel_j == burnt + gas.way.way.own.stove.start_j
    assert fuel_of(sticks.way) == sticks.way.way.fuel_j(minutes["stick_stove"])


def test_money_is_fuel_times_price(household):
    column = next(c for c in columns(household([("rice", "lunch", 750)])) if c.fuel == "propane")
    joules_kg = column.way.way.store.fuel.lhv_j_kg
    assert column.money == pytest.approx(column.fuel_j / joules_kg * 10.0)


def test_soaking_starts_in_cook_hours(household):
    home = household([("bean_stew", "supper", 1140)])
    item = home.items[0]
    windows = (Window(360, 540), Window(960, 1140))
    assert soak_from(item, 1000, windows) == 520  # eight hours before
    assert soak_from(item, 1100, windows) == 540  # 10:20 is too late to begin it at 09:00
    assert soak_from(item, 800, windows) == -1  # nobody is up to begin it


def test_beans_cannot_be_soaked_before_the_first_day(household):
    home = household([("bean_stew", "breakfast", 480)])
    assert not choices(home).columns


def test_beans_are_soaked_from_the_evening_before(household):
    home = household([("bean_stew", "breakfast", 1440 + 530)], days=2)
    found = choices(home).columns
    assert found
    for column in found:
        assert soak_from(home.items[0], column.way.on, home.windows) <= column.way.on - 480


def test_a_second_boil_comes_the_same_day_before_it_is_too_cold(household):
    found = columns(household(), "lentil_soup", again=True)
    assert found
    for column in found:
        cooking, hot_c = column.way, 60  # BfR opinion 037/2020
        again = cooking.reboil
        assert cooking.off <= again.on < again.boil <= again.off <= 750
        assert again.on // 1440 == cooking.on // 1440
        assert cooking.reboil_from_c >= hot_c
        assert again.off - again.on >= up_again_min(cooking.way, cooking.reboil_from_c)
        assert len(column.burns) == 2


def test_a_second_boil_takes_full_power_all_the_time(household):
    column = next(
        c for c in columns(household(), "lentil_soup", again=True) if c.stove == "gas_burner"
    )
    cooking, stove = column.way, column.way.way.own.stove
    once = replace(cooking, reboil=None)
    minutes = cooking.reboil.off - cooking.reboil.on
    more = minutes * 60 * stove.power_w + stove.start_j
    assert fuel_of(cooking) == pytest.approx(fuel_of(once) + more)
