"""Dishes carried to where they are eaten: which ways there are, how cold, how long it is away."""

import math
from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.errors import CheckError
from optimizer.model.eaters import Carrying, Diet, Group, Helping
from optimizer.model.household import OwnCooker, OwnPot
from optimizer.planning.baseline import Effort, boil_all
from optimizer.planning.cautions import cautions_of
from optimizer.planning.contents import load
from optimizer.planning.kitchen import choices, pots_for
from optimizer.planning.losses import kitchen_loss_w_k
from optimizer.planning.planner import plan
from optimizer.planning.verify import verify
from optimizer.planning.ways import conditions, make_way

THINGS = shelf.load()
SOUP = (("lentil_soup", "lunch", 750),)
NEXT_MEAL = (("lentil_soup", "lunch", 750), ("lentil_soup", "later", 770))


def carried(home, **more):
    """Carry every dish for 20 min, away until 60 min after the meal."""
    items = tuple(replace(item, carried=Carrying(20, 60, "Mill Lane")) for item in home.items)
    return replace(home, items=items, **more)


@pytest.fixture(scope="module", name="home")
def _home(household):
    """A pot of soup, a foam box to carry and a packed box that stays."""
    cookers = tuple(OwnCooker(THINGS.cookers[name], 1) for name in ("foam_box", "packed_box"))
    return carried(household(SOUP), cookers=cookers)


@pytest.fixture(scope="module", name="made")
def _made(home):
    return plan(home)


def test_it_goes_in_a_portable_cooker_and_leaves_in_time(made):
    (step,) = made.steps
    assert step.cooker == "foam_box"
    assert step.serve - step.move >= 20
    assert step.serve_c_low >= 60


def test_other_ways_are_refused_and_say_why(home):
    codes = {(refusal.cooker, refusal.code) for refusal in choices(home).refusals}
    assert (None, "carried") in codes
    assert ("packed_box", "not_portable") in codes
    told = {refusal.code: refusal.reason for refusal in choices(home).refusals}
    assert told["carried"] == "cools on the 20 min to where it is eaten, in no cooker"


def test_without_any_carrier_there_is_no_plan_and_it_says_why(home):
    stays = replace(home, cookers=home.cookers[1:])
    made = plan(stays)
    assert made.status == "infeasible"
    assert any("carry" in told or "cools on the" in told for told in made.changes)


def test_water_for_any_time_may_be_carried_in_its_pot(household):
    home = carried(household((("drinking_water", "lunch", 750),)), cookers=())
    assert [step.cooker for step in plan(home).steps] == [None]


class TestHeat:
    """The same pot in the same box, carried and not."""

    @pytest.fixture
    def ways(self, home):
        """Give the way of the dish that stays, and of the same dish carried."""
        at = conditions(home, 1)
        item = home.items[0]
        return [
            make_way(
                load(each, home.place),
                home.stoves[1],
                home.stores[1],
                THINGS.pots["pot_4l"],
                home.cookers[0],
                at,
            )
            for each in (replace(item, carried=None), item)
        ]

    def test_it_stands_in_the_colder_air(self, ways, home):
        assert ways[0].body.room_c == home.place.kitchen_c == 16.0
        assert ways[1].body.room_c == home.weather[0].outdoors_c == 8.0

    def test_spreads_add_as_squares(self, ways):
        """0.20 of the box and 0.15 of the way: 0.25, by Pythagoras."""
        assert ways[0].body.loss_spread == 0.20
        assert ways[1].body.loss_spread == pytest.approx(0.25)

    def test_the_last_portion_is_colder(self, ways):
        """Half the pot, open for 10 min at twice the loss of a lidded one: exp(-UA t / C)."""
        lidded_w_k = kitchen_loss_w_k(THINGS.pots["pot_4l"], ways[1].boil.boil_c, ways[1].at)
        half_j_k = ways[1].body.contents_j_k / 2
        left = math.exp(-2 * lidded_w_k * 600 / half_j_k)
        assert ways[1].body.shared_out == pytest.approx(left)
        assert ways[1].rest.usual_c[12] == pytest.approx(
            8.0 + left * (ways[1].body.curve(0.0)[12] - 8.0)
        )

    def test_it_is_always_colder_and_never_done_sooner(self, ways):
        stays, goes = (way.rest for way in ways)
        assert (goes.careful_c < stays.careful_c).all()
        assert (goes.usual_c < stays.usual_c).all()
        assert (goes.done <= stays.done + 1e-12).all()

    def test_it_cannot_be_eaten_before_it_is_there(self, ways):
        assert ways[1].least_rest_min >= ways[0].least_rest_min + 20


def test_pot_and_cooker_are_away_until_they_are_back(household):
    """Two soups 20 min apart and one box that can be carried: it is back too late."""
    one = carried(household(NEXT_MEAL), cookers=(OwnCooker(THINGS.cookers["foam_box"], 1),))
    assert plan(one).status == "infeasible"
    two = replace(one, cookers=(OwnCooker(THINGS.cookers["foam_box"], 2),))
    assert len(plan(two).steps) == 2


def test_batches_are_what_fits_the_carriers(household):
    """40 portions: one pot of 30 L would do, but only the pot of 8 L goes into the foam box."""
    home = carried(household(SOUP), cookers=(OwnCooker(THINGS.cookers["foam_box"], 4),))
    item = replace(home.items[0], adults=40.0, children=0.0)
    pots = (OwnPot(THINGS.pots["pot_30l"], 1), OwnPot(THINGS.pots["pot_6l"], 4))
    crowd = replace(home, items=(item,), pots=pots)
    litres = 1000 * load(item, home.place).volume_m3
    stays = replace(item, carried=None)
    assert pots_for(replace(crowd, items=(stays,)), stays) == math.ceil(litres / (30 * 0.9))
    assert pots_for(crowd, item) == math.ceil(litres / (6 * 0.9))


def test_a_breakfast_is_not_cooked_the_evening_before_a_colder_day(household):
    """Day 1 has 8 degC outdoors; where day 2 is colder, the evening's pot is not priced for it."""
    early = (("lentil_soup", "breakfast", 1440 + 390),)
    tight = replace(THINGS.cookers["foam_box"], loss_w_k=0.02, packing_j_k=0.0)  # hot all night
    home = carried(household(early, days=2), cookers=(OwnCooker(tight, 1),))

    def evenings(outdoors_c):
        weather = (home.weather[0], replace(home.weather[1], outdoors_c=outdoors_c))
        columns = choices(replace(home, weather=weather)).columns
        return [column for column in columns if column.burns[0].start < 1440]

    assert evenings(8.0)
    assert not evenings(7.0)


def test_boiled_through_it_is_eaten_where_it_is_cooked(home):
    found = boil_all(home, Effort(0.01, 30.0, "highs"))
    assert found.status == "optimal"
    assert found.fuel_mj > 0


def test_a_caution_says_how_to_carry_it(made, home, household):
    assert "carried" in {caution.code for caution in cautions_of(made.steps, home)}
    plain = replace(home, items=household(SOUP).items)
    assert "carried" not in {caution.code for caution in cautions_of(made.steps, plain)}


class TestChecker:
    """The independent checker finds what is done with a dish that is carried."""

    def complaint(self, made, home, **change):
        steps = tuple(replace(step, **change) for step in made.steps)
        with pytest.raises(CheckError) as caught:
            verify(replace(made, steps=steps), home)
        return str(caught.value)

    def test_a_good_plan_passes(self, made, home):
        verify(made, home)

    def test_a_cooker_that_stays(self, made, home):
        assert "not one to carry" in self.complaint(made, home, cooker="packed_box")

    def test_no_cooker(self, made, home):
        told = self.complaint(made, home, cooker=None, move=None, finish="flame")
        assert "is carried 20 min, and in no cooker" in told

    def test_too_late_on_the_way(self, made, home):
        late = made.steps[0].serve - 10
        assert "has 10 min until it is eaten" in self.complaint(made, home, move=late)

    def test_as_hot_as_if_it_were_not_carried(self, made, home):
        at_home = replace(home, items=(replace(home.items[0], carried=None),))
        with pytest.raises(CheckError, match="serve_c_low"):
            verify(made, at_home)

    def test_a_carrier_that_is_not_back(self, household):
        two = carried(household(NEXT_MEAL), cookers=(OwnCooker(THINGS.cookers["foam_box"], 2),))
        one = replace(two, cookers=(OwnCooker(THINGS.cookers["foam_box"], 1),))
        with pytest.raises(CheckError, match="cooker foam_box: 2 in use"):
            verify(plan(two), one)

    def test_a_pot_served_against_a_diet(self, household):
        home = household((("porridge", "breakfast", 450),))
        groups = (Group(None, (), 2, 1), Group(None, (Diet("mild", ("gluten",)),), 0, 1))
        good = (replace(home.items[0], helpings=(Helping(0, 2, 2),)),)
        bad = (replace(home.items[0], helpings=(Helping(0, 2, 1), Helping(1, 0, 1))),)
        made = plan(replace(home, groups=groups, items=good))
        with pytest.raises(CheckError, match=r"mild\) who eat no rolled oats"):
            verify(made, replace(home, groups=groups, items=bad))


def test_a_dish_changed_in_the_file_is_planned_anew(household):
    """What is remembered from plan to plan goes by the dish, not by its name."""
    from optimizer.planning.kitchen import Known

    home, known = household((("porridge", "breakfast", 450),)), Known()
    before = choices(home, known=known).columns
    item = home.items[0]
    longer = replace(item, dish=replace(item.dish, boil_min=item.dish.boil_min + 30))
    after = choices(replace(home, items=(longer,)), known=known).columns
    assert min(c.fuel_j for c in after) > min(c.fuel_j for c in before)
