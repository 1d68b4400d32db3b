"""Places for searches: never more at once, first those that are waited for, then as they came."""

import threading
import time
from functools import partial

import pytest

from app.turns import Turns


def waiting(turns, count):
    """Wait until so many wait for their turn."""
    for _ in range(1000):
        if len(turns._waiting) == count:
            return
        time.sleep(0.005)
    raise AssertionError(f"{len(turns._waiting)} wait, not {count}")


def test_who_has_no_plan_yet_comes_first_and_then_as_they_came():
    turns, order = Turns(1), []

    def one(name, first):
        with turns.taken(first=first):
            order.append(name)

    asked = [("more a", False), ("plan a", True), ("more b", False), ("plan b", True)]
    threads = [threading.Thread(target=partial(one, *each)) for each in asked]
    with turns.taken():
        for place, thread in enumerate(threads, 1):
            thread.start()
            waiting(turns, place)
        assert order == []
    for thread in threads:
        thread.join(10)
    assert order == ["plan a", "plan b", "more a", "more b"]


def test_never_more_at_once_than_there_are_places():
    turns, here, most = Turns(2), [], []

    def one():
        with turns.taken(first=True):
            here.append(1)
            most.append(len(here))
            time.sleep(0.001)
            here.pop()

    threads = [threading.Thread(target=one) for _ in range(30)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(10)
    assert len(most) == 30
    assert max(most) == 2


def test_studies_leave_a_place_for_whoever_has_no_plan_yet():
    turns, done = Turns(2), []

    def study(name):
        with turns.taken():
            done.append(name)

    with turns.taken():
        other = threading.Thread(target=study, args=("another study",))
        other.start()
        waiting(turns, 1)
        plan = threading.Thread(target=partial(turns.acquire, first=True))
        plan.start()
        plan.join(10)
        assert not plan.is_alive()
        assert done == []
        turns.release()
        waiting(turns, 1)  # the place that the plan gave back is kept
    other.join(10)
    assert done == ["another study"]


def test_who_is_not_wanted_any_more_does_not_wait_for_a_turn():
    turns, gone, got = Turns(1), threading.Event(), []

    def one(wanted):
        with turns.taken(wanted=wanted) as mine:
            got.append(mine)

    turns.acquire()
    dropped = threading.Thread(target=one, args=(lambda: not gone.is_set(),))
    dropped.start()
    waiting(turns, 1)
    other = threading.Thread(target=one, args=(lambda: True,))
    other.start()
    waiting(turns, 2)
    gone.set()
    turns.look_again()
    dropped.join(10)
    assert got == [False]
    assert turns._free == 0
    turns.release()
    other.join(10)
    assert got == [False, True]
    assert turns._free == 1


def test_a_place_is_given_back_when_what_had_it_fails():
    turns = Turns(1)
    for _ in range(3):
        with pytest.raises(ValueError, match="invalid"), turns.taken():
            int("no number")
    turns.acquire()
    assert turns._free == 0
