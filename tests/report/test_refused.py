"""Reasons why ways do not work: each once, about the right things, wide enough for all."""

import pytest

from optimizer.model.household import Scenario
from optimizer.model.plan import Refusal
from optimizer.report.refused import merged, refusal_sentences
from optimizer.studies.comparison import Comparison, DishWay, HeatFlow

HEAT = HeatFlow(1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0)


def way(stove: str, pot: str, cooker: str | None) -> DishWay:
    return DishWay(
        stove, "sticks", pot, cooker, "packed" if cooker else "flame", False, 1.0, 0.1, 0.0, 9.0,
        1000, 1030, 1030, 1050, 1110, 80.0, 75.0, HEAT,
    )  # fmt: skip


def told(scenario: Scenario, *refusals: Refusal, works: tuple[DishWay, ...] = ()) -> list[str]:
    return refusal_sentences(Comparison(scenario.items[2], works, refusals), scenario)


def refused(code: str, reason: str, stove: str, pot: str, cooker: str | None = None) -> Refusal:
    return Refusal(2, stove, pot, cooker, code, reason)


STOVES = ("stick_stove", "gas_burner", "electric_plate")


def test_what_is_about_a_pot_is_told_once_for_all_stoves_and_cookers(scenario: Scenario) -> None:
    reason = "fills 120% of it and 90% is the most"
    same = [refused("pot_too_small", reason, s, "pot_2_5l", c) for s in STOVES
            for c in (None, "packed_box", "jar_2l")]  # fmt: skip
    assert told(scenario, *same) == [f"small pot: {reason}"]


def test_pots_and_stoves_of_one_reason_stand_in_one_line(scenario: Scenario) -> None:
    reason = "levels off at 80 degC, never gets to 98 degC"
    same = [refused("no_boil", reason, s, p) for s in STOVES[:2] for p in ("pot_4l", "pot_6l")]
    assert told(scenario, *same) == [
        f"middle pot or large pot on the stick stove or gas burner: {reason}"
    ]


def test_all_pots_are_any_pot(scenario: Scenario) -> None:
    pots = [own.pot.name for own in scenario.pots]
    same = [refused("no_boil", "x", "gas_burner", pot) for pot in pots]
    assert told(scenario, *same) == ["any pot on the gas burner: x"]
    assert told(scenario, *same[1:])[0].startswith("middle pot, large pot or pressure pot on")


def test_spans_of_the_clock_are_widened(scenario: Scenario) -> None:
    reason = "would have to go on between {} and {}, and would be on the fire outside"
    spans = (("16:50", "17:10"), ("16:55", "17:20"), ("17:00", "17:15"))
    different = [
        refused("no_start", reason.format(*span), stove, "pot_4l")
        for stove, span in zip(STOVES, spans, strict=True)
    ]
    (line,) = told(scenario, *different)
    assert line.startswith("middle pot on the stick stove, gas burner or plate: ")
    assert "between 16:50 and 17:20," in line


def test_spans_past_midnight_are_left_alone(scenario: Scenario) -> None:
    reason = "would have to go on between {} and {}"
    late = refused("no_start", reason.format("23:50", "00:10"), "gas_burner", "pot_4l")
    early = refused("no_start", reason.format("23:40", "23:55"), "stick_stove", "pot_4l")
    assert [line.partition(": ")[2] for line in told(scenario, late, early)] == [
        late.reason,
        early.reason,
    ]


def test_temperatures_of_one_kind_are_widened(scenario: Scenario) -> None:
    reason = "left from earlier cook hours, it may fall to {} degC by 18:30"
    cold = [
        refused("cold", reason.format(c), "gas_burner", pot, "packed_box")
        for c, pot in ((41, "pot_4l"), (26, "pot_6l"))
    ]
    assert told(scenario, *cold) == [
        "middle pot or large pot into the packed box: left from earlier cook hours, it may fall "
        "to 26 degC to 41 degC by 18:30"
    ]


def test_the_stove_is_named_where_the_same_pot_and_box_work_on_another(scenario: Scenario) -> None:
    cold = refused("cold", "it may fall to 41 degC", "stick_stove", "pot_4l", "packed_box")
    assert told(scenario, cold) == ["middle pot into the packed box: it may fall to 41 degC"]
    works = (way("gas_burner", "pot_4l", "packed_box"),)
    assert told(scenario, cold, works=works) == [
        "middle pot on the stick stove into the packed box: it may fall to 41 degC"
    ]


def test_with_or_without_a_box(scenario: Scenario) -> None:
    soak = [
        refused("no_start", "has to soak 8 h", "gas_burner", "pot_4l", cooker)
        for cooker in (None, "packed_box")
    ]
    assert told(scenario, *soak) == [
        "middle pot on the gas burner with or without the packed box: has to soak 8 h"
    ]


def test_the_commonest_reason_comes_first(scenario: Scenario) -> None:
    rare = refused("foams", "foams", "gas_burner", "pressure_6l")
    common = [refused("no_boil", "levels off", stove, "pot_6l") for stove in STOVES]
    assert [line.rpartition(": ")[2] for line in told(scenario, rare, *common)] == [
        "levels off",
        "foams",
    ]


@pytest.mark.parametrize("cooker", [None, "packed_box"])
def test_nothing_is_lost_or_made_up_by_merging(cooker: str | None) -> None:
    those = {(s, p, cooker) for s in ("a", "b") for p in ("x", "y", "z")} - {("b", "z", cooker)}
    again = [
        (stove, pot, box)
        for stoves, pots, boxes in merged(sorted(those, key=str))
        for stove in stoves
        for pot in pots
        for box in boxes
    ]
    assert len(again) == len(set(again))
    assert set(again) == those
