"""Every kind of bad file: refused, on its line, with what to write instead; never a traceback."""

import os
import time

import pytest

from optimizer.errors import InputError
from optimizer.scenario.reading import parse, read

# what it is | old text | new text | line | key | code | a piece of the message
CHANGES = [
    # quantities
    ("no unit", "600 m", "600", 4, "place.altitude", "unit_missing", "600 m"),
    ("wrong kind", "12 kg", "12 degC", 8, "fuels.sticks.stock", "unit_wrong", "a mass"),
    ("unknown unit", "12 kg", "12 kq", 8, "fuels.sticks.stock", "unit_unknown", "'kq'"),
    ("farad", "12 degC", "54 F", 4, "place.kitchen", "unit_wrong", "write degF"),
    ("coulomb", "12 degC", "12 C", 4, "place.kitchen", "unit_wrong", "write degC"),
    ("negative stock", "12 kg", "-12 kg", 8, "fuels.sticks.stock", "bounds", "less than nothing"),
    ("negative packages", "2 x 465 g", "2 x -465 g", 10, "fuels.propane.stock", "bounds", "less"),
    ("stock as number", "12 kg", "12", 8, "fuels.sticks.stock", "unit_missing", "12 kg"),
    ("sum", "12 kg", "6 kg + 6 kg", 8, "fuels.sticks.stock", "quantity", "nothing is calculated"),
    ("power", "12 kg", "9**9**9 g", 8, "fuels.sticks.stock", "quantity", "nothing is calculated"),
    ("gap", "12 kg", "12 000 g", 8, "fuels.sticks.stock", "quantity", "1000 g"),
    ("nan text", "12 kg", "nan kg", 8, "fuels.sticks.stock", "quantity", "nan kg"),
    ("inf text", "12 kg", "1e999 kg", 8, "fuels.sticks.stock", "finite", "finite"),
    ("energy", "12 kg", "12 kWh", 8, "fuels.sticks.stock", "unit_wrong", "not by energy"),
    ("litres", "12 kg", "12 L", 8, "fuels.sticks.stock", "unit_wrong", "density"),
    ("no stock", "    stock: 12 kg\n", "", 7, "fuels.sticks", "missing", "stock: 12 kg"),
    ("too high", "600 m", "9000 m", 4, "place.altitude", "bounds", "at most 5000"),
    ("ice", "water: 8 degC", "water: -1 degC", 4, "place.water", "bounds", "at least 0"),
    ("inches", "4 inch", "'4\"'", 18, "cookers.packed_box.packing.thickness", "quantity", "inch"),
    ("no thickness", "4 inch", "0 inch", 18, "cookers.packed_box.packing.thickness", "bounds", "0"),
    ("field", "gas_burner: 1", "gas_burner: {power: 3 kg}", 13, "stoves.gas_burner.power",
     "unit_wrong", "a power"),
    ("field bound", "gas_burner: 1", "gas_burner: {efficiency: 3}", 13,
     "stoves.gas_burner.efficiency", "bounds", "at most"),
    # money
    ("currency", "0.25 EUR", "0.25 USD", 9, "fuels.sticks.price", "currency", "EUR"),
    ("no price", "0.25 EUR / kg", "0.25 EUR", 9, "fuels.sticks.price", "price", "/ 465 g"),
    ("price of a day", "0.25 EUR / kg", "0.25 EUR / day", 9, "fuels.sticks.price", "unit_wrong",
     "mass"),
    ("price", "0.25 EUR / kg", "-1 EUR / kg", 9, "fuels.sticks.price", "bounds", "negative"),
    ("price number", "0.25 EUR / kg", "0.25", 9, "fuels.sticks.price", "price", "465 g"),
    ("code", "days: 2", "days: 2\ncurrency: euros", 4, "currency", "choice", "EUR"),
    # names
    ("stove", "  stick_stove:", "  stick_stov:", 12, "stoves.stick_stov", "unknown_name",
     "did you mean 'stick_stove'"),
    ("dish", "[porridge, tea]", "[poridge, tea]", 22, "menu[1].dishes[1]", "unknown_name",
     "did you mean 'porridge'"),
    ("material", "material: newspaper", "material: newspapr", 18,
     "cookers.packed_box.packing.material", "unknown_name", "did you mean 'newspaper'"),
    ("like", "gas_burner: 1", "my_burner: {like: gas_burnr}", 13, "stoves.my_burner.like",
     "unknown_name", "did you mean 'gas_burner'"),
    ("too little", "gas_burner: 1", "my_burner: {power: 2 kW}", 13, "stoves.my_burner",
     "too_little", "like:"),
    ("fuel of a stove", "gas_burner: 1", "gas_burner: {fuel: propan}", 13,
     "stoves.gas_burner.fuel", "unknown_name", "did you mean 'propane'"),
    ("goal", "goal: money", "goal: mony", 27, "goal", "unknown_name", "did you mean 'money'"),
    ("goal twice", "goal: money", "goal: [money, money]", 27, "goal[2]", "twice", "twice"),
    ("key", "people:", "peeple:", 2, "peeple", "unknown_key", "did you mean 'people'"),
    ("key of a thing", "count: 1,", "cuont: 1,", 12, "stoves.stick_stove.cuont", "unknown_key",
     "did you mean 'count'"),
    ("key of a meal", "    at: \"07", "    att: \"07", 21, "menu[1].att", "unknown_key",
     "did you mean 'at'"),
    ("where", "where: outdoors", "where: outdoor", 12, "stoves.stick_stove.where", "choice",
     "did you mean 'outdoors'"),
    # what belongs together
    ("no stove", "  stick_stove: {count: 1, where: outdoors}\n  gas_burner: 1", "  {}", 11,
     "stoves", "no_stove", "no stove"),
    ("no pot", "  pot_4l: 2\n  pot_6l: 1", "  pot_4l: 0", 14, "pots", "no_pot", "no pot"),
    ("no fuel", "  propane:", "  butane:", 13, "stoves.gas_burner", "no_fuel", "no stock"),
    ("indoors", "where: outdoors", "where: indoors", 12, "stoves.stick_stove.where",
     "flame_indoors", "outdoors only"),
    ("flame off", "where: outdoors", "flame: false", 12, "stoves.stick_stove.flame",
     "contradiction", "safety"),
    ("low power", "where: outdoors", "low_power: 5 kW", 12, "stoves.stick_stove.low_power",
     "contradiction", "more than the full power"),
    ("vacuum", "{packing: {material: newspaper, thickness: 4 inch}}", "{kind: vacuum}", 18,
     "cookers.packed_box", "contradiction", "needs volume"),
    # clock and days
    ("25 hours", '"07:30"', '"25:00"', 21, "menu[1].at", "clock", "00:00 to 23:59"),
    ("24 hours", '"07:30"', '"24:00"', 21, "menu[1].at", "clock", "00:00 to 23:59"),
    ("60 minutes", '"07:30"', '"07:60"', 21, "menu[1].at", "clock", "00:00 to 23:59"),
    ("number", '"07:30"', "7.30", 21, "menu[1].at", "clock", "'18:30'"),
    ("hours", '"06:00-09:00"', '"06:00"', 5, "cook_hours[1]", "hours", "06:00-09:00"),
    ("backwards", '"06:00-09:00"', '"22:00-02:00"', 5, "cook_hours[1]", "hours", "two stretches"),
    ("overlap", '"16:00-19:00"', '"08:00-10:00"', 5, "cook_hours[2]", "overlap", "overlap"),
    ("no hours", '["06:00-09:00", "16:00-19:00"]', "[]", 5, "cook_hours", "bounds", "at least 1"),
    ("hours of a day", '["06:00-09:00", "16:00-19:00"]', '{day 1: ["06:00-09:00"]}', 5,
     "cook_hours", "missing", "day 2"),
    ("hours beyond", '["06:00-09:00", "16:00-19:00"]',
     '{every day: ["06:00-09:00"], day 3: []}', 5, "cook_hours.day 3", "beyond", "last day, 2"),
    ("day twice", '["06:00-09:00", "16:00-19:00"]',
     '{days 1-2: ["06:00-09:00"], day 2: []}', 5, "cook_hours.day 2", "twice", "second time"),
    ("beyond", "on: [2]", "on: [3]", 25, "menu[2].on", "beyond", "last day, 2"),
    ("day nought", "on: [2]", "on: 0", 25, "menu[2].on", "days", "day 2"),
    ("weekday", "on: [2]", "on: tomorrow", 25, "menu[2].on", "days", "every day"),
    ("no days", "on: [2]", "on: []", 25, "menu[2].on", "days", "empty"),
    ("weather", "goal: money", "weather: [{}, {}, {}]", 27, "weather[3]", "beyond", "last day, 2"),
    ("wind", "goal: money", "weather: [{wind: 100 m/s}]", 27, "weather[1].wind", "bounds", "40"),
    ("date", "goal: money", "start: 2027-13-45", 27, "start", "date", "2027-01-15"),
    ("no date", "goal: money", "start: 5", 27, "start", "date", "2027-01-15"),
    # sizes and types
    ("no days", "days: 2", "days: 0", 3, "days", "bounds", "at least 1"),
    ("many days", "days: 2", "days: 367", 3, "days", "bounds", "at most 366"),
    ("huge", "days: 2", "days: " + "9" * 5000, 3, "days", "type", "whole number"),
    ("inf", "days: 2", "days: .inf", 3, "days", "type", "whole number"),
    ("nothing", "days: 2", "days:", 3, "days", "type", "nothing"),
    ("half", "days: 2", "days: 2.5", 3, "days", "type", "whole number"),
    ("true", "days: 2", "days: true", 3, "days", "type", "whole number"),
    ("town", "{adults: 2, children: 3}", "1001", 2, "people", "bounds", "1000"),
    ("town of two", "{adults: 2, children: 3}", "{adults: 600, children: 600}", 2, "people",
     "bounds", "1200"),
    ("nobody", "{adults: 2, children: 3}", "0", 2, "people", "bounds", "comes to 0"),
    ("words", "{adults: 2, children: 3}", "five", 2, "people.adults|people", "type", "whole"),
    ("nan", "goal: money", "confidence: .nan", 27, "confidence", "finite", "finite"),
    ("sure", "goal: money", "confidence: 1", 27, "confidence", "bounds", "at most"),
    ("all kept", "goal: money", "reserve: 100 %", 27, "reserve", "bounds", "at most"),
    ("no portions", "[porridge, tea]", "[{dish: tea, portions: 0}]", 22,
     "menu[1].dishes[1].portions", "bounds", "0.1"),
    ("portions", "[porridge, tea]", "[{dish: tea, portions: {people: 2, adults: 1}}]", 22,
     "menu[1].dishes[1].portions", "portions", "adults and children"),
    ("no dishes", "[porridge, tea]", "[]", 22, "menu[1].dishes", "bounds", "at least 1"),
    ("list", "pots:\n  pot_4l: 2\n  pot_6l: 1", "pots: [pot_4l]", 14, "pots", "type", "key: value"),
    ("title", "title: Two days", "title: [a]", 1, "title", "type", "a list"),
    ("long title", "title: Two days", "title: " + "x" * 300, 1, "title", "type", "shorter"),
    # marks of safety
    ("lectin", "goal: money", "foods: {kidney_beans: {phaseolus: false}}", 27,
     "foods.kidney_beans.phaseolus", "contradiction", "safety"),
    ("raw meat", "goal: money", "foods: {chicken_thigh: {endpoint: 70 degC}}", 27,
     "foods.chicken_thigh.endpoint", "contradiction", "cannot be less"),
    ("water", "goal: money", "dishes: {drinking_water: {disinfects: false}}", 27,
     "dishes.drinking_water.disinfects", "contradiction", "safety"),
    ("bottle", "goal: money", "dishes: {bottle_water: {serve_at: 40 degC}}", 27,
     "dishes.bottle_water.serve_at", "contradiction", "70 degC"),
    ("half a food", "goal: money", "foods: {oats: {water: 0.5}}", 27, "foods.oats.water",
     "contradiction", "come to 1"),
    ("food of a dish", "goal: money", "dishes: {tea: {ingredients: {tee: 3 g}}}", 27,
     "dishes.tea.ingredients.tee", "unknown_name", "unknown food"),
    ("packing", "packed_box: {packing: {material: newspaper, thickness: 4 inch}}",
     "jar_1l: {kind: packed}", 18, "cookers.jar_1l", "contradiction", "needs packing"),
    ("heat of a fuel", "    stock: 12 kg", "    stock: 12 kg\n    kind: wood\n    lhv: null", 10,
     "fuels.sticks.lhv", "contradiction", "heating value"),
    ("serve at", "goal: money", "dishes: {tea: {serve: at}}", 27, "dishes.tea", "contradiction",
     "serve_at"),
    # YAML
    ("python", "days: 2", "days: !!python/object/apply:os.system ['true']", 3, "days", "tag",
     "python/object"),
    ("own tag", "days: 2", "days: !two 2", 3, "days", "tag", "!two"),
    ("bytes", "days: 2", "days: !!binary aGVsbG8=", 3, "days", "value", "text or a number"),
    ("list as key", "days: 2", "days: 2\n? [a, b]\n: 3", 4, "", "key", "plain word"),
    ("repeated", "days: 2", "days: 2\ndays: 3", 4, "days", "duplicate_key", "second time"),
    ("repeated within", "  pot_6l: 1", "  pot_4l: 1", 16, "pot_4l", "duplicate_key", "second"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("old", "new", "line", "key", "code", "piece"),
    [change[1:] for change in CHANGES],
    ids=[change[0] for change in CHANGES],
)
def test_one_fault_is_told_on_its_line_and_alone(
    changed, told, old, new, line, key, code, piece
) -> None:
    problems = told(changed((old, new)))
    assert len(problems) == 1, "\n".join(map(str, problems))
    (problem,) = problems
    assert (problem.file, problem.line, problem.code) == ("f.yaml", line, code)
    assert problem.key in key.split("|")
    assert piece in problem.message


def test_the_good_scenario_is_good(good) -> None:
    assert len(parse(good).items) == 5


BROKEN = [
    ("empty", "", None, "empty"),
    ("only a comment", "# nothing\n", None, "empty"),
    ("a list", "- a\n", 1, "not_a_mapping"),
    ("a word", "hello\n", 1, "not_a_mapping"),
    ("a tab", "a:\n\tb: 1\n", 2, "yaml"),
    ("open bracket", "a: 1\nb: [1,\n", 3, "yaml"),
    ("two colons", "a: b: c\n", 1, "yaml"),
    ("two documents", "a: 1\n---\nb: 1\n", 2, "yaml"),
    ("no such alias", "a: 1\nb: *c\n", 2, "yaml"),
    ("a directive", "%YAML 1.1\n---\na: 1\n", 1, "yaml"),
    ("a control character", "a: 1\x00\n", None, "yaml"),
    ("nested brackets", "a: " + "[" * 2000, None, "too_deep"),
    ("nested lists", "- " * 2000, None, "too_deep"),
    ("13 deep", "a: " + "[" * 13 + "]" * 13, 1, "too_deep"),
    ("many entries", "a: [" + "1," * 60_000 + "]", None, "too_large"),
]


@pytest.mark.parametrize(
    ("text", "line", "code"), [b[1:] for b in BROKEN], ids=[b[0] for b in BROKEN]
)
def test_what_is_no_tree_is_refused_whole(told, text, line, code) -> None:
    (problem,) = told(text)
    assert (problem.line, problem.code) == (line, code)


def test_aliases_cannot_blow_a_small_file_up(told) -> None:
    lines = ["a: &a [x, x, x, x, x, x, x, x, x]"]
    for before, name in zip("abcdefghijk", "bcdefghijkl", strict=True):
        lines.append(f"{name}: &{name} [{', '.join([f'*{before}'] * 9)}]")
    start = time.perf_counter()
    (problem,) = told("\n".join(lines))
    assert problem.code == "too_deep"
    assert time.perf_counter() - start < 5


def test_an_alias_of_itself_ends(told) -> None:
    assert {p.code for p in told("a: &a [*a]\n")} & {"too_deep", "unknown_key"}


def test_arithmetic_is_refused_at_once(changed, told) -> None:
    start = time.perf_counter()
    problems = told(changed(("12 kg", "9**9**9**9 g"), ("600 m", "10**10**10 m")))
    assert [p.code for p in problems] == ["quantity", "quantity"]
    assert time.perf_counter() - start < 2


def test_all_faults_are_told_at_once_in_the_order_of_the_file(changed, told) -> None:
    text = changed(
        ("600 m", "600"),
        ("12 kg", "-12 kg"),
        ("gas_burner: 1", "gas_burner: {power: 3 kg}"),
        ('"07:30"', '"31:00"'),
        ("[porridge, tea]", "[poridge, tea]"),
        ("on: [2]", "on: [9]"),
        ("goal: money", "gaol: money"),
    )
    problems = told(text)
    assert [(p.line, p.code) for p in problems] == [
        (4, "unit_missing"),
        (8, "bounds"),
        (13, "unit_wrong"),
        (21, "clock"),
        (22, "unknown_name"),
        (25, "beyond"),
        (27, "unknown_key"),
    ]
    assert str(problems[1]) == "f.yaml:8: fuels.sticks.stock: '-12 kg' is less than nothing"


def test_two_faults_of_one_thing_are_both_told(changed, told) -> None:
    text = changed(("gas_burner: 1", "gas_burner: {power: 3 kg, fuel: propan, count: -1}"))
    assert [p.key for p in told(text)] == [
        "stoves.gas_burner.count",
        "stoves.gas_burner.fuel",
        "stoves.gas_burner.power",
    ]


def test_a_faulty_part_makes_no_further_faults(changed, told) -> None:
    """A stove is not blamed for its fuel's faulty stock, nor a meal for the faulty days."""
    assert len(told(changed(("2 x 465 g", "2 x 465 F")))) == 1
    assert len(told(changed(("days: 2", "days: many")))) == 1
    assert len(told(changed(("days: 2", "days: 2\ncurrency: euros")))) == 1


def test_a_year_of_feasts_is_too_much(changed, told) -> None:
    feast = "[" + ", ".join(["tea"] * 30) + "]"
    (problem,) = told(changed(("days: 2", "days: 366"), ("[porridge, tea]", feast)))
    assert (problem.key, problem.code) == ("menu", "too_large")


def test_an_empty_mapping_names_every_key_that_is_missing(told) -> None:
    needed = {"title", "people", "place", "days", "cook_hours", "menu", "fuels", "stoves", "pots"}
    problems = told("cooks: 1\n")
    assert {p.code for p in problems} == {"missing"}
    assert {p.message.split("'")[1] for p in problems} == needed


CHARCOAL = "  brazier: {like: charcoal_brazier, where: WHERE}"


@pytest.mark.parametrize("where", ["indoors", "vented hob"])
def test_charcoal_stands_outdoors_only(changed, told, where) -> None:
    text = changed(
        ("  gas_burner: 1", "  gas_burner: 1\n" + CHARCOAL.replace("WHERE", where)),
        ("  propane:", "  charcoal: {stock: 5 kg}\n  propane:"),
    )
    (problem,) = told(text)
    assert (problem.key, problem.code) == ("stoves.brazier.where", "flame_indoors")


def test_a_flame_cannot_be_renamed_away(changed, told) -> None:
    """A new stove that burns something has a flame, whatever the file says of it."""
    text = changed(("gas_burner: 1", "heater: {like: gas_burner, flame: false, where: indoors}"))
    assert {p.code for p in told(text)} == {"contradiction", "flame_indoors"}


class TestFiles:
    def test_missing(self, tmp_path) -> None:
        self.refused(tmp_path / "none.yaml", "missing_file")

    def test_folder(self, tmp_path) -> None:
        self.refused(tmp_path, "folder")

    def test_pipe_is_not_waited_for(self, tmp_path) -> None:
        os.mkfifo(tmp_path / "pipe")
        self.refused(tmp_path / "pipe", "not_a_file")

    def test_name_with_a_nul(self) -> None:
        self.refused("a\0b.yaml", "unreadable")

    def test_too_large_is_refused_unread(self, tmp_path) -> None:
        path = tmp_path / "large.yaml"
        path.write_bytes(b"a" * 20_000_000)
        start = time.perf_counter()
        self.refused(path, "too_large")
        assert time.perf_counter() - start < 0.5

    def test_too_large_a_text(self, told) -> None:
        assert told("a" * 1_000_001)[0].code == "too_large"

    def test_not_utf8(self, tmp_path) -> None:
        path = tmp_path / "latin.yaml"
        path.write_bytes("title: a\npeople: 5 # für alle\n".encode("latin-1"))
        assert self.refused(path, "not_utf8").line == 2

    def test_utf16(self, tmp_path) -> None:
        path = tmp_path / "wide.yaml"
        path.write_bytes("title: a\n".encode("utf-16"))
        self.refused(path, "not_utf8")

    def test_binary(self, tmp_path) -> None:
        path = tmp_path / "binary.yaml"
        path.write_bytes(bytes(range(256)))
        self.refused(path, "not_utf8")

    def test_a_mark_of_byte_order_is_read_over(self, tmp_path, good) -> None:
        path = tmp_path / "bom.yaml"
        path.write_bytes(b"\xef\xbb\xbf" + good.replace("\n", "\r\n").encode())
        assert read(path).title == "Two days"

    @staticmethod
    def refused(path, code):
        with pytest.raises(InputError) as caught:
            read(path)
        (problem,) = caught.value.problems
        assert (problem.code, problem.file) == (code, str(path))
        return problem
