"""Why there is no plan is told in exact sentences, with amounts that are enough."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.household import DAY_MIN, Cold, Store, Window
from optimizer.model.plan import Refusal
from optimizer.planning import explain
from optimizer.planning.baseline import Effort
from optimizer.planning.conditions import Refused
from optimizer.planning.explain import least_changes
from optimizer.planning.kitchen import Choices, attempts, choices, kitchen_of
from optimizer.planning.shortage import Shortage

EFFORT = Effort(gap=0.01, time_limit_s=20.0, solver="highs")
NOTHING = Shortage(True, {}, (), (), {}, ())
NO_WAYS = Choices((), (), frozenset(), {})
LUNCH = (("rice", "lunch", 750), ("lentil_soup", "lunch", 750), ("rice", "lunch", 760))
RICE, SOUP = "rice (lunch, day 1)", "red lentil soup (lunch, day 1)"


def told_of(scenario):
    """Tell what is really missing in a household."""
    return least_changes(scenario, choices(scenario), kitchen_of(scenario), EFFORT)


@pytest.fixture
def tell(monkeypatch):
    """Tell of a shortage that was found."""

    def tell_(scenario, options=NO_WAYS, **missing):
        found = replace(NOTHING, **missing)
        monkeypatch.setattr(explain, "least_change", lambda *_, **__: found)
        return least_changes(scenario, options, kitchen_of(scenario), EFFORT)

    return tell_


def round_fuels(household, **stick):
    """Make a household with fuels of 10 MJ/kg, one without a limit, and electricity."""
    fuels = shelf.load().fuels
    wood = replace(fuels["sticks"], lhv_j_kg=1e7, moisture=0.0)
    gas = replace(fuels["propane"], lhv_j_kg=1e7)
    sticks = Store(wood, 4.0, None, 0.2, None, 1.0, 0.5)
    return household(
        LUNCH,
        stores=(
            replace(sticks, **stick),
            Store(gas, None, None, 10.0, None, 0.5, 0.5),
            Store(fuels["electricity"], None, 9e6, None, 0.0, None, 0.5),
        ),
    )


def test_nothing_found_says_to_allow_more_time(household, tell):
    assert tell(household(LUNCH)) == (
        "No single change was found in the time allowed; allow more time.",
    )


@pytest.mark.parametrize(("asked", "given"), [(0.01, 0.05), (0.2, 0.2)])
def test_the_search_gets_the_effort_and_no_finer_gap_than_it_needs(
    household, monkeypatch, asked, given
):
    heard = {}

    def search(columns, kitchen, **how):
        heard.update(how, columns=columns, kitchen=kitchen)
        return NOTHING

    monkeypatch.setattr(explain, "least_change", search)
    scenario = household(LUNCH[:1])
    options, room = choices(scenario), kitchen_of(scenario)
    least_changes(scenario, options, room, replace(EFFORT, gap=asked))
    assert heard == {
        "columns": options.columns, "kitchen": room, "gap": given, "time_limit_s": 20.0,
    }  # fmt: skip


@pytest.mark.parametrize(
    ("fuel", "joules", "told"),
    [
        ("propane", 1.21e7, "1.3 kg of propane"),  # rounded up
        ("propane", 2e7, "2.0 kg of propane"),
        ("propane", 1e7, "1.0 kg of propane"),
        ("propane", 9.81e6, "990 g of propane"),
        ("propane", 1.21e6, "130 g of propane"),
        ("propane", 1.2e6, "120 g of propane"),
        ("electricity", 1.8e6, "0.50 kWh of stored electricity"),
        ("peat", 3.6e6, "1.00 kWh of peat"),  # the household has none
    ],
)
def test_an_amount_of_fuel_is_enough(household, tell, fuel, joules, told):
    scenario = round_fuels(household)
    assert tell(scenario, alone_j={fuel: joules}) == (f"{told} more would do.",)


def test_the_reserve_is_pointed_to_only_where_it_is_more_than_enough(household, tell):
    scenario = round_fuels(household)  # half of 4 kg of sticks is kept: 20 MJ
    assert tell(scenario, alone_j={"sticks": 1.9e7, "propane": 1e7}) == (
        "1.9 kg of sticks more would do (the reserve holds so much).",
        "1.0 kg of propane more would do.",
    )
    assert tell(scenario, alone_j={"sticks": 2e7}) == ("2.0 kg of sticks more would do.",)
    without = round_fuels(household, reserve=0.0)
    assert tell(without, alone_j={"sticks": 1e6}) == ("100 g of sticks more would do.",)


def test_fuels_that_are_short_together_are_told_together(household, tell):
    scenario, short = round_fuels(household), {"sticks": 3e7, "propane": 5e6}
    assert tell(scenario, fuels_j=short) == (
        "3.0 kg of sticks and 500 g of propane more would do.",
    )
    assert tell(scenario, fuels_j=short, alone_j={"sticks": 5e7}) == (
        "5.0 kg of sticks more would do.",
    )
    assert tell(scenario, fuels_j={"sticks": 3e7}, dishes=(0, 1))[0] == (
        "3.0 kg of sticks more, the dishes below left out, would do."
    )


def test_one_more_of_something_is_told_by_its_label(household, tell):
    missing = ("left:0", "stove:gas_burner", "pot:pot_4l", "cooker:jar_1l", "cook")
    assert tell(household(LUNCH), one_more=missing) == (
        "One more gas burner would do.",
        "One more 4 L pot would do.",
        "One more 1 L vacuum jar would do.",
        "One more cook would do.",
    )


def test_several_dishes_too_many_are_told_without_trying_them_later(household, tell, monkeypatch):
    monkeypatch.setattr(explain, "schedule", None)
    scenario = household(LUNCH, stores=())
    lines = tell(scenario, dishes=(0, 1, 2), no_way=(0,))
    assert [line.split(":")[0] for line in lines] == [
        RICE,
        f"{SOUP} does not fit beside the other dishes; leaving it out would help.",
        f"{RICE} does not fit beside the other dishes; leaving it out would help.",
    ]


@pytest.fixture(scope="module")
def one_burner(household):
    """Two dishes for lunch at one gas burner."""
    stoves = household().stoves[1:]
    return household(LUNCH[:2], stoves=stoves, cookers=(), windows=(Window(660, 780),))


def test_a_dish_too_many_may_be_later_or_left_out(one_burner):
    assert told_of(one_burner) == (
        "One more gas burner would do.",
        f"{RICE} 10 minutes later would do.",
        f"{RICE} does not fit beside the other dishes; leaving it out would help.",
    )


def test_a_dish_is_tried_later_by_itself_until_all_fit(one_burner, tell, monkeypatch):
    tried = []

    def shifted(scenario):
        tried.append([item.serve_min for item in scenario.items])
        return choices(scenario)

    room = replace(one_burner, windows=(Window(660, 742),), days=1)
    monkeypatch.setattr(explain, "choices", shifted)
    assert tell(room, dishes=(1,)) == (
        f"{SOUP} does not fit beside the other dishes; leaving it out would help.",
    )
    assert tried == [[750, 750 + later] for later in (10, 20, 30, 45, 60, 90, 120)]


def test_what_is_tried_later_needs_only_some_plan_of_the_first_goal(one_burner, tell, monkeypatch):
    heard = []

    def found(columns, kitchen, **how):
        heard.append((columns, kitchen, how))
        return real(columns, kitchen, **how)

    real = explain.schedule
    monkeypatch.setattr(explain, "schedule", found)
    scenario = replace(one_burner, goals=("tending", "money"))
    later = replace(scenario.items[0], serve_min=760)
    shifted = replace(scenario, items=(later, scenario.items[1]))
    assert len(tell(scenario, dishes=(0,))) == 2
    (columns, kitchen, how), *others = heard
    assert not others
    assert columns == choices(shifted).columns
    assert kitchen == kitchen_of(shifted)
    assert how["goals"] == ("tending",)
    assert 0.5 < how["gap"] < 1
    assert (how["time_limit_s"], how["solver"]) == (20.0, "highs")


def test_a_fuel_that_is_not_there_is_told_once_for_each_dish(household):
    scenario = household(LUNCH, stores=())
    assert [line.rstrip() for line in told_of(scenario)] == [
        f"{RICE}: no way works. stick stove: its fuel is not in stock: sticks.",
        f"{SOUP}: no way works. stick stove: its fuel is not in stock: sticks.",
    ]


def refused(code, number=0, reason=None):
    return Refusal(number, "gas_burner", "pot_4l", "packed_box", code, reason or code)


def test_the_three_commonest_reasons_are_told_by_their_first_example(household, tell):
    scenario = household(LUNCH[:2], stores=())
    refusals = (
        refused("frozen"),
        refused("wind", reason="first gale"),
        refused("cold"),
        refused("wind", reason="second gale"),
        refused("wind"),
        refused("carried"),
        refused("cold", reason="colder"),
        refused("carried", reason="too far"),
        *[refused("foams", number=1)] * 4,
    )
    (line,) = tell(scenario, replace(NO_WAYS, refusals=refusals), no_way=(0,))
    assert line.rstrip() == (
        f"{RICE}: no way works. gas burner: first gale; 4 L pot, packed box: cold; carried."
    )


def test_a_dish_that_would_work_later_says_how_much(household):
    scenario = household([("rice", "lunch", 900)], cookers=())
    assert told_of(scenario) == (
        f"{RICE}: no start fits the cook hours. gas burner, 2.5 L pot: would have to go on "
        "between 14:05 and 14:30, and would be on the fire outside the cook hours. "
        "Served 90 minutes later it would work.",
    )


def test_a_second_dish_is_tried_later_by_itself(household, tell):
    menu = [("bean_stew", "supper", 100), ("rice", "lunch", 900)]
    scenario = household(menu, cookers=())
    (line,) = tell(scenario, replace(NO_WAYS, workable=frozenset({1})), no_way=(1,))
    assert line.startswith(f"{RICE}: no start fits the cook hours. gas burner, 2.5 L pot: ")
    assert line.endswith("cook hours. Served 90 minutes later it would work.")


def test_the_way_of_least_fuel_is_told_whatever_its_place(household, tell, monkeypatch):
    scenario = household([("rice", "lunch", 900)], cookers=())
    found = attempts(scenario, scenario.items[0], 1)
    no_way = replace(found[0], way=Refused("wind", "a gale"))
    heard = []

    def known(*asked):
        heard.append(asked)
        return [no_way, *reversed(found)]

    monkeypatch.setattr(explain, "known_of", known)
    options = replace(NO_WAYS, workable=frozenset({0}), known={})
    (line,) = tell(scenario, options, no_way=(0,))
    assert " hours. gas burner, 2.5 L pot: would have to go on between 14:05 and 14:30" in line
    assert heard == [(scenario, scenario.items[0], 1, options.known)]
    monkeypatch.setattr(explain, "known_of", lambda *_: [no_way])
    assert tell(scenario, options, no_way=(0,)) == (
        f"{RICE}: no start fits the cook hours. Served 90 minutes later it would work.",
    )


@pytest.mark.parametrize(
    ("on", "until"),
    [
        (DAY_MIN + 725, "10:05 on day 2"),
        (125, "00:05 on day 1"),
        (60, "00:00 on day 1"),
    ],
)
def test_what_spoils_says_how_long_it_has_to_be_cold(household, tell, on, until):
    menu = [("beef_stew", "supper", 2500), ("rice", "lunch", 2500)]
    scenario = household(menu, days=2, cold=(), stores=())
    options = replace(NO_WAYS, spoiled={0: on})
    first, second = tell(scenario, options, no_way=(0, 1))
    assert first == (
        "beef stew (supper, day 2): nothing keeps the stewing beef cold; say under 'cold' what "
        f"does. Kept cold at least until {until}, or got fresh that day, it would work; "
        "or leave it out."
    )
    assert second.startswith("rice (lunch, day 2): no way works.")


def test_a_better_order_is_told_first(household, tell):
    menu = [("lentil_soup", "supper", 1110), ("beef_stew", "supper", 2 * DAY_MIN + 1110)]
    scenario = household(menu, days=3, cold=(Cold("ice box", 0, 1000),))
    options = choices(scenario)
    assert list(options.spoiled) == [1]
    swap, kept = tell(scenario, options, no_way=(1,))
    assert swap == "Swap beef stew (supper, day 3) with red lentil soup (supper, day 1)."
    assert kept.startswith("beef stew (supper, day 3): the stewing beef is cold until 16:40 on ")
