"""What was read, in a few lines."""

from dataclasses import replace

from optimizer.model.household import Scenario
from optimizer.report.layout import WIDTH
from optimizer.report.summary import summary_text


def test_summary(scenario: Scenario) -> None:
    text = summary_text(scenario)
    lines = text.splitlines()
    assert lines[0] == "Three dark days at Fennel House"
    assert lines[1] == "  people   3 adults, 2 children"
    assert lines[2] == "  days     2, 6 meals, 6 dishes"
    assert "  fuels    sticks; butane; stored electricity" in lines
    assert lines[-1] == "no problems found"
    assert max(map(len, lines)) <= WIDTH


def test_without_cookers(scenario: Scenario) -> None:
    assert "  cookers  none" in summary_text(replace(scenario, cookers=())).splitlines()
