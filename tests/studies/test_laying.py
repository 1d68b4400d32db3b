"""A cooker from what a house has: every choice, its best order, and nothing softened."""

from dataclasses import replace
from itertools import pairwise

import pytest

from optimizer import shelf
from optimizer.errors import PhysicsError
from optimizer.model.household import Place, Weather
from optimizer.planning.conditions import Conditions
from optimizer.studies.designs import computed, rebuilt, thickness_of
from optimizer.studies.insulation import FullPot, filled, round_pot_m3
from optimizer.studies.laying import Heap, lay

THINGS = shelf.load()
AT = Conditions(
    Place(0.0, 15.0, 10.0, 10.0),
    Weather(10.0, 0.0, rain=False, wet_sticks=False),
    THINGS.rules,
    0.9,
)
BOX, POT = THINGS.cookers["packed_box"], THINGS.pots["pot_6l"]
FULL = FullPot(POT, filled(THINGS.dishes["drinking_water"], 0.8 * POT.volume_m3, AT), AT)


def heap(name, litres):
    return Heap(THINGS.materials[name], litres / 1000)


def names(laid):
    return [each.material.name for each in laid.heaps]


def test_one_heap_is_the_bag_of_it():
    (found,) = lay(BOX, FULL, [heap("newspaper", 60)])
    thick_m = thickness_of(POT, 0.06)
    plain = computed(rebuilt(BOX, thickness_m=thick_m), FULL)
    assert found.thick_m == pytest.approx((thick_m,))
    assert found.holding.usual_h == pytest.approx(plain.usual_h, rel=1e-6)
    assert found.holding.packing_j_k == pytest.approx(plain.packing_j_k, rel=1e-6)


def test_every_choice_is_there_once_and_the_best_first():
    found = lay(BOX, FULL, [heap("newspaper", 40), heap("wool_blanket", 12), heap("feathers", 20)])
    choices = [frozenset(names(each)) for each in found]
    assert len(choices) == len(set(choices)) == 7
    assert all(a.holding.usual_h >= b.holding.usual_h for a, b in pairwise(found))
    assert len(found[0].heaps) == 3


def test_layers_use_up_what_there_is():
    best = lay(BOX, FULL, [heap("newspaper", 40), heap("wool_blanket", 12)])[0]
    assert round_pot_m3(POT, best.outside_m) == pytest.approx(0.052, rel=1e-4)
    assert best.holding.packing_m3 == pytest.approx(0.052, rel=1e-4)


def test_the_better_packing_goes_inside_and_the_order_is_the_best_there_is():
    heaps = [heap("wood_shavings", 30), heap("feathers", 30)]
    best = lay(BOX, FULL, heaps)[0]
    assert names(best) == ["feathers", "wood_shavings"]


def test_foam_is_not_laid_against_the_pot_where_something_else_can_be():
    best, *others = lay(BOX, FULL, [heap("eps_board", 30), heap("wool_blanket", 30)])
    assert names(best) == ["wool_blanket", "eps_board"]
    assert best.too_soft == ()
    alone = next(each for each in others if names(each) == ["eps_board"])
    assert [each.name for each in alone.too_soft] == ["eps_board"]


def test_damp_and_blankets_count_for_layers_too():
    heaps = [heap("newspaper", 40), heap("cotton_wadding", 15)]
    dry, damp, covered = (
        lay(replace(BOX, **each), FULL, heaps)[0].holding.usual_h
        for each in ({}, {"damp": True}, {"blankets": 1})
    )
    assert damp < dry < covered


def test_a_handful_more_that_makes_no_layer_is_left_out():
    found = lay(BOX, FULL, [heap("newspaper", 60), heap("feathers", 0.5)])
    assert [names(each) for each in found] == [["newspaper"]]


@pytest.mark.parametrize(
    ("heaps", "words"),
    [
        ([heap("feathers", 0.4)], "not enough to go round"),
        ([heap(name, 9) for name in list(THINGS.materials)[:5]], "at most 4 kinds"),
    ],
)
def test_what_cannot_be_laid_is_refused(heaps, words):
    with pytest.raises(PhysicsError, match=words):
        lay(BOX, FULL, heaps)
