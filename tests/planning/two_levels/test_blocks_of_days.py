"""A schedule taken apart: what blocks share, and which of them are alike."""

from dataclasses import replace
from itertools import combinations

import pytest

from optimizer.model.household import Window
from optimizer.planning.columns import Use
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


def test_blocks_part_where_the_last_use_ends_and_not_a_minute_before(cook, days_of):
    """A pot held until the first of the next day is on parts them; a minute longer ties them."""
    for held, parted in ((1440 + 400, [1, 1]), (1440 + 401, [2])):
        case = days_of([[cook(0, "gas", 400, 20, held=held)], [cook(0, "gas", 400, 20)]])
        assert [len(block) for block in blocks_of(case.columns)] == parted


def test_dishes_over_fires_of_one_window_are_of_one_block(cook):
    early, late = cook(1, "gas", 360, 20), cook(2, "gas", 450, 20)
    evening = cook(0, "gas", 1030, 20)
    assert blocks_of((evening, late, early)) == ((early, late), (evening,))


def test_a_span_is_from_the_first_start_to_the_last_end_of_all_ways_of_a_dish(cook):
    """One way of dish 0 holds its pot until evening; one way of dish 2 is begun in the morning."""
    short, long = cook(0, "gas", 360, 20), cook(0, "gas", 360, 20, held=1100)
    supper = cook(1, "gas", 1030, 20)
    for ways in ((short, long), (long, short)):
        assert blocks_of((*ways, supper)) == ((*ways, supper),)
    packed = replace(supper, item=2, uses=(Use("pot:big", 379, 1030),))
    for ways in ((supper, packed), (packed, supper)):
        both = tuple(replace(each, item=2) for each in ways)
        assert blocks_of((short, *both)) == ((short, *both),)


def test_a_long_dish_ties_all_that_begin_before_it_ends(cook, days_of):
    long = cook(0, "gas", 360, 20, held=1440 + 1000)
    case = days_of([[long, cook(1, "gas", 1030, 20)], [cook(2, "gas", 400, 20)]])
    assert blocks_of(case.columns) == (case.columns,)


def test_a_window_lit_before_ties_even_when_another_came_between(cook):
    """Two dishes light the first window; the second of them is begun as the first is off."""
    first = cook(0, "gas", 360, 20)
    again = cook(1, "gas", 380, 20, again=(1030, 1040))
    again = replace(again, burns=(again.burns[0], replace(again.burns[1], window=1)))
    third = cook(2, "gas", 1040, 20)
    assert blocks_of((first, again, third)) == ((first, again, third),)


def test_a_block_may_begin_at_the_first_minute(cook):
    first = replace(cook(0, "gas", 360, 20), uses=(Use("pot:big", 0, 380),))
    assert blocks_of((first,)) == ((first,),)


def test_no_columns_make_no_blocks(kitchen):
    assert blocks_of(()) == ()
    assert kinds_of((), kitchen()) == ()


def test_columns_of_a_block_stand_dish_by_dish(cook):
    one, two = cook(0, "gas", 400, 20), cook(0, "stick", 400, 20)
    other = cook(1, "gas", 360, 20)
    assert blocks_of((other, one, two)) == ((one, two, other),)
    assert blocks_of((one, other, two)) == ((one, two, other),)


def test_a_shape_tells_all_in_the_order_of_the_block(cook, days_of):
    tea = cook(4, "gas", 370, 20, fuel_mj=2.0, money=0.25, tend_min=5.0)
    stew = cook(7, "stick", 1030, 30, money=0.5, pot="pot:small", held=1100)
    room = replace(days_of([[tea, stew]] * 2).room, batches={7: 2})
    later = days_of([[tea, stew]] * 2).columns[2:]
    told = (
        ((360, 480), (1020, 1140)),
        (1, 2),
        (
            (
                0,
                "gas",
                ((0, 370, 390),),
                (("stove:gas", 370, 390), ("pot:big", 370, 390)),
                ("butane", 2e6, 0.25, 5.0),
            ),
            (
                1,
                "stick",
                ((1, 1030, 1060),),
                (("stove:stick", 1030, 1060), ("pot:small", 1030, 1100)),
                ("sticks", 1e6, 0.5, 0.0),
            ),
        ),
    )
    assert shape((tea, stew), room) == told
    assert shape(later, replace(room, batches={3: 2})) == told


def test_a_kind_keeps_its_kitchen_but_for_dishes_and_stocks(cook, days_of):
    case = days_of([day(cook)] * 2, stock_j={"butane": 9e6})
    (kind,) = kinds_of(case.columns, case.room)
    assert kind.kitchen == replace(case.room, items=(0, 1), stock_j={})
    assert kind.columns is kind.blocks[0]
    assert (kind.count, kind.plans) == (2, [])


def test_kinds_come_in_the_order_of_their_first_blocks(cook, days_of):
    case = days_of([day(cook, 3.0), day(cook), day(cook, 2.5), day(cook), day(cook, 3.0)])
    kinds = kinds_of(case.columns, case.room)
    assert [[block[0].item for block in kind.blocks] for kind in kinds] == [[0, 8], [2, 6], [4]]


def test_a_plan_is_kept_once_and_found_by_what_is_chosen(cook, days_of):
    case = days_of([day(cook)] * 3)
    (kind,) = kinds_of(case.columns, case.room)
    first = kind.add([kind.columns[2], kind.columns[1]], "energy")
    assert (first.picks, first.value) == ((1, 2), 2.5e6)
    assert first.fuel_j == (("butane", 2.5e6),)
    second = kind.add_at(1, [kind.blocks[1][0], kind.blocks[1][2], case.columns[0]], "energy")
    assert second.picks == (0, 2)
    assert [name for name, _ in second.fuel_j] == ["butane", "sticks"]
    assert kind.keep(replace(first, value=0.0)) is first
    assert kind.plans == [first, second]
    assert kind.chosen(spread(kind, [second, second, second])) == [second]
    assert kind.chosen(spread(kind, [second, first, second])) == [first, second]
    assert kind.chosen([]) == []


def test_a_dish_chosen_twice_is_not_the_plan_that_has_it_once(cook, days_of):
    tea = [cook(0, "gas", 400, 20), cook(0, "gas", 430, 20)]
    case = days_of([tea])
    (kind,) = kinds_of(case.columns, case.room)
    twice, each = kind.add(kind.columns[:1] * 2, "money"), kind.add(kind.columns, "money")
    assert kind.chosen(kind.columns[:1] * 2) == [twice]
    assert kind.chosen(kind.columns) == [each]


def test_plans_are_spread_over_all_blocks_and_no_fewer(cook, days_of):
    case = days_of([day(cook)] * 2)
    (kind,) = kinds_of(case.columns, case.room)
    plan = kind.add(kind.columns[1:], "money")
    assert spread(kind, [plan, plan]) == (*kind.blocks[0][1:], *kind.blocks[1][1:])
    for wrong in ([plan], [plan] * 3):
        with pytest.raises(ValueError, match="zip"):
            spread(kind, wrong)
