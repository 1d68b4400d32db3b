"""Files: download, upload with every problem listed, save elsewhere, two windows, undo."""

import pytest

from app.desk import working_copy
from app.launch import SETTINGS
from optimizer.cli.outlet import demo_file

ELSEWHERE = "changed in another window"


def upload(window, text, name="theirs.yaml"):
    content = text if isinstance(text, bytes) else text.encode("utf-8")
    window.get("file_uploader")[0].set_value((name, content, "application/yaml")).run()
    assert not window.exception


def told(window):
    return [line.value.replace("\\", "") for line in window.markdown]


def test_the_file_can_be_taken_along(window, file):
    assert [d.label for d in window("plan").get("download_button")][:1] == [
        "Download this scenario (YAML)"
    ]


def test_a_sound_file_is_opened_and_the_old_one_can_be_had_back(window, file, press):
    before = file.read_text(encoding="utf-8")
    shown = window("kitchen")
    upload(shown, before.replace("One cold morning", "Theirs"))
    assert file.read_text(encoding="utf-8") == before
    press(shown, "Open it")
    assert "Theirs" in file.read_text(encoding="utf-8")
    assert file.with_name("morning.yaml~").read_text(encoding="utf-8") == before
    press(shown, "Undo")
    assert file.read_text(encoding="utf-8") == before


def test_a_wrong_file_lists_every_problem_and_can_be_mended_here(window, file, press):
    before = file.read_text(encoding="utf-8")
    shown = window("kitchen")
    bad = before.replace("stock: 3 kg", "stock: 3").replace("days: 1", "days: one")
    upload(shown, bad.replace("title:", "titel:"))
    lines = told(shown)
    assert any("line 2, titel" in line and "did you mean 'title'" in line for line in lines)
    assert any("line 4, days" in line and "given 'one'" in line for line in lines)
    assert any("line 8, fuels.sticks.stock" in line and "given 3" in line for line in lines)
    assert file.read_text(encoding="utf-8") == before
    press(shown, "Open it and mend it here")
    assert "titel" in file.read_text(encoding="utf-8")
    shown.number_input("field:days").set_value(1).run()
    shown.text_input("field:fuels.sticks.stock").set_value("3 kg").run()
    assert "days: 1\n" in file.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("content", "reason"),
    [
        (b"a: [", "broken YAML"),
        (b"", "is empty"),
        (b"\xff\xfe\x00", "not UTF-8"),
        (b"# " + 1_000_001 * b"x", "larger than 1 MB"),
        (b"a: !!python/object:os.system x", "tag"),
    ],
)
def test_what_is_no_scenario_is_refused_and_nothing_is_lost(window, file, content, reason):
    before = file.read_text(encoding="utf-8")
    shown = window("kitchen")
    upload(shown, content)
    assert any(reason in line for line in told(shown)), told(shown)
    assert file.read_text(encoding="utf-8") == before
    assert "One cold morning" in shown.markdown[0].value


def test_the_server_refuses_more_than_a_megabyte():
    assert SETTINGS["server.maxUploadSize"] == 1


# the demo


def test_the_demo_says_that_it_is_one_and_where_changes_go(window, header):
    shown = window("kitchen")
    assert header(shown) == "The demo. What you change is kept in a copy of your own."
    shown.text_input("field:fuels.sticks.stock").set_value("5 kg").run()
    assert header(shown) == "Your copy of the demo, saved"
    assert "5 kg" in working_copy().read_text(encoding="utf-8")
    again = window("kitchen")
    assert again.text_input("field:fuels.sticks.stock").value == "5 kg"


def test_the_demo_can_be_begun_again(window, press):
    shown = window("kitchen")
    shown.text_input("field:fuels.sticks.stock").set_value("5 kg").run()
    press(shown, "Start again from the demo")
    assert shown.text_input("field:fuels.sticks.stock").value == "12 kg"
    assert working_copy().read_text(encoding="utf-8") == demo_file().read_text(encoding="utf-8")
    press(shown, "Undo")
    assert shown.text_input("field:fuels.sticks.stock").value == "5 kg"


def test_saved_elsewhere_it_goes_on_there(window, press, header, tmp_path):
    shown = window("kitchen")
    shown.text_input("save as").set_value(str(tmp_path / "outage.yaml")).run()
    press(shown, "Save there")
    assert header(shown) == "outage.yaml, saved"
    shown.text_input("field:fuels.sticks.stock").set_value("5 kg").run()
    assert "5 kg" in (tmp_path / "outage.yaml").read_text(encoding="utf-8")


def test_a_file_that_is_there_is_not_saved_over(window, file, press, tmp_path):
    other = tmp_path / "other.yaml"
    other.write_text("theirs", encoding="utf-8")
    shown = window("kitchen")
    shown.text_input("save as").set_value(str(other)).run()
    press(shown, "Save there")
    assert "there already" in shown.info[0].value
    assert other.read_text(encoding="utf-8") == "theirs"


# two windows


def test_two_windows_overwrite_nothing_silently(window, file, press, header):
    one, two = window("kitchen"), window("kitchen")
    one.text_input("field:fuels.sticks.stock").set_value("4 kg").run()
    two.text_input("field:fuels.sticks.stock").set_value("5 kg").run()
    assert "4 kg" in file.read_text(encoding="utf-8")
    assert header(two) == "morning.yaml, NOT saved"
    assert ELSEWHERE in two.error[0].value
    press(two, "Take the other version")
    assert two.text_input("field:fuels.sticks.stock").value == "4 kg"
    assert not two.error


def test_this_window_can_have_its_way(window, file, press):
    one, two = window("kitchen"), window("kitchen")
    one.text_input("field:fuels.sticks.stock").set_value("4 kg").run()
    two.text_input("field:fuels.sticks.stock").set_value("5 kg").run()
    press(two, "Keep mine (the other stays beside it)")
    assert "5 kg" in file.read_text(encoding="utf-8")
    assert "4 kg" in file.with_name("morning.yaml~").read_text(encoding="utf-8")


def test_a_window_without_changes_shows_the_new_version_and_says_so(window, file):
    one, two = window("kitchen"), window("kitchen")
    one.text_input("field:fuels.sticks.stock").set_value("4 kg").run()
    two.run()
    assert two.text_input("field:fuels.sticks.stock").value == "4 kg"
    assert ELSEWHERE in two.info[0].value


def test_undo_takes_several_steps_back_across_pages(window, file, press):
    before = file.read_text(encoding="utf-8")
    shown = window("kitchen")
    shown.text_input("field:fuels.sticks.stock").set_value("4 kg").run()
    shown.switch_page("views/menu.py").run()
    shown.text_input("field:menu[1].at").set_value("07:00").run()
    press(shown, "Undo")
    press(shown, "Undo")
    assert file.read_text(encoding="utf-8") == before
    assert shown.text_input("field:menu[1].at").value == "07:30"
    undo = next(button for button in shown.button if button.label == "Undo")
    assert undo.disabled
