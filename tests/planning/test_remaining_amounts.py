"""What remains, amount by amount: dishes, cook hours, stores, portions, draws, sticks."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.household import Drawing, Item, Steep, UnderWay, Weather, Window
from optimizer.model.now import DayOfSticks, Eaters, Left, Now, Soaking
from optimizer.planning.remaining import remaining, with_left

THINGS = shelf.load()
MENU = (("porridge", "breakfast", 450), ("rice", "lunch", 750), ("bean_stew", "supper", 1140))


@pytest.fixture
def home(household):
    """Two adults and two children with a breakfast, a lunch and a supper."""
    return household(MENU)


def dishes(left):
    return [item.dish.name for item in left.items]


@pytest.mark.parametrize(
    ("minute", "names"),
    [
        (-5, ["porridge", "rice", "bean_stew"]),
        (449, ["porridge", "rice", "bean_stew"]),
        (450, ["rice", "bean_stew"]),
        (749, ["rice", "bean_stew"]),
        (1140, []),
    ],
)
def test_a_meal_is_over_when_it_is_served(home, minute, names):
    left = remaining(home, Now(minute))
    assert dishes(left) == names
    assert [item.number for item in left.items] == list(range(len(names)))
    assert left.begins == max(0, minute)


@pytest.mark.parametrize(("minute", "still"), [(0, True), (1, False)])
def test_what_is_served_at_the_very_start_is_still_planned_there(household, minute, still):
    home = household((("tea", "breakfast", 0), ("rice", "lunch", 1)))
    assert dishes(remaining(home, Now(minute))) == (["tea", "rice"] if still else [])


def test_what_is_done_is_left_out_and_the_rest_numbered_anew(home):
    left = remaining(home, Now(0, done=frozenset({1})))
    assert [(item.number, item.dish.name) for item in left.items] == [
        (0, "porridge"),
        (1, "bean_stew"),
    ]


def test_only_what_soaks_is_soaked(home):
    left = remaining(home, Now(500, soaking=(Soaking(2, 430),)))
    assert [item.soaked_from for item in left.items] == [None, 430]


def test_cook_hours_are_cut_and_those_over_are_left_out(household):
    home = household(MENU, windows=(Window(360, 540), Window(660, 780), Window(960, 1200)))
    assert remaining(home, Now(540)).windows == home.windows[1:]
    assert remaining(home, Now(539)).windows == (Window(539, 540), *home.windows[1:])
    assert remaining(home, Now(700)).windows == (Window(700, 780), home.windows[2])
    assert remaining(home, Now(1200)).windows == ()


def test_the_last_who_came_are_those_who_are_there(home):
    now = Now(0, eaters=(Eaters(0, 5, 1), Eaters(500, 3, 4)))
    left = remaining(home, now)
    assert (left.adults, left.children) == (3, 4)
    assert [(i.adults, i.children) for i in left.items] == [(5, 1), (3, 4), (3, 4)]
    assert all(isinstance(item.adults, float) for item in left.items)
    same = remaining(home, Now(0))
    assert (same.adults, same.children) == (2, 2)


def test_who_comes_as_the_meal_is_served_eats_of_it(home):
    for since, adults in ((750, 6), (751, 2)):
        left = remaining(home, Now(0, eaters=(Eaters(since, 6, 2),)))
        assert left.items[1].adults == adults


@pytest.mark.parametrize(
    ("portions", "there", "then"),
    [
        ((1, 2), (4, 1), (2, 1)),  # not the whole household: by shares
        ((2, 1), (1, 6), (1, 3)),
        ((3, 0), (4, 5), (6, 0)),
        ((2, 2), (4, 1), (4, 1)),
    ],
)
def test_a_part_of_the_household_grows_with_it(home, portions, there, then):
    some = replace(home.items[1], adults=portions[0], children=portions[1])
    left = remaining(replace(home, items=(some,)), Now(0, eaters=(Eaters(0, *there),)))
    assert (left.items[0].adults, left.items[0].children) == then


@pytest.mark.parametrize(
    ("people", "portions", "there", "then"),
    [((2, 0), (1, 3), (4, 5), (2, 3)), ((0, 2), (3, 1), (5, 4), (3, 2))],
)
def test_guests_of_an_age_nobody_at_home_has_stay_as_many(home, people, portions, there, then):
    some = replace(home.items[1], adults=portions[0], children=portions[1])
    few = replace(home, adults=people[0], children=people[1], items=(some,))
    (item,) = remaining(few, Now(0, eaters=(Eaters(0, *there),))).items
    assert (item.adults, item.children) == then


def test_a_dish_of_which_nobody_eats_is_not_cooked_and_of_one_eater_it_is(home):
    assert remaining(home, Now(0, eaters=(Eaters(0, 0, 0),))).items == ()
    assert len(remaining(home, Now(0, eaters=(Eaters(0, 1, 0),))).items) == 3
    half = replace(home.items[1], adults=0.5, children=0)
    assert len(remaining(replace(home, items=(half,)), Now(0)).items) == 1


@pytest.fixture
def jug(home):
    """Give a jug of which half is drawn at 600, a quarter at 700 and at 800 each."""
    jar = Steep(THINGS.dishes["porridge"], 2.0, THINGS.cookers["jar_1l"], 20)
    drawn = (Drawing(200, 0.5, steep=jar), Drawing(100, 0.25), Drawing(0, 0.25))
    item = Item(0, 1, "lunch", THINGS.dishes["tea"], 4, 2, 800, drawn=drawn)
    return replace(home, items=(item,))


@pytest.mark.parametrize(
    ("minute", "draws", "adults", "children"),
    [
        (0, {200: 0.5, 100: 0.25, 0: 0.25}, 4, 2),
        (599, {200: 0.5, 100: 0.25, 0: 0.25}, 4, 2),
        (600, {100: 0.5, 0: 0.5}, 2, 1),
        (699, {100: 0.5, 0: 0.5}, 2, 1),
        (700, {0: 1.0}, 1, 0.5),
    ],
)
def test_what_was_drawn_before_is_not_filled_in_again(jug, minute, draws, adults, children):
    (item,) = remaining(jug, Now(minute)).items
    assert {draw.before_min: draw.share for draw in item.drawn} == draws
    assert (item.adults, item.children) == (adults, children)


def test_a_draw_at_the_very_start_is_still_to_come(jug):
    first = replace(jug.items[0], drawn=(Drawing(800, 0.5), Drawing(0, 0.5)))
    at_once = replace(jug, items=(first,))
    assert remaining(at_once, Now(0)).items == (first,)
    (later,) = remaining(at_once, Now(1)).items
    assert (later.adults, later.drawn) == (2, (Drawing(0, 1.0),))


def test_a_jug_for_all_grows_by_heads(jug):
    (item,) = remaining(jug, Now(0, eaters=(Eaters(0, 5, 1),))).items
    assert (item.adults, item.children) == (6, 3)  # six heads instead of four
    assert item.drawn[0].steep.portions == 3
    assert [draw.share for draw in item.drawn] == [0.5, 0.25, 0.25]


@pytest.mark.parametrize("kitchen_c", [None, 8.0, 20.0])
def test_the_kitchen_is_as_cold_as_it_was_read(home, kitchen_c):
    expected = 8.0 if kitchen_c == 8.0 else home.place.kitchen_c
    place = remaining(home, Now(0, kitchen_c=kitchen_c)).place
    assert place == replace(home.place, kitchen_c=expected)


def both(scenario, *left):
    """Give the stores as a plan from now on has them, and as a household with so much has them."""
    stores = remaining(scenario, Now(0, left)).stores
    assert with_left(scenario, iter(left)).stores == stores
    return stores


def test_the_reserve_stays_in_the_store_and_is_no_more_than_there_is(home):
    sticks, gas = both(home, Left("sticks", 12.0, None))
    assert (sticks.stock_kg, sticks.stock_j) == (12.0, None)
    assert sticks.reserve == pytest.approx(3.0 / 12.0)  # a tenth of 30 kg
    assert gas == home.stores[1]
    assert both(home, Left("sticks", 1.5, None))[0].reserve == 1.0
    empty = both(home, Left("sticks", 0.0, None))[0]
    assert (empty.stock_kg, empty.reserve) == (0.0, 0.1)
    assert both(home, Left("sticks", 30.0, None)) == home.stores


def test_a_store_in_joules_is_cut_alike(home):
    current = replace(home.stores[0], stock_kg=None, stock_j=8e6, reserve=0.25)
    wired = replace(home, stores=(current,))
    assert both(wired, Left("sticks", None, 5e6)) == (replace(current, stock_j=5e6, reserve=0.4),)
    assert both(wired, Left("sticks", None, 8e6)) == (current,)


def test_a_store_without_a_limit_that_gets_one_has_no_reserve(home):
    endless = replace(home.stores[0], stock_kg=None)
    (store,) = both(replace(home, stores=(endless,)), Left("sticks", 4.0, None))
    assert (store.stock_kg, store.reserve) == (4.0, 0.0)


def test_with_what_is_left_the_menu_is_whole(home):
    left = with_left(home, [Left("propane", 0.2, None)])
    assert replace(left, stores=home.stores) == home
    assert [store.stock_kg for store in left.stores] == [30.0, 0.2]


def test_sticks_are_wet_or_dry_as_found_on_their_day_alone(household):
    days = tuple(Weather(8.0, wind, rain=False, wet_sticks=wind > 2) for wind in (1.0, 3.0, 4.0))
    home = household(MENU, days=3, weather=days)
    found = (DayOfSticks(1, wet=True, since=0), DayOfSticks(3, wet=False, since=2880))
    left = remaining(home, Now(0, sticks=found)).weather
    assert left == (replace(days[0], wet_sticks=True), days[1], replace(days[2], wet_sticks=False))


def test_dishes_under_way_are_numbered_after_the_others_pot_by_pot(home, soup_step):
    two = replace(home.items[1], number=1)
    other = replace(home.items[0], number=0)
    pots = tuple(UnderWay(item, replace(soup_step, number=9)) for item in (two, other, two))
    left = remaining(home, Now(440, under_way=pots))
    assert dishes(left) == ["bean_stew"]
    assert [(each.item.number, each.step.number) for each in left.under_way] == [
        (1, 1),
        (2, 2),
        (1, 1),
    ]
    assert [each.item.dish.name for each in left.under_way] == ["rice", "porridge", "rice"]
    assert {each.step.pot for each in left.under_way} == {soup_step.pot}


def test_nothing_else_of_the_household_changes(home):
    left = remaining(home, Now(600))
    changed = {name: getattr(home, name) for name in ("windows", "items", "begins")}
    assert replace(left, **changed) == home
