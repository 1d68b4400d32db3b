"""A pot on a stove: how long, how much, and why not."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.household import OwnStove, Place, Weather
from optimizer.physics import one_body
from optimizer.planning.boiling import Boil, boil, careful_boil_min
from optimizer.planning.conditions import Conditions, Refused, burn_ratio
from optimizer.planning.contents import fill, load_of, most_fill, room_in
from optimizer.planning.rising import rise_of, top_c

THINGS = shelf.load()
SEA, CALM = Place(0.0, 18.0, 10.0, 10.0), Weather(10.0, 0.0, rain=False, wet_sticks=False)
AT = Conditions(SEA, CALM, THINGS.rules, 0.9)
GAS = OwnStove(THINGS.stoves["gas_burner"], 1, "outdoors")
STICKS = OwnStove(THINGS.stoves["stick_stove"], 1, "outdoors")


def boiled(
    dish: str = "drinking_water",
    pot: str = "pot_6l",
    own: OwnStove = GAS,
    at: Conditions = AT,
    portions: float = 3.0,
    **change: object,
) -> Boil | Refused:
    thing = replace(THINGS.dishes[dish], **change)
    fuel = THINGS.fuels[own.stove.fuel]
    return boil(load_of(thing, portions, at.place), THINGS.pots[pot], own, fuel, at)


def in_weather(**change: object) -> Conditions:
    return replace(AT, weather=replace(CALM, **change))


def at_height(altitude_m: float) -> Conditions:
    return replace(AT, place=replace(SEA, altitude_m=altitude_m))


def test_heat_given_is_what_the_contents_took_and_a_little_for_the_air():
    pot = boiled()
    taken_j = pot.heat_j_k * (pot.top_c - pot.start_c)
    given_j = pot.up_j * GAS.stove.efficiency
    assert taken_j < given_j < 1.35 * taken_j


def test_time_is_counted_with_a_worse_stove_than_fuel():
    pot = boiled()
    usual_min = pot.up_j / GAS.stove.power_w / 60
    assert pot.up_min > 1.1 * usual_min


def test_surer_households_wait_longer():
    assert boiled(at=replace(AT, confidence=0.98)).up_min > boiled().up_min
    assert boiled(at=replace(AT, confidence=0.5)).up_min == pytest.approx(
        boiled().up_j / GAS.stove.power_w / 60
    )


def test_wind_and_cold_take_fuel_and_time():
    for worse in (in_weather(wind_m_s=4.0), in_weather(outdoors_c=-10.0)):
        assert boiled(at=worse).up_j > boiled().up_j
        assert boiled(at=worse).up_min > boiled().up_min


def test_a_vented_hob_stands_out_of_the_wind():
    hob = replace(GAS, where="vented hob")
    assert boiled(own=hob, at=in_weather(wind_m_s=4.0)) == boiled(own=hob)


def test_wet_sticks_burn_with_less_heat_and_gas_does_not_mind():
    wet = in_weather(wet_sticks=True)
    assert burn_ratio(THINGS.fuels["sticks"], wet) < 0.95
    assert burn_ratio(THINGS.fuels["propane"], wet) == 1
    assert boiled(own=STICKS, at=wet).up_min > boiled(own=STICKS).up_min


def test_wet_sticks_take_more_of_the_stock():
    wet = in_weather(wet_sticks=True)
    assert boiled(own=STICKS, at=wet).up_j > boiled(own=STICKS).up_j


def test_water_only_warmed_stays_below_the_boil_and_makes_no_steam():
    warm = boiled("washing_water")
    assert warm.top_c == warm.boil_c == 60
    assert warm.steam_kg_min == 0
    assert warm.least_hold_min == 0


def test_an_ordinary_pot_boils_at_the_boil_and_a_pressure_pot_above():
    rice = load_of(THINGS.dishes["rice"], 3.0, SEA)
    assert top_c(rice, THINGS.pots["pot_4l"], AT) == AT.boil_c == pytest.approx(100, abs=0.1)
    # saturation at 101.3 + 80 kPa is 117 degC (steam tables, from memory)
    assert top_c(rice, THINGS.pots["pressure_6l"], AT) == pytest.approx(117, abs=0.3)


def test_rise_above_the_boil_and_fall_after_it_cook_under_pressure_only():
    assert boiled("rice", "pot_4l").free_done == boiled("rice", "pot_4l").fall_min == 0
    pressed = boiled("rice", "pressure_6l")
    assert pressed.free_done > 0
    assert 1 < pressed.fall_min < 60
    assert pressed.boil_c == AT.boil_c < pressed.top_c


# Minutes of rolling boil for water to drink: 1, and 3 above 5,000 ft (Dorris 2025, table, EPA)
@pytest.mark.parametrize(("altitude_m", "minutes"), [(0, 1), (1500, 1), (1530, 3), (2600, 3)])
def test_water_to_drink_boils_as_long_as_the_height_asks(altitude_m, minutes):
    assert boiled(at=at_height(altitude_m)).least_hold_min == minutes


# Beans of Phaseolus: soaked at least 5 h, boiled at least 30 min (FDA, Bad Bug Book)
def test_beans_boil_half_an_hour_before_anything_else():
    assert boiled("bean_stew").least_hold_min == 30
    assert boiled("bean_stew", "pressure_6l").least_hold_min >= THINGS.rules.bean_pressure_min
    assert boiled("lentil_stew").least_hold_min < 30


REFUSED = {
    "foams": {"dish": "porridge", "pot": "pressure_6l"},
    "pot_too_small": {"pot": "pot_2_5l"},
    "bean_soak": {"dish": "bean_stew", "soak_min": 240},
    "bean_boil": {"dish": "bean_stew", "at": at_height(1600.0)},
    "gas_cold": {
        "own": replace(GAS, stove=replace(GAS.stove, fuel="butane")),
        "at": in_weather(outdoors_c=0.0),
    },
    "wind": {"own": STICKS, "at": in_weather(wind_m_s=25.0)},
    "no_boil": {"own": replace(GAS, stove=replace(GAS.stove, power_w=250.0))},
    "slow": {
        "dish": "vegetable_soup",
        "own": replace(GAS, stove=replace(GAS.stove, power_w=520.0)),
        "at": replace(AT, rules=replace(THINGS.rules, slow_max_min=30.0)),
    },
}


@pytest.mark.parametrize("code", REFUSED)
def test_what_cannot_work_is_refused_with_its_reason(code):
    refused = boiled(**REFUSED[code])
    assert isinstance(refused, Refused), refused
    assert refused.code == code
    assert refused.reason


def test_beans_high_up_are_for_the_pressure_pot():
    assert isinstance(boiled("bean_stew", "pressure_6l", at=at_height(1600.0)), Boil)


def test_butane_feeds_high_up_where_it_does_not_at_the_sea():
    butane = replace(GAS, stove=replace(GAS.stove, fuel="butane"))
    cold = in_weather(outdoors_c=7.0)
    high = replace(cold, place=replace(SEA, altitude_m=2600.0))
    assert boiled(own=butane, at=cold).code == "gas_cold"
    assert isinstance(boiled(own=butane, at=high), Boil)


def test_minutes_are_longer_on_the_careful_side():
    rice = load_of(THINGS.dishes["rice"], 3.0, SEA)
    # 18 min with a spread of 0.15; nine times in ten is 1.2816 spreads (normal table)
    assert careful_boil_min(rice, AT) == pytest.approx(18 * (1 + 1.2816 * 0.15), rel=1e-4)


def test_a_pot_levels_off_where_it_is_told_to():
    own = REFUSED["no_boil"]["own"]
    load, pot = load_of(THINGS.dishes["drinking_water"], 3.0, SEA), THINGS.pots["pot_6l"]
    rise = rise_of(load, pot, own, THINGS.fuels[own.stove.fuel], AT)
    in_the_end_c = one_body.heated_c(
        heat_capacity_j_k=rise.heat_j_k,
        net_power_w=rise.careful * rise.power_w,
        loss_w_k=rise.loss_w_k,
        start_c=rise.start_c,
        air_c=rise.air_c,
        time_s=1e9,
    )
    assert rise.levels_off_c == pytest.approx(in_the_end_c)
    told = f"levels off at {in_the_end_c:.0f} degC, never gets to 100 degC"
    assert boiled(own=own).reason == told


def test_a_pot_may_be_as_full_as_the_rules_say_and_no_fuller():
    full = fill(load_of(THINGS.dishes["drinking_water"], 3.0, SEA), THINGS.pots["pot_6l"])
    for most, fits in ((full, True), (full * (1 - 1e-9), False)):
        at = replace(AT, rules=replace(THINGS.rules, fill_most=most))
        assert isinstance(boiled(at=at), Boil) is fits


@pytest.mark.parametrize("swelling", [False, True])
def test_a_pressure_pot_is_filled_less_than_another(swelling):
    load, rules = load_of(THINGS.dishes["rice"], 3.0, SEA), THINGS.rules
    load = replace(load, swelling=swelling)
    assert most_fill(load, THINGS.pots["pot_6l"], rules) == rules.fill_most
    under = rules.fill_pressure_swelling if swelling else rules.fill_pressure
    assert most_fill(load, THINGS.pots["pressure_6l"], rules) == under < rules.fill_most


def test_no_cooker_takes_nothing():
    assert room_in(THINGS.pots["pot_6l"], ()) == 0
