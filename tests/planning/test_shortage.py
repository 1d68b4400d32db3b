"""The least change that would make a schedule, in kitchens where it can be seen by eye."""

from dataclasses import replace

import pytest

from optimizer.planning import shortage
from optimizer.planning.columns import Column
from optimizer.planning.schedule import schedule
from optimizer.planning.shortage import least_change
from optimizer.planning.solver import Outcome


def approx(**fuels):
    return pytest.approx(fuels, rel=1e-5)


def test_nothing_is_missing(cook, kitchen):
    found = least_change([cook(0, "gas", 360, 20)], kitchen(0, stock_j={"butane": 1e6}))
    assert found.known
    assert (found.fuels_j, found.dishes, found.no_way) == ({}, (), ())
    assert (found.alone_j, found.one_more) == ({}, ())


def test_fuel_is_short(cook, kitchen):
    columns = [
        cook(0, "gas", 360, 20, fuel_mj=2.0),
        cook(0, "stick", 360, 20, fuel_mj=3.0),
        cook(1, "gas", 390, 20, fuel_mj=2.0),
    ]
    found = least_change(columns, kitchen(0, 1, stock_j={"butane": 3e6, "sticks": 2e6}))
    # 1 MJ more butane; or dish 0 on sticks: 3 and 1.5 to light it, 2.5 more than there is.
    assert found.fuels_j == approx(butane=1e6)
    assert found.alone_j == approx(butane=1e6, sticks=2.5e6)
    assert found.dishes == ()
    assert found.one_more == ()


def test_a_fuel_that_cannot_do_it_alone_is_not_offered(cook, kitchen):
    columns = [cook(0, "gas", 360, 20, fuel_mj=2.0), cook(1, "stick", 360, 20, fuel_mj=3.0)]
    found = least_change(columns, kitchen(0, 1, stock_j={"butane": 1e6, "sticks": 1e6}))
    assert found.fuels_j == approx(butane=1e6, sticks=3.5e6)
    assert found.alone_j == {}


def test_one_more_box_would_save_the_fuel(cook, kitchen):
    columns = [
        cook(item, "gas", 360 + 30 * item, minutes, fuel_mj=fuel_mj, held=480, cooker=cooker)
        for item in (0, 1)
        for minutes, fuel_mj, cooker in ((30, 3.0, None), (10, 1.0, "cooker:box"))
    ]
    room = kitchen(0, 1, box=1, stock_j={"butane": 2e6})
    found = least_change(columns, room)
    assert found.fuels_j == approx(butane=2e6)
    assert found.one_more == ("cooker:box",)
    assert least_change(columns, room, resources=["pot:big"]).one_more == ()
    richer = replace(room, capacity={**room.capacity, "cooker:box": 2})
    assert schedule(columns, richer, goals=["energy"]).value == pytest.approx(2e6)


def test_a_dish_too_many_for_the_stove(cook, kitchen):
    columns = [cook(item, "gas", 360 + 10 * item, 30) for item in range(3)]
    found = least_change(columns, kitchen(0, 1, 2, stock_j={"butane": 9e6}))
    # They all want the one stove at 380; two of them have to go, or there must be two more stoves.
    assert len(found.dishes) == 2
    assert found.one_more == ()
    two = least_change(columns[:2], kitchen(0, 1, big=2))
    assert len(two.dishes) == 1
    assert two.one_more == ("stove:gas",)


def test_a_dish_without_a_way(cook, kitchen):
    found = least_change([cook(0, "gas", 360, 20)], kitchen(0, 1, stock_j={"butane": 9e6}))
    assert (found.no_way, found.dishes) == ((1,), (1,))
    assert found.one_more == ()


def test_fuel_for_those_that_can_be_placed(cook, kitchen):
    columns = [cook(0, "gas", 360, 30, fuel_mj=2.0), cook(1, "gas", 370, 30, fuel_mj=3.0)]
    found = least_change(columns, kitchen(0, 1, stock_j={"butane": 1e6}))
    assert len(found.dishes) == 1
    assert found.fuels_j["butane"] in (pytest.approx(1e6), pytest.approx(2e6))
    assert found.alone_j == {}


@pytest.mark.parametrize("seed", range(40))
def test_what_it_says_makes_a_schedule(seed, random_case):
    columns, room = random_case(seed)
    found = least_change(columns, room, gap=0)
    assert found.known
    feasible = schedule(columns, room, goals=["money"]).value is not None
    assert feasible == (not found.fuels_j and not found.dishes)

    def would_do(changed):
        return schedule(columns, changed, goals=["money"]).value is not None

    def with_more(fuels):
        stock = {fuel: j + fuels.get(fuel, 0) for fuel, j in room.stock_j.items()}
        return replace(room, stock_j=stock)

    if not found.dishes:
        assert would_do(with_more({fuel: j + 5 for fuel, j in found.fuels_j.items()}))
        if found.fuels_j:
            less = {fuel: j - 1000 for fuel, j in found.fuels_j.items()}
            assert not would_do(with_more(less))
    for fuel, more in found.alone_j.items():
        assert would_do(with_more({fuel: more + 5}))
        assert not would_do(with_more({fuel: more - 1000}))
    for name in room.capacity:
        richer = replace(room, capacity={**room.capacity, name: room.capacity[name] + 1})
        assert feasible or would_do(richer) == (name in found.one_more)


def test_out_of_time_says_so(cook, kitchen, monkeypatch):
    late = Outcome("no_solution", "Time limit reached", None, None, None, 0.0, 0)
    monkeypatch.setattr(shortage, "solve", lambda *_, **__: late)
    columns: list[Column] = [cook(0, "gas", 360, 20)]
    assert not least_change(columns, kitchen(0)).known
