"""What is burned, paid and saved, in words."""

from dataclasses import replace

import pytest

from optimizer.model.household import Scenario
from optimizer.model.plan import BoilAll, FuelUse, Goal, Plan, Saving, Worth
from optimizer.report.balance import (
    comparison_lines,
    fuel_lines,
    gap_lines,
    price_of,
    saving_lines,
    share,
)
from optimizer.report.measures import Metric, Us
from optimizer.report.worth import worth_lines


@pytest.mark.parametrize(
    ("fraction", "words"),
    [
        (0.0, "hardly any"),
        (0.04, "hardly any"),
        (0.12, "a tenth"),
        (0.34, "a third"),
        (0.595, "three fifths"),
        (0.66, "two thirds"),
        (0.98, "nearly all"),
    ],
)
def test_shares_in_words(fraction: float, words: str) -> None:
    assert share(fraction) == words


@pytest.mark.parametrize(
    ("cost", "minutes", "words"),
    [
        (3.10, 162.0, "It costs 3.10 EUR less and takes 2 h 40 min less at the fire."),
        (-0.40, 162.0, "It costs 0.40 EUR more but takes 2 h 40 min less at the fire."),
        (-0.40, -65.0, "It costs 0.40 EUR more and takes 1 h 5 min more at the fire."),
        (0.0, 1.0, "It costs the same and takes as long at the fire."),
    ],
)
def test_money_and_minutes(cost: float, minutes: float, words: str) -> None:
    assert price_of(Saving(1.0, 0.1, cost, minutes), "EUR") == words


def test_saving_on_the_same_stoves(plan: Plan) -> None:
    assert " ".join(saving_lines(plan, "EUR", Metric())) == (
        "29 MJ of fuel instead of 79 MJ boiled the whole time on the same stoves: about two "
        "thirds saved. It costs 0.23 EUR more but takes 5 h 30 min less at the fire."
    )


def test_saving_on_any_stove(dearer: Plan) -> None:
    told = " ".join(saving_lines(dearer, "EUR", Metric()))
    assert "instead of 71 MJ boiled the whole time: about three fifths saved." in told
    assert "costs 0.40 EUR more and takes 1 h 5 min more" in told


def test_more_burned(plan: Plan) -> None:
    worse = replace(plan, saved=Saving(-2.0, -0.1, 0.0, 0.0))
    assert "about a tenth more." in " ".join(saving_lines(worse, "EUR", Metric()))


def test_no_comparison(plan: Plan) -> None:
    none = replace(plan, boil_all=None, boil_all_same_stoves=None, saved=None)
    assert saving_lines(none, "EUR", Metric()) == []
    assert comparison_lines(none, None, Metric()) == []  # type: ignore[arg-type]  # not looked at


def test_nothing_can_be_boiled_through(plan: Plan) -> None:
    never = BoilAll("infeasible", None, None, None, "2 h too long")
    none = replace(plan, boil_all=never, boil_all_same_stoves=never, saved=None)
    assert saving_lines(none, "EUR", Metric()) == [
        "Boiled the whole time, this menu cannot be done: 2 h too long."
    ]


@pytest.mark.parametrize(
    ("status", "gap", "goal", "words"),
    [
        ("optimal", 0.0, "money", "This is the cheapest plan there is; that is proven."),
        (
            "within_gap",
            0.0041,
            "energy",
            "Within 0.5 % of the plan that burns the least fuel; that is proven.",
        ),
        (
            "time_limit",
            0.031,
            "sticks",
            "Time ran out. Within 3.1 % of the plan that burns the least sticks; that is proven.",
        ),
        (
            "stopped",
            None,
            "tending",
            "Stopped early. How near this is to the plan with the least time at the fire is not "
            "known.",
        ),
    ],
)
def test_gap(
    plan: Plan, scenario: Scenario, status: str, gap: float | None, goal: str, words: str
) -> None:
    told = replace(plan, status=status, gap=gap, goal=Goal(goal, 1.0, 1.0))  # type: ignore[arg-type]  # str
    assert " ".join(gap_lines(told, scenario)) == words


def test_fuels(plan: Plan, scenario: Scenario) -> None:
    assert fuel_lines(plan, scenario, Metric()) == [
        "",
        "Fuel                  used      left      of stock",
        "  sticks              1.8 kg    10.2 kg   15 %",
        "  butane              31 g      423 g     7 %",
        "  stored electricity  0.25 kWh  0.94 kWh  21 %",
        "  What is left holds the reserve: 45 g of butane.",
    ]
    assert "4 lb" in " ".join(fuel_lines(plan, scenario, Us()))


def test_a_fuel_without_limit_and_one_hardly_used(plan: Plan, scenario: Scenario) -> None:
    uses = (
        FuelUse("sticks", 0.01, 0.15, 12.0, 173.0, 11.99, 0.0),
        FuelUse("electricity", None, 3.6, None, None, None, 0.0),
    )
    lines = fuel_lines(replace(plan, fuels=uses), scenario, Metric())
    assert lines[2].split() == ["sticks", "10", "g", "12", "kg", "under", "1", "%"]
    assert lines[3].split() == ["stored", "electricity", "1", "kWh"]


def test_comparison(plan: Plan, scenario: Scenario) -> None:
    assert comparison_lines(plan, scenario, Metric()) == [
        "",
        "Compared                       fuel   money     at the fire",
        "  this plan                    29 MJ  0.34 EUR  4 h 40 min",
        "  boiled through, same stoves  79 MJ  0.11 EUR  10 h 10 min",
        "  boiled through, any stove    71 MJ  3.44 EUR  8 h 45 min",
        "  boiled through, same stoves: 35 minutes too long",
    ]


def test_what_one_more_is_worth(plan: Plan) -> None:
    assert worth_lines(plan, Metric())[2:] == [
        "  one more box packed with crumpled newspaper  0.85 EUR",
        "  one more 227 g canister of butane            nothing",
    ]
    more = replace(plan, worth=(Worth("465 g more of propane", 1.0, "EUR"),))
    assert worth_lines(more, Us())[2:] == ["  1.03 lb more of propane  1.00 EUR"]  # 1.0252
    assert "  465 g more of propane" in worth_lines(more, Metric())[2]
    other = (Worth("a", 2.0, "MJ"), Worth("b", 45.0, "min"), Worth("c", 0.3, "kg"))
    told = worth_lines(replace(plan, worth=other), Metric())[2:]
    assert [line.split(maxsplit=1)[1] for line in told] == ["45 min", "2 MJ", "300 g"]


def test_everything_that_more_would_save(plan: Plan) -> None:
    worth = (
        Worth("800 g more of sticks", 0.5, "EUR", 0.7, 0.6, 1.2, 1.75, "kg"),
        Worth("one more 4 L pot", 0.2, "EUR", 0.3, 0.25, 1.0, None, "pieces"),
        Worth("half an hour more to cook, from 06:00", 0.1, "EUR", None, 0.0),
    )
    lines = worth_lines(replace(plan, worth=worth), Metric())
    assert lines[1].split() == ["Worth", "having", "saves", "mix", "price", "price", "holds"]
    told = {line[2:].split("  ")[0]: line.split() for line in lines[2:5]}
    sticks = told["800 g more of sticks"]
    assert " ".join(sticks).endswith("0.50 EUR 0.60 EUR 0.70 EUR from 1.2 kg to 1.75 kg")
    assert " ".join(told["one more 4 L pot"]).endswith("0.20 EUR 0.25 EUR 0.30 EUR from 1.0")
    assert any(line.split()[-5:] == ["0.10", "EUR", "nothing", "-", "-"] for line in lines)
    assert max(map(len, lines)) <= 80
