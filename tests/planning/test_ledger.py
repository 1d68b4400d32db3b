"""What a choice takes, counted by hand; and every kind of fault in it is named."""

from dataclasses import replace

import pytest

from optimizer.errors import CheckError
from optimizer.planning.columns import Burn, Use
from optimizer.planning.ledger import audit, fires_of, fuel_of, price_of

# In the made-up kitchen lighting takes 1.5 MJ and 5 minutes, 1 MJ of sticks costs 0.08.


class TestFires:
    def test_one_fire_from_the_first_pot_to_the_last(self, cook, kitchen):
        chosen = [cook(0, "stick", 360, 30), cook(1, "stick", 400, 20)]
        (fire,) = fires_of(chosen, kitchen(0, 1, idle_w=500))
        assert (fire.stove, fire.window, fire.first, fire.last) == ("stick", 0, 360, 420)
        assert (fire.start_j, fire.idle_min) == (1.5e6, 10)
        assert fire.idle_j == 10 * 60 * 500

    def test_lit_again_where_that_burns_less(self, cook, kitchen):
        # Kept up at 500 W, 50 minutes burn as much as a lighting: 50 is kept up, 60 is not.
        kept = [cook(0, "stick", 360, 10), cook(1, "stick", 420, 10)]
        apart = [cook(0, "stick", 360, 10), cook(1, "stick", 430, 10)]
        room = kitchen(0, 1, idle_w=500)
        assert [(f.first, f.last) for f in fires_of(kept, room)] == [(360, 430)]
        assert [(f.first, f.last) for f in fires_of(apart, room)] == [(360, 370), (430, 440)]
        assert fuel_of(apart, room) == {"sticks": 2e6 + 3e6}

    def test_never_across_windows(self, cook, kitchen):
        chosen = [cook(0, "stick", 360, 10), cook(1, "stick", 1020, 10)]
        assert [f.window for f in fires_of(chosen, kitchen(0, 1, idle_w=0))] == [0, 1]

    def test_two_stoves_are_two_fires(self, cook, kitchen):
        chosen = [cook(0, "stick", 360, 30), cook(1, "stick", 370, 30)]
        fires = fires_of(chosen, kitchen(0, 1, stick=2))
        # While both burn, from 370 to 390, two are lit; none is ever without a pot.
        assert [(f.first, f.last) for f in fires] == [(360, 400), (370, 390)]
        assert [f.idle_min for f in fires] == [0, 0]

    def test_two_places_over_one_fire(self, cook, kitchen):
        chosen = [cook(0, "stick", 360, 30), cook(1, "stick", 370, 30)]
        (fire,) = fires_of(chosen, kitchen(0, 1, stick=2, places=2))
        # Half of it idles for 10 minutes at either end.
        assert (fire.first, fire.last, fire.idle_min) == (360, 400, 10)

    def test_a_stove_without_lighting_has_none(self, cook, kitchen):
        assert fires_of([cook(0, "gas", 360, 30)], kitchen(0)) == ()

    def test_a_pot_boiled_again(self, cook, kitchen):
        (fire,) = fires_of([cook(0, "stick", 360, 10, again=(400, 410))], kitchen(0, idle_w=500))
        assert (fire.first, fire.last, fire.idle_min) == (360, 410, 30)


class TestPrice:
    @pytest.fixture
    def chosen(self, cook):
        return [
            cook(0, "stick", 360, 30, fuel_mj=2, money=0.16, tend_min=30),
            cook(1, "stick", 400, 20, fuel_mj=1, money=0.08, tend_min=20),
            cook(2, "gas", 400, 20, fuel_mj=1, money=0.2, tend_min=5),
        ]

    @pytest.mark.parametrize(
        ("goal", "price"),
        [
            ("sticks", 3e6 + 1.5e6 + 0.3e6),
            ("butane", 1e6),
            ("energy", 4e6 + 1.5e6 + 0.3e6),
            ("money", 0.16 + 0.08 + 0.2 + 0.08 * 1.8),
            ("tending", 55 + 5),
            ("kerosene", 0),
        ],
    )
    def test_by_hand(self, chosen, kitchen, goal, price):
        assert price_of(chosen, kitchen(0, 1, 2, idle_w=500), goal) == pytest.approx(price)

    def test_a_fire_that_has_to_be_watched(self, chosen, kitchen):
        room = kitchen(0, 1, 2, tend=True)
        assert price_of(chosen, room, "tending") == 55 + 5 + 10


class TestAudit:
    @pytest.fixture
    def room(self, kitchen):
        return kitchen(0, 1, 2, big=1, small=1, stock_j={"sticks": 6e6, "butane": 1e6})

    @pytest.fixture
    def good(self, cook):
        return [
            cook(0, "stick", 360, 30, pot="pot:big", held=480, cooker="cooker:box"),
            cook(1, "stick", 390, 30, pot="pot:small"),
            cook(2, "gas", 420, 20, pot="pot:small"),
        ]

    def test_passes(self, good, room):
        audit(good, room)

    @pytest.mark.parametrize(
        ("change", "says"),
        [
            ({"item": 7}, "dish 7 is not on the menu"),
            ({"item": 1}, "dish 2 is cooked 0 times"),
            ({"fuel_j": 1.1e6}, "butane is overdrawn by 100000 J"),
            ({"burns": (Burn("gas", 0, 470, 490),)}, "dish 2 is on gas outside window 0"),
            ({"burns": (Burn("gas", 0, 430, 450),)}, "dish 2 burns on gas without holding it"),
            ({"uses": (Use("pot:small", 420, 440),)}, "dish 2 burns on gas without holding it"),
        ],
    )
    def test_names_what_is_wrong(self, good, room, change, says):
        good[2] = replace(good[2], **change)
        with pytest.raises(CheckError, match=says):
            audit(good, room)

    @pytest.mark.parametrize(
        ("use", "says"),
        [
            (Use("pot:small", 410, 440), "pot:small is used 2 times at minute 410, there are 1"),
            (Use("pot:big", 479, 490), "pot:big is used 2 times at minute 479"),
            (Use("cooker:box", 400, 401), "cooker:box is used 2 times at minute 400"),
            (Use("stove:stick", 419, 440), "stove:stick is used 2 times at minute 419"),
            (Use("cooker:chest", 420, 440), "cooker:chest is used 1 times at minute 420"),
        ],
    )
    def test_names_what_is_used_twice(self, good, room, use, says):
        good[2] = replace(good[2], uses=(*good[2].uses, use))
        with pytest.raises(CheckError, match=says):
            audit(good, room)

    def test_what_ends_makes_room(self, good, room):
        good[2] = replace(good[2], uses=(*good[2].uses, Use("cooker:box", 480, 500)))
        audit(good, room)

    def test_a_dish_left_out_and_one_cooked_twice(self, good, room):
        with pytest.raises(CheckError, match="dish 1 is cooked 0 times"):
            audit([good[0], good[2]], room)
        with pytest.raises(CheckError, match="dish 1 is cooked 2 times"):
            audit([*good, good[1]], room)

    def test_idle_fires_and_lightings_are_drawn_from_the_stock(self, good, room):
        # 2 MJ in the pots and 1.5 MJ for lighting; no fire idles.
        audit(good, replace(room, stock_j={"sticks": 3.5e6}))
        with pytest.raises(CheckError, match="sticks is overdrawn by 100000 J"):
            audit(good, replace(room, stock_j={"sticks": 3.4e6}))

    def test_names_everything_at_once(self, good, room):
        with pytest.raises(CheckError) as caught:
            audit([good[0], replace(good[2], fuel_j=5e6, item=9)], room)
        assert str(caught.value).count(";") == 3
