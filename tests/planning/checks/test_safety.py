"""What the checker asks of pots, cookers and boils, just until which number."""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from optimizer import shelf
from optimizer.model.household import OwnCooker, OwnPot
from optimizer.planning.checks.safety import boil_faults, pot_faults, pressure_faults

SHELF = shelf.load()
TEA = "tea, breakfast of day 1"


def said(case, **change):
    """Give what is wrong with the boil of tea, beside how long drinking water has to boil."""
    telling = SimpleNamespace(case=case(), **{"hold_min": 10.0, "up_min": 10.0, **change})
    return [line for line in boil_faults(telling) if "litres to drink" not in line]


@pytest.mark.parametrize("hold_min", [0.0, 0.009, -0.009])
def test_a_pot_may_leave_the_fire_as_it_boils(case, hold_min):
    assert said(case, hold_min=hold_min) == []


def test_and_not_before(case):
    (line,) = said(case, hold_min=-1.5)
    assert line.startswith(f"{TEA}: leaves the fire 1.5 min before it is at ")


class TestRoom:
    """A litre of tea in a jar, and a pot in a box."""

    @pytest.fixture(name="faults")
    def _faults(self, case):
        def found(name, **change):
            cooker = replace(SHELF.cookers[name], **change)
            step = replace(case(), cooker=OwnCooker(cooker, 1))
            return [line for line in pot_faults(step) if "go into" in line]

        return found

    def test_a_jar_takes_what_it_holds(self, case, faults):
        litres = 1000 * case().volume_m3
        assert faults("jar_2l", volume_m3=litres / 1000) == []
        (line,) = faults("jar_2l", volume_m3=0.9 * litres / 1000)
        assert line == f"{TEA}: {litres:.1f} L do not go into the cooker jar_2l"

    @pytest.mark.parametrize(("wide", "high"), [(0.5, 0.01), (0.01, 0.5)])
    def test_a_box_takes_no_pot_that_is_too_wide_or_too_high(self, faults, wide, high):
        size = {"greatest_pot_diameter_m": wide, "greatest_pot_height_m": high}
        assert faults("packed_box", **size) == [
            f"{TEA}: pot pot_2_5l does not go into the cooker packed_box"
        ]

    def test_and_any_that_is_not(self, case, faults):
        pot = case().own_pot.pot
        size = {"greatest_pot_diameter_m": pot.diameter_m, "greatest_pot_height_m": pot.height_m}
        assert faults("packed_box", **size) == []
        assert faults("packed_box", greatest_pot_diameter_m=None, greatest_pot_height_m=None) == []


class TestPressure:
    """Water under pressure, off at 440 and lifted into a cooker some minutes later."""

    @pytest.fixture(name="faults")
    def _faults(self, case):
        def found(wait, kind="packed_box", allowed=False):
            lifted = 440 + wait + int(SHELF.rules.move_min)
            step = case(move=lifted, serve=900, cooker=kind, pot="pressure_6l")
            cooker = OwnCooker(SHELF.cookers[kind], 1, allowed)
            made = replace(step, own_pot=OwnPot(SHELF.pots["pressure_6l"], 1), cooker=cooker)
            assert made.fall_min > 0
            return list(pressure_faults(made)), made.fall_min

        return found

    def test_pressure_has_to_fall_first(self, faults):
        fall_min = faults(0)[1]
        late = 5 * (int(fall_min // 5) + 1)  # on the clock's grid
        assert faults(late)[0] == []
        (line,), _ = faults(late - 5)
        assert line.endswith(f"is opened or packed {fall_min:.0f} min too early, under pressure")

    @pytest.mark.parametrize(("kind", "lines"), [("packed_box", 0), ("jar_2l", 1)])
    def test_unless_the_maker_of_a_packed_cooker_allows_it(self, faults, kind, lines):
        assert len(faults(0, kind, allowed=True)[0]) == lines
        assert len(faults(0, kind, allowed=False)[0]) == 1
