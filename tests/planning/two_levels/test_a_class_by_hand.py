"""What a class of starts promises, in minutes that can be counted by hand."""

from dataclasses import replace

import pytest

from optimizer.planning.classes import classes_of, moments_of
from optimizer.planning.columns import Burn, Use

HALF_HOURS = ((360, 390, 420, 450, 480), (1020, 1140))


@pytest.fixture(name="boxed")
def _boxed(cook):
    """Some minutes on gas, then in the box until 10:00."""

    def boxed(start, minutes=20, **other):
        return cook(0, "gas", start, minutes, held=600, cooker="cooker:box", **other)

    return boxed


def one(*columns):
    (found,) = classes_of(columns, HALF_HOURS)
    return found


def test_hours_are_cut_at_the_last_minute_of_a_dish_and_evenly_between(cook, kitchen):
    columns = cook(0, "gas", 380, 20), cook(0, "gas", 400, 20), cook(0, "gas", 390, 20)
    assert moments_of(columns, kitchen(0), 30) == (
        (360, 390, 420, 450, 480),  # 7:00 is the last minute
        (1020, 1050, 1080, 1110, 1140),
    )
    assert moments_of(columns, kitchen(0), 200) == ((360, 480), (1020, 1140))


@pytest.mark.parametrize(
    ("ends", "moments"),
    [
        ((420, 435), (360, 420, 435, 480)),  # half of thirty minutes apart
        ((420, 430), (360, 420, 480)),
        ((375,), (360, 375, 480)),
        ((370,), (360, 480)),
        ((465,), (360, 465, 480)),
        ((470,), (360, 480)),
    ],
)
def test_cuts_close_to_each_other_are_one(ends, moments, cook, kitchen):
    columns = [cook(n, "gas", end - 10, 10) for n, end in enumerate(ends)]
    found = moments_of(columns, kitchen(0, 1), 30)[0]
    assert set(moments) <= set(found)
    assert not {*ends} - {*moments} & {*found}


def test_cuts_are_on_the_clock_s_grid(kitchen):
    # 120 minutes in five: 24, 48, 72 and 96, to the next five
    assert moments_of((), kitchen(), 25)[0] == (360, 385, 410, 430, 455, 480)


def test_starts_are_alike_whose_burns_lie_in_the_same_stretches(boxed):
    columns = [boxed(start) for start in (390, 395, 400, 405)]
    classes = classes_of(columns, HALF_HOURS)
    # from 6:30 to 7:00, both ends included; the last one burns until 7:05
    assert [each.members for each in classes] == [tuple(columns[:3]), (columns[3],)]


@pytest.mark.parametrize(("fuel_mj", "classes"), [(1.0001, 1), (1.01, 2)])
def test_starts_that_burn_more_are_others(boxed, fuel_mj, classes):
    columns = boxed(390), boxed(395, fuel_mj=fuel_mj)
    assert len(classes_of(columns, HALF_HOURS)) == classes


def test_how_much_more_is_a_share_of_the_least_of_the_dish(boxed):
    columns = boxed(365), boxed(390, fuel_mj=10), boxed(395, fuel_mj=10.02)
    assert len(classes_of(columns, HALF_HOURS)) == 3  # 0.02 MJ are 2 % of 1 MJ


def test_what_takes_no_fuel_has_classes_too(boxed):
    columns = boxed(390, fuel_mj=0), boxed(395, fuel_mj=0), boxed(400, fuel_mj=1)
    classes = classes_of(columns, HALF_HOURS)
    assert [len(each.members) for each in classes] == [2, 1]
    assert [len(each.members) for each in classes_of(columns[:2], HALF_HOURS)] == [2]


def test_the_least_of_its_members(boxed):
    members = boxed(390, money=1.0, tend_min=20), boxed(395, fuel_mj=1.0001, tend_min=10, money=2)
    found = one(*members[::-1])
    assert (found.fuel_j, found.money, found.tend_min) == (1e6, 1.0, 10)
    assert (found.item, found.stove, found.fuel, found.windows) == (0, "gas", "butane", (0,))
    assert not found.tended
    held = [replace(m, uses=(*m.uses, Use("cook", 390, 415))) for m in members]
    assert one(*held).tended


def test_minutes_that_all_and_that_some_burn(boxed):
    found = one(boxed(365, 60), boxed(370, 60))  # 6:05 to 7:05, 6:10 to 7:10
    assert found.least == (((0, 360, 390), 20), ((0, 390, 420), 30), ((0, 420, 450), 5))
    assert found.most == (((0, 360, 390), 25), ((0, 390, 420), 30), ((0, 420, 450), 10))
    assert found.across == ((0, 390), (0, 420))


def test_a_burn_from_one_moment_to_another_is_in_that_stretch_alone(cook):
    found = one(cook(0, "gas", 390, 30))
    assert found.least == found.most == (((0, 390, 420), 30),)
    assert found.across == ()
    first = one(cook(0, "gas", 360, 10))
    assert first.least == (((0, 360, 390), 10),)


def test_a_second_boil_counts_with_the_first(boxed, cook):
    assert one(cook(0, "gas", 390, 10, again=(410, 415))).least == (((0, 390, 420), 15),)
    evening = boxed(390)
    evening = replace(evening, burns=(*evening.burns, Burn("gas", 1, 1020, 1030)))
    found = one(evening)
    assert found.windows == (0, 1)
    assert found.least == (((0, 390, 420), 20), ((1, 1020, 1140), 10))


def test_what_all_members_hold(boxed):
    found = one(boxed(390), boxed(395))
    assert set(found.cores) == {
        ("stove:gas", 395, 410),
        ("pot:big", 395, 600),
        ("cooker:box", 415, 600),
    }


def test_what_is_held_one_after_the_other_is_never_held_by_all(boxed):
    found = one(boxed(390, 10), boxed(400, 10))
    assert [resource for resource, _, _ in found.cores] == ["pot:big", "cooker:box"]


def test_where_one_member_does_without_a_thing_nothing_is_promised(boxed):
    never = boxed(395)
    gone = tuple(replace(u, start=600) if u.resource == "cooker:box" else u for u in never.uses)
    assert one(boxed(390), replace(never, uses=gone)).cores == ()
