"""The Sheet page, and the worksheets that a page offers."""

from streamlit.testing.v1 import AppTest


def labels(shown: AppTest) -> set[str]:
    return {each.proto.label for each in shown.get("download_button")}


def test_the_sheet_is_shown_and_can_be_taken_along(window, file):
    shown = window("sheet")
    assert labels(shown) >= {"Download the sheets (HTML)", "Download the fridge copy (HTML)"}
    (frame,) = shown.get("iframe")
    assert "One cold morning" in frame.proto.srcdoc
    assert 'class="day' in frame.proto.srcdoc


def test_the_fridge_copy_alone(window, file):
    shown = window("sheet")
    shown.segmented_control[0].set_value("Fridge copy").run()
    (frame,) = shown.get("iframe")
    assert 'class="fridge' in frame.proto.srcdoc
    assert 'class="day' not in frame.proto.srcdoc


def test_us_measures_reach_the_sheet(window, file):
    shown = window("sheet")
    shown.toggle[0].set_value(True).run()
    (frame,) = shown.get("iframe")
    assert "140\xa0\N{DEGREE SIGN}F" in frame.proto.srcdoc


def test_without_a_plan_there_is_nothing_to_print(window, file):
    text = file.read_text(encoding="utf-8")
    none = text.replace("3 kg", "1 g").replace("1 x 465 g", "1 g")
    file.write_text(none, encoding="utf-8")
    shown = window("sheet")
    assert "no plan yet" in shown.warning[0].value
    assert not shown.get("iframe")


def test_worksheets_for_a_class(file):
    def page() -> None:
        from app.panels.worksheets import worksheets

        worksheets()

    shown = AppTest.from_function(page).run()
    assert not shown.exception
    assert len(labels(shown)) == 3
    assert any("only with grown people" in line.value for line in shown.markdown)


def test_worksheets_wait_for_a_sound_scenario(file):
    file.write_text("title: nothing else", encoding="utf-8")

    def page() -> None:
        from app.panels.worksheets import worksheets

        worksheets()

    shown = AppTest.from_function(page).run()
    assert not shown.exception
    assert not labels(shown)
