"""Things described from nothing: what is asked of them, and what the answers make."""

import pytest

from optimizer.cli.outlet import demo_file
from optimizer.errors import InputError
from optimizer.report.blank import NOTHING, RECORDS, blanks, entry_of, first_blank
from optimizer.scenario.changes import with_thing
from optimizer.scenario.reading import parse
from optimizer.shelf import load

NAMED = {"fuel": ("sticks",), "material": ("straw",)}


def first_answers(kind):
    first = first_blank(kind)
    return first.options if first else (None,)


KINDS = [(kind, answer) for kind in RECORDS for answer in first_answers(kind)]


def asked(kind, answer):
    first = first_blank(kind)
    return (*((first,) if first else ()), *blanks(kind, answer, NAMED))


def answers(kind, answer):
    said = {
        blank.key: blank.first or (blank.options[0] if blank.options else blank.such_as)
        for blank in asked(kind, answer)
    }
    first = first_blank(kind)
    return said | ({first.key: answer} if first else {})


@pytest.mark.parametrize(("kind", "answer"), KINDS)
def test_the_examples_make_a_thing_that_a_scenario_takes(kind, answer):
    entry = entry_of(kind, asked(kind, answer), answers(kind, answer), "mine")
    if kind == "dishes":
        entry["ingredients"] = {"water": "100 g", "rice_white": "60 g"}
    if kind == "fuels" and answer != "sun":
        entry["stock"] = "1 kWh" if answer == "electricity" else "1 kg"
    parse(with_thing(demo_file().read_text(encoding="utf-8"), kind, "mine", entry))


@pytest.mark.parametrize(("kind", "answer"), KINDS)
def test_all_that_is_not_said_is_told_at_once(kind, answer):
    blank = asked(kind, answer)
    with pytest.raises(InputError) as told:
        entry_of(kind, blank, {}, "mine")
    assert {p.key for p in told.value.problems} == {f"{kind}.mine.{b.key}" for b in blank}


def test_safety_is_asked_and_never_taken_for_granted():
    food = {blank.key: blank for blank in blanks("foods", None, NAMED)}
    assert {"phaseolus", "endpoint", "keeping"} <= set(food)
    assert not any(food[key].first for key in ("phaseolus", "endpoint", "keeping"))
    stove = {blank.key: blank for blank in blanks("stoves", None, NAMED)}
    assert not stove["flame"].first
    dish = {blank.key: blank for blank in blanks("dishes", "hot", NAMED)}
    assert {"foams", "disinfects", "soak"} <= set(dish)


def test_none_is_an_answer_and_is_not_written():
    said = answers("foods", None) | {"endpoint": NOTHING, "keeping": "keeps"}
    entry = entry_of("foods", asked("foods", None), said, "mine")
    assert "endpoint" not in entry
    assert entry["phaseolus"] is True
    assert entry["keeping"] == "keeps"


def test_what_does_not_belong_to_a_kind_is_not_asked():
    packed = {blank.key for blank in blanks("cookers", "packed", NAMED)}
    jar = {blank.key for blank in blanks("cookers", "vacuum", NAMED)}
    assert {"material", "thickness"} <= packed - jar
    assert {"volume", "rated", "rated_after"} <= jar - packed
    assert "volume" in {blank.key for blank in blanks("pots", None, NAMED)}


def test_what_nobody_can_measure_begins_at_the_careful_end_of_the_shelf():
    first = {blank.key: blank.first for blank in blanks("dishes", "hot", NAMED)}
    dishes = load().dishes.values()
    assert first["z"] == f"{min(dish.z_k for dish in dishes):g} K"  # slow where it is not boiling
    assert first["floor"] == f"{max(dish.floor_c for dish in dishes):g} degC"
    assert not first["boil"]
