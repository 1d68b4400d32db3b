"""Rain, sunshine, frozen pieces and a kettle: what the sky and the food do to the ways."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.household import OwnPot, OwnStove, Scenario, Store, Weather
from optimizer.planning.conditions import Refused
from optimizer.planning.kitchen import attempts, choices
from optimizer.planning.planner import plan
from optimizer.planning.verify import verify
from optimizer.planning.ways import Way
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder

SHELF = shelf.load()
# A box cooker by the published cooking-power line (from memory): power at no difference, slope.
BOX = replace(
    SHELF.stoves["electric_plate"],
    name="sun_box",
    label="sun box",
    fuel="sun",
    power_w=150.0,
    low_power_w=150.0,
    efficiency=1.0,
    start_j=0.0,
    loss_w_k=1.2,
    wind_loss=0.0,
)
SUNNY = Weather(20.0, 1.0, rain=False, wet_sticks=False, sun_w_m2=800.0)


@pytest.fixture(scope="module")
def home() -> Scenario:
    made = read(data_folder() / "scenarios" / "outage_weekend.yaml")
    washing = next(item for item in made.items if item.dish.name == "washing_water")
    washing = replace(washing, number=0, day=1, serve_min=15 * 60, adults=1, children=0)
    return replace(
        made,
        days=1,
        windows=made.windows[:3],
        weather=(SUNNY,),
        items=(washing,),
        stores=(*made.stores, Store(SHELF.fuels["sun"], None, None, None, None, None, 0.0)),
        stoves=(OwnStove(BOX, 1, "outdoors"),),
        pots=(OwnPot(SHELF.pots["pot_2_5l"], 1),),
        cookers=(),
    )


def ways_of(home: Scenario) -> list[Way | Refused]:
    return [attempt.way for attempt in attempts(home, home.items[0], 1)]


def test_the_sun_warms_water_without_fuel_or_fire_or_anybody_beside_it(home):
    made = plan(home)
    verify(made, home)
    step = made.steps[0]
    assert (step.stove, step.fuel_mj, step.cost) == ("sun_box", 0.0, 0.0)
    assert made.fires == ()
    assert step.off - step.on > 60
    assert step.on >= 10 * 60
    assert step.off <= 15 * 60


def test_more_sun_is_never_slower(home):
    durations = []
    for sun in (600.0, 800.0, 1000.0):
        sky = replace(home, weather=(replace(SUNNY, sun_w_m2=sun),))
        (way,) = ways_of(sky)
        durations.append(min(way.on_min[way.on_min > 0]))
    assert durations == sorted(durations, reverse=True)


def test_rain_leaves_no_sun(home):
    (way,) = ways_of(replace(home, weather=(replace(SUNNY, rain=True),)))
    assert way.code == "no_sun"


def test_a_weak_sun_never_gets_there(home):
    (way,) = ways_of(replace(home, weather=(replace(SUNNY, sun_w_m2=150.0),)))
    assert way.code == "no_boil"


def test_rain_takes_more_fuel_outdoors_and_none_under_a_vented_hood(home):
    gas = SHELF.stoves["gas_burner"]
    for where, more in (("outdoors", True), ("vented hob", False)):
        own = replace(home, stoves=(OwnStove(gas, 1, where),))
        dry, wet = (
            min(c.fuel_j for c in choices(replace(own, weather=(sky,))).columns)
            for sky in (SUNNY, replace(SUNNY, rain=True))
        )
        assert (wet > 1.1 * dry) is more


def test_frozen_pieces_are_refused(home):
    stew = SHELF.dishes["beef_stew"]
    frozen = replace(
        stew,
        ingredients=tuple(
            replace(i, food=replace(i.food, frozen=i.food.endpoint_c is not None))
            for i in stew.ingredients
        ),
    )
    gas = (OwnStove(SHELF.stoves["gas_burner"], 1, "outdoors"),)
    item = replace(home.items[0], dish=frozen)
    (way,) = ways_of(replace(home, items=(item,), stoves=gas))
    assert way.code == "frozen"


def test_a_kettle_heats_nothing_but_water(home):
    kettle = (OwnStove(replace(SHELF.stoves["gas_burner"], water_only=True), 1, "outdoors"),)
    tea = replace(home.items[0], dish=SHELF.dishes["tea"])
    (way,) = ways_of(replace(home, items=(tea,), stoves=kettle))
    assert way.code == "water_only"
    (way,) = ways_of(replace(home, stoves=kettle))
    assert isinstance(way, Way)


def test_a_candle_never_boils_a_family_pot(home):
    candle = (OwnStove(SHELF.stoves["candle_stove"], 1, "outdoors"),)
    wax = Store(SHELF.fuels["candle_wax"], 1.0, None, None, None, None, 0.0)
    tea = replace(home.items[0], dish=SHELF.dishes["tea"], adults=4)
    (way,) = ways_of(replace(home, items=(tea,), stoves=candle, stores=(wax,)))
    assert way.code in ("no_boil", "slow")


def test_butane_does_not_feed_in_frost_and_propane_does(home):
    gas = SHELF.stoves["gas_burner"]
    frost = replace(home, weather=(replace(SUNNY, outdoors_c=-4.0),))
    told = {}
    for fuel in ("butane", "propane"):
        own = (OwnStove(replace(gas, fuel=fuel), 1, "outdoors"),)
        store = Store(SHELF.fuels[fuel], 1.0, None, None, None, None, 0.0)
        (told[fuel],) = ways_of(replace(frost, stoves=own, stores=(store,)))
    assert told["butane"].code == "gas_cold"
    assert isinstance(told["propane"], Way)


def test_wind_takes_fuel_and_in_the_end_all_of_the_heat(home):
    gas = (OwnStove(SHELF.stoves["canister_burner"], 1, "outdoors"),)
    iso = Store(SHELF.fuels["isobutane"], 1.0, None, None, None, None, 0.0)
    calm, fresh, gale = (
        ways_of(replace(home, stoves=gas, stores=(iso,), weather=(replace(SUNNY, wind_m_s=wind),)))[
            0
        ]
        for wind in (0.0, 4.0, 11.0)
    )
    assert fresh.boil.up_j > calm.boil.up_j
    assert gale.code in ("wind", "no_boil")
