"""What happens to a pot: no gap, no overlap, from the stove to the table."""

from itertools import pairwise

from optimizer.model.plan import Plan
from optimizer.report.stretches import stretches


def test_from_the_stove_to_the_table_without_a_gap(plan: Plan) -> None:
    for step in plan.steps:
        found = stretches(step)
        assert (found[0].start, found[-1].end) == (step.on, step.serve)
        assert all(one.end == other.start for one, other in pairwise(found))
        assert all(each.start < each.end for each in found)


def test_a_boxed_stew_that_is_boiled_again(plan: Plan) -> None:
    told = [(each.doing, each.start, each.end) for each in stretches(plan.steps[2])]
    assert told == [
        ("fire", 966, 990),
        ("boil", 990, 1022),
        ("wait", 1022, 1024),
        ("cooker", 1024, 1092),
        ("fire", 1092, 1101),
        ("boil", 1101, 1106),
        ("wait", 1106, 1110),
    ]


def test_what_lies_within_a_day(plan: Plan) -> None:
    (fire, *_) = stretches(plan.steps[0])
    assert fire.within(370, 375) is not None
    assert fire.within(0, fire.start) is None
    assert fire.within(fire.end, 2000) is None
