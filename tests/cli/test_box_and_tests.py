"""``box``, ``test-box`` and ``test-stove`` as a household and a program use them."""

import json

import pytest

from optimizer import shelf
from optimizer.planning.planner import plan
from optimizer.scenario.reading import read

BOX_CSV = """\
# water: 2.0 L
# pot: pot_2_5l
# room: 15 degC
time_min,temp_c
0,97.0
15,93.1
30,90.3
60,85.5
90,81.3
120,70.1
180,70.7
240,64.9
300,59.6
"""
STOVE_YAML = """\
fuel: sticks
pot: pot_2_5l
air: 15 degC
cold: {fuel: 300 g, water: 2.0 kg, water_left: 1.95 kg, water_from: 12 degC,
  water_to: 99 degC, time: 15 min}
"""


@pytest.fixture
def readings(tmp_path):
    path = tmp_path / "test.csv"
    path.write_text(BOX_CSV, encoding="utf-8")
    return path


@pytest.fixture
def boiling(tmp_path):
    path = tmp_path / "stove.yaml"
    path.write_text(STOVE_YAML, encoding="utf-8")
    return path


def narrow(said):
    return max(len(line) for line in said.stdout.splitlines()) <= 80


@pytest.mark.parametrize(
    "options",
    [
        (),
        ("--units", "us", "--bag", "20 gal", "--damp"),
        ("--cooker", "jar_2l"),
        ("--cooker", "quilt_chest", "--pot", "pot_15l", "--fill", "0.5", "--boil", "20 min"),
        ("--have", "newspaper 60 L", "--have", "wool_blanket 3 kg", "--have", "eps_board 20 L"),
        ("--material", "straw", "--thickness", "6 inch", "--gap", "0.1", "--blankets", "2"),
        ("--cooker", "chest or bath tub with quilts", "--dish", "rice", "--dish", "bean_stew"),
    ],
)
def test_a_box_is_told_within_80_columns(run, options):
    said = run("box", *options)
    assert said.exit_code == 0, said.stderr
    assert narrow(said)
    assert "°" in said.stdout
    assert "it cannot promise that food is" in " ".join(said.stdout.split())


def test_a_box_in_plain_words(run):
    words = ("--material", "newspaper", "--thickness", "10 cm", "--kitchen", "12 degC")
    text = " ".join(run("box", *words).stdout.split())
    assert "With 10 cm of crumpled newspaper all round, dry: still above 60 °C for about" in text
    assert "A plan counts on" in text
    assert "crumpled newspaper 7 1/2 h 5 h replace" in text


def test_a_box_for_a_program(run):
    told = json.loads(run("box", "--bag", "40 L", "--json", "-").stdout)
    assert told["version"] == 1
    assert told["holding"]["planned_h"] < told["holding"]["hot_h_low"] < told["holding"]["hot_h"]
    assert told["bag"]["packing_m3"] == pytest.approx(0.04)
    assert {each["dry"]["material"] for each in told["materials"]} == set(shelf.load().materials)
    assert [each["thickness_m"] for each in told["thicknesses"]][:2] == [0.02, 0.04]


def test_what_a_house_has_is_laid_from_the_inside_out(run):
    have = ("--have", "newspaper 60 L", "--have", "wool_blanket 20 L", "--have", "eps_board=20 L")
    text = " ".join(run("box", *have).stdout.split())
    assert "From what you have, inside out" in text
    assert "cm of wool blankets, then" in text
    assert "softens there)" in text
    assert "The first is best. Lay it as thick below and above the 6 L pot as round it" in text
    told = json.loads(run("box", *have, "--json", "-").stdout)["laid"]
    assert len(told) == 7
    assert told[0]["inside_out"][0]["material"] == "wool_blanket"
    assert told[0]["too_soft"] == []
    assert sum(each["packing_m3"] for each in told[0]["inside_out"]) == pytest.approx(0.1)
    heavy = run("box", "--have", "wool_blanket 3 kg", "--json", "-")
    weighed = json.loads(heavy.stdout)["laid"][0]["inside_out"][0]
    assert weighed["packing_m3"] == pytest.approx(
        3 / shelf.load().materials["wool_blanket"].density_kg_m3
    )


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (("--thickness", "10"), "--thickness: '10' has no unit; write for example '10 cm'"),
        (("--thickness", "3 m"), "must be 0.01 to 0.5 m"),
        (("--gap", "0.7"), "--gap: must be 0 to 0.5, given 0.7"),
        (("--fill", "2"), "--fill: must be 0.1 to 1"),
        (("--pot", "pot_7l"), "did you mean pot_"),
        (("--pot", "pot_30l"), "does not go into it"),
        (("--bag", "1 L"), "do not go 1 cm thick round"),
        (("--cooker", "jar_2l", "--damp"), "has no packing"),
        (("--dish", "xyzzy"), "check --shelf lists"),
        (("--have", "straw"), "write a name and an amount, such as 'newspaper 60 L'"),
        (("--have", "straw 60"), "write a name and an amount"),
        (("--have", "strow 60 L"), "did you mean straw?"),
        (("--have", "straw 60 cm"), "is not a volume or a mass"),
        (("--have", "straw 2000 L"), "must be 0.5 to 1000 L"),
        (("--have", "feathers 0.6 L"), "not enough to go round the 6 L pot"),
        (("--cooker", "jar_2l", "--have", "straw 20 L"), "has no packing"),
        (("--kitchen", "12"), "--kitchen: '12' has no unit"),
    ],
)
def test_a_wrong_option_of_box_is_told(run, options, words):
    said = run("box", *options)
    assert said.exit_code == 2
    assert words in said.stderr


def test_all_wrong_options_of_box_are_told_at_once(run):
    said = run("box", "--pot", "x", "--gap", "3", "--bag", "y", "--dish", "zzzzz", "--fill", "9")
    assert said.exit_code == 2
    told = {line.split(":")[1].strip() for line in said.stderr.splitlines()}
    assert told == {"--pot", "--gap", "--bag", "--dish", "--fill"}


def test_a_water_test_is_told(run, readings):
    said = run("test-box", readings)
    assert said.exit_code == 0, said.stderr
    assert narrow(said)
    assert "One reading lies too far off the curve" in said.stdout
    assert "left out (line 10)" in said.stdout
    assert narrow(run("test-box", readings, "--units", "us"))


def test_a_water_test_changes_the_plan(run, readings, file):
    before, text = plan(read(file)), file.read_text(encoding="utf-8")
    said = run("test-box", readings, "--into", file, "--as", "packed_box")
    assert said.exit_code == 0, said.stderr
    assert "Written into" in said.stdout
    assert file.with_name("morning.yaml~").read_text(encoding="utf-8") == text
    box = read(file).cookers[0].cooker
    told = json.loads(run("test-box", readings, "--json", "-").stdout)
    assert box.loss_w_k == pytest.approx(told["loss_w_k"]["value"], rel=0.005)
    assert box.packing_j_k == pytest.approx(told["packing_j_k"]["value"], rel=0.005)
    after = plan(read(file))
    temperatures = [
        [step.serve_c_low for step in made.steps if step.cooker] for made in (before, after)
    ]
    assert temperatures[0] != temperatures[1] or len(before.steps) != len(after.steps)


def test_a_new_box_is_written_like_one_of_the_shelf(run, readings, file):
    said = run("test-box", readings, "--into", file, "--as", "ours", "--like", "hay_box")
    assert said.exit_code == 0, said.stderr
    names = {own.cooker.name: own.cooker for own in read(file).cookers}
    assert names["ours"].material.name == "straw"


def test_a_stove_test_is_told_and_written(run, boiling, file):
    assert narrow(run("test-stove", boiling))
    assert narrow(run("test-stove", boiling, "--units", "us"))
    said = run("test-stove", boiling, "--into", file, "--as", "stick_stove")
    assert said.exit_code == 0, said.stderr
    stove = next(own.stove for own in read(file).stoves if own.stove.name == "stick_stove")
    told = json.loads(run("test-stove", boiling, "--json", "-").stdout)
    assert stove.efficiency == pytest.approx(told["efficiency"]["value"], rel=0.005)
    assert stove.power_w == pytest.approx(told["power_w"], rel=0.005)
    assert stove.low_power_w == shelf.load().stoves["stick_stove"].low_power_w


@pytest.mark.parametrize("command", ["test-box", "test-stove"])
def test_into_needs_a_name_and_inputs_are_kept(run, readings, boiling, file, command):
    source = readings if command == "test-box" else boiling
    before = [each.read_bytes() for each in (source, file)]
    for words, told in [
        (("--into", file), "--as: --into needs --as NAME"),
        (("--as", "packed_bx"), "--as: there is no"),
        (("--like", "hay_box"), "--like is for --into FILE --as NAME"),
        (("--json", source), "is an input; it is kept"),
        (("--into", file, "--as", "packed_box", "--json", file), "is an input; it is kept"),
        (("--into", source, "--as", "packed_box"), "is the file of readings"),
    ]:
        said = run(command, source, *words)
        assert said.exit_code == 2
        assert told in said.stderr
    assert [each.read_bytes() for each in (source, file)] == before


def test_problems_of_readings_options_and_scenario_come_at_once(run, readings, bad):
    readings.write_text(BOX_CSV.replace("85.5", "hot"), encoding="utf-8")
    said = run("test-box", readings, "--into", bad, "--as", "packed_box", "--json", "-")
    assert said.exit_code == 2
    assert len(json.loads(said.stdout)["problems"]) >= 3


def test_an_uncertain_box_is_not_written(run, readings, file):
    rough = BOX_CSV[: BOX_CSV.index("0,97.0")] + "0,97\n20,91\n40,92.5\n"
    readings.write_text(rough, encoding="utf-8")
    before = file.read_bytes()
    said = run("test-box", readings, "--into", file, "--as", "packed_box")
    assert said.exit_code == 2
    assert "too uncertain" in said.stderr
    assert file.read_bytes() == before
    assert run("test-box", readings).exit_code == 0


def test_a_folder_that_cannot_be_written_ends_with_four(run, readings, tmp_path):
    said = run("test-box", readings, "--json", tmp_path / "no" / "where.json")
    assert said.exit_code == 4


@pytest.mark.parametrize("command", ["test-box", "test-stove"])
def test_a_file_that_is_not_there(run, command):
    said = run(command, "nowhere.csv")
    assert said.exit_code == 2
    assert "there is no such file" in said.stderr
