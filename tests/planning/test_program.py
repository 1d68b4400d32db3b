"""The text of a program, and what it takes a column, a row and a goal to be."""

import pulp
import pytest

from optimizer.planning.program import Program, add_column, add_row, dump, set_goal
from optimizer.planning.solver import solve, solve_linear, value


def lunch(*, most):
    """Soup, of which there may be any amount up to 4, and loaves, which are whole."""
    program = Program(most=most)
    loaves = add_column(program, "loaves", low=None, whole=True)
    soup = add_column(program, "soup", high=4)
    add_row(program, "hunger", [(soup, 0.5), (loaves, -2)], ">=", 1.25)
    add_row(program, "pot", [(soup, 3), (loaves, 0)], "<=", 12)
    add_row(program, "bag", [(loaves, 1)], "==", 0)
    return program, soup, loaves


@pytest.mark.parametrize(("most", "goal"), [(True, "most"), (False, "least")])
def test_the_whole_text(most, goal):
    program, soup, loaves = lunch(most=most)
    set_goal(program, [(soup, 0.125), (loaves, -1)])
    assert dump(program) == (
        f"{goal}: +0.125 soup -1 loaves\n"
        "bag: +1 loaves == 0\n"
        "hunger: +0.5 soup -2 loaves >= 1.25\n"
        "pot: +3 soup <= 12\n"
        "loaves in [None, None] whole\n"
        "soup in [0.0, 4]\n"
    )


def test_without_a_goal_nothing_is_least():
    program, *_ = lunch(most=False)
    assert dump(program).startswith("least: \nbag:")
    assert dump(Program()) == "least: \n"


def test_a_column_is_not_whole_unless_asked_and_not_below_zero():
    program = Program()
    plain = add_column(program, "plain")
    assert (plain.cat, plain.lowBound, plain.upBound) == (pulp.LpContinuous, 0.0, None)
    assert not program.whole
    assert add_column(program, "counted", whole=True).cat == pulp.LpInteger
    assert program.whole


def test_columns_and_rows_are_numbered_in_the_order_they_came():
    program, soup, loaves = lunch(most=False)
    assert [loaves.name, soup.name] == ["c0000000", "c0000001"]
    assert [row.name for row in program.rows.values()] == ["r0000000", "r0000001", "r0000002"]
    assert program.problem.variables() == [loaves, soup]


@pytest.mark.parametrize(("most", "best"), [(True, 4.0), (False, 2.5)])
def test_most_and_least_are_the_two_ends(most, best):
    program, soup, _ = lunch(most=most)
    assert program.problem.sense == (pulp.LpMaximize if most else pulp.LpMinimize)
    set_goal(program, [(soup, 1)])
    assert solve(program).objective == pytest.approx(best)
    assert value(soup) == pytest.approx(best)


def test_a_whole_column_takes_no_part_of_one():
    for whole, best in ((True, 3.0), (False, 2.5)):
        program = Program()
        pots = add_column(program, "pots", whole=whole)
        add_row(program, "enough", [(pots, 2)], ">=", 5)
        set_goal(program, [(pots, 1)])
        assert solve(program).objective == pytest.approx(best)


def test_a_new_goal_takes_the_place_of_the_old_one():
    program, soup, loaves = lunch(most=False)
    set_goal(program, [(loaves, 7)])
    set_goal(program, [(soup, 2)])
    assert dict(program.problem.objective) == {loaves: 0.0, soup: 2}
    assert solve_linear(program).objective == pytest.approx(5.0)


def test_what_is_wrong_is_named():
    program, soup, _ = lunch(most=False)
    with pytest.raises(ValueError, match=r"^column soup: the name is used already$"):
        add_column(program, "soup")
    with pytest.raises(ValueError, match=r"^row pot: the name is used already$"):
        add_row(program, "pot", [(soup, 1)], "<=", 1)
    with pytest.raises(ValueError, match=r"^row twice: a column stands in it twice$"):
        add_row(program, "twice", [(soup, 1), (soup, 2)], "<=", 1)
    with pytest.raises(ValueError, match=r"^the goal names a column twice$"):
        set_goal(program, [(soup, 1), (soup, 2)])
    assert len(program.columns) == 2
    assert len(program.rows) == 3
