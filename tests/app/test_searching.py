"""A search remembers what an earlier one worked out for the same household, and nothing else."""

import threading

import pytest

from app import searching
from app.searching import Search
from optimizer.planning.planner import plan
from optimizer.scenario.reading import parse

SMALL = """\
# ours
title: One cold morning
people: {adults: 1, children: 1}
days: 1
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
cook_hours: ["06:00-08:00"] # early
fuels:
  sticks: {stock: 3 kg, price: 0.50 EUR / kg}
  propane: {stock: 1 x 465 g, price: 9.50 EUR / 465 g}
stoves: {stick_stove: 1, gas_burner: 1}
pots: {pot_2_5l: 1}
cookers: {packed_box: 1}
menu:
  - {meal: breakfast, at: "07:30", dishes: [porridge]}
"""
EDITS = {
    "another stock": SMALL.replace("stock: 3 kg", "stock: 2.5 kg"),
    "another dish": SMALL.replace("[porridge]", "[tea]"),
    "another household": SMALL.replace("pot_2_5l", "pot_4l"),
}


def found(text):
    made = Search(text, 0.01, 30.0, threading.Semaphore(1)).wait(60)
    assert made is not None
    return made.plan


@pytest.mark.parametrize("text", EDITS.values(), ids=EDITS)
def test_after_an_edit_it_is_the_plan_of_a_first_search(text, monkeypatch):
    monkeypatch.setattr(searching, "_MEMORIES", [])
    found(SMALL)
    assert len(searching._MEMORIES) == 1
    again, alone = found(text), plan(parse(text))
    assert again.steps == alone.steps
    assert again.goal == alone.goal


def test_a_memory_is_lent_to_one_search_at_a_time(monkeypatch):
    monkeypatch.setattr(searching, "_MEMORIES", [])
    with searching._remembered("here") as one:
        one.household = "here"
        with searching._remembered("here") as other:
            assert other is not one
    with searching._remembered("here") as again:
        assert again is one
