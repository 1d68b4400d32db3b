"""The targets of the coverage-guided fuzz, tried here on seeds with a few bytes spoilt."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.fuzz.readers import TARGETS, seeds


@st.composite
def spoilt(draw, target):
    data = draw(st.sampled_from(seeds(target)))
    for _ in range(draw(st.integers(0, 3))):
        at = draw(st.integers(0, len(data)))
        upto = draw(st.integers(at, min(at + 40, len(data))))
        data = data[:at] + draw(st.binary(max_size=6)) + data[upto:]
    return data


@pytest.mark.parametrize(("target", "tries"), [("scenario", 15), ("readings", 150), ("log", 150)])
def test_spoilt_bytes_are_read_or_told(target, tries):
    @settings(max_examples=tries)
    @given(spoilt(target))
    def tried(data):
        TARGETS[target](data)

    tried()


@pytest.mark.parametrize("target", TARGETS)
def test_the_fuzz_notices_what_is_no_fault_of_a_file(target, monkeypatch):
    def broken(*_):
        raise KeyError(target)

    for reader in ("parse", "parse_readings", "parse_log"):
        monkeypatch.setattr(f"tests.fuzz.readers.{reader}", broken)
    with pytest.raises(KeyError):
        TARGETS[target](seeds(target)[0])
