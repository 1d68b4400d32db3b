"""The checker's sums of fuel and money, by hand in round numbers; just how far off they may be."""

import math
from dataclasses import replace
from types import SimpleNamespace

import pytest

from optimizer import shelf
from optimizer.model.household import Store
from optimizer.model.plan import Fire, FuelUse, Goal, Plan
from optimizer.planning.checks.store import even, fuel_faults, goal_faults, store_faults

SHELF = shelf.load()
GAS = Store(
    replace(SHELF.fuels["propane"], lhv_j_kg=20e6, moisture=0.0), 3.0, None, 8.0, None, None, 0.25
)  # 60 MJ, of which 45 may be used; 0.40 a MJ
POWER = Store(SHELF.fuels["electricity"], None, 10e6, None, 0.5e-6, None, 0.0)  # 10 MJ, 0.50 a MJ
TEA = "tea, breakfast of day 1"


@pytest.mark.parametrize(
    ("a", "b", "same"),
    [
        (None, None, True),
        (None, 0.0, False),
        (0.0, None, False),
        (0.0, 0.9e-6, True),
        (0.0, 1.1e-6, False),
        (0.5, 0.5 - 0.9e-6, True),
        (0.5, 0.5 - 1.1e-6, False),
        (-500.0, -500.0 - 4e-4, True),
        (-500.0, -500.0 - 6e-4, False),
        (1e6, 1e6 + 0.9, True),
        (1e6, 1e6 + 1.1, False),
        (0.0, 1e-6, True),
        (0.25, math.nan, False),
    ],
)
def test_sums_are_even_to_a_millionth(a, b, same):
    assert even(a, b) is same
    assert even(b, a) is same


class TestStep:
    """Tea that burns 2 MJ of gas: 0.1 kg, 0.80."""

    @pytest.fixture(name="faults")
    def _faults(self, case):
        def found(store=GAS, true_mj=2.0, **change):
            told = {"fuel_mj": 2.0, "fuel_kg": 0.1, "cost": 0.8, **change}
            step = replace(case(**told), store=store)
            lines = fuel_faults(SimpleNamespace(case=step, fuel_j=1e6 * true_mj))
            return [line.removeprefix(f"{TEA}: ") for line in lines]

        return found

    def test_told_as_it_is(self, faults):
        assert faults() == []

    @pytest.mark.parametrize("true_mj", [2 / 1.0199, 2 / 0.9801])
    def test_fuel_may_be_2_percent_off(self, faults, true_mj):
        assert faults(true_mj=true_mj) == []

    @pytest.mark.parametrize("true_mj", [2 / 1.0202, 2 / 0.9798])
    def test_and_no_more(self, faults, true_mj):
        assert faults(true_mj=true_mj) == [f"fuel is {true_mj:.3f} MJ, not 2.000"]

    def test_no_fuel_is_none_but_for_rounding(self, faults):
        none = {"fuel_kg": 0.0, "cost": 0.0}
        assert faults(true_mj=0.0, fuel_mj=0.9e-6, **none) == []
        assert faults(true_mj=0.0, fuel_mj=2e-6, **{**none, "cost": 0.8e-6, "fuel_kg": 1e-7}) == [
            "fuel is 0.000 MJ, not 0.000"
        ]

    def test_kilograms_are_those_of_its_heat(self, faults):
        assert faults(fuel_kg=0.11) == ["fuel_kg is 0.1, not 0.11"]
        assert faults(fuel_kg=None) == ["fuel_kg is 0.1, not None"]

    def test_what_has_no_mass_has_no_kilograms(self, faults):
        assert faults(POWER, fuel_kg=None, cost=1.0) == []
        assert faults(POWER, fuel_kg=0.1, cost=1.0) == ["fuel_kg is None, not 0.1"]

    def test_it_costs_what_its_heat_costs(self, faults):
        assert faults(cost=0.79) == ["cost is 0.8000, not 0.7900"]
        assert faults(POWER, fuel_kg=None, cost=1.1) == ["cost is 1.0000, not 1.1000"]

    def test_what_has_no_price_is_free(self, faults):
        free = replace(GAS, price_kg=None)
        assert faults(free, cost=0.0) == []
        assert faults(free, cost=0.8) == ["cost is 0.0000, not 0.8000"]
        assert faults(replace(POWER, price_j=None), fuel_kg=None, cost=0.0) == []


BURNT = FuelUse("propane", 0.5, 10.0, 3.0, 60.0, 2.5, 4.0)
DRAWN = FuelUse("electricity", None, 2.0, None, 10.0, None, 1.0)
FIRE = Fire("gas_burner", 1, 420, 440, 1.5, 0.5)


class TestStores:
    """Two dishes of 4 MJ each and a fire of 2 MJ on gas, 2 MJ of power."""

    @pytest.fixture(name="faults")
    def _faults(self, case):
        plain = case().scenario
        steps = (
            *[case(fuel="propane", fuel_mj=4.0).step] * 2,
            case(fuel="electricity", fuel_mj=2.0).step,
        )
        whole = Plan(
            "Two stores", None, "optimal", None, Goal("money", 5.0, None), steps=steps,
            fires=(FIRE,), fuels=(BURNT, DRAWN), cost=5.0,
        )  # fmt: skip

        def found(stores=(GAS, POWER), **change):
            return list(store_faults(replace(whole, **change), replace(plain, stores=stores)))

        return found

    def test_told_as_they_are(self, faults):
        assert faults() == []

    @pytest.mark.parametrize(
        ("key", "true", "off"),
        [
            ("used_mj", 10.0, 9.5),
            ("used_kg", 0.5, 0.4),
            ("used_kg", 0.5, None),
            ("stock_kg", 3.0, 3.1),
            ("stock_mj", 60.0, None),
            ("left_kg", 2.5, 2.6),
        ],
    )
    def test_a_wrong_sum_is_named(self, faults, key, true, off):
        said = f"fuel propane: {key} is {true}, not {off}"
        assert faults(fuels=(replace(BURNT, **{key: off}), DRAWN)) == [said]

    def test_what_has_no_mass_is_told_in_megajoules(self, faults):
        wrong = replace(DRAWN, used_mj=2.5, used_kg=0.1, stock_mj=9.0, left_kg=1.0, cost=1.5)
        assert faults(fuels=(BURNT, wrong), cost=5.5) == [
            "fuel electricity: used_mj is 2.0, not 2.5",
            "fuel electricity: used_kg is None, not 0.1",
            "fuel electricity: stock_mj is 10.0, not 9.0",
            "fuel electricity: left_kg is None, not 1.0",
            "fuel electricity: cost is 1.0, not 1.5",
        ]

    def test_costs_add_up(self, faults):
        assert faults(cost=4.9) == ["cost of the plan is 5.0000, not 4.9000"]
        (said,) = faults(fuels=(replace(BURNT, cost=4.5), DRAWN), cost=5.5)
        assert said.startswith("fuel propane: cost is ")
        assert said.endswith(", not 4.5")

    def test_a_store_without_a_limit_has_no_stock_and_is_never_overdrawn(self, faults):
        endless = replace(GAS, stock_kg=None)
        told = replace(BURNT, stock_kg=None, stock_mj=None, left_kg=None)
        assert faults((endless, POWER), fuels=(told, DRAWN)) == []
        assert faults((endless, POWER)) == [
            "fuel propane: stock_kg is None, not 3.0",
            "fuel propane: stock_mj is None, not 60.0",
            "fuel propane: left_kg is None, not 2.5",
        ]

    def test_every_fuel_of_the_house_is_told_of(self, faults):
        assert faults(fuels=(BURNT,), cost=4.0) == ["fuel electricity: is not told of"]

    def test_a_fuel_that_is_not_there_is_named_whether_used_or_told(self, faults):
        assert faults((GAS,)) == ["fuel electricity: there is none"]
        other = replace(DRAWN, name="peat", cost=0.0)
        assert faults(fuels=(BURNT, DRAWN, other)) == ["fuel peat: there is none"]
        ghost = replace(FIRE, stove="hearth")
        assert faults(fires=(FIRE, ghost)) == ["fuel ?: there is none"]

    @pytest.mark.parametrize(("reserve", "over"), [(1 - 10 / 60, None), (0.85, "1.0000")])
    def test_the_reserve_is_not_touched(self, faults, reserve, over):
        said = f"fuel propane: is overdrawn by {over} MJ, the reserve counted"
        assert faults((replace(GAS, reserve=reserve), POWER)) == ([said] if over else [])

    @pytest.mark.parametrize(("over_mj", "faulty"), [(5.5e-4, 0), (6.5e-4, 1)])
    def test_of_60_mj_6_hundred_thousandths_are_rounding(self, faults, over_mj, faulty):
        gas = replace(GAS, reserve=1 - (10 - over_mj) / 60)
        assert len(faults((gas, POWER))) == faulty

    @pytest.mark.parametrize(("over_mj", "faulty"), [(2.5e-5, 0), (3.5e-5, 1)])
    def test_of_2_mj_3_hundred_thousandths_are(self, faults, over_mj, faulty):
        power = replace(POWER, stock_j=2e6, reserve=over_mj / 2)
        told = replace(DRAWN, stock_mj=2.0)
        assert len(faults((GAS, power), fuels=(BURNT, told))) == faulty


class TestGoal:
    @pytest.fixture(name="faults")
    def _faults(self):
        def found(name, value, bound=None):
            plan = Plan(
                "Goals", None, "optimal", None, Goal(name, value, bound),
                fuels=(BURNT, DRAWN), cost=5.0, tending_minutes=30.0,
            )  # fmt: skip
            return list(goal_faults(plan))

        return found

    @pytest.mark.parametrize(
        ("name", "true"),
        [("money", 5.0), ("tending", 30.0), ("energy", 12e6), ("propane", 10e6)],
    )
    def test_it_is_the_sum_that_it_names(self, faults, name, true):
        assert faults(name, true) == []
        assert faults(name, true, true) == []
        assert faults(name, 0.9 * true) == [f"goal {name}: is {true}, not {0.9 * true}"]

    def test_none_or_one_that_nobody_knows_is_named(self, faults):
        assert faults("money", None) == ["goal money: is 5.0, not None"]
        assert faults("time", 5.0) == ["goal time: is None, not 5.0"]

    def test_it_is_no_better_than_its_bound(self, faults):
        for slack, said in ((0.9, []), (1.1, ["goal money: 5.0 is better than its bound "])):
            bound = 5.0 + slack * 5e-6
            assert faults("money", 5.0, bound) == [f"{line}{bound}" for line in said]

    def test_a_small_one_by_a_millionth(self, faults):
        tiny = Plan("Goals", None, "optimal", None, Goal("money", 0.1, 0.1 + 0.9e-6), cost=0.1)
        over = replace(tiny, goal=replace(tiny.goal, bound=0.1 + 1.1e-6))
        assert list(goal_faults(tiny)) == []
        assert len(list(goal_faults(over))) == 1
