"""What holds for every file: it is a scenario, or it is told what is wrong; never anything else."""

from io import StringIO

from hypothesis import example, given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from optimizer.errors import InputError
from optimizer.model.household import DAY_MIN, Scenario
from optimizer.scenario.reading import parse

ODD = st.sampled_from(
    ["", "null", "[]", "{}", "-1", "0", "1e999", ".nan", "true", "!!int x", "!x y", "*a", "&a b",
     "'", '"', "- ", "? ", ": ", "{a: ", "[", "]", "}", "\t", "\n", "  ", "#", "%", "@", "`", "|",
     ">", "<<: ", "9**9**9 g", "12 kg", "140 F", "25:00", "day 400", "0x10", "0o7", "2027-02-30",
     "\u2028", "\ufeff", "\x07", "??"]
) | st.text(max_size=12)  # fmt: skip


def outcome(text: str) -> Scenario | InputError:
    """A scenario, or what is wrong; any other exception fails the test."""
    try:
        return parse(text, "f.yaml")
    except InputError as error:
        told = error
    assert told.problems
    for problem in told.problems:
        assert problem.message
        assert problem.file == "f.yaml"
        assert problem.line is None or 1 <= problem.line <= len(text.splitlines()) + 1
        assert len(str(problem)) < 1500
    return told


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_a_file_with_a_piece_put_in_is_read_or_told(good, data) -> None:
    at = data.draw(st.integers(0, len(good)))
    upto = data.draw(st.integers(at, min(at + 30, len(good))))
    outcome(good[:at] + data.draw(ODD) + good[upto:])


@settings(max_examples=100, deadline=None)
@given(st.data())
def test_a_value_put_in_place_of_another_is_read_or_told(good, data) -> None:
    lines = good.splitlines()
    row = data.draw(st.integers(0, len(lines) - 1))
    head = lines[row].split(": ", 1)[0]
    lines[row] = f"{head}: {data.draw(ODD)}"
    outcome("\n".join(lines))


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=200))
@example("\x85")
@example("a: \ud7ff")
@example("? ")
@example("--- |\n")
def test_any_text_is_read_or_told(text) -> None:
    assert isinstance(outcome(text), InputError)


VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8)
    | st.sampled_from(["12 kg", "every day", "18:30", "06:00-09:00", "tea", "sticks", "2 EUR/kg"]),
    lambda inner: st.lists(inner, max_size=3)
    | st.dictionaries(
        st.sampled_from(["like", "count", "stock", "price", "dish", "at", "on", "adults", "day 1"]),
        inner,
        max_size=3,
    ),
    max_leaves=6,
)  # fmt: skip
TOP = st.sampled_from(
    ["title", "people", "households", "diets", "place", "weather", "start", "currency", "days",
     "cook_hours", "cooks", "fuels", "stoves", "pots", "cookers", "foods", "materials", "dishes",
     "menu", "goal", "confidence", "reserve"]
)  # fmt: skip


@settings(max_examples=150, deadline=None)
@given(TOP, VALUES)
def test_anything_under_a_top_key_is_read_or_told(good, key, value) -> None:
    tree = YAML(typ="rt", pure=True).load(good)
    tree[key] = value
    written = StringIO()
    YAML(typ="rt", pure=True).dump(tree, written)
    outcome(written.getvalue())


DISHES = st.sampled_from(["porridge", "tea", "rice", "lentil_soup", "drinking_water"])
MEALS = st.lists(
    st.tuples(st.integers(0, DAY_MIN - 1), st.lists(DISHES, min_size=1, max_size=3)),
    min_size=1,
    max_size=5,
)


@settings(max_examples=40, deadline=None)
@given(
    adults=st.integers(0, 20),
    children=st.integers(1, 20),
    days=st.integers(1, 30),
    meals=MEALS,
    kg=st.floats(0, 1e4),
)
def test_what_is_written_is_what_is_read(good, adults, children, days, meals, kg) -> None:
    tree = YAML(typ="rt", pure=True).load(good)
    tree["people"] = {"adults": adults, "children": children}
    tree["days"] = days
    tree["fuels"]["sticks"]["stock"] = f"{kg!r} kg"
    tree["menu"] = [
        {"meal": "some", "at": f"{at // 60:02}:{at % 60:02}", "dishes": dishes}
        for at, dishes in meals
    ]
    written = StringIO()
    YAML(typ="rt", pure=True).dump(tree, written)
    scenario = parse(written.getvalue())
    assert (scenario.adults, scenario.children, scenario.days) == (adults, children, days)
    assert abs((scenario.stores[0].stock_kg or 0) - kg) <= 1e-12 * kg
    served = sorted(
        (DAY_MIN * day + at, dish) for day in range(days) for at, dishes in meals for dish in dishes
    )
    assert sorted((item.serve_min, item.dish.name) for item in scenario.items) == served
    assert [item.number for item in scenario.items] == list(range(len(served)))
