"""A plan as tables."""

import subprocess
import sys

import pytest

from optimizer.model.plan import Plan
from optimizer.report.tables import fires_table, fuels_table, steps_table


def test_steps(plan: Plan) -> None:
    table = steps_table(plan)
    assert list(table["item"]) == [step.item for step in plan.steps]
    assert table.loc[0, "serve"] == 450
    assert "reboil" not in table.columns


def test_fuels_and_fires(plan: Plan) -> None:
    assert fuels_table(plan)["used_mj"].sum() == pytest.approx(26.4 + 1.42 + 0.9)
    assert list(fires_table(plan)["start"]) == [fire.start for fire in plan.fires]


def test_an_empty_plan_keeps_its_columns(impossible: Plan) -> None:
    for table in (steps_table(impossible), fuels_table(impossible), fires_table(impossible)):
        assert len(table) == 0
        assert len(table.columns) > 5


def test_pandas_is_not_loaded_until_a_table_is_wanted() -> None:
    code = (
        "import sys, optimizer.report.tables, optimizer.report.text; print('pandas' in sys.modules)"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "False"
