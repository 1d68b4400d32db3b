"""A schedule told as a plan, and what a plan is set beside as it grows."""

from dataclasses import replace
from datetime import date
from types import SimpleNamespace

import pytest

from optimizer.errors import CheckError
from optimizer.model.plan import BoilAll, Goal, Refusal
from optimizer.planning import planner
from optimizer.planning.baseline import Effort
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.memory import Memory
from optimizer.planning.planner import (
    _boiled,
    _compared,
    _none,
    _nothing_yet,
    _status,
    as_plan,
    plans,
)
from optimizer.planning.result import Result
from tests.planning.conftest import household

HOME = household(
    [("rice", "lunch", 750)],
    title="One pot",
    start=date(2026, 1, 2),
    begins=60,
    goals=("energy", "money"),
)
EFFORT = Effort(0.05, 7.0, "highs")
SAME = BoilAll("optimal", 100.0, 9.0, 90.0, None)
ANY = BoilAll("optimal", 80.0, 8.0, 60.0, None)
UNKNOWN = BoilAll("infeasible", None, None, None, "why")


@pytest.fixture(scope="module", name="options")
def _options():
    refused = Refusal(0, "gas_burner", "pot_4l", None, "too_weak", "never boils")
    return replace(choices(HOME), refusals=(refused,))


@pytest.fixture(scope="module", name="found")
def _found(options):
    fed = next(column for column in options.columns if column.stove == "stick_stove")
    return Result("within_gap", (fed,), 5e6, 4e6, 0.2, 1.0, (("stick_stove", 1),))


@pytest.fixture(scope="module", name="made")
def _made(options, found):
    return as_plan(HOME, options, kitchen_of(HOME), found)


class TestTold:
    def test_what_the_household_calls_it(self, made):
        assert (made.title, made.start, made.begins) == ("One pot", date(2026, 1, 2), 60)

    def test_how_good_it_is_in_the_first_goal(self, made):
        assert (made.status, made.gap, made.goal) == ("within_gap", 0.2, Goal("energy", 5e6, 4e6))

    def test_what_it_takes(self, made, found):
        (column,), (step,), (fire,) = found.chosen, made.steps, made.fires
        assert fire.end == step.off
        assert made.fuel_mj == pytest.approx(column.fuel_j / 1e6 + fire.start_mj + fire.idle_mj)
        price = kitchen_of(HOME).lightings["stick_stove"].money_j * 1e6
        assert made.cost == pytest.approx(column.money + (fire.start_mj + fire.idle_mj) * price)
        assert made.fire_minutes == fire.end - fire.start
        assert made.tending_minutes >= step.off - step.on
        assert [fuel.name for fuel in made.fuels] == ["sticks", "propane"]

    def test_why_other_ways_were_refused_and_what_to_beware_of(self, made, options):
        assert made.refusals == options.refusals != ()
        assert "outdoors" in " ".join(caution.text for caution in made.cautions)

    def test_nothing_is_compared_yet(self, made):
        assert (made.boil_all, made.boil_all_same_stoves, made.saved) == (None, None, None)
        assert made.worth == made.changes == ()

    def test_what_is_under_way_is_in_it(self, options, found, soup_step):
        going = SimpleNamespace(under_way=(SimpleNamespace(step=soup_step),))
        begun = replace(HOME, under_way=going.under_way)
        assert as_plan(begun, options, kitchen_of(HOME), found).under_way == (soup_step,)

    def test_beans_are_put_to_soak_in_cook_hours(self, found):
        home = household([("bean_stew", "supper", 1140)])
        options = choices(home)
        result = replace(found, chosen=options.columns[:1])
        (step,) = as_plan(home, options, kitchen_of(home), result).steps
        assert step.on - step.soak_from >= 480
        assert any(w.start_min <= step.soak_from <= w.end_min for w in home.windows)

    @pytest.mark.parametrize("status", ["optimal", "within_gap", "stopped", "time_limit"])
    def test_a_status_is_that_of_the_schedule(self, found, status):
        assert _status(replace(found, status=status)) == status

    @pytest.mark.parametrize("status", ["infeasible", "no_plan"])
    def test_a_schedule_is_not_told_as_none(self, found, status):
        with pytest.raises(CheckError, match=f"^a schedule was found, .* status is {status}$"):
            _status(replace(found, status=status))

    def test_no_plan_says_what_to_change_and_why(self, options, monkeypatch):
        asked = []
        monkeypatch.setattr(planner, "least_changes", lambda *w: asked.append(w) or ("more",))
        room = kitchen_of(HOME)
        none = _none(HOME, options, room, EFFORT)
        assert asked == [(HOME, options, room, EFFORT)]
        assert (none.status, none.changes, none.refusals) == (
            "infeasible", ("more",), options.refusals,
        )  # fmt: skip
        assert (none.title, none.start, none.begins) == ("One pot", date(2026, 1, 2), 60)
        assert (none.gap, none.goal, none.steps) == (None, Goal("energy", None, None), ())

    def test_no_plan_yet_says_what_would_help(self, found):
        assert _nothing_yet(replace(found, seconds=29.6)) == (
            "no plan after 30 s; allow more time (--time-limit), a wider gap (--gap 0.05), "
            "or plan fewer days at a time"
        )


class TestCompared:
    @pytest.fixture
    def beside(self, monkeypatch, made):
        """Let boiling through come to what is given, and return the plan as it grows."""

        def compare(same, other, wanted=None):
            asked = []

            def boil_all(scenario, effort, *, steps, known):
                asked.append((scenario, effort, steps, known))
                return same if steps else other

            monkeypatch.setattr(planner, "boil_all", boil_all)
            known, effort = {}, replace(EFFORT, wanted=wanted)
            told = list(_compared(made, HOME, effort, known, {}))
            assert [each[2] for each in asked] == [made.steps, ()]
            assert all(each[0] is HOME and each[1] is effort for each in asked)
            assert all(each[3] is known for each in asked)
            return told

        return compare

    def test_first_on_its_own_stoves_then_on_any(self, beside, made):
        first, last = beside(SAME, ANY)
        assert (first.boil_all_same_stoves, first.boil_all) == (SAME, None)
        assert first.saved.cost == pytest.approx(9.0 - made.cost)
        assert first.saved_any_stove is None
        assert (last.boil_all_same_stoves, last.boil_all) == (SAME, ANY)
        assert last.saved == first.saved
        assert last.saved_any_stove.cost == pytest.approx(8.0 - made.cost)

    def test_where_its_own_stoves_do_not_do_any_stove_is_what_is_saved(self, beside, made):
        (only,) = beside(UNKNOWN, ANY)
        assert (only.boil_all_same_stoves, only.boil_all) == (UNKNOWN, ANY)
        assert only.saved == only.saved_any_stove
        assert only.saved.cost == pytest.approx(8.0 - made.cost)

    def test_what_nobody_waits_for_is_not_told(self, beside):
        assert len(beside(SAME, ANY, wanted=lambda: False)) == 1

    def test_a_plan_is_told_even_where_nobody_waits(self, beside):
        assert len(beside(UNKNOWN, ANY, wanted=lambda: False)) == 1


class TestKept:
    @pytest.fixture
    def boiled(self, monkeypatch):
        """Ask for boiling through again and again, and return how often it was worked out."""
        counted, kept = [], {}
        monkeypatch.setattr(planner, "boil_all", lambda *_, **__: counted.append(1) or SAME)

        def ask(scenario=HOME, steps=(), **effort):
            assert _boiled(scenario, replace(EFFORT, **effort), steps, {}, kept) == SAME
            return len(counted)

        return ask

    def test_stock_name_and_date_are_no_matter(self, boiled):
        assert boiled() == 1
        stores = tuple(replace(each, stock_kg=99.0, stock_j=1e9) for each in HOME.stores)
        assert boiled(replace(HOME, stores=stores)) == 1
        assert boiled(replace(HOME, title="Another", start=None)) == 1
        assert boiled(time_limit_s=9.0) == 1

    def test_another_effort_menu_price_or_stove_is(self, boiled, made):
        assert boiled() == 1
        assert boiled(gap=0.01) == 2
        assert boiled(solver="cbc") == 3
        assert boiled(replace(HOME, items=())) == 4
        dear = tuple(replace(each, price_kg=99.0) for each in HOME.stores)
        assert boiled(replace(HOME, stores=dear)) == 5
        assert boiled(steps=made.steps) == 6
        assert boiled(steps=[replace(step, stove="gas_burner") for step in made.steps]) == 7

    @pytest.mark.parametrize("effort", [{"time_limit_s": -1.0}, {"wanted": lambda: False}])
    def test_what_was_cut_short_is_not_kept(self, boiled, effort):
        assert boiled(**effort) == 1
        assert boiled() == 2


def test_what_is_asked_of_a_plan_is_asked_of_the_search_and_what_is_left_of_the_rest(monkeypatch):
    asked, memory = {}, Memory()
    schedule, compared = planner.schedule, planner._compared

    def searched(columns, room, **words):
        asked.update(words)
        return schedule(columns, room, **words)

    def beside(told, scenario, effort, known, boiled):
        asked.update(effort=effort, known=known, boiled=boiled)
        return compared(told, scenario, effort, known, boiled)

    monkeypatch.setattr(planner, "schedule", searched)
    monkeypatch.setattr(planner, "_compared", beside)
    monkeypatch.setattr(planner, "boil_all", lambda *_, **__: SAME)

    def progress(*_):
        return True

    def wanted():
        return True

    words = {"gap": 0.5, "time_limit_s": 60.0, "progress": progress, "memory": memory}
    next(plans(HOME, solver="cbc", wanted=wanted, **words))
    assert asked.items() >= {**words, "solver": "cbc", "goals": ("energy", "money")}.items()
    effort = asked["effort"]
    assert (effort.gap, effort.solver, effort.wanted) == (0.5, "cbc", wanted)
    assert 1.0 <= effort.time_limit_s < 60.0
    assert asked["known"] is memory.known
    assert asked["boiled"] is memory.boiled
