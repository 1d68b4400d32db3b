"""Every scenario that is shipped plans, or explains itself."""

import pytest

from optimizer.planning.planner import plan
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder

FILES = sorted(p.name for p in (data_folder() / "scenarios").iterdir() if p.name.endswith(".yaml"))
WITHOUT_A_PLAN = {"short_of_fuel.yaml"}


@pytest.mark.parametrize("name", FILES)
def test_a_shipped_scenario_plans_or_explains_itself(name):
    made = plan(read(data_folder() / "scenarios" / name), gap=0.05)
    assert (made.status == "infeasible") is (name in WITHOUT_A_PLAN)
    assert bool(made.changes) is (name in WITHOUT_A_PLAN)


def test_high_up_beans_are_refused_without_a_pressure_pot():
    from dataclasses import replace

    cabin = read(data_folder() / "scenarios" / "mountain_cabin.yaml")
    ordinary = tuple(own for own in cabin.pots if not own.pot.gauge_pa)
    made = plan(replace(cabin, pots=ordinary))
    assert made.status == "infeasible"
    assert any("use a pressure pot" in change for change in made.changes)
