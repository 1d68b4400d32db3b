"""Settings that hold for every test."""

import pytest
from hypothesis import settings

# No deadline: the first call of a function loads its library, and machines differ.
settings.register_profile("fuelthrift", deadline=None)
settings.load_profile("fuelthrift")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out what takes minutes, unless it is asked for by its mark."""
    if "nightly" not in config.option.markexpr:
        left_out = [item for item in items if item.get_closest_marker("nightly")]
        config.hook.pytest_deselected(items=left_out)
        items[:] = [item for item in items if item not in left_out]
