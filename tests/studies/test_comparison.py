"""One dish in every way: heat that adds up, reasons that are told, nothing better than it is."""

import math
from functools import lru_cache

import pytest

from optimizer.model.household import Scenario
from optimizer.planning.explain import ABOUT, sentence
from optimizer.planning.kitchen import attempts
from optimizer.planning.ways import Way
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder
from optimizer.studies.comparison import Comparison, compare, heat_flow

FILES = ("outage_weekend", "one_person_jar", "mountain_cabin", "street_kitchen")


@lru_cache
def shipped(name: str) -> Scenario:
    return read(data_folder() / "scenarios" / f"{name}.yaml")


@lru_cache
def compared(name: str) -> tuple[Comparison, ...]:
    scenario = shipped(name)
    return tuple(compare(scenario, item) for item in scenario.items)


def ways(name: str) -> list[Way]:
    scenario = shipped(name)
    made = [a.way for item in scenario.items for a in attempts(scenario, item, item.day)]
    return [way for way in made if isinstance(way, Way)]


@pytest.mark.parametrize("name", FILES)
def test_where_the_heat_goes_adds_up_to_the_fuel(name):
    for found in compared(name):
        for way in found.ways:
            assert way.heat.total_j == pytest.approx(way.fuel_mj * 1e6, rel=1e-9)


@pytest.mark.parametrize("name", FILES)
def test_no_part_of_the_heat_is_less_than_nothing(name):
    for found in compared(name):
        for way in found.ways:
            parts = [getattr(way.heat, part) for part in way.heat.__slots__]
            assert min(parts) >= -1e-6


@pytest.mark.parametrize("name", ["outage_weekend", "mountain_cabin"])
def test_what_the_pot_loses_is_its_loss_over_the_time_it_is_hot(name):
    # Integrated here from the curve of heating up at the usual power, then holding.
    from scipy.integrate import quad

    for way in ways(name)[::7]:
        boil, on_min = way.boil, int(way.on_min[way.on_min > 0].max())
        net_w = boil.up_j * _efficiency(way) * _ratio(way) / (60 * _usual_up_min(way))

        def excess(seconds: float, way: Way = way, net_w: float = net_w) -> float:
            b = way.boil
            level = b.air_c + net_w / b.bare_w_k
            return level + (b.start_c - level) * math.exp(-b.bare_w_k * seconds / b.heat_j_k)

        up_s = 60 * _usual_up_min(way)
        up_j = quad(lambda s, b=boil, f=excess: b.bare_w_k * (f(s) - b.air_c), 0, up_s)[0]
        hold_j = 60 * way.hold_min(on_min) * boil.bare_w_k * (boil.top_c - boil.air_c)
        lost = heat_flow(way, on_min).pot_losses_j
        leak = way.at.rules.steam_leak  # leaves as steam and is not told apart
        assert up_j + hold_j <= lost * 1.01
        assert lost <= (up_j + hold_j / (1 - leak)) * 1.01


def _efficiency(way: Way) -> float:
    from optimizer.planning.boiling import efficiency

    return efficiency(way.own, way.at, 0.0)


def _ratio(way: Way) -> float:
    from optimizer.planning.boiling import burn_ratio

    return burn_ratio(way.store.fuel, way.at)


def _usual_up_min(way: Way) -> float:
    return way.boil.up_j * 1.0 / (way.own.stove.power_w * 60)


@pytest.mark.parametrize("name", ["outage_weekend", "mountain_cabin", "street_kitchen"])
def test_every_refusal_is_a_sentence(name):
    scenario = shipped(name)
    refusals = [refusal for found in compared(name) for refusal in found.refusals]
    assert refusals
    for refusal in refusals:
        about, _, reason = sentence(refusal, scenario).partition(": ")
        assert about
        assert len(reason) > 10


def test_every_code_of_a_refusal_has_the_things_it_is_about():
    import re
    from pathlib import Path

    root = Path(__file__).parents[2] / "optimizer"
    text = "\n".join(file.read_text(encoding="utf-8") for file in root.rglob("*.py"))
    codes = set(re.findall(r'Refused\(\s*"(\w+)"', text))
    assert codes
    assert codes <= set(ABOUT)


def test_a_box_never_needs_more_time_at_the_fire_than_cooking_through():
    best: dict[tuple[str, str, str, str], int] = {}
    for way in ways("outage_weekend"):
        key = (way.load.dish.name, str(way.at.weather), way.own.stove.name, way.pot.name)
        minutes = int(way.on_min[way.on_min > 0].min())
        if way.cooker is None:
            best[key] = minutes
    for way in ways("outage_weekend"):
        key = (way.load.dish.name, str(way.at.weather), way.own.stove.name, way.pot.name)
        if way.cooker is not None and key in best:
            assert int(way.on_min[way.on_min > 0].min()) <= best[key]
