"""Starting the front end: its settings, its port, its end."""

import os
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

import pytest
import streamlit as st
from streamlit import config
from typer.testing import CliRunner

from app import launch
from app.state import SCENARIO
from optimizer.cli import app as command


@pytest.fixture
def served(monkeypatch):
    """Catch what the server would be started with."""
    caught = {}

    class Server:
        def __init__(self, script):
            caught["script"] = script

        def run(self, config):
            caught["config"] = config

    monkeypatch.setattr(st, "App", Server)
    return caught


def taken():
    """Listen on some free port."""
    busy = socket.socket()
    busy.bind(("127.0.0.1", 0))
    busy.listen()
    return busy


def test_it_listens_on_this_machine_and_tells_nobody(served):
    launch.run(None, open_browser=False)
    assert served["config"]["server.address"] == "127.0.0.1"
    assert served["config"]["server.allowedHosts"] == ["localhost", "127.0.0.1"]
    assert served["config"]["browser.gatherUsageStats"] is False
    assert served["config"]["server.showEmailPrompt"] is False
    assert served["config"]["server.maxUploadSize"] == 1
    assert served["config"]["server.headless"] is True
    assert served["config"]["client.showErrorDetails"] == "none"
    assert Path(served["script"]).name == "main.py"
    assert Path(served["script"]).is_file()


def test_no_look_at_a_page_ends_with_a_search_for_garbage_that_all_windows_wait_for(served):
    launch.run(None, open_browser=False)
    assert served["config"]["runner.postScriptGC"] is False


def test_every_setting_is_one_that_the_server_knows():
    known = config.get_config_options()
    assert [name for name in launch.settings(8501, open_browser=True) if name not in known] == []


def test_a_browser_is_opened_unless_told_otherwise(served):
    launch.run(None)
    assert served["config"]["server.headless"] is False


def test_the_file_is_handed_on(served, file):
    launch.run(file, open_browser=False)
    assert os.environ[SCENARIO] == str(file)
    launch.run(None, open_browser=False)
    assert SCENARIO not in os.environ


def test_the_port_that_is_asked_for(served):
    with taken() as busy:
        port = busy.getsockname()[1]
    launch.run(None, port=port)
    assert served["config"]["server.port"] == port


def test_a_taken_port_is_told_in_one_line(served):
    with taken() as busy:
        port = busy.getsockname()[1]
        result = CliRunner().invoke(command, ["app", "--no-browser", "--port", str(port)])
    assert result.exit_code == 2
    assert result.stderr.strip().count("\n") == 0
    assert f"port {port} is taken" in result.stderr
    assert "config" not in served


def test_without_a_port_the_first_free_one_is_taken(monkeypatch):
    free = [False, False, True]
    monkeypatch.setattr(launch, "_is_free", lambda port: free[port - launch.FIRST_PORT])
    assert launch.free_port(None) == launch.FIRST_PORT + 2


@pytest.mark.parametrize(
    ("content", "reason"),
    [(None, "no such file"), (b"\xff", "not UTF-8"), (1_000_001 * b"#", "larger than 1 MB")],
)
def test_a_file_that_cannot_be_read_is_told_before_anything_starts(
    served, tmp_path, content, reason
):
    path = tmp_path / "x.yaml"
    if content is not None:
        path.write_bytes(content)
    result = CliRunner().invoke(command, ["app", str(path), "--no-browser"])
    assert result.exit_code == 2
    assert reason in result.stderr
    assert "config" not in served


@pytest.mark.slow
@pytest.mark.skipif(os.name == "nt", reason="signals are sent in another way there")
def test_it_serves_here_alone_and_ends_quietly(tmp_path):
    with taken() as busy:
        port = busy.getsockname()[1]
    words = [sys.executable, "-m", "optimizer.cli", "app", "--no-browser", "--port", str(port)]
    kept = {**os.environ, "XDG_STATE_HOME": str(tmp_path)}
    started = subprocess.Popen(
        words, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, env=kept, cwd=tmp_path
    )
    try:
        assert _answers(port)
        started.send_signal(signal.SIGINT)
        said, _ = started.communicate(timeout=60)
    finally:
        started.kill()
    assert started.returncode in {0, 130}
    assert "Traceback" not in said
    assert "stopped before there was a plan" not in said


def _answers(port: int) -> bool:
    """Wait until the server answers."""
    for _ in range(300):
        try:
            with urllib.request.urlopen(f"http://127.0.0.1:{port}/", timeout=2) as answer:
                return answer.status == 200
        except OSError:
            time.sleep(0.2)
    return False
