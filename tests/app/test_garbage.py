"""Garbage of looks at pages goes, but not at every look."""

import gc
import weakref

from app import garbage
from app.garbage import Sweeping


class Circle:
    """What only a search for garbage finds."""

    def __init__(self) -> None:
        self.mine = self


def test_it_goes_now_and_then(monkeypatch):
    clock = [100.0]
    monkeypatch.setattr(garbage.time, "monotonic", lambda: clock[0])
    sweeping, left = Sweeping(15.0), weakref.ref(Circle())
    gc.disable()
    try:
        assert not sweeping.now_and_then()
        assert left() is not None
        clock[0] += 15.0
        assert sweeping.now_and_then()
        assert left() is None
        assert not sweeping.now_and_then()
    finally:
        gc.enable()


def test_a_look_at_a_page_throws_away_what_is_due_even_if_it_ends_early(window, file, monkeypatch):
    looks = []
    monkeypatch.setattr(garbage.SWEEPING, "now_and_then", lambda: looks.append(1))
    window("sheet")
    file.write_text("title: nothing else", encoding="utf-8")
    window("sheet")
    assert len(looks) >= 2
