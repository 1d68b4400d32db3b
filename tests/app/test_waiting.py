"""Plans: worked out once, watched, stopped with the best so far, dropped when nobody looks."""

import threading

import pytest

from app import cached, looking, searching, waiting
from optimizer.errors import CheckError, LimitError
from optimizer.planning.planner import plans as make_plans


@pytest.fixture
def planner(monkeypatch, file):
    """Put a planner of the test in the place of ours."""

    def put(stand_in):
        monkeypatch.setattr(searching, "make_plans", stand_in)

    text = file.read_text(encoding="utf-8")
    cached.forget(text)
    yield put
    cached.forget(text)


def test_a_text_is_planned_once(file, planner):
    calls = []

    def counting(scenario, **words):
        calls.append(scenario.title)
        return make_plans(scenario, **words)

    planner(counting)
    text = file.read_text(encoding="utf-8")
    first, second = cached.plan(text), cached.plan(text)
    assert first is second
    assert first.plan.steps
    assert calls == ["One cold morning"]
    cached.plan(text + "# another text\n")
    assert len(calls) == 2


@pytest.mark.parametrize(
    ("error", "why"), [(LimitError("no plan after 30 s"), "limit"), (CheckError("bad"), "defect")]
)
def test_why_there_is_none(window, file, planner, error, why):
    def failing(scenario, **words):
        raise error

    planner(failing)
    assert cached.plan(file.read_text(encoding="utf-8")).why == why
    shown = window("plan")
    assert [b.label for b in shown.button].count("Search again") == 1
    told = [each.value for each in (*shown.error, *shown.warning)]
    assert any(str(error).lower() in line.lower().replace("\\", "") for line in told)


def test_a_text_with_problems_has_no_plan():
    found = cached.plan("title: nothing else")
    assert found.why == "input"
    assert found.problems


def test_a_long_search_is_shown_and_stopped_with_the_best_so_far(
    window, file, planner, press, monkeypatch
):
    monkeypatch.setattr(waiting, "PATIENCE_S", 0.2)
    asked = threading.Event()

    def slow(scenario, *, progress, **words):
        made = next(make_plans(scenario, **words))
        while progress(3.0, 0.5, 0.4):
            asked.wait(0.01)
        from dataclasses import replace

        yield replace(made, status="stopped")

    planner(slow)
    shown = window("plan")
    (status,) = shown.status
    assert "planning" in status.label
    press(shown, "Stop and show the best plan so far")
    assert cached.search(file.read_text(encoding="utf-8")).wait(60).plan.status == "stopped"
    shown.run()
    assert "best plan it had found" in shown.info[0].value
    assert "Search on" in {button.label for button in shown.button}


def test_a_search_nobody_waits_for_is_dropped(file, planner):
    def slow(scenario, *, progress, **words):
        while progress(1.0, None, None):
            threading.Event().wait(0.01)
        raise LimitError("stopped")

    planner(slow)
    text = file.read_text(encoding="utf-8")
    search = cached.search(text)
    cached.abandon(text)
    assert search.wait(60).why == "stopped"
    assert cached.search(text) is not search
    cached.abandon(text)


def test_a_search_goes_on_while_another_window_looks_at_it(file, planner, monkeypatch):
    def slow(scenario, *, progress, **words):
        while progress(1.0, None, None):
            threading.Event().wait(0.01)
        raise LimitError("stopped")

    planner(slow)
    text, windows = file.read_text(encoding="utf-8"), iter(["first", "second", "first", "second"])
    monkeypatch.setattr(looking, "window", lambda: next(windows))
    search = cached.search(text)
    assert cached.search(text) is search
    cached.abandon(text)
    assert search.wait(0.2) is None
    cached.abandon(text)
    assert search.wait(60).why == "stopped"


def test_a_finished_search_is_kept(file, planner):
    text = file.read_text(encoding="utf-8")
    found = cached.plan(text)
    cached.abandon(text)
    assert cached.plan(text) is found


def test_an_edit_is_planned_anew_on_the_plan_page(window, file):
    shown = window("kitchen")
    shown.text_input("field:fuels.sticks.stock").set_value("0 kg").run()
    shown.switch_page("views/plan.py").run()
    assert not shown.exception
    text = file.read_text(encoding="utf-8")
    used = {fuel.name: fuel.used_mj for fuel in cached.plan(text).plan.fuels}
    assert used["sticks"] == 0
    assert used["propane"] > 0


def test_the_schedule_is_shown_before_the_rest_is_there(window, file, planner):
    go_on, waited = threading.Event(), []

    def growing(scenario, **words):
        first, *more = make_plans(scenario, **words)
        yield first
        waited.append(go_on.wait(60))
        yield from more

    planner(growing)
    shown = window("plan")
    captions = [each.value for each in shown.caption]
    assert any("Being worked out" in each for each in captions)
    assert shown.get("vega_lite_chart")
    assert "What one more is worth" not in [each.value for each in shown.header]
    go_on.set()
    whole = cached.plan(file.read_text(encoding="utf-8")).plan
    assert waited == [True]
    assert whole.boil_all is not None
    shown.run()
    assert not any("Being worked out" in each.value for each in shown.caption)
    assert "What one more is worth" in [each.value for each in shown.header]


def test_a_search_that_is_dropped_leaves_the_rest_out(file, planner):
    asked, entered, go_on = [], threading.Event(), threading.Event()

    def growing(scenario, *, wanted, **words):
        yield next(make_plans(scenario, **words))
        entered.set()
        go_on.wait(60)
        asked.append(wanted())

    planner(growing)
    text = file.read_text(encoding="utf-8")
    search = cached.search(text)
    assert entered.wait(60)
    first = search.wait(0, whole=False)
    assert search.wait(0) is None
    cached.abandon(text)
    go_on.set()
    assert search.wait(60) is first
    assert asked == [False]
    assert cached.search(text) is not search
    cached.abandon(text)


def test_a_plan_is_shown_before_its_chances_and_keeps_them_as_it_grows(file):
    text = file.read_text(encoding="utf-8")
    search = cached.search(text)
    first = search.wait(60, whole=False).plan
    assert first.saved is not None
    assert first.chances is None
    whole = search.wait(60).plan
    assert whole.chances is not None
    assert all(step.chance_done is not None for step in whole.steps)
    assert whole.boil_all is not None


def test_leaving_a_text_never_searched_starts_no_search(file):
    text = file.read_text(encoding="utf-8") + "\n# never looked at\n"
    before = threading.active_count()
    cached.abandon(text)
    assert threading.active_count() == before
