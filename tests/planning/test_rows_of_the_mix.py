"""Sources and rows of the mix, written down by hand for kitchens in round numbers."""

from dataclasses import replace

import pytest

from optimizer.planning.columns import Burn, Kitchen
from optimizer.planning.mix import lay_out, mix, sources_of
from optimizer.planning.otherwise import Otherwise
from optimizer.planning.program import Program, add_column, dump

SOUP, TEA = (0, "stick", "big", "box", 0), (1, "gas", "small", "", 0)


def lines(program, *families):
    """Rows and bounds of some families; all, if none is named."""
    text = dump(program).splitlines()[1:]
    return sorted(line for line in text if not families or line.startswith(families))


@pytest.fixture(name="columns")
def _columns(cook):
    """Soup on sticks, then in the box until 10:00, from two starts; tea on gas."""
    rest = {"held": 600, "cooker": "cooker:box"}
    return (
        cook(0, "stick", 360, 20, fuel_mj=2, money=0.16, tend_min=30, **rest),
        cook(0, "stick", 370, 30, fuel_mj=3, money=0.1, tend_min=20, **rest),
        cook(1, "gas", 360, 10, pot="pot:small"),
    )


def test_a_source_is_the_least_of_its_columns(columns):
    soup, tea = sources_of(columns)
    assert (soup.key, tea.key) == (SOUP, TEA)
    assert (soup.fuel, soup.fuel_j, soup.money, soup.tend_min) == ("sticks", 2e6, 0.1, 20)
    assert soup.minutes == {("stick", 0): 20}
    # one start has the pot from 6:10 on and the box from 6:40 on, the other one sooner
    assert soup.cores == {"pot:big": (370, 600), "cooker:box": (400, 600)}


def test_minutes_are_of_all_burns_and_of_no_fire_that_some_do_without(cook):
    twice = cook(0, "stick", 360, 20, again=(440, 450))
    assert sources_of([twice])[0].minutes == {("stick", 0): 30}
    evening = replace(twice, burns=(twice.burns[0], Burn("stick", 1, 1020, 1025)))
    assert sources_of([evening])[0].minutes == {("stick", 0): 20, ("stick", 1): 5}
    assert sources_of([twice, evening])[0].minutes == {("stick", 0): 20}


def test_windows_and_pots_part_sources(cook):
    columns = [
        cook(0, "gas", 360, 20),
        cook(0, "gas", 1020, 20),
        cook(0, "gas", 360, 20, pot="pot:small"),
    ]
    assert [s.key for s in sources_of(columns)] == [
        (0, "gas", "big", "", 0),
        (0, "gas", "big", "", 1),
        (0, "gas", "small", "", 0),
    ]


def test_what_is_held_at_no_common_time_or_twice_has_no_core(cook):
    early, late = cook(0, "gas", 360, 20), cook(0, "gas", 380, 20)
    assert sources_of([early])[0].cores == {"pot:big": (360, 380)}
    assert sources_of([early, late])[0].cores == {}  # one ends as the other begins
    twice = replace(early, uses=(*early.uses, early.uses[-1]))
    assert sources_of([early, twice])[0].cores == {}


def test_rows(columns, kitchen):
    program = Program()
    laid = lay_out(program, columns, replace(kitchen(0, 1, gas=2, small=1), batches={1: 2}))
    soup, tea = f"cook{list(SOUP)}", f"cook{list(TEA)}"
    assert lines(program) == sorted(
        [
            f"everyone_eats[0]: +1 {soup} == 1",
            f"everyone_eats[1]: +1 {tea} == 2",
            f"stove_has_time[stick,0]: +20 {soup} -120 lit[stick,0] <= 0",
            f"dish_needs_the_fire[stick,0,0]: +1 {soup} -1 lit[stick,0] <= 0",
            f"stove_has_time[gas,0]: +10 {tea} <= 240",  # two stoves for two hours
            f"one_at_a_time[pot:small,360]: +1 {tea} <= 1",  # two pots, one is there
            f"{soup} in [0.0, 1]",
            f"{tea} in [0.0, 2]",
            "lit[stick,0] in [0.0, 1]",
        ]
    )
    assert [column.name for column in laid.cook] == ["c0000000", "c0000001"]


def test_goals_count_sources_and_fires(columns, kitchen):
    program = Program()
    laid = lay_out(program, columns, kitchen(0, 1))
    names = {id(column): name for name, column in program.columns.items()}

    def counted(goal):
        return {names[id(column)]: factor for column, factor in laid.of(goal)}

    soup, tea = f"cook{list(SOUP)}", f"cook{list(TEA)}"
    # a lighting is 1.5 MJ of sticks at 0.08 for each, and five minutes
    assert counted("sticks") == {soup: 2, "lit[stick,0]": 1.5}
    assert counted("butane") == {tea: 1}
    assert counted("money") == pytest.approx({soup: 0.1, "lit[stick,0]": 0.12})
    assert counted("tending") == {soup: 20, "lit[stick,0]": 5}


def test_a_dish_in_several_pots_needs_the_fire_for_any_of_them(columns, kitchen):
    program = Program()
    lay_out(program, columns, replace(kitchen(0, 1, stick=2, box=3, big=3), batches={0: 3}))
    assert lines(program, "dish_needs", "stove_has_time[stick") == [
        f"dish_needs_the_fire[stick,0,0]: +1 cook{list(SOUP)} -3 lit[stick,0] <= 0",
        f"stove_has_time[stick,0]: +20 cook{list(SOUP)} -240 lit[stick,0] <= 0",
    ]


def test_more_may_be_had_of_what_there_is(columns, kitchen):
    program = Program()
    more = {
        "stove:gas": (add_column(program, "burner"), 2),  # two places on each
        "stove:stick": (add_column(program, "stick stove"), 1),
        "pot:small": (add_column(program, "pot"), 1),
    }
    ready = add_column(program, "ready meal")
    other = Otherwise(more, {"stove:stick": 3}, {0: [(ready, 1)]})
    lay_out(program, columns, replace(kitchen(0, 1, gas=2, small=1), batches={1: 2}), other)
    soup, tea = f"cook{list(SOUP)}", f"cook{list(TEA)}"
    assert [line for line in lines(program) if ": " in line] == sorted(
        [
            f"everyone_eats[0]: +1 {soup} +1 ready meal == 1",
            f"everyone_eats[1]: +1 {tea} == 2",
            # a fire may be on each of three, if they are there
            f"stove_has_time[stick,0]: +20 {soup} -360 lit[stick,0] <= 0",
            f"stove_is_there[stick,0]: +20 {soup} -120 stick stove <= 120",
            f"dish_needs_the_fire[stick,0,0]: +1 {soup} -1 lit[stick,0] <= 0",
            f"stove_has_time[gas,0]: +10 {tea} -240 burner <= 240",
            f"one_at_a_time[pot:small,360]: +1 {tea} -1 pot <= 1",
        ]
    )


def test_a_dish_waits_for_what_is_not_there_yet(columns, kitchen):
    program = Program()
    more = {
        "stove:gas": (add_column(program, "burner"), 2),
        "pot:small": (add_column(program, "pot"), 1),
        "cooker:box": (add_column(program, "box"), 1),
        "pot:big": (add_column(program, "big pot"), 1),  # there are some already
    }
    room = replace(kitchen(0, 1, gas=0, small=0, box=0), batches={1: 2})
    lay_out(program, columns, room, Otherwise(more))
    soup, tea = f"cook{list(SOUP)}", f"cook{list(TEA)}"
    assert lines(program, "dish_needs_the_thing") == [
        f"dish_needs_the_thing[cooker:box,0]: +1 {soup} -1 box <= 0",
        f"dish_needs_the_thing[pot:small,1]: +1 {tea} -2 pot <= 0",  # both pots of it
        f"dish_needs_the_thing[stove:gas,1]: +1 {tea} -4 burner <= 0",
    ]


@pytest.fixture(name="two_dishes")
def _two_dishes(cook, kitchen):
    """Two dishes, each 4 MJ on sticks or 2 MJ on gas; a fire is 1.5 MJ."""
    columns = [
        cook(item, stove, 360, 20, fuel_mj=mj, pot=f"pot:{pot}")
        for item, pot in ((0, "big"), (1, "small"))
        for stove, mj in (("stick", 4), ("gas", 2))
    ]

    def solved(**stock_mj):
        stock_j = {fuel: 1e6 * mj for fuel, mj in stock_mj.items()}
        return mix(columns, kitchen(0, 1, stock_j=stock_j), goal="energy")

    return solved


def test_what_is_used_nothing_of_is_no_share(two_dishes):
    found = two_dishes()
    assert found.value == pytest.approx(4e6)
    assert found.shares == {(0, "gas", "big", "", 0): 1, (1, "gas", "small", "", 0): 1}


def test_a_joule_more_of_a_fuel_is_priced_in_joules(two_dishes):
    # 3 MJ of butane are three quarters of both dishes; a quarter of both is on a quarter of a fire
    found = two_dishes(butane=3.0)
    assert found.value == pytest.approx(3e6 + 2e6 + 0.375e6)
    # 1 MJ more, and the rest is off the sticks: 2.375 less for 1
    assert found.prices["stock_is_enough[butane]"] == pytest.approx(-1.375)


def test_a_dish_more_is_priced_in_joules(two_dishes):
    found = two_dishes(butane=3.0)
    # all butane is burned already: one more of both is 4 MJ of sticks each, and a fire for both
    each = [found.prices[f"everyone_eats[{item}]"] for item in (0, 1)]
    assert sum(each) == pytest.approx(2 * 4e6 + 1.5e6)


def test_no_mix_has_no_value(cook, kitchen):
    found = mix([cook(0, "gas", 360, 20)], kitchen(0, stock_j={"butane": 0.9e6}), goal="money")
    assert (found.value, found.shares, found.prices) == (None, {}, {})
    assert found.outcome.status == "infeasible"


def test_a_mix_that_costs_nothing_has_a_value(kitchen):
    empty: Kitchen = kitchen()
    assert mix([], empty, goal="money").value == 0
