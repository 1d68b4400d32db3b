"""The Menu page: what one big boil would save, and dishes that are drawn on."""

MENU = """\
menu:
  - meal: breakfast
    at: "07:30"
    dishes:
      - tea
      - hot_bottles
      - {dish: washing_water, drawn: {07:40: 1 L, 08:00: 1 L}}
"""


def test_the_answer_comes_when_it_is_asked_for_and_changes_nothing(window, file, press):
    head = file.read_text("utf-8").split("menu:\n")[0]
    file.write_text(head.replace("pot_2_5l: 1", "pot_2_5l: 2, pot_6l: 1") + MENU, "utf-8")
    before = file.read_text("utf-8")
    shown = window("menu")
    assert not [each for each in shown.markdown if "one pot" in each.value]
    press(shown, "What would one big boil save?")
    told = "\n".join(each.value for each in shown.markdown).replace("\\", "")
    assert "Water boiled once a day, in one pot, for tea at 07:30" in told
    assert "Against boiling each by itself it takes" in told
    assert "drawn 07:40 1 L, 08:00 1 L" in told
    assert file.read_text("utf-8") == before
    assert not shown.error


def test_a_big_boil_is_named_among_the_dishes(window, file):
    head = file.read_text("utf-8").split("menu:\n")[0]
    boil = '  - {meal: breakfast, at: "07:30", dishes: [{one_boil: [tea, hot_bottles]}]}\n'
    file.write_text(head + "menu:\n" + boil, "utf-8")
    shown = window("menu")
    told = "\n".join(each.value for each in shown.markdown).replace("\\", "")
    assert "**one boil for tea, water for hot bottles**" in told
    assert not shown.error
