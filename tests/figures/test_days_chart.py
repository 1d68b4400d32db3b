"""What is left of each fuel is drawn as high as it is, and said in words."""

import pytest

from app.figures.lasting import BAND_PX, lasting_chart, lasting_data
from app.figures.look import DARK, LIGHT
from optimizer.report.days_left import DaysLeft

FUELS = (
    DaysLeft("sticks", (1.0, 0.5, 0.0), ("4 kg", "2 kg", "0 g"), ends=2),
    DaysLeft("gas", (1.0, 0.75, 0.5), ("400 g", "300 g", "200 g"), ends=None),
)


def test_bars_are_as_high_as_what_is_left():
    rows, height = lasting_data(FUELS)
    high = [row["y2"] - row["y"] for row in rows["left"]]
    assert high == [0.5 * BAND_PX, 0.0, 0.75 * BAND_PX, 0.5 * BAND_PX]
    assert max(row["y2"] for row in rows["full"]) < height
    assert [row["text"] for row in rows["words"]] == ["sticks: lasts until day 2",
                                                     "gas: does not end"]  # fmt: skip


def test_no_bar_runs_into_the_next_or_over_a_name():
    rows, _ = lasting_data(FUELS)
    first = rows["full"][:2]
    assert first[0]["x2"] < first[1]["x"]
    second_name = rows["words"][1]["y"]
    assert rows["base"][0]["y"] < second_name < rows["full"][2]["y"]


@pytest.mark.parametrize("look", [LIGHT, DARK])
def test_the_chart_says_in_words_what_it_shows(look):
    spec = lasting_chart(FUELS, look).to_dict()
    assert "sticks: lasts until day 2" in spec["description"]
    assert "after each of 2 days" in spec["description"]


def test_many_days_get_few_numbers():
    shares = tuple(1 - day / 60 for day in range(61))
    many = DaysLeft("sticks", shares, ("1 kg",) * 61, ends=60)
    spec = lasting_chart((many,), LIGHT).to_dict()
    axis = next(
        layer["encoding"]["x"]["axis"] for layer in spec["layer"] if layer["encoding"]["x"]["axis"]
    )
    assert len(axis["values"]) <= 10
