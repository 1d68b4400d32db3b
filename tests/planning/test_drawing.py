"""Jars and boxes drawn on several times: levels, plans, what the checker finds, what remains."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from optimizer.errors import CheckError
from optimizer.model.now import Now
from optimizer.physics.opening import open_loss_w
from optimizer.planning.baseline import separate
from optimizer.planning.drawing import Draw, Vessel
from optimizer.planning.planner import plan
from optimizer.planning.remaining import remaining
from optimizer.planning.verify import verify
from optimizer.report.lanes import days_of
from optimizer.scenario.reading import parse
from optimizer.studies.warmth import warmth

HOME = """\
title: A jar drawn on
people: 2
days: 1
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
cook_hours: ["06:00-08:00"]
fuels: {propane: {stock: 1 kg, price: 9 EUR / kg}}
stoves: {gas_burner: 1}
pots: {pot_2_5l: 1, pot_4l: 1}
cookers: {jar_2l: 1, packed_box: 1}
menu:
  - meal: breakfast
    at: "07:30"
    dishes:
      - {dish: tea, drawn: {10:00: 0.5 L, 07:30: 0.5 L, 11:30: 0.6 L}} # a jar
      - {dish: washing_water, drawn: {08:00: 1.5 L, 09:00: 1.5 L}}
"""


@pytest.fixture(scope="module", name="home")
def _home():
    return parse(HOME)


@pytest.fixture(scope="module", name="made")
def _made(home):
    return plan(home)


def step_of(made, dish):
    return next(step for step in made.steps if step.dish == dish)


# levels


VESSEL = Vessel(
    contents_j_k=8000.0,
    load_j_k=7000.0,
    packing_j_k=1500.0,
    loss_w_k=0.4,
    start_c=95.0,
    packing_c=15.0,
    room_c=15.0,
    mouth_m2=0.015,
    bare_w_k=0.5,
    open_s=60.0,
)


def test_levels_are_those_of_the_equations_integrated_with_what_is_left():
    draws = (Draw(240, 0.25, None), Draw(90, 0.25, None), Draw(0, 0.5, None))

    def shut(left):
        def pace(_, at):
            inner, outer = 0.8 * (at[0] - at[1]), 0.8 * (at[1] - 15.0)
            return [-inner / left, (inner - outer) / 1500.0]

        return pace

    def opened(left):
        def pace(_, at):
            lost = open_loss_w(surface_m2=0.015, temperature_c=at[0], air_c=15.0) + 0.5 * (
                at[0] - 15.0
            )
            return [-lost / left, 0.0]

        return pace

    legs = [(shut(8000), 1800), (opened(6250), 60), (shut(6250), 9000)]
    legs += [(opened(4500), 60), (shut(4500), 5400)]
    at, seen = [95.0, 15.0], []
    for number, (pace, seconds) in enumerate(legs):
        at = solve_ivp(pace, (0, seconds), at, rtol=1e-9, atol=1e-9).y[:, -1]
        if number % 2 == 0:
            seen.append(at[0])
    assert VESSEL.levels(1800.0, draws) == pytest.approx(seen, abs=0.02)


def test_without_loss_and_opening_every_draw_is_as_hot_as_it_was_filled():
    tight = replace(VESSEL, loss_w_k=0.0, packing_j_k=0.0, open_s=0.0)
    draws = (Draw(60, 0.5, None), Draw(0, 0.5, None))
    assert tight.levels(600.0, draws) == pytest.approx([95.0, 95.0])


def test_less_left_cools_faster_by_hand():
    # C = 1000 + 7000 J/K; half of the load drawn leaves 4500; 0.45 W/K over 10,000 s: one e-fold
    jar = replace(VESSEL, packing_j_k=0.0, loss_w_k=0.45, open_s=0.0, start_c=95.0)
    first, last = jar.levels(0.0, (Draw(10_000 / 60, 0.5, None), Draw(0, 0.5, None)))
    assert first == pytest.approx(95.0)
    assert last == pytest.approx(15 + 80 / np.e, abs=1e-6)


# a plan


def test_each_draw_is_told_and_is_hot_enough_by_the_independent_checker(home, made):
    verify(made, home)
    tea, washing = step_of(made, "tea"), step_of(made, "washing_water")
    assert [(each.at, round(each.litres, 6)) for each in tea.drawn] == [
        (450, 0.5),
        (600, 0.5),
        (690, 0.6),
    ]
    assert tea.cooker == "jar_2l"
    assert min(each.careful_c for each in tea.drawn) >= 60
    assert min(each.careful_c for each in washing.drawn) >= 45
    usual = [each.usual_c for each in tea.drawn]
    assert usual == sorted(usual, reverse=True)
    assert (tea.serve, tea.serve_c) == (690, usual[-1])


def test_the_jar_is_in_use_until_its_last_draw(home):
    text = HOME.replace("dish: washing_water, drawn: {08:00: 1.5 L, 09:00: 1.5 L}", "dish: tea")
    text = text.replace("packed_box: 1", "packed_box: 0").replace('at: "07:30"', 'at: "07:30"')
    later = text + '  - {meal: elevenses, at: "11:00", dishes: [tea]}\n'
    assert plan(parse(later)).status == "infeasible"  # the only jar is not free by then
    two = later.replace("jar_2l: 1", "jar_2l: 2")
    assert plan(parse(two)).steps


@pytest.mark.parametrize(
    ("change", "told"),
    [
        (lambda d: d[:-1], "the draws are not those of the menu"),
        (lambda d: (replace(d[0], at=d[0].at + 5), *d[1:]), "the draws are not those"),
        (lambda d: (replace(d[0], litres=0.6), *d[1:]), "are not its share"),
        (lambda d: (d[0], replace(d[1], careful_c=d[1].careful_c + 1), d[2]), "degC, not"),
        (lambda d: (d[0], replace(d[1], usual_c=d[1].usual_c - 1), d[2]), "degC, not"),
    ],
)
def test_a_draw_that_is_told_wrongly_is_found(home, made, change, told):
    steps = tuple(
        replace(step, drawn=change(step.drawn)) if step.dish == "tea" else step
        for step in made.steps
    )
    with pytest.raises(CheckError, match=told):
        verify(replace(made, steps=steps), home)


def test_a_draw_that_is_too_cold_is_found(home, made):
    cold = tuple(
        replace(item, drawn=(replace(item.drawn[0], need_c=97.0), *item.drawn[1:]))
        for item in home.items
    )
    with pytest.raises(CheckError, match="not 97"):
        verify(made, replace(home, items=cold))


def test_too_late_a_last_draw_is_refused_with_its_temperature():
    made = plan(parse(HOME.replace("11:30: 0.6 L", "15:00: 0.3 L")))
    assert made.status == "infeasible"
    assert any("at the last draw" in refusal.reason for refusal in made.refusals)


def test_boiled_through_every_draw_is_boiled_by_itself(home):
    apart = list(separate(home.items[0])) + list(separate(home.items[1]))
    assert [item.serve_min for item in apart if item.dish.name == "tea"] == [450, 600, 690]
    tea = home.items[1] if home.items[1].dish.name == "tea" else home.items[0]
    shares = [item.adult_portions / tea.adult_portions for item in separate(tea)]
    assert shares == pytest.approx([0.5 / 1.6, 0.5 / 1.6, 0.6 / 1.6])


def test_what_was_drawn_before_now_is_not_planned_again(home):
    left = remaining(home, Now(minute=465, eaters=(), left=(), kitchen_c=None))
    tea = next(item for item in left.items if item.dish.name == "tea")
    assert [tea.serve_min - each.before_min for each in tea.drawn] == [600, 690]
    assert sum(each.share for each in tea.drawn) == pytest.approx(1)
    whole = next(item for item in home.items if item.dish.name == "tea")
    assert tea.adult_portions == pytest.approx(whole.adult_portions * 1.1 / 1.6)


def test_the_curve_falls_in_a_step_at_every_draw(home, made):
    found = warmth(home, step_of(made, "tea"))
    at_first = [r for r in found.readings if r.minute == 450]
    assert [r.rest for r in at_first] == [0, 1]
    assert at_first[1].usual_c < at_first[0].usual_c - 0.1
    assert found.readings[-1].usual_c == pytest.approx(found.serve_c, abs=0.01)
    tenth = next(r for r in found.readings if r.minute == 600)
    assert tenth.careful_c == pytest.approx(step_of(made, "tea").drawn[1].careful_c, abs=0.01)


def test_every_draw_is_marked_on_the_clock(home, made):
    (day,) = days_of(made, home)
    marks = sorted(each.minute for each in day.served if each.dish == "tea")
    assert marks == [450, 600, 690]
