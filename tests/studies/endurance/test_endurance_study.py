"""The whole study: its parts, what a stop leaves out, and why a store does not last a day."""

from dataclasses import replace

import pytest

from optimizer.errors import LimitError
from optimizer.planning.verify import verify
from optimizer.studies.endurance.study import endurance


@pytest.fixture(scope="module")
def house(small, with_stock, day_kg):
    return with_stock(small((("porridge", 450),), gas_kg=0.1), sticks=1.2 * day_kg)


@pytest.mark.slow
def test_the_parts_come_in_turn_and_all_of_them(house):
    grown: list[tuple[bool, int, int, int]] = []

    def note(known) -> None:
        parts = (known.opening is not None, len(known.fallbacks), len(known.cases))
        grown.append((*parts, len(known.changes)))

    known = endurance(house, time_limit_s=120.0, grown=note)
    assert grown[0] == (False, 0, 0, 0)
    assert grown == sorted(grown)
    assert known.complete
    assert not known.stopped
    assert known.sticks
    assert known.opening is not None
    assert len(known.fallbacks) == house.days
    assert {each.case.sort for each in known.cases} == {"people", "weather", "stoves"}
    assert known.changes
    assert known.low <= known.lasting.days <= known.high
    verify(known.lasting.plan, known.lasting.scenario)


def test_only_the_days(house):
    known = endurance(house, changes_too=False)
    assert known.complete
    assert known.cases == known.changes == []
    assert known.low == known.high == known.lasting.days


def test_a_stop_after_the_days_keeps_them(house):
    going = [True]
    known = endurance(house, tell=lambda _: going[0], grown=lambda _: going.__setitem__(0, False))
    assert known.stopped
    assert not known.complete
    assert known.lasting.days > 0
    assert known.changes == []


def test_a_stop_before_the_days_is_no_answer(house):
    with pytest.raises(LimitError):
        endurance(house, tell=lambda _: False)


def test_why_not_one_day(house, with_stock):
    known = endurance(with_stock(house, sticks=0.0, propane=0.001))
    assert known.lasting.days == 0
    assert known.none is not None
    assert known.none.status == "infeasible"
    assert any("more" in change for change in known.none.changes)


def test_the_range_leaves_out_what_fails_for_other_things(house):
    known = endurance(house, changes_too=False)
    from optimizer.studies.endurance.changes import Case, Tried

    for days, stuck in ((1, None), (0, ()), (9, None)):
        case = Case("people", "people", house, count=1)
        known.cases.append(Tried(case, days, days, float(days), beyond=False, stuck=stuck))
    assert (known.low, known.high) == (1, 9)


def test_days_looked_at_are_no_more_than_asked_for(house):
    rich = replace(house, stores=tuple(replace(s, stock_kg=100.0) for s in house.stores))
    known = endurance(rich, most=3, changes_too=False)
    assert known.lasting.beyond
    assert known.lasting.days == 3
    assert known.opening.sparing.open_days == 2
