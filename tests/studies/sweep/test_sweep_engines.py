"""One process, workers on this machine, a Dask cluster: the same bytes."""

from dataclasses import replace

import pytest
from distributed import LocalCluster
from typer.testing import CliRunner

from optimizer.cli import app
from optimizer.errors import InputError, LimitError
from optimizer.scenario.reading import parse
from optimizer.studies.sweep import cluster, engines
from optimizer.studies.sweep.study import Engine, sweep

VARIED = ("people=1..2", "sticks=0.05,2 kg", "stick_stove=0..1")


@pytest.fixture(scope="module")
def two_workers():
    """Give the address of a cluster on this machine."""
    with LocalCluster(
        n_workers=2, threads_per_worker=1, dashboard_address=None, host="127.0.0.1"
    ) as made:
        yield made.scheduler_address


@pytest.mark.slow
def test_the_same_bytes_from_every_engine(tmp_path, grid, two_workers):
    file = tmp_path / "tiny.yaml"
    made = replace(grid(*VARIED), file=str(file))
    file.write_text(made.text, encoding="utf-8")
    scenario = parse(made.text)
    for end in ("csv", "parquet"):
        known = sweep(made, scenario, out=tmp_path / f"here.{end}")
        assert {row["status"] for row in known.rows} == {"optimal", "infeasible", "bad_input"}
    sweep(made, scenario, engine=Engine(2), out=tmp_path / "there.csv")
    words = [word for text in VARIED for word in ("--vary", text)]
    words += ["--engine", "dask", "--scheduler", two_workers]
    words += ["--out", str(tmp_path / "there.parquet")]
    said = CliRunner().invoke(app, ["sweep", str(file), *words])
    assert said.exit_code == 0
    for end in ("csv", "parquet"):
        one, other = (tmp_path / f"{name}.{end}" for name in ("here", "there"))
        assert one.read_bytes() == other.read_bytes()


def test_workers_are_counted_and_held_against_this_version(monkeypatch):
    monkeypatch.setattr(cluster, "program_version", lambda: "1.0")
    assert cluster.same_version({"a": "1.0", "b": "1.0"}, "tcp://x") == 2
    with pytest.raises(InputError, match="no workers at tcp://x"):
        cluster.same_version({}, "tcp://x")
    with pytest.raises(InputError, match=r"version 0\.9, this is 1\.0"):
        cluster.same_version({"a": "1.0", "b": "0.9"}, "tcp://x")


def test_no_cluster_there(grid, monkeypatch):
    monkeypatch.setattr(cluster, "CONNECT_S", 0.2)
    made = grid(*VARIED)
    for address in ("tcp://127.0.0.1:9", "no address"):
        with pytest.raises(InputError, match="no scheduler answers"):
            sweep(made, parse(made.text), engine=Engine(scheduler=address))


def test_a_worker_that_dies_ends_the_sweep_and_keeps_its_rows(grid, monkeypatch):
    from joblib.externals.loky.process_executor import TerminatedWorkerError

    def dies(*_given, **_more):
        raise TerminatedWorkerError("killed")

    monkeypatch.setattr("joblib.Parallel", dies)
    with pytest.raises(LimitError, match="fewer --jobs"):
        list(engines.cores(grid(*VARIED), [1, 2], 2))
