"""Plans of days put together, against every choice there is."""

import itertools
import random

import pytest

from optimizer.model.household import Window
from optimizer.planning.columns import Burn, Column, Kitchen, Use
from optimizer.planning.days import kinds_of
from optimizer.planning.ledger import audit
from optimizer.planning.share import least_share
from optimizer.studies.endurance.pool import Pool
from optimizer.studies.endurance.watch import Watch


def kitchen(days: int, sticks_mj: float, gas_mj: float) -> Kitchen:
    return Kitchen(
        items=tuple(range(days)),
        capacity={"stove:stick": 1, "stove:gas": 1, "pot:a": 1},
        lightings={},
        stock_j={"sticks": sticks_mj * 1e6, "gas": gas_mj * 1e6},
        windows=tuple(Window(1440 * day + 360, 1440 * day + 480) for day in range(days)),
    )


def ways(day: int, takes: tuple[tuple[str, float], ...]) -> list[Column]:
    """One dish a day; each way burns so many MJ of one fuel."""
    begin = 1440 * day + 370
    return [
        Column(
            item=day,
            stove="stick" if fuel == "sticks" else "gas",
            burns=(Burn("stick" if fuel == "sticks" else "gas", day, begin, begin + 20),),
            uses=(
                Use("stove:stick" if fuel == "sticks" else "stove:gas", begin, begin + 20),
                Use("pot:a", begin, begin + 60),
            ),
            fuel=fuel,
            fuel_j=mj * 1e6,
            money=0.0,
            tend_min=0.0,
        )
        for fuel, mj in takes
    ]


def all_days(days: int, rounds: list[tuple[tuple[str, float], ...]]) -> tuple[Column, ...]:
    return tuple(c for day in range(days) for c in ways(day, rounds[day % len(rounds)]))


def fits(days: int, rounds, sticks_mj: float, gas_mj: float) -> bool:
    for chosen in itertools.product(*(rounds[day % len(rounds)] for day in range(days))):
        burnt = {"sticks": 0.0, "gas": 0.0}
        for fuel, mj in chosen:
            burnt[fuel] += mj
        if burnt["sticks"] <= sticks_mj + 1e-9 and burnt["gas"] <= gas_mj + 1e-9:
            return True
    return False


def looked(days: int, rounds, sticks_mj: float, gas_mj: float):
    columns, room = all_days(days, rounds), kitchen(days, sticks_mj, gas_mj)
    share = least_share(kinds_of(columns, room), room.stock_j)
    chosen, proof = Pool().days_of(columns, room, share.prices, Watch())
    return share, chosen, proof, room


def test_round_numbers_by_hand():
    # 7 MJ of sticks at 2 a day are 3 days, 3 MJ of gas at 1 a day are 3 more.
    rounds = [(("sticks", 2.0), ("gas", 1.0))]
    share, chosen, proof, room = looked(6, rounds, 7, 3)
    assert proof == "found"
    audit(chosen, room)
    # Split dishes would use the stores evenly: 6 = 3 s + 3.5 s, so s = 6 / 6.5.
    assert share.value == pytest.approx(6 / 6.5)
    share, chosen, proof, _ = looked(7, rounds, 7, 3)
    assert share.value == pytest.approx(7 / 6.5)
    assert (chosen, proof) == ((), "none")


def test_prices_come_to_one_over_the_whole_store():
    share, _, _, room = looked(6, [(("sticks", 2.0), ("gas", 1.0))], 7, 3)
    worth = sum(price * room.stock_j[fuel] for fuel, price in share.prices.items())
    assert worth == pytest.approx(1.0)
    # A MJ of sticks is half a day of 6.5, one of gas a whole one.
    assert share.prices["sticks"] == pytest.approx(0.5 / 6.5 / 1e6)
    assert share.prices["gas"] == pytest.approx(1 / 6.5 / 1e6)


def test_no_share_where_a_dish_cannot_be_cooked():
    room = kitchen(2, 7, 3)
    columns = tuple(ways(0, (("sticks", 2.0),)))
    kinds = kinds_of(columns, room)
    kinds[0].kitchen = room  # both dishes are wanted, one has no way
    assert least_share(kinds, room.stock_j).value is None


@pytest.mark.parametrize("seed", range(25))
def test_found_and_none_are_as_in_every_choice(seed):
    chance = random.Random(seed)
    rounds = [
        tuple(
            (chance.choice(("sticks", "gas")), round(chance.uniform(0.5, 3.0), 1))
            for _ in range(chance.randint(1, 3))
        )
        for _ in range(chance.randint(1, 3))
    ]
    days = chance.randint(1, 6)
    sticks, gas = round(chance.uniform(0.5, 8), 1), round(chance.uniform(0.5, 6), 1)
    share, chosen, proof, room = looked(days, rounds, sticks, gas)
    true = fits(days, rounds, sticks, gas)
    assert proof != ("none" if true else "found")
    if chosen:
        audit(chosen, room)
    if true:
        assert share.value <= 1 + 1e-9
