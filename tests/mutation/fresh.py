"""A pytest plugin for mutation testing: nothing that was worked out before a mutant is kept.

A mutant runs in a fork of the process that ran the whole suite, so a cached answer of the code as
it was would hide it: before this, 78 mutants of the film over a bare pot "survived".
"""

import sys

KEPT = ("optimizer.shelf", "optimizer.scenario", "optimizer.units")  # not mutated, slow to load


def pytest_sessionstart() -> None:
    """Empty every cache of the program and of its tests."""
    for name, module in list(sys.modules.items()):
        if name.startswith(("optimizer", "tests")) and not name.startswith(KEPT):
            for value in list(vars(module).values()):
                if hasattr(value, "cache_clear"):
                    value.cache_clear()
