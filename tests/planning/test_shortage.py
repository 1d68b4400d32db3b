"""The least change that would make a schedule, in kitchens where it can be seen by eye."""

from dataclasses import replace

import pytest

from optimizer.planning import shortage
from optimizer.planning.schedule import schedule
from optimizer.planning.shortage import Shortage, least_change
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


@pytest.fixture
def asked(monkeypatch):
    """Note what every small solve was asked for."""
    heard = []

    def note(program, **how):
        heard.append(how)
        return real(program, **how)

    real = shortage.solve
    monkeypatch.setattr(shortage, "solve", note)
    return heard


def test_as_few_dishes_as_can_be_is_proven_and_the_rest_only_to_the_gap(cook, kitchen, asked):
    room = kitchen(0, stock_j={"butane": 1e6})
    least_change([cook(0, "gas", 360, 20, fuel_mj=2.0)], room, gap=0.2, time_limit_s=7.0)
    assert [how["gap"] for how in asked] == [0.0, *[0.2] * (len(asked) - 1)]
    left = [how["time_limit_s"] for how in asked]
    assert left == sorted(left, reverse=True)
    assert 0 < left[-1] < left[0] <= 7.0


def test_it_looks_for_half_a_minute_and_to_a_hundredth_unless_told(cook, kitchen, asked):
    least_change([cook(0, "gas", 360, 20)], kitchen(0))
    assert asked[-1]["gap"] == 0.01
    assert 5 < asked[0]["time_limit_s"] <= 30


def test_nothing_more_is_tried_where_nothing_is_missing(cook, kitchen, asked):
    room = kitchen(0, stock_j={"butane": 2e6, "sticks": 2e6})
    least_change([cook(0, "gas", 360, 20)], room)
    assert len(asked) == 2  # dishes to leave out, fuel to add


def test_no_resource_is_tried_for_a_dish_without_a_way(cook, kitchen, asked):
    columns = [cook(0, "gas", 360, 20, fuel_mj=2.0)]
    found = least_change(columns, kitchen(0, 1, stock_j={"butane": 1e6}))
    assert found.fuels_j == approx(butane=1e6)
    assert (found.no_way, found.dishes, found.alone_j) == ((1,), (1,), {})
    assert len(asked) == 2


@pytest.mark.parametrize("late", range(3))
def test_one_solve_out_of_time_leaves_it_unproven(cook, kitchen, monkeypatch, late):
    def out_of_time(program, **how):
        outcome = real(program, **how)
        solves.append(outcome)
        return replace(outcome, status="feasible") if len(solves) == late + 1 else outcome

    real, solves = shortage.solve, []
    monkeypatch.setattr(shortage, "solve", out_of_time)
    columns = [cook(0, "gas", 360, 20, fuel_mj=2.0)]
    found = least_change(columns, kitchen(0, stock_j={"butane": 1e6}))
    assert len(solves) > 3
    assert not found.known
    assert found.alone_j == approx(butane=1e6)


def test_out_of_time_says_so_and_names_nothing(cook, kitchen, monkeypatch):
    late = Outcome("no_solution", "Time limit reached", None, None, None, 0.0, 0)
    monkeypatch.setattr(shortage, "solve", lambda *_, **__: late)
    found = least_change([cook(0, "gas", 360, 20)], kitchen(0, stock_j={"butane": 1e5}))
    assert found == Shortage(False, {}, (), (), {}, ())


def test_a_resource_that_the_kitchen_has_none_of_is_tried_as_one(cook, kitchen):
    columns = [
        cook(item, "gas", 360 + 30 * item, minutes, fuel_mj=fuel_mj, held=480, cooker=cooker)
        for item in (0, 1)
        for minutes, fuel_mj, cooker in ((30, 2.0, None), (10, 1.0, "cooker:box"))
    ]
    for butane_j, one_more in ((3e6, ("cooker:box",)), (2e6, ())):  # 2 MJ would take two boxes
        none = kitchen(0, 1, box=0, stock_j={"butane": butane_j})
        assert least_change(columns, none).one_more == one_more


def test_only_the_fuel_of_the_dishes_that_stay_is_counted(cook, kitchen):
    columns = [
        cook(0, "gas", 360, 30, fuel_mj=2.0),
        cook(1, "gas", 400, 30, fuel_mj=4.0),
    ]
    found = least_change(columns, kitchen(0, 1, 2, stock_j={"butane": 1e6, "sticks": 1e6}))
    assert (found.dishes, found.no_way) == ((2,), (2,))
    assert found.fuels_j == approx(butane=5e6)  # and no sticks
