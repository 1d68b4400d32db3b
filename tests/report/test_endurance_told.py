"""How long it lasts, in words and for programs: every case of sureness has its own words."""

import json
from dataclasses import replace

import pytest

from optimizer.report.cases import (
    case_rows,
    change_rows,
    changed,
    lasts,
    no_gain_told,
    range_told,
    told_changes,
    whole_days,
)
from optimizer.report.days_left import days_left, left_rows
from optimizer.report.endurance import (
    days_told,
    ends_told,
    endurance_text,
    opening_told,
)
from optimizer.report.endurance_result import endurance_json, json_text
from optimizer.report.measures import measures
from optimizer.report.without_sticks import fallbacks_told
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder
from optimizer.studies.endurance.changes import Case, Tried
from optimizer.studies.endurance.days import Lasting
from optimizer.studies.endurance.fallback import Fallback, Held
from optimizer.studies.endurance.opening import First, Opening
from optimizer.studies.endurance.study import Endurance, endurance

METRIC = measures("metric")
AS_SHIPPED = read(data_folder() / "scenarios" / "one_person_jar.yaml")
HOUSE = replace(  # a little less alcohol, so that it lasts four days
    AS_SHIPPED,
    stores=tuple(replace(each, stock_kg=0.93 * each.stock_kg) for each in AS_SHIPPED.stores),
)


@pytest.fixture(scope="module")
def known() -> Endurance:
    return endurance(HOUSE, changes_too=False)


def lasting(**changes: object) -> Lasting:
    return replace(Lasting(4, 4, 4.92, 60, {}), **changes)


def tried(days: int, most: int | None = None, **changes: object) -> Tried:
    case = Case("drop", "tea", HOUSE)
    made = Tried(case, days, days if most is None else most, float(days), beyond=False, stuck=None)
    return replace(made, **changes)


def test_how_sure_the_days_are():
    assert days_told(lasting()) == [
        "The store lasts 4 days on this menu gone round again and again, the reserve kept.",
        "That 5 days cannot be had is proven. Counting parts of days it is less than 5.",
    ]
    assert "less than 4.4." in days_told(lasting(mix_days=4.31))[1]  # never rounded down
    maybe = days_told(lasting(most=5))[1]
    assert maybe == "There may be a plan for 5 days; none was found, so fewer are told."
    assert "for no more than 7" in days_told(lasting(most=7))[1]
    assert days_told(lasting(days=60, most=60))[0].startswith("The store lasts beyond the 60 days")
    assert days_told(lasting(days=0, most=0))[0].startswith("The store does not last one day")
    assert days_told(lasting(days=1, most=1))[0].startswith("The store lasts 1 day on")


def test_what_is_not_for_want_of_fuel_is_said_so():
    told = days_told(lasting(stuck=("bean stew",)))
    assert len(told) == 2
    assert "not for want of fuel: on day 5 bean stew has no way" in told[1]
    assert "not everything fits at once" in days_told(lasting(stuck=()))[1]
    assert "rice, tea have no way" in days_told(lasting(stuck=("rice", "tea")))[1]


def test_the_text_begins_with_the_days_and_fits_a_terminal(known):
    for units in ("metric", "us"):
        lines = endurance_text(known, units).splitlines()
        assert lines[0].startswith("The store lasts 4 days on this menu")
        assert max(map(len, lines)) <= 80
        parts = ["What ends first", "If nobody knows", "Mind"]
        assert [lines.index(next(line for line in lines if line.startswith(p))) for p in parts] == (
            sorted(lines.index(next(line for line in lines if line.startswith(p))) for p in parts)
        )


def test_what_ends_is_told_with_its_day(known):
    first, *_, last = ends_told(known, METRIC)
    assert first.startswith("alcohol: lasts until day 4;")
    assert last == (
        "Cooked by the ordinary plan, round after round, the first to run short is alcohol, "
        "on day 5."
    )
    ends = replace(known.lasting.ends[0], day=None, left_mj=5.0)
    other = replace(known, lasting=replace(known.lasting, ends=(ends,)), opening=None)
    assert "does not end" in ends_told(other, METRIC)[0]
    beyond = replace(known, lasting=lasting(days=60, most=60))
    assert ends_told(beyond, METRIC) == ["No fuel ends in the days that were looked at."]


def test_first_days_are_set_against_each_other(known):
    plan = known.lasting.plan
    told = opening_told(Opening(2, First(plan, 5, 5), First(plan, 3, 4), None))
    assert told == [
        "After the first 2 days, the plan that spares most keeps 5 days open.",
        "The ordinary plan keeps 3 days or more open: 2 days fewer.",
    ]
    even = opening_told(Opening(1, First(plan, 2, 2, 2.61), First(plan, 2, 2, 2.2), None))
    assert even[0].startswith("After the first day,")
    assert even[1].endswith("as many.")
    assert even[2] == "Counting parts of days it is less than 2.7 against less than 2.2."
    spent = opening_told(Opening(2, First(plan, 0, 0), None, None))
    assert spent == ["The store is spent after the first 2 days: there is nothing to keep open."]


def test_a_day_without_sticks_is_told_plainly(known):
    held = (Held("ethanol", 3.1, 0.1412),)
    told = [
        Fallback(1, known.lasting.plan, held, enough=True),
        Fallback(2, known.lasting.plan, held, enough=False, cold=("tea",)),
        Fallback(3, None, cold=("tea", "rice")),
        Fallback(4, None, known=False),
    ]
    lines = fallbacks_told(replace(known, sticks=True, fallbacks=told), METRIC)
    assert lines[0] == "Day 1: hold back 150 g of alcohol."  # rounded up
    assert "Tea cannot be cooked then. There is too little: above the reserve" in lines[1]
    assert lines[2].startswith("Day 3: no fallback (tea and rice cannot be cooked).")
    assert lines[3].startswith("Day 4: no fallback was found.")
    assert lines[4] == "For any one such day hold back 150 g of alcohol."
    assert fallbacks_told(known, METRIC) == ["No stove of this household burns sticks."]


@pytest.mark.parametrize(
    ("case", "words"),
    [
        (Case("cooker", "packed box", HOUSE), "one more packed box"),
        (Case("dish", "porridge", HOUSE, instead="couscous"), "couscous instead of porridge"),
        (Case("dish", "every dish", HOUSE), "a thriftier one for every dish"),
        (Case("people", "people", HOUSE, count=2), "two adults more"),
        (Case("people", "people", HOUSE, count=-1), "one adult fewer"),
        (Case("washing", "washing water", HOUSE, count=0), "no washing water in a round"),
        (Case("washing", "washing water", HOUSE, count=2), "2 washing water in a round"),
        (Case("held", "a day without sticks", HOUSE), "with the fuel for a day without sticks"),
        (Case("weather", "damp", HOUSE), "sticks damp every day"),
        (Case("stoves", "stoves", HOUSE), "every stove poorer"),
    ],
)
def test_every_case_has_words(case, words):
    assert changed(case).startswith(words)


def test_cases_are_told_with_the_difference_and_the_doubt(known):
    assert lasts(tried(6), known) == "6 days (+2)"
    assert lasts(tried(3, 5), known) == "3 days, perhaps 5"  # perhaps more, then, not fewer
    assert lasts(tried(4), known) == "4 days"
    assert lasts(tried(60, beyond=True), known) == "over 60 days (+56)"
    assert lasts(tried(1, stuck=()), known) == "1 day (-3, not for want of fuel)"
    assert whole_days(1) == "1 day"


def test_changes_that_gain_nothing_are_named_in_one_sentence(known):
    some = replace(known, changes=[tried(4), replace(tried(6), case=Case("drop", "rice", HOUSE))])
    assert [row["what changes it"] for row in told_changes(some)] == ["without rice"]
    assert no_gain_told(some) == ["No whole day by itself: without tea."]
    assert [row["lasts"] for row in change_rows(some)] == ["6 days (+2)", "4 days"]


def test_the_range_names_its_ends_and_what_fails_for_other_things(known):
    people = Case("people", "people", HOUSE, count=1)
    some = replace(known, cases=[tried(2), tried(9), replace(tried(0, stuck=()), case=people)])
    assert range_told(some) == [
        "Other people, weather or stoves: 2 to 9 days",
        "(fuel apart, not all of the menu can be cooked with one adult more)",
    ]
    assert [row["lasts"] for row in case_rows(some)][1:3] == ["2 days (-2)", "4 days"]
    assert case_rows(known) == []


def test_the_range_is_told_once_all_its_cases_are_known(known):
    some = replace(known, cases=[tried(2)])
    assert "Other people" not in endurance_text(some)
    assert endurance_text(replace(some, ranged=True)).count("Other people, weather or stoves") == 1


def test_what_is_left_falls_day_by_day(known):
    (left,) = days_left(known.lasting, METRIC)
    assert len(left.shares) == known.lasting.days + 1
    assert left.shares[0] == 1.0
    assert list(left.shares) == sorted(left.shares, reverse=True)
    assert left.shares[-1] == pytest.approx(known.lasting.ends[0].left_share)
    rows = left_rows((left,))
    assert rows[0] == {"after": "at the start", "alcohol": left.amounts[0]}
    assert rows[-1]["after"] == "day 4"
    assert days_left(lasting(), METRIC) == ()
    assert left_rows(()) == []


def test_json_says_the_same(known):
    told = json.loads(json_text(known))
    assert told["version"] == 1
    assert (told["days"], told["most_days"], told["beyond"]) == (4, 4, False)
    assert told["mix_days"] == pytest.approx(known.lasting.mix_days)
    assert told["ends"][0]["fuel"] == "ethanol"
    assert told["ends"][0]["left_kg"] == pytest.approx(known.lasting.ends[0].left_kg)
    assert told["opening"]["sparing"]["open_days"] == 2
    assert len(told["plan"]["steps"]) == len(known.lasting.plan.steps)
    assert told["status"] == "complete"


def test_json_of_a_part_and_of_none(known):
    part = replace(known, changes=[tried(5)], fallbacks=[Fallback(1, None)], complete=False)
    told = endurance_json(part)
    assert told["status"] == "time_limit"
    assert told["changes"][0]["what"] == "without tea"
    assert told["fallbacks"][0]["possible"] is False
    assert endurance_json(replace(part, stopped=True))["status"] == "stopped"
    bare = Endurance(HOUSE, lasting(mix_days=None), sticks=False)
    assert endurance_json(bare)["plan"] is None
    assert endurance_json(bare)["mix_days"] is None
