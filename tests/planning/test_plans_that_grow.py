"""In what order a plan grows, and where it ends: every part put in by hand."""

from dataclasses import replace

import pytest

from optimizer.errors import LimitError
from optimizer.planning import planner
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.planner import plan, plans
from optimizer.planning.result import Result
from tests.planning.conftest import household

HOME = household([("rice", "lunch", 750)], goals=("energy", "money"))


@pytest.fixture
def grown(monkeypatch):
    """Return what comes of a schedule of that status, and what the parts were asked."""
    asked = {}

    def grow(status="within_gap", *, found=True, wanted=None):
        options = choices(HOME)
        chosen = options.columns[:1] if found else ()
        result = Result(status, chosen, 5e6, 4e6, 0.2, 1.0, ())

        def compared(told, scenario, *_):
            assert scenario is HOME
            yield replace(told, title="compared")

        def mix(columns, kitchen, *, goal):
            asked["mix"] = (len(columns), kitchen, goal)
            return "the mix"

        def worth_of(*words):
            asked["worth"] = words
            return ("one more",)

        monkeypatch.setattr(planner, "schedule", lambda *_, **__: result)
        monkeypatch.setattr(planner, "verify", lambda told, home: asked.update(v=(told, home)))
        monkeypatch.setattr(planner, "_compared", compared)
        monkeypatch.setattr(planner, "_none", lambda *words: words)
        monkeypatch.setattr(planner, "mix", mix)
        monkeypatch.setattr(planner, "worth_of", worth_of)
        asked["result"], asked["columns"] = result, len(options.columns)
        return list(plans(HOME, gap=0.3, wanted=wanted))

    grow.asked = asked
    return grow


def test_first_it_is_compared_and_then_each_thing_is_given_a_worth(grown):
    first, last = grown()
    assert (first.title, first.worth) == ("compared", ())
    assert last == replace(first, worth=("one more",))


def test_the_schedule_is_checked_before_it_is_told(grown):
    grown()
    told, home = grown.asked["v"]
    assert home is HOME
    assert told.title == HOME.title
    assert told.steps


def test_worth_is_that_of_the_first_goal_beside_this_schedule(grown):
    grown()
    room = kitchen_of(HOME)
    scenario, columns, kitchen, cheapest, found, effort = grown.asked["worth"]
    assert grown.asked["mix"] == (grown.asked["columns"], room, "energy")
    assert (scenario, len(columns), kitchen) == (HOME, grown.asked["columns"], room)
    assert (cheapest, found, effort.gap) == ("the mix", grown.asked["result"], 0.3)


def test_a_search_that_was_stopped_is_told_as_it_is(grown):
    (only,) = grown("stopped")
    assert only.status == "stopped"
    assert only.title == HOME.title


def test_what_nobody_waits_for_is_given_no_worth(grown):
    assert len(grown(wanted=lambda: False)) == 1
    assert "mix" not in grown.asked
    answers = iter([True, False])
    assert len(grown(wanted=lambda: next(answers))) == 1  # given up while it was worked out
    assert "worth" in grown.asked


def test_where_nothing_can_be_cooked_it_says_what_to_change(grown):
    ((scenario, options, kitchen, effort),) = grown("infeasible", found=False)
    assert (scenario, kitchen, effort.gap) == (HOME, kitchen_of(HOME), 0.3)
    assert len(options.columns) == grown.asked["columns"]


def test_where_none_was_found_yet_it_says_so(grown):
    with pytest.raises(LimitError, match="no plan after 1 s"):
        grown("no_plan", found=False)


def test_a_plan_is_the_last_that_grows(grown):
    *_, last = grown()
    assert plan(HOME, gap=0.3) == last
