"""A sweep hit at every step on the disk goes on from what is whole, to the same table."""

import os
import shutil
from pathlib import Path

import pytest

from optimizer.studies.sweep.columns import Column
from optimizer.studies.sweep.study import stream_of
from tests.safety.crashing import DONE, child, die, ends, full, grown_to

COLUMNS = (Column("point", "whole"), Column("report", "text"), Column("sweep", "text"))
ROWS = [{"point": n, "report": (f"text {n} " * 50).strip(), "sweep": "mine"} for n in range(1, 5)]
pytestmark = [
    pytest.mark.skipif(not hasattr(os, "fork"), reason="children are made in another way there"),
    pytest.mark.filterwarnings("ignore:.*fork:DeprecationWarning"),
]


def worked_out(path: Path) -> None:
    """Go on with a sweep from what there is of it, to its end."""
    stream = stream_of(path, COLUMNS)
    rows, whole = stream.begin("mine", afresh=False)
    known = {row["point"] for row in rows}
    assert all(row in ROWS for row in rows)
    if whole:
        assert rows == ROWS
        return
    for row in reversed(ROWS):
        if row["point"] not in known:
            stream.add([row])
            rows.append(row)
    stream.finish(rows)


def emptied(folder: Path) -> None:
    for each in folder.iterdir():
        shutil.rmtree(each) if each.is_dir() else each.unlink()


@pytest.mark.parametrize("happens", [die, full])
@pytest.mark.parametrize("name", ["table.csv", "table.parquet"])
def test_a_sweep_goes_on_wherever_it_was_hit(tmp_path, name, happens):
    path = tmp_path / name
    worked_out(path)  # all is loaded
    emptied(tmp_path)
    hit = 0
    for code in ends(lambda: worked_out(path), happens):
        hit += code != DONE
        worked_out(path)
        assert stream_of(path, COLUMNS).read() == ROWS
        emptied(tmp_path)
    assert hit >= 2


@pytest.mark.parametrize("kills", [True, False])
def test_a_sweep_goes_on_from_a_line_cut_at_any_byte(tmp_path, kills):
    path = tmp_path / "table.csv"

    def cut(size: int) -> None:
        grown_to(size, kills=kills)
        worked_out(path)

    for size in (0, 1, 20, 450, 900, 1200):
        assert child(lambda size=size: cut(size)) != DONE
        worked_out(path)
        assert stream_of(path, COLUMNS).read() == ROWS
        emptied(tmp_path)
