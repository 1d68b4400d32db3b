"""The front end without a browser; what is kept goes into a folder of the test."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from app.state import SCENARIO

MAIN = Path(__file__).parents[2] / "app" / "main.py"


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep the working copy in a folder of this test."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    monkeypatch.delenv(SCENARIO, raising=False)
    return tmp_path


@pytest.fixture
def file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, small: str) -> Path:
    """Give the file that is named on the command line."""
    path = tmp_path / "morning.yaml"
    path.write_text(small, encoding="utf-8")
    monkeypatch.setenv(SCENARIO, str(path))
    return path


@pytest.fixture
def window() -> Iterator[Callable[[str], AppTest]]:
    """Open a window of the front end on a page."""

    def open_window(page: str) -> AppTest:
        found = AppTest.from_file(MAIN, default_timeout=120)
        found.switch_page(f"views/{page}.py")
        found.run()
        assert not found.exception
        return found

    return open_window


@pytest.fixture(scope="session")
def press() -> Callable[[AppTest, str], None]:
    """Press the first button with this label."""

    def press_button(window: AppTest, label: str) -> None:
        found = [button for button in window.button if button.label == label]
        assert found, f"no button {label!r} among {[button.label for button in window.button]}"
        found[0].click().run()
        assert not window.exception

    return press_button


@pytest.fixture(scope="session")
def header() -> Callable[[AppTest], str]:
    """Give what stands above every page."""
    return lambda window: window.caption[0].value
