"""A schedule taken apart: what blocks share, and which of them are alike."""

from dataclasses import replace
from itertools import combinations

import pytest

from optimizer.model.household import Window
from optimizer.planning.days import blocks_of, kinds_of, shape, spread
from optimizer.planning.ledger import audit, fuel_of, price_of


def day(cook, fuel_mj=2.0, start=400):
    return [
        cook(0, "stick", start, 20, fuel_mj=fuel_mj, money=0.1),
        cook(0, "gas", 420, 20, fuel_mj=1.5, money=0.3),
        cook(1, "gas", 440, 30, fuel_mj=1.0, money=0.2),
    ]


@pytest.mark.parametrize("seed", range(32))
def test_blocks_share_nothing_at_one_time_and_no_cook_hours(seed, random_days):
    case = random_days(seed)
    blocks = blocks_of(case.columns)
    placed = sorted(id(column) for block in blocks for column in block)
    assert placed == sorted(id(column) for column in case.columns)
    for one, other in combinations(blocks, 2):
        assert not {c.item for c in one} & {c.item for c in other}
        assert not windows(one) & windows(other)
        ours, theirs = spans(one), spans(other)
        assert not any(
            a.resource == b.resource and a.start < b.end and b.start < a.end
            for a in ours
            for b in theirs
        )


def windows(block):
    return {burn.window for column in block for burn in column.burns}


def spans(block):
    return {use for column in block for use in column.uses if use.start < use.end}


def test_a_day_is_a_block_of_its_own(cook, days_of):
    case = days_of([day(cook)] * 3)
    assert [len(block) for block in blocks_of(case.columns)] == [3, 3, 3]


def test_a_box_filled_the_evening_before_ties_two_days(cook, days_of, random_days):
    case = random_days(1)  # the last day's first dish may be packed on the evening before
    assert len(blocks_of(case.columns)) <= len(case.groups)
    case = days_of([day(cook), day(cook)])
    overnight = cook(0, "stick", 450, 20, held=1440 + 450, cooker="cooker:box")
    joined = (*case.columns, replace(overnight, item=2))
    assert len(blocks_of(joined)) == 1


def test_equal_days_are_one_kind(cook, days_of):
    case = days_of([day(cook), day(cook, 2.5), day(cook), day(cook)])
    kinds = kinds_of(case.columns, case.room)
    assert [kind.count for kind in kinds] == [3, 1]
    assert kinds[0].columns[0].item == 0
    assert kinds[0].kitchen.items == (0, 1)
    assert not kinds[0].kitchen.stock_j


CHANGES = {
    "fuel": lambda c: replace(c, fuel_j=c.fuel_j + 1e3),
    "money": lambda c: replace(c, money=c.money + 0.01),
    "tending": lambda c: replace(c, tend_min=c.tend_min + 1),
    "start": lambda c: replace(c, burns=tuple(replace(b, start=b.start + 5) for b in c.burns)),
    "held longer": lambda c: replace(c, uses=tuple(replace(u, end=u.end + 5) for u in c.uses)),
    "pot": lambda c: replace(
        c, uses=tuple(replace(u, resource=u.resource.replace("big", "small")) for u in c.uses)
    ),
    "stove": lambda c: replace(c, stove="other"),
}


@pytest.mark.parametrize("change", CHANGES.values(), ids=CHANGES.keys())
def test_a_day_that_differs_in_one_thing_is_of_another_kind(change, cook, days_of):
    case = days_of([day(cook), day(cook), day(cook)])
    columns = [*case.columns[:-1], change(case.columns[-1])]
    assert [kind.count for kind in kinds_of(columns, case.room)] == [2, 1]


def test_other_cook_hours_or_pots_make_another_kind(cook, days_of):
    case = days_of([day(cook), day(cook)])
    morning, evening = case.room.windows[2:]
    longer = (*case.room.windows[:2], Window(morning.start_min, 1440 + 490), evening)
    assert len(kinds_of(case.columns, replace(case.room, windows=longer))) == 2
    assert len(kinds_of(case.columns, replace(case.room, batches={3: 2}))) == 2
    assert len(kinds_of(case.columns, case.room)) == 1


def test_days_of_the_same_sum_but_of_other_columns_are_not_alike(cook, days_of):
    swapped = [*day(cook)]
    swapped[0], swapped[1] = (
        replace(swapped[0], fuel_j=swapped[1].fuel_j),
        replace(swapped[1], fuel_j=swapped[0].fuel_j),
    )
    case = days_of([day(cook), swapped])
    assert len(kinds_of(case.columns, case.room)) == 2


def test_the_date_is_no_part_of_a_shape(cook, days_of):
    case = days_of([day(cook), day(cook)])
    first, second = blocks_of(case.columns)
    assert shape(first, case.room) == shape(second, case.room)


def test_a_plan_of_a_kind_is_one_for_each_of_its_days(cook, days_of):
    case = days_of([day(cook)] * 3)
    (kind,) = kinds_of(case.columns, case.room)
    plan = kind.add([kind.columns[1], kind.columns[2]], "money")
    assert kind.add_at(2, kind.blocks[2][1:], "money") is plan
    assert plan.value == pytest.approx(0.5)
    assert dict(plan.fuel_j) == pytest.approx({"butane": 2.5e6})
    other = kind.add([kind.columns[0], kind.columns[2]], "money")
    assert len(kind.plans) == 2
    chosen = spread(kind, [plan, other, plan])
    audit(chosen, case.room)
    assert price_of(chosen, case.room, "money") == pytest.approx(2 * plan.value + other.value)
    burnt = fuel_of(chosen, case.room)
    assert burnt["butane"] == pytest.approx(2.5e6 * 2 + 1e6)


def test_a_dish_twice_in_a_plan_is_there_twice(cook, days_of):
    tea = [cook(0, "gas", 400, 20, money=0.1), cook(0, "gas", 430, 20, money=0.1)]
    case = days_of([tea, tea], batches={0: 2, 1: 2})
    (kind,) = kinds_of(case.columns, case.room)
    plan = kind.add([kind.columns[0], kind.columns[0]], "money")
    assert plan.picks == (0, 0)
    assert plan.value == pytest.approx(0.2)
    assert len(spread(kind, [plan, plan])) == 4
