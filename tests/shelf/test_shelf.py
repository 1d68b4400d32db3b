"""Reading the tables: types, what is refused, where they are found, how fast."""

import shutil
import subprocess
import sys
import time
import tomllib
from pathlib import Path

import pytest

from optimizer import shelf

CHECKOUT = Path(__file__).parents[2]
find_data = shelf.data_folder.__wrapped__
read_all = shelf.load.__wrapped__


@pytest.fixture
def spoiled(monkeypatch):
    """Read the tables with one cell changed."""
    read_rows = shelf.read_rows

    def spoil(table, column, cell, row=0):
        def rows(asked):
            found = read_rows(asked)
            if asked == table:
                found[row][column] = cell
            return found

        monkeypatch.setattr(shelf, "read_rows", rows)
        return read_all

    return spoil


def test_shelf_is_read_once():
    assert shelf.load() is shelf.load()


@pytest.mark.parametrize("mapping", ["fuels", "stoves", "pots", "cookers", "foods", "dishes"])
def test_records_are_under_their_names_in_the_order_of_the_table(mapping):
    things = getattr(shelf.load(), mapping)
    assert [thing.name for thing in things.values()] == list(things)
    assert list(things) == [row["name"] for row in shelf.read_rows(mapping)]


def test_nothing_on_the_shelf_can_be_changed():
    with pytest.raises(TypeError):
        shelf.load().fuels["dung"] = shelf.load().fuels["sticks"]
    with pytest.raises(AttributeError):
        shelf.load().rules.hot_c = 40


def test_cells_are_read_by_the_types_of_fields():
    stove = shelf.load().stoves["stick_stove"]
    assert type(stove.power_w) is float
    assert type(stove.places) is int
    assert stove.tended is True
    assert shelf.load().fuels["sticks"].vapour is None


def test_named_things_are_put_in():
    box = shelf.load().cookers["packed_box"]
    assert box.material is shelf.load().materials["newspaper"]
    bean = shelf.load().dishes["bean_stew"].ingredients[0]
    assert bean.food is shelf.load().foods["kidney_beans"]
    assert bean.kg == 0.08


def test_a_column_has_bounds_or_none():
    columns = shelf.load().columns
    assert columns["rules", "bean_boil_min"].minimum == 30
    assert columns["stoves", "tended"].maximum is None


def test_rules_are_floats():
    assert shelf.load().rules.water_high_m == 1524.0


@pytest.mark.parametrize(
    ("table", "column", "cell", "error"),
    [
        ("fuels", "kind", "dung", ValueError),
        ("fuels", "lhv_spread", "", ValueError),
        ("stoves", "power_w", "2 kW", ValueError),
        ("stoves", "start_min", "2.5", ValueError),
        ("stoves", "tended", "maybe", KeyError),
        ("cookers", "material", "moss", KeyError),
        ("dish_ingredients", "food", "moss", KeyError),
        ("rules", "value", "warm", ValueError),
        ("rules", "name", "warm_c", TypeError),
        ("rules", "name", "bean_boil_c", ValueError),
        ("pots", "name", "pot_4l", ValueError),
    ],
)
def test_a_wrong_cell_is_refused(spoiled, table, column, cell, error):
    with pytest.raises(error):
        spoiled(table, column, cell)()


def test_a_wrong_choice_is_named_with_what_it_may_be(spoiled):
    with pytest.raises(ValueError, match=r"'dung' is none of .*'gas'"):
        spoiled("fuels", "kind", "dung")()


def test_data_of_the_checkout_are_found_when_there_are_none_in_the_package(tmp_path, monkeypatch):
    monkeypatch.setattr(shelf, "files", lambda _: tmp_path)
    assert Path(str(find_data())) == CHECKOUT / "data"


def test_data_in_the_package_come_first(tmp_path, monkeypatch):
    shutil.copytree(CHECKOUT / "data" / "tables", tmp_path / "_data" / "tables")
    monkeypatch.setattr(shelf, "files", lambda _: tmp_path)
    assert find_data() == tmp_path / "_data"
    monkeypatch.setattr(shelf, "data_folder", find_data)
    assert read_all() == shelf.load()


def test_missing_data_are_told(tmp_path, monkeypatch):
    monkeypatch.setattr(shelf, "files", lambda _: tmp_path)
    monkeypatch.setattr(shelf, "__file__", str(tmp_path / "optimizer" / "shelf.py"))
    with pytest.raises(FileNotFoundError, match="data of fuelthrift is missing"):
        find_data()


def test_wheel_carries_the_data_where_they_are_looked_for():
    settings = tomllib.loads((CHECKOUT / "pyproject.toml").read_text(encoding="utf-8"))
    wheel = settings["tool"]["hatch"]["build"]["targets"]["wheel"]
    assert "data" in wheel["only-include"]
    assert wheel["sources"]["data"] == "optimizer/_data"


def test_reading_is_fast():
    # 20 ms are wanted; a busy machine gets some more, the best of five counts.
    def seconds():
        start = time.perf_counter()
        read_all()
        return time.perf_counter() - start

    assert min(seconds() for _ in range(5)) < 0.05


def test_shelf_needs_no_heavy_library():
    heavy = "{'numpy', 'pint', 'pandas', 'pulp', 'pydantic', 'optimizer.physics'}"
    code = (
        "import sys; from optimizer import shelf; shelf.load(); "
        f"print(sorted({heavy} & set(sys.modules)))"
    )
    told = subprocess.run(
        [sys.executable, "-c", code], cwd=CHECKOUT, capture_output=True, text=True, check=True
    )
    assert told.stdout.strip() == "[]"
