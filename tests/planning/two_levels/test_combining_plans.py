"""Plans of days put together, and the prices that fit the store."""

import itertools
import math
import random
from collections import Counter
from dataclasses import replace

import pytest

from optimizer.planning.combining import combine, next_prices
from optimizer.planning.days import kinds_of
from optimizer.planning.ledger import audit, price_of
from optimizer.planning.pricing import day_of


def priced_days(cook, days_of, seed):
    """Days of one dish with four plans each: the more sticks the cheaper."""
    chance = random.Random(seed)

    def day():
        return [
            cook(0, "gas", 400, 20, fuel_mj=gas, money=money)
            for gas, money in ((3.0, 0.1), (2.0, 0.3), (1.0, chance.choice((0.7, 0.9))), (0.5, 1.5))
        ]

    kinds = [day(), day()]
    kinds[1][1] = replace(kinds[1][1], money=0.45)
    days = [chance.choice(kinds) for _ in range(chance.choice((2, 3, 4)))]
    stock = chance.uniform(0.4, 2.5) * len(days) * 1e6
    case = days_of(days, stock_j={"butane": stock})
    made = [day_of(kind) for kind in kinds_of(case.columns, case.room)]
    for each in made:
        for column in each.kind.columns:
            each.kind.add([column], "money")
    return case, made


@pytest.mark.parametrize("seed", range(40))
def test_the_best_of_all_combinations_within_the_store(seed, cook, days_of):
    case, days = priced_days(cook, days_of, seed)
    chosen = combine(days, "money", case.room)
    best = case.best("money")
    if best is None:
        assert chosen == ()
        return
    audit(chosen, case.room)
    assert Counter(column.item for column in chosen) == Counter(case.room.items)
    assert len(chosen) == sum(day.kind.count for day in days)
    assert price_of(chosen, case.room, "money") == pytest.approx(best, rel=2e-4)


def test_some_stocks_are_too_small_and_most_are_not(cook, days_of):
    bests = [priced_days(cook, days_of, seed)[0].best("money") for seed in range(40)]
    assert 1 <= bests.count(None) <= 20


POINTS = [[(1.0, {"gas": 3.0}), (4.0, {"gas": 1.0})]]  # 1.5 money saves one MJ


@pytest.mark.parametrize(
    ("stock_mj", "price", "shares"),
    [(12.0, 0.0, [4, 0]), (8.0, 1.5, [2, 2]), (7.0, 1.5, [1.5, 2.5]), (3.0, 9.0, [0, 4])],
)
def test_a_price_is_what_one_more_unit_of_fuel_would_save(stock_mj, price, shares, kitchen):
    room = kitchen(stock_j={"gas": stock_mj * 1e6})
    at, most, found = next_prices([4], POINTS, room, ["gas"], 9.0)
    assert found[0] == pytest.approx(shares)
    if stock_mj != 12.0:  # a stock that is just enough has either price
        assert at["gas"] == pytest.approx(price)
    short = max(0.0, 4 - stock_mj)
    plans = sum(share * value for share, (value, _) in zip(shares, POINTS[0], strict=True))
    assert most == pytest.approx(plans + 9.0 * short)


@pytest.mark.parametrize("seed", range(20))
def test_no_price_gives_more_than_the_most(seed, kitchen):
    chance = random.Random(seed)
    points = [
        [(chance.uniform(1, 9), {"gas": chance.uniform(0, 5)}) for _ in range(5)] for _ in range(3)
    ]
    counts = [chance.randint(1, 4) for _ in range(3)]
    stock = chance.uniform(1.0, 3.0) * sum(counts)
    room = kitchen(stock_j={"gas": stock * 1e6})
    at, most, _ = next_prices(counts, points, room, ["gas"], 20.0)

    def bound(price):
        each = [min(v + price * f["gas"] for v, f in mine) for mine in points]
        return sum(n * b for n, b in zip(counts, each, strict=True)) - price * stock

    tried = [bound(20.0 * n / 400) for n in range(401)]
    assert max(tried) <= most + 1e-6
    assert bound(at["gas"]) == pytest.approx(most)


def test_no_point_no_price(kitchen):
    at, most, shares = next_prices([2], [[]], kitchen(stock_j={"gas": 1e6}), ["gas"], 1.0)
    assert (at, most, shares) == ({"gas": 0.0}, math.inf, [])


def test_whole_shares_are_counted_out_to_the_days_in_order(cook, days_of):
    case, days = priced_days(cook, days_of, 3)
    chosen = combine(days, "money", case.room)
    by_item = {item: list(mine) for item, mine in itertools.groupby(chosen, lambda c: c.item)}
    assert all(len(mine) == 1 for mine in by_item.values())
    assert all(any(mine[0] is c for c in case.columns) for mine in by_item.values())
