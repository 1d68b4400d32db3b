"""Garbage of looks at pages goes, but not at every look."""

from app import garbage
from app.garbage import Sweeping


def test_it_goes_now_and_then(monkeypatch):
    clock, swept = [100.0], []
    monkeypatch.setattr(garbage.time, "monotonic", lambda: clock[0])
    monkeypatch.setattr(garbage.gc, "collect", lambda: swept.append(clock[0]))
    sweeping = Sweeping(15.0)
    assert not sweeping.now_and_then()
    clock[0] += 15.0
    assert sweeping.now_and_then()
    assert not sweeping.now_and_then()
    assert swept == [115.0]


def test_a_look_at_a_page_throws_away_what_is_due_even_if_it_ends_early(window, file, monkeypatch):
    looks = []
    monkeypatch.setattr(garbage.SWEEPING, "now_and_then", lambda: looks.append(1))
    window("sheet")
    file.write_text("title: nothing else", encoding="utf-8")
    window("sheet")
    assert len(looks) >= 2
