"""Rows on the disk: guarded, torn, taken up again, never mixed, sorted at the end."""

import csv
import sys

import pyarrow.parquet as pq
import pytest

from optimizer.errors import InputError, SaveError
from optimizer.scenario.reading import parse
from optimizer.studies.sweep import engines
from optimizer.studies.sweep.columns import Column
from optimizer.studies.sweep.csv_rows import CsvStream
from optimizer.studies.sweep.outcome import row_of
from optimizer.studies.sweep.study import stream_of, sweep

COLUMNS = (Column("point", "whole"), Column("cost", "number"), Column("report", "text"),
           Column("sweep", "text"))  # fmt: skip
FORMATS = pytest.mark.parametrize("end", [".csv", ".parquet"])


def row(point: int, report: str | None = None, sweep_: str = "mine") -> dict:
    return {"point": point, "cost": point / 4, "report": report, "sweep": sweep_}


@FORMATS
def test_what_is_written_is_read_back_in_the_order_of_the_grid(tmp_path, end):
    stream = stream_of(tmp_path / f"table{end}", COLUMNS)
    rows = [row(3, "=1+1"), row(1, "a, \"b\" 'c'"), row(2)]
    stream.add(rows[:1])
    stream.add(rows[1:])
    assert sorted(stream.kept(), key=lambda r: r["point"]) == [rows[1], rows[2], rows[0]]
    stream.finish(stream.kept())
    assert stream.read() == [rows[1], rows[2], rows[0]]
    assert not stream.part.exists()
    assert sorted(p.name for p in tmp_path.iterdir()) == [f"table{end}"]


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"])
def test_a_spreadsheet_sees_no_formula(tmp_path, text):
    stream = CsvStream(tmp_path / "table.csv", (*COLUMNS[:3], Column("=evil", "text"), COLUMNS[3]))
    stream.finish([{**row(1, text), "=evil": text}])
    content = (tmp_path / "table.csv").read_bytes().decode()
    assert f"'{text.strip()}" in content
    for line in csv.reader(content.split("\n")):
        assert not any(cell.startswith(("=", "+", "-", "@", "\t", "\r")) for cell in line)


def test_a_number_below_nothing_stays_a_number(tmp_path):
    stream = CsvStream(tmp_path / "table.csv", COLUMNS)
    stream.finish([{**row(1), "cost": -2.5}])
    assert "1,-2.5,,mine" in (tmp_path / "table.csv").read_text()


def test_a_torn_line_is_cut_off_and_worked_out_again(tmp_path):
    stream = CsvStream(tmp_path / "table.csv", COLUMNS)
    stream.add([row(1), row(2)])
    with stream.part.open("a") as torn:
        torn.write("3,0.75,half a rep")
    assert stream.kept() == [row(1), row(2)]
    stream.add([row(3)])
    assert stream.kept() == [row(1), row(2), row(3)]


def test_a_torn_header_is_written_again(tmp_path):
    stream = CsvStream(tmp_path / "table.csv", COLUMNS)
    stream.part.write_text("point,co")
    assert stream.kept() == []
    stream.add([row(1)])
    assert stream.kept() == [row(1)]


def test_an_unfinished_small_file_is_passed_over(tmp_path):
    stream = stream_of(tmp_path / "table.parquet", COLUMNS)
    stream.add([row(1)])
    (stream.part / "000002.unfinished").write_bytes(b"PAR1 half")
    assert stream.kept() == [row(1)]


@FORMATS
def test_rows_of_another_sweep_are_never_mixed(tmp_path, end):
    stream = stream_of(tmp_path / f"table{end}", COLUMNS)
    stream.add([row(1)])
    assert stream.begin("mine", afresh=False) == ([row(1)], False)
    with pytest.raises(InputError, match="another sweep"):
        stream.begin("yours", afresh=False)
    stream.finish([row(1)])
    assert stream.begin("mine", afresh=False) == ([row(1)], True)
    with pytest.raises(InputError, match="--afresh"):
        stream.begin("yours", afresh=False)
    assert stream.begin("yours", afresh=True) == ([], False)
    assert stream.read() == [row(1)]
    stream.finish([row(1, None, "yours")])
    assert (tmp_path / f"table{end}~").exists()


@FORMATS
def test_a_file_that_is_no_table_of_a_sweep_is_left_alone(tmp_path, end):
    path = tmp_path / f"table{end}"
    path.write_text("somebody's accounts\n1,2\n")
    with pytest.raises(InputError, match="another sweep"):
        stream_of(path, COLUMNS).begin("mine", afresh=False)
    assert path.read_text().startswith("somebody")


@FORMATS
def test_no_place_to_write_is_told(tmp_path, end, grid):
    made = grid("people=1..2")
    with pytest.raises(SaveError, match="no folder"):
        sweep(made, parse(made.text), out=tmp_path / "not" / f"there{end}")


@FORMATS
def test_rows_come_to_the_disk_as_they_are_made_and_a_second_run_goes_on(tmp_path, end, grid):
    made, out = grid("people=1..2", "sticks=1,2 kg"), tmp_path / f"table{end}"
    scenario, seen = parse(made.text), []

    def two(told: str) -> bool:
        there = out.with_name(f"{out.name}.part")
        seen.append(there.exists())
        return not told.startswith("2 ")

    known = sweep(made, scenario, out=out, tell=two)
    assert known.stopped
    assert seen == [False, True, True]
    assert not out.exists()
    again = sweep(made, scenario, out=out)
    assert (again.before, again.done) == (2, True)
    whole = sweep(made, scenario)
    assert again.rows == whole.rows
    assert sweep(made, scenario, out=out).before == 4


@FORMATS
def test_the_table_is_the_same_in_any_order(tmp_path, end, grid, monkeypatch):
    made = grid("people=1..2", "sticks=0.05,2 kg", "stick_stove=0..1")
    scenario = parse(made.text)
    sweep(made, scenario, out=tmp_path / f"forward{end}")
    monkeypatch.setattr(
        "optimizer.studies.sweep.study.here",
        lambda g, numbers: ([row_of(g, n)] for n in reversed(numbers)),
    )
    sweep(made, scenario, out=tmp_path / f"backward{end}")
    one, other = (tmp_path / f"{name}{end}" for name in ("forward", "backward"))
    assert one.read_bytes() == other.read_bytes()


def test_parquet_has_types(tmp_path, grid):
    made = grid("people=1..2", "sticks=500 g, 2 kg")
    sweep(made, parse(made.text), out=tmp_path / "table.parquet")
    table = pq.read_table(tmp_path / "table.parquet")
    kinds = {field.name: str(field.type) for field in table.schema}
    assert kinds["point"] == kinds["people"] == kinds["days_lasted"] == "int64"
    assert kinds["sticks"] == kinds["status"] == "string"
    assert kinds["cost"] == kinds["sticks_used_kg"] == "double"
    assert table.num_rows == 4


def test_batches_are_small_neighbours_and_hold_every_point():
    numbers = list(range(1, 1001))
    made = engines.batches(numbers, 2)
    assert [n for batch in made for n in batch] == numbers
    assert max(map(len, made)) == engines.BATCH
    assert max(map(len, engines.batches([1, 2, 3], 2))) == 1


@pytest.mark.skipif(sys.platform == "win32", reason="locks a file as Unix does")
def test_two_sweeps_never_write_one_table(tmp_path, grid, monkeypatch):
    import fcntl

    monkeypatch.setattr("optimizer.scenario.locking.PATIENCE_S", 0.05)
    made = grid("people=1..2")
    with (tmp_path / ".table.csv.lock").open("w") as held:
        fcntl.flock(held, fcntl.LOCK_EX)
        with pytest.raises(SaveError, match="another sweep is writing it"):
            sweep(made, parse(made.text), out=tmp_path / "table.csv")
