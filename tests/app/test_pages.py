"""Every page runs, on a sound scenario, on a wrong one and on a broken one."""

import pytest

PAGES = ("plan", "kitchen", "menu", "how_long", "tradeoffs", "box", "log", "sheet")


@pytest.mark.parametrize("page", PAGES)
def test_every_page_has_one_title_and_the_header(window, file, page):
    shown = window(page)
    assert len(shown.title) <= 1
    assert not shown.error
    assert shown.caption[0].value == "morning.yaml, saved"
    assert "One cold morning" in shown.markdown[0].value
    assert {"Undo"} <= {button.label for button in shown.button}


@pytest.mark.parametrize("page", PAGES)
def test_the_way_to_every_page_stands_on_every_page_in_words(window, file, page):
    doors = [link.proto.label for link in window(page).get("page_link")]
    assert {"Plan", "Kitchen", "Menu", "Trade-offs", "Sheet"} <= set(doors)
    assert len(doors) == len(set(doors))


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ("stock: 3 kg", "stock: 3", "fuels.sticks.stock"),
        ("altitude: 100 m", "altitude: 9000 m", "place.altitude"),
        ("pot_2_5l: 1", "pot_2_5l: many", "pots.pot_2_5l"),
        ("dishes: [porridge]", "dishes: [porrige]", "menu[1].dishes[1]"),
        ('at: "07:30"', 'at: "27:30"', "menu[1].at"),
        ("days: 1", "dayz: 1", "dayz"),
        ("people: {adults: 1, children: 1}", "people: none", "people"),
        ("stoves: {stick_stove: 1", "stoves: {stik_stove: 1", "stoves.stik_stove"),
        ("fuels:\n", "fuels: 7\nwas:\n", "fuels"),
        ("menu:\n", "menus:\n", "menus"),
    ],
)  # fmt: skip
def test_a_fault_is_told_with_its_line_and_key_on_every_page(window, file, page, old, new, key):
    text = file.read_text(encoding="utf-8")
    assert old in text
    bad = text.replace(old, new)
    file.write_text(bad, encoding="utf-8")
    shown = window(page)
    assert shown.error
    told = [line.value.replace("\\", "") for line in shown.markdown]
    assert any(f"line {_line(bad, new)}, {key}" in line for line in told), told


def _line(text: str, part: str) -> int:
    return text[: text.index(part)].count("\n") + 1


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.parametrize("text", ["", "a: [", "just words", "- a list", "a: 1\na: 2", "\t"])
def test_what_is_no_scenario_is_told_without_a_traceback(window, file, page, text):
    file.write_text(text, encoding="utf-8")
    shown = window(page)
    assert shown.error
    assert any("*" in line.value for line in shown.markdown)


def test_words_of_a_person_are_no_marks(window, file):
    text = file.read_text(encoding="utf-8").replace("One cold morning", "'A *b* [c](d) $e$ :f:'")
    file.write_text(text, encoding="utf-8")
    shown = window("kitchen")
    assert shown.markdown[0].value == r"**A \*b\* \[c\]\(d\) \$e\$ \:f\:**"


def test_measures_stay_when_the_page_changes(window, file):
    shown = window("kitchen")
    shown.toggle[0].set_value(True).run()
    shown.switch_page("views/menu.py").run()
    assert shown.toggle[0].value is True
    assert any("thousand BTU" in table.value.to_string() for table in shown.table)
