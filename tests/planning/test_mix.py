"""The mix is a bound on the schedule, and its prices say what is scarce."""

from dataclasses import replace

import pytest

from optimizer.model.household import Window
from optimizer.planning.columns import Burn, Column, Kitchen, Lighting, Use
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.mix import mix
from optimizer.planning.schedule import schedule
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder

WINDOW = Window(360, 480)


def column(item: int, stove: str, fuel: str, fuel_mj: float, money: float, minutes: int) -> Column:
    return Column(
        item=item,
        stove=stove,
        burns=(Burn(stove, 0, 360, 360 + minutes),),
        uses=(Use(f"stove:{stove}", 360, 360 + minutes), Use(f"pot:{item}", 360, 500)),
        fuel=fuel,
        fuel_j=fuel_mj * 1e6,
        money=money,
        tend_min=minutes,
    )


def kitchen(sticks_mj: float) -> Kitchen:
    return Kitchen(
        items=(0, 1),
        capacity={"stove:sticks": 1, "stove:gas": 1, "pot:0": 1, "pot:1": 1, "cook": 1},
        lightings={"sticks": Lighting("sticks", "sticks", 1e6, 5, 500.0, 0.0, tend=True)},
        stock_j={"sticks": sticks_mj * 1e6},
        windows=(WINDOW,),
    )


COLUMNS = (
    column(0, "sticks", "sticks", 4, 0.0, 40),
    column(0, "gas", "gas", 2, 2.0, 20),
    column(1, "sticks", "sticks", 4, 0.0, 40),
    column(1, "gas", "gas", 2, 1.0, 20),
)


def test_round_numbers_are_mixed_by_hand():
    # 9 MJ of sticks: one fire 1 MJ, both dishes 8 MJ; nothing is paid.
    assert mix(COLUMNS, kitchen(9), goal="money").value == pytest.approx(0)
    # 5 MJ: the fire and one dish; the one whose gas is dearer stays on the sticks.
    assert mix(COLUMNS, kitchen(5), goal="money").value == pytest.approx(1.0)


def test_the_price_of_a_stock_is_what_a_joule_more_saves():
    cheap = mix(COLUMNS, kitchen(7), goal="money")
    more = mix(COLUMNS, kitchen(7.001), goal="money")
    saved_per_j = (cheap.value - more.value) / 1e3
    assert -cheap.prices["stock_is_enough[sticks]"] == pytest.approx(saved_per_j, rel=1e-3)
    assert saved_per_j > 0


def test_stoves_and_sticks_share_the_minutes_of_a_window():
    slow = [replace(c, burns=(Burn(c.stove, 0, 360, 470),)) for c in COLUMNS if c.stove == "sticks"]
    found = mix(slow, kitchen(100), goal="money")
    assert found.outcome.status == "infeasible"  # 220 minutes do not fit 120


@pytest.mark.parametrize("goal", ["money", "energy", "tending", "sticks"])
def test_no_schedule_of_the_demo_costs_less_than_its_mix(goal):
    scenario = read(data_folder() / "scenarios" / "outage_weekend.yaml")
    options, room = choices(scenario), kitchen_of(scenario)
    found = schedule(options.columns, room, goals=(goal,), gap=0.05)
    assert mix(options.columns, room, goal=goal).value <= found.value + 1e-6
