"""Prices of linear programs and how far they hold, against print, ranging and solving again."""

import highspy
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from optimizer.planning import parametric
from optimizer.planning.parametric import Piece, ends_of, held, optimum_of
from optimizer.planning.solver import Program, add_column, add_row, set_goal


def program_of(goal, rows, sides, *, most=False, moved=0):
    """Rows ``<= sides``; one more of the quantity is one more on the side of the row that moves."""
    program = Program(most=most)
    columns = [add_column(program, f"x[{n}]") for n in range(len(goal))]
    quantity = add_column(program, "quantity", low=None)
    for number, (row, side) in enumerate(zip(rows, sides, strict=True)):
        moves = number == moved
        pairs = [*zip(columns, row, strict=True), *([(quantity, -1.0)] if moves else [])]
        add_row(program, f"row[{number}]", pairs, "<=", 0.0 if moves else side)
    set_goal(program, list(zip(columns, goal, strict=True)))
    return program, quantity


# The example of two products and three plants that textbooks of operations research work through
# (Hillier and Lieberman, Introduction to Operations Research; from memory): most 3 x1 + 5 x2 with
# x1 <= 4, 2 x2 <= 12, 3 x1 + 2 x2 <= 18. Shadow prices 0, 3/2, 1; allowable ranges 2 and more,
# 6 to 18, 12 to 24.
@pytest.mark.parametrize(
    ("row", "price", "low", "high"),
    [(0, 0.0, 2.0, None), (1, 1.5, 6.0, 18.0), (2, 1.0, 12.0, 24.0)],
)
def test_the_worked_example_of_two_products(row, price, low, high):
    sides = (4.0, 12.0, 18.0)
    program, quantity = program_of((3, 5), ((1, 0), (0, 2), (3, 2)), sides, most=True, moved=row)
    found = held(program, quantity, at=sides[row], least=0.0, most=100.0)
    assert found is not None
    assert found.piece.optimum == pytest.approx(36.0)
    assert found.piece.price == pytest.approx(price)
    assert found.low == pytest.approx(low)
    assert found.high == pytest.approx(100.0 if high is None else high)


def random_program(seed):
    """Three dishes, each cheap on a scarce store or dear on another; so much of each store."""
    chance = np.random.default_rng(seed)
    cheap, dear = chance.uniform(1, 2, 3), chance.uniform(3, 5, 3)
    goal = np.ravel(np.column_stack([cheap, dear]))
    first = np.ravel(np.column_stack([chance.uniform(1, 3, 3), chance.uniform(0, 0.3, 3)]))
    second = np.ravel(np.column_stack([chance.uniform(0, 0.3, 3), chance.uniform(0.2, 1, 3)]))
    wanted = np.kron(np.eye(3), [-1.0, -1.0])
    stores = [chance.uniform(1, 6), chance.uniform(0.8, 3)]
    return goal, np.vstack([first, second, wanted]), np.array([*stores, -1.0, -1.0, -1.0])


def optimum(goal, rows, sides, moved, at):
    """The same by another library."""
    changed = sides.copy()
    changed[moved] = at
    return linprog(goal, rows, changed, method="highs-ipm")


@pytest.mark.parametrize("seed", range(30))
def test_a_price_holds_just_as_far_as_another_library_finds(seed):
    goal, rows, sides = random_program(seed)
    program, quantity = program_of(goal, rows, sides)
    found = held(program, quantity, at=sides[0], least=0.0, most=30.0)
    other = optimum(goal, rows, sides, 0, sides[0])
    if found is None:
        assert other.status == 2  # infeasible
        return
    piece = found.piece
    assert piece.optimum == pytest.approx(other.fun)
    assert 0.0 <= found.low <= sides[0] + 1e-6
    assert sides[0] - 1e-6 <= found.high <= 30.0
    for share in (0.0, 0.3, 0.7, 1.0):
        inside = found.low + share * (found.high - found.low)
        again = optimum(goal, rows, sides, 0, inside + 1e-9)
        assert again.fun == pytest.approx(piece.line(inside), abs=1e-5)
    for beyond in (found.low - 0.05, found.high + 0.05):
        if 0 <= beyond <= 30:
            again = optimum(goal, rows, sides, 0, beyond)
            assert again.status == 2 or again.fun > piece.line(beyond) + 1e-9


def test_the_random_programs_have_prices_that_end_on_both_sides():
    found = [
        held(*program_of(*p), at=p[2][0], least=0, most=30) for p in map(random_program, range(30))
    ]
    priced = [each for each in found if each is not None and each.piece.price < -1e-6]
    assert len(priced) > 10
    assert any(each.low > 0 for each in priced)
    assert all(each.high < 30 for each in priced)


@pytest.mark.parametrize("seed", range(30))
def test_the_range_is_that_of_the_solver_s_own_ranging(seed):
    goal, rows, sides = random_program(seed)
    program, quantity = program_of(goal, rows, sides)
    found = held(program, quantity, at=sides[0], least=-50.0, most=50.0)
    engine = highspy.Highs()
    engine.setOptionValue("output_flag", False)
    engine.setOptionValue("threads", 1)
    engine.addVars(6, np.zeros(6), np.full(6, highspy.kHighsInf))
    for number, cost in enumerate(goal):
        engine.changeColCost(number, cost)
    for row, side in zip(rows, sides, strict=True):
        engine.addRow(-highspy.kHighsInf, side, 6, np.arange(6, dtype=np.int32), row)
    engine.run()
    if engine.getModelStatus() != highspy.HighsModelStatus.kOptimal:
        assert found is None
        return
    assert found is not None
    price = engine.getSolution().row_dual[0]
    assert found.piece.price == pytest.approx(price, abs=1e-9)
    if price == 0:
        return  # ranging then tells where the row binds, which is the lower end only
    status, ranging = engine.getRanging()
    assert status == highspy.HighsStatus.kOk
    assert found.low <= ranging.row_bound_dn.value_[0] + 1e-6
    assert found.high >= ranging.row_bound_up.value_[0] - 1e-6
    assert found.low == pytest.approx(ranging.row_bound_dn.value_[0], abs=1e-5)
    assert found.high == pytest.approx(ranging.row_bound_up.value_[0], abs=1e-5)


@settings(max_examples=30, deadline=None)
@given(seed=st.integers(100, 10_000), share=st.floats(0.05, 0.95))
def test_anywhere_inside_the_price_and_its_range_are_the_same(seed, share):
    goal, rows, sides = random_program(seed)
    program, quantity = program_of(goal, rows, sides)
    found = held(program, quantity, at=sides[0], least=0.0, most=30.0)
    if found is None or found.high - found.low < 1e-3:
        return
    inside = found.low + share * (found.high - found.low)
    again = held(program, quantity, at=inside, least=0.0, most=30.0)
    assert again is not None
    assert again.piece.price == pytest.approx(found.piece.price, abs=1e-6)
    assert again.low == pytest.approx(found.low, abs=1e-4)
    assert again.high == pytest.approx(found.high, abs=1e-4)


def test_where_there_is_no_solution_there_is_no_price():
    program, quantity = program_of((1.0,), ((1.0,), (-1.0,)), (0.5, -1.0))
    assert held(program, quantity, at=0.5, least=0.0, most=5.0) is None
    found = held(program, quantity, at=2.0, least=0.0, most=5.0)
    assert found is not None
    assert (found.low, found.high, found.piece.price) == pytest.approx((1.0, 5.0, 0.0))


def test_the_program_is_left_as_it_was():
    program, quantity = program_of((3, 5), ((1, 0), (0, 2), (3, 2)), (4, 12, 18), most=True)
    before = (quantity.lowBound, quantity.upBound, dict(program.problem.objective))
    held(program, quantity, at=4.0, least=0.0, most=10.0)
    assert (quantity.lowBound, quantity.upBound, dict(program.problem.objective)) == before


def box(*, most, low=None, high=None):
    """A quantity between 2 and 7 by its rows, and a cost that falls to 4, is even to 5, rises."""
    program = Program(most=most)
    quantity = add_column(program, "quantity", low=low, high=high)
    cost = add_column(program, "cost", low=None)
    sign = -1.0 if most else 1.0
    for name, slope, start in (("falls", -3.0, 12.0), ("even", 0.0, 0.0), ("rises", 2.0, -10.0)):
        pairs = [(cost, sign), (quantity, -slope)]
        add_row(program, name, pairs, ">=", start)
    add_row(program, "least", [(quantity, 1.0)], ">=", 2.0)
    add_row(program, "most", [(quantity, 1.0)], "<=", 7.0)
    set_goal(program, [(cost, 1.0)])
    return program, quantity


@pytest.mark.parametrize("most", [False, True])
@pytest.mark.parametrize(
    ("at", "optimum", "price", "low", "high"),
    [(3.0, 3.0, -3.0, 2.0, 4.0), (4.5, 0.0, 0.0, 4.0, 5.0), (6.0, 2.0, 2.0, 5.0, 7.0)],
)
def test_each_piece_of_a_cost_of_three_pieces(most, at, optimum, price, low, high):
    sign = -1.0 if most else 1.0
    found = held(*box(most=most), at=at, least=-10.0, most=20.0)
    assert found is not None
    assert found.piece.at == at
    assert (found.piece.optimum, found.piece.price) == pytest.approx((sign * optimum, sign * price))
    assert (found.low, found.high) == pytest.approx((low, high))


@pytest.mark.parametrize("at", [2.0, 4.0, 5.0, 7.0])
def test_where_pieces_meet_or_end_the_price_holds_to_one_side_at_most(at):
    found = held(*box(most=False), at=at, least=0.0, most=20.0)
    assert found is not None
    assert found.low == pytest.approx(at) or found.high == pytest.approx(at)
    assert found.low <= at <= found.high


@pytest.mark.parametrize("most", [False, True])
@pytest.mark.parametrize(
    ("least", "largest", "ends"),
    [(-10.0, 20.0, (2.0, 7.0)), (3.0, 6.0, (3.0, 6.0)), (0.0, 2.5, (2.0, 2.5))],
)
def test_the_ends_are_those_of_the_rows_or_as_far_as_is_looked(most, least, largest, ends):
    program, quantity = box(most=most)
    assert ends_of(program, quantity, least, largest) == pytest.approx(ends)


def test_beyond_what_the_rows_allow_there_are_no_ends():
    program, quantity = box(most=False, low=1.0, high=9.0)
    goal = dict(program.problem.objective)
    for least, largest in ((7.5, 20.0), (-5.0, 1.5)):
        assert ends_of(program, quantity, least, largest) is None
        assert held(program, quantity, at=3.0, least=least, most=largest) is None
    assert (quantity.lowBound, quantity.upBound) == (1.0, 9.0)
    assert dict(program.problem.objective) == goal


def test_as_far_as_is_looked_takes_in_the_number_itself():
    program, quantity = box(most=False)
    below = held(program, quantity, at=6.0, least=2.0, most=5.5)
    assert below is not None
    assert (below.low, below.high) == pytest.approx((5.0, 6.0))
    above = held(program, quantity, at=3.0, least=3.5, most=7.0)
    assert above is not None
    assert (above.low, above.high) == pytest.approx((3.0, 4.0))


def test_the_optimum_at_a_number_and_none_beyond_the_rows():
    program, quantity = box(most=False, low=-1.0, high=30.0)
    optimum = optimum_of(program, quantity)
    assert optimum(6.5) == Piece(6.5, pytest.approx(3.0), pytest.approx(2.0))
    assert optimum(1.9) is None
    assert optimum(7.1) is None
    assert (quantity.lowBound, quantity.upBound) == (-1.0, 30.0)


def test_a_line_goes_on_at_its_price():
    piece = Piece(3.0, 10.0, -2.0)
    assert [piece.line(at) for at in (3.0, 5.0, 0.0)] == [10.0, 6.0, 16.0]


def test_an_end_that_rounding_missed_is_looked_for_just_inside_it(monkeypatch):
    """No solution is found in the last 3e-8 before the end; it is come nearer to by small steps."""
    program, quantity = box(most=False)
    whole = optimum_of(program, quantity)

    def short(at):
        return whole(at) if at <= 7.0 - 3e-8 else None

    monkeypatch.setattr(parametric, "optimum_of", lambda *_: short)
    found = held(program, quantity, at=6.9, least=0.0, most=20.0)
    assert found is not None
    assert short(found.high) is not None
    assert found.high == pytest.approx(7.0, rel=0, abs=2e-7)
